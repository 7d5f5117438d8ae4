import { describe, expect, test } from "vitest";
import { CAP, FAR_CAP, fitTitle, HAND_CAP, lines, type Measure, openedHeight, solve } from "./fit";

/** A font of even letters, 0.55 em each: enough to test the solving; the browser tests measure the real one. */
const even: Measure = (word, bold) => [...word].length * (bold ? 0.6 : 0.55);

const phone = {
  width: 362,
  height: 844,
  sentence: "Round\u00a011: (4\u00a0sc, inc) x\u00a07, 42\u00a0stitches",
  opened: [
    [
      { head: "4 sc", tail: "", hand: true },
      { head: "inc", tail: "", hand: false },
    ],
    [
      { head: "4 sc", tail: "", hand: false },
      { head: "inc", tail: "", hand: true },
    ],
  ],
  place: ["repeat 3 of 7", "17 of 42 made"],
  fixed: 48 + 56 + 60 + 38,
  drawn: (ring: number) => ring + 20,
  ring: [124, 202] as const,
  scale: 1,
};

describe("sizes on a phone 390 px wide", () => {
  test("the stitch in hand has capitals of 72 px, the sentence is as near to 38 as the screen allows", () => {
    const sizes = solve(phone, even);
    expect(sizes.fits).toBe(true);
    expect(sizes.hand * CAP).toBeGreaterThanOrEqual(HAND_CAP);
    expect(sizes.sentence * CAP).toBeGreaterThan(25);
    expect(sizes.sentence * CAP).toBeLessThanOrEqual(FAR_CAP + 0.2);
  });

  test("each line of the place keeps to one line", () => {
    const { place } = solve(phone, even);
    for (const line of phone.place) expect(lines(line, place, phone.width, even)).toBe(1);
  });

  test("longer sentences get smaller, never larger, and still fit", () => {
    let last = Number.POSITIVE_INFINITY;
    for (let n = 1; n <= 12; n++) {
      const sentence = `Round\u00a01: ${Array.from({ length: n * 2 }, (_, i) => `${i + 1}\u00a0sc,`).join(" ")}`;
      const sizes = solve({ ...phone, sentence }, even);
      expect(sizes.fits).toBe(true);
      expect(sizes.sentence).toBeLessThanOrEqual(last + 0.01);
      last = sizes.sentence;
    }
  });

  test("an amount and its stitch keep to one line, however many there are", () => {
    const sentence = "Round\u00a0101: 1200\u00a0stitches";
    const { sentence: size } = solve({ ...phone, sentence }, even);
    for (const chunk of sentence.split(" ")) expect(even(chunk, false) * size).toBeLessThanOrEqual(phone.width + 0.01);
  });

  test("what it calls fitting does fit", () => {
    for (const height of [560, 640, 720, 844, 932]) {
      const s = solve({ ...phone, height }, even);
      const block = Math.max(...phone.opened.map((o) => openedHeight(o, s.hand, phone.width, even)));
      expect(s.block).toBeCloseTo(block);
      const used =
        phone.fixed +
        lines(phone.sentence, s.sentence, phone.width, even) * s.sentence * 1.26 +
        block +
        phone.place.reduce((sum, line) => sum + lines(line, s.place, phone.width, even), 0) * s.place * 1.14 +
        phone.drawn(s.ring);
      if (s.fits) expect(used).toBeLessThanOrEqual(height);
    }
  });

  test("where nothing fits it says so", () => {
    expect(solve({ ...phone, height: 260 }, even).fits).toBe(false);
  });
});

test("a title gives way before its words become too small to read", () => {
  const most = { title: 108, body: 34 };
  const body = "The opening is soon too small for fingers. ".repeat(4).trim();
  const roomy = fitTitle("Stuff firmly now", body, most, 346, 900, even);
  const tight = fitTitle("Stuff firmly now", body, most, 346, 360, even);
  expect(tight.title).toBeLessThan(roomy.title);
  expect(tight.body).toBeGreaterThanOrEqual(17);
});
