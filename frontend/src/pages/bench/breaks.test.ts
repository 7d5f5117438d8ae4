import { expect, test } from "vitest";
import { workedFor } from "./breaks";

const MINUTE = 60_000;
const every = (minutes: number, n: number, from = 0) => Array.from({ length: n }, (_, i) => (from + i * minutes) * MINUTE);

test("work goes on while moves come", () => {
  expect(workedFor([], 0)).toBe(0);
  expect(workedFor(every(2, 26), 50 * MINUTE)).toBe(50);
});

test("five minutes without a move are a rest, whenever they were", () => {
  expect(workedFor(every(2, 26), 55 * MINUTE)).toBe(0);
  expect(workedFor([...every(2, 26), ...every(2, 5, 56)], 64 * MINUTE)).toBe(8);
});

test("a clock that was put back ends the count instead of growing it", () => {
  expect(workedFor([...every(2, 10, 600), ...every(2, 3)], 4 * MINUTE)).toBe(4);
});
