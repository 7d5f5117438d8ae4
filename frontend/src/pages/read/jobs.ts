import type { Course, Cue } from "../../generated/pattern";

const letters = (text: string) => text.toLowerCase().replace(/[^\p{L}\d]+/gu, " ").trim();

/** A job in its short words and, where the designer's own sentence says more (where, how far apart), in that one as well. */
export function jobWords(cue: Cue, words = cue.words.short): string {
  const own = cue.text.trim();
  if (!words || cue.basis !== "written") return words || own;
  if (letters(words).includes(letters(own))) return words;
  return letters(own).startsWith(letters(words)) ? own : `${words}: \u201c${own}\u201d`;
}

/** "In round 3, after 13 stitches: ", where the job stands inside a course. */
export function jobPlace(cue: Cue, inside: Course | undefined): string {
  if (cue.at === null || !inside) return "";
  return `In ${inside.kind} ${inside.label}, after ${cue.at} ${cue.at === 1 ? "stitch" : "stitches"}: `;
}
