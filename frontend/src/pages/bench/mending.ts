import type { Signal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { ask, type Snapshot } from "../../api";
import type { LinkState } from "../../follow/link";
import type { Seen } from "./seen";
import type { SheetName } from "./sheets";

const REST_S = 20 * 3_600; // after so long the hands have forgotten

/** The newest mend of a run once its hook is back before the slip. */
export const isSpent = (snapshot: Snapshot | null, seen: Seen | null): boolean => {
  const newest = seen && snapshot?.mends?.[seen.run]?.at(-1);
  const wrong = newest && seen.strand.courses.find((course) => course.id === newest.course);
  return Boolean(wrong && seen && seen.at <= wrong.first);
};

/**
 * Two sheets open by themselves, where nothing else is: the recap when the making is opened after a rest, and the
 * question about a mend that is not needed any more.
 */
export function useMending(making: number, sheet: Signal<SheetName | null>, snapshot: Snapshot | null, seen: Seen | null, link: LinkState): void {
  const asked = useRef("");
  const begun = seen !== null && seen.at > 0 && !seen.spot.finished;
  const told = useRef(false);
  useEffect(() => {
    if (!begun || link !== "live" || told.current) return;
    told.current = true;
    void ask<{ rested: number | null }>("GET", `/api/makings/${making}/rest`).then(
      ({ rested }) => {
        if (rested !== null && rested > REST_S && sheet.peek() === null) sheet.value = "recap";
      },
      () => undefined, // nobody is kept from the work by it
    );
  }, [begun, link]);
  const over = isSpent(snapshot, seen);
  const strand = `${seen?.run ?? ""}@${seen?.strand.id ?? ""}`;
  // Asked once each time the hook goes back past the slip, not at every step behind it.
  useEffect(() => {
    if (!over) asked.current = "";
    if (!over || link !== "live" || sheet.peek() !== null || asked.current === strand) return;
    asked.current = strand;
    sheet.value = "spent";
  }, [over, strand, link, sheet.value]);
}
