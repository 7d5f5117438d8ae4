import { signal } from "@preact/signals";
import { type DBSchema, type IDBPDatabase, openDB } from "idb";

/** A move as it travels. `device_seq` is given by the outbox, so two tabs of one device never share a number. */
export interface Move {
  id: string;
  device: string;
  device_seq: number;
  making: number;
  run: string;
  strand: string;
  base: number;
  intent: string;
  unit?: string;
  to?: number;
  cue?: string;
  count?: number;
  /** A row, or the id of a move whose row is not known yet. */
  undoes?: number | string;
  n?: number;
  asides?: number[];
  backlog?: boolean;
}

export interface Entry {
  seq: number;
  /** The journal this move was made for; another journal must never get it unasked. */
  epoch: string;
  move: Move;
}

export type Waiting = Omit<Entry, "seq">;

interface Shelves extends DBSchema {
  moves: { key: number; value: Waiting };
  about: { key: string; value: unknown };
  snapshots: { key: number; value: unknown };
}

/** Where moves wait until the journal has them. Kept on disk, or in memory where the browser refuses. */
export interface Outbox {
  readonly device: string;
  /** False: a closed tab loses what waits. Said to the maker before anything is at risk. */
  readonly kept: boolean;
  add(waiting: Waiting): Promise<number>;
  /** The oldest first; at most `many`. */
  all(many?: number): Promise<Entry[]>;
  /** These need not wait any more. */
  forget(entries: readonly Entry[]): Promise<void>;
  /** Put every waiting move of another journal onto this one; the server sets aside what does not fit. */
  readdress(epoch: string): Promise<void>;
  remember(key: string, value: unknown): Promise<void>;
  recall(key: string): Promise<unknown>;
  keepSnapshot(making: number, snapshot: unknown): Promise<void>;
  snapshot(making: number): Promise<unknown>;
  dropSnapshot(making: number): Promise<void>;
}

/** 128 random bits as 32 hex digits. */
export function randomId(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (b) => b.toString(16).padStart(2, "0")).join("");
}

/** True once the browser has refused to keep anything. */
export const storageRefused = signal(false);

const NAME = "hookside";

export async function openOutbox(): Promise<Outbox> {
  try {
    const db = await openDB<Shelves>(NAME, 1, {
      upgrade(fresh) {
        fresh.createObjectStore("moves", { autoIncrement: true });
        fresh.createObjectStore("about");
        fresh.createObjectStore("snapshots");
      },
    });
    const box = await kept(db);
    void globalThis.navigator?.storage?.persist?.().catch(() => false);
    return box;
  } catch {
    storageRefused.value = true;
    return inMemory();
  }
}

async function kept(db: IDBPDatabase<Shelves>): Promise<Outbox> {
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

  return {
    device,
    get kept() {
      return !spilled;
    },
    async add(waiting) {
      if (!spilled) {
        try {
          last = await db.add("moves", waiting);
          return last;
        } catch {
          spilled = true;
          storageRefused.value = true;
        }
      }
      return last + (await spill.add(waiting));
    },
    async all(many) {
      const tx = db.transaction("moves");
      const [keys, values] = await Promise.all([tx.store.getAllKeys(null, many), tx.store.getAll(null, many)]);
      const found = keys.map((seq, i) => ({ seq, ...(values[i] as Waiting) }));
      if (!spilled) return found;
      const rest = (await spill.all()).map((e) => ({ ...e, seq: last + e.seq }));
      return [...found, ...rest].slice(0, many);
    },
    async forget(entries) {
      const tx = db.transaction("moves", "readwrite");
      for (const { seq } of entries) void tx.store.delete(seq);
      await tx.done;
      await spill.forget(entries.map((e) => ({ ...e, seq: e.seq - last })));
    },
    async readdress(epoch) {
      const tx = db.transaction("moves", "readwrite");
      let cursor = await tx.store.openCursor();
      while (cursor) {
        const { move, epoch: old } = cursor.value;
        if (old !== epoch) await cursor.update({ epoch, move: { ...move, backlog: true } });
        cursor = await cursor.continue();
      }
      await tx.done;
      await spill.readdress(epoch);
    },
    async remember(key, value) {
      await db.put("about", value, key);
    },
    recall: (key) => db.get("about", key),
    async keepSnapshot(making, snapshot) {
      await db.put("snapshots", snapshot, making);
    },
    snapshot: (making) => db.get("snapshots", making),
    dropSnapshot: (making) => db.delete("snapshots", making),
  };
}

/** The same outbox for a browser that keeps nothing (private windows, a full disk). */
export function inMemory(): Outbox {
  let entries: Entry[] = [];
  let last = 0;
  const about = new Map<string, unknown>();
  const snapshots = new Map<number, unknown>();
  return {
    device: randomId(),
    kept: false,
    async add(waiting) {
      entries.push({ seq: ++last, ...waiting });
      return last;
    },
    all: async (many) => entries.slice(0, many),
    async forget(done) {
      const seqs = new Set(done.map((e) => e.seq));
      entries = entries.filter((e) => !seqs.has(e.seq));
    },
    async readdress(epoch) {
      entries = entries.map((e) => (e.epoch === epoch ? e : { ...e, epoch, move: { ...e.move, backlog: true } }));
    },
    async remember(key, value) {
      about.set(key, value);
    },
    recall: async (key) => about.get(key),
    async keepSnapshot(making, snapshot) {
      snapshots.set(making, snapshot);
    },
    snapshot: async (making) => snapshots.get(making),
    async dropSnapshot(making) {
      snapshots.delete(making);
    },
  };
}
