// Where the hook is: one integer, read against its strand. Twin of server/hookside/follow/place.py; both are held
// to the same vectors. Only the course in hand is ever looked into; courses and cues are found by bisection.
import type { Group, Node, Strand, StrandCourse, StrandCue } from "../generated/pattern";

/** One time through a repeat: "repeat 3 of 7". `i` counts from 1. */
export interface Turn {
  i: number;
  n: number;
}

/** The next stop or pause, and how far it is: courses still to complete and stitches still to make before it is due. */
export interface Ahead {
  address: string;
  step: number;
  distance_courses: number;
  distance_stitches: number;
}

/** A place in the words a screen needs. */
export interface Spot {
  /** Index of the course in hand; between courses the next one; null past the last. */
  course: number | null;
  /** Stitches made so far in that course. */
  stitch: number;
  /** Stitches it makes; null where that is not known. */
  of: number | null;
  /** The turn of the innermost repeat that holds the next stitch. */
  repeat: Turn | null;
  /** The turns of all repeats that hold it, outermost first. */
  repeats: Turn[];
  /** Where the group in hand stands: an index into the course's body, then into each repeat's on the way down. */
  path: number[];
  /**
   * The group the next stitch belongs to; null in an unread course and behind a course's last stitch. While the course
   * is still being led into (`lead`), its first real one.
   */
  group: Group | null;
  group_step: number;
  group_length: number;
  /** What leads into the course and is still to be done, in order: "ch 1", "turn". */
  lead: Group[];
  /** What goes with the group in hand once it is done, where that is the course's last: "join". */
  trail: Group[];
  cue: StrandCue | null;
  /** The place rests on a course that could not be read. */
  unread: boolean;
  next_cue: Ahead | null;
  finished: boolean;
}

/** A step of a body, found. Offsets count steps of the body from 0. */
export interface Reach {
  path: number[];
  turns: Turn[];
  group: Group;
  /** Offset of the group occurrence in hand. */
  start: number;
  /** Stitches of the body made before this step. */
  made: number;
  /** Offsets where the turn in hand of the innermost repeat begins and ends. */
  turn: [number, number] | null;
}

/** Worked out once per strand: one entry for each course or cue, never one for each step. */
interface Index {
  cueSteps: number[];
  courseEnds: number[];
  cueAt: Map<number, StrandCue>;
  unreadAt: Map<number, StrandCourse>;
  /** Every step nothing may pass unseen, ascending: stops, pauses, unread courses. */
  halts: number[];
  /** The stops and pauses, in order of step, and their steps. */
  loud: StrandCue[];
  loudSteps: number[];
  /** Stitches made by all courses before each course, and by all of them at the end. */
  madeBefore: number[];
}

const indexes = new WeakMap<Strand, Index>();

export function indexOf(strand: Strand): Index {
  const known = indexes.get(strand);
  if (known) return known;
  const cueAt = new Map(strand.cues.map((cue) => [cue.step, cue]));
  const unreadAt = new Map<number, StrandCourse>();
  const madeBefore = [0];
  let total = 0;
  for (const course of strand.courses) {
    if (course.read) total += makesOf(course.body);
    else {
      let step = course.first;
      while (cueAt.has(step)) step += 1;
      unreadAt.set(step, course);
    }
    madeBefore.push(total);
  }
  const loud = strand.cues.filter((cue) => cue.weight !== "whisper");
  const loudSteps = loud.map((cue) => cue.step);
  const index: Index = {
    cueSteps: strand.cues.map((cue) => cue.step),
    courseEnds: strand.courses.map((course) => course.end),
    cueAt,
    unreadAt,
    halts: [...loudSteps, ...unreadAt.keys()].sort((a, b) => a - b),
    loud,
    loudSteps,
    madeBefore,
  };
  indexes.set(strand, index);
  return index;
}

/** How many of the ascending `steps` are below `step`. */
export function below(steps: number[], step: number): number {
  let low = 0;
  let high = steps.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((steps[middle] as number) < step) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Steps in a body. */
export function lengthOf(body: Node[]): number {
  let sum = 0;
  for (const node of body) sum += node.type === "group" ? node.count * node.steps : node.times * lengthOf(node.body);
  return sum;
}

/** Stitches a body makes. */
export function makesOf(body: Node[]): number {
  let sum = 0;
  for (const node of body) sum += node.type === "group" ? node.count * node.makes : node.times * makesOf(node.body);
  return sum;
}

/** Find step `offset` of a body; null at or past its end. Repeats are counted through, never unrolled. */
export function reach(body: Node[], offset: number): Reach | null {
  let nodes = body;
  let base = 0;
  let made = 0;
  const path: number[] = [];
  const turns: Turn[] = [];
  let turn: [number, number] | null = null;
  for (;;) {
    let index = 0;
    let node: Node | undefined;
    for (; index < nodes.length; index += 1) {
      const next = nodes[index] as Node;
      const size = lengthOf([next]);
      if (offset < base + size) {
        node = next;
        break;
      }
      base += size;
      made += makesOf([next]);
    }
    if (!node) return null;
    path.push(index);
    if (node.type === "group") {
      made += madeInGroup(node, offset - base);
      return { path, turns, group: node, start: base, made, turn };
    }
    const one = lengthOf(node.body);
    const gone = offset - base;
    const times = (gone - (gone % one)) / one;
    base += times * one;
    made += times * makesOf(node.body);
    turns.push({ i: times + 1, n: node.times });
    turn = [base, base + one];
    nodes = node.body;
  }
}

/** Stitches made by the first `steps` steps of a group. An increase makes one with each of its steps. */
function madeInGroup(group: Group, steps: number): number {
  const rest = steps % group.steps;
  return ((steps - rest) / group.steps) * group.makes + Math.min(rest, group.makes);
}

/**
 * Where a course's own stitches begin and end, in steps of its body. What stands before is a turning or starting chain:
 * nobody counts it, so it goes with the first unit. A foundation chain does not lead in: there is nothing below it, and
 * it is work of its own. What stands behind closes the course and goes with the last unit.
 */
export function edges(course: StrandCourse): [number, number] {
  const { body } = course;
  const end = lengthOf(body);
  if (makesOf(body) === 0) return [0, end];
  return [course.uses ? lengthOf(leading(body)) : 0, end - lengthOf(closing(body))];
}

/** Chains that make nothing and actions at the very beginning of a body. */
function leading(body: Node[]): Group[] {
  const found: Group[] = [];
  for (const node of withSteps(body)) {
    if (node.type !== "group" || node.makes > 0 || !["ch", "turn", "join"].includes(node.stitch)) break;
    found.push(node);
  }
  return found;
}

/** Joins and turns at the very end of a body, with a chain before a turn or last of all behind a join. */
function closing(body: Node[]): Group[] {
  const found: Group[] = [];
  const nodes = withSteps(body);
  for (let index = nodes.length - 1; index >= 0; index -= 1) {
    const node = nodes[index] as Node;
    if (node.type !== "group" || node.makes > 0) break;
    if (node.stitch === "ch") {
      const before = nodes[index - 1];
      const joined = found.length === 0 && before?.type === "group" && before.stitch === "join";
      if (!joined && found[0]?.stitch !== "turn") break;
    } else if (node.stitch !== "turn" && node.stitch !== "join") break;
    found.unshift(node);
  }
  return found;
}

/** A body without what the hands only pass over: skipped stitches. */
const withSteps = (body: Node[]): Node[] => body.filter((node) => lengthOf([node]) > 0);

/** How many courses lie wholly behind a place. */
export function coursesDone(strand: Strand, at: number): number {
  return below(indexOf(strand).courseEnds, at + 1);
}

/** Index of the course in hand at `at`; between courses the next one; null past the last. */
export function courseAt(strand: Strand, at: number): number | null {
  const index = coursesDone(strand, at);
  return index < strand.courses.length ? index : null;
}

/** Steps of the course's body that lie behind a place; cues inside the course are not counted. */
export function offsetIn(strand: Strand, course: StrandCourse, at: number): number {
  if (at <= course.first) return 0;
  const { cueSteps } = indexOf(strand);
  return at - course.first - (below(cueSteps, at) - below(cueSteps, course.first));
}

/** The strand's step for step `offset` of the course's body: the reverse of `offsetIn`. */
export function stepOf(strand: Strand, course: StrandCourse, offset: number): number {
  const { cueSteps } = indexOf(strand);
  let step = course.first + offset;
  for (let i = below(cueSteps, course.first); i < cueSteps.length && (cueSteps[i] as number) <= step; i += 1) step += 1;
  return step;
}

function stitchIn(strand: Strand, course: StrandCourse, at: number): number {
  if (!course.read) return 0;
  return reach(course.body, offsetIn(strand, course, at))?.made ?? makesOf(course.body);
}

/** Stitches made from the strand's start up to a place. Unread courses count as 0. */
export function stitchesBefore(strand: Strand, at: number): number {
  const { madeBefore } = indexOf(strand);
  const index = coursesDone(strand, at);
  const course = strand.courses[index];
  return (madeBefore[index] as number) + (course ? stitchIn(strand, course, at) : 0);
}

/** Stitches made on the way from one place to a later one: what ripping back undoes. */
export function stitchesBetween(strand: Strand, start: number, end: number): number {
  return stitchesBefore(strand, end) - stitchesBefore(strand, start);
}

/** Whether the place rests on something that waits: a stop, a pause, an unread course. */
export function rests(strand: Strand, at: number): boolean {
  const { halts } = indexOf(strand);
  return halts[below(halts, at)] === at;
}

/** Past the whispers that stand at `at`: where it comes to rest, and their addresses. */
export function slide(strand: Strand, at: number): { to: number; passed: string[] } {
  const { cueAt } = indexOf(strand);
  const passed: string[] = [];
  let to = at;
  for (let cue = cueAt.get(to); cue?.weight === "whisper"; cue = cueAt.get(to)) {
    passed.push(cue.address);
    to += 1;
  }
  return { to, passed };
}

/** The cues on steps start to end - 1: what a way forward passes, what ripping back opens again. */
export function cuesBetween(strand: Strand, start: number, end: number): StrandCue[] {
  const { cueSteps } = indexOf(strand);
  return strand.cues.slice(below(cueSteps, start), below(cueSteps, end));
}

/** The next stop or pause past `at`, whispers and unread courses left out. */
export function nextCue(strand: Strand, at: number): Ahead | null {
  const { loud, loudSteps } = indexOf(strand);
  const cue = loud[below(loudSteps, at + 1)];
  if (!cue) return null;
  return {
    address: cue.address,
    step: cue.step,
    distance_courses: coursesDone(strand, cue.step) - coursesDone(strand, at),
    distance_stitches: stitchesBetween(strand, at, cue.step),
  };
}

/** A place in words: course, stitch, repeat, group, cue. */
export function locate(strand: Strand, at: number): Spot {
  const { cueAt, unreadAt } = indexOf(strand);
  const index = courseAt(strand, at);
  const course = index === null ? undefined : (strand.courses[index] as StrandCourse);
  const offset = course ? offsetIn(strand, course, at) : 0;
  const [begin, end] = course?.read ? edges(course) : [0, 0];
  const here = Math.max(offset, begin);
  const found = course?.read ? reach(course.body, here) : null;
  const lead: Group[] = [];
  let gone = 0;
  for (const group of course && begin > 0 ? leading(course.body) : []) {
    gone += lengthOf([group]);
    if (gone > offset) lead.push(group);
  }
  const last = found !== null && found.start + lengthOf([found.group]) === end;
  return {
    course: index,
    stitch: course ? stitchIn(strand, course, at) : 0,
    of: course ? course.makes : null,
    repeat: found?.turns.at(-1) ?? null,
    repeats: found?.turns ?? [],
    path: found?.path ?? [],
    group: found?.group ?? null,
    group_step: found ? here - found.start : 0,
    group_length: found ? lengthOf([found.group]) : 0,
    lead,
    trail: last && course && makesOf(course.body) > 0 ? closing(course.body) : [],
    cue: cueAt.get(at) ?? null,
    unread: unreadAt.has(at),
    next_cue: nextCue(strand, at),
    finished: at === strand.length,
  };
}
