import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { ECHO, localVoices, Speech, voiceFor } from "./speech";

const voice = (name: string, lang: string, localService = true, standard = false) =>
  ({ name, lang, localService, default: standard, voiceURI: name }) as SpeechSynthesisVoice;
const KATE = voice("Kate", "en-GB");
const SAM = voice("Sam", "en_US");
const CLOUD = voice("Cloud", "en-US", false, true);

class Words {
  onend = () => {};
  onerror = () => {};
  volume = 1;
  constructor(readonly text: string) {}
}

/** A device that speaks: what it was told, and a way to come to the end of it. */
class Pretend {
  speaking = false;
  pending = false;
  told: Words[] = [];
  cancelled = 0;
  constructor(private readonly voices: SpeechSynthesisVoice[]) {}
  getVoices = () => this.voices;
  addEventListener() {}
  speak(words: Words) {
    this.told.push(words);
    this.speaking = true;
  }
  cancel() {
    this.cancelled += 1;
    this.speaking = false;
  }
  end() {
    this.speaking = false;
    this.told.at(-1)?.onend();
  }
}

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal("SpeechSynthesisUtterance", Words);
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const speech = (synth: Pretend) => new Speech("en", () => ({ voice: "", rate: 1 }), synth as unknown as SpeechSynthesis);

describe("speech", () => {
  test("only voices of this device: a sentence does not leave the house", () => {
    expect(localVoices([CLOUD, KATE, voice("Yuna", "ko-KR")], "en")).toEqual([KATE]);
    expect(voiceFor([KATE, SAM], "", "en-US")).toBe(SAM);
    expect(voiceFor([KATE, SAM], "Kate", "en-US")).toBe(KATE);
    expect(voiceFor([], "", "en")).toBeNull();
  });

  test("speaking lasts until a little after the last word", () => {
    const synth = new Pretend([KATE]);
    const one = speech(synth);
    expect(one.say("Round four.")).toBe(true);
    expect(one.speaking.value).toBe(true);
    synth.end();
    vi.advanceTimersByTime(ECHO - 1);
    expect(one.speaking.value).toBe(true);
    vi.advanceTimersByTime(1);
    expect(one.speaking.value).toBe(false);
  });

  test("a newer sentence takes the place of the older, whose end then means nothing", () => {
    const synth = new Pretend([KATE]);
    const one = speech(synth);
    one.say("Round four.");
    one.say("Round five.");
    expect(synth.cancelled).toBe(1);
    synth.told[0]?.onend();
    vi.advanceTimersByTime(200);
    expect(synth.told.map((w) => w.text)).toEqual(["Round four.", "Round five."]);
    vi.advanceTimersByTime(400);
    expect(one.speaking.value).toBe(true);
    synth.end();
    vi.advanceTimersByTime(ECHO);
    expect(one.speaking.value).toBe(false);
  });

  test("an engine that never comes to an end does not leave the page deaf", () => {
    const synth = new Pretend([KATE]);
    const one = speech(synth);
    one.say("Round four.");
    vi.advanceTimersByTime(4000 + 11 * 130 + ECHO);
    expect(one.speaking.value).toBe(false);
    expect(synth.cancelled).toBe(1);
  });

  test("no voice on this device: nothing is said, and that is known", () => {
    const one = speech(new Pretend([CLOUD]));
    expect(one.say("Round four.")).toBe(false);
    expect(one.speaking.value).toBe(false);
    vi.advanceTimersByTime(3000);
    expect(one.mute.value).toBe(true);
    expect(one.last).toBe("Round four.");
  });
});
