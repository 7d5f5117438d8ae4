import type { StrandCourse, StrandCue } from "../../../generated/pattern";
import { cuesBetween } from "../../../follow/place";
import type { Intent } from "../../../follow/stepping";
import type { Strand } from "../../../generated/pattern";
import { courseName } from "../sentence";

/** Something that waits on the way: a job to tick, with the course it waits at, or a round in the designer's words whose
 * count is wanted. */
export type Passed =
  | { kind: "cue"; id: string; cue: StrandCue; course: StrandCourse | undefined }
  | { kind: "unread"; id: string; course: StrandCourse };

/** Everything that waits between two places, in the order of the work. What waits at `to` itself is still to come. */
export function passedBetween(strand: Strand, at: number, to: number): Passed[] {
  const cues = cuesBetween(strand, at, to)
    .filter((cue) => cue.weight !== "whisper")
    .map((cue): [number, Passed] => {
      const course = strand.courses.findLast((one) => one.first < cue.step);
      return [cue.step, { kind: "cue", id: cue.address, cue, course }];
    });
  const unread = strand.courses
    .filter((course) => !course.read && course.end > at && course.end <= to)
    .map((course): [number, Passed] => [course.end - 1, { kind: "unread", id: course.id, course }]);
  return [...cues, ...unread].sort(([a], [b]) => a - b).map(([, passed]) => passed);
}

/** What it is, and where: one change to cream is told from the next. */
export const namedPassed = (one: Passed): string => {
  if (one.kind === "unread") return `${courseName(one.course)} in words`;
  const what = (one.cue.words.short || one.cue.text).replace(/[.!]$/, "");
  return one.course ? `${what}, at ${one.course.kind} ${one.course.label}` : what;
};

/** What is read aloud: nothing is ticked by a yes that was not named. */
export const readOut = (passed: readonly Passed[]): string => {
  const [only] = passed;
  if (passed.length === 1 && only) return `One thing came on the way. ${namedPassed(only)}. Is it done?`;
  const named = passed.map((one, i) => `${i + 1}: ${namedPassed(one)}.`).join(" ");
  return `${passed.length} things came on the way. ${named} Are they all done?`;
};

/**
 * Goes on to a place and answers on the way what was ticked, each by its own address; stops at the first that was not.
 * `place`: where the run is now. `counts`: stitches of rounds in the designer's words. True when it came there.
 */
export function goOn(
  strand: Strand,
  to: number,
  ticked: ReadonlySet<string>,
  counts: Readonly<Record<string, number>>,
  place: () => number,
  move: (intent: Intent) => boolean,
): boolean {
  const on = new Map(passedBetween(strand, place(), to).map((one) => [one.id, one]));
  for (let at = place(); at < to; ) {
    const cue = strand.cues.find((c) => c.step === at && c.weight !== "whisper");
    const unread = strand.courses.find((c) => !c.read && c.end - 1 === at && !cue);
    if (cue && on.has(cue.address)) {
      if (!ticked.has(cue.address) || !move({ intent: "done", cue: cue.address })) return false;
    } else if (unread) {
      const count = counts[unread.id];
      if (count === undefined || !move({ intent: "done", cue: unread.id, count })) return false;
    } else if (!move({ intent: "goto", to })) return false;
    if (place() === at) return false;
    at = place();
  }
  return true;
}
