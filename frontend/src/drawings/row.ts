import { type Item, room } from "./marks";
import type { Hand } from "./ring";

/** A span along the row, 0 at its first stitch, 1 at its end. */
export interface RowSpan {
  item: Item;
  from: number;
  to: number;
}

/** Shares out a row of width 1; the part in hand spread out up to `most` of it. */
export function layRow(items: readonly Item[], most = 0.6): RowSpan[] {
  const marks = items.reduce((sum, i) => sum + (i.type === "mark" ? room(i) : 0), 0);
  const rest = items.reduce((sum, i) => sum + (i.type === "stretch" ? room(i) : 0), 0);
  const fair = marks + rest > 0 ? marks / (marks + rest) : 0;
  const width = rest === 0 ? 1 : marks === 0 ? 0 : Math.min(Math.max(fair, marks / 24), most);
  let at = 0;
  return items.map((item) => {
    const share = item.type === "mark" ? (width * room(item)) / marks : ((1 - width) * room(item)) / rest;
    const span = { item, from: at, to: at + share };
    at += share;
    return span;
  });
}

/**
 * Across the drawing: the side that faces the maker. Work is turned at the end of each row,
 * so a right-handed row always runs right to left as it faces her, a left-handed one left to right.
 */
export function across(part: number, left: number, right: number, hand: Hand): number {
  return hand === "right" ? right - (right - left) * part : left + (right - left) * part;
}

export function hookAcross(spans: readonly RowSpan[], done: number): number {
  for (const { item, from, to } of spans) {
    if (done < item.first + item.steps) {
      const part = item.steps === 0 ? 0 : Math.max(0, (done - item.first) / item.steps);
      return from + (to - from) * part;
    }
  }
  return 1;
}
