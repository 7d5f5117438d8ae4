import { ask } from "../../api";
import type { Pattern, Terms } from "../../generated/pattern";

/** A text with the mended lines taken that are offered: the best one of each place, as long as they help. */
export interface Mended {
  text: string;
  changes: { line: number; before: string; after: string; why: string }[];
  /** There may be more: the bound was met. */
  more: boolean;
}

export const mend = (text: string, terms: Terms | null) => ask<Mended>("POST", "/api/mend", { text, terms });

/** At how many places a mended line is offered. */
export const offered = (pattern: Pattern) => pattern.findings.filter((f) => f.suggestions.length > 0).length;

/** "line 9 mended", "lines 9, 12 and 20 mended"; many lines by their number. */
export function told({ changes }: Mended): string {
  const lines = [...new Set(changes.map((c) => c.line))].sort((a, b) => a - b);
  const last = lines.at(-1);
  if (lines.length === 1) return `line ${last} mended`;
  if (lines.length > 8) return `${lines.length} lines mended`;
  return `lines ${lines.slice(0, -1).join(", ")} and ${last} mended`;
}
