import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Making } from "../../follow/making";
import type { Intent, Outcome } from "../../follow/stepping";
import type { StrandCue } from "../../generated/pattern";
import type { Seen } from "./seen";

/** A count that is asked for and was neither given nor turned down. */
export interface CountDue {
  /** Id and name of the course that is counted: "round 4". */
  course: string;
  name: string;
  /** What it should have. */
  n: number;
  /** The hook is at its end: marker to hook is that course. */
  here: boolean;
  /** It was given, and is another number: what she counted. */
  given: number | null;
}

export interface Counts {
  due: CountDue | null;
  /** Those of the whispers that are still needed. */
  wanted(whispers: StrandCue[]): StrandCue[];
  /** After a move: a count is written down, and one behind which the hook went back is forgotten. */
  note(intent: Intent, outcome: Outcome): void;
}

/** Which counts are asked for; its room is fetched behind the first paint, and until then all are. */
export function useCounts(making: Making, seen: Seen | null, quiet: boolean): Counts | null {
  const room = useSignal<typeof import("./countdue") | null>(null);
  useEffect(() => {
    void import("./countdue").then((found) => (room.value = found), () => undefined);
  }, []);
  return seen && room.value && room.value.countsOf(making, seen, quiet);
}
