import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";

/** What else can be done with a thing on the shelf, shown when it is asked for. */
export function Deal({ name, children }: { name: string; children: ComponentChildren }) {
  const open = useSignal(false);
  return (
    <>
      <button
        type="button"
        class="word soft"
        aria-label={`More about ${name}`}
        aria-expanded={open.value}
        onClick={() => (open.value = !open.value)}
      >
        {open.value ? "Less" : "More"}
      </button>
      {open.value && children}
    </>
  );
}
