import { expect, test } from "vitest";
import type { Snapshot } from "../../api";
import type { Course, Pattern, Piece } from "../../generated/pattern";
import { copiesOf, worthDrawing } from "./sheet";

const course = (id: string, makes: number): Course => ({
  id, label: id, kind: "round", uses: makes, makes, declared: null, text: "", line: 1, read: true, spiral: true, plain: false,
  body: [], words: { short: "", full: "", spoken: "" },
});
const piece = (courses: Course[]): Piece => ({ name: "Wing", make: 2, line: 1, courses, cues: [] });
const pattern = { pieces: [piece([course("1", 6), course("2", 12)])] } as unknown as Pattern; // demo

test("without a making there are as many boxes as the pattern says, all empty", () => {
  expect(copiesOf(pattern, null)).toEqual([{ made: 2, worked: [] }]);
});

test("a making fills the boxes of what lies behind each copy", () => {
  const strand = {
    courses: [{ id: "1", first: 0, end: 6, body: [] }, { id: "2", first: 6, end: 18, body: [] }], cues: [], length: 18,
  };
  const run = (n: number) => ({ run: `p1.c${n}`, piece: "Wing", copy: n, copies: 3, strand: "s" });
  const snapshot = {
    runs: [run(1), run(2), run(3)], strands: { s: strand },
    state: { runs: { "p1.c1": { strand: "s", at: 18 }, "p1.c2": { strand: "s", at: 7 }, "p1.c3": { strand: "s", at: 0 } } },
  } as unknown as Snapshot;
  const [copies] = copiesOf(pattern, snapshot);
  expect(copies?.made).toBe(3);
  expect(copies?.worked.map((worked) => [...worked])).toEqual([["1", "2"], ["1"], []]);
});

test("a chart that would be a grey disc is left out", () => {
  expect(worthDrawing(piece([course("1", 6), course("2", 12)]))).toBe(true);
  expect(worthDrawing(piece([course("1", 6)]))).toBe(false);
  expect(worthDrawing(piece([course("1", 6), course("2", 90)]))).toBe(false);
});
