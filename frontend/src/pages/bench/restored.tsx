import type { Snapshot } from "../../api";
import type { Question } from "../../follow/restored";
import type { MakingState } from "../../follow/stepping";
import type { Box } from "./box";
import { Halt } from "./halt";
import { briefAt, saidAt, sentenceCase, unbroken } from "./place";

interface Props {
  question: Question;
  /** As this device has it. */
  snapshot: Snapshot;
  state: MakingState;
  box: Box;
  resolve: (choice: "put back" | "go on") => void;
}

/** The run to speak of: the one in hand here, if it is there too; else any whose place differs. */
function runOf({ snapshot }: Question, state: MakingState): string | null {
  const there = snapshot.state.runs;
  const differ = Object.keys(state.runs).filter((run) => there[run] && there[run].at !== state.runs[run]?.at);
  return differ.find((run) => run === state.in_hand) ?? differ[0] ?? (state.in_hand && there[state.in_hand] ? state.in_hand : null);
}

const moves = (n: number) => `${n} ${n === 1 ? "move" : "moves"}`;

/** The journal knows less than this device. Both are shown; nothing was sent. */
export function Restored({ question, snapshot, state, box, resolve }: Props) {
  const run = runOf(question, state);
  const theirs = question.snapshot;
  const other = question.known === "stranger" && (run === null || theirs.title !== snapshot.title);
  const n = question.moves.length;
  if (other || run === null)
    return (
      <Halt
        what={`restored-${question.epoch}`}
        title="This is another journal"
        body={`This device knows ${snapshot.title || "another making"} here; the journal has ${theirs.title || "another making"} in its place.`}
        why={n ? `${sentenceCase(moves(n))} for ${snapshot.title} stay on this device and are not sent.` : ""}
        box={box}
        tone="waits"
        answers={[{ text: `Go on with ${theirs.title || "it"}`, main: true, act: () => resolve("go on") }]}
      />
    );
  const here = briefAt(snapshot, run, state.runs[run]?.at ?? 0);
  const at = theirs.state.runs[run]?.at ?? 0;
  const has = n ? `This device has ${moves(n)} more, up to ${here}` : `This device last saw ${here}`;
  const copy = question.known === "behind" ? "An older journal lies in the folder" : "A copy was put back";
  return (
    <Halt
      what={`restored-${question.epoch}`}
      title="Where is your marker?"
      body={`${copy}: it says ${saidAt(theirs, run, at)}. ${has}.`}
      why={`Nothing has been sent yet. Whatever you choose, this device keeps what it has for thirty days.${others(question, state, run)}`}
      box={box}
      tone="waits"
      answers={[
        { text: unbroken(sentenceCase(here)), main: true, act: () => resolve("put back") },
        { text: unbroken(sentenceCase(briefAt(theirs, run, at))), main: true, act: () => resolve("go on") },
      ]}
    />
  );
}

/** Where more than one piece stands otherwise, that is said too. */
function others({ snapshot }: Question, state: MakingState, run: string): string {
  const there = snapshot.state.runs;
  const more = Object.keys(state.runs).filter((r) => r !== run && there[r] && there[r].at !== state.runs[r]?.at).length;
  return more ? ` ${more === 1 ? "One other piece stands" : `${more} other pieces stand`} elsewhere too, and goes with the same answer.` : "";
}
