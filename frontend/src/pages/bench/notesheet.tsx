import { useSignal } from "@preact/signals";
import { type Note, useNotes } from "../../follow/choices";
import type { Making } from "../../follow/making";
import { randomId } from "../../follow/moves";
import { placeSentence } from "./place";
import { copyName, type Seen } from "./seen";
import { Sheet } from "./sheet";

const LONGEST = 400;

/** What the maker writes down at a place of the piece in hand. It comes up again whenever the hook is in that round. */
export function NoteSheet({ making, seen, close }: { making: Making; seen: Seen; close: () => void }) {
  const [notes, write] = useNotes(making);
  const text = useSignal("");
  const say = useSignal("");
  const over = useSignal<Note | null>(null);
  const own = notes.filter((note) => note.run === seen.run).sort((a, b) => a.step - b.step);

  const keep = (note: Note) => {
    say.value = write(note) ? "" : "This could not be kept just now. Try again in a moment.";
    return say.value === "";
  };
  const save = () => {
    const words = text.value.trim();
    if (!words) return;
    const now = { note: randomId(), run: seen.run, step: seen.at, when: new Date().toISOString() };
    if (keep({ ...now, ...over.value, text: words })) {
      text.value = "";
      over.value = null;
    }
  };
  return (
    <Sheet title="Notes" close={close} walked>
      <form
        class="notes"
        onSubmit={(event) => {
          event.preventDefault();
          save();
        }}
      >
        <label>
          <span>{over.value ? `Note ${where(seen, over.value.step)}` : `A note here. ${placeSentence(seen.spot, seen.course)}`}</span>
          <textarea rows={3} maxLength={LONGEST} value={text.value} onInput={(event) => (text.value = event.currentTarget.value)} />
        </label>
        <button type="submit" class="tape" disabled={!text.value.trim()}>
          Keep the note
        </button>
        <p role="status">{say.value}</p>
      </form>
      {own.length > 0 && (
        <section>
          <h3>{copyName(seen)}</h3>
          <ul class="ways">
            {own.map((note) => (
              <li key={note.note} class="note-kept">
                <button
                  type="button"
                  class="way"
                  onClick={() => {
                    over.value = note;
                    text.value = note.text;
                  }}
                >
                  <b>{note.text}</b>
                  <span>{where(seen, note.step)}</span>
                </button>
                <button type="button" class="word" aria-label={`Take away the note: ${note.text}`} onClick={() => keep({ ...note, text: "" })}>
                  Take away
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
    </Sheet>
  );
}

/** "in round 7": where a step of the piece in hand is. */
function where({ strand }: Seen, step: number): string {
  const course = strand.courses.find((c) => step < c.end);
  if (!course) return "after the last round";
  return course.label === "0" ? `in the first ${course.kind}` : `in ${course.kind} ${course.label}`;
}
