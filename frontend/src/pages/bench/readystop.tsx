import type { Snapshot } from "../../api";
import type { Intent, MakingState } from "../../follow/stepping";
import type { StrandCue } from "../../generated/pattern";
import type { Box } from "./box";
import { Halt } from "./halt";
import { moreThan } from "./place";
import { refusalSentence } from "./said";
import { copyName } from "./seen";
import { stillToWork } from "./ready";

interface Props {
  cue: StrandCue;
  snapshot: Snapshot;
  state: MakingState;
  box: Box;
  move: (intent: Intent, run?: string) => unknown;
  back: () => void;
  say: (text: string) => void;
}

const listed = (names: string[]) => (names.length > 1 ? `${names.slice(0, -1).join(", ")} and ${names.at(-1)}` : (names[0] ?? ""));

/** Before a course that works other pieces in: what must be ready, and which of it is not worked yet. */
export function ReadyStop({ cue, snapshot, state, box, move, back, say }: Props) {
  const left = stillToWork(cue, snapshot, state);
  const [first] = left;
  const { short, full } = cue.words;
  const done = () => move({ intent: "done", cue: cue.address });
  const body = moreThan(short, full);
  if (!first)
    return (
      <Halt
        what={cue.address}
        title={short}
        body={body}
        why="All of it is worked."
        box={box}
        tone="waits"
        answers={[
          { text: "Done", main: true, act: done },
          { text: "Go back", act: back },
        ]}
        beside={() => say(refusalSentence("stop"))}
      />
    );
  const name = copyName(first);
  return (
    <Halt
      what={`${cue.address} ${first.run}`}
      title={`${listed(left.map(copyName))} ${left.length === 1 ? "is" : "are"} not worked yet`}
      body={`${short}. ${body}`}
      why={state.runs[state.in_hand ?? ""]?.at ? "Lay this down with a marker through its loop; the place is kept." : ""}
      box={box}
      tone="waits"
      answers={[
        { text: `Work ${name}`, main: true, act: () => move({ intent: "take" }, first.run) },
        { text: "Go back", act: back },
        { text: left.length === 1 ? "It is ready" : "They are ready", act: done },
      ]}
      beside={() => say(`Work ${name} first, or say that it is ready.`)}
    />
  );
}
