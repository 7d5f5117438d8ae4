import type { Course, Group, Node, StrandCourse } from "../../generated/pattern";
import { SYMBOLS } from "../../generated/stitches";
import { type Hand, point } from "../ring";
import { type Middle, middleOf } from "./middle";

/**
 * A piece as a chart: each stitch of each course where it stands on the course below.
 *
 * Rounds lie round their start, as seen from outside; rows lie one above another and turn. One unit is the height of a
 * single crochet. A stitch with several feet is worked into several stitches, one with several tips makes several.
 */
export interface At {
  x: number;
  y: number;
}

export interface Placed {
  symbol: string;
  loops: "back" | "front" | null;
  feet: At[];
  tips: At[];
  /** The course, by its place in the piece, and the steps of its body that are worked before and with this stitch. */
  course: number;
  first: number;
  end: number;
  colour: string | null;
}

export interface Chart {
  kind: "round" | "row";
  /** What the first round is worked into; of rows nothing. */
  middle: Middle | null;
  stitches: Placed[];
  /** The number of each course, at its start. */
  labels: { text: string; at: At }[];
  /** Half of the drawing's width and height. */
  half: At;
  /** Courses that are not drawn, because the chart would be too crowded to read. */
  left: number;
}

/** So many stitches still can be told apart on a page. */
export const MOST = 1200;
const APART = 0.25; // between one course and the next

type Drawn = Pick<Course | StrandCourse, "kind" | "label" | "body" | "read" | "makes">;

export function layChart(courses: readonly Drawn[], hand: Hand): Chart {
  const kind = courses.some((c) => c.kind === "round") ? "round" : "row";
  const stitches: Placed[] = [];
  const labels: Chart["labels"] = [];
  let below: At[] = [];
  let angles: number[] = [];
  const begun = kind === "round" ? middleOf(courses.find((c) => c.read && makesAny(c.body)), hand) : null;
  let out = begun?.radius ?? 1.1;
  let left = 0;
  for (const [index, course] of courses.entries()) {
    const parts = course.read ? flat(course.body) : [];
    const makes = parts.reduce((n, p) => n + (p.group.stitch === "ch" ? 0 : p.group.makes), 0);
    if (stitches.length + parts.length > MOST) {
      left = courses.length - index;
      break;
    }
    if (makes === 0) continue;
    const tall = Math.max(1, ...parts.map((p) => height(p.group)));
    const from = out + APART;
    out = from + tall;
    const turned = kind === "row" && index % 2 === 1;
    const feetOf = feet(parts, below.length);
    const offset = kind === "round" ? drift(parts, feetOf, angles, makes) : 0;
    const spot = (i: number, high: number): At =>
      kind === "round"
        ? point(turn((i + 0.5) / makes) + offset, high, hand)
        : { x: ((turned ? makes - 1 - i : i) - (makes - 1) / 2) * (hand === "right" ? -1 : 1), y: -high };
    const next: At[] = [];
    const nextAngles: number[] = [];
    let made = 0;
    for (const [n, part] of parts.entries()) {
      const { group } = part;
      if (group.stitch === "ch" || group.steps === 0 || (group.makes === 0 && group.uses === 0)) continue;
      const tips = Array.from({ length: group.makes }, (_, i) => spot(made + i, from + height(group)));
      for (let i = 0; i < group.makes; i++) nextAngles.push(turn((made + i + 0.5) / makes) + offset);
      const [first, count] = feetOf[n] ?? [0, 0];
      const on = Array.from({ length: count }, (_, i) => below[first + i]).filter((at): at is At => at !== undefined);
      const ground = on.length > 0 ? on : [spot(made + (group.makes - 1) / 2, from - APART)];
      stitches.push({
        symbol: SYMBOLS[group.stitch]?.[0] ?? "cross",
        loops: group.loops,
        feet: ground,
        tips: tips.length > 0 ? tips : [spot(made, from + 0.4)],
        course: index,
        first: part.first,
        end: part.first + group.steps,
        colour: group.colour,
      });
      next.push(...tips);
      made += group.makes;
    }
    labels.push({ text: course.label, at: kind === "round" ? point(offset, from + tall / 2, hand) : label(turned, makes, hand, from + tall / 2) });
    below = kind === "row" ? [...next].reverse() : next;
    angles = nextAngles;
  }
  const all = [...stitches.flatMap((s) => [...s.tips, ...s.feet]), ...labels.map((l) => l.at)];
  const half = {
    x: Math.max(2, ...all.map((at) => Math.abs(at.x))) + 1.6,
    y: Math.max(2, ...all.map((at) => Math.abs(at.y))) + 1,
  };
  return { kind, middle: begun?.middle ?? null, stitches, labels, half, left };
}

const label = (turned: boolean, makes: number, hand: Hand, high: number): At => {
  const right = hand === "right" ? !turned : turned;
  return { x: (right ? 1 : -1) * (makes / 2 + 0.9), y: -high };
};

const makesAny = (body: readonly Node[]): boolean => body.some((node) => (node.type === "group" ? node.makes > 0 && node.stitch !== "ch" : makesAny(node.body)));

const turn = (share: number): number => 2 * Math.PI * share;

const height = (group: Group): number => Math.max(0.5, SYMBOLS[group.stitch]?.[1] ?? 1);

interface Part {
  group: Group;
  first: number;
}

function flat(body: readonly Node[], start = 0): Part[] {
  const parts: Part[] = [];
  let first = start;
  for (const node of body) {
    const times = node.type === "group" ? node.count : node.times;
    for (let i = 0; i < times; i++) {
      if (node.type === "group") {
        parts.push({ group: node, first });
        first += node.steps;
      } else {
        const inner = flat(node.body, first);
        parts.push(...inner);
        first = inner.reduce((end, p) => Math.max(end, p.first + p.group.steps), first);
      }
    }
  }
  return parts;
}

/** For each part the stitches below that it is worked into: the first, and how many. */
function feet(parts: readonly Part[], below: number): [number, number][] {
  let used = 0;
  return parts.map(({ group }) => {
    const at: [number, number] = [Math.min(used, Math.max(0, below - 1)), Math.max(group.uses, below > 0 && group.makes > 0 ? 1 : 0)];
    if (group.uses === 0 && group.into !== null) at[0] = Math.max(0, used - 1);
    used += group.uses;
    return at;
  });
}

/** How far a round is turned so that its stitches stand, on the whole, over those they are worked into. */
function drift(parts: readonly Part[], feetOf: readonly [number, number][], angles: readonly number[], makes: number): number {
  if (angles.length === 0) return 0;
  let sin = 0;
  let cos = 0;
  let made = 0;
  for (const [n, { group }] of parts.entries()) {
    if (group.stitch === "ch") continue;
    const [first, count] = feetOf[n] ?? [0, 0];
    const on = angles.slice(first, first + count);
    if (group.makes > 0 && on.length > 0) {
      const parent = on.reduce((sum, a) => sum + a, 0) / on.length;
      const own = turn((made + group.makes / 2) / makes);
      sin += Math.sin(parent - own);
      cos += Math.cos(parent - own);
    }
    made += group.makes;
  }
  return Math.atan2(sin, cos);
}
