import { expect, test } from "vitest";
import { claimsOf } from "./claims";
import { PretendJournal } from "./pretend";

const RUN = "p1.c1";

function asked(own: string, last: [string, string] | null, asides: [string, string, number][]) {
  const snapshot = new PretendJournal().snapshot();
  if (last) snapshot.last = { [RUN]: { device: last[0], device_name: last[1] } };
  const aside = asides.map(([device, device_name, to], i) => ({ row: 20 + i, device, device_name, run: RUN, to }));
  return claimsOf(snapshot, snapshot.state, aside, own).map((c) => `${c.who} ${c.at}`);
}

test("each device by the name a person would use, the bench's place first", () => {
  expect(asked("p", ["t", "tablet"], [["p", "phone", 5]])).toEqual(["the tablet 0", "this phone 5"]);
  expect(asked("t", ["t", "tablet"], [["p", "phone", 5]])).toEqual(["this tablet 0", "the phone 5"]);
  expect(asked("l", ["t", "tablet"], [["p", "phone", 5]])).toEqual(["the tablet 0", "the phone 5"]);
});

test("two of the same name are this one and the other one", () => {
  expect(asked("p", ["q", "phone"], [["p", "phone", 5]])).toEqual(["the other phone 0", "this phone 5"]);
});

test("a device's newest word counts, and its older one is not its place on the bench", () => {
  expect(asked("p", ["t", "tablet"], [["p", "phone", 5], ["p", "phone", 7]])).toEqual(["the tablet 0", "this phone 7"]);
  expect(asked("p", ["p", "phone"], [["p", "phone", 5]])).toEqual(["the bench 0", "this phone 5"]);
});

test("a place nobody is known to have moved to is the bench's; without a name a device is a device", () => {
  expect(asked("p", null, [["p", "", 5]])).toEqual(["the bench 0", "this device 5"]);
  expect(asked("p", null, [])).toEqual([]);
});
