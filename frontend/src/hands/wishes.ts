import { signal } from "@preact/signals";
import { device } from "../follow/device";
import type { Ask } from "./keys";

/** How much is spoken: nothing; what has to be done; each new round too; each repeat too. */
export type Spoken = "silent" | "cues" | "rounds" | "repeats";

/** What belongs to this device: its microphone, its voice, its keys. */
export interface Wishes {
  spoken: Spoken;
  /** The language that is listened for. */
  language: string;
  voice: string;
  rate: number;
  single: boolean;
  headset: boolean;
  chimes: boolean;
  /** Technique cards are offered where something is new to a making. */
  offers: boolean;
  /** Keys of a single letter mean something. They can be turned off (WCAG 2.2, 2.1.4): a speech programme may type. */
  letters: boolean;
  /** Keys that were taught, by the name the browser has for them. null: this key means nothing any more. */
  keys: Record<string, Ask | null>;
}

const FIRST: Wishes = { spoken: "rounds", language: "en", voice: "", rate: 1, single: false, headset: false, chimes: true, offers: true, letters: true, keys: {} };
const KEPT = "hands";

export const wishes = signal<Wishes>(FIRST);
let changed: Partial<Wishes> = {};

/** What was wished on this device before comes as soon as its store is open; what was wished meanwhile goes before it. */
const opened = device().then(async ({ store }) => {
  const kept = (await store?.get("about", KEPT).catch(() => undefined)) as Partial<Wishes> | undefined;
  if (kept) wishes.value = { ...FIRST, ...kept, ...changed };
  return store;
}).catch(() => null);

export function wish(change: Partial<Wishes>): void {
  changed = { ...changed, ...change };
  wishes.value = { ...wishes.value, ...change };
  // A browser that keeps nothing still obeys until it is closed.
  void opened.then((store) => store?.put("about", wishes.value, KEPT).catch(() => undefined));
}
