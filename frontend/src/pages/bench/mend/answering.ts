import { useEffect, useRef } from "preact/hooks";
import type { Said } from "../../../hands/ear/events";
import { useTaker } from "../taking";

/** What a sheet that asks understands, whichever way it is answered. Each tells whether it meant something. */
export interface Understood {
  yes(): boolean;
  no(): boolean;
  number(n: number): boolean;
  back(): boolean;
}

const ANSWERS: Said[] = ["yes", "no", "count", "back", "done"];

/** One road for words, keys and pedals into the sheet that is open: next and done say yes, back says no or goes back. */
export function useAnswers(understood: Understood): void {
  const now = useRef(understood);
  now.current = understood;
  useTaker({
    answers: ANSWERS,
    word({ intent, number }) {
      if (intent === "yes" || intent === "done") return now.current.yes();
      if (intent === "no") return now.current.no();
      if (intent === "count") return number !== null && now.current.number(number);
      return intent === "back" && now.current.back();
    },
    key(ask) {
      if (ask === "done" || ask === "next") now.current.yes();
      else if (ask === "back" && !now.current.no()) now.current.back();
    },
  });
  // A digit is the answer that has it, or the number itself; a field takes its own.
  useEffect(() => {
    const key = (event: KeyboardEvent) => {
      if (event.repeat || event.ctrlKey || event.altKey || event.metaKey || event.target instanceof HTMLInputElement) return;
      const meant = /^[0-9]$/.test(event.key) && now.current.number(Number(event.key));
      if (meant) event.preventDefault();
    };
    addEventListener("keydown", key);
    return () => removeEventListener("keydown", key);
  }, []);
}
