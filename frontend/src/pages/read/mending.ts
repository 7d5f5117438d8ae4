import { ask } from "../../api";
import type { Pattern, Terms } from "../../generated/pattern";

/** A text with the mended lines taken that are offered: the best one of each place, as long as they help. */
export interface Mended {
  text: string;
  changes: { line: number; before: string; after: string; why: string }[];
  /** There may be more: the bound was met. */
  more: boolean;
  /** Courses that cannot be followed, behind which nothing was taken. */
  stops: { line: number; say: string }[];
}

export const mend = (text: string, terms: Terms | null) => ask<Mended>("POST", "/api/mend", { text, terms });

/** At how many places a mended line is offered. */
export const offered = (pattern: Pattern) => pattern.findings.filter((f) => f.suggestions.length > 0).length;

/** "line 9 mended", "lines 9, 12 and 20 mended"; many lines by their number; and where it stopped. */
export function told({ changes, stops }: Mended): string {
  const lines = changes.map((c) => c.line);
  const many = new Set(lines).size;
  const done = `${many > 8 ? `${many} lines` : named(lines)} mended`;
  if (!stops.length) return done;
  const clear = stops.length === 1 ? "that is" : "those are";
  return `${done}, nothing behind ${named(stops.map((s) => s.line))} until ${clear} clear`;
}

function named(all: number[]): string {
  const lines = [...new Set(all)].sort((a, b) => a - b);
  const last = lines.at(-1);
  return lines.length === 1 ? `line ${last}` : `lines ${lines.slice(0, -1).join(", ")} and ${last}`;
}
