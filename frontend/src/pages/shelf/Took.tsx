import "./took.css";
import { type Dropping, type Tally, told } from "./drop";

/** What became of dropped files: at the foot of the window, where it moves nothing away from under a finger. */
export function Took({ tally, ways, close }: { tally: Tally; ways: Dropping; close: () => void }) {
  const read = () => {
    ways.read();
    close();
  };
  return (
    <section class="took" aria-label="Files taken in">
      <p role="status">{told(tally)}</p>
      {tally.lost.map((line) => (
        <p class="lost" key={line}>
          {line}
        </p>
      ))}
      {tally.notes.map((line, i) => (
        <p key={i}>{line}</p>
      ))}
      {tally.done ? (
        <button type="button" class="word" onClick={read}>
          I have read it
        </button>
      ) : (
        tally.all > 1 && (
          <button type="button" class="word" onClick={ways.stop}>
            Stop taking in
          </button>
        )
      )}
    </section>
  );
}
