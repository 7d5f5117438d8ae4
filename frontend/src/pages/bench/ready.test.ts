import { expect, test } from "vitest";
import type { Snapshot } from "../../api";
import type { MakingState } from "../../follow/stepping";
import type { Strand, StrandCourse, StrandCue } from "../../generated/pattern";
import { needed, stillToWork, wantsParts } from "./ready";

const words = { short: "", full: "", spoken: "" };
const course: StrandCourse = { id: "leg.1", label: "1", kind: "round", first: 0, end: 6, uses: null, makes: 6, declared: null, text: "", body: [], read: true, spiral: true, plain: false, plain_index: null, plain_of: null, plain_from: null, plain_to: null, words };
const fasten: StrandCue = { address: "leg.1/fasten.1", step: 6, kind: "fasten", text: "Fasten off", basis: "written", weight: "stop", words };
/** One round of six and a stop behind it. */
const leg: Strand = { format: 1, id: "leg", piece: "Leg", terms: "US", length: 7, courses: [course], cues: [fasten] };
const stop = { address: "body.5/ready-p1x2" };

const making = (...at: number[]): [Snapshot, MakingState] => {
  const runs = at.map((_, i) => ({ run: `p1.c${i + 1}`, piece: "Leg", copy: i + 1, copies: at.length, strand: "leg" }));
  const state = { in_hand: null, head: 1, runs: Object.fromEntries(at.map((step, i) => [`p1.c${i + 1}`, { strand: "leg", at: step, counts: {}, history: [] }])) };
  return [{ runs, strands: { leg } } as unknown as Snapshot, state as unknown as MakingState];
};

const missing = (...at: number[]) => stillToWork(stop, ...making(...at)).map(({ run }) => run);

test("its address says which parts, and how many of each", () => {
  expect(needed(stop)).toEqual([{ piece: "p1", copies: 2 }]);
  expect(needed({ address: "body.10b/ready-p2x1.p4x3" })).toEqual([
    { piece: "p2", copies: 1 },
    { piece: "p4", copies: 3 },
  ]);
  expect(needed({ address: "body.10/join.1" })).toEqual([]);
  expect(wantsParts("body.5/ready-p1x2")).toBe(true);
  expect(wantsParts("body.5/stuff.1")).toBe(false);
});

test("a part is ready when its last course is worked, whatever waits behind it", () => {
  expect(missing(0, 0)).toEqual(["p1.c1", "p1.c2"]);
  expect(missing(6, 0)).toEqual(["p1.c2"]);
  expect(missing(6, 7)).toEqual([]);
});

test("of more copies than are wanted those begun come first", () => {
  expect(missing(0, 3, 7)).toEqual(["p1.c2"]);
});
