import { expect, test } from "vitest";
import type { Snapshot } from "../../api";
import { group, sc, strandOf } from "./course.fixture";
import { choicesOf, disagreement } from "./settle";

const chain = { ...group("ch", 40), makes: 0, uses: 0 };
const strand = strandOf(
  { label: "0", kind: "row", body: [chain] },
  { label: "1", kind: "row", body: [sc(39)], then: ["stuff", "stop"] },
  { label: "2", kind: "row", body: [sc(39)] },
);
const snapshot = { state: { runs: { "p1.c1": { strand: "s" } } }, strands: { s: strand } } as unknown as Snapshot;
const said = (...at: number[]) => at.map((n, i) => ({ who: ["the command line", "this phone", "the other phone"][i] ?? "", run: "p1.c1", at: n }));

test("places in a starting chain are told by their chain", () => {
  const claims = said(0, 12, 30);
  expect(choicesOf(snapshot, claims).map((c) => c.words)).toEqual(["at the start", "the start, after chain 12 of 40", "the start, after chain 30 of 40"]);
  expect(disagreement(snapshot, claims)).toBe(
    "The command line says the start; this phone says the start, after chain 12 of 40; the other phone says the start, after chain 30 of 40.",
  );
});

test("no two answers read the same", () => {
  const waits = strand.courses[1]?.end ?? 0;
  const words = choicesOf(snapshot, said(waits + 1, waits)).map((c) => c.words);
  expect(new Set(words).size).toBe(2);
});
