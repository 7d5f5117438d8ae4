import { expect, test } from "vitest";
import type { Told } from "../../api";
import { about, duration, timeLeft, workLeft } from "./words";

test.each([[0.4, "0 min"], [25, "25 min"], [60, "1 h"], [125, "2 h 5 min"]])("%s minutes", (minutes, words) =>
  expect(duration(minutes)).toBe(words),
);
test.each([[0.2, "1 min"], [7.3, "7 min"], [37, "35 min"], [128, "2 h 15 min"], [60 * 9.9, "10 h"]])("about %s minutes", (minutes, words) =>
  expect(about(minutes)).toBe(words),
);

// Demo.
const told: Told = {
  title: "Gull", sittings: [], worked_seconds: 0, pace: null, runs: [], notes: [],
  left: {
    stitches: 210, stitches_of: 216, courses: 15, courses_of: 16, unread: 0,
    minutes: { value: 14, low: 4.7, high: 35, sittings: 0 }, metres: { value: 4.21, low: 3, high: 6 },
  },
};

test("without a pace of her own it says whose pace it is", () => {
  expect(timeLeft(told).say).toBe("About 14 min at the hook, between 5 min and 35 min.");
  expect(timeLeft(told).basis).toContain("By what is common");
});

test("with one it says from how many sittings", () => {
  const own = { ...told, left: { ...told.left, minutes: { ...told.left.minutes, sittings: 4 } } };
  expect(timeLeft(own).basis).toContain("your last 4 sittings");
});

test("what is left, and what nobody could count", () => {
  expect(workLeft(told)).toBe("210 stitches of 216, 15 of 16 rounds and rows, about 4.2 m of yarn.");
  expect(workLeft({ ...told, left: { ...told.left, metres: null, unread: 1 } })).toBe(
    "210 stitches of 216, 15 of 16 rounds and rows. 1 could not be read and comes on top.",
  );
});
