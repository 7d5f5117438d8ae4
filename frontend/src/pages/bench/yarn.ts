import type { Node, Strand } from "../../generated/pattern";
import { offsetIn } from "../../follow/place";
import { lengthOf } from "../../drawings/marks";

/** "Change to color B in the last st of round 9" names color B, "With brown" names brown. */
const NAMED = /^(?:(?:change|switch|go|return) (?:back )?(?:to|into)|with|using|join(?: in)?|attach) (?:the )?(.+?)(?: yarn)?(?:,| in | on | at | for | after | before | and | make | with |[.;:(]|$)/i;

export function yarnNamed(text: string): string | null {
  const found = NAMED.exec(text.trim())?.[1];
  return found && found.length <= 28 ? found : null;
}

/** The yarn in hand at a place, as the pattern last named it; null where it names none. */
export function yarnInHand(strand: Strand, at: number): string | null {
  let named: { step: number; yarn: string } | null = null;
  for (const cue of strand.cues) {
    if (cue.step >= at) break;
    const yarn = cue.kind === "colour" || cue.kind === "other" ? yarnNamed(cue.words.short || cue.text) : null;
    if (yarn) named = { step: cue.step, yarn };
  }
  for (const course of strand.courses) {
    if (course.first > at) break;
    if (course.end <= (named?.step ?? 0)) continue;
    const yarn = lastColour(course.body, offsetIn(strand, course, Math.min(at, course.end)));
    if (yarn) named = { step: course.first, yarn };
  }
  return named?.yarn ?? null;
}

/** The last colour that a body names up to the step in hand. */
function lastColour(body: readonly Node[], offset: number): string | null {
  let first = 0;
  let found: string | null = null;
  for (const node of body) {
    if (first > offset) break;
    const steps = lengthOf([node]);
    if (node.type === "group") found = node.colour ?? found;
    else found = lastColour(node.body, Math.max(0, offset - first) % Math.max(1, lengthOf(node.body))) ?? found;
    first += steps;
  }
  return found;
}
