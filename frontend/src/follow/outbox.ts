import { type Days, pass } from "./days";
import { inMemory } from "./memory";
import { type Answer, type Entry, type Held, hopeless, type Move, onto, randomId, renewed, sorted, stretches, type Waiting } from "./moves";
import { askToKeep, isFull, keeping, openStore, type Store } from "./store";

/** Where moves wait until the journal has them. Kept on disk, or in memory where the browser refuses. */
export interface Outbox {
  readonly device: string;
  /** False: a closed tab loses what waits. Said to the maker before anything is at risk. */
  readonly kept: boolean;
  add(waiting: Waiting): Promise<number>;
  /** The oldest first; at most `many`. */
  all(many?: number): Promise<Entry[]>;
  count(): Promise<number>;
  /** These were answered and need not wait any more. What the journal took is remembered, the rest is held. */
  answered(entries: readonly Entry[], answers: readonly Answer[]): Promise<void>;
  held(): Promise<Held[]>;
  /** What is held for this making waits again; how many. */
  takeUp(making: number): Promise<number>;
  /** What waits for this making and cannot be sent is held. */
  hold(making: number, code: string, say: string): Promise<void>;
  /** Moves of this making that the journal of this epoch acknowledged, the oldest first, with the rows they were. */
  remembered(making: number, epoch: string): Promise<{ move: Move; row: number }[]>;
  /** These moves of this making wait for the journal of this epoch, and behind them what else waits for it. */
  putBack(making: number, epoch: string, moves: readonly Move[]): Promise<void>;
  /** What waits for this making does not go out any more; it is remembered instead. */
  layBy(making: number): Promise<void>;
}

/** Of acknowledged batches at most so many are remembered; the oldest are let go of first. */
const MOST_REMEMBERED = 60_000;

/** The outbox of this device, or one in memory. `now`: what the clock shows. */
export async function openOutbox(now: () => number = Date.now): Promise<{ outbox: Outbox; store: Store | null }> {
  try {
    const store = await openStore();
    return { outbox: await kept(store, now), store };
  } catch {
    if (keeping.value === "opening") keeping.value = "refused";
    return { outbox: inMemory(), store: null };
  }
}

async function kept(db: Store, now: () => number): Promise<Outbox> {
  const start = db.transaction("about", "readwrite");
  let device = (await start.store.get("device")) as string | undefined;
  if (typeof device !== "string") {
    device = randomId();
    await start.store.put(device, "device");
  }
  await start.done;

  // Once the disk has refused one move the later ones must not overtake it: they all go to memory.
  const spill = inMemory();
  let spilled = false;
  let last = 0;
  let asked = false;

  /**
   * On disk behind the copy that the move was made on: transactions that name the same drawer take turns in the order
   * in which they were begun, so the drawer of copies is named though nothing in it is touched.
   */
  async function addBehindCopy(waiting: Waiting): Promise<number> {
    const tx = db.transaction(["moves", "snapshots"], "readwrite");
    const [seq] = await Promise.all([tx.objectStore("moves").add(waiting), tx.done]);
    return seq;
  }

  /** What is remembered makes room for what waits. */
  async function addOn(waiting: Waiting): Promise<number> {
    try {
      return await addBehindCopy(waiting);
    } catch (why) {
      if (!isFull(why)) throw why;
      await db.clear("remembered");
      return addBehindCopy(waiting);
    }
  }

  return {
    device,
    get kept() {
      return !spilled;
    },
    async add(waiting) {
      if (!asked) {
        asked = true;
        void askToKeep();
      }
      if (!spilled) {
        try {
          last = await addOn(waiting);
          return last;
        } catch (why) {
          spilled = true;
          if (keeping.value !== "left") keeping.value = isFull(why) ? "full" : "refused";
        }
      }
      return last + (await spill.add(waiting));
    },
    async all(many) {
      const rest = spilled ? (await spill.all()).map((e) => ({ ...e, seq: last + e.seq })) : [];
      try {
        const tx = db.transaction("moves");
        const [keys, values] = await Promise.all([tx.store.getAllKeys(null, many), tx.store.getAll(null, many)]);
        const found = keys.map((seq, i) => ({ seq, ...(values[i] as Waiting) }));
        return [...found, ...rest].slice(0, many);
      } catch (why) {
        if (!spilled) throw why;
        return rest.slice(0, many);
      }
    },
    async count() {
      return (await db.count("moves").catch(() => 0)) + (await spill.count());
    },
    async answered(entries, answers) {
      if (spilled) await spill.answered(entries.map((e) => ({ ...e, seq: e.seq - last })), answers);
      if (!entries.length) return;
      const { taken, held } = sorted(entries, answers);
      try {
        await remember(db, entries, taken, held, now());
      } catch (why) {
        if (spilled && keeping.value === "left") return;
        if (!isFull(why)) throw why;
        // There is no room to remember: the journal has them, and what waits comes first.
        await db.clear("remembered");
        await remember(db, entries, [], held, now());
      }
    },
    held: async () => [...(await db.getAll("held")), ...(await spill.held())],
    async takeUp(making) {
      const tx = db.transaction(["held", "moves"], "readwrite");
      const again = await taken<Held>(tx.objectStore("held"), (one) => one.move.making === making && !hopeless(one));
      for (const one of renewed(again.map(([, one]) => one))) void tx.objectStore("moves").add(one);
      await tx.done;
      return again.length + (await spill.takeUp(making));
    },
    async hold(making, code, say) {
      const tx = db.transaction(["held", "moves"], "readwrite");
      const these = await taken<Waiting>(tx.objectStore("moves"), (one) => one.move.making === making);
      for (const [, one] of these) void tx.objectStore("held").add({ ...one, code, say });
      await tx.done;
      await spill.hold(making, code, say);
    },
    async remembered(making, epoch) {
      const found: { move: Move; row: number }[] = [];
      for (const batch of await db.getAll("remembered"))
        if (batch.epoch === epoch)
          batch.moves.forEach((move, i) => {
            if (move.making === making) found.push({ move, row: batch.rows[i] ?? 0 });
          });
      return found;
    },
    async putBack(making, epoch, moves) {
      const tx = db.transaction("moves", "readwrite");
      const waiting = await taken<Waiting>(tx.store, (one) => one.move.making === making);
      for (const move of onto(moves, waiting.map(([, one]) => one.move))) void tx.store.add({ epoch, move });
      await tx.done;
      await spill.putBack(making, epoch, []);
    },
    async layBy(making) {
      const tx = db.transaction(["moves", "remembered"], "readwrite");
      const old = await taken<Waiting>(tx.objectStore("moves"), (one) => one.move.making === making);
      const [last, epoch] = [old.at(-1)?.[0], old[0]?.[1].epoch];
      if (last !== undefined && epoch !== undefined) {
        const moves = old.map(([, one]) => one.move);
        void tx.objectStore("remembered").put({ epoch, moves, rows: moves.map(() => 0) }, last);
      }
      await tx.done;
      await spill.layBy(making);
    },
  };
}

interface Cursor<T> {
  key: number;
  value: T;
  delete(): Promise<unknown>;
  continue(): Promise<Cursor<T> | null>;
}

/** Takes out of a drawer what is wanted; what that was, with its numbers, in its order. */
async function taken<T>(drawer: { openCursor(): Promise<unknown> }, wanted: (one: T) => boolean): Promise<[number, T][]> {
  const found: [number, T][] = [];
  for (let at = (await drawer.openCursor()) as Cursor<T> | null; at; at = await at.continue())
    if (wanted(at.value)) {
      found.push([at.key, at.value]);
      void at.delete();
    }
  return found;
}

/** In one transaction: what was answered leaves what waits, and is remembered or held; what is old is let go of. */
async function remember(db: Store, entries: readonly Entry[], taken: [Entry, number][], held: Held[], now: number): Promise<void> {
  const tx = db.transaction(["moves", "remembered", "held", "about"], "readwrite");
  const [moves, memory, about] = [tx.objectStore("moves"), tx.objectStore("remembered"), tx.objectStore("about")];
  for (const [from, to] of stretches(entries)) void moves.delete(from === to ? from : IDBKeyRange.bound(from, to));
  for (const one of held) void tx.objectStore("held").add(one);
  const [newest] = taken.at(-1) ?? [];
  if (newest) void memory.put({ epoch: newest.epoch, moves: taken.map(([e]) => e.move), rows: taken.map(([, row]) => row) }, newest.seq);
  const kept = (await about.get("days")) as Days | undefined;
  const { days, forget } = pass(kept, now, entries.at(-1)?.seq ?? 0);
  if (days !== kept) {
    void about.put(days, "days");
    if (forget !== null) void memory.delete(IDBKeyRange.upperBound(forget));
    const over = (await memory.count()) - MOST_REMEMBERED;
    if (over > 0) {
      const oldest = await memory.getAllKeys(null, over);
      void memory.delete(IDBKeyRange.upperBound(oldest.at(-1) as number));
    }
  }
  await tx.done;
}
