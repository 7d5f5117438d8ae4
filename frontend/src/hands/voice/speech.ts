import { signal } from "@preact/signals";

/** How long after the last word the room still holds it, in milliseconds. */
export const ECHO = 300;
const VOICES_MS = 2500; // until a device that has voices has named them
const AFTER_CANCEL = 60; // some engines swallow what is said in the same breath as a cancel

/** The voices of this device itself: a sentence of the pattern must not leave the house to be spoken. */
export function localVoices(voices: readonly SpeechSynthesisVoice[], language: string): SpeechSynthesisVoice[] {
  const short = language.slice(0, 2).toLowerCase();
  return voices.filter((v) => v.localService && v.lang.toLowerCase().startsWith(short));
}

/** The one chosen by name, else the one that fits the region, else the device's default, else the first. */
export function voiceFor(voices: readonly SpeechSynthesisVoice[], name: string, region: string): SpeechSynthesisVoice | null {
  const same = (v: SpeechSynthesisVoice) => v.lang.replace("_", "-").toLowerCase() === region.toLowerCase();
  return voices.find((v) => v.name === name) ?? voices.find((v) => same(v)) ?? voices.find((v) => v.default) ?? voices[0] ?? null;
}

/** Says one thing at a time; a newer thing takes the place of an older one. */
export class Speech {
  readonly speaking = signal(false);
  readonly voices = signal<SpeechSynthesisVoice[]>([]);
  /** Known to have no voice of its own. Before the device has answered: false. */
  readonly mute = signal(false);
  /** What was said last, to say it again. */
  last = "";
  #turn = 0;
  #end: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly language: string,
    private readonly chosen: () => { voice: string; rate: number },
    private readonly synth: SpeechSynthesis | undefined = globalThis.speechSynthesis,
  ) {
    const look = () => {
      this.voices.value = localVoices(this.synth?.getVoices() ?? [], this.language);
      if (this.voices.value.length) this.mute.value = false;
    };
    look();
    this.synth?.addEventListener?.("voiceschanged", look);
    setTimeout(() => {
      look();
      this.mute.value = this.voices.value.length === 0;
    }, VOICES_MS);
  }

  /** In the touch that starts it all: some devices let a page speak only after that. */
  unlock(): void {
    if (!this.synth) return;
    const nothing = new SpeechSynthesisUtterance(" ");
    nothing.volume = 0;
    this.synth.speak(nothing);
  }

  /** False where there is no voice to say it. */
  say(text: string): boolean {
    if (!text) return false;
    this.last = text;
    const { voice, rate } = this.chosen();
    const found = voiceFor(this.voices.value, voice, globalThis.navigator?.language ?? this.language);
    if (!this.synth || !found) return false;
    this.#turn += 1;
    const turn = this.#turn;
    const words = new SpeechSynthesisUtterance(text);
    words.voice = found;
    words.lang = found.lang;
    words.rate = rate;
    const over = () => this.#over(turn);
    words.onend = over;
    words.onerror = over;
    this.speaking.value = true;
    clearTimeout(this.#end);
    // An engine that never says that it is done must not leave the page deaf.
    this.#end = setTimeout(() => {
      if (turn === this.#turn) this.synth?.cancel();
      over();
    }, 4000 + (text.length * 130) / rate);
    const busy = this.synth.speaking || this.synth.pending;
    if (busy) {
      this.synth.cancel();
      setTimeout(() => turn === this.#turn && this.synth?.speak(words), AFTER_CANCEL);
    } else this.synth.speak(words);
    return true;
  }

  hush(): void {
    if (!this.speaking.value) return;
    this.#turn += 1;
    this.synth?.cancel();
    this.#over(this.#turn);
  }

  #over(turn: number): void {
    if (turn !== this.#turn) return;
    clearTimeout(this.#end);
    this.#end = setTimeout(() => {
      if (turn === this.#turn) this.speaking.value = false;
    }, ECHO);
  }
}
