import type { Aside, Snapshot } from "../api";
import type { MakingState } from "./stepping";

/** What one device says of where the work is. */
export interface Claim {
  /** As a person would call it: "this phone", "the tablet", "the other phone". */
  who: string;
  run: string;
  at: number;
}

/**
 * What the devices say where they disagree, about one run: first where the bench is now, then the newest word of each
 * device that was not taken. Empty while there is nothing to ask.
 */
export function claimsOf(snapshot: Snapshot, state: MakingState, asides: readonly Aside[], own: string): Claim[] {
  const run = asides[0]?.run;
  const now = run === undefined ? undefined : state.runs[run];
  if (run === undefined || !now) return [];
  const last = snapshot.last?.[run];
  const others = [...new Map(asides.filter((a) => a.run === run).map((a) => [a.device, a])).values()];
  const speakers = [...(last ? [last] : []), ...others];
  const who = ({ device, device_name }: { device: string; device_name: string }): string => {
    const name = device_name || "device";
    if (device === own) return `this ${name}`;
    const alike = speakers.some((s) => s.device !== device && s.device_name === device_name);
    return alike ? `the other ${name}` : `the ${name}`;
  };
  // The device whose move stands on the bench may be the one whose later move does not.
  const bench = last && !others.some((a) => a.device === last.device) ? who(last) : "the bench";
  return [{ who: bench, run, at: now.at }, ...others.map((a) => ({ who: who(a), run, at: a.to }))];
}
