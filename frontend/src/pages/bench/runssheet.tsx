import type { Snapshot } from "../../api";
import { locate } from "../../follow/place";
import { type MakingState, status } from "../../follow/stepping";
import { placeBrief } from "./place";
import { wantsParts } from "./ready";
import { copyName, isSection, onTo, pieceName } from "./seen";
import { Sheet } from "./sheet";

interface Props {
  snapshot: Snapshot;
  state: MakingState;
  take: (run: string) => void;
  /** Wants so many copies of the piece with this number; false where nothing can be chosen just now. */
  more: (number: string, copies: number, name: string) => boolean;
  colours: () => void;
  close: () => void;
}

const SAID: Record<string, string> = {
  "not begun": "not begun",
  "on the hook": "on the hook",
  "set aside": "set aside, its loop live",
  "ready to sew": "ready to sew",
  finished: "finished",
};

/** A section of jobs is begun and done; there is nothing of it on a hook. */
const SECTION: Record<string, string> = { ...SAID, "on the hook": "begun", "set aside": "begun", "ready to sew": "begun", finished: "done" };

/** Every copy of every piece and how it stands; any can be taken up. */
export function RunsSheet({ snapshot, state, take, more, colours, close }: Props) {
  const inHand = state.in_hand ?? snapshot.runs[0]?.run;
  return (
    <Sheet title="Pieces and copies" close={close} walked>
      <ul class="ways">
        {snapshot.runs.map((run) => {
          const now = state.runs[run.run];
          const strand = now && snapshot.strands[now.strand];
          if (!now || !strand) return null;
          const how = status(state, run.run, strand);
          const spot = locate(strand, now.at);
          const course = spot.course === null ? undefined : strand.courses[spot.course];
          const section = isSection(strand);
          const place = section ? "" : how === "on the hook" || how === "set aside" ? `, ${placeBrief(spot, course)}` : "";
          const here = run.run === inHand;
          return (
            <li key={run.run}>
              <button
                type="button"
                class={`way run ${how.replaceAll(" ", "-")}`}
                aria-current={here ? "true" : undefined}
                disabled={here}
                onClick={() => take(run.run)}
              >
                <b>{pieceName(run)}</b>
                <span>
                  {(section ? SECTION : SAID)[how]}
                  {place}
                </span>
                <em>{here ? "in hand" : how === "finished" ? "look at it" : section ? onTo(run.piece) : `take up ${copyName(run)}`}</em>
              </button>
            </li>
          );
        })}
      </ul>
      {joins(snapshot, state).map(({ piece, say }) => (
        <p key={say}>
          <b>{piece}</b> {say}
        </p>
      ))}
      <button type="button" class="word plain" onClick={colours}>
        {snapshot.runs.some((run) => run.copies > 1) ? "Colours, copy by copy" : "Colours"}
      </button>
      {pieces(snapshot).map(({ number, name, copies }) => (
        <button
          key={number}
          type="button"
          class="word plain"
          onClick={() => {
            if (more(number, copies + 1, name)) close();
          }}
        >
          One more {name || "of it"}
        </button>
      ))}
      <p>What you lay down keeps its place. Put a marker through its loop, so that it cannot run.</p>
    </Sheet>
  );
}

/** Which parts must be ready before which round, as far as that lies ahead. */
function joins(snapshot: Snapshot, state: MakingState): { piece: string; say: string }[] {
  const said = snapshot.runs.flatMap(({ run, piece }) => {
    const now = state.runs[run];
    const cues = snapshot.strands[now?.strand ?? ""]?.cues ?? [];
    return cues.filter((cue) => wantsParts(cue.address) && cue.step >= (now?.at ?? 0)).map((cue) => ({ piece: `${piece}:`, say: cue.words.full }));
  });
  return said.filter((one, i) => said.findIndex(({ say }) => say === one.say) === i);
}

/** The pieces of stitches, each by its number, with how many copies there are. */
function pieces(snapshot: Snapshot): { number: string; name: string; copies: number }[] {
  const found = new Map<string, { number: string; name: string; copies: number }>();
  for (const run of snapshot.runs) {
    const strand = snapshot.strands[run.strand];
    const number = run.run.replace(/^p(\d+)\..*$/, "$1");
    if (strand && !isSection(strand)) found.set(number, { number, name: run.piece, copies: run.copies });
  }
  return [...found.values()];
}
