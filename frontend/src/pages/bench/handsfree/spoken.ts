import type { Spoken } from "../../../hands/wishes";
import { stitchesBetween } from "../../../follow/place";
import type { Strand, StrandCourse, StrandCue } from "../../../generated/pattern";
import { cueAhead, ended, movesMarker, placeSentence, plainRun } from "../place";
import { notLost, type Seen, waiting } from "../seen";
import { courseName } from "../sentence";
import { lastRepeat } from "../ways";

const stitches = (n: number) => `${n} ${n === 1 ? "stitch" : "stitches"}`;

/** A round for ears: "Round 11: single crochet in the next four, then two in the next; seven times in all. 42 stitches." */
export function courseSaid(course: StrandCourse): string {
  if (!course.read) return `${courseName(course)}, in the designer's words: ${ended(course.words.spoken || course.text)} Say how many stitches you made.`;
  const run = plainRun(course);
  const many = course.makes ? ` ${stitches(course.makes)}.` : "";
  // In a run of plain rounds the first one is said whole; then it is enough to know which it is.
  if (run && (course.plain_index ?? 1) > 1) return `${courseName(course)}, ${run[0]}.${many}`;
  return `${courseName(course)}: ${ended(course.words.spoken || course.text)}${many}`;
}

const MARKED = "Work the first stitch, put the marker into it";

export const cueSaid = (cue: StrandCue): string => ended(movesMarker(cue) ? MARKED : cue.words.spoken || cue.text);

/** "16 stitches left in round 4: this repeat and 3 more." */
export function leftSaid({ spot, course, strand, at }: Seen): string {
  if (spot.finished) return "Nothing is left: this piece is finished.";
  if (!course?.read) return "Nothing to count is left here.";
  const name = courseName(course).toLowerCase();
  const rest = stitchesBetween(strand, at, course.end);
  const more = spot.repeat ? spot.repeat.n - spot.repeat.i : 0;
  const turns = !spot.repeat ? "" : more > 0 ? `: this repeat and ${more} more` : ": this is the last repeat";
  const courses = strand.courses.length - 1 - (spot.course ?? 0);
  const after = courses === 0 ? ` It is the last ${course.kind}.` : "";
  return `${stitches(rest)} left in ${name}${turns}.${after}`;
}

/** What the hands do next, and what is due next. */
export function aheadSaid(seen: Seen): string {
  const { spot, strand, course } = seen;
  const now = waiting(seen);
  if (now) return `First this: ${cueSaid(now)}`;
  if (spot.finished || !course) return "Nothing comes any more in this piece.";
  if (spot.unread) return courseSaid(course);
  const next = spot.group ? `Next: ${ended(spot.group.words.spoken || spot.group.words.full)}` : courseSaid(course);
  const cue = cueAhead(spot, strand);
  return cue ? `${next} ${cue.slice(0, 1).toUpperCase()}${ended(cue.slice(1))}` : next;
}

/** For someone who has lost it: where the hook is, and what the fabric can be asked. */
export function lostSaid(seen: Seen): string {
  const { spot, course } = seen;
  const where = ended(placeSentence(spot, course));
  if (spot.finished || !course?.read || waiting(seen)) return where;
  if (spot.stitch > 0) return `${where} Count back from the hook: ${stitches(spot.stitch)} to the marker.`;
  const before = seen.strand.courses[(spot.course ?? 0) - 1];
  const made = before && (seen.counts[before.id] ?? before.makes);
  return made ? `${where} Nothing of it is worked yet. The ${course.kind} below should have ${stitches(made)}: count from marker to hook.` : where;
}

/** What a count should come to here: the stitches of this round, or at its beginning those of the last; null: unknown. */
function ours({ spot, course, strand, counts }: Seen): number | null {
  const before = strand.courses[(spot.course ?? strand.courses.length) - 1];
  return course && spot.stitch > 0 ? spot.stitch : before ? (counts[before.id] ?? before.makes) : null;
}

/** Whether a count is as it should be, or there is nothing to hold it against. */
export const countRight = (seen: Seen, n: number): boolean => (ours(seen) ?? n) === n;

/** A count of the maker's against ours: ours is the stitches of this round, or at its beginning those of the last. */
export function countSaid({ spot, course, strand, counts }: Seen, n: number): string {
  const before = strand.courses[(spot.course ?? strand.courses.length) - 1];
  const inRound = course && spot.stitch > 0;
  const ours = inRound ? spot.stitch : before ? (counts[before.id] ?? before.makes) : null;
  const name = inRound ? course : before;
  if (ours === null || !name) return `${n}, noted.`;
  if (ours === n) return `${n}: that is right for ${courseName(name).toLowerCase()}.`;
  return `You count ${n}, I have ${ours} in ${courseName(name).toLowerCase()}. Nothing was moved. Look at the last repeat first.`;
}

/** Where ripping back may lead, the nearest first: the last repeat, the beginning of the round, that of the one before. */
export function ripTargets({ strand, at, spot, course }: Seen, unit: string | null): number[] {
  const repeat = unit === "round" ? null : lastRepeat(strand, at);
  const before = strand.courses[(spot.course ?? strand.courses.length) - 1];
  const all = [repeat, course?.first, before?.first].filter((step): step is number => step != null && step < at);
  return [...new Set(all)];
}

export const courseCalled = (strand: Strand, number: number): StrandCourse | undefined => strand.courses.find((c) => c.label === String(number));

/** What stood on the bench before, as little as is needed to tell what is new. */
export interface Before {
  run: string;
  course: number | null;
  repeat: number | null;
  at: number;
}

export const beforeOf = ({ run, spot, at }: Seen): Before => ({ run, course: spot.course, repeat: spot.repeat?.i ?? null, at });

export type News = "cue" | "round" | "repeat" | null;

/** What a move has brought: something that waits, another round, another repeat. */
export function newsOf(before: Before | null, seen: Seen): News {
  if (waiting(seen) || seen.spot.unread) return "cue";
  if (!before || before.run !== seen.run || before.course !== seen.spot.course) return "round";
  return before.repeat !== (seen.spot.repeat?.i ?? null) && seen.spot.repeat ? "repeat" : null;
}

/**
 * What is said by itself after a move; "" for nothing. `amidst`: the maker is counting aloud, and between two numbers
 * nothing is said that can wait.
 */
export function promptSaid(before: Before | null, seen: Seen, whispers: readonly StrandCue[], spoken: Spoken, amidst: boolean): string {
  if (spoken === "silent") return "";
  const now = waiting(seen);
  const first = before && before.at < seen.at ? notLost(whispers).map(cueSaid) : [];
  if (now) return [...first, cueSaid(now)].join(" ");
  if (seen.spot.unread && seen.course) return courseSaid(seen.course);
  if (seen.spot.finished) return [...first, "This piece is finished."].join(" ");
  if (amidst && seen.spot.stitch > 0) return "";
  const news = newsOf(before, seen);
  const passing = before && before.at < seen.at ? whispers.map(cueSaid) : [];
  const round = news === "round" && seen.course && seen.spot.stitch === 0 && (spoken === "rounds" || spoken === "repeats");
  if (round && seen.course) return [courseSaid(seen.course), ...passing].join(" ");
  if (news === "repeat" && spoken === "repeats" && seen.spot.repeat) return [`Repeat ${seen.spot.repeat.i} of ${seen.spot.repeat.n}.`, ...passing].join(" ");
  return passing.join(" ");
}
