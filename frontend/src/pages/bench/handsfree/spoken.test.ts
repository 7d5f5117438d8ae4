import { describe, expect, test } from "vitest";
import { begin } from "../../../follow/stepping";
import type { Snapshot } from "../../../api";
import { inc, repeat, sc, strandOf, words } from "../course.fixture";
import { type Seen, seeRun } from "../seen";
import type { Strand } from "../../../generated/pattern";
import { expectingAt, mostOf } from "./expecting";
import { aheadSaid, beforeOf, countSaid, courseSaid, leftSaid, lostSaid, newsOf, promptSaid, ripTargets } from "./spoken";

const strand = strandOf(
  { label: "1", body: [sc(6)] },
  { label: "2", body: [repeat(6, inc())], then: ["colour", "pause"] },
  { label: "3", body: [repeat(6, sc(1), inc())] },
  { label: "4", body: [sc(18)], then: ["stuff", "stop"] },
  { label: "5", text: "Work the ridge as in the photo." },
  { label: "6", body: [sc(18)] },
);
const [one, two, three, four, five] = strand.courses;
if (!one || !two || !three || !four || !five) throw new Error("six courses were told");
const pause = strand.cues[0]?.step ?? 0;
const stop = strand.cues[1]?.step ?? 0;

const snapshot = { runs: [{ run: "p1.c1", piece: "Buoy", copy: 1, copies: 1, strand: "s" }], strands: { s: strand } } as unknown as Snapshot;

function at(step: number): Seen {
  const state = begin([["p1.c1", "s"]], { s: strand });
  const run = state.runs["p1.c1"];
  if (!run) throw new Error("the run was begun");
  const seen = seeRun(snapshot, { ...state, in_hand: "p1.c1", runs: { "p1.c1": { ...run, at: step } } }, "p1.c1");
  if (!seen) throw new Error("it stands on the bench");
  return seen;
}

describe("sentences for ears", () => {
  test("a round, and the later ones of a plain run", () => {
    expect(courseSaid({ ...three, words: { ...words(""), spoken: "single crochet in the next, then two in the next; six times in all" } })).toBe(
      "Round 3: single crochet in the next, then two in the next; six times in all. 18 stitches.",
    );
    const plain = { ...four, plain_index: 2, plain_of: 4, plain_from: "3", plain_to: "6" };
    expect(courseSaid(plain)).toBe("Round 4, plain round 2 of 4. 18 stitches.");
    expect(courseSaid(five)).toContain("Say how many stitches you made.");
  });

  test("how many are left, and what comes", () => {
    expect(leftSaid(at(three.first + 4))).toBe("14 stitches left in round 3: this repeat and 4 more.");
    expect(leftSaid(at(three.first + 15))).toBe("3 stitches left in round 3: this is the last repeat.");
    expect(aheadSaid(at(three.first))).toBe("Next: 1 sc. In 2 rounds: stuff.");
    expect(aheadSaid(at(pause))).toBe("First this: colour now.");
  });

  test("lost: where the hook is, and what to count", () => {
    expect(lostSaid(at(three.first + 4))).toBe("Round 3, repeat 2 of 6, 4 of 18 made. Count back from the hook: 4 stitches to the marker.");
    expect(lostSaid(at(three.first))).toContain("The round below should have 12 stitches");
  });

  test("a count that fits and one that does not: nothing is moved", () => {
    expect(countSaid(at(three.first + 4), 4)).toBe("4: that is right for round 3.");
    expect(countSaid(at(three.first), 11)).toContain("You count 11, I have 12 in round 2. Nothing was moved.");
  });

  test("where ripping back may lead, the nearest first", () => {
    expect(ripTargets(at(three.first + 4), null)).toEqual([three.first + 3, three.first, two.first]);
    expect(ripTargets(at(three.first + 4), "round")).toEqual([three.first, two.first]);
    expect(ripTargets(at(three.first), "round")).toEqual([two.first]);
    expect(ripTargets(at(0), null)).toEqual([]);
  });
});

describe("what is said by itself", () => {
  const first = beforeOf(at(three.first));
  test("by how much the maker wants to hear", () => {
    const next = at(three.first + 3);
    expect(newsOf(first, next)).toBe("repeat");
    expect(promptSaid(first, next, [], "rounds", false)).toBe("");
    expect(promptSaid(first, next, [], "repeats", false)).toBe("Repeat 2 of 6.");
    const round = at(four.first);
    expect(newsOf(first, round)).toBe("round");
    expect(promptSaid(first, round, [], "rounds", false)).toContain("Round 4");
    expect(promptSaid(first, round, [], "cues", false)).toBe("");
    expect(promptSaid(first, at(stop), [], "cues", false)).toBe("stuff now.");
    expect(promptSaid(first, at(stop), [], "silent", false)).toBe("");
  });

  test("never between two numbers of a count, but what waits is said", () => {
    expect(promptSaid(first, at(three.first + 3), strand.cues, "repeats", true)).toBe("");
    expect(promptSaid(first, at(stop), [], "cues", true)).toBe("stuff now.");
    expect(promptSaid(first, at(four.first), [], "rounds", true)).toContain("Round 4");
  });
});

describe("what is expected", () => {
  test("at every kind of place", () => {
    expect(expectingAt(at(three.first), "work", null, false, null)).toEqual({ waits: null, answers: null, count: null });
    expect(expectingAt(at(three.first), "work", null, false, "repeat").count?.next).toEqual([1, 2, 3, 1, 2, 3]);
    expect(expectingAt(at(pause), "work", null, false, null).waits).toBe("pause");
    expect(expectingAt(at(stop), "stop", null, false, "round")).toEqual({ waits: "stop", answers: null, count: null });
    expect(expectingAt(at(stop), "stop", null, true, null).answers).toEqual(["listen"]);
    expect(expectingAt(at(three.first), "work", ["yes", "no"], false, "round")).toEqual({ waits: "question", answers: ["yes", "no"], count: null });
    expect(expectingAt(at(five.first), "unread", null, false, null).answers).toContain("count");
    // With two words alone every sound would be one of them, and another device's place the answer.
    expect(expectingAt(at(three.first), "settle", null, false, null).answers).toEqual(expect.arrayContaining(["yes", "no", "round", "next", "hold"]));
  });

  test("how many rounds and stitches there can be", () => {
    const of = (...courses: [label: string, makes: number | null, read?: boolean][]) => mostOf({ courses: courses.map(([label, makes, read = true]) => ({ label, makes, declared: null, read })) } as unknown as Strand);
    expect(of(["1", 6], ["2", 12], ["3", 18])).toEqual({ rounds: 3, stitches: 36 });
    expect(of(["1", 6], ["2", 6])).toEqual({ rounds: 2, stitches: 20 });
    // What is counted may be rounds, and a round in words may have any number of stitches.
    expect(of(["1", 6], ["40", 6])).toEqual({ rounds: 40, stitches: 40 });
    expect(of(["1", 6], ["2", null, false])).toEqual({ rounds: 2 });
    expect(of(["A", 30])).toEqual({ stitches: 60 });
  });
});
