import { signal } from "@preact/signals";
import { useLayoutEffect, useRef } from "preact/hooks";
import type { Heard, Said } from "../../hands/ear/events";
import { type Ask, listenKeys } from "../../hands/keys";

/** What a sheet that is open takes: only these intents are listened for meanwhile, and keys and pedals are its own. */
export interface Taker {
  answers: Said[];
  /** False where the word is not for it after all. */
  word: (heard: Heard) => boolean;
  key: (ask: Ask) => void;
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
      answers: given.answers,
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
