import type { Snapshot } from "../../api";
import { coursesDone } from "../../follow/place";
import type { Pattern, Piece } from "../../generated/pattern";

/** Copies of a piece on paper: how many boxes each round gets, and how many of its rounds each copy has behind it. */
export interface Copies {
  made: number;
  /** By copy, the ids of courses that are worked. */
  worked: ReadonlySet<string>[];
}

/** More copies than boxes fit beside a round are ticked on a line of their own. */
export const MOST_BOXES = 6;

/** How many of each piece, by its place in the pattern: as the text says, or as a making has them. */
export function copiesOf(pattern: Pattern, snapshot: Snapshot | null): Copies[] {
  return pattern.pieces.map((piece, index) => {
    const runs = snapshot?.runs.filter((run) => run.piece === piece.name || run.run.startsWith(`p${index + 1}.`)) ?? [];
    if (!snapshot || runs.length === 0) return { made: piece.make, worked: [] };
    return {
      made: runs.length,
      worked: runs.map((run) => {
        const now = snapshot.state.runs[run.run];
        const strand = now && snapshot.strands[now.strand];
        return new Set(strand ? strand.courses.slice(0, coursesDone(strand, now.at)).map((course) => course.id) : []);
      }),
    };
  });
}

/** Whether a chart of the piece can be read on a sheet: a large one is a grey disc. */
export const worthDrawing = (piece: Piece): boolean =>
  piece.courses.length > 1 && piece.courses.length <= 40 && Math.max(...piece.courses.map((course) => course.makes ?? 0)) <= 60;
