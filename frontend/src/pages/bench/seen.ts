import type { Maker, Snapshot } from "../../api";
import type { MakingState } from "../../follow/stepping";
import { locate, offsetIn, type Spot } from "../../follow/place";
import type { Strand, StrandCourse, StrandCue } from "../../generated/pattern";
import { hers } from "./colours/hers";

/** What is on the bench at this moment, worked out from the place alone. */
export interface Seen {
  run: string;
  piece: string;
  copy: number;
  copies: number;
  strand: Strand;
  at: number;
  spot: Spot;
  course: StrandCourse | undefined;
  /** Steps of the course's body that are worked; cues inside the course are not counted. */
  done: number;
  counts: Record<string, number>;
  /** The course is worked otherwise than the pattern has it, since the maker mended a count so. */
  mended?: boolean;
  /** The newest move of this run that can be taken back. */
  last: { row: number; from: number; took: boolean } | null;
}

/** "Arm, 2nd of 2", or the piece's name alone. */
export function pieceName(run: { piece: string; copy: number; copies: number }): string {
  return run.copies > 1 ? `${run.piece} ${run.copy} of ${run.copies}` : run.piece;
}

/**
 * The course of `next` that goes on from the loop at the end of `strand`: its number follows, it works into just as many
 * stitches as stand there, and nothing was cut, closed or asked about.
 */
export function goesOn(strand: Strand, next: Strand): StrandCourse | null {
  const last = strand.courses.at(-1);
  const first = next.courses[0];
  if (!last?.makes || !first?.read || first.uses !== last.makes) return null;
  if (!/^\d+$/.test(last.label) || Number(first.label) !== Number(last.label) + 1) return null;
  const parted = strand.cues.some((cue) => cue.step >= last.end && (cue.kind === "fasten" || cue.kind === "close" || cue.address.includes("/loop.")));
  const joined = next.cues.some((cue) => cue.step < first.end && (cue.address.includes("/ready-") || cue.kind === "join"));
  return parted || joined ? null : first;
}

/** Finishing, assembly and their like: a section of jobs without rounds or rows, nothing that one takes up. */
export const isSection = (strand: Strand): boolean => strand.courses.length === 0;

/** A section's name in the middle of a sentence: "finishing". */
export const sectionName = (name: string): string => name.slice(0, 1).toLowerCase() + name.slice(1);

/** "on to finishing", "on to make up": a section of jobs may be called by what is to be done. */
export const onTo = (piece: string): string => {
  const name = sectionName(piece);
  return name.startsWith("to ") ? `on ${name}` : `on to ${name}`;
};

/** "arm 2": one copy among its like, for a sentence. */
export function copyName(run: { piece: string; copy: number; copies: number }): string {
  if (run.copies === 1) return run.piece;
  // "Flippers 1" would be one of several under the name of all.
  return /[^s]s$/i.test(run.piece) ? `${run.piece}, copy ${run.copy}` : `${run.piece} ${run.copy}`;
}

export function seeRun(snapshot: Snapshot, state: MakingState, run: string): Seen | null {
  const known = snapshot.runs.find((r) => r.run === run);
  const now = state.runs[run];
  const laid = now && snapshot.strands[now.strand];
  if (!known || !now || !laid) return null;
  const strand = hers.value?.strand(laid, run) ?? laid;
  const spot = locate(strand, now.at);
  const course = spot.course === null ? undefined : strand.courses[spot.course];
  const past = now.history.at(-1);
  return {
    ...known,
    strand,
    at: now.at,
    spot,
    course,
    done: course ? offsetIn(strand, course, now.at) : 0,
    counts: now.counts,
    mended: snapshot.mends?.[run]?.some(({ courses }) => courses?.includes(course?.id ?? "")) ?? false,
    last: past ? { row: past.row, from: past.at, took: past.in_hand !== run } : null,
  };
}

/** The run in hand; before the first move of a making, its first run. */
export function inHand(snapshot: Snapshot, state: MakingState): Seen | null {
  const run = state.in_hand ?? snapshot.runs[0]?.run;
  return run === undefined ? null : seeRun(snapshot, state, run);
}

/** The stop or pause the place rests on. */
export function waiting(seen: Seen): StrandCue | null {
  const { cue } = seen.spot;
  return cue && cue.weight !== "whisper" ? cue : null;
}

/** A job that is printed after its time: it waited at its own place and was answered there, so nothing is left to do. */
const askedBefore = (cue: StrandCue): boolean => /Printed here; it was due at [^.]+\.$/.test(cue.words.full);

/**
 * Those whispers a maker wants: none of a kind she turned down. Words for a beginner with full words, and where they are
 * new to the making.
 */
export const welcome = (whispers: readonly StrandCue[], { quiet, words }: Pick<Maker, "quiet" | "words">, isNew = (_: StrandCue) => false): StrandCue[] =>
  whispers.filter((c) => !askedBefore(c) && !quiet.includes(c.kind) && (words === "full" || !c.address.includes("/learn-") || isNew(c)));

/** The whispers directly behind the place: what was just said in passing. */
export function whispersBehind({ strand, at }: Seen): StrandCue[] {
  const behind: StrandCue[] = [];
  for (let i = strand.cues.length - 1, step = at - 1; i >= 0; i--) {
    const cue = strand.cues[i];
    if (!cue || cue.step > step) continue;
    if (cue.step < step || cue.weight !== "whisper") break;
    behind.unshift(cue);
    step--;
  }
  return behind;
}

/** Those that must not be lost where something else fills the screen; a count and the marker have places of their own. */
export const notLost = (whispers: readonly StrandCue[]): StrandCue[] => whispers.filter(({ kind }) => kind !== "count" && kind !== "marker");
