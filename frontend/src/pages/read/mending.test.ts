import { expect, test } from "vitest";
import type { Finding, Pattern } from "../../generated/pattern";
import { offered, told } from "./mending";

const change = (line: number) => ({ line, before: "", after: "", why: "" });

test("the lines that were mended are named, each once, in their order", () => {
  const of = (...lines: number[]) => told({ text: "", changes: lines.map(change), more: false, stops: [] });
  expect(of(9)).toBe("line 9 mended");
  expect(of(12, 9)).toBe("lines 9 and 12 mended");
  expect(of(20, 9, 12, 9)).toBe("lines 9, 12 and 20 mended");
  expect(of(1, 2, 3, 4, 5, 6, 7, 8, 9)).toBe("9 lines mended");
});

test("where mending stopped is told with them", () => {
  const of = (...lines: number[]) =>
    told({ text: "", changes: [change(9)], more: false, stops: lines.map((line) => ({ line, say: "" })) });
  expect(of(12)).toBe("line 9 mended, nothing behind line 12 until that is clear");
  expect(of(30, 12)).toBe("line 9 mended, nothing behind lines 12 and 30 until those are clear");
});

test("places are counted where a line is offered", () => {
  const finding = (n: number) => ({ suggestions: Array(n).fill({ label: "", start: 0, end: 0, replacement: "" }) });
  const findings = [finding(0), finding(2), finding(1)] as Finding[];
  expect(offered({ findings } as Pattern)).toBe(2);
});
