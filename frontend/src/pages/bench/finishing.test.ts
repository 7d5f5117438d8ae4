import { describe, expect, it } from "vitest";
import type { Snapshot } from "../../api";
import type { MakingState } from "../../follow/stepping";
import type { FinishItem } from "../../generated/pattern";
import { hers } from "./colours/hers";
import { inHers } from "./finishing";
import { answered, beforeSewing, leftOf, passedBy } from "./finishleft";

const item = (id: string, kind: FinishItem["kind"], cue: string | null = null): FinishItem => ({
  id, kind, cue, text: id, more: "", spoken: id, basis: cue ? "written" : "worked out", card: null,
}); // prettier-ignore

const ITEMS = [item("pin", "pin"), item("look", "look"), item("sew", "sew", "f/sew.1"), item("p1/ends", "weave", "f/weave.1"), item("p2/ends", "weave", "f/weave.1"), item("tug", "tug")];

/** A making whose finishing has two jobs, a seam and ends, and stands before step `at`. */
const bench = (at: number): [Snapshot, MakingState] => {
  const cues = [{ address: "f/sew.1", step: 0 }, { address: "f/weave.1", step: 1 }];
  const snapshot = { runs: [{ run: "p3.c1" }], strands: { s: { cues, courses: [] } } } as unknown as Snapshot;
  return [snapshot, { runs: { "p3.c1": { strand: "s", at } } } as unknown as MakingState];
};

describe("the finish list", () => {
  it("has nothing done at first", () => {
    expect([...answered(ITEMS, ...bench(0))]).toEqual([]);
    expect(leftOf(ITEMS, ["look"], ...bench(0)).map((one) => one.id)).toEqual(["pin", "sew", "p1/ends", "p2/ends", "tug"]);
  });

  it("knows what was answered on the bench, and ticks nothing else", () => {
    expect([...answered(ITEMS, ...bench(1))]).toEqual(["sew"]);
    expect([...passedBy(ITEMS, [], ...bench(0))]).toEqual([]);
    expect([...passedBy(ITEMS, ["look"], ...bench(1))]).toEqual(["pin"]);
    expect(leftOf(ITEMS, [], ...bench(2)).map((one) => one.id)).toEqual(["tug"]);
    expect(leftOf(ITEMS, ["tug"], ...bench(2))).toEqual([]);
  });

  it("calls colours what she calls them", () => {
    const seam = [{ ...item("sew", "sew"), text: "Sew the wing on with grey.", spoken: "Sew the wing on with grey." }];
    expect(inHers(seam)).toBe(seam);
    hers.value = { strand: (strand) => strand, text: (text) => text.replace("grey", "slate") };
    expect(inHers(seam)[0]).toMatchObject({ text: "Sew the wing on with slate.", spoken: "Sew the wing on with slate." });
    hers.value = null;
  });

  it("names what comes before the first job that the bench asks for", () => {
    expect(beforeSewing(ITEMS, [], ...bench(0))).toBe("pin");
    expect(beforeSewing(ITEMS, ["pin", "look"], ...bench(0))).toBeNull();
    expect(beforeSewing(ITEMS, [], ...bench(2))).toBeNull();
  });
});
