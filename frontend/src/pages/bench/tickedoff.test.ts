import { signal } from "@preact/signals";
import { describe, expect, it } from "vitest";
import type { Snapshot } from "../../api";
import type { MakingState } from "../../follow/stepping";
import { apply, begin, isRefusal, type RunIntent } from "../../follow/stepping";
import type { FinishItem, Strand, StrandCue } from "../../generated/pattern";
import { answerTicked } from "./tickedoff";

const job = (step: number): StrandCue => ({
  step, address: `f/sew.${step}`, kind: "sew", text: "Sew it on.", basis: "written", weight: "stop", words: { short: "", full: "", said: "" },
}) as unknown as StrandCue; // prettier-ignore

const section = { id: "s", courses: [], cues: [job(0), job(1), job(2)], length: 3, terms: "US" } as unknown as Strand;
const piece = { id: "p", courses: [], cues: [], length: 0, terms: "US" } as unknown as Strand;
const item = (id: string, cue: string | null): FinishItem =>
  ({ id, cue, kind: "sew", text: id, more: "", spoken: id, basis: "written", card: null }) as FinishItem;
const ITEMS = [item("pin", null), item("wings", "f/sew.0"), item("beak", "f/sew.1"), item("crest", "f/sew.1"), item("feet", "f/sew.2")];

/** A making whose one piece is finished, with a section of three jobs behind it. */
function bench(inHand = "p1.c1", length = 0) {
  const strands = { p: { ...piece, length }, s: section };
  const runs = [{ run: "p1.c1" }, { run: "p2.c1" }];
  const visible = signal<MakingState | null>({ ...begin([["p1.c1", "p"], ["p2.c1", "s"]], strands, 1), in_hand: inHand });
  let row = 1;
  const move = (intent: object, run?: string) => {
    const state = visible.value as MakingState;
    const done = apply(state, strands, ++row, { ...intent, run: run ?? "" } as RunIntent);
    if (isRefusal(done)) return done;
    visible.value = done.state;
    return done.outcome;
  };
  const tick = (...ticked: string[]) => {
    answerTicked({ visible, move } as Parameters<typeof answerTicked>[0], { runs, strands } as unknown as Snapshot, ITEMS, ticked);
    return visible.value?.runs["p2.c1"]?.at;
  };
  return { tick, visible };
}

describe("what is ticked on the finish list", () => {
  it("is answered on the bench in its turn", () => {
    const { tick, visible } = bench();
    expect(tick("pin")).toBe(0);
    expect(visible.value?.in_hand).toBe("p1.c1"); // nothing of the section is done yet
    expect(tick("pin", "wings")).toBe(1);
    expect(tick("pin", "wings", "beak")).toBe(1); // the job is done when all its lines are
    expect(tick("pin", "wings", "beak", "crest", "feet")).toBe(3);
  });

  it("waits for its turn where it is ticked out of it", () => {
    const { tick } = bench();
    expect(tick("feet", "beak", "crest")).toBe(0);
    expect(tick("feet", "beak", "crest", "wings")).toBe(3);
  });

  it("takes no hook out of a piece that is in work", () => {
    expect(bench("p1.c1", 9).tick("wings")).toBe(0);
    expect(bench("p2.c1", 9).tick("wings")).toBe(1); // the section itself is in hand
  });
});
