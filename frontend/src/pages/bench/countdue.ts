import type { Counted } from "../../follow/choices";
import type { Making } from "../../follow/making";
import { coursesDone, locate } from "../../follow/place";
import type { Intent } from "../../follow/stepping";
import type { Strand, StrandCourse, StrandCue } from "../../generated/pattern";
import type { CountDue, Counts } from "./counts";
import type { Seen } from "./seen";
import { courseName } from "./sentence";

/** So many counts one after another that were right, and hands and page count alike (common practice, no source). */
const AGREE = 3;

/**
 * That a count is asked for behind a rip: of the round that stands now, whatever was given before. A count turned down is
 * never right, so that the two are told apart.
 */
const askedByRip = ({ n, right }: Counted): boolean => n === null && right;

/** Whether the newest counts of a making agree: then it is asked for where it matters, and no more after every round. */
export function agreed(counted: readonly Counted[]): boolean {
  const given = counted.filter(({ n }) => n !== null).slice(-AGREE);
  return given.length === AGREE && given.every(({ right }) => right);
}

const shapes = (course: StrandCourse | undefined): boolean => course !== undefined && course.read && course.uses !== course.makes;

/** The course behind which a cue lies: its address begins with that. */
const courseOf = ({ courses }: Strand, cue: StrandCue): number => courses.findIndex(({ id }) => cue.address.startsWith(`${id}/`));

/**
 * Whether a count is asked for whoever counts well: printed, after a mend, where several courses of shaping end, where
 * parts are joined, or before something that can't be reached afterwards.
 */
export function matters(strand: Strand, cue: StrandCue): boolean {
  if (cue.basis === "written" || cue.weight !== "whisper") return true;
  const at = courseOf(strand, cue);
  const [before, course, after] = [strand.courses[at - 1], strand.courses[at], strand.courses[at + 1]];
  if (shapes(before) && shapes(course) && !shapes(after)) return true;
  if (course && strand.cues.some(({ address }) => address.startsWith(`${course.id}/ready-`))) return true; // parts joined
  return strand.cues.some(({ step, weight, kind }) => weight === "stop" && kind === "stuff" && step >= (course?.end ?? 0) && step < (after?.first ?? strand.length));
}

const WORKED_FLAT = /\b(?:both|two|2) (?:layers|sides|edges|thicknesses)\b/i;
const shuts = ({ kind, weight, text }: StrandCue): boolean =>
  weight !== "whisper" && (kind === "close" ? weight === "stop" : ["shape", "join", "other"].includes(kind) && WORKED_FLAT.test(text));

/** Whether this maker is still asked to count there. */
export const isWanted = (strand: Strand, cue: StrandCue, counted: readonly Counted[]): boolean =>
  cue.kind !== "count" || matters(strand, cue) || !agreed(counted);

/**
 * The count that waits at a place. It follows the hook: not given behind round 4, it is the count of round 5 once that
 * is done, because that is what the hands can count then. One that came out otherwise waits until it is mended.
 */
export function countDue({ run, strand, at, spot, counts }: Seen, counted: readonly Counted[]): CountDue | null {
  const last = coursesDone(strand, at) - 1;
  const course = strand.courses[last];
  const asked = strand.cues.findLast((cue) => cue.kind === "count" && (cue.step < at || (cue.step === at && cue.weight !== "whisper")));
  const ripped = counted.findLast((one) => one.run === run && askedByRip(one));
  const n = course && (counts[course.id] ?? course.makes);
  if (!(asked || ripped) || !course || !n) return null;
  // Once the hole is shut, or the edge is worked flat through both layers, nobody can count there.
  if (strand.cues.some((cue) => shuts(cue) && cue.step >= course.end && cue.step < at)) return null;
  const since = asked ? courseOf(strand, asked) : 0;
  const answers = counted.filter((one) => one.run === run && strand.courses.findIndex(({ id }) => id === one.course) >= since);
  const newest = answers.at(-1);
  const of = newest && strand.courses.find(({ id }) => id === newest.course);
  const wrong = of !== undefined && newest?.n != null && !newest.right && newest.n !== (counts[of.id] ?? of.makes);
  const again = newest !== undefined && askedByRip(newest);
  if (newest ? !wrong && !again : !asked || !isWanted(strand, asked, counted)) return null;
  const given = newest?.course === course.id ? newest.n : null;
  return { course: course.id, name: courseName(course).toLowerCase(), n, here: spot.course !== last && spot.stitch === 0, given };
}

/** Whether a count was given or turned down since it was asked for: then it is asked no more. */
export const answered = ({ run, strand }: Seen, cue: StrandCue, counted: readonly Counted[]): boolean =>
  cue.kind === "count" &&
  counted.some((one) => one.run === run && !askedByRip(one) && strand.courses.findIndex(({ id }) => id === one.course) >= courseOf(strand, cue));

/** Counts behind which the hook went back, by the place it left: where that is taken back, they stand again. Kept while the page is open. */
const gone = new Map<string, Counted[]>();

/** What a move says of counts: one that was given, those behind which the hook went back, and the one to be made where a rip ended. */
export function noted(seen: Seen, due: CountDue | null, intent: Intent, to: number, counted: readonly Counted[]): Counted[] {
  const { run, strand, at, spot, counts } = seen;
  if (intent.intent !== "count") {
    const mine = counted.filter((one) => one.run === run);
    if (to >= at) {
      if (intent.intent !== "undo") return [];
      const again = (gone.get(`${run}@${to}`) ?? []).filter((one) => !mine.some(({ course }) => course === one.course));
      return [...mine.filter(askedByRip).map((one) => ({ ...one, on: false })), ...again];
    }
    const ends = new Map(strand.courses.map(({ id, end }) => [id, end]));
    const behind = mine.filter((one) => (ends.get(one.course) ?? 0) > to);
    if (behind.length > 0) gone.set(`${run}@${at}`, behind);
    const forgotten = behind.map((one) => ({ ...one, on: false }));
    const last = strand.courses[coursesDone(strand, to) - 1];
    const stands = intent.intent === "rip" && last && (counts[last.id] ?? last.makes) && locate(strand, to).stitch === 0;
    return stands ? [...forgotten, { run, course: last.id, n: null, right: true, on: true }] : forgotten;
  }
  const { n } = intent;
  const course = strand.courses[coursesDone(strand, at) - 1];
  if (due && (due.here || n === due.n)) return [{ run, course: due.course, n, right: n === due.n, on: true }];
  const ours = course && (counts[course.id] ?? course.makes);
  return course && ours && spot.stitch === 0 ? [{ run, course: course.id, n, right: n === ours, on: true }] : [];
}

export function countsOf(making: Making, seen: Seen, quiet: boolean): Counts {
  const counted = making.chosen.value.counted ?? [];
  const due = quiet ? null : countDue(seen, counted);
  return {
    due,
    wanted: (whispers) => whispers.filter((cue) => isWanted(seen.strand, cue, counted) && (due || !answered(seen, cue, counted))),
    note(intent, { from, to }) {
      // Of another run than the one seen nothing is known here: it was taken up, and that moves no hook.
      const said = noted({ ...seen, at: from }, due, intent, to, counted);
      if (said.length > 0) making.choose(said.map((value) => ({ choice: "count", value })));
    },
  };
}

/** She would rather not count there. */
export const turnDown = (making: Making, run: string, { course }: CountDue): boolean =>
  making.choose([{ choice: "count", value: { run, course, n: null, right: false, on: true } }]);
