import "./cards.css";
import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { DRAWINGS, FrameDrawing } from "../../drawings/cards";
import { CARDS } from "../../generated/cards";
import type { Terms } from "../../generated/pattern";
import { maker } from "../../maker";
import { toCards, toShelf } from "../../route";
import { Card } from "./card";
import { cardCalled, inTerms } from "./which";

const terms: { is: Terms | null } = { is: null };

/** All technique cards, or one of them, in the maker's terms. Those that were chosen here hold while the page is open. */
export function CardsPage({ id }: { id: string | null }) {
  const chosen = useSignal<Terms>(terms.is ?? maker.value.terms ?? "US");
  const heading = useRef<HTMLHeadingElement>(null);
  const card = id === null ? undefined : cardCalled(id);
  const title = card ? inTerms(card.title, chosen.value) : "How it is done";
  useEffect(() => {
    document.title = `${title} · Hookside`;
  }, [title]);
  useEffect(() => {
    scrollTo(0, 0);
    heading.current?.focus({ preventScroll: true });
  }, [id]);
  const { hand } = maker.value;
  const at = card ? CARDS.indexOf(card) : -1;
  const [before, after] = [CARDS[at - 1], CARDS[at + 1]];
  return (
    <main class="page cards-page">
      <nav>
        <a class="word" href={toShelf}>
          Shelf
        </a>
        {card && (
          <a class="word" href={toCards(null)}>
            All cards
          </a>
        )}
      </nav>
      <h1 ref={heading} tabIndex={-1}>
        {title}
      </h1>
      <fieldset class="choices">
        <legend class="said">Names of the stitches</legend>
        {(["US", "UK"] as const).map((name) => (
          <label class="choice" key={name}>
            <input type="radio" name="card-terms" checked={chosen.value === name} onChange={() => (terms.is = chosen.value = name)} />
            <span>{name} terms</span>
          </label>
        ))}
      </fieldset>
      {card ? (
        <article>
          <Card card={card} terms={chosen.value} hand={hand} />
          <p class="near-cards">
            {before && (
              <a class="word" href={toCards(before.key)}>
                Before: {inTerms(before.title, chosen.value)}
              </a>
            )}
            {after && (
              <a class="word" href={toCards(after.key)}>
                Next: {inTerms(after.title, chosen.value)}
              </a>
            )}
          </p>
        </article>
      ) : (
        <>
          <p>
            Drawn for the {hand} hand. Yarn that is worked is undyed, what is in the making indigo, what comes next yellow.
          </p>
          <ul class="all">
            {CARDS.map((one) => {
              const frame = DRAWINGS[one.key]?.at(-1);
              return (
                <li key={one.key}>
                  <a href={toCards(one.key)}>
                    {frame && <FrameDrawing frame={frame} hand={hand} />}
                    <span>{inTerms(one.title, chosen.value)}</span>
                  </a>
                </li>
              );
            })}
          </ul>
        </>
      )}
    </main>
  );
}
