import type { Strand } from "../../../generated/pattern";
import type { Expecting, Most, Said, Style } from "../../../hands/ear/events";
import { type Seen, waiting } from "../seen";
import { countingAt } from "./counting";

export type Mode = "waiting" | "settle" | "stop" | "unread" | "offer" | "finished" | "work";

/**
 * What is listened for while a word is asked back. With yes and no alone every sound would be one of them, and "next
 * round" a yes: so what makers say at any time is known too. It answers nothing; it puts the question away.
 */
export const ANSWERS: Said[] = ["yes", "no", "next", "stitch", "repeat", "round", "back", "done", "where", "left"];

/** What may be said now. `asked`: the answers to a question that is open; `held`: only "start listening" is heard. */
export function expectingAt(seen: Seen | null, mode: Mode, asked: Said[] | null, held: boolean, style: Style | null, recount = false): Expecting {
  if (held) return { waits: "question", answers: ["listen"], count: null };
  if (asked) return { waits: "question", answers: asked, count: null };
  switch (mode) {
    case "settle":
      return { waits: "question", answers: [...ANSWERS, "hold"], count: null };
    case "offer":
      return { waits: "question", answers: ["yes", "no", "back", "undo", "where", "hold"], count: null };
    case "unread":
      return { waits: "question", answers: ["count", "back", "undo", "where", "again", "hold"], count: null };
    case "stop":
      return { waits: "stop", answers: null, count: null };
    default:
      return {
        waits: seen && waiting(seen) ? "pause" : null,
        answers: null,
        count: seen && style ? countingAt(seen.strand, seen.at, style) : null,
        ...(recount && { recount }),
      };
  }
}

const FEW = 20; // stitches that may always be meant

/**
 * How many rounds and stitches there can be: "thirty" in a piece of 24 rounds was thirteen. Who counts too many says so,
 * twice as many as the widest round at most; and what is counted may be rounds.
 */
export function mostOf({ courses }: Strand): Most {
  const rounds = Math.max(0, ...courses.map((course) => Number(course.label)).filter(Number.isInteger));
  const known = courses.every((course) => course.read);
  const widest = Math.max(FEW, rounds, ...courses.map((course) => 2 * (course.makes ?? course.declared ?? 0)));
  return { ...(rounds > 0 && { rounds }), ...(known && { stitches: widest }) };
}
