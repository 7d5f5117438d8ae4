import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import type { Hand } from "../../drawings/ring";
import { CARDS } from "../../generated/cards";
import type { Terms } from "../../generated/pattern";
import { wish, wishes } from "../../hands/wishes";
import { Card } from "../cards/card";
import { cardCalled, cardsNear, inTerms } from "../cards/which";
import type { Seen } from "./seen";
import { Sheet } from "./sheet";
import { useTaker } from "./taking";

interface Props {
  seen: Seen;
  terms: Terms;
  hand: Hand;
  /** Spoken where hands-free speaks. */
  read: (text: string) => void;
  close: () => void;
}

/** How what is in hand is done, walked step by step by touch, key, pedal or word. */
export function CardSheet({ seen, terms, hand, read, close }: Props) {
  const here = useRef(cardsNear(seen)).current;
  const key = useSignal<string | null>(here[0] ?? null);
  const at = useSignal(0);
  const card = key.value === null ? undefined : cardCalled(key.value);
  const said = card ? inTerms(card.steps[at.value] ?? "", terms) : "";
  const tell = () => card && read(at.value === 0 ? `${inTerms(card.title, terms)}. ${said}` : said);
  useEffect(() => {
    tell();
  }, [key.value, at.value]);

  const open = (which: string | null) => {
    key.value = which;
    at.value = 0;
  };
  const last = !card || at.value >= card.steps.length - 1;
  // Behind the last step it stays: a press too many would be a stitch.
  const next = () => {
    if (last) read("That was the last step. Done goes back to the work.");
    else at.value += 1;
  };
  const back = () => {
    at.value = Math.max(0, at.value - 1);
  };
  useTaker({
    answers: ["next", "back", "again", "done", "no", "hold"],
    word: ({ intent }) => {
      if (intent === "next") next();
      else if (intent === "back") back();
      else if (intent === "again") tell();
      else if (intent === "done" || intent === "no") close();
      else return false;
      return true;
    },
    key: (ask) => {
      if (ask === "next") next();
      else if (ask === "back") back();
      else if (ask === "again" || ask === "where") tell();
      else if (ask === "done" || ask === "show") close();
    },
  });

  const others = here.filter((one) => one !== key.value);
  return (
    <Sheet title={card ? inTerms(card.title, terms) : "How it is done"} close={close}>
      {card ? (
        <>
          <Card card={card} terms={terms} hand={hand} at={at.value} />
          <div class="sheet-answers">
            <button type="button" class="answer main" onClick={last ? close : next}>
              {last ? "To the work" : "Next"}
            </button>
            {at.value > 0 && (
              <button type="button" class="answer" onClick={back}>
                Back
              </button>
            )}
            <span class="soft">
              step {at.value + 1} of {card.steps.length}
            </span>
          </div>
          <p class="more-cards">
            {others.map((one) => (
              <button key={one} type="button" class="word plain" onClick={() => open(one)}>
                {inTerms(cardCalled(one)?.title ?? "", terms)}
              </button>
            ))}
            <button type="button" class="word plain" onClick={() => open(null)}>
              all cards
            </button>
          </p>
          <label class="tick">
            <input type="checkbox" checked={wishes.value.offers} onChange={(e) => wish({ offers: e.currentTarget.checked })} />
            <span>offer a card where something is new to this making</span>
          </label>
          <p class="said" role="status">
            {`Step ${at.value + 1} of ${card.steps.length}. ${said}`}
          </p>
        </>
      ) : (
        <ul class="ways">
          {CARDS.map((one) => (
            <li key={one.key}>
              <button type="button" class="way" onClick={() => open(one.key)}>
                <b>{inTerms(one.title, terms)}</b>
              </button>
            </li>
          ))}
        </ul>
      )}
    </Sheet>
  );
}
