import { AWAY, ask, Refused } from "../../api";
import type { Terms } from "../../generated/pattern";

/** How one course was read, in the server's words. */
export interface Explanation {
  line: number;
  text: string;
  title: string;
  course: string | null;
  /** Words as printed, and what each was taken for. */
  parts: { text: string; sense: string }[];
  /** The arithmetic, and why it was read so. */
  says: string[];
  noticed: string[];
}

/** Asks how courses were read; the answers of one reading are kept. */
export function explainer() {
  let of: object | null = null;
  let told = new Map<string, Promise<Explanation>>();
  return (reading: { text: string; terms: Terms | null } | null, course: string): Promise<Explanation> => {
    if (!reading) return Promise.reject(new Refused("Nothing is read yet.", AWAY));
    if (of !== reading) {
      of = reading;
      told = new Map();
    }
    const known = told.get(course);
    if (known) return known;
    const { text, terms } = reading;
    const asked = ask<Explanation>("POST", "/api/explain", { text, terms, course });
    const kept = told;
    kept.set(course, asked);
    asked.catch(() => kept.delete(course)); // asked again, it may answer
    return asked;
  };
}
