import type { Said } from "../../../hands/ear/events";
import type { Session } from "../../../hands/session";
import { lastCourse, placeBrief, placeSentence, sentences, whenNow } from "../place";
import { waiting } from "../seen";
import type { Road } from "./road";
import { aheadSaid, courseSaid, leftSaid, lostSaid } from "./spoken";

/** An answer to "where", "how many left" and the like; null for what is no such question. */
export function answerTo(intent: Said, { seen }: Road, session: Pick<Session, "speech"> | null): string | null {
  if (!seen) return null;
  switch (intent) {
    case "where":
      // Something waits: then where it waits belongs to the answer.
      return waiting(seen)
        ? sentences([whenNow(seen.spot, seen.strand.courses), placeSentence(seen.spot, seen.course)])
        : placeSentence(seen.spot, seen.course);
    case "left":
      return leftSaid(seen);
    case "ahead":
      return aheadSaid(seen);
    case "lost":
      return lostSaid(seen);
    case "again": {
      const now = waiting(seen);
      return session?.speech.last || (now ? aheadSaid(seen) : seen.course ? courseSaid(seen.course) : placeSentence(seen.spot, seen.course));
    }
    default:
      return null;
  }
}

/** What is said when the sitting ends: where it will go on. */
export function farewell({ seen, title }: Road): string {
  if (!seen) return "Everything is kept.";
  const before = lastCourse(seen.strand.courses, seen.spot.course, seen.counts);
  const place = placeBrief(seen.spot, seen.course);
  return `${title ? `${title}: ` : ""}you stop ${place.startsWith("at") || place.startsWith("after") ? place : `in ${place}`}.${before ? ` ${before}.` : ""} Everything is kept.`;
}
