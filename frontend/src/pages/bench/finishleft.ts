import type { Snapshot } from "../../api";
import type { MakingState } from "../../follow/stepping";
import type { FinishItem } from "../../generated/pattern";

/** Jobs of the pattern's own making up that were answered on the bench already. */
export function answered(items: readonly FinishItem[], snapshot: Snapshot, state: MakingState): Set<string> {
  const passed = new Set<string>();
  for (const { run } of snapshot.runs) {
    const now = state.runs[run];
    const strand = now && snapshot.strands[now.strand];
    if (strand && now) for (const cue of strand.cues) if (cue.step < now.at) passed.add(cue.address);
  }
  return new Set(items.filter((item) => item.cue !== null && passed.has(item.cue)).map((item) => item.id));
}

/**
 * What makes ready for a seam, was never said to be done, and has no time any more: the seam is made. It is neither done
 * nor asked for again.
 */
export const passedBy = (items: readonly FinishItem[], ticked: readonly string[], snapshot: Snapshot, state: MakingState): Set<string> =>
  lateIn(items, ticked, answered(items, snapshot, state));

function lateIn(items: readonly FinishItem[], ticked: readonly string[], done: ReadonlySet<string>): Set<string> {
  const seam = items.findLastIndex((item) => item.kind === "sew" && (done.has(item.id) || ticked.includes(item.id)));
  const late = (item: FinishItem, i: number) => item.cue === null && item.kind !== "sew" && i < seam && !ticked.includes(item.id);
  return new Set(items.filter(late).map((item) => item.id));
}

/** What is not done yet, in order: neither ticked nor answered on the bench, nor passed by. */
export const leftOf = (items: readonly FinishItem[], ticked: readonly string[], snapshot: Snapshot, state: MakingState): FinishItem[] =>
  leftBeside(items, ticked, answered(items, snapshot, state));

function leftBeside(items: readonly FinishItem[], ticked: readonly string[], done: ReadonlySet<string>): FinishItem[] {
  const late = lateIn(items, ticked, done);
  return items.filter((item) => !ticked.includes(item.id) && !done.has(item.id) && !late.has(item.id));
}

/** What has to be done before the bench asks for the first job of the making up; null where nothing has. */
export function beforeSewing(items: readonly FinishItem[], ticked: readonly string[], snapshot: Snapshot, state: MakingState): string | null {
  const done = answered(items, snapshot, state);
  const [next] = leftBeside(items, ticked, done);
  const asked = items.some((item) => item.cue !== null && !done.has(item.id));
  return next && asked && next.cue === null ? next.text : null;
}
