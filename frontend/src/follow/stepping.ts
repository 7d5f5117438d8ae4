// One move: where it comes to rest, which cues it passed, and what it makes of the making. Twin of
// server/hookside/follow/stepping.py and making.py, name for name; both are held to the vectors in tests/vectors.
// Pure: no clock, storage, network, randomness. Integers only.
import type { Strand, StrandCourse } from "../generated/pattern";
import {
  below,
  courseAt,
  coursesDone,
  cuesBetween,
  edges,
  indexOf,
  lengthOf,
  offsetIn,
  reach,
  rests,
  slide,
  stepOf,
} from "./place";

export {
  type Ahead,
  coursesDone,
  cuesBetween,
  locate,
  nextCue,
  type Spot,
  slide,
  stepOf,
  stitchesBefore,
  stitchesBetween,
  type Turn,
} from "./place";

export type Unit = "stitch" | "group" | "repeat" | "round" | "plain";

const UNITS: readonly string[] = ["stitch", "group", "repeat", "round", "plain"];

/** Stitches in a course at most; the limit of reading too. */
export const LARGEST_COUNT = 2000;

/** Moves of a run that can be undone one after another. */
export const HISTORY_KEPT = 200;

export type RefusalCode =
  | "stop" // a stop or an unread course waits: only `done` goes on from here
  | "finished" // the last step is done
  | "start" // nothing lies behind
  | "not-here" // that cue is not the one the place rests on
  | "range" // no such step, or not behind the place, or a count outside 0 to 2,000
  | "not-last" // only the newest move of a run can be undone
  | "no-run" // the making has no such run
  | "needs-count" // an unread course is answered with the count of its stitches
  | "unit"; // no such unit

/** Where a move comes to rest, and the cues it passed, in order. An unread course is passed by its id. */
export interface Step {
  to: number;
  passed: string[];
}

/** A move that cannot be made here. */
export interface Refusal {
  code: RefusalCode;
}

/** What the maker wants, as the page asks it of the run in hand. */
export type Intent =
  | { intent: "next" | "back"; unit: Unit }
  | { intent: "done"; cue: string; count?: number }
  | { intent: "goto" | "rip"; to: number }
  | { intent: "undo"; undoes: number }
  | { intent: "take" }
  | { intent: "count"; n: number }
  | { intent: "settle"; to: number; asides?: number[] };

/** An intent with its run, as loosely as it travels. `undoes`: a row, or a move's id where its row is not known. */
export interface RunIntent {
  intent: Intent["intent"];
  run: string;
  id?: string | undefined;
  unit?: string | null | undefined;
  to?: number | null | undefined;
  cue?: string | null | undefined;
  count?: number | null | undefined;
  undoes?: number | string | null | undefined;
  n?: number | null | undefined;
  asides?: number[] | null | undefined;
}

/** One move of a run that can be undone: how things stood before it, and the typed counts it dropped. */
export interface Past {
  row: number;
  id?: string;
  at: number;
  in_hand: string | null;
  counts?: Record<string, number>;
}

/** One run: its strand, its place, the counts typed for unread courses behind it; newest move last. */
export interface RunState {
  strand: string;
  at: number;
  counts: Record<string, number>;
  history: Past[];
}

/** A making. `head` is the last row that was applied. */
export interface MakingState {
  in_hand: string | null;
  head: number;
  runs: Record<string, RunState>;
}

/** What a move did to its run. */
export interface Outcome {
  run: string;
  from: number;
  to: number;
  passed: string[];
}

export interface Applied {
  state: MakingState;
  outcome: Outcome;
}

export type Status = "not begun" | "on the hook" | "set aside" | "ready to sew" | "finished";

/** one: one after another. pair: side by side, round by round. level: each to the end of `label` first. */
export interface Order {
  kind: "one" | "pair" | "level";
  label?: string | null;
}

export type Strands = Readonly<Record<string, Strand>>;

const refuse = (code: RefusalCode): Refusal => ({ code });

export const isRefusal = (done: Step | Applied | Refusal): done is Refusal => "code" in done;

/**
 * The one `unit` that holds step `offset` of a course's body: [start, end], in steps of the body. What leads into a
 * course goes with its first unit, what closes it with its last; only "stitch" takes them singly.
 */
function stretch(course: StrandCourse, offset: number, unit: string): [number, number] {
  if (unit === "stitch") return [offset, offset + 1];
  const whole = lengthOf(course.body);
  const [lead, close] = edges(course);
  const found = reach(course.body, Math.min(Math.max(offset, lead), close - 1));
  if (!found) throw new Error("a step that is neither a cue nor an unread course lies in a body");
  let [start, end] = [found.start, found.start + lengthOf([found.group])];
  if ((unit === "repeat" || unit === "plain") && found.turn) [start, end] = found.turn;
  else if (unit === "round" || (unit === "plain" && course.plain)) return [0, whole];
  return [start === lead ? 0 : start, end === close ? whole : end];
}

/** From `start` on to `target`, but onto the first thing that waits in between; then past whispers. */
function forward(strand: Strand, start: number, target: number): Step {
  const { halts } = indexOf(strand);
  const halt = halts[below(halts, start)];
  const land = halt === undefined ? target : Math.min(target, halt);
  const passed = cuesBetween(strand, start, land).map((cue) => cue.address);
  const slid = slide(strand, land);
  return { to: slid.to, passed: [...passed, ...slid.passed] };
}

/** Set off forwards: a pause is answered by it, a stop or an unread course is not. */
function leave(strand: Strand, at: number): Step | Refusal {
  if (!rests(strand, at)) return { to: at, passed: [] };
  const cue = indexOf(strand).cueAt.get(at);
  if (!cue || cue.weight === "stop") return refuse("stop");
  const slid = slide(strand, at + 1);
  return { to: slid.to, passed: [cue.address, ...slid.passed] };
}

/**
 * Go on by one unit, at most to the first stop, pause or unread course on the way. Resting on a pause, the move
 * answers it and nothing else: whoever touches "done" has not worked a stitch yet.
 */
export function advance(strand: Strand, at: number, unit: string | null | undefined): Step | Refusal {
  if (unit == null || !UNITS.includes(unit)) return refuse("unit");
  if (at >= strand.length) return refuse("finished");
  const left = leave(strand, at);
  if (isRefusal(left)) return left;
  if (left.passed.length > 0) return left;
  const course = strand.courses[courseAt(strand, at) as number] as StrandCourse;
  const [, end] = stretch(course, offsetIn(strand, course, at), unit);
  return forward(strand, at, stepOf(strand, course, end - 1) + 1);
}

/**
 * Go back to where the unit begins, at most onto the nearest stop, pause or unread course on the way. From the
 * beginning of a unit it is the one before. Whispers are slid over.
 */
export function retreat(strand: Strand, at: number, unit: string | null | undefined): Step | Refusal {
  if (unit == null || !UNITS.includes(unit)) return refuse("unit");
  const { cueAt, halts } = indexOf(strand);
  let before = at - 1;
  while (cueAt.get(before)?.weight === "whisper") before -= 1;
  if (before < 0) return refuse("start");
  if (rests(strand, before)) return { to: before, passed: [] };
  const course = strand.courses[courseAt(strand, before) as number] as StrandCourse;
  const [start] = stretch(course, offsetIn(strand, course, before), unit);
  const target = stepOf(strand, course, start);
  const halt = halts[below(halts, before) - 1];
  return { to: halt === undefined ? target : Math.max(target, halt), passed: [] };
}

/** Answer the stop or pause the place rests on, or give an unread course (by its id) the count it made. */
export function answer(
  strand: Strand,
  at: number,
  address: string | null | undefined,
  count: number | null | undefined = null,
): Step | Refusal {
  const { cueAt, unreadAt } = indexOf(strand);
  const cue = cueAt.get(at);
  const course = unreadAt.get(at);
  if (address == null) return refuse("not-here");
  if (course?.id === address) {
    if (count == null) return refuse("needs-count");
    if (count < 0 || count > LARGEST_COUNT) return refuse("range");
  } else if (!cue || cue.weight === "whisper" || cue.address !== address) {
    return refuse("not-here");
  }
  const slid = slide(strand, at + 1);
  return { to: slid.to, passed: [address, ...slid.passed] };
}

/** Go to a step: freely backwards; forwards at most onto the first thing that waits in between. */
export function jump(strand: Strand, at: number, to: number | null | undefined): Step | Refusal {
  if (to == null || to < 0 || to > strand.length) return refuse("range");
  if (to <= at) return slide(strand, to);
  const left = leave(strand, at);
  if (isRefusal(left)) return left;
  const step = forward(strand, left.to, Math.max(left.to, to));
  return { to: step.to, passed: [...left.passed, ...step.passed] };
}

/** Rip back to a step at or before the place. The cues behind it wait again. */
export function rip(strand: Strand, at: number, to: number | null | undefined): Step | Refusal {
  if (to == null || to < 0 || to > at) return refuse("range");
  return slide(strand, to);
}

/** A making nobody has moved in yet. `runs` pairs each run with its strand's id, in the pattern's order. */
export function begin(runs: readonly (readonly [string, string])[], strands: Strands, row = 0): MakingState {
  const states = runs.map(([run, id]): [string, RunState] => [
    run,
    { strand: id, at: slide(strands[id] as Strand, 0).to, counts: {}, history: [] },
  ]);
  return { in_hand: null, head: row, runs: Object.fromEntries(states) };
}

function step(strand: Strand, at: number, intent: RunIntent): Step | Refusal {
  switch (intent.intent) {
    case "next":
      return advance(strand, at, intent.unit);
    case "back":
      return retreat(strand, at, intent.unit);
    case "done":
      return answer(strand, at, intent.cue, intent.count);
    case "goto":
      return jump(strand, at, intent.to);
    case "rip":
      return rip(strand, at, intent.to);
    case "settle":
      if (intent.to == null || intent.to < 0 || intent.to > strand.length) return refuse("range");
      return slide(strand, intent.to);
    case "count":
      if (intent.n == null) return refuse("needs-count");
      if (intent.n < 0 || intent.n > LARGEST_COUNT) return refuse("range");
      return { to: at, passed: [] };
    default:
      return { to: at, passed: [] };
  }
}

/** The state after journal row `row` carried `intent`, or why it cannot be made. What stays is shared. */
export function apply(state: MakingState, strands: Strands, row: number, intent: RunIntent): Applied | Refusal {
  const run = Object.hasOwn(state.runs, intent.run) ? state.runs[intent.run] : undefined;
  if (!run) return refuse("no-run");
  const strand = strands[run.strand] as Strand;
  if (intent.intent === "undo") return undo(state, run, strand, row, intent);
  const done = step(strand, run.at, intent);
  if (isRefusal(done)) return done;
  const outcome: Outcome = { run: intent.run, from: run.at, to: done.to, passed: done.passed };
  if (intent.intent === "count" || (done.to === run.at && state.in_hand === intent.run)) {
    return { state: { ...state, head: row }, outcome };
  }

  let { counts } = run;
  const answered = indexOf(strand).unreadAt.get(run.at);
  if (intent.intent === "done" && answered && intent.count != null) counts = { ...counts, [answered.id]: intent.count };
  const { kept, dropped } = countsBehind(strand, counts, done.to);
  const past: Past = { row, id: intent.id ?? "", at: run.at, in_hand: state.in_hand, counts: dropped };
  const moved = { ...run, at: done.to, counts: kept, history: [...run.history.slice(1 - HISTORY_KEPT), past] };
  return { state: withRun(state, row, intent.run, intent.run, moved), outcome };
}

/** Take back the run's newest move: its place, the run in hand, and typed counts the move had dropped. */
function undo(state: MakingState, run: RunState, strand: Strand, row: number, intent: RunIntent): Applied | Refusal {
  const past = run.history.at(-1);
  const named = intent.undoes ?? "";
  if (!past || named === "" || (named !== past.row && named !== past.id)) return refuse("not-last");
  const { kept } = countsBehind(strand, { ...run.counts, ...past.counts }, past.at);
  const moved = { ...run, at: past.at, counts: kept, history: run.history.slice(0, -1) };
  const outcome: Outcome = { run: intent.run, from: run.at, to: past.at, passed: [] };
  return { state: withRun(state, row, past.in_hand, intent.run, moved), outcome };
}

function withRun(state: MakingState, row: number, inHand: string | null, name: string, run: RunState): MakingState {
  return { in_hand: inHand, head: row, runs: { ...state.runs, [name]: run } };
}

/** Typed counts split at a place: those of courses behind it, and those it stands before again. */
function countsBehind(
  strand: Strand,
  counts: Record<string, number>,
  at: number,
): { kept: Record<string, number>; dropped: Record<string, number> } {
  const entries = Object.entries(counts);
  if (entries.length === 0) return { kept: counts, dropped: {} };
  const ahead = new Set<string>();
  for (const [place, course] of indexOf(strand).unreadAt) if (place >= at) ahead.add(course.id);
  return {
    kept: Object.fromEntries(entries.filter(([id]) => !ahead.has(id))),
    dropped: Object.fromEntries(entries.filter(([id]) => ahead.has(id))),
  };
}

/** The state after rows in order. A refused row leaves it as it was. */
export function replay(
  state: MakingState,
  strands: Strands,
  rows: Iterable<readonly [number, RunIntent]>,
): MakingState {
  let now = state;
  for (const [row, intent] of rows) {
    const done = apply(now, strands, row, intent);
    if (!isRefusal(done)) now = done.state;
  }
  return now;
}

/** What a maker would call the state of one run. */
export function status(state: MakingState, run: string, strand: Strand): Status {
  const { at } = state.runs[run] as RunState;
  if (at === strand.length) return "finished";
  if (at === slide(strand, 0).to) return "not begun";
  if (coursesDone(strand, at) === strand.courses.length) return "ready to sew";
  return state.in_hand === run ? "on the hook" : "set aside";
}

/**
 * The run the order of work wants in hand next; null when it is the one in hand, or all are finished. Nothing is
 * suggested in the middle of a course, nor before the first course that makes stitches is done: a copy that is a bare
 * chain is no good place to lay it down. A piece is not left until its copies are finished, and a section of
 * jobs not begun while a piece before it lies open.
 */
export function suggest(order: Order, runs: readonly string[], state: MakingState, strands: Strands): string | null {
  const at = (run: string): number => (state.runs[run] as RunState).at;
  const strandOf = (run: string): Strand => strands[(state.runs[run] as RunState).strand] as Strand;
  const finished = (run: string): boolean => at(run) === strandOf(run).length;
  const done = (run: string): number => coursesDone(strandOf(run), at(run));

  const inHand = state.in_hand;
  if (inHand === null) return runs.find((run) => !finished(run)) ?? null;
  if (!finished(inHand) && insideCourse(strandOf(inHand), at(inHand))) return null;
  if (!finished(inHand) && done(inHand) <= bare(strandOf(inHand))) return null;
  const here = runs.indexOf(inHand);
  const unfinished = [...runs.slice(here), ...runs.slice(0, here)].filter((run) => !finished(run));
  const copies = runs.filter((run) => !finished(run) && piece(run) === piece(inHand));
  let wanted: string | undefined;
  if (order.kind === "pair") {
    for (const run of copies) if (wanted === undefined || done(run) < done(wanted)) wanted = run;
  } else if (order.kind === "level" && copies.length > 0) {
    const level = coursesTo(strandOf(inHand), order.label);
    const lower = copies.find((run) => done(run) < level);
    if (done(inHand) >= level && lower !== undefined) wanted = lower;
    else if (done(inHand) === level) wanted = copies[0];
  }
  if (wanted === undefined && finished(inHand)) {
    wanted = unfinished.find((run) => copies.includes(run)) ?? unfinished[0];
    // Jobs of sewing come when what stands before them in the text is worked: a piece that lies open there goes first.
    const jobs = (run: string) => strandOf(run).courses.length === 0;
    const open = runs.find((run) => !finished(run) && !jobs(run));
    if (wanted && open && jobs(wanted) && runs.indexOf(open) < runs.indexOf(wanted)) wanted = open;
  }
  return wanted === undefined || wanted === inHand ? null : wanted;
}

function insideCourse(strand: Strand, at: number): boolean {
  const index = courseAt(strand, at);
  return index !== null && at > (strand.courses[index] as StrandCourse).first;
}

/** Courses before the first one that makes stitches; -1 where there is none. */
function bare(strand: Strand): number {
  return strand.courses.findIndex((course) => (course.makes ?? 0) > 0 || !course.read);
}

/** Courses up to the end of the one called `label`; 0 where there is none, so that no copy waits for it. */
function coursesTo(strand: Strand, label: string | null | undefined): number {
  return strand.courses.findIndex((course) => course.label === label) + 1;
}

/** "p1" of "p1.c2". */
function piece(run: string): string {
  return run.split(".")[0] as string;
}
