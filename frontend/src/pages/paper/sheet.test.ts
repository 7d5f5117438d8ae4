import { expect, test } from "vitest";
import type { Snapshot } from "../../api";
import type { Course, Pattern, Piece } from "../../generated/pattern";
import { ofMaking, ofPattern, worthDrawing } from "./sheet";

const course = (id: string, makes: number): Course => ({
  id, label: id, kind: "round", uses: makes, makes, declared: null, text: "", line: 1, read: true, spiral: true, plain: false,
  body: [], words: { short: "", full: "", spoken: "" },
});
const piece = (courses: Course[]): Piece => ({ name: "Wing", make: 2, line: 1, courses, cues: [] });
const pattern = { pieces: [piece([course("1", 6), course("2", 12)])] } as unknown as Pattern; // demo

test("a pattern has as many boxes as it says, all empty", () => {
  expect(ofPattern(pattern)).toEqual([{ piece: pattern.pieces[0], made: 2, worked: [] }]);
});

test("a making prints what is worked there; a copy that was mended stands by itself", () => {
  const lay = (first: string) => ({
    id: first, cues: [], length: 18,
    courses: [{ ...course("1", 6), text: first, first: 0, end: 6 }, { ...course("2", 12), first: 6, end: 18 }],
  });
  const run = (n: number) => ({ run: `p1.c${n}`, piece: "Wing", copy: n, copies: 3, strand: "s" });
  const snapshot = {
    runs: [run(1), run(2), run(3)], strands: { s: lay("6 sc"), mended: lay("5 sc, inc") },
    state: { runs: { "p1.c1": { strand: "s", at: 18 }, "p1.c2": { strand: "mended", at: 7 }, "p1.c3": { strand: "s", at: 0 } } },
  } as unknown as Snapshot;
  const [plain, mended] = ofMaking(snapshot);
  expect([plain?.made, mended?.made]).toEqual([2, 1]);
  expect(mended?.piece.courses[0]?.text).toBe("5 sc, inc");
  expect(plain?.worked.map((worked) => [...worked])).toEqual([["1", "2"], []]);
  expect(mended?.worked.map((worked) => [...worked])).toEqual([["1"]]);
});

test("what is done of the jobs is ticked for each copy", () => {
  const cue = { address: "2/stuff", step: 6, kind: "stuff", text: "Stuff", basis: "written", weight: "stop", words: { short: "", full: "", spoken: "" } };
  const strand = { id: "s", cues: [cue], length: 7, courses: [{ ...course("1", 6), first: 0, end: 6 }] };
  const runs = [1, 2].map((n) => ({ run: `p1.c${n}`, piece: "Wing", copy: n, copies: 2, strand: "s" }));
  const state = { runs: { "p1.c1": { strand: "s", at: 7 }, "p1.c2": { strand: "s", at: 6 } } };
  const [laid] = ofMaking({ runs, strands: { s: strand }, state } as unknown as Snapshot);
  expect(laid?.worked.map((worked) => worked.has("2/stuff"))).toEqual([true, false]);
});

test("copies of another colour stand by themselves", () => {
  const words = { short: "6 sc in navy", full: "", spoken: "" };
  const strand = { id: "s", cues: [], length: 6, courses: [{ ...course("1", 6), words, first: 0, end: 6 }] };
  const runs = [1, 2, 3].map((n) => ({ run: `p1.c${n}`, piece: "Wing", copy: n, copies: 3, strand: "s" }));
  const state = { runs: Object.fromEntries(runs.map(({ run }) => [run, { strand: "s", at: 0 }])) };
  const snapshot = { runs, strands: { s: strand }, state, choices: { "colours/p1.c2": { navy: "moss" } } } as unknown as Snapshot;
  expect(ofMaking(snapshot).map(({ made, piece: { courses, name } }) => [made, courses[0]?.words.short, name])).toEqual([
    [2, "6 sc in navy", "Wing 1, 3"],
    [1, "6 sc in moss", "Wing 2"],
  ]);
});

test("a chart that would be a grey disc is left out", () => {
  expect(worthDrawing(piece([course("1", 6), course("2", 12)]))).toBe(true);
  expect(worthDrawing(piece([course("1", 6)]))).toBe(false);
  expect(worthDrawing(piece([course("1", 6), course("2", 90)]))).toBe(false);
});
