import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, type Snapshot } from "../../api";
import type { LinkState } from "../../follow/link";
import type { MakingState } from "../../follow/stepping";
import type { FinishItem } from "../../generated/pattern";

/**
 * What is to do when every part is worked; null until it is known. It is fetched when it is wanted, and once before, as
 * soon as the making is here, so that a device that goes away has it.
 */
export function useFinishList(id: number, link: LinkState, wanted: boolean): FinishItem[] | null {
  const items = useSignal<FinishItem[] | null>(null);
  useEffect(() => {
    if (link !== "live" && !wanted) return undefined;
    let here = true;
    // Without an answer it is not known, and the bench says that it has to be looked at.
    const fetch = () => api.finish(id).then((found) => here && (items.value = found), () => undefined);
    if (wanted) {
      void fetch();
      return () => {
        here = false;
      };
    }
    void api.finishKept(id).then((kept) => (kept || !here ? undefined : fetch()));
    return () => {
      here = false;
    };
  }, [id, link, wanted]);
  return items.value;
}

/**
 * Jobs of the pattern's own making up that were answered on the bench already. What only makes ready for a seam is over
 * when the seam is made.
 */
export function answered(items: readonly FinishItem[], snapshot: Snapshot, state: MakingState): Set<string> {
  const passed = new Set<string>();
  for (const { run } of snapshot.runs) {
    const now = state.runs[run];
    const strand = now && snapshot.strands[now.strand];
    if (strand && now) for (const cue of strand.cues) if (cue.step < now.at) passed.add(cue.address);
  }
  const over = items.map((item) => item.cue !== null && passed.has(item.cue));
  const seam = items.findLastIndex((item, i) => item.kind === "sew" && over[i]);
  const ready = (item: FinishItem, i: number) => item.cue === null && item.kind !== "sew" && i < seam;
  return new Set(items.filter((item, i) => over[i] || ready(item, i)).map((item) => item.id));
}

/** What is not done yet, in order: neither ticked nor answered on the bench. */
export function leftOf(items: readonly FinishItem[], ticked: readonly string[], snapshot: Snapshot, state: MakingState): FinishItem[] {
  const passed = answered(items, snapshot, state);
  return items.filter((item) => !ticked.includes(item.id) && !passed.has(item.id));
}
