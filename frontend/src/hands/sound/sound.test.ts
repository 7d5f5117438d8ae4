import { describe, expect, test } from "vitest";
import { BEFORE, BEHIND, Gate } from "./gate";
import { troubleOf } from "./microphone";
import { loudness, PACKET, PACKET_MS } from "./packet";
import { resampler } from "./resample";

const tone = (hz: number, rate: number, length: number) => Float32Array.from({ length }, (_, i) => Math.sin((2 * Math.PI * hz * i) / rate));
const power = (samples: number[]) => 10 * Math.log10(samples.reduce((sum, v) => sum + v * v, 0) / samples.length);

function through(input: Float32Array, from: number): number[] {
  const out: number[] = [];
  const feed = resampler(from, 16_000);
  for (let i = 0; i < input.length; i += 128) feed(input.subarray(i, i + 128), (v) => out.push(v));
  return out;
}

describe("from the sound card's rate to 16 kHz", () => {
  test.each([48_000, 44_100, 16_000])("a tone at 1 kHz keeps its loudness and its pitch, from %d", (rate) => {
    const out = through(tone(1000, rate, rate), rate);
    expect(out.length).toBeGreaterThan(15_900);
    expect(out.length).toBeLessThanOrEqual(16_000);
    expect(power(out.slice(200, -200))).toBeCloseTo(-3.01, 1); // a full sine has half the power of 1
    const ups = out.slice(0, 15_900).filter((v, i) => i > 0 && v >= 0 && (out[i - 1] as number) < 0).length;
    expect(Math.abs(ups - 994)).toBeLessThanOrEqual(2);
  });

  test("what lies above half the lower rate does not fold back: 11 kHz is gone", () => {
    expect(power(through(tone(11_000, 48_000, 48_000), 48_000).slice(200, -200))).toBeLessThan(-60);
  });
});

const packet = (amplitude: number) => Int16Array.from({ length: PACKET }, (_, i) => Math.round(amplitude * Math.sin(i / 3)));

describe("the gate", () => {
  test("loudness: the loudest square is 0 dB, silence is far below", () => {
    expect(loudness(new Int16Array(PACKET).fill(-32768))).toBeCloseTo(0, 1);
    expect(loudness(new Int16Array(PACKET))).toBeLessThan(-90);
  });

  test("silence is not sent; a word is, with what came just before, and the silence left out is told", () => {
    const gate = new Gate();
    for (let i = 0; i < 40; i++) expect(gate.take(packet(20))).toBeNull();
    const first = gate.take(packet(4000));
    expect(first?.packets).toHaveLength(BEFORE + 1);
    expect(first?.quiet).toBe((40 - BEFORE) * PACKET_MS);
    expect(gate.take(packet(4000))?.quiet).toBe(0);
    let behind = 0;
    while (gate.take(packet(20))) behind++;
    expect(behind).toBe(BEHIND);
  });

  test("a steady hum is the room: speech over it still opens the gate, the hum alone does not", () => {
    const gate = new Gate();
    for (let i = 0; i < 60; i++) gate.take(packet(800));
    expect(gate.open).toBe(false);
    expect(gate.take(packet(2400))).not.toBeNull();
  });

  test("a long talk does not become the room while it goes up and down", () => {
    const gate = new Gate();
    for (let i = 0; i < 20; i++) gate.take(packet(30));
    for (let i = 0; i < 400; i++) expect(gate.take(packet(i % 12 < 3 ? 60 : 3000))).not.toBeNull();
  });

  test("what was said while the page spoke is thrown away, and its time is silence", () => {
    const gate = new Gate();
    for (let i = 0; i < 10; i++) gate.take(packet(20));
    for (let i = 0; i < 5; i++) gate.drop();
    const next = gate.take(packet(4000));
    expect(next?.packets).toHaveLength(1);
    expect(next?.quiet).toBe(15 * PACKET_MS);
  });
});

test("what browsers call it when there is no microphone", () => {
  const named = (name: string) => Object.assign(new Error(), { name });
  expect(troubleOf(named("NotAllowedError"))).toBe("refused");
  expect(troubleOf(named("NotFoundError"))).toBe("missing");
  expect(troubleOf(named("NotReadableError"))).toBe("taken");
});
