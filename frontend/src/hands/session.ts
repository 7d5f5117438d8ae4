import { computed, effect, signal } from "@preact/signals";
import { keepAwake } from "./awake";
import { Ear } from "./ear/ear";
import type { About, Counted, Heard } from "./ear/events";
import { type Line, openLine } from "./ear/line";
import { headsetButtons } from "./headset";
import { NoMicrophone, openMicrophone, troubleSaid } from "./sound/microphone";
import { type Chime, chime } from "./voice/chimes";
import { Speech } from "./voice/speech";
import { wishes } from "./wishes";

/** Why it holds. "rest": until the work goes on; "nothing": nothing has happened for long. */
export type Holding = "asked" | "rest" | "hidden" | "call" | "nothing";

/** What it does, for eyes that look up for a moment. "deaf": it cannot listen, and says why. */
export type Sign = "starting" | "listening" | "holding" | "speaking" | "deaf";

/** Nothing said and nothing moved for so long: nobody is at the yarn, and a word on the radio should do nothing. */
export const NOTHING_MS = 8 * 60_000;

export interface Told {
  heard(heard: Heard): void;
  counted(counted: Counted): void;
  headset(what: "next" | "back" | "listen"): void;
  /** A key or a pedal asks for what only hands-free can do. */
  asked(what: "recount" | "finish"): void;
}

/** One stretch of working hands-free, from the touch that starts it. */
export class Session {
  readonly held = signal<Holding | null>(null);
  /** What keeps the microphone from being heard, as a sentence; "" while it is open. */
  readonly trouble = signal("");
  readonly speech: Speech;
  readonly ear: Ear;
  /** Whom it tells what it hears. */
  told: Told = { heard() {}, counted() {}, headset() {}, asked() {} };
  readonly #open = signal(false);
  readonly #line: Line;
  #context: AudioContext | null = null;
  #close: (() => void) | null = null;
  #undo: (() => void)[] = [];
  #idle: ReturnType<typeof setTimeout> | undefined;
  #opening = false;
  #over = false;

  readonly sign = computed<Sign>(() => {
    if (this.speech.speaking.value) return "speaking";
    if (this.held.value !== null) return "holding";
    if (this.trouble.value) return "deaf";
    const standing = this.ear.standing.value;
    if (standing === "open" && this.#open.value) return "listening";
    return standing === "asking" || standing === "closed" || standing === "open" ? "starting" : "deaf";
  });

  /** Why it is deaf, and what to do. */
  readonly why = computed(() => {
    if (this.trouble.value) return this.trouble.value;
    if (this.ear.standing.value === "away") return "No connection, so nothing is heard. Touch and keys go on; listening comes back by itself.";
    return this.ear.why.value;
  });

  constructor(about: () => About, line: Line = openLine()) {
    this.#line = line;
    this.ear = new Ear(line, about, { heard: (said) => this.told.heard(said), counted: (number) => this.told.counted(number) });
    // What is spoken comes out of the pattern, which is in English, whatever language is listened for.
    this.speech = new Speech("en", () => wishes.value);
    this.#undo.push(effect(() => this.ear.deaf(this.speech.speaking.value)));
    this.#undo.push(
      effect(() => {
        if (!wishes.value.headset) return;
        return headsetButtons((what) => this.told.headset(what));
      }),
    );
  }

  /** In the touch itself: sound, speech and the screen are given to a page only there. */
  start(): void {
    this.#context ??= new AudioContext({ latencyHint: "interactive" });
    void this.#context.resume();
    this.#context.onstatechange = () => this.#running();
    this.speech.unlock();
    this.#undo.push(keepAwake());
    const hidden = () => {
      if (document.visibilityState === "hidden") this.hold("hidden");
      else void this.#context?.resume();
    };
    const plugged = () => {
      if (!this.#close && this.held.value === null) void this.#listen();
    };
    const resume = () => void (this.#context?.state !== "running" && this.#context?.resume());
    document.addEventListener("visibilitychange", hidden);
    addEventListener("pointerdown", resume);
    navigator.mediaDevices?.addEventListener?.("devicechange", plugged);
    this.#undo.push(() => {
      document.removeEventListener("visibilitychange", hidden);
      removeEventListener("pointerdown", resume);
      navigator.mediaDevices?.removeEventListener?.("devicechange", plugged);
    });
    this.stirred();
    void this.#listen();
    void this.ear.open();
  }

  /** Something moved, by whichever road: somebody is there. */
  stirred(): void {
    clearTimeout(this.#idle);
    if (!this.#over) this.#idle = setTimeout(() => this.hold("nothing"), NOTHING_MS);
  }

  /** Hear nothing but "start listening" from now on. What may be said is told by whoever knows the place. */
  hold(why: Holding): void {
    if (!this.#over) this.held.value ??= why;
  }

  /** Listen again, and try again what failed. */
  listen(): void {
    if (this.#over) return;
    this.held.value = null;
    void this.#context?.resume();
    this.stirred();
    if (!this.#close) void this.#listen();
    const { standing } = this.ear;
    if (standing.value !== "open" && standing.value !== "asking") void this.ear.open();
  }

  /** Ask the server to listen afresh: the choices have changed. */
  relisten(): void {
    if (this.ear.standing.value === "open") void this.ear.open();
  }

  /** Says a line that stands on the screen, where the maker wants to hear anything. */
  read(text: string): void {
    if (wishes.value.spoken !== "silent") this.speech.say(text);
  }

  chime(which: Chime): void {
    if (wishes.value.chimes) chime(this.#context, which);
  }

  end(): void {
    this.#over = true;
    clearTimeout(this.#idle);
    this.speech.hush();
    this.ear.close();
    this.#line.close();
    this.#shut();
    for (const undo of this.#undo.splice(0)) undo();
    // A chime that is on its way is heard out.
    const context = this.#context;
    if (context) setTimeout(() => void context.close(), 1000);
  }

  async #listen(): Promise<void> {
    if (!this.#context || this.#opening) return;
    this.#opening = true;
    try {
      const close = await openMicrophone(this.#context, {
        packet: (pcm) => this.ear.packet(pcm),
        ended: () => {
          this.#shut();
          this.trouble.value = troubleSaid("unplugged");
        },
        muted: (on) => on && this.hold("call"),
      });
      if (this.#over) close();
      else {
        this.#close = close;
        this.trouble.value = "";
        this.#open.value = true;
      }
    } catch (error) {
      this.trouble.value = error instanceof NoMicrophone ? error.message : troubleSaid("taken");
    }
    this.#opening = false;
  }

  #shut(): void {
    this.#close?.();
    this.#close = null;
    this.#open.value = false;
    this.ear.level.value = 0;
  }

  /** A call takes the sound away on some phones ("interrupted"), without a word about the microphone. */
  #running(): void {
    const state = this.#context?.state as string | undefined;
    if (state === "interrupted" && document.visibilityState === "visible") this.hold("call");
  }
}
