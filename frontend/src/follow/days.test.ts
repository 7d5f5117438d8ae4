import { describe, expect, test } from "vitest";
import { type Days, DAYS_KEPT, pass } from "./days";

const DAY = 86_400_000;
const NOW = Date.UTC(2026, 10, 25);

/** The clock shows these times, one after another; ten things are remembered before each. What may be forgotten. */
function lived(times: number[]): (number | null)[] {
  let days: Days | undefined;
  return times.map((now, i) => {
    const done = pass(days, now, (i + 1) * 10);
    days = done.days;
    return done.forget;
  });
}

const daily = (n: number, from = NOW) => Array.from({ length: n }, (_, i) => from + i * DAY);

describe("what was acknowledged is remembered for thirty days", () => {
  test("day after day: what came before the first day counted goes thirty days after it", () => {
    const forgotten = lived(daily(40));
    expect(forgotten.slice(0, DAYS_KEPT + 1).every((f) => f === null)).toBe(true);
    expect(forgotten[DAYS_KEPT + 1]).toBe(20);
    expect(forgotten[DAYS_KEPT + 2]).toBe(30);
  });

  test("looked at many times a day it is still one day", () => {
    const often = daily(40).flatMap((t) => [t, t + DAY / 4, t + DAY / 2]);
    expect(lived(often).filter((f) => f !== null)).toHaveLength(40 - DAYS_KEPT - 1);
  });

  test("a clock that leaps by ten years counts one day", () => {
    expect(lived([...daily(3), ...daily(20, NOW + 3650 * DAY)]).every((f) => f === null)).toBe(true);
  });

  test("a clock that wakes in 1970 again and again counts nothing for it", () => {
    const flat = daily(28).flatMap((t) => [0, t]);
    expect(lived([NOW, ...flat]).every((f) => f === null)).toBe(true);
  });

  test("a clock that once ran ahead keeps things for longer, never for less", () => {
    expect(lived([NOW, NOW + 90 * DAY, ...daily(60)]).every((f) => f === null)).toBe(true);
  });
});
