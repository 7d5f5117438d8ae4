import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";

/** What else can be done with a thing on the shelf, shown when it is asked for. */
export function Deal({ name, children }: { name: string; children: ComponentChildren }) {
  const open = useSignal(false);
  const word = open.value ? "Less" : "More";
  return (
    <>
      <button
        type="button"
        class="word soft"
        aria-label={`${word} about ${name}`}
        aria-expanded={open.value}
        onClick={() => (open.value = !open.value)}
      >
        {word}
      </button>
      {open.value && children}
    </>
  );
}
