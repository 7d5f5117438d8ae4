import type { Finding, Suggestion } from "../../generated/pattern";
import { gravity } from "./sections";

/*
 * The server counts characters (code points); the page's strings count UTF-16 units.
 * A pattern with a fancy letter before line 12 must still be mended in the right place.
 */

/** Unit offset of a character offset. Past the end: the end. */
export function unitOffset(text: string, characters: number): number {
  let unit = 0;
  for (let n = 0; n < characters && unit < text.length; n++) unit += (text.codePointAt(unit) as number) > 0xffff ? 2 : 1;
  return unit;
}

/** The text with one suggestion taken. */
export function take(text: string, { start, end, replacement }: Suggestion): string {
  return text.slice(0, unitOffset(text, start)) + replacement + text.slice(unitOffset(text, end));
}

/** Unit offsets [start, end) of line `line` (from 1), its line end not included. */
export function lineRange(text: string, line: number): [number, number] {
  let start = 0;
  for (let n = 1; n < line; n++) {
    const next = text.indexOf("\n", start);
    if (next < 0) return [text.length, text.length];
    start = next + 1;
  }
  const end = text.indexOf("\n", start);
  return [start, end < 0 ? text.length : end];
}

/** Where each line of the read text is in the text now: null where it was changed. Lines count from 1. */
export function lineMap(read: string, now: string): (line: number) => number | null {
  if (read === now) return (line) => line;
  const a = read.split("\n");
  const b = now.split("\n");
  const least = Math.min(a.length, b.length);
  let head = 0;
  while (head < least && a[head] === b[head]) head++;
  let tail = 0;
  while (tail < least - head && a[a.length - 1 - tail] === b[b.length - 1 - tail]) tail++;
  return (line) => {
    if (line <= head) return line;
    if (line > a.length - tail) return line + b.length - a.length;
    return null;
  };
}

/**
 * What a paste of several lines makes of a text it does not replace: itself alone, and both together.
 * Null where there was nothing else, or where only a line was put in.
 */
export function mixed(text: string, pasted: string, from: number, to: number): { alone: string; both: string } | null {
  const words = pasted.replace(/\r\n?/g, "\n");
  const rest = text.slice(0, from) + text.slice(to);
  if (!rest.trim() || words.trim().split("\n").length < 3) return null;
  return { alone: words, both: text.slice(0, from) + words + text.slice(to) };
}

export interface Mark {
  start: number;
  end: number;
  finding: number;
  severity: Finding["severity"];
}

/** Stretches to underline, in order and never overlapping: the graver finding wins. */
export function marks(read: string, now: string, findings: readonly Finding[]): Mark[] {
  const where = lineMap(read, now);
  const grave = { error: 0, warning: 1, note: 2 };
  const found: Mark[] = [];
  findings.forEach((f, finding) => {
    const line = where(f.line);
    if (line === null || f.severity === "note") return;
    const [from, to] = lineRange(now, line);
    if (from === to) return;
    const inLine = now.slice(from, to);
    let start = from + unitOffset(inLine, Math.max(0, f.column - 1));
    let end = f.span > 0 ? from + unitOffset(inLine, f.column - 1 + f.span) : to;
    if (start >= to) start = from;
    if (end <= start) end = to;
    found.push({ start, end, finding, severity: gravity(f) });
  });
  found.sort((x, y) => grave[x.severity] - grave[y.severity]);
  const kept: Mark[] = [];
  for (const m of found) if (!kept.some((k) => m.start < k.end && k.start < m.end)) kept.push(m);
  return kept.sort((x, y) => x.start - y.start);
}
