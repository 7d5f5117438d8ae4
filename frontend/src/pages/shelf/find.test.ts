import { describe, expect, test } from "vitest";
import type { Shelf, ShelfMaking, ShelfPattern } from "../../api";
import { findOn, found, labelsOn } from "./find";
import { byNewest, lastWorked } from "./order";

// Demo data.
const pattern = (id: string, title: string, labels: string[] = []): ShelfPattern => ({
  id, title, hook: "", source: "yours", pieces: [{ name: "Wing", make: 2, courses: 9 }], labels,
  findings: { error: 0, warning: 0, note: 0 }, can_be_followed: true,
});
const making = (id: number, of: string, title: string, worked: string | null, labels: string[] = []): ShelfMaking => ({
  id, pattern: of, title, begun: "2026-10-01T08:00:00Z", worked, terms: "US", in_hand: null, finished: false, asides: 0, labels,
});
const shelf = {
  epoch: "", patterns: [pattern("a", "Gull"), pattern("b", "Möwe", ["for the fair"]), pattern("c", "Buoy")],
  makings: [making(1, "a", "Gull", "2026-11-02T08:00:00Z", ["blue"])], away: [making(2, "c", "Buoy", null)],
} as unknown as Shelf;

describe("finding", () => {
  test.each([
    ["gull", ["Gull"], true],
    ["mowe", ["Möwe"], true],
    ["fair gull", ["Gull", "for the fair"], true],
    ["gull seal", ["Gull"], false],
    ["  ", ["Gull"], true],
    [".*", ["Gull"], false],
  ])("%s", (asked, called, there) => expect(found(asked, called)).toBe(there));

  test("a title, a label or a piece is enough", () => {
    expect(findOn(shelf, "FAIR").patterns.map((p) => p.id)).toEqual(["b"]);
    expect(findOn(shelf, "wing").patterns).toHaveLength(3);
    expect(findOn(shelf, "wing").makings.map((m) => m.id)).toEqual([1]); // by a piece it has not come to yet
    expect(findOn(shelf, "blue").makings.map((m) => m.id)).toEqual([1]);
    expect(findOn(shelf, "buoy").away.map((m) => m.id)).toEqual([2]);
    expect(findOn(shelf, " ")).toBe(shelf);
  });

  test("each label once, by the alphabet", () => expect(labelsOn(shelf)).toEqual(["blue", "for the fair"]));

  test("what was worked last comes first, then what came last", () => {
    expect(lastWorked(shelf.patterns, shelf.makings).map((p) => p.id)).toEqual(["a", "c", "b"]);
  });
});

test("what is in work leads, what was only begun stands behind it, what is finished last", () => {
  const [begun, old] = [making(1, "a", "Gull", null), making(2, "a", "Gull", "2026-11-02T08:00:00Z")];
  const worked = { ...making(3, "a", "Gull", "2026-11-20T08:00:00Z"), finished: true, to_finish: 4 };
  const done = { ...worked, id: 4, worked: "2026-11-21T08:00:00Z", to_finish: 0 };
  expect(byNewest([done, begun, worked, old]).map((m) => m.id)).toEqual([2, 1, 3, 4]);
});
