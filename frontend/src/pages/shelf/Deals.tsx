import "./fields.css";
import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { api, type ShelfPattern } from "../../api";
import { toGather, toPaper, toRecord } from "../../route";
import { beginAgain } from "../bench/carried";
import type { Deeds, Held } from "./Rows";
import "./deals.css";

/** Of a making or of a pattern. */
export const Deals = (of: Held | { pattern: ShelfPattern; deed: Deeds }) => ("making" in of ? <MakingWays {...of} /> : <PatternWays {...of} />);

function MakingWays({ making, deed }: Held) {
  const putAway = () =>
    deed(() => api.putAway(making.id), {
      say: `${making.title} is put away, with its place.`,
      was: "begun",
      id: making.id,
    });
  return (
    <Ways labels={making.labels} keep={(labels) => deed(() => api.labelMaking(making.id, labels))}>
      <a class="word" aria-label={`What to have at hand for ${making.title}`} href={toGather(making.pattern, making.id)}>
        What to have at hand
      </a>
      <button type="button" class="word" aria-label={`${making.title}: the same again`} onClick={() => void deed(() => beginAgain(making.id))}>
        The same again
      </button>
      <a class="word" href={toRecord(making.id)}>
        Record
      </a>
      <a class="word" href={toPaper(making.pattern, making.id)}>
        On paper
      </a>
      <button type="button" class="word" aria-label={`Put away ${making.title}`} onClick={() => void putAway()}>
        Put away
      </button>
    </Ways>
  );
}

function PatternWays({ pattern, deed }: { pattern: ShelfPattern; deed: Deeds }) {
  const takeOff = () =>
    deed(() => api.removePattern(pattern.id), {
      say: `${pattern.title || "The pattern"} is off the shelf. What was begun from it goes on.`,
      was: "pattern",
      id: pattern.id,
    });
  return (
    <Ways labels={pattern.labels} keep={(labels) => deed(() => api.labelPattern(pattern.id, labels))}>
      <a class="word" aria-label={`What to have at hand for ${pattern.title}`} href={toGather(pattern.id)}>
        What to have at hand
      </a>
      <a class="word" href={toPaper(pattern.id)}>
        On paper
      </a>
      <button type="button" class="word" aria-label={`Take ${pattern.title} off the shelf`} onClick={() => void takeOff()}>
        Take off the shelf
      </button>
    </Ways>
  );
}

/** The ways of a thing in one row, and its labels in a row of their own. */
function Ways({ labels, keep, children }: { labels: string[] | undefined; keep: (labels: string[]) => Promise<void>; children: ComponentChildren }) {
  const text = useSignal<string | null>(null);
  const now = (labels ?? []).join(", ");
  const written = text.value ?? now;
  const save = async () => {
    if (written !== now) await keep(written.split(",").filter((label) => label.trim()));
    text.value = null;
  };
  return (
    <form
      class="deal"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      {children}
      <p class="labelled">
        <label class="named">
          <span>Your own labels, with commas between</span>
          <input value={written} autocomplete="off" onInput={(event) => (text.value = event.currentTarget.value)} />
        </label>
        {written !== now && (
          <button type="submit" class="word">
            Keep the labels
          </button>
        )}
      </p>
    </form>
  );
}
