import { expect, test } from "vitest";
import type { ShelfMaking } from "../../api";
import { PretendJournal } from "../../follow/pretend";
import { recap } from "./recap";
import { moved } from "./remembered";

const making: ShelfMaking = {
  id: 1, pattern: "buoy", title: "Harbour buoy", begun: "2026-11-20T10:00:00", head: 10, worked: null, terms: "US",
  in_hand: null, finished: false, asides: 0,
};

test("a making that this device went on with stands where it is now", () => {
  const snapshot = new PretendJournal().snapshot();
  expect(moved(making, snapshot, [])).toBe(making);
  const next = { intent: "next" as const, run: "p1.c2", unit: "stitch" };
  const now = moved(making, snapshot, [next, next, next]);
  expect(now.in_hand).toMatchObject({ run: "p1.c2", copy: 2, copies: 2, label: "1", kind: "round" });
  expect(now.in_hand?.stitch).toBeGreaterThan(0);
  expect(recap(now, new Date()).stopped).toMatch(/^You are in round 1, \d of \d made\.$/);
});
