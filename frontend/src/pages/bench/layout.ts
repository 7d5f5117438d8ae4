import { lengthOf } from "../../drawings/marks";
import { locate, stepOf } from "../../follow/place";
import type { Strand, StrandCourse } from "../../generated/pattern";
import type { Box } from "./box";
import { CAP, FAR_CAP, lines, type Measure, type Opened, SENTENCE_LINE, type Sizes, solve } from "./fit";
import { plainRun, widestPlace } from "./place";
import type { Seen } from "./seen";
import { type Fullness, openedOut, turnsOf, unbroken } from "./sentence";
import { ended, endings } from "./yarn";

/** Heights that hold still, in px; bench.css has the same numbers. */
export const HEAD = 48;
export const LAST = 60;
export const FOOT = 56;
export const PAD = 14;
export const CAPTION = 20;
const GAPS = 38;
/** A row's drawing is this much wider than tall. */
export const ROW_WIDE = 320 / 112;

export interface Plan extends Sizes {
  columns: 1 | 2;
  width: number;
  scale: number;
  /** Size of the small words beside the drawing. */
  side: number;
  /** Size of what is needed from afar beside it. */
  far: number;
  /** Height of the drawing's part of the screen, on one column. */
  drawn: number;
}

/** Every state the opened repeat can have during a course, once each. */
export function openedStates(strand: Strand, course: StrandCourse, fullness: Fullness): Opened[][] {
  const states = new Map<string, Opened[]>();
  for (const [at, ending] of [...turnsOf(course.body).map((turn) => [turn, null] as const), ...endings(strand, course)]) {
    const parts = ended(openedOut(course, at, fullness), ending);
    const key = parts.map((p) => `${p.state === "hand" ? "*" : ""}${p.lead}|${p.head}|${p.tail}|${p.then}`).join("/");
    if (!states.has(key)) states.set(key, parts.map((p) => ({ ...p, hand: p.state === "hand" })));
  }
  return [...states.values()];
}

/** Sizes wanted for what must be read from afar beside the drawing, the largest first; the least is that of small words. */
const FAR = [48, 42, 36, 31, 26];

export interface Beside {
  /** "Round 10 made 36": read once, may be small. */
  small: readonly string[];
  /** What is said in passing during the course, "" for nothing: it stands in the room of the drawing. */
  passing: string;
  /** "in 4 rounds: stuff": needed from afar, the longest there is in the course. */
  far: string;
}

const plans = new Map<string, Plan>();
const PLANS = 60;

/**
 * Sizes for a course on a screen: the same from its first stitch to its last, so that nothing moves while it is worked.
 * Figures are all of one width, so courses that differ in figures alone have one plan: a run of plain rounds costs one.
 */
export function planFor(seen: Seen, sentence: string, fullness: Fullness, box: Box, beside: Beside, font: number, measure: Measure): Plan {
  const opened = seen.course ? openedStates(seen.strand, seen.course, fullness) : [];
  const { course, strand } = seen;
  const middle = course?.read ? locate(strand, stepOf(strand, course, Math.floor(lengthOf(course.body) / 2))) : seen.spot;
  const deepest = middle.repeats.length >= seen.spot.repeats.length ? middle : seen.spot;
  const place = course ? widestPlace(deepest, course) : [];
  const said = JSON.stringify([sentence, opened, place, beside]).replaceAll(/\d/g, "0");
  const alike = `${said} ${course?.kind} ${course && plainRun(course) !== null} ${box.width} ${box.height} ${font}`;
  const before = plans.get(alike);
  if (before) return before;
  const plan = freshPlan(course, sentence, opened, place, box, beside, measure);
  if (plans.size >= PLANS) plans.clear();
  plans.set(alike, plan);
  return plan;
}

function freshPlan(
  course: StrandCourse | undefined,
  sentence: string,
  opened: Opened[][],
  place: string[],
  box: Box,
  beside: Beside,
  measure: Measure,
): Plan {
  const columns = box.width >= 640 && box.width > box.height * 1.1 ? 2 : 1;
  const width = (columns === 2 ? Math.round(box.width * 0.6) : box.width) - 2 * PAD;
  const scale = Math.max(1, Math.min(width / 362, box.height / (columns === 2 ? 560 : 800)) ** 0.85);
  const side = Math.round(Math.min(32, 20 * scale));
  const row = course?.kind === "row";
  const small = (room: number) => beside.small.reduce((sum, text) => sum + (lines(text, side, room, measure) * 1.25 + 0.4) * side, 0);
  const near = (room: number, far: number) =>
    small(room) + (beside.far ? lines(beside.far, far, room, measure) * far * 1.15 + side * 0.4 : 0);
  const most = row ? width / ROW_WIDE : Math.min(width * 0.48, 420);
  const run = course && plainRun(course);
  const fixed = HEAD + FOOT + GAPS + (run ? side * 1.5 : 0) + (columns === 2 ? 0 : LAST);
  const drawnAt = (far: number) => (ring: number) => {
    if (columns === 2) return 0;
    if (!course) return near(width, far);
    const passing = beside.passing ? passed(beside.passing, far * 0.92, width, measure) + side * 2 : 0;
    return Math.max(passing, row ? ring + CAPTION + 8 + near(width, far) : Math.max(ring + CAPTION, near(width - ring - 14, far)));
  };
  const solved = (far: number) =>
    solve(
      {
        width,
        height: box.height,
        sentence: unbroken(sentence),
        opened,
        place,
        fixed,
        drawn: drawnAt(far),
        ring: columns === 2 || !course ? [0, 0] : [Math.min(most, row ? Math.max(90, width * 0.16) : Math.max(124, Math.min(220, width * 0.4))), most],
        scale,
      },
      measure,
    );
  // What comes gives way before the sentence and the stitch in hand do, and after the drawing.
  let far = FAR[0] ?? side;
  let sizes = solved(far * scale);
  const whole = solved(side);
  for (const next of [...FAR.slice(1), side / scale]) {
    if (sizes.fits && sizes.hand >= whole.hand - 1 && sizes.sentence >= whole.sentence - 3) break;
    far = next;
    sizes = solved(far * scale);
  }
  const drawn = columns === 2 || !course ? 0 : drawnAt(far * scale)(sizes.ring);
  return { ...sizes, columns, width, scale, side, far: Math.max(side, Math.round(far * scale)), drawn };
}

/** Room beside or below the drawing, with the drawing as it is planned. */
const beside = (plan: Plan, row: boolean, drawn: boolean) =>
  plan.columns === 2 ? { width: plan.width * 0.6, height: Number.POSITIVE_INFINITY } : row || !drawn
    ? { width: plan.width, height: Number.POSITIVE_INFINITY }
    : { width: plan.width - plan.ring - 14, height: plan.ring + CAPTION };

/** The size at which what comes stands: as planned, less where a word of it is too wide or it would be too tall. */
export function farSize(text: string, plan: Plan, row: boolean, drawn: boolean, measure: Measure): number {
  const room = beside(plan, row, drawn);
  const widest = Math.max(0.1, ...text.split(" ").map((w) => measure(w, false)));
  let size = Math.min(plan.far, room.width / widest);
  while (size > plan.side && lines(text, size, room.width, measure) * size * 1.15 > room.height - 2.6 * plan.side) size -= 1;
  return size;
}

/** Height of a line said in passing; its mark stands before it. */
const passed = (text: string, size: number, width: number, measure: Measure) =>
  lines(text, size, width - size, measure) * size * 1.15;

/** The sizes of what is said in passing, and whether the lines of the place give way to it. */
export interface Spoken {
  /** What the hands do now, for a metre away. */
  large: number;
  /** Words for first times, and offers. */
  small: number;
  bare: boolean;
  /** Whether all of it has room even so. */
  fits: boolean;
}

/**
 * What is said in passing has the drawing's room. Where that is too little for a metre, the place's lines give way as
 * well at a course's start: they say there what the sentence says. `place`: these; [] where they have to stay. `below`: px that stand below it.
 */
export function spokenSizes(large: readonly string[], small: readonly string[], place: readonly string[], below: number, plan: Plan, box: Box, row: boolean, measure: Measure): Spoken {
  const width = plan.columns === 2 ? plan.width * 0.6 : plan.width;
  const drawn = plan.columns === 2 ? box.height - HEAD - FOOT - LAST : Math.max(plan.drawn, plan.ring + CAPTION + (row ? plan.far * 1.5 : 0));
  const room = drawn - below;
  const given = plan.columns === 2 ? 0 : place.reduce((sum, line) => sum + lines(line, plan.place, plan.width, measure), 0) * plan.place * 1.14 + 8;
  const most = (FAR_CAP / CAP) * plan.scale + 0.2;
  // The larger the one, the larger the other, but never at the cost of what is read from afar.
  const of = (size: number) => Math.min(size, size === most ? size * 0.5 : plan.side * (small.length > 0 && large.length > 1 ? 1 : 1.15));
  const tall = (size: number) => {
    const passing = [...large.map((text) => passed(text, size, width, measure)), ...small.map((text) => passed(text, of(size), width, measure))];
    return passing.reduce((sum, height) => sum + height + size * 0.25, -size * 0.25);
  };
  if (large.length + small.length === 0 || tall(most) <= room) return { large: most, small: of(most), bare: false, fits: true };
  let size = most;
  while (size > plan.side && tall(size) > room + given) size -= 1;
  return { large: size, small: of(size), bare: given > 0, fits: tall(size) <= room + given };
}

/** The sentence above something that has to be read from afar. */
export const SMALL_SENTENCE = 26;

/** Height that a pause may fill: all but the sentence, small above it, and what was said in passing, small below. */
export function pauseRoom(sentence: string, whispers: readonly string[], plan: Plan, box: Box, measure: Measure): number {
  const small = Math.min(plan.sentence, SMALL_SENTENCE * plan.scale);
  const said = plan.columns === 2 ? 0 : whispers.reduce((sum, text) => sum + passed(text, plan.side * 1.3, plan.width, measure) + plan.side * 0.4, 0);
  const above = lines(unbroken(sentence), small, plan.width, measure) * small * SENTENCE_LINE;
  return Math.max(150, box.height - HEAD - FOOT - GAPS - (plan.columns === 2 ? 0 : LAST) - above - said);
}
