import { beforeEach, describe, expect, test } from "vitest";
import { PACKET } from "../sound/packet";
import { Ear } from "./ear";
import type { About, Counted, Heard, Listening } from "./events";
import type { Line } from "./line";

/** A server's end: answers what it is set to, and can say things by itself. */
class Pretend implements Line {
  connected = false;
  told: [string, Record<string, unknown>][] = [];
  answer: Partial<Listening> = { ok: true, ear: "e1" };
  #on = new Map<string, ((data: never) => void)[]>();
  on(event: string, heard: (data: never) => void): void {
    this.#on.set(event, [...(this.#on.get(event) ?? []), heard]);
  }
  say(event: string, data: unknown): void {
    for (const heard of this.#on.get(event) ?? []) heard(data as never);
  }
  async ask(event: string, data: unknown): Promise<unknown> {
    this.told.push([event, data as Record<string, unknown>]);
    return this.answer;
  }
  tell(event: string, data: unknown): void {
    this.told.push([event, data as Record<string, unknown>]);
  }
  close(): void {}
  join(): void {
    this.connected = true;
    this.say("connect", undefined);
  }
  cut(): void {
    this.connected = false;
    this.say("disconnect", undefined);
  }
  of(event: string): Record<string, unknown>[] {
    return this.told.filter(([name]) => name === event).map(([, data]) => data);
  }
}

const ABOUT: About = { making: 3, device: "d", device_name: "phone", language: "en", single: false, count: null };
const loud = () => Int16Array.from({ length: PACKET }, (_, i) => 9000 * Math.sin(i));
const silent = () => new Int16Array(PACKET);
const settled = () => new Promise((done) => setTimeout(done));

let line: Pretend;
let heard: Heard[];
let counted: Counted[];
let ear: Ear;

beforeEach(() => {
  line = new Pretend();
  heard = [];
  counted = [];
  ear = new Ear(line, () => ABOUT, { heard: (h) => heard.push(h), counted: (c) => counted.push(c) });
});

describe("the ear", () => {
  test("asks to listen, and sends sound with its sequence once it may", async () => {
    line.join();
    ear.packet(loud());
    expect(line.of("sound")).toEqual([]);
    await ear.open();
    expect(ear.standing.value).toBe("open");
    for (let i = 0; i < 5; i++) ear.packet(silent());
    expect(line.of("sound")).toEqual([]);
    ear.packet(loud());
    ear.packet(loud());
    expect(line.of("sound").map((s) => s.seq)).toEqual([0, 1, 2, 3, 4, 5, 6]);
    expect((line.of("sound")[0]?.pcm as ArrayBuffer).byteLength).toBe(1600);
    expect(ear.level.value).toBeGreaterThan(0.5);
  });

  test("the same utterance twice is heard once; what is for another ear is not heard", async () => {
    line.join();
    await ear.open();
    const said = { ear: "e1", utterance: "a".repeat(32), intent: "next", unit: null, number: null, words: "next repeat", verdict: "act", ms: 3 };
    line.say("heard", said);
    line.say("heard", said);
    line.say("heard", { ...said, ear: "e9", utterance: "b".repeat(32) });
    expect(heard).toHaveLength(1);
    line.say("counted", { ear: "e1", utterance: "c", number: 4, confirmed: true, recount: false, words: "four" });
    line.say("counted", { ear: "e1", utterance: "c", number: 5, confirmed: true, recount: false, words: "five" });
    expect(counted.map((c) => c.number)).toEqual([4, 5]);
  });

  test("after a cut it listens again by itself, with what is expected now", async () => {
    line.join();
    await ear.open();
    line.cut();
    expect(ear.standing.value).toBe("away");
    ear.packet(loud());
    ear.expect({ waits: "stop", answers: null, count: null });
    line.answer = { ok: true, ear: "e2" };
    line.told = [];
    line.join();
    await settled();
    expect(ear.standing.value).toBe("open");
    expect(line.told.map(([name]) => name)).toEqual(["listen", "expect"]);
    expect(line.of("expect")[0]).toMatchObject({ ear: "e2", waits: "stop" });
  });

  test("deaf while the page speaks: nothing goes out", async () => {
    line.join();
    await ear.open();
    ear.deaf(true);
    ear.packet(loud());
    expect(line.of("sound")).toEqual([]);
    ear.deaf(false);
    ear.packet(loud());
    expect(line.of("deaf").map((d) => d.on)).toEqual([true, false]);
    expect(line.of("sound")).toHaveLength(1);
  });

  test("an engine that cannot listen, or is lost, is told in the server's words, and is not asked again unasked", async () => {
    line.join();
    line.answer = { ok: false, code: "damaged", say: "The model folder is damaged." };
    await ear.open();
    expect(ear.standing.value).toBe("lost");
    expect(ear.why.value).toBe("The model folder is damaged.");
    line.answer = { ok: true, ear: "e3" };
    await ear.open();
    expect(ear.standing.value).toBe("open");
    line.say("ear_lost", { ear: "e3", code: "no-engine", say: "The engine is gone." });
    expect(ear.standing.value).toBe("lost");
    line.cut();
    line.join();
    await settled();
    expect(ear.standing.value).toBe("lost");
  });

  test("another device that starts to listen takes the ear", async () => {
    line.join();
    await ear.open();
    line.say("ear_taken", { making: 9, by: "tablet" });
    expect(ear.standing.value).toBe("open");
    line.say("ear_taken", { making: 3, by: "tablet" });
    expect(ear.standing.value).toBe("taken");
    expect(ear.why.value).toBe("The ear was taken by the tablet.");
  });

  test("closed while the server still thinks: it stays closed", async () => {
    line.join();
    const asked = ear.open();
    ear.close();
    await asked;
    expect(ear.standing.value).toBe("closed");
    ear.packet(loud());
    expect(line.of("sound")).toEqual([]);
  });
});
