import type { Shelf, ShelfMaking, ShelfPattern } from "../../api";

const plain = (text: string) => text.normalize("NFKD").replace(/\p{Mn}/gu, "").toLocaleLowerCase();

/** Whether every word asked for stands somewhere in what a thing is called by; letters with and without marks alike. */
export function found(asked: string, called: readonly (string | undefined)[]): boolean {
  const words = plain(called.filter(Boolean).join("\n"));
  return plain(asked)
    .split(/\s+/)
    .every((word) => words.includes(word));
}

const pattern = (p: ShelfPattern) => [p.title, ...(p.labels ?? []), ...p.pieces.map((piece) => piece.name)];
const making = (m: ShelfMaking, of: ShelfPattern | undefined) => [m.title, ...(m.labels ?? []), m.in_hand?.piece, ...(of?.pieces ?? []).map((piece) => piece.name)];

/** The shelf with what was asked for alone; all of it where nothing was asked. */
export function findOn(shelf: Shelf, asked: string): Shelf {
  if (!asked.trim()) return shelf;
  const makings = (kept: ShelfMaking[]) => kept.filter((m) => found(asked, making(m, shelf.patterns.find((p) => p.id === m.pattern))));
  return {
    ...shelf,
    makings: makings(shelf.makings),
    away: makings(shelf.away),
    patterns: shelf.patterns.filter((p) => found(asked, pattern(p))),
  };
}

/** Every label there is, in the order of the alphabet. */
export function labelsOn(shelf: Shelf): string[] {
  const all = [...shelf.makings, ...shelf.away, ...shelf.patterns].flatMap((thing) => thing.labels ?? []);
  return [...new Set(all)].sort((a, b) => a.localeCompare(b));
}
