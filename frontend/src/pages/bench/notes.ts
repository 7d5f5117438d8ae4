import type { Note } from "../../follow/choices";
import type { StrandCue } from "../../generated/pattern";
import type { Seen } from "./seen";

/** The maker's notes in the course in hand, as whispers: the newest first, because there is room for few. */
export function notesHere(notes: readonly Note[], seen: Seen): StrandCue[] {
  const { course, run } = seen;
  const here = notes.filter((note) => note.run === run && (course ? course.first <= note.step && note.step < course.end : note.step === seen.at));
  return here
    .map(({ note, step, text }): StrandCue => {
      const say = `Your note: ${text}`;
      return { address: `/note-${note}`, step, kind: "other", text: say, basis: "written", weight: "whisper", words: { short: say, full: say, spoken: say } };
    })
    .reverse();
}
