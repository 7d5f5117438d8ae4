import { type Entry, type Held, hopeless, type Move, onto, randomId, renewed, sorted } from "./moves";
import type { Outbox } from "./outbox";

/** The same outbox for a browser that keeps nothing (private windows, a full disk). */
export function inMemory(): Outbox {
  let entries: Entry[] = [];
  let held: Held[] = [];
  const done: { epoch: string; move: Move; row: number }[] = [];
  let last = 0;

  /** What waits for a making, taken out. */
  function taken(making: number): Entry[] {
    const found = entries.filter((e) => e.move.making === making);
    entries = entries.filter((e) => e.move.making !== making);
    return found;
  }

  return {
    device: randomId(),
    kept: false,
    async add(waiting) {
      entries.push({ seq: ++last, ...waiting });
      return last;
    },
    all: async (many) => entries.slice(0, many),
    count: async () => entries.length,
    async answered(these, answers) {
      const seqs = new Set(these.map((e) => e.seq));
      entries = entries.filter((e) => !seqs.has(e.seq));
      const found = sorted(these, answers);
      held.push(...found.held);
      for (const [{ epoch, move }, row] of found.taken) done.push({ epoch, move, row });
    },
    held: async () => held,
    async takeUp(making) {
      const again = held.filter((one) => one.move.making === making && !hopeless(one));
      held = held.filter((one) => !again.includes(one));
      for (const one of renewed(again)) entries.push({ seq: ++last, ...one });
      return again.length;
    },
    async hold(making, code, say) {
      for (const { epoch, move } of taken(making)) held.push({ epoch, move, code, say });
    },
    remembered: async (making, epoch) => done.filter((d) => d.move.making === making && d.epoch === epoch),
    async putBack(making, epoch, moves) {
      const waiting = taken(making).map((e) => e.move);
      for (const move of onto(moves, waiting)) entries.push({ seq: ++last, epoch, move });
    },
    async layBy(making) {
      for (const { epoch, move } of taken(making)) done.push({ epoch, move, row: 0 });
    },
  };
}
