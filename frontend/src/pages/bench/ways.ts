import { cuesBetween, locate, stepOf, stitchesBetween } from "../../follow/place";
import type { Strand, StrandCourse, StrandCue, Terms } from "../../generated/pattern";
import { lengthOf } from "../../drawings/marks";

/** The strand's step before which `stitches` of a course are made: the first step that has them behind it. */
export function stepAtStitch(strand: Strand, course: StrandCourse, stitches: number): number {
  if (stitches <= 0) return course.first;
  let low = 0;
  let high = lengthOf(course.body);
  while (low < high) {
    const middle = (low + high) >> 1;
    if (stitchesBetween(strand, course.first, stepOf(strand, course, middle)) >= stitches) high = middle;
    else low = middle + 1;
  }
  return low >= lengthOf(course.body) ? course.end : stepOf(strand, course, low);
}

/** The step that lies `stitches` stitches behind a place; 0 where there are not so many. */
export function stepBehind(strand: Strand, at: number, stitches: number): number {
  if (stitches <= 0) return at;
  let low = 0;
  let high = at;
  // The last step from which at least that many stitches are made up to the place.
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (stitchesBetween(strand, middle, at) >= stitches) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Where the repeat before the hook began: the present one if some of it is worked, else the one before. */
export function lastRepeat(strand: Strand, at: number): number | null {
  const spot = locate(strand, at);
  const course = spot.course === null ? undefined : strand.courses[spot.course];
  if (!course || !spot.repeat) return null;
  for (let step = at - 1; step >= course.first; step--) {
    const before = locate(strand, step);
    if (before.course !== spot.course || !before.repeat) return null;
    const earlier = step === course.first ? null : locate(strand, step - 1);
    if (!earlier?.repeat || earlier.course !== spot.course || earlier.repeat.i !== before.repeat.i) return step;
  }
  return null;
}

/** What ripping back to `to` costs: stitches that go, and the cues that were passed and will be asked again. */
export interface Cost {
  stitches: number;
  reopened: StrandCue[];
}

export function costOf(strand: Strand, at: number, to: number): Cost {
  return {
    stitches: stitchesBetween(strand, to, at),
    reopened: cuesBetween(strand, to, at).filter((cue) => cue.weight !== "whisper"),
  };
}

/** What a job that was done means for the hands that rip past it; "" where it simply comes again. */
export function undoing(cue: Pick<StrandCue, "kind" | "text">, terms: Terms): string {
  const cut = /\bcut\b|\bfasten off\b/i.test(cue.text);
  if (cue.kind === "fasten" || (cut && cue.kind !== "stuff")) return "the yarn is cut here: it must be joined again";
  switch (cue.kind) {
    case "stuff":
      return "stuffing out first";
    case "close":
      return "open the hole first and draw the tail out";
    case "eyes":
      return "a fitted washer will not come off: rip only above the eyes";
    case "colour":
      return `join the ${terms === "US" ? "color" : "colour"} before it again`;
    case "sew":
    case "join":
    case "weave":
    case "embroider":
      return "undo this first";
    default:
      return "";
  }
}

/** Courses wholly or partly worked, the nearest first: the ones one can rip back to the start of. */
export function coursesBehind(strand: Strand, at: number): StrandCourse[] {
  return strand.courses.filter((course) => course.first < at).reverse();
}
