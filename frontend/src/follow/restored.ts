import type { Snapshot } from "../api";
import type { Entry, Move } from "./moves";

/** How a journal stands to what this device knows, by the server's word. */
export interface Standing {
  /** earlier: an older copy was put back. stranger: another journal. behind: an older file lies there. */
  known: "earlier" | "stranger" | "behind";
  /** Rows of the making up to this one are the same here and there. */
  shared: number;
  /** Wall times, to be shown: of the putting back, and of the copy. */
  when: string | null;
  taken: string | null;
}

/** A making whose journal knows less than this device: nothing is sent until the maker has answered. */
export interface Question extends Standing {
  epoch: string;
  /** As the journal has it now. */
  snapshot: Snapshot;
  /** What this device has more, ready to be sent. */
  moves: Move[];
}

export const MOST_ASKED = 1000;

/** What this device has and the journal has not, in the order it was made, ready for that journal. */
export function more(
  remembered: readonly { move: Move; row: number }[],
  waiting: readonly Entry[],
  shared: number,
  missing: ReadonlySet<string>,
): Move[] {
  const names = new Map(remembered.filter(({ row }) => row > shared).map(({ move, row }) => [row, move.id]));
  const seen = new Set<string>();
  const found: Move[] = [];
  for (const move of [...remembered.map((r) => r.move), ...waiting.map((e) => e.move)]) {
    if (!missing.has(move.id) || seen.has(move.id)) continue;
    seen.add(move.id);
    // A row that is not there any more is named by the move it was.
    const undoes = typeof move.undoes === "number" && move.undoes > shared ? { undoes: names.get(move.undoes) ?? move.undoes } : {};
    found.push({ ...move, ...undoes, base: Math.min(move.base, shared), backlog: true });
  }
  return found;
}
