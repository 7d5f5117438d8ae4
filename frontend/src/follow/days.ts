/** How long an acknowledged move is remembered here: so many days must have passed on this device. */
export const DAYS_KEPT = 30;

const DAY = 86_400_000;

/**
 * Days as this device has seen them pass. A clock may be wrong by hours or years and may jump; so days are not told
 * from dates. A day is counted where the clock shows a day more than it ever did: a leap of years counts as one, a
 * clock set back counts nothing until it is past where it was. What is remembered may be kept for longer, then, and is
 * not let go of earlier.
 */
export interface Days {
  /** The latest the clock ever showed when a day was counted, in ms. */
  latest: number;
  /** For each day, the oldest first: the number of the last thing that was remembered before it. */
  before: number[];
}

/** The clock shows `now`, and `last` was remembered last: the days, and up to where things may be forgotten. */
export function pass(days: Days | undefined, now: number, last: number): { days: Days; forget: number | null } {
  if (!days) return { days: { latest: now, before: [] }, forget: null };
  if (now < days.latest + DAY) return { days, forget: null };
  const before = [...days.before, last];
  const old = before.length > DAYS_KEPT ? before.shift() : undefined;
  return { days: { latest: now, before }, forget: old ?? null };
}
