import "./cards.css";
import { DRAWINGS, FrameDrawing } from "../../drawings/cards";
import type { Hand } from "../../drawings/ring";
import type { CardText } from "../../generated/cards";
import type { Terms } from "../../generated/pattern";
import { inTerms } from "./which";

interface Props {
  card: CardText;
  terms: Terms;
  hand: Hand;
  /** The step in hand, where the card is walked: then its drawing stands alone, its sentence large. null: all of it. */
  at?: number | null;
}

/** One card: each drawing with the sentences that belong to it. */
export function Card({ card, terms, hand, at = null }: Props) {
  const frames = DRAWINGS[card.key]?.filter((frame) => at === null || frame.steps.includes(at));
  return (
    <ol class={at === null ? "card" : "card walked"}>
      {frames?.map((frame) => (
        <li key={frame.steps[0]} class="part">
          <FrameDrawing frame={frame} hand={hand} />
          <ol start={(frame.steps[0] ?? 0) + 1}>
            {frame.steps.map((step) => (
              <li key={step} value={step + 1} class={step === at ? "here" : undefined} aria-current={step === at ? "step" : undefined}>
                {inTerms(card.steps[step] ?? "", terms)}
              </li>
            ))}
          </ol>
        </li>
      ))}
      {card.watch !== "" && (at === null || at === card.steps.length - 1) && <li class="watch">{inTerms(card.watch, terms)}</li>}
    </ol>
  );
}
