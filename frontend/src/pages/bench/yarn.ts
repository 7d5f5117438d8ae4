import type { Node, Strand, StrandCourse, StrandCue } from "../../generated/pattern";
import { offsetIn, stepOf } from "../../follow/place";
import { lengthOf } from "../../drawings/marks";
import { heldAt, type Part } from "./sentence";

/** "Change to color B in the last st of round 9" names color B, "With brown" names brown. */
const NAMED = /^(?:now )?(?:(?:grab|take)(?= .* yarn)|(?:(?:change|swap|switch|go|return) (?:back )?|back )(?:to|into)|(?:begin |start )?with|using|use(?=[a-z ]+ for (?:this|these|both)\b)(?!.*\b(?:hook|needle|marker)\b)|join(?: in)?|attach) (?:the )?(.+?)(?: yarn)?(?:,| again\b| now\b| here\b| in | on | at | for | after | before | and | make | with |[.;:(]|$)/i;

export function yarnNamed(text: string): string | null {
  const found = NAMED.exec(text.trim())?.[1];
  return found && found.length <= 28 ? found : null;
}

/** "White", "In grey", "Begin with colour A": nothing else than the name of a yarn. */
const BARE = /^(?:(?:begin |start )?(?:in|with|using) )?((?:the )?\p{L}[\p{L}' -]{0,24}?(?: \w{1,2})?)(?: yarn)?[:.]?$/iu;
const DEED = /^(?:change|switch|go|return|join|attach|cut|hold|carry|fasten|drop|keep|work|take|pick)\b/i;

/** The yarn that a piece is begun with, where a cue before its first stitch only names it; else null. */
export function yarnToBegin({ courses }: Strand, cue: Pick<StrandCue, "kind" | "step" | "words" | "text">): string | null {
  const said = (cue.words.short || cue.text).trim();
  if (cue.kind !== "colour" || courses.some((c) => c.first < cue.step) || DEED.test(said)) return null;
  const found = BARE.exec(said)?.[1];
  if (!found) return null;
  return /^[A-Z][a-z]/.test(found) ? found.slice(0, 1).toLowerCase() + found.slice(1) : found;
}

/** The yarn in hand at a place, as the pattern last named it; null where it names none. */
export function yarnInHand(strand: Strand, at: number): string | null {
  let named: { step: number; yarn: string | null } = { step: -1, yarn: null };
  for (const cue of strand.cues) {
    if (cue.step >= at) break;
    const yarn = cue.kind === "colour" || cue.kind === "other" ? yarnNamed(cue.words.short || cue.text) : null;
    // A change that is put otherwise ("Grey now.") is one too: better no yarn is shown than the one laid down.
    if (yarn || cue.kind === "colour") named = { step: cue.step, yarn };
  }
  for (const course of strand.courses) {
    if (course.first > at) break;
    const last = lastColour(course.body, offsetIn(strand, course, Math.min(at, course.end)));
    if (!last) continue;
    // "with navy 11 sc" is older than a "Change to sand" told before its last stitch.
    const step = stepOf(strand, course, last.first);
    // And what a round says of itself wins over the sentence right before it.
    if (step >= named.step) named = { step, yarn: last.colour };
  }
  return named.yarn;
}

/**
 * Behind a change of yarn before the last stitch of "6 sc with cream" brown is in hand already, and that stitch still to
 * make: "1 left, end in brown". Null anywhere else. `done`: the body steps made.
 */
export function endingIn(strand: Strand, course: StrandCourse, at: number, done: number): string | null {
  const held = heldAt(course.body, done);
  if (!held || done < held.first + (held.group.count - 1) * held.group.steps) return null;
  const { colour } = held.group;
  // A group that names no colour has one to end in where the change was told within it, right before this stitch.
  if (!colour && (done === held.first || !strand.cues.some((c) => c.kind === "colour" && c.step === at - 1))) return null;
  const yarn = yarnInHand(strand, at);
  return !yarn || yarn === colour ? null : `1 left, end in ${yarn}`;
}

/** The opened repeat with these words behind the part in hand. */
export const ended = (parts: Part[], words: string | null): Part[] =>
  words === null ? parts : parts.map((p) => (p.state === "hand" ? { ...p, tail: words } : p));

/** Behind every cue inside a course: the body steps made there, and what `endingIn` says. */
export const endings = (strand: Strand, course: StrandCourse): [done: number, words: string | null][] =>
  strand.cues
    .filter(({ step }) => step >= course.first && step < course.end)
    .map(({ step }) => {
      const done = offsetIn(strand, course, step + 1);
      return [done, endingIn(strand, course, step + 1, done)];
    });

/** The last colour that a body names up to the step in hand, and the offset from which on it does. */
function lastColour(body: readonly Node[], offset: number): { colour: string; first: number } | null {
  let first = 0;
  let found: { colour: string; first: number } | null = null;
  for (const node of body) {
    if (first > offset) break;
    if (node.type === "group") {
      if (node.colour) found = { colour: node.colour, first };
      first += lengthOf([node]);
      continue;
    }
    const once = Math.max(1, lengthOf(node.body));
    let from = first + Math.min(node.times - 1, Math.floor((offset - first) / once)) * once;
    let inner = lastColour(node.body, offset - from);
    // A repeat that has named none so far is still in the last one of the repeat before, named then and not now.
    if (!inner && from > first) {
      from -= once;
      inner = lastColour(node.body, once);
    }
    if (inner) found = { colour: inner.colour, first: from + inner.first };
    first += once * node.times;
  }
  return found;
}
