import type { Counting, Style } from "../../../hands/ear/events";
import { lengthOf, locate, offsetIn, reach, stepOf, type Turn } from "../../../follow/place";
import type { Node, Strand, StrandCourse } from "../../../generated/pattern";
import { stepAtStitch } from "../ways";

/**
 * Counting aloud. A number is the stitches made in the part that is counted from one: this turn of the repeat, the
 * whole round, or this group. An increase is two of them, said as "five, six" or by its word; a decrease is one. Only
 * where a part is nothing but increases is each of them counted once, except through the round.
 */
interface Part {
  /** Stitches of the course made before this part, and with it. */
  from: number;
  to: number;
  /** Stitches for each number. */
  each: number;
}

const ANEW = 3; // numbers of the following part that can be said already
const SLACK = 2; // a part with no more left than this may have been finished without a number

/** Stitches made before a step of the body; in a foundation chain, which makes none, its chains. */
function madeBefore(course: StrandCourse, offset: number): number {
  if (!course.makes) return offset;
  return reach(course.body, offset)?.made ?? course.makes;
}

const allOf = (course: StrandCourse): number => course.makes || lengthOf(course.body);

function partAt(course: StrandCourse, offset: number, style: Style): Part | null {
  if (style === "round") return { from: 0, to: allOf(course), each: 1 };
  const found = reach(course.body, offset);
  if (!found) return null;
  let [start, end] = [found.start, found.start + lengthOf([found.group])];
  const alone = found.turn === null || (found.turn[0] === start && found.turn[1] === end);
  if (found.turn && alone) {
    // A repeat of one group and nothing else is counted from its first turn to its last.
    const turn = end - start;
    const { i, n } = found.turns.at(-1) as Turn;
    [start, end] = [start - (i - 1) * turn, start + (n - i + 1) * turn];
  } else if (found.turn && style === "repeat") [start, end] = found.turn;
  const each = alone || style === "group" ? Math.max(1, found.group.makes) : 1;
  return { from: madeBefore(course, start), to: madeBefore(course, end), each };
}

/** The part in hand, passing what makes nothing: a turning chain has no number. */
function partInHand(strand: Strand, course: StrandCourse, at: number, style: Style): { part: Part; here: number } | null {
  let offset = offsetIn(strand, course, at);
  let part = partAt(course, offset, style);
  while (part && part.to === part.from) {
    offset += 1;
    part = partAt(course, offset, style);
  }
  return part && { part, here: madeBefore(course, offset) };
}

/** What can be counted from here; null where nothing can. */
export function countingAt(strand: Strand, at: number, style: Style): Counting | null {
  const { course: index } = locate(strand, at);
  const course = index === null ? undefined : strand.courses[index];
  if (!course?.read) return null;
  const found = partInHand(strand, course, at, style);
  if (!found) return null;
  const { part, here } = found;
  const next: number[] = [];
  const done = Math.floor((here - part.from) / part.each);
  for (let n = done + 1; n <= (part.to - part.from) / part.each; n += 1) next.push(n);
  for (let n = 1; n <= ANEW; n += 1) next.push(n);
  return { style, next, left: allOf(course) - here, words: { inc: holds(course.body, 1), dec: holds(course.body, -1) } };
}

/**
 * Where a counted number leads: a step ahead of the place; null where it moves nothing. `whole`: it was said by the
 * word for an increase, so that both of its stitches are made.
 */
export function stepCounted(strand: Strand, at: number, style: Style, number: number, whole = false): number | null {
  const { course: index } = locate(strand, at);
  const course = index === null ? undefined : strand.courses[index];
  const found = course?.read ? partInHand(strand, course, at, style) : null;
  if (!course || !found || number < 1) return null;
  const { part, here } = found;
  let made = part.from + number * part.each;
  if (made <= here) {
    // A number that was said before: the count begins anew in the following part, or it only says itself again.
    if (number > ANEW || part.to - here > SLACK) return null;
    made = part.to + number;
  }
  if (whole) made = endOfIncrease(course, made);
  const over = made - allOf(course);
  const behind = strand.courses[(index ?? 0) + 1];
  if (over > 0 && part.to === allOf(course) && made - part.to <= ANEW && behind?.read) return stepMade(strand, behind, over);
  return stepMade(strand, course, Math.min(made, allOf(course)));
}

/** So many stitches, and where that is in the middle of an increase, all of it. */
function endOfIncrease(course: StrandCourse, made: number): number {
  for (let offset = 0; ; ) {
    const found = reach(course.body, offset);
    if (!found) return made;
    const { steps, makes } = found.group;
    const end = madeBefore(course, offset + steps);
    if (end >= made) return makes > 1 ? end : made;
    offset += steps;
  }
}

/** The step before which so many stitches of a course are made; all of them: behind what closes it. */
function stepMade(strand: Strand, course: StrandCourse, made: number): number {
  if (made >= allOf(course)) return course.end;
  return course.makes ? stepAtStitch(strand, course, made) : stepOf(strand, course, made);
}

const holds = (body: readonly Node[], way: 1 | -1): boolean =>
  body.some((node) => (node.type === "repeat" ? holds(node.body, way) : node.uses > 0 && Math.sign(node.makes - node.uses) === way));
