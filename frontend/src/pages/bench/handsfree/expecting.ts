import type { Expecting, Said, Style } from "../../../hands/ear/events";
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
