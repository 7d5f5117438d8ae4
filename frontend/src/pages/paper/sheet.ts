import type { Snapshot } from "../../api";
import { coursesDone, stitchesBetween } from "../../follow/place";
import type { Course, Cue, Pattern, Piece, Strand } from "../../generated/pattern";
import { type Called, calledIn, inHerWords, strandInHerWords } from "../bench/colours/wording";
import { isSection } from "../bench/seen";

/** A piece on paper: its rounds, and which of them lie behind each copy that is worked by them. */
export interface Laid {
  piece: Piece;
  made: number;
  /** By copy, the ids of courses that are worked, and the addresses of jobs that lie behind. */
  worked: ReadonlySet<string>[];
}

/** More copies than boxes fit beside a round are ticked on a line of their own. */
export const MOST_BOXES = 6;

/** The pieces of a pattern as the text has them. */
export const ofPattern = (pattern: Pattern): Laid[] => pattern.pieces.map((piece) => ({ piece, made: piece.make, worked: [] }));

/** The pieces of a making as they are worked there: in its terms, her colours, mends with it. Copies that differ stand by themselves. */
export function ofMaking(snapshot: Snapshot): Laid[] {
  const laid = new Map<string, Laid & { number: string | undefined; copies: number[] }>();
  for (const run of snapshot.runs) {
    const now = snapshot.state.runs[run.run];
    const strand = now && snapshot.strands[now.strand];
    if (!now || !strand) continue;
    const called = calledIn(snapshot.choices ?? {}, run.run);
    const key = `${run.run.split(".")[0]} ${strand.id} ${JSON.stringify(called)}`;
    const one = laid.get(key) ?? { piece: pieceOf(strandInHerWords(strand, called), run.piece, called), made: 0, worked: [], number: key.split(" ")[0], copies: [] };
    one.made += 1;
    one.copies.push(run.copy);
    const jobs = strand.cues.filter((cue) => cue.step < now.at).map((cue) => cue.address);
    one.worked.push(new Set([...strand.courses.slice(0, coursesDone(strand, now.at)).map((course) => course.id), ...jobs]));
    laid.set(key, one);
  }
  const all = [...laid.values()];
  return all.map(({ number, copies, piece, ...rest }) => {
    const alone = all.filter((other) => other.number === number).length === 1;
    return { ...rest, piece: alone ? piece : { ...piece, name: `${piece.name} ${copies.join(", ")}` } };
  });
}

function pieceOf(strand: Strand, name: string, called: Called): Piece {
  const courses = strand.courses.map((course): Course => ({ ...course, line: 0 }));
  const cues = strand.cues.map((cue): Cue => {
    const after = strand.courses.findLast((course) => course.first < cue.step);
    const at = after && cue.step < after.end ? stitchesBetween(strand, after.first, cue.step) : null;
    return { ...cue, text: inHerWords(cue.text, called), after: after?.label ?? "", course_id: after?.id ?? null, at, line: 0, advice: "" };
  });
  const told = isSection(strand) ? cues : cues.filter((cue) => cue.weight !== "whisper" || cue.basis === "written");
  return { name, make: 1, line: 0, courses, cues: told };
}

/** Whether a chart of the piece can be read on a sheet: a large one is a grey disc. */
export const worthDrawing = ({ courses }: Pick<Piece, "courses">): boolean =>
  courses.length > 1 && courses.length <= 40 && Math.max(...courses.map((course) => course.makes ?? 0)) <= 60;
