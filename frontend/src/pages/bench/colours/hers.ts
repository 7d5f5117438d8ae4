import { signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Chosen } from "../../../follow/choices";
import type { Strand } from "../../../generated/pattern";

/** How things are worded where the maker calls colours something of her own. */
export interface Hers {
  /** For one copy. */
  strand: (strand: Strand, run: string) => Strand;
  /** For all copies of all pieces: a colour that one of them has otherwise keeps the pattern's name. */
  text: (text: string) => string;
}

/** Null: she calls them what the pattern does. */
export const hers = signal<Hers | null>(null);

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
