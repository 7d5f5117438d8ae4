import type { Snapshot } from "../api";
import type { Choice } from "./choices";
import type { Answer, Entry } from "./moves";
import type { Question } from "./restored";

export interface Row {
  row: number;
  /** The id of the move it was. */
  id?: string;
  kind: string;
  device: string;
  run: string;
  intent: string;
  from: number;
  to: number;
  passed: string[];
  in_hand: string | null;
  /** Of a choice. */
  choices?: Choice[];
  asks?: boolean;
}

export interface Rows {
  making: number;
  head: number;
  rows: Row[];
}

/** The little of a socket that the link needs. */
export interface Wire {
  readonly connected: boolean;
  on(event: string, heard: (...args: never[]) => void): unknown;
  ask(event: string, data: unknown): Promise<unknown>;
  connect(): unknown;
}

/** Who works from this link: one making, while it is open. */
export interface Guest {
  readonly making: number;
  /** Epoch and head this page holds; null before the first snapshot. */
  held(): { epoch: string; head: number } | null;
  joined(epoch: string, snapshot: Snapshot | null): void;
  /** Whether this page has every run where the journal has it. */
  agrees(snapshot: Snapshot): boolean;
  /** The journal knows less than this device. */
  restored(question: Question): void;
  added(entry: Entry): void;
  answered(entries: readonly Entry[], answers: readonly Answer[]): void;
  rows(rows: Rows): void;
  /** Look at the store again. */
  refresh(): Promise<void>;
  gone(code: string, say: string): void;
}
