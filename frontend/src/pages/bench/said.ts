import type { Strand } from "../../generated/pattern";
import { cuesBetween, locate, stitchesBetween } from "../../follow/place";
import type { RefusalCode } from "../../follow/stepping";
import { courseName, groupText } from "./sentence";
import { cueName, sentenceCase } from "./place";

/** Why a move was not made, and what to do instead. */
const REFUSALS: Record<RefusalCode, string> = {
  stop: "This waits for you. Do it first, then touch Done at the top, or press D.",
  finished: "This piece is finished. Take up another, or go back.",
  start: "This is the very start. Nothing lies behind it.",
  "not-here": "That is no longer what waits here. Look again.",
  range: "There is no such place here. Choose another.",
  "not-last": "Something newer has happened. Take that back first.",
  "no-run": "Take up a piece first.",
  "needs-count": "Count the stitches and type the number, then say done.",
  unit: "That is not something to go by. Use repeat, round or stitch.",
};

export const refusalSentence = (code: string): string =>
  REFUSALS[code as RefusalCode] ?? "That could not be done here. Try once more.";

const stitches = (n: number) => `${n} ${n === 1 ? "stitch" : "stitches"}`;

/** What the last move did, in a few words: "Repeat 2 done", "Round 10 done", "Back 6 stitches". */
export function moveSaid(strand: Strand, from: number, to: number): string {
  if (to < from) return backSaid(strand, from, to);
  if (to === from) return "Taken up";
  const before = locate(strand, from);
  const after = locate(strand, to);
  const made = stitchesBetween(strand, from, to);
  if (made === 0) {
    const cue = before.cue ?? cuesBetween(strand, from, to).find((c) => c.weight !== "whisper");
    // She may have gone past a count that was not made: that is no word for it.
    if (cue) return cue.kind === "count" ? "Gone on" : `${sentenceCase(cueName(cue, strand.terms))}: done`;
  }
  const last = (after.course ?? strand.courses.length) - 1;
  const course = strand.courses[last];
  if (course && from < course.end && to >= course.end) return `${courseName(course)} done`;
  if (before.repeat && after.repeat && after.repeat.i === before.repeat.i + 1 && after.group_step === 0)
    return `Repeat ${before.repeat.i} done`;
  if (made > 1 && before.group && before.group_step === 0 && made === before.group.count * before.group.makes)
    return `${sentenceCase(groupText(before.group, "short"))} done`;
  if (made === 0 && before.course === after.course && before.lead.length > 0) {
    // What leads in goes with the first group, whose name would call all of that done.
    const led = before.lead[before.lead.length - after.lead.length - 1];
    return led ? `${sentenceCase(groupText(led, "short"))} done` : "One step on";
  }
  if (made === 0) return before.group ? `${sentenceCase(groupText(before.group, "short"))} done` : "One step on";
  return made === 1 ? `Stitch ${after.stitch} done` : `${stitches(made)} done`;
}

function backSaid(strand: Strand, from: number, to: number): string {
  const less = stitchesBetween(strand, to, from);
  const before = locate(strand, from);
  const after = locate(strand, to);
  const course = after.course === null ? undefined : strand.courses[after.course];
  if (course && before.course !== after.course) return `Back in ${courseName(course).toLowerCase()}`;
  return less > 0 ? `Back ${stitches(less)}` : "Back one step";
}
