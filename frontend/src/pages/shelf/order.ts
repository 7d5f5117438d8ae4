import type { ShelfMaking, ShelfPattern } from "../../api";

/** From so many things on, the shelf has a field to find one by. */
export const WORTH_FINDING = 8;

/** Newest work first; then what is begun without a stitch, then what is worked with its finishing to do, then what is finished. */
export function byNewest(makings: ShelfMaking[]): ShelfMaking[] {
  // One that was gone on with here, and only the server would know when, is the newest.
  const at = (m: ShelfMaking) => (m.worked === "" ? Number.MAX_VALUE : Date.parse(m.worked ?? m.begun) || 0);
  const late = (m: ShelfMaking) => (m.finished ? (m.to_finish === 0 ? 3 : 2) : Number(m.worked === null));
  return [...makings].sort((a, b) => late(a) - late(b) || at(b) - at(a));
}

/** The maker's patterns: those worked last first, then those put on the shelf last. */
export function lastWorked(patterns: ShelfPattern[], makings: ShelfMaking[]): ShelfPattern[] {
  const at = (p: ShelfPattern) => Math.max(0, ...makings.filter((m) => m.pattern === p.id).map((m) => Date.parse(m.worked || m.begun) || 0));
  return [...patterns].reverse().sort((a, b) => at(b) - at(a));
}

/** Ours, the quickest to finish first: a newcomer begins there. */
export function smallFirst(patterns: ShelfPattern[]): ShelfPattern[] {
  const work = (p: ShelfPattern) => p.pieces.reduce((sum, piece) => sum + piece.make * piece.courses, 0);
  return patterns.filter((p) => p.source === "own").sort((a, b) => work(a) - work(b));
}
