import type { Snapshot } from "../../api";
import { type MakingState, status } from "../../follow/stepping";
import type { StrandCue } from "../../generated/pattern";

const NEEDS = /\/ready-((?:p\d+x\d+\.?)+)$/;

/** Whether a stop is the one before a course that works other pieces in. */
export const wantsParts = (address: string): boolean => NEEDS.test(address);

/** What such a stop wants: pieces by their numbers, as runs have them, and how many copies of each. */
export function needed({ address }: Pick<StrandCue, "address">): { piece: string; copies: number }[] {
  const parts = NEEDS.exec(address)?.[1]?.split(".") ?? [];
  return parts.map((part) => {
    const [piece = "", copies = "1"] = part.split("x");
    return { piece, copies: Number(copies) };
  });
}

/** The copies that are still to be worked before it: begun ones first, then those next in order. */
export function stillToWork(cue: Pick<StrandCue, "address">, snapshot: Snapshot, state: MakingState): Snapshot["runs"] {
  return needed(cue).flatMap(({ piece, copies }) => {
    const all = snapshot.runs.filter((run) => run.run.split(".")[0] === piece);
    const how = (run: string) => {
      const strand = snapshot.strands[state.runs[run]?.strand ?? ""];
      return strand ? status(state, run, strand) : "not begun";
    };
    const left = all.filter(({ run }) => !["ready to sew", "finished"].includes(how(run)));
    const begun = left.filter(({ run }) => how(run) !== "not begun");
    const missing = Math.max(0, copies - (all.length - left.length));
    return [...begun, ...left.filter((run) => !begun.includes(run))].slice(0, missing);
  });
}
