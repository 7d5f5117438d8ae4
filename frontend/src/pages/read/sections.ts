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

/** How grave a finding is to the maker: where only a printed count is off, the stitches can still be followed. */
export const gravity = (finding: Finding): Severity => (finding.code === "count" ? "warning" : finding.severity);

const WORTH: readonly Severity[] = ["error", "warning", "note"];

/** The gravest first, and what is wrong in a round before what stands outside all of them; else as in the text. */
export const inWorth = (findings: readonly Finding[]): Finding[] =>
  [...findings].sort(
    (a, b) => WORTH.indexOf(gravity(a)) - WORTH.indexOf(gravity(b)) || Number(a.course_id === null) - Number(b.course_id === null),
  );

/** How many chains a course is made of; 0 where it is not a chain and nothing else. */
export function chain(course: Course): number {
  let n = 0;
  for (const node of course.body) {
    if (node.type !== "group" || node.stitch !== "ch") return 0;
    n += node.count;
  }
  return n;
}

/**
 * A course whose stitches and printed count differ: which of the two the courses after it need. The first that
 * works the printed number, or comes out at its own printed count from the stitches, decides; null: none does.
 */
export function needed(piece: Piece, id: string): { which: "stitches" | "printed"; by: Course; n: number } | null {
  const at = piece.courses.findIndex((c) => c.id === id);
  const course = piece.courses[at];
  if (!course || course.makes === null || course.declared === null) return null;
  let below = course.makes;
  for (const by of piece.courses.slice(at + 1)) {
    if (!by.read || by.uses === null || by.makes === null) return null;
    if (below === course.makes && by.uses === course.declared) return { which: "printed", by, n: course.declared };
    if (by.uses !== below) return null;
    if (by.declared !== null) return by.declared === by.makes ? { which: "stitches", by, n: course.makes } : null;
    below = by.makes;
  }
  return null;
}

/** Notes of one kind at several courses: each of the later ones, with the first. */
export function again(findings: readonly Finding[]): Map<Finding, Finding> {
  const first = new Map<string, Finding>();
  const later = new Map<Finding, Finding>();
  for (const f of findings) {
    if (f.course_id === null || gravity(f) !== "note") continue;
    const before = first.get(f.code);
    if (before) later.set(f, before);
    else first.set(f.code, f);
  }
  return later;
}

/** The state of the text in one sentence. What is noticed at many courses is one thing. */
export function verdict(findings: readonly Finding[], courses: number): string {
  const of = (s: Severity) => findings.filter((f) => gravity(f) === s).length;
  const things = of("note") - again(findings).size;
  const noticed = things ? `; ${things} ${things === 1 ? "thing" : "things"} noticed` : "";
  const places = (n: number) => `${n} ${n === 1 ? "place" : "places"}`;
  const broken = of("error");
  const odd = of("warning");
  if (broken && odd) return `${places(broken)} can't be followed, ${places(odd)} to look at${noticed}.`;
  if (broken) return `${places(broken)} can't be followed${noticed}.`;
  if (!courses) return "No rounds or rows here yet.";
  if (odd) return `${places(odd)} to look at; the rest adds up${noticed}.`;
  return `Every count adds up${noticed}.`;
}
