import { signal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import type { Heard, Said } from "../../hands/ear/events";
import { type Ask, listenKeys } from "../../hands/keys";

/** What a sheet that is open takes: only these intents, and what every sheet lets by, are listened for meanwhile. Keys and pedals are its own. */
export interface Taker {
  answers: Said[];
  /** False where the word is not for it after all. */
  word: (heard: Heard) => boolean;
  key: (ask: Ask) => void;
}

/** What is heard over every sheet beside its own words: it asks where the work is, or of the ear to rest. */
const BESIDE: Said[] = ["where", "left", "ahead", "again", "lost", "help", "hold", "pause"];

const TOLD_MS = 15_000;

/** What was answered over the sheet that is open: it stands in its head, where the bench cannot be seen. "": nothing. */
export const toldThere = signal("");

let over: ReturnType<typeof setTimeout> | undefined;

/** `stays`: until something else is told there. */
export function tellThere(text: string, stays = false): void {
  clearTimeout(over);
  toldThere.value = text;
  if (text && !stays) over = setTimeout(() => (toldThere.value = ""), TOLD_MS);
}

/** The sheet that words go to now; null: the bench itself. */
export const taker = signal<Taker | null>(null);

/** When a sheet last took "back" for its own, by performance.now(). */
export const takenBack = signal(Number.NEGATIVE_INFINITY);

/** While this component is there, words and keys are its own. `answers` are those of its beginning. */
export function useTaker(given: Taker): void {
  const now = useRef(given);
  now.current = given;
  // Not after the paint: a key between the two would be nobody's, and lost.
  useLayoutEffect(() => {
    const mine: Taker = {
      answers: [...new Set([...given.answers, ...BESIDE])],
      word: (heard) => now.current.word(heard),
      key: (ask) => now.current.key(ask),
    };
    taker.value = mine;
    const deaf = listenKeys(mine.key, () => taker.value === mine);
    return () => {
      deaf();
      if (taker.value === mine) taker.value = null;
    };
  }, []);
}
