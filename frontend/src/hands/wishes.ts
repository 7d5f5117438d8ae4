import { signal } from "@preact/signals";
import type { Style } from "./ear/events";
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
  /** How this maker counts aloud; "no": she does not; null: not asked yet. */
  counting: Style | "no" | null;
  headset: boolean;
  chimes: boolean;
  /** Technique cards are offered where something is new to a making. */
  offers: boolean;
  /** Keys that were taught, by the name the browser has for them. null: this key means nothing any more. */
  keys: Record<string, Ask | null>;
}

const FIRST: Wishes = { spoken: "rounds", language: "en", voice: "", rate: 1, single: false, counting: null, headset: false, chimes: true, offers: true, keys: {} };
const KEPT = "hookside.hands";

function kept(): Wishes {
  try {
    return { ...FIRST, ...(JSON.parse(localStorage.getItem(KEPT) ?? "{}") as Partial<Wishes>) };
  } catch {
    return FIRST;
  }
}

export const wishes = signal<Wishes>(kept());

export function wish(change: Partial<Wishes>): void {
  wishes.value = { ...wishes.value, ...change };
  try {
    localStorage.setItem(KEPT, JSON.stringify(wishes.value));
  } catch {
    // A browser that keeps nothing still obeys until it is closed.
  }
}
