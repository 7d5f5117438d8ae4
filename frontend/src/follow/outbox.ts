import { signal } from "@preact/signals";
import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import type { Snapshot } from "../api";
import type { Strand } from "../generated/pattern";

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
  /** Without their strands: those never change and are kept once. */
  snapshots: { key: number; value: Snapshot };
  strands: { key: string; value: Strand };
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
  keepSnapshot(snapshot: Snapshot): Promise<void>;
  snapshot(making: number): Promise<Snapshot | undefined>;
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
        fresh.createObjectStore("strands");
      },
    });
    return await kept(db);
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
  let lasting = false;
  const strands = new Set<string>();

  return {
    device,
    get kept() {
      return !spilled;
    },
    async add(waiting) {
      if (!lasting) {
        lasting = true;
        void globalThis.navigator?.storage?.persist?.().catch(() => false);
      }
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
    async keepSnapshot(snapshot) {
      const tx = db.transaction(["snapshots", "strands"], "readwrite");
      for (const [id, strand] of Object.entries(snapshot.strands))
        if (!strands.has(id)) void tx.objectStore("strands").put(strand, id);
      void tx.objectStore("snapshots").put({ ...snapshot, strands: {} }, snapshot.id);
      await tx.done;
      for (const id of Object.keys(snapshot.strands)) strands.add(id);
    },
    async snapshot(making) {
      const tx = db.transaction(["snapshots", "strands"]);
      const found = await tx.objectStore("snapshots").get(making);
      if (!found) return undefined;
      const ids = [...new Set(Object.values(found.state.runs).map((run) => run.strand))];
      const all = await Promise.all(ids.map((id) => tx.objectStore("strands").get(id)));
      if (all.some((strand) => !strand)) return undefined;
      return { ...found, strands: Object.fromEntries(ids.map((id, i) => [id, all[i] as Strand])) };
    },
    dropSnapshot: (making) => db.delete("snapshots", making),
  };
}

/** The same outbox for a browser that keeps nothing (private windows, a full disk). */
export function inMemory(): Outbox {
  let entries: Entry[] = [];
  let last = 0;
  const snapshots = new Map<number, Snapshot>();
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
    async keepSnapshot(snapshot) {
      snapshots.set(snapshot.id, snapshot);
    },
    snapshot: async (making) => snapshots.get(making),
    async dropSnapshot(making) {
      snapshots.delete(making);
    },
  };
}
