import type { CueKind, Terms } from "../generated/pattern";
import type { Making } from "./making";

/** Her swatch, what she unravelled, another yarn, another hook, as she wrote them. */
export interface FabricWords {
  gauge: string;
  used: string;
  yarn: string;
  hook: string;
}

export interface Tick {
  list: "gather" | "finish" | "passed";
  item: string;
  on: boolean;
}

/** What the maker wrote, of a step of a run. `note` is its id; without text it is taken away. `when` is only shown. */
export interface Note {
  note: string;
  run: string;
  step: number;
  text: string;
  when: string;
}

/** What a count at the end of a course came to: the model of journal/choices.py. `n` null: she would rather not count, or, where `right`, it is asked for behind a rip. */
export interface Counted {
  run: string;
  course: string;
  n: number | null;
  right: boolean;
  on: boolean;
}

/** What was chosen for one making, by name: the table in journal/choices.py. What is not there is as the pattern has it. */
export interface Chosen {
  gauge?: FabricWords;
  yarn?: string;
  hook?: string;
  /** The maker's own words for a colour, by its name in the pattern; of one copy under "colours/RUN". */
  colours?: Record<string, string>;
  [copy: `colours/${string}`]: Record<string, string> | undefined;
  spiral?: boolean;
  decreases?: "plain" | "invisible";
  terms?: Terms;
  kinds_off?: CueKind[];
  /** How many of a piece, by its number. */
  copies?: Record<string, number>;
  order?: { kind: "one" | "pair" | "level"; label: string | null };
  /** The items that are ticked, the newest last. */
  ticks?: Partial<Record<Tick["list"], string[]>>;
  notes?: Note[];
  /** Counts, the newest last, one of each course of a run. */
  counted?: Counted[];
}

type Named = Omit<Chosen, "ticks" | "notes" | "counted">;

/** One choice as it travels. `null`: as the pattern has it. */
export type Choice =
  | { [N in keyof Named]-?: { choice: N; value: NonNullable<Named[N]> | null } }[keyof Named]
  | { choice: "tick"; value: Tick }
  | { choice: "note"; value: Note }
  | { choice: "count"; value: Counted };

const MOST_NOTES = 500;
const MOST_TICKS = 2000;
const MOST_COUNTS = 200;

/** The choices of a making after one more. Its twin is in journal/choices.py; both are held against the same cases. */
export function chosen(now: Chosen, { choice, value }: Choice): Chosen {
  if (choice === "tick") {
    const items = (now.ticks?.[value.list] ?? []).filter((item) => item !== value.item);
    return { ...now, ticks: { ...now.ticks, [value.list]: value.on ? [...items, value.item] : items } };
  }
  if (choice === "note") {
    const others = (now.notes ?? []).filter(({ note }) => note !== value.note);
    return { ...now, notes: value.text ? [...others, value] : others };
  }
  if (choice === "count") {
    const others = (now.counted ?? []).filter(({ run, course }) => run !== value.run || course !== value.course);
    return { ...now, counted: value.on ? [...others, value].slice(-MOST_COUNTS) : others };
  }
  const { [choice]: _, ...rest } = now as Record<string, unknown>;
  return (value === null ? rest : { ...rest, [choice]: value }) as Chosen;
}

export const allChosen = (now: Chosen, more: readonly Choice[]): Chosen => more.reduce(chosen, now);

/** Whether there is more in its lists than one making holds. */
export const tooMany = (now: Chosen): boolean =>
  (now.notes?.length ?? 0) > MOST_NOTES || Object.values(now.ticks ?? {}).some((items) => items.length > MOST_TICKS);

/** One choice of a making, and the way to choose otherwise. In a component it follows what is chosen anywhere. */
export function useChoice<N extends keyof Named>(
  making: Making,
  name: N,
): [value: Named[N] | undefined, choose: (value: NonNullable<Named[N]> | null) => boolean] {
  return [making.chosen.value[name] as Named[N] | undefined, (value) => making.choose([{ choice: name, value } as Choice])];
}

/** The ticks of one list, and the way to set one. */
export function useTicks(making: Making, list: Tick["list"]): [ticked: readonly string[], tick: (item: string, on: boolean) => boolean] {
  const ticked = making.chosen.value.ticks?.[list] ?? [];
  return [ticked, (item, on) => making.choose([{ choice: "tick", value: { list, item, on } }])];
}

/** The notes, the oldest first, and the way to write one: with the id of one that is there, over it. */
export function useNotes(making: Making): [notes: readonly Note[], write: (note: Note) => boolean] {
  return [making.chosen.value.notes ?? [], (value) => making.choose([{ choice: "note", value }])];
}
