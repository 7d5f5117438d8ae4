import type { Snapshot } from "../../api";
import type { Making } from "../../follow/making";
import { isRefusal } from "../../follow/stepping";
import type { FinishItem } from "../../generated/pattern";
import { isSection, seeRun, waiting } from "./seen";

/**
 * What is ticked on the finish list is answered on the bench with it, and not asked a second time: in the run in hand,
 * and in sections of jobs once the piece in hand is finished. From the place on, as far as all of a job's lines are
 * ticked; a line that is ticked out of turn is answered when its turn comes.
 */
export function answerTicked(making: Pick<Making, "visible" | "move">, snapshot: Snapshot, items: readonly FinishItem[], ticked: readonly string[]): void {
  for (const { run } of snapshot.runs) {
    for (let left = items.length; left > 0; left--) {
      const state = making.visible.peek();
      const inHand = state?.in_hand ?? snapshot.runs[0]?.run;
      const here = state && seeRun(snapshot, state, run);
      const hand = state && inHand ? seeRun(snapshot, state, inHand) : null;
      const cue = here && (run === inHand || (isSection(here.strand) && hand?.spot.finished)) ? waiting(here) : null;
      const lines = items.filter((item) => cue && item.cue === cue.address);
      if (!cue || lines.length === 0 || !lines.every((item) => ticked.includes(item.id))) break;
      if (isRefusal(making.move({ intent: "done", cue: cue.address }, run))) break;
    }
  }
}
