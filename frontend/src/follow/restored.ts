import type { Snapshot } from "../api";
import type { Entry, Move } from "./moves";
import type { Outbox } from "./outbox";
import type { Guest, Wire } from "./wire";

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

const MOST_ASKED = 1000;

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

/**
 * What the maker must be asked before anything of this making is sent; null where there is nothing. `told`: how the
 * journal of `epoch`, which has the making as in `snapshot`, stands to what the guest holds, by its own word.
 */
export async function askOf(
  guest: Guest,
  epoch: string,
  snapshot: Snapshot,
  told: Standing | null,
  outbox: Outbox,
  wire: Wire,
): Promise<Question | null> {
  const { making } = guest;
  const waiting = (await outbox.all()).filter((e) => e.move.making === making);
  const others = waiting.find((e) => e.epoch !== epoch);
  const standing: Standing | null = told ?? (others ? { known: "stranger", shared: 0, when: null, taken: null } : null);
  if (!standing) return null;
  const held = guest.held();
  const about = { making, epoch: others?.epoch ?? held?.epoch ?? epoch, head: held?.head ?? 0 };
  const remembered = await outbox.remembered(making, about.epoch);
  const ids = [...remembered.map((r) => r.move.id), ...waiting.map((e) => e.move.id)];
  const { missing, newest, alike } = await which(wire, about, ids);
  const shared = standing.known === "behind" ? newest : (alike ?? standing.shared);
  const moves = more(remembered, waiting, shared, missing);
  return moves.length || !guest.agrees(snapshot) ? { ...standing, shared, epoch, snapshot, moves } : null;
}

interface Which {
  ok: boolean;
  /** Rows of the moves it has, by their ids. */
  rows?: Record<string, number>;
  /** Up to this row of the making it knows what this device knows. */
  shared?: number;
}

/**
 * Which of these moves the journal has not, the newest row it has of them, and up to where it is alike: asked from the
 * newest move backwards.
 */
async function which(
  wire: Wire,
  about: { making: number; epoch: string; head: number },
  ids: string[],
): Promise<{ missing: Set<string>; newest: number; alike: number | undefined }> {
  const missing = new Set<string>();
  let alike: number | undefined;
  let newest = 0;
  for (let to = ids.length; to > 0; to -= MOST_ASKED) {
    const some = ids.slice(Math.max(0, to - MOST_ASKED), to);
    const { ok, rows, shared } = (await wire.ask("which", { ...about, ids: some })) as Which;
    if (!ok || !rows) throw new Error("not told");
    alike = shared;
    newest = Math.max(newest, ...Object.values(rows));
    const lacks = some.filter((id) => rows[id] === undefined);
    for (const id of lacks) missing.add(id);
    if (!lacks.length) break;
  }
  return { missing, newest, alike };
}
