import type { Snapshot } from "../api";
import type { Strand } from "../generated/pattern";
import type { Store } from "./store";

/**
 * What this device needs to go on without the server: the last snapshot of each making with its strands, and the last
 * answers of the server. Losing any of it loses no move.
 */
export interface Basket {
  keepSnapshot(snapshot: Snapshot): Promise<void>;
  snapshot(making: number): Promise<Snapshot | undefined>;
  /** Epoch and head of the snapshot that is kept. */
  heads(): Promise<Map<number, { epoch: string; head: number }>>;
  dropSnapshot(making: number): Promise<void>;
  keepAnswer(address: string, answer: unknown): Promise<void>;
  answer(address: string): Promise<unknown>;
}

/** Answers kept: shelf, maker, and the texts of so many patterns. */
const MOST_ANSWERS = 100;

export function openBasket(store: Store | null): Basket {
  return store ? onDisk(store) : inMemory();
}

function onDisk(db: Store): Basket {
  const strands = new Set<string>();

  return {
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
      const ids = strandsOf(found);
      const all = await Promise.all(ids.map((id) => tx.objectStore("strands").get(id)));
      if (all.some((strand) => !strand)) return undefined;
      return { ...found, strands: Object.fromEntries(ids.map((id, i) => [id, all[i] as Strand])) };
    },
    async heads() {
      const all = await db.getAll("snapshots");
      return new Map(all.map(({ id, epoch, head }) => [id, { epoch, head }]));
    },
    async dropSnapshot(making) {
      const tx = db.transaction(["snapshots", "strands"], "readwrite");
      await tx.objectStore("snapshots").delete(making);
      const used = new Set((await tx.objectStore("snapshots").getAll()).flatMap(strandsOf));
      for (const id of await tx.objectStore("strands").getAllKeys())
        if (!used.has(id)) {
          void tx.objectStore("strands").delete(id);
          strands.delete(id);
        }
      await tx.done;
    },
    async keepAnswer(address, answer) {
      const tx = db.transaction("answers", "readwrite");
      void tx.store.put(answer, address);
      const over = (await tx.store.count()) - MOST_ANSWERS;
      if (over > 0) for (const old of await tx.store.getAllKeys(null, over)) if (old !== address) void tx.store.delete(old);
      await tx.done;
    },
    answer: (address) => db.get("answers", address),
  };
}

const strandsOf = (snapshot: Snapshot): string[] => [...new Set(Object.values(snapshot.state.runs).map((run) => run.strand))];

function inMemory(): Basket {
  const snapshots = new Map<number, Snapshot>();
  return {
    async keepSnapshot(snapshot) {
      snapshots.set(snapshot.id, snapshot);
    },
    snapshot: async (making) => snapshots.get(making),
    heads: async () => new Map([...snapshots.values()].map(({ id, epoch, head }) => [id, { epoch, head }])),
    async dropSnapshot(making) {
      snapshots.delete(making);
    },
    keepAnswer: async () => undefined,
    answer: async () => undefined,
  };
}
