import { expect, test } from "vitest";
import { locate } from "../../../follow/place";
import { inc, repeat, sc, strandOf } from "../course.fixture";
import type { Seen } from "../seen";
import { askedBelow, countPlainly, lostPlainly, recapPlainly } from "./plainly";

// Demo.
const strand = strandOf({ label: "1", body: [sc(6)] }, { label: "2", body: [repeat(6, inc())] }, { label: "3", body: [repeat(6, sc(1), inc())] });

function seen(round: number, made: number): Seen {
  const course = strand.courses[round - 1];
  if (!course) throw new Error(`no round ${round}`);
  const at = course.first + made;
  return { run: "p1.c1", piece: "Buoy", copy: 1, copies: 1, strand, at, spot: locate(strand, at), course, done: made, counts: {}, last: null };
}

test("without the server a count is asked for, found right, or kept until it can be mended", () => {
  const asked = countPlainly(seen(3, 0), {});
  expect(asked.ask?.text).toBe("How many stitches do you count in round 2?");
  expect(asked.ask?.choices.map((c) => c.value)).toEqual([10, 11, 12, 13, 14]);
  expect(countPlainly(seen(3, 0), { n: 12 }).said).toBe("12 is right: round 2 has 12.");
  const off = countPlainly(seen(3, 0), { n: 11 });
  expect(off.said).toContain("You count 11, I have 12 in round 2.");
  expect(off.said).toContain("asked when the link is back");
  expect([off.to, off.offers]).toEqual([null, []]);
  expect(countPlainly(seen(3, 4), { n: 4 }).said).toBe("4 is right: 4 of round 3 are made.");
  expect(countPlainly(seen(1, 0), {}).said).toContain("Nothing is there to count yet");
});

test("without the server one who is lost counts the round on the hook, or chooses the place by hand", () => {
  expect(lostPlainly(seen(3, 4), {}).ask?.text).toBe("Is round 3 on the hook?");
  expect(lostPlainly(seen(3, 4), { same: "yes" }).ask?.text).toBe("How many stitches from the marker to the hook?");
  const found = lostPlainly(seen(3, 4), { same: "yes", n: 7 });
  expect(found.said).toBe("You are in round 3, and 7 stitches of 18 are made.");
  expect(locate(strand, found.to ?? -1)).toMatchObject({ course: 2, stitch: 7 });
  expect(lostPlainly(seen(3, 4), { same: "no" }).offers.map((offer) => offer.key)).toEqual(["goto", "rip"]);
});

test("the round below is asked for with what it should have", () => {
  expect(askedBelow({ course: "buoy.2", name: "round 2", n: 12, here: false, given: null }).ask?.text).toBe("Count round 2, the one below. Is it 12?");
});

test("the recap of this device alone has the count to expect, and the last one with its round", () => {
  const lines = recapPlainly(seen(3, 4), { name: "round 2", n: 12 }).map((line) => line.text);
  expect(lines).toEqual(["Last count you gave: 12, in round 2.", "Count from the marker to the hook: I expect 4."]);
});
