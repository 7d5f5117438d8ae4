import { describe, expect, test } from "vitest";
import type { Finding } from "../../generated/pattern";
import { lineMap, lineRange, marks, mixed, take, unitOffset } from "./text";

const finding = (f: Partial<Finding>): Finding => ({
  severity: "warning", code: "x", line: 1, column: 1, span: 0, piece: null, course: null, course_id: null,
  message: "", expected: null, found: null, suggestions: [], ...f,
});

test("characters are counted as the server counts them, beyond the basic plane too", () => {
  const text = "𝒮eal é\nRnd 1";
  expect(unitOffset(text, 0)).toBe(0);
  expect(unitOffset(text, 1)).toBe(2);
  expect(unitOffset(text, [...text].indexOf("R"))).toBe(text.indexOf("R"));
  expect(unitOffset(text, 999)).toBe(text.length);
});

test("a suggestion replaces exactly its stretch, behind a wide letter as well", () => {
  const text = "𝒮eal\nRnd 3: (sc, inc) x 7 (18)";
  const characters = [...text];
  const start = characters.indexOf("7");
  const mended = take(text, { label: "", start, end: start + 1, replacement: "6" });
  expect(mended).toBe("𝒮eal\nRnd 3: (sc, inc) x 6 (18)");
});

test("a line's range leaves out its line end; a line past the end is empty", () => {
  expect(lineRange("ab\ncde\n", 1)).toEqual([0, 2]);
  expect(lineRange("ab\ncde\n", 2)).toEqual([3, 6]);
  expect(lineRange("ab\ncde\n", 3)).toEqual([7, 7]);
  expect(lineRange("ab", 9)).toEqual([2, 2]);
});

describe("while reading lags behind typing", () => {
  test("lines above and below a change keep their findings", () => {
    const where = lineMap("a\nb\nc\nd", "a\nB\nnew\nc\nd");
    expect([1, 2, 3, 4].map(where)).toEqual([1, null, 4, 5]);
  });
  test("nothing changed: every line is where it was", () => {
    expect(lineMap("a\nb", "a\nb")(2)).toBe(2);
  });
  test("lines taken out", () => {
    const where = lineMap("a\nb\nc", "a\nc");
    expect([1, 2, 3].map(where)).toEqual([1, null, 2]);
  });
});

describe("marks", () => {
  const text = "Title\nRnd 1: 6 sc (7)\nRnd 2: inc x 6";
  test("cover the finding's columns", () => {
    const [mark] = marks(text, text, [finding({ line: 2, column: 13, span: 3 })]);
    expect(text.slice(mark?.start, mark?.end)).toBe("(7)");
  });
  test("without a span they run to the line's end", () => {
    const [mark] = marks(text, text, [finding({ line: 3, column: 8 })]);
    expect(text.slice(mark?.start, mark?.end)).toBe("inc x 6");
  });
  test("never overlap: what can't be followed wins over what to look at; notes are not underlined", () => {
    const found = marks(text, text, [
      finding({ line: 2, column: 1 }),
      finding({ line: 2, column: 8, span: 4, severity: "error" }),
      finding({ line: 3, severity: "note" }),
    ]);
    expect(found).toHaveLength(1);
    expect(found[0]?.severity).toBe("error");
  });
  test("are in order, inside the text, and cover something, whatever the columns say", () => {
    const found = marks(text, text, [
      finding({ line: 3, column: 900, span: 4 }),
      finding({ line: 2, column: 3, span: 900 }),
      finding({ line: 77 }),
    ]);
    let last = 0;
    for (const m of found) {
      expect(m.start).toBeGreaterThanOrEqual(last);
      expect(m.end).toBeGreaterThan(m.start);
      last = m.end;
    }
    expect(last).toBeLessThanOrEqual(text.length);
    expect(found).toHaveLength(2);
  });
});

describe("a pattern pasted into another text", () => {
  const there = "Gull\nRnd 1: 6 sc\n";
  const pasted = "Seal\r\nRnd 1: 7 sc\r\nRnd 2: inc x 7";
  test("is known alone and in the midst of it", () => {
    expect(mixed(there, pasted, 5, 5)).toEqual({
      alone: "Seal\nRnd 1: 7 sc\nRnd 2: inc x 7",
      both: "Gull\nSeal\nRnd 1: 7 sc\nRnd 2: inc x 7Rnd 1: 6 sc\n",
    });
  });
  test("is nothing to say on an empty sheet, over all of the text, or for a line", () => {
    expect(mixed(" \n", pasted, 0, 0)).toBeNull();
    expect(mixed(there, pasted, 0, there.length)).toBeNull();
    expect(mixed(there, "Rnd 2: inc x 6 (12)\n", 17, 17)).toBeNull();
  });
});
