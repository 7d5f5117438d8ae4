/** What travels between this page and the ear in the server. */

export type Said =
  | "next" | "stitch" | "group" | "repeat" | "round" | "back" | "undo" | "done" | "where" | "left" | "ahead" | "again"
  | "goto" | "rip" | "count" | "recount" | "lost" | "pause" | "hold" | "listen" | "finish" | "yes" | "no" | "help"
  | "worked_on" | "show" | "parts" | "gather" | "habits" | "pattern" | "runs" | "check" | "recap" | "shape"
  | "chart" | "notes" | "record" | "kinds" | "lock" | "hands" | "more"; // prettier-ignore

export type Style = "repeat" | "round" | "group";

/** An utterance that was taken for a phrase. */
export interface Heard {
  ear: string;
  /** 32 hex digits, once for each utterance: the id of its move comes from it. */
  utterance: string;
  intent: Said;
  unit: "stitch" | "group" | "repeat" | "round" | null;
  number: number | null;
  words: string;
  /** What may have been said in place of a number that sounds like another. */
  twin?: { number: number; words: string } | null;
  verdict: "act" | "ask" | "ignore";
  /** Milliseconds from the end of the speech to now, on the server. */
  ms: number;
}

/** A number out of a count aloud. */
export interface Counted {
  ear: string;
  utterance: string;
  number: number;
  confirmed: boolean;
  recount: boolean;
  words: string;
}

/** What may be said at this place. */
export interface Expecting {
  waits: "stop" | "pause" | "question" | null;
  /** Only these, while something is asked; null: everything. */
  answers: Said[] | null;
  count: Counting | null;
  /** The maker counts what is there, by a key or a word. */
  recount?: boolean;
  /** The largest number that can be meant. */
  most?: Most;
}

export interface Most {
  rounds?: number;
  stitches?: number;
}

export interface Counting {
  style: Style;
  /** The numbers that can come now, in order. */
  next: number[];
  /** Stitches left in the round. */
  left: number;
  words: { inc: boolean; dec: boolean };
}

export interface Engine {
  name: string;
  model: string;
  language: string;
  say: string;
}

export interface Listening {
  ok: boolean;
  ear: string;
  engine: Engine;
  missing: string[];
  code?: string;
  say?: string;
}

export interface About {
  making: number;
  device: string;
  device_name: string;
  language: string;
  single: boolean;
  count: { style: Style } | null;
}

/** How far the adding of a model has come: a share of 1, and a sentence. */
export interface Progress {
  job: string;
  share: number;
  say: string;
  done: boolean;
}
