import type { Snapshot } from "../../api";
import type { Claim } from "../../follow/claims";
import type { Box } from "./box";
import { Halt } from "./halt";
import { briefAt, saidAt, sentenceCase, unbroken } from "./place";

/** One answer to the question where the marker is: a touch or a word chooses it. */
export interface Choice {
  run: string;
  at: number;
  /** "round 7, after stitch 12". */
  words: string;
}

/** What can be answered: each place once, in the order it is said. */
export function choicesOf(snapshot: Snapshot, claims: readonly Claim[]): Choice[] {
  const places = new Map(claims.map((c) => [c.at, c]));
  return [...places.values()].map(({ run, at }) => ({ run, at, words: briefAt(snapshot, run, at) }));
}

/** "This phone says round 7, after stitch 12; the tablet says round 6, after stitch 30." */
export function disagreement(snapshot: Snapshot, claims: readonly Claim[]): string {
  return `${sentenceCase(claims.map((c) => `${c.who} says ${saidAt(snapshot, c.run, c.at)}`).join("; "))}.`;
}

interface Props {
  snapshot: Snapshot;
  claims: readonly Claim[];
  box: Box;
  settle: (run: string, to: number) => void;
}

/** Two devices disagree: asked as a person would, answered by one touch. */
export function Settle({ snapshot, claims, box, settle }: Props) {
  return (
    <Halt
      what={`settle-${claims.map((c) => c.at).join("-")}`}
      title="Where is your marker?"
      body={disagreement(snapshot, claims)}
      why="Count from the marker to the hook; touch the one that is right."
      box={box}
      tone="waits"
      answers={choicesOf(snapshot, claims).map(({ run, at, words }) => ({ text: unbroken(words), main: true, act: () => settle(run, at) }))}
    />
  );
}
