import type { Finding } from "../../generated/pattern";
import { gravity, inWorth } from "../read/sections";

/** What is to be mended in a text, that of the course in hand first; then what can't be followed, then what is to be looked at. */
export function toMend(findings: readonly Finding[], course: string | undefined): Finding[] {
  const wrong = inWorth(findings).filter((one) => gravity(one) === "error" || one.suggestions.length > 0);
  return [...wrong.filter((one) => one.course_id === course), ...wrong.filter((one) => one.course_id !== course)];
}
