import type { Heard } from "../../../hands/ear/events";
import { locate } from "../../../follow/place";
import { begun } from "../mend/talk";
import { placeBrief } from "../place";
import { refusalSentence } from "../said";
import type { Seen } from "../seen";
import { courseName } from "../sentence";
import { costOf, undoing } from "../ways";
import type { Hands } from "./hands";
import type { Road } from "./road";
import { courseCalled, ripTargets } from "./spoken";

/** The same with the number that it sounds like, where that may be meant. */
export const other = (heard: Heard): Heard | null => heard.twin ? { ...heard, ...heard.twin, twin: null } : null;

/** "Go to round nine", "I worked on to round nine": asked before anything moves. */
export function goTo(heard: Heard, road: Road, hands: Hands): void {
  const { seen } = road;
  if (!seen) return;
  const { number } = heard;
  const after = heard.intent === "worked_on";
  const course = number === null ? undefined : courseCalled(seen.strand, number);
  if (after && number === null) {
    road.open("passed");
    return;
  }
  const twin = other(heard);
  const second = twin?.number != null && courseCalled(seen.strand, twin.number) ? twin : null;
  if (!course && second) {
    goTo(second, road, hands);
    return;
  }
  if (!course) {
    if (number === null) road.open("goto");
    else hands.tell(`There is no ${seen.course?.kind ?? "round"} ${number} in this piece.`);
    return;
  }
  const name = courseName(course).toLowerCase();
  hands.ask({
    text: after ? `You worked on, to the end of ${name}?` : `Go to ${name}?`,
    yes: (id) => {
      if (!after) road.move({ intent: "goto", to: course.first }, undefined, id);
      else if (course.end > seen.at) {
        begun.value = { answers: {}, course: course.label };
        road.open("passed");
      } else hands.tell(`${courseName(course)} is worked already.`);
    },
    ...(second && { no: () => goTo(second, road, hands) }),
  });
}

/** Ripping back: the nearest place first, and by every no the one before it. Nothing moves unasked. */
export function rip(heard: Heard, road: Road, hands: Hands): void {
  const { seen } = road;
  if (!seen) return;
  const called = [heard.number, heard.twin?.number].flatMap((n) => (n == null ? [] : (courseCalled(seen.strand, n)?.first ?? [])));
  const targets = heard.number === null ? ripTargets(seen, heard.unit) : called.filter((first) => first < seen.at);
  if (heard.number !== null && targets.length === 0) hands.tell(`There is no ${seen.course?.kind ?? "round"} ${heard.number} behind you.`);
  else if (targets.length === 0) hands.tell(refusalSentence("start"));
  else askRip(targets, seen, road, hands);
}

function askRip([to, ...rest]: number[], seen: Seen, road: Road, hands: Hands): void {
  if (to === undefined) {
    road.open("rip");
    return;
  }
  const spot = locate(seen.strand, to);
  const where = placeBrief(spot, spot.course === null ? undefined : seen.strand.courses[spot.course]);
  const { stitches, reopened } = costOf(seen.strand, seen.at, to);
  const first = reopened.map((cue) => undoing(cue, seen.strand.terms)).find(Boolean);
  const again = reopened.length > 0 ? ` ${reopened.length === 1 ? "One thing" : `${reopened.length} things`} will be asked again${first ? `: ${first}` : ""}.` : "";
  hands.ask({
    text: `Rip back ${stitches} ${stitches === 1 ? "stitch" : "stitches"}, to ${where.replace(/^at /, "")}?${again}`,
    yes: (id) => void road.move({ intent: "rip", to }, undefined, id),
    no: () => askRip(rest, seen, road, hands),
    words: ["yes, ripped", "no"],
  });
}
