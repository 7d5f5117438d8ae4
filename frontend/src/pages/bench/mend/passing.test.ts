import { describe, expect, test } from "vitest";
import { apply, begin, isRefusal, type Intent, type RunIntent } from "../../../follow/stepping";
import { inc, repeat, sc, strandOf } from "../course.fixture";
import { goOn, passedBetween, readOut } from "./passing";

const strand = strandOf(
  { label: "1", body: [sc(6)] },
  { label: "2", body: [repeat(6, inc())], then: ["stuff", "stop"] },
  { label: "3", body: [repeat(6, sc(1), inc())], then: ["colour", "pause"] },
  { label: "4", text: "Work the ridge as in the photo." },
  { label: "5", body: [sc(18)] },
);
const [, two, three, four, five] = strand.courses;
if (!two || !three || !four || !five) throw new Error("five courses were told");
const [stuff, colour] = strand.cues.map((cue) => cue.address);

function worker(at = 0) {
  let state = begin([["p1.c1", "s"]], { s: strand });
  let row = 1;
  const did: Intent[] = [];
  const move = (intent: Intent): boolean => {
    const done = apply(state, { s: strand }, ++row, { ...intent, run: "p1.c1" } as RunIntent);
    if (isRefusal(done)) return false;
    state = done.state;
    did.push(intent);
    return true;
  };
  if (at) move({ intent: "goto", to: at });
  did.length = 0;
  return { move, place: () => state.runs["p1.c1"]?.at ?? 0, did };
}

describe("worked on without the page", () => {
  test("what waits on the way is one list, in the order of the work", () => {
    expect(passedBetween(strand, 0, five.end).map((one) => one.id)).toEqual([stuff, colour, four.id]);
    expect(passedBetween(strand, 0, two.end)).toEqual([]); // it waits there, and was not passed
  });

  test("each is named aloud with its round, so that a yes is a yes to all of them", () => {
    const said = readOut(passedBetween(strand, 0, five.end));
    expect(said).toMatch(/^3 things came on the way\. 1: .*, at round 2\. 2: .*, at round 3\. 3: Round 4 in words\. Are they all done\?$/);
    expect(readOut(passedBetween(strand, 0, three.end))).toMatch(/^One thing came on the way\. .*, at round 2\. Is it done\?$/);
  });

  test("each is answered by its address", () => {
    const { move, place, did } = worker();
    expect(goOn(strand, five.end, new Set([stuff ?? "", colour ?? ""]), { [four.id]: 18 }, place, move)).toBe(true);
    expect(place()).toBe(five.end);
    expect(did.filter((one) => one.intent === "done").map((one) => ("cue" in one ? one.cue : ""))).toEqual([stuff, colour, four.id]);
  });

  test("what was not ticked is where it stops, a pause too", () => {
    const nothing = worker();
    expect(goOn(strand, five.end, new Set(), {}, nothing.place, nothing.move)).toBe(false);
    expect(nothing.place()).toBe(two.end);
    const half = worker();
    expect(goOn(strand, five.end, new Set([stuff ?? ""]), {}, half.place, half.move)).toBe(false);
    expect(half.place()).toBe(three.end);
    const uncounted = worker();
    expect(goOn(strand, five.end, new Set([stuff ?? "", colour ?? ""]), {}, uncounted.place, uncounted.move)).toBe(false);
    expect(uncounted.place()).toBe(four.first);
  });
});
