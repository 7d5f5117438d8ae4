import "../../drawings/chart/chart.css";
import { render } from "preact";
import { PieceChart } from "../../drawings/chart/Chart";
import type { Hand } from "../../drawings/ring";
import type { Piece, Terms } from "../../generated/pattern";
import { worthDrawing } from "./sheet";

/**
 * For a file that the command line lays out: it is built into one script without imports, put into that file, and draws
 * what lies beside it when the file is opened. So charts are drawn in one place.
 */
interface Told {
  hand: Hand;
  terms: Terms;
  pieces: (Pick<Piece, "name" | "courses"> & { at: string })[];
}

const { hand, terms, pieces } = JSON.parse(document.getElementById("pieces")?.textContent ?? "{}") as Told;
for (const { at, name, courses } of pieces) {
  const figure = document.getElementById(at);
  if (!figure) continue;
  if (worthDrawing({ courses })) render(<PieceChart courses={courses} hand={hand} place={null} terms={terms} name={name} />, figure);
  else figure.remove();
}
