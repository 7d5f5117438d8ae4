import type { Spoken, Wishes } from "../../../hands/wishes";

/** How a maker counts aloud, in her words. */
export const COUNTS: readonly (readonly [Exclude<Wishes["counting"], null>, string])[] = [
  ["no", "no"],
  ["repeat", "within the repeat"],
  ["round", "through the round"],
  ["group", "by group"],
];

export const AMOUNTS: readonly (readonly [Spoken, string])[] = [
  ["silent", "nothing"],
  ["cues", "what has to be done"],
  ["rounds", "each new round too"],
  ["repeats", "each repeat too"],
];
