import { describe, expect, test } from "vitest";
import type { Course, Cue, Finding, Piece } from "../../generated/pattern";
import { again, chain, gravity, inWorth, name, needed, stretches, verdict } from "./sections";

const words = { short: "", full: "", spoken: "" };
const course = (label: string, more: Partial<Course> = {}): Course => ({
  id: `b.${label}`, label, kind: "round", uses: 24, makes: 24, declared: 24, text: "sc around", line: 5, body: [],
  read: true, spiral: true, plain: true, words, ...more,
});
const cue = (after: string | null): Cue => ({
  address: `b.${after}/stuff`, after: after ?? "0", course_id: after === null ? null : `b.${after}`, at: null,
  kind: "stuff", text: "Stuff", basis: "written", weight: "stop", line: 9, advice: "", words,
});
const finding = (severity: Finding["severity"], label?: string): Finding => ({
  severity, code: "x", line: 5, column: 1, span: 0, piece: null, course: label ?? null,
  course_id: label ? `b.${label}` : null, message: "", expected: null, found: null, suggestions: [],
});
const piece = (courses: Course[], cues: Cue[] = []): Piece => ({ name: "Buoy", make: 1, line: 1, courses, cues });
const names = (p: Piece, f: Finding[] = []) => stretches(p, f).stretches.map(name);

test("courses printed as one range are shown as one", () => {
  expect(names(piece([course("8", { line: 4 }), course("9"), course("10"), course("11")]))).toEqual([
    "Round 8",
    "Rounds 9 to 11",
  ]);
});

test("a range is parted by a cue inside it and by a finding", () => {
  expect(names(piece([course("9"), course("10"), course("11")], [cue("9")]))).toEqual(["Round 9", "Rounds 10 to 11"]);
  expect(names(piece([course("9"), course("10"), course("11")]), [finding("warning", "10")])).toEqual([
    "Round 9",
    "Round 10",
    "Round 11",
  ]);
});

test("courses that count differently are never shown as one", () => {
  expect(names(piece([course("9", { uses: 18 }), course("10")]))).toEqual(["Round 9", "Round 10"]);
});

test("a cue before the first course stands before it; no cue is lost", () => {
  const shown = stretches(piece([course("1"), course("2")], [cue(null), cue("2")]), []);
  expect(shown.before).toHaveLength(1);
  expect(shown.stretches.flatMap((s) => s.cues)).toHaveLength(1);
});

test("rows are called rows, and an unnumbered first one is not called nought", () => {
  expect(names(piece([course("0", { kind: "row", line: 1 }), course("1", { kind: "row" })]))).toEqual(["First row", "Row 1"]);
});

test("a note of one kind is told once, and later ones name it", () => {
  const [first, second, other, grave] = [finding("note", "4"), finding("note", "5"), { ...finding("note", "5"), code: "y" }, finding("error", "6")];
  expect([...again([first, second, other, grave])]).toEqual([[second, first]]);
  expect(verdict([first, second, other], 12)).toBe("Every count adds up; 2 things noticed.");
});

test("the state of a text in one sentence", () => {
  expect(verdict([], 12)).toBe("Every count adds up.");
  expect(verdict([finding("note")], 12)).toBe("Every count adds up; 1 thing noticed.");
  expect(verdict([finding("note"), finding("note"), finding("error")], 12)).toBe("1 place can't be followed; 2 things noticed.");
  expect(verdict([finding("warning")], 12)).toBe("1 place to look at; the rest adds up.");
  expect(verdict([finding("error"), finding("error"), finding("warning")], 12)).toBe(
    "2 places can't be followed, 1 place to look at.",
  );
  expect(verdict([], 0)).toBe("No rounds or rows here yet.");
});

test("a misprinted count is something to look at: its stitches can be followed", () => {
  expect(gravity({ ...finding("error"), code: "count" })).toBe("warning");
  expect(gravity({ ...finding("error"), code: "overrun" })).toBe("error");
  expect(verdict([{ ...finding("error"), code: "count" }], 12)).toBe("1 place to look at; the rest adds up.");
});

describe("which of two numbers the courses after it need", () => {
  const slip = course("3", { uses: 12, makes: 18, declared: 20 });
  test("the stitches, where a later course comes out at its own count from them", () => {
    const round = course("4", { uses: 18, makes: 18, declared: 18 });
    expect(needed(piece([slip, round]), "b.3")).toEqual({ which: "stitches", by: round, n: 18 });
  });
  test("the printed count, where the next course works that many", () => {
    const round = course("4", { uses: 20, makes: 25, declared: 25 });
    expect(needed(piece([slip, round]), "b.3")).toEqual({ which: "printed", by: round, n: 20 });
  });
  test("a course without a count goes along with any number and decides nothing", () => {
    const plain = course("4", { uses: 18, makes: 18, declared: null });
    const round = course("5", { uses: 18, makes: 12, declared: 12 });
    expect(needed(piece([slip, plain, round]), "b.3")).toMatchObject({ which: "stitches", by: { label: "5" } });
    expect(needed(piece([slip, plain]), "b.3")).toBeNull();
  });
  test("none, where it is the last, and where the next is unread or has a slip of its own", () => {
    expect(needed(piece([slip]), "b.3")).toBeNull();
    expect(needed(piece([slip, course("4", { read: false, uses: null, makes: null })]), "b.3")).toBeNull();
    expect(needed(piece([slip, course("4", { uses: 18, makes: 18, declared: 30 })]), "b.3")).toBeNull();
  });
});

test("a chain is told by its length", () => {
  const group = (stitch: string, count: number) => ({
    type: "group" as const, stitch, count, uses: 0, makes: 0, steps: 1, loops: null, into: null, colour: null, words,
  });
  expect(chain(course("0", { body: [group("ch", 11)] }))).toBe(11);
  expect(chain(course("0", { body: [group("ch", 11), group("sc", 1)] }))).toBe(0);
  expect(chain(course("0"))).toBe(0);
});

test("what is shown first is what is wrong in a round, gravest first; lines outside of all rounds come behind", () => {
  const [loose, odd, late, broken] = [finding("warning"), finding("warning", "3"), finding("warning", "16"), finding("error", "9")];
  expect(inWorth([loose, odd, broken, late])).toEqual([broken, odd, late, loose]);
});
