import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";

/** What can be done with a thing on the shelf: its labels, and the ways off the shelf. */
export function Deal({ name, labels, keep, children }: {
  name: string;
  labels: string[] | undefined;
  keep: (labels: string[]) => Promise<void>;
  children: ComponentChildren;
}) {
  const open = useSignal(false);
  const text = useSignal<string | null>(null);
  const now = (labels ?? []).join(", ");
  const written = text.value ?? now;
  const save = async () => {
    if (written !== now) await keep(written.split(",").filter((label) => label.trim()));
    text.value = null;
  };
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
      {open.value && (
        <form
          class="deal"
          onSubmit={(event) => {
            event.preventDefault();
            void save();
          }}
        >
          <label class="named">
            <span>Your own labels, with commas between</span>
            <input value={written} autocomplete="off" onInput={(event) => (text.value = event.currentTarget.value)} />
          </label>
          {written !== now && (
            <button type="submit" class="word">
              Keep the labels
            </button>
          )}
          {children}
        </form>
      )}
    </>
  );
}
