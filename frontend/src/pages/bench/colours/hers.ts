import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Chosen } from "../../../follow/choices";
import type { Strand } from "../../../generated/pattern";

/** How a strand is worded for one copy, where the maker calls colours something of her own; else null. */
export const hers = signal<((strand: Strand, run: string) => Strand) | null>(null);

/** Words the colours of the making that is open as its maker calls them. */
export function useHers(chosen: Chosen): void {
  useEffect(() => {
    let here = Object.keys(chosen).some((name) => name.startsWith("colours"));
    if (here) void import("./wording").then((m) => here && (hers.value = m.wording(chosen)));
    return () => {
      here = false;
      hers.value = null;
    };
  }, [chosen]);
}
