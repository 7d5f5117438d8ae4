import { expect, test } from "vitest";
import { firstLine } from "./draft";

test("a text is known by its first line with words in it", () => {
  expect(firstLine("\n  \n  Little Net Float \nUS terms")).toBe("Little Net Float");
  expect(firstLine("")).toBe("");
  const long = firstLine("a buoy ".repeat(20));
  expect(long.length).toBeLessThanOrEqual(60);
  expect(long.endsWith("…")).toBe(true);
});
