import type { Course, Cue, Finding, Piece, Severity } from "../../generated/pattern";

/** Courses that say the same, once: "rounds 9 to 12". */
export interface Stretch {
  courses: Course[];
  findings: Finding[];
  /** Cues due inside or after these courses. */
  cues: Cue[];
}

const same = (a: Course, b: Course) =>
  a.line === b.line && a.text === b.text && a.kind === b.kind && a.uses === b.uses && a.makes === b.makes && a.read && b.read;

/** A piece as the read-through shows it: what comes before its first course, then its stretches. */
export function stretches(piece: Piece, findings: readonly Finding[]): { before: Cue[]; stretches: Stretch[] } {
  const cues = new Map<string | null, Cue[]>();
  for (const cue of piece.cues) cues.set(cue.course_id, [...(cues.get(cue.course_id) ?? []), cue]);
  const found = new Map<string, Finding[]>();
  for (const f of findings) if (f.course_id) found.set(f.course_id, [...(found.get(f.course_id) ?? []), f]);
  const list: Stretch[] = [];
  for (const course of piece.courses) {
    const mine = { findings: found.get(course.id) ?? [], cues: cues.get(course.id) ?? [] };
    const last = list.at(-1);
    const before = last?.courses.at(-1);
    if (last && before && same(before, course) && !last.cues.length && !last.findings.length && !mine.findings.length) {
      last.courses.push(course);
      last.cues = mine.cues;
    } else list.push({ courses: [course], ...mine });
  }
  return { before: cues.get(null) ?? [], stretches: list };
}

/** "Round 4", "Rounds 9 to 12". */
export function name({ courses }: Stretch): string {
  const [first] = courses;
  const last = courses.at(-1);
  if (!first || !last) return "";
  const kind = first.kind === "row" ? "Row" : "Round";
  if (first === last) return first.label === "0" ? (first.kind === "row" ? "First row" : "Start") : `${kind} ${first.label}`;
  return `${kind}s ${first.label} to ${last.label}`;
}

export const SAID: Record<Severity, string> = { error: "Can't be followed", warning: "Look here", note: "Noticed" };

/** The state of the text in one sentence. */
export function verdict(findings: readonly Finding[], courses: number): string {
  const of = (s: Severity) => findings.filter((f) => f.severity === s).length;
  const places = (n: number) => `${n} ${n === 1 ? "place" : "places"}`;
  const broken = of("error");
  const odd = of("warning");
  if (broken && odd) return `${places(broken)} can't be followed, ${places(odd)} to look at.`;
  if (broken) return `${places(broken)} can't be followed.`;
  if (!courses) return "No rounds or rows here yet.";
  if (odd) return `${places(odd)} to look at; the rest adds up.`;
  return "Every count adds up.";
}
