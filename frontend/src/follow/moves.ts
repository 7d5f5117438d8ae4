import type { Choice } from "./choices";

/** A move as it travels. `device_seq` is given by the outbox, so two tabs of one device never share a number. */
export interface Move {
  id: string;
  device: string;
  device_seq: number;
  making: number;
  run: string;
  strand: string;
  base: number;
  intent: string;
  unit?: string;
  to?: number;
  cue?: string;
  count?: number;
  /** A row, or the id of a move whose row is not known yet. */
  undoes?: number | string;
  n?: number;
  asides?: number[];
  /** What was chosen: intent "choose", of no run and no strand. */
  choices?: Choice[];
  backlog?: boolean;
}

export interface Waiting {
  /** The journal this move was made for; another journal must never get it unasked. */
  epoch: string;
  move: Move;
}

export interface Entry extends Waiting {
  seq: number;
}

/** The journal's word on one move. */
export interface Answer {
  ok: boolean;
  id?: string;
  row?: number;
  kind?: "move" | "aside" | "refused" | "settle" | "choice";
  code?: string;
  say?: string;
  run?: string;
  from?: number;
  to?: number;
  passed?: string[];
  head?: number;
  /** Of a choice: the making asks before it changes what it is worked by. */
  asks?: boolean;
}

/** What the journal has acknowledged, as it was sent, with the rows it became: for the day a copy is put back. */
export interface Remembered {
  epoch: string;
  moves: Move[];
  rows: number[];
}

/** A move the journal cannot take, and why: its making is gone, or damaged. */
export interface Held extends Waiting {
  code: string;
  say: string;
}

/** 128 random bits as 32 hex digits. */
export function randomId(): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(16)), (b) => b.toString(16).padStart(2, "0")).join("");
}

/** What becomes of answered moves: acknowledged ones, those to be held, and (in neither) those that changed nothing. */
export function sorted(entries: readonly Entry[], answers: readonly Answer[]): { taken: [Entry, number][]; held: Held[] } {
  const taken: [Entry, number][] = [];
  const held: Held[] = [];
  entries.forEach((entry, i) => {
    const answer = answers[i];
    if (!answer) return;
    const { ok, kind, row, code = "", say = "" } = answer;
    if (!ok || (kind === "refused" && code === "gone")) held.push({ epoch: entry.epoch, move: entry.move, code, say });
    else if (kind !== "refused" && row !== undefined) taken.push([entry, row]);
  });
  return { taken, held };
}

/** Nothing will make the journal understand these: they are kept, and never sent again by themselves. */
export const hopeless = ({ code }: Held): boolean => code !== "gone" && code !== "damaged";

/**
 * Held moves, to be sent once more. The journal has stored that it refused those of a making that was gone, under
 * their ids; nothing was done by them, so they go under new ones, and what undoes one of them names the new one.
 */
export function renewed(held: readonly Held[]): Waiting[] {
  const ids = new Map(held.filter((h) => h.code === "gone").map((h) => [h.move.id, randomId()]));
  return held.map(({ epoch, move }) => {
    const undoes = typeof move.undoes === "string" ? { undoes: ids.get(move.undoes) ?? move.undoes } : {};
    return { epoch, move: { ...move, ...undoes, id: ids.get(move.id) ?? move.id, backlog: true } };
  });
}

/**
 * Moves to be put on another journal, and behind them those of `waiting` that came after the maker was asked: made on
 * the same row as the others, as far as that journal knows.
 */
export function onto(moves: readonly Move[], waiting: readonly Move[]): Move[] {
  const ids = new Set(moves.map((m) => m.id));
  const base = moves.at(-1)?.base ?? 0;
  return [...moves, ...waiting.filter((m) => !ids.has(m.id)).map((m) => ({ ...m, base: Math.min(m.base, base), backlog: true }))];
}

/** Runs of numbers that follow one another: one deletion each. Never across a number that was not answered. */
export function stretches(entries: readonly Entry[]): [number, number][] {
  const found: [number, number][] = [];
  for (const { seq } of entries) {
    const end = found.at(-1);
    if (end && seq === end[1] + 1) end[1] = seq;
    else found.push([seq, seq]);
  }
  return found;
}
