import { expect, test } from "vitest";
import type { Finding } from "../../generated/pattern";
import { toMend } from "./amiss";

const finding = (course: string | null, more: Partial<Finding>): Finding => ({
  severity: "error",
  code: "left-over",
  line: 1,
  column: 1,
  span: 0,
  piece: null,
  course: null,
  course_id: course,
  message: "",
  expected: null,
  found: null,
  suggestions: [],
  ...more,
});
const mend = { label: "Round 3: 30 stitches", start: 0, end: 1, replacement: "30" };

test("what is wrong with the round in hand comes first, then what can't be followed", () => {
  const count = finding("body.3", { code: "count", suggestions: [mend] });
  const over = finding("body.5", { code: "overrun" });
  const other = finding("body.9", {});
  expect(toMend([count, over, other], "body.9")).toEqual([other, over, count]);
  expect(toMend([count, over], undefined)).toEqual([over, count]);
});

test("what is only noticed, and what has no mended line, is not shown at the bench", () => {
  expect(toMend([finding("body.3", { severity: "note", code: "chosen" }), finding(null, { severity: "warning", code: "left-out" })], "body.3")).toEqual([]);
  expect(toMend([finding("body.3", { severity: "warning", code: "as-likely", suggestions: [mend] })], "body.3")).toHaveLength(1);
});
