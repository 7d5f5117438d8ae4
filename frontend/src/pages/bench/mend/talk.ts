import { signal } from "@preact/signals";
import { ask } from "../../../api";

export type Value = number | string;
export type Answers = Readonly<Record<string, Value>>;

/** A question to the fabric: its answers as numbers between `least` and `most`, or one of the choices. */
export interface TalkQuestion {
  key: string;
  text: string;
  more: string;
  kind: "choice" | "number";
  choices: { value: Value; text: string }[];
  least: number;
  most: number;
}

/** A way out of a miscount. */
export interface Offer {
  key: string;
  kind: "mend" | "go" | "rip" | "refused";
  title: string;
  say: string;
  /** The altered course as it is worked. */
  line: string;
  to: number | null;
  /** Stitches to pull out, by what was counted. */
  many?: number | null;
}

/** What is said now: a question, a place that was found, or what can be done. */
export interface Talk {
  said: string;
  ask: TalkQuestion | null;
  to: number | null;
  offers: Offer[];
}

export interface RecapLine {
  what: "hook" | "yarn" | "side" | "decrease" | "mend" | "aside" | "count" | "expect";
  text: string;
}

const of = (making: number, what: string) => `/api/makings/${making}/${what}`;

export const mending = {
  talk: (making: number, topic: "count" | "lost", run: string, at: number, answers: Answers) =>
    ask<Talk>("POST", of(making, topic), { run, at, answers }),
  mend: (making: number, run: string, at: number, answers: Answers, offer: string) =>
    ask<{ head: number; to: number }>("POST", of(making, "mend"), { run, at, answers, offer }),
  unmend: (making: number, run: string, at: number) => ask<{ head: number; to: number }>("POST", of(making, "unmend"), { run, at }),
  recap: (making: number, run: string) => ask<{ lines: RecapLine[]; when: string | null }>("GET", `${of(making, "recap")}?run=${encodeURIComponent(run)}`),
};

/** What was said before the sheet opened: a count, or how far she worked on. */
export const begun = signal<{ answers: Answers; course: string | null }>({ answers: {}, course: null });
