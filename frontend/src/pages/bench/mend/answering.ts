import { h } from "preact";
import { useLayoutEffect, useRef } from "preact/hooks";
import type { Heard, Said } from "../../../hands/ear/events";
import { type Ask, nameOf } from "../../../hands/keys";
import { wishes } from "../../../hands/wishes";
import { useByKeys } from "../box";
import { useTaker } from "../taking";
import { onward, pressed } from "../walking";

/** What a sheet that asks understands, whichever way it is answered. Each tells whether it meant something. */
export interface Understood {
  yes(): boolean;
  no(): boolean;
  number(n: number): boolean;
  back(): boolean;
  /** "Next" walks the answers and says nothing: a pedal pressed once too often gives no count. */
  walked?: boolean;
  /** Where a number is written. */
  field?(): HTMLInputElement | null;
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
  if (understood.walked && (ask === "next" ? onward(1) : ask === "done" && pressed())) return true;
  if (ask === "done" || ask === "next") return understood.yes();
  return ask === "back" && (understood.no() || understood.back());
}

/** One road for words, keys and pedals into the sheet that is open: Y, next and done say yes, N and back say no or go back. */
export function useAnswers(understood: Understood): void {
  const now = useRef(understood);
  now.current = understood;
  useTaker({
    answers: ANSWERS,
    word: (heard) => wordMeans(heard, now.current),
    key: (ask) => void keyMeans(ask, now.current),
  });
  // A digit is the answer that has it, or the first of the number that is written; a field takes its own.
  useLayoutEffect(() => {
    const key = (event: KeyboardEvent) => {
      if (event.repeat || event.ctrlKey || event.altKey || event.metaKey || event.target instanceof HTMLInputElement) return;
      const { letters, keys } = wishes.value;
      const letter = letters && !Object.hasOwn(keys, nameOf(event.key)) ? nameOf(event.key) : "";
      const digit = /^[0-9]$/.test(event.key);
      const field = digit && now.current.field?.();
      if (field) {
        field.focus();
        field.value = event.key;
        field.dispatchEvent(new Event("input", { bubbles: true }));
      }
      if (field || (digit ? now.current.number(Number(event.key)) : letter === "y" ? now.current.yes() : letter === "n" && now.current.no())) event.preventDefault();
    };
    addEventListener("keydown", key);
    return () => removeEventListener("keydown", key);
  }, []);
}

/** The letter that answers, where hands are at keys. */
export function Letter({ of }: { of: "y" | "n" }) {
  const shown = useByKeys() && wishes.value.letters && !Object.hasOwn(wishes.value.keys, of);
  return shown ? h("kbd", { "aria-hidden": true }, of.toUpperCase()) : null;
}
