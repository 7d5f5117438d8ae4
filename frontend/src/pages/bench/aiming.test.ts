import { describe, expect, test } from "vitest";
import type { Strand } from "../../generated/pattern";
import { type Aim, aimName, following } from "./aiming";
import { sc, strandOf } from "./course.fixture";

const line = (id: string, whispers: number[] = []): Strand => ({
  ...strandOf({ label: "1", body: [sc(60)] }),
  id,
  cues: whispers.map((step) => ({ address: `1/count.${step}`, step, kind: "count", text: "", basis: "worked out", weight: "whisper", words: { short: "", full: "", spoken: "" } })),
});
const s = line("s");
const aim: Aim = { run: "p1.c1", strand: "s", to: 40, at: 20 };

describe("what was said of where the hands are", () => {
  test("stays while something waits on the way, and is gone on to once it is answered", () => {
    expect(following(aim, s, 20, true)).toBe(aim);
    expect(following(aim, s, 21, false)).toBe("go");
    expect(following(aim, line("s", [21, 22]), 23, false)).toBe("go"); // past what is only said
    expect(following(aim, line("s", [21, 22]), 24, false)).toBeNull();
    expect(following(aim, s, 21, true)).toEqual({ ...aim, at: 21 }); // two in a row
  });

  test("on its way it stays only with what waits next", () => {
    expect(following({ ...aim, at: -2 }, s, 30, true)).toEqual({ ...aim, at: 30 });
    expect(following({ ...aim, at: -2 }, s, 0, false)).toBeNull();
  });

  test("is given up by any other move, by another strand, and once it is reached", () => {
    expect(following(aim, s, 19, false)).toBeNull();
    expect(following(aim, s, 25, false)).toBeNull();
    expect(following(aim, line("t"), 21, false)).toBeNull();
    expect(following(aim, s, 40, true)).toBeNull();
  });

  test("is named by the round at whose end it lies", () => {
    const strand = strandOf({ label: "1", body: [sc(6)] }, { label: "2", body: [sc(6)], then: ["stuff", "stop"] });
    const to = strand.courses[1]?.end ?? 0;
    expect(aimName({ ...aim, strand: strand.id, to }, "p1.c1", strand)).toBe("round 2");
    expect(aimName({ ...aim, strand: strand.id, to: 3 }, "p1.c1", strand)).toBe("");
    expect(aimName({ ...aim, strand: strand.id, to }, "p2.c1", strand)).toBe("");
  });
});
