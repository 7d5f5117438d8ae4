import type { Maker } from "../../../api";
import type { Spoken } from "../../../hands/wishes";

/** How a maker counts aloud, in her words. */
export const COUNTS: readonly (readonly [Exclude<Maker["counting"], null>, string])[] = [
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

interface Props<K> {
  name: string;
  ask: string;
  of: readonly (readonly [K, string])[];
  now: K | null;
  choose: (to: K) => void;
  /** Where nothing is chosen yet. */
  open?: string;
}

/** One question, answered by one of a few. */
export function Choices<K extends string | number>({ name, ask, of, now, choose, open }: Props<K>) {
  return (
    <fieldset class="choices">
      <legend>{ask}</legend>
      {of.map(([value, words]) => (
        <label key={value} class="choice">
          <input type="radio" name={name} checked={now === value} onChange={() => choose(value)} />
          <span>{words}</span>
        </label>
      ))}
      {now === null && open && <p class="soft">{open}</p>}
    </fieldset>
  );
}
