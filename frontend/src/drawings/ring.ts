import { type Item, type Mark, room } from "./marks";

export type Hand = "right" | "left";

/** Angles in radians, 0 at the start of the round (six o'clock), growing the way the work runs. */
export interface Laid {
  item: Item;
  from: number;
  to: number;
}

const TURN = 2 * Math.PI;
/** A mark of the part in hand is drawn as wide as in a round of 24... */
const SPREAD = TURN / 24;
/** ...but the part in hand never takes more than this much of the round when other parts remain. */
const MOST = TURN * 0.56;

/**
 * Shares out the round among its items; the marks get more than their share where there are stretches beside them,
 * unless they are to be true to place: then every stitch stands where it is.
 */
export function lay(items: readonly Item[], trueToPlace = false): Laid[] {
  const marks = items.filter((i) => i.type === "mark");
  const markRoom = marks.reduce((sum, i) => sum + room(i), 0);
  const restRoom = items.reduce((sum, i) => sum + (i.type === "stretch" ? room(i) : 0), 0);
  const fair = markRoom + restRoom > 0 ? (TURN * markRoom) / (markRoom + restRoom) : 0;
  const spread = restRoom === 0 ? TURN : trueToPlace ? fair : Math.min(Math.max(fair, markRoom * SPREAD), MOST);
  const marksAngle = markRoom === 0 ? 0 : spread;
  let angle = 0;
  return items.map((item) => {
    const share =
      item.type === "mark"
        ? (marksAngle * room(item)) / markRoom
        : ((TURN - marksAngle) * room(item)) / restRoom;
    const laid = { item, from: angle, to: angle + share };
    angle += share;
    return laid;
  });
}

export interface Point {
  x: number;
  y: number;
}

/**
 * A point of the round seen from outside, y downwards as on a screen, centre 0,0.
 * Right-handed work runs anticlockwise seen from outside (chart-reading rule of the trade); left-handed is its mirror.
 */
export function point(angle: number, radius: number, hand: Hand): Point {
  const x = Math.sin(angle) * radius;
  return { x: hand === "right" ? x : -x, y: Math.cos(angle) * radius };
}

export interface Leg {
  foot: number;
  tip: number;
}

/** Where the legs of a mark stand: angles of foot and tip. One foot and many tips fork; many feet and one tip meet. */
export function legs(mark: Mark, from: number, to: number): Leg[] {
  const count = Math.max(1, mark.tips, mark.feet);
  const slot = (to - from) / count;
  const middle = (from + to) / 2;
  return Array.from({ length: count }, (_, i) => {
    const own = from + slot * (i + 0.5);
    const fork = mark.tips > 1;
    const meet = mark.feet > mark.tips;
    return { foot: fork ? middle : own, tip: meet ? middle : own };
  });
}

/** The angle where the hook is: `done` steps of the body worked. */
export function hookAngle(laid: readonly Laid[], done: number): number {
  for (const { item, from, to } of laid) {
    if (done < item.first + item.steps) {
      const part = item.steps === 0 ? 0 : Math.max(0, (done - item.first) / item.steps);
      return from + (to - from) * part;
    }
  }
  return TURN;
}
