import { describe, expect, test } from "vitest";
import { locate } from "../../../follow/place";
import { dec, group, inc, repeat, sc, strandOf } from "../course.fixture";
import { countingAt, stepCounted } from "./counting";

const chain = group("ch", 12, { uses: 0, makes: 0, words: { short: "ch 12", full: "", spoken: "" } });
const strand = strandOf(
  { label: "1", body: [sc(6)] },
  { label: "2", body: [repeat(6, inc())] },
  { label: "3", body: [repeat(6, sc(4), inc())] },
  { label: "4", body: [repeat(6, sc(4), dec())], then: ["stuff", "stop"] },
  { label: "5", text: "Work the ridge as in the photo." },
  { label: "6", body: [chain] },
);
const [one, two, three, four, five, six] = strand.courses;
if (!one || !two || !three || !four || !five || !six) throw new Error("six courses were told");

/** The place after each number of a count, from the start of a course: stitches made in it, its label when it is over. */
function along(at: number, style: "repeat" | "round" | "group", numbers: number[]): string[] {
  const labels: string[] = [];
  let now = at;
  for (const n of numbers) {
    const to = stepCounted(strand, now, style, n);
    now = to ?? now;
    const spot = locate(strand, now);
    labels.push(`${strand.courses[spot.course ?? -1]?.label}.${spot.stitch}`);
  }
  return labels;
}

describe("what can be counted", () => {
  test("within the repeat: its numbers, then those of the next; an increase is two", () => {
    expect(countingAt(strand, three.first, "repeat")).toEqual({
      style: "repeat",
      next: [1, 2, 3, 4, 5, 6, 1, 2, 3],
      left: 36,
      words: { inc: true, dec: false },
    });
    expect(countingAt(strand, three.first + 4, "repeat")?.next).toEqual([5, 6, 1, 2, 3]);
    expect(countingAt(strand, four.first, "repeat")).toMatchObject({ next: [1, 2, 3, 4, 5, 1, 2, 3], words: { inc: false, dec: true } });
  });

  test("through the round, and by group", () => {
    expect(countingAt(strand, three.first + 6, "round")).toMatchObject({ left: 30 });
    expect(countingAt(strand, three.first + 6, "round")?.next.slice(0, 3)).toEqual([7, 8, 9]);
    expect(countingAt(strand, three.first, "group")?.next).toEqual([1, 2, 3, 4, 1, 2, 3]);
  });

  test("nothing but increases: each is counted once, six in all, and through the round they are twelve", () => {
    expect(countingAt(strand, two.first, "repeat")?.next.slice(0, 6)).toEqual([1, 2, 3, 4, 5, 6]);
    expect(countingAt(strand, two.first, "round")?.next.slice(-4)).toEqual([12, 1, 2, 3]);
    expect(along(two.first, "repeat", [1, 2, 3])).toEqual(["2.2", "2.4", "2.6"]);
  });

  test("a foundation chain is counted chain by chain; a course in words cannot be counted", () => {
    expect(countingAt(strand, six.first, "group")?.next).toHaveLength(15);
    expect(stepCounted(strand, six.first, "round", 5)).toBe(six.first + 5);
    expect(stepCounted(strand, six.first, "round", 12)).toBe(six.end);
    expect(countingAt(strand, five.first, "round")).toBeNull();
  });
});

describe("where a number leads", () => {
  test("within the repeat: one, two, three, four, inc, one, two", () => {
    expect(along(three.first, "repeat", [1, 2, 3, 4, 6, 1, 2])).toEqual(["3.1", "3.2", "3.3", "3.4", "3.6", "3.7", "3.8"]);
  });

  test("an increase said by its word is both of its stitches, whichever number it was taken for", () => {
    const at = three.first + 4;
    expect(stepCounted(strand, at, "repeat", 5)).toBe(three.first + 5);
    expect(stepCounted(strand, at, "repeat", 5, true)).toBe(three.first + 6);
    expect(stepCounted(strand, at, "repeat", 6, true)).toBe(three.first + 6);
    expect(stepCounted(strand, at - 1, "round", 4, true)).toBe(three.first + 4);
  });

  test("an increase may be left unsaid, and a number missed", () => {
    expect(along(three.first, "repeat", [1, 2, 4, 1, 2, 3, 4, 1])).toEqual(["3.1", "3.2", "3.4", "3.7", "3.8", "3.9", "3.10", "3.13"]);
  });

  test("a number said again in the middle moves nothing", () => {
    expect(along(three.first, "repeat", [1, 2, 3, 2, 3, 1])).toEqual(["3.1", "3.2", "3.3", "3.3", "3.3", "3.3"]);
    expect(along(three.first, "round", [7, 8, 8, 3])).toEqual(["3.7", "3.8", "3.8", "3.8"]);
  });

  test("the last number closes the round, and one begins the next", () => {
    expect(along(one.first, "round", [5, 6, 1])).toEqual(["1.5", "2.0", "2.1"]);
    expect(along(two.first, "round", [11, 1])).toEqual(["2.11", "3.1"]);
  });

  test("by group: the increase behind the last number is the group of its own", () => {
    expect(along(three.first, "group", [1, 2, 3, 4, 1, 1])).toEqual(["3.1", "3.2", "3.3", "3.4", "3.6", "3.7"]);
    expect(countingAt(strand, three.first + 4, "group")?.next).toEqual([1, 1, 2, 3]);
  });
});
