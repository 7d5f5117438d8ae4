import type { StrandCourse } from "../generated/pattern";
import { coreOf, itemsOf, lengthOf, makesOf } from "./marks";
import { type Hand, type Point, point } from "./ring";

/**
 * What a round lies on: the rounds below it. `spiral`: they run on into one another, else each is a closed ring.
 * `oval`: the piece began on both sides of a chain.
 */
export interface Ground {
  spiral: boolean;
  oval: Oval | null;
}

/** A chain worked along both sides, as its first round shares it out: stitches along a side, round each end, before the first end. */
export interface Oval {
  side: number;
  /** Of the stitches round both ends, the part that lies round the far end. */
  far: number;
  /** Of the stitches round the near end, the part worked first, before the long side. */
  first: number;
}

export function groundOf(courses: readonly StrandCourse[], index: number): Ground {
  const course = courses[index];
  const start = courses[0];
  const chain = courses.find((c) => c.makes !== 0);
  const oval = chain?.kind === "round" && course?.kind === "round" && begunOnChain(start, chain) ? ovalOf(chain) : null;
  return { spiral: (courses[index - 1] ?? course)?.spiral ?? false, oval };
}

const begunOnChain = (start: StrandCourse | undefined, first: StrandCourse): boolean =>
  coreOf(first.body).kind === "chain" || (start !== undefined && start !== first && start.makes === 0 && coreOf(start.body).kind === "chain");

/** Where the ends of the chain lie in its first round: at the first place where several stitches go into one link, and at the start. */
export function ovalOf(course: StrandCourse): Oval {
  const { steps } = coreOf(course.body);
  const all = makesOf(course.body);
  let before = 0;
  let far = 0;
  for (const item of itemsOf(course.body, 0, Number.POSITIVE_INFINITY)) {
    if (item.type !== "mark" || item.first < steps) continue;
    if (item.tips > 1 && before > 1) {
      far = item.tips;
      break;
    }
    before += item.tips;
  }
  // Without an increase at the far end each end has three, as is usual (common practice, no source).
  if (far === 0) return { side: Math.max(1, Math.floor((all - 6) / 2)), far: 0.5, first: 1 / 3 };
  const side = Math.max(1, before - 1);
  const near = Math.max(1, all - 2 * side - far);
  return { side, far: far / (far + near), first: 1 / near };
}

/** A point of the course: `along` from 0 at its start to a whole turn, the way the work runs; `out` away from the middle. */
export type Way = (along: number, out: number) => Point;

/** Half the length of the chain in the middle of an oval, and how much nearer to it everything lies than in a round. */
export const HALF = 34;
const SQUEEZE = 0.66;
const TURN = 2 * Math.PI;

export const circleWay = (hand: Hand): Way => (along, out) => point(along, out, hand);

/**
 * Round a chain that lies across: up round its near end, along its upper side to the far end and back below, so that a
 * right-handed maker's work runs anticlockwise seen from outside. Increases lie round the ends; the sides stay as long
 * as the chain is, however large the round has grown.
 */
export function ovalWay(oval: Oval, stitches: number, hand: Hand): Way {
  const ends = Math.max(2, stitches - 2 * oval.side);
  const far = ends * oval.far;
  const near = ends - far;
  const first = near * oval.first;
  const side = Math.max(0, (stitches - ends) / 2);
  const mirror = hand === "right" ? 1 : -1;
  return (along, out) => {
    const r = out * SQUEEZE;
    let left = (Math.min(TURN, Math.max(0, along)) / TURN) * (2 * side + ends);
    const round = (x: number, angle: number): Point => ({ x: mirror * (x + Math.cos(angle) * r), y: -Math.sin(angle) * r });
    const begin = Math.PI * (0.5 - oval.first);
    if (left <= first) return round(HALF, begin + Math.PI * oval.first * (first > 0 ? left / first : 0));
    left -= first;
    if (left <= side) return { x: mirror * (HALF - 2 * HALF * (left / side)), y: -r };
    left -= side;
    if (left <= far) return round(-HALF, Math.PI * (0.5 + (far > 0 ? left / far : 0)));
    left -= far;
    if (left <= side) return { x: mirror * (2 * HALF * (left / side) - HALF), y: r };
    left -= side;
    const rest = near - first;
    return round(HALF, -Math.PI / 2 + Math.PI * (1 - oval.first) * (rest > 0 ? Math.min(1, left / rest) : 1));
  };
}

/** A line along the course from one place to another, at one distance from the middle. */
export function lineAlong(way: Way, from: number, to: number, out: number): string {
  const pieces = Math.max(2, Math.ceil(Math.abs(to - from) / 0.06));
  return `M${Array.from({ length: pieces + 1 }, (_, i) => {
    const p = way(from + ((to - from) * i) / pieces, out);
    return `${p.x.toFixed(1)} ${p.y.toFixed(1)}`;
  }).join("L")}`;
}

/** How many steps of a body are its foundation chain, while only that is worked. */
export const chainSteps = (course: StrandCourse): number => {
  const core = coreOf(course.body);
  if (course.makes === 0 && course.body.length === 1 && course.body[0]?.type === "group" && course.body[0].stitch === "ch") return lengthOf(course.body);
  return core.kind === "chain" ? core.steps : 0;
};
