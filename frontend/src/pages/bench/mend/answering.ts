import { useLayoutEffect, useRef } from "preact/hooks";
import type { Heard, Said } from "../../../hands/ear/events";
import type { Ask } from "../../../hands/keys";
import { useTaker } from "../taking";

/** What a sheet that asks understands, whichever way it is answered. Each tells whether it meant something. */
export interface Understood {
  yes(): boolean;
  no(): boolean;
  number(n: number): boolean;
  back(): boolean;
}

const ANSWERS: Said[] = ["yes", "no", "count", "back", "done"];

/** What a word means to the sheet; false: nothing. */
export function wordMeans({ intent, number }: Pick<Heard, "intent" | "number">, understood: Understood): boolean {
  if (intent === "yes" || intent === "done") return understood.yes();
  if (intent === "no") return understood.no();
  if (intent === "count") return number !== null && understood.number(number);
  return intent === "back" && understood.back();
}

/** What a key or pedal means to it: "back" is a no, and where nothing can be denied the question before. */
export function keyMeans(ask: Ask, understood: Understood): boolean {
  if (ask === "done" || ask === "next") return understood.yes();
  return ask === "back" && (understood.no() || understood.back());
}

/** One road for words, keys and pedals into the sheet that is open: next and done say yes, back says no or goes back. */
export function useAnswers(understood: Understood): void {
  const now = useRef(understood);
  now.current = understood;
  useTaker({
    answers: ANSWERS,
    word: (heard) => wordMeans(heard, now.current),
    key: (ask) => void keyMeans(ask, now.current),
  });
  // A digit is the answer that has it, or the number itself; a field takes its own.
  useLayoutEffect(() => {
    const key = (event: KeyboardEvent) => {
      if (event.repeat || event.ctrlKey || event.altKey || event.metaKey || event.target instanceof HTMLInputElement) return;
      const meant = /^[0-9]$/.test(event.key) && now.current.number(Number(event.key));
      if (meant) event.preventDefault();
    };
    addEventListener("keydown", key);
    return () => removeEventListener("keydown", key);
  }, []);
}
