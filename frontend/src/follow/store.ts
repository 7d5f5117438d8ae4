import { signal } from "@preact/signals";
import { type DBSchema, type IDBPDatabase, openDB } from "idb";
import type { Snapshot } from "../api";
import type { Strand } from "../generated/pattern";
import type { Held, Remembered, Waiting } from "./moves";

/** Everything this device keeps. */
export interface Shelves extends DBSchema {
  /** Moves that wait for the journal, by the number that the device gives them. */
  moves: { key: number; value: Waiting };
  /** Batches that the journal acknowledged, by their last move's number. */
  remembered: { key: number; value: Remembered };
  /** Moves that the journal cannot take as things are. */
  held: { key: number; value: Held };
  about: { key: string; value: unknown };
  /** Without their strands: those never change and are kept once. */
  snapshots: { key: number; value: Snapshot };
  strands: { key: string; value: Strand };
  /** What the server last answered at an address. */
  answers: { key: string; value: unknown };
}

export type Store = IDBPDatabase<Shelves>;

/**
 * How well this browser keeps what waits here.
 * lasting: until the maker says otherwise. kept: unless the browser runs out of room or is told to forget.
 * full, refused: not at all, moves wait in this tab only. held up: another tab has the store in an older form.
 * left: another tab has taken the store into a newer form, and this page cannot write to it any more.
 */
export type Keeping = "opening" | "lasting" | "kept" | "full" | "refused" | "held up" | "left";

export const keeping = signal<Keeping>("opening");

const NAME = "hookside";
const FORM = 2;
/** A store that takes this much takes a few thousand moves more, in bytes. */
const TRIAL = 1 << 20;
const WAIT_MS = 1500;

/** A full disk, by the names browsers have for it. */
export const isFull = (why: unknown): boolean =>
  why instanceof DOMException && ["QuotaExceededError", "NS_ERROR_DOM_QUOTA_REACHED"].includes(why.name);

/** Opens the store, and has it tried before a move depends on it. Throws where there is none. */
export async function openStore(): Promise<Store> {
  let patience: ReturnType<typeof setTimeout> | undefined;
  try {
    const db = await openDB<Shelves>(NAME, FORM, {
      upgrade(fresh, from) {
        if (from < 1) {
          fresh.createObjectStore("moves", { autoIncrement: true });
          fresh.createObjectStore("about");
          fresh.createObjectStore("snapshots");
          fresh.createObjectStore("strands");
        }
        if (from < 2) {
          fresh.createObjectStore("remembered");
          fresh.createObjectStore("held", { autoIncrement: true });
          fresh.createObjectStore("answers");
        }
      },
      blocked() {
        // Tabs with this page's own form step aside by themselves; an older page has to be closed by hand.
        patience = setTimeout(() => (keeping.value = "held up"), WAIT_MS);
      },
      blocking(_from, _to, event) {
        // A newer page in another tab waits for this one: better it goes on than both stand still.
        (event.target as IDBDatabase).close();
        keeping.value = "left";
      },
      terminated() {
        keeping.value = "refused";
      },
    });
    clearTimeout(patience);
    // Not waited for: the bench opens meanwhile.
    void tried(db).then((how) => (keeping.value = how));
    return db;
  } catch (why) {
    clearTimeout(patience);
    keeping.value = isFull(why) ? "full" : "refused";
    throw why;
  }
}

/** How the store keeps: a full one is found out, and said, before anything is at risk. */
async function tried(db: Store): Promise<Keeping> {
  try {
    const room = await manager()?.estimate?.();
    if (room?.quota !== undefined && room.usage !== undefined && room.quota - room.usage < TRIAL) return "full";
    const tx = db.transaction("about", "readwrite");
    await Promise.all([tx.store.put(new Uint8Array(TRIAL), "trial"), tx.store.delete("trial"), tx.done]);
    return (await manager()?.persisted?.().catch(() => false)) ? "lasting" : "kept";
  } catch (why) {
    // A page that was left, or a store that broke, has said so already.
    return isFull(why) ? "full" : keeping.value === "opening" ? "refused" : keeping.value;
  }
}

const manager = (): StorageManager | undefined => globalThis.navigator?.storage;

/** Ask the browser to keep what is here even when room is short. Some ask the maker; so only once there is a reason. */
export async function askToKeep(): Promise<void> {
  const granted = (await manager()?.persist?.().catch(() => false)) ?? false;
  if (granted && keeping.value === "kept") keeping.value = "lasting";
}
