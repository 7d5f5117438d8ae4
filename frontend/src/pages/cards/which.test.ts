import { describe, expect, it } from "vitest";
import type { Group, StrandCourse, StrandCue } from "../../generated/pattern";
import { CARDS } from "../../generated/cards";
import type { Snapshot } from "../../api";
import { begin } from "../../follow/stepping";
import { group as groupOf, inc, repeat, sc, strandOf } from "../bench/course.fixture";
import { seeRun } from "../bench/seen";
import { cardCalled, cardsAt, cardsNear, firstUse, inTerms, keyOfCue, keysOfCourse, keysOfGroup, stuffed, toldFirst } from "./which";

const group = (more: Partial<Group>): Group => ({
  type: "group", stitch: "sc", count: 1, uses: 1, makes: 1, steps: 1, loops: null, into: null, colour: null,
  words: { short: "", full: "", spoken: "" }, ...more,
}); // prettier-ignore

describe("which card", () => {
  it("is the stitch's own, behind where the hook goes", () => {
    expect(keysOfGroup(group({}))).toEqual(["single"]);
    expect(keysOfGroup(group({ stitch: "inv dec" }))).toEqual(["invisible-decrease"]);
    expect(keysOfGroup(group({ loops: "back" }))).toEqual(["loops", "single"]);
    expect(keysOfGroup(group({ into: "ring", count: 6 }))).toEqual(["ring", "single"]);
    expect(keysOfGroup(group({ into: "other side", count: 8 }))).toEqual(["chain-sides", "single"]);
  });

  it("is the beginning without a ring only where several stitches go into one chain", () => {
    expect(keysOfGroup(group({ into: "2nd ch from hook", count: 6 }))).toEqual(["chain-start", "single"]);
    expect(keysOfGroup(group({ into: "2nd ch from hook" }))).toEqual(["single"]);
  });

  it("is none for a stitch of the text's own", () => {
    expect(keysOfGroup(group({ stitch: "wave" }))).toEqual([]);
  });

  it("is found in repeats too", () => {
    const body = [{ type: "repeat", times: 6, body: [group({}), group({ stitch: "inc" })] }];
    expect([...keysOfCourse({ body } as unknown as StrandCourse)]).toEqual(["single", "two-in-one"]);
  });

  it("tells ends in a stuffed piece from those in a flat one", () => {
    const weave = { kind: "weave" as const, text: "Weave in the ends" };
    const stuff = { kind: "stuff" as const, text: "Stuff firmly." };
    const dry = { kind: "stuff" as const, text: "Do not stuff." };
    expect([stuffed([weave]), stuffed([stuff]), stuffed([dry])]).toEqual([null, true, false]);
    expect(keyOfCue(weave, [weave, stuff])).toBe("ends-stuffed");
    expect(keyOfCue(weave, [weave, dry])).toBe("ends-flat");
    expect(keyOfCue({ kind: "weave", text: "Bury the ends through the stuffing." }, [])).toBe("ends-stuffed");
    expect(keyOfCue(dry, [dry])).toBeNull();
    expect(keyOfCue({ kind: "colour", text: "Change to red" }, [])).toBe("colour");
    expect(keyOfCue({ kind: "hold", text: "Set aside" }, [])).toBeNull();
  });

  it("speaks in the maker's terms", () => {
    const titles = (["US", "UK"] as const).map((terms) => inTerms(cardCalled("half-double")?.title ?? "", terms));
    expect(titles).toEqual(["Half double crochet", "Half treble"]);
    expect(CARDS.every((card) => cardCalled(card.key) === card)).toBe(true);
  });
});

describe("what is new to a making", () => {
  const strand = strandOf(
    { label: "1", body: [groupOf("sc", 6, { into: "ring", uses: 0 })] },
    { label: "2", body: [repeat(6, inc())], then: ["stuff", "stop"] },
    { label: "3", body: [repeat(6, sc(1), inc())], then: ["marker", "whisper"] },
    { label: "4", body: [groupOf("sc", 18, { loops: "back" })] },
    { label: "5", kind: "row", body: [groupOf("ch", 1, { uses: 0, makes: 0 }), groupOf("turn", 1, { uses: 0, makes: 0 }), sc(18)] },
    { label: "6", body: [sc(12), sc(6), groupOf("join", 1, { uses: 0, makes: 0 })] },
  );
  strand.courses.forEach((course, i) => (course.uses = i === 0 ? 0 : (strand.courses[i - 1]?.makes ?? 0)));
  const runs = ["p1.c1", "p1.c2"].map((run, i) => ({ run, piece: "Buoy", copy: i + 1, copies: 2, strand: "s" }));
  const snapshot = { runs, strands: { s: strand } } as unknown as Snapshot;

  /** What is offered before step `at` of the first copy, the second one standing before step `other`. */
  const offered = (at: number, other = 0) => {
    const state = begin([["p1.c1", "s"], ["p1.c2", "s"]], { s: strand });
    const moved = { ...state, in_hand: "p1.c1", runs: Object.fromEntries(Object.entries(state.runs).map(([run, now]) => [run, { ...now, at: run === "p1.c1" ? at : other }])) };
    const seen = seeRun(snapshot, moved, "p1.c1");
    if (!seen) throw new Error("the run is there");
    return { offer: firstUse(snapshot, moved, seen), here: cardsAt(seen), near: cardsNear(seen) };
  };
  const start = (label: string) => strand.courses.find((c) => c.label === label)?.first ?? -1;

  it("is offered once, where it begins", () => {
    expect(offered(0)).toMatchObject({ offer: "ring", here: ["ring", "single"] });
    expect(offered(1).offer).toBeNull();
    expect(offered(start("2"))).toMatchObject({ offer: "second-round", here: ["second-round", "two-in-one"] });
    expect(offered(start("2") + 2).offer).toBeNull();
    expect(offered(start("3")).offer).toBeNull();
    expect(offered(start("4"))).toEqual({ offer: "loops", here: ["loops", "single"], near: ["loops", "single", "marker"] });
    expect(offered(start("5"))).toMatchObject({ offer: "turn", here: ["turn", "single"] });
    expect(offered(start("6"))).toMatchObject({ offer: null, here: ["single"] });
    expect(offered(start("6") + 12)).toMatchObject({ offer: "slip-stitch", here: ["single", "slip-stitch"] });
  });

  it("is not offered again in the next copy", () => {
    expect(offered(0, start("3")).offer).toBeNull();
    expect(offered(start("2"), start("3")).offer).toBeNull();
    expect(offered(start("4"), start("3")).offer).toBe("loops");
  });

  it("has a word for who does it for the first time, in one run of the making", () => {
    const word = { address: "b.3/learn-inc.0", step: start("3") } as StrandCue;
    const worded = { runs, strands: { s: { ...strand, cues: [word] } } } as unknown as Snapshot;
    const told = (other: number) => {
      const state = begin([["p1.c1", "s"], ["p1.c2", "s"]], { s: strand });
      const moved = { ...state, runs: { ...state.runs, "p1.c2": { ...state.runs["p1.c1"]!, at: other } } };
      return toldFirst(worded, moved, seeRun(snapshot, moved, "p1.c1")!)(word);
    };
    expect([0, start("3"), start("3") + 1].map(told)).toEqual([true, true, false]);
  });

  it("is the card of what waits, where something does", () => {
    const stuff = (strand.cues[0]?.step ?? -1);
    expect(offered(stuff).here).toEqual(["stuffing"]);
  });
});
