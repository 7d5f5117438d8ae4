import type { GatheredList } from "../../api";
import type { Chosen } from "../../follow/choices";
import type { Item } from "../../generated/pattern";
import { toSize } from "../../route";
import { asPrinted, herColour, stillToFind } from "./words";

interface Props {
  found: GatheredList;
  ticked: readonly string[];
  tick: (item: string, on: boolean) => void;
  pattern: string;
  making: number | null;
  /** The thing in hand, where the list is walked by keys or words. */
  at?: string | undefined;
  /** What she calls the colours in this making. */
  chosen?: Chosen;
}

const KINDS: readonly [Item["kind"], string][] = [
  ["hook", "Hook"],
  ["yarn", "Yarn"],
  ["notion", "All else"],
];

const intoView = (line: HTMLLIElement | null) => line?.scrollIntoView({ block: "nearest" });

/** The list itself: what is at hand is ticked; what the text forgot says which round asks for it. */
export function GatherList({ found, ticked, tick, pattern, making, at, chosen }: Props) {
  const first = found.first ?? []; // a list that was kept on the device before there were any
  return (
    <>
      <p role="status" class="to-find">
        {stillToFind(found.items, ticked)}
      </p>
      {KINDS.map(([kind, name]) => {
        const items = found.items.filter((item) => item.kind === kind);
        return (
          items.length > 0 && (
            <section key={kind}>
              <h2>{name}</h2>
              <ul class="things">
                {items.map((item) => (
                  <li key={item.id} class={item.id === at ? "at" : ""} aria-current={item.id === at ? "true" : undefined} ref={item.id === at ? intoView : undefined}>
                    <label>
                      <input type="checkbox" checked={ticked.includes(item.id)} onChange={(e) => tick(item.id, e.currentTarget.checked)} />
                      <Thing item={item} hers={chosen ? herColour(item, chosen, found.pieces) : ""} whose={asPrinted(found)} />
                    </label>
                  </li>
                ))}
              </ul>
              {kind === "yarn" && (
                <a class="word" href={toSize(pattern, making)}>
                  I have another yarn or hook
                </a>
              )}
            </section>
          )
        );
      })}
      {first.length > 0 && (
        <section class="ready-first">
          <h2>Ready first</h2>
          {first.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </section>
      )}
      <section class="cautions">
        <h2>To mind</h2>
        {found.cautions.map((caution) => (
          <p key={caution.id}>
            {caution.text} <small class="soft">{caution.source}</small>
          </p>
        ))}
      </section>
      <details>
        <summary class="word">How the amounts were worked out</summary>
        <ul class="plain-list">
          {found.said.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </details>
    </>
  );
}

function Thing({ item, hers, whose }: { item: Item; hers: string; whose: string }) {
  const same = item.printed.toLowerCase() === item.name.toLowerCase();
  // Where the name is the printed line itself, its number is not the one that is gathered for.
  const printed = !same ? `${whose}: ${item.printed}` : whose !== "The pattern" && /\d/.test(item.printed) ? whose : "";
  return (
    <span class="thing">
      <b>{item.name}</b>
      {hers && <span>Yours: {hers}</span>}
      {item.amount && <span>{item.amount}</span>}
      {item.printed && printed && <span class="soft">{printed}</span>}
      {item.why && <span class={item.forgotten ? "forgot" : "soft"}>{item.forgotten ? `Not on its list; ${item.why}` : item.why}</span>}
    </span>
  );
}
