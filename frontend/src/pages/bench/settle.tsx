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

/**
 * The places that are claimed, each with what tells it from one before it that is called the same: between two jobs no
 * stitch is made, and "round 4, after stitch 18" twice would be no question.
 */
function toldApart(snapshot: Snapshot, claims: readonly Claim[]): Map<number, string> {
  const places = [...new Map(claims.map((c) => [c.at, c])).values()].sort((a, b) => a.at - b.at);
  const alike = new Map<string, number>();
  return new Map(
    places.map(({ run, at }) => {
      const words = briefAt(snapshot, run, at);
      const before = alike.get(words) ?? 0;
      alike.set(words, before + 1);
      return [at, before === 0 ? "" : before === 1 ? ", further on" : `, further on still (${before})`];
    }),
  );
}

/** What can be answered: each place once, in the order it is said. */
export function choicesOf(snapshot: Snapshot, claims: readonly Claim[]): Choice[] {
  const apart = toldApart(snapshot, claims);
  const places = new Map(claims.map((c) => [c.at, c]));
  return [...places.values()].map(({ run, at }) => ({ run, at, words: briefAt(snapshot, run, at) + (apart.get(at) ?? "") }));
}

/** "This phone says round 7, after stitch 12; the tablet says round 6, after stitch 30." */
export function disagreement(snapshot: Snapshot, claims: readonly Claim[]): string {
  const apart = toldApart(snapshot, claims);
  return `${sentenceCase(claims.map((c) => `${c.who} says ${saidAt(snapshot, c.run, c.at)}${apart.get(c.at) ?? ""}`).join("; "))}.`;
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
