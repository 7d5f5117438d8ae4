import type { Note } from "../../follow/choices";
import type { StrandCue } from "../../generated/pattern";
import { offBy, typedOtherwise } from "./place";
import type { Seen } from "./seen";
import { courseName } from "./sentence";

const whisper = (address: string, step: number, say: string, more: Partial<StrandCue>): StrandCue => ({
  address, step, kind: "other", text: say, basis: "written", weight: "whisper", words: { short: say, full: say, spoken: say }, ...more,
});

/** At the start of a round that takes up another number than she typed for the one below: said before she works into it. */
export function typedBelow({ course, spot, strand, counts }: Seen): StrandCue[] {
  const otherwise = spot.stitch === 0 && typedOtherwise(strand.courses, spot.course, counts);
  if (!otherwise || !course) return [];
  const { made, uses } = otherwise;
  const short = `${made} are there, ${courseName(course).toLowerCase()} takes ${uses}: ${offBy(made, uses)}`;
  const full = `${short}. It is worked as the text has it: count once more, and go back to type another number, or see first where the odd ${Math.abs(made - uses) === 1 ? "one goes" : "ones go"}.`;
  return [whisper(`${course.id}/typed`, course.first, short, { basis: "worked out", words: { short, full, spoken: full } })];
}

/** The maker's notes in the course in hand, as whispers: the newest first, because there is room for few. */
export function notesHere(notes: readonly Note[], seen: Seen): StrandCue[] {
  const { course, run } = seen;
  const here = notes.filter((note) => note.run === run && (course ? course.first <= note.step && note.step < course.end : note.step === seen.at));
  return here
    .map(({ note, step, text }) => whisper(`/note-${note}`, step, `Your note: ${text}`, {}))
    .reverse();
}
