import type { Group, Node } from "../generated/pattern";

/**
 * What a drawing of a course is made of. Steps are counted from the start of the course's body,
 * cues inside the course left out.
 *
 * A *mark* is one stitch of the table with its feet (stitches used) and tips (stitches made).
 * A *stretch* is a run of stitches drawn as one piece, because the eye can't use more than about two dozen marks.
 */
export interface Mark {
  type: "mark";
  group: Group;
  feet: number;
  tips: number;
  first: number;
  steps: number;
}

export interface Stretch {
  type: "stretch";
  first: number;
  steps: number;
  stitches: number;
}

export type Item = Mark | Stretch;

/** Up to this many stitches every one has its own mark. */
export const SINGLE_MARKS = 24;
/** A long plain group is drawn in tens, as people count it. */
const TEN = 10;

export function lengthOf(body: readonly Node[]): number {
  return body.reduce((sum, n) => sum + (n.type === "group" ? n.count * n.steps : n.times * lengthOf(n.body)), 0);
}

export function makesOf(body: readonly Node[]): number {
  return body.reduce((sum, n) => sum + (n.type === "group" ? n.count * n.makes : n.times * makesOf(n.body)), 0);
}

function marksOf(group: Group, first: number, from = 0, to = group.count): Mark[] {
  const marks: Mark[] = [];
  for (let i = from; i < to; i++) {
    marks.push({
      type: "mark",
      group,
      feet: group.uses,
      tips: group.makes,
      first: first + i * group.steps,
      steps: group.steps,
    });
  }
  return marks;
}

function single(body: readonly Node[], start: number): Item[] {
  const items: Item[] = [];
  let first = start;
  for (const node of body) {
    if (node.type === "group") {
      items.push(...marksOf(node, first));
      first += node.count * node.steps;
    } else {
      const each = lengthOf(node.body);
      for (let i = 0; i < node.times; i++, first += each) items.push(...single(node.body, first));
    }
  }
  return items;
}

function stretch(first: number, steps: number, stitches: number): Stretch {
  return { type: "stretch", first, steps, stitches };
}

function spreadGroup(group: Group, first: number, at: number): Item[] {
  if (group.count <= TEN) {
    const steps = group.count * group.steps;
    const inHand = at >= first && at < first + steps;
    if (inHand || group.count <= 2) return marksOf(group, first);
    return [stretch(first, steps, group.count * group.makes)];
  }
  const items: Item[] = [];
  for (let from = 0; from < group.count; from += TEN) {
    const to = Math.min(group.count, from + TEN);
    const start = first + from * group.steps;
    const steps = (to - from) * group.steps;
    if (at >= start && at < start + steps) items.push(...marksOf(group, first, from, to));
    else items.push(stretch(start, steps, (to - from) * group.makes));
  }
  return items;
}

function spread(body: readonly Node[], start: number, at: number): Item[] {
  const items: Item[] = [];
  let first = start;
  for (const node of body) {
    if (node.type === "group") {
      items.push(...spreadGroup(node, first, at));
      first += node.count * node.steps;
      continue;
    }
    const each = lengthOf(node.body);
    const made = makesOf(node.body);
    for (let i = 0; i < node.times; i++, first += each) {
      const inHand = at >= first && at < first + each;
      if (!inHand) items.push(stretch(first, each, made));
      else if (made <= SINGLE_MARKS) items.push(...single(node.body, first));
      else items.push(...spread(node.body, first, at));
    }
  }
  return items;
}

/** The items of a course while the next step is `at`: every stitch, or stretches with the part in hand spread out. */
export function itemsOf(body: readonly Node[], at: number, most = SINGLE_MARKS): Item[] {
  if (makesOf(body) <= most && lengthOf(body) <= 2 * most) return single(body, 0);
  return spread(body, 0, at);
}

/** Room an item asks for along the course, in stitches. */
export function room(item: Item): number {
  if (item.type === "stretch") return Math.max(item.stitches, item.steps * 0.5, 0.5);
  if (item.tips === 0) return item.feet > 0 ? 0.6 : 0.8;
  return item.feet > item.tips ? item.tips + 0.4 * (item.feet - item.tips) : item.tips;
}

export type Shape = "plain" | "fork" | "meet" | "chain" | "action" | "skip";

/** Increases fork, decreases meet, chains are hollow ovals, actions (ring, join, turn) a small square knot. */
export function shapeOf(mark: Mark): Shape {
  if (mark.tips > mark.feet && mark.feet > 0) return "fork";
  if (mark.feet > mark.tips && mark.tips > 0) return "meet";
  if (mark.tips > 0) return mark.tips > 1 ? "fork" : "plain";
  if (mark.steps === 0) return "skip";
  return mark.group.stitch === "ch" ? "chain" : "action";
}

/** How many of a mark's legs are worked once `done` steps of the course are: an `inc` half made has one of two. */
export function legsWorked(mark: Mark, done: number): number {
  const legs = Math.max(1, mark.tips, mark.feet);
  if (mark.feet > mark.tips) return done >= mark.first + mark.steps ? legs : 0;
  if (mark.steps === 0) return done > mark.first ? legs : 0;
  return Math.max(0, Math.min(legs, Math.floor(((done - mark.first) * legs) / mark.steps)));
}

/** How a course begins in the middle: by a ring drawn shut, or by a chain that is worked round. */
export interface Core {
  kind: "ring" | "chain" | "rounds";
  /** Steps of the beginning; the course's stitches start behind them. */
  steps: number;
}

export function coreOf(body: readonly Node[]): Core {
  const [first] = body;
  // "Sc in 2nd ch from hook": the chain was made before this course.
  if (first?.type === "group" && first.into && /\bch\b.*\bhook\b/.test(first.into)) return { kind: "chain", steps: 0 };
  if (first?.type !== "group" || first.makes !== 0) return { kind: "rounds", steps: 0 };
  const steps = first.count * first.steps;
  if (first.stitch === "ring") return { kind: "ring", steps };
  // A chain or two before a round is its height, not its middle.
  if (first.stitch === "ch" && first.count > 3) return { kind: "chain", steps };
  return { kind: "rounds", steps: 0 };
}
