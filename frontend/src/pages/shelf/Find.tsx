import "./fields.css";
import "./find.css";
import { useEffect, useRef } from "preact/hooks";
import type { Shelf } from "../../api";
import { labelsOn } from "./find";

/** A field, and the maker's own labels to take from. */
export function Find({ shelf, asked, ask }: { shelf: Shelf; asked: string; ask: (words: string) => void }) {
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => field.current?.focus(), []);
  return (
    <search class="find">
      <label class="named">
        <span>Find on the shelf</span>
        <input ref={field} type="search" value={asked} autocomplete="off" onInput={(event) => ask(event.currentTarget.value)} />
      </label>
      {labelsOn(shelf).map((label) => (
        <button type="button" class="word" key={label} aria-pressed={asked === label} onClick={() => ask(asked === label ? "" : label)}>
          {label}
        </button>
      ))}
    </search>
  );
}
