import { PieceChart } from "../../drawings/chart/Chart";
import type { Hand } from "../../drawings/ring";
import { isSection, pieceName, type Seen } from "./seen";
import { Sheet } from "./sheet";

/** The piece in hand as a chart, the stitch in hand marked; on paper it is alone on its page. */
export function ChartSheet({ seen, hand, close }: { seen: Seen; hand: Hand; close: () => void }) {
  const { course } = seen.spot;
  if (isSection(seen.strand))
    return (
      <Sheet title={`${pieceName(seen)}, chart`} close={close} walked>
        <p>There is nothing to draw here: this section has no rounds or rows. Take up a piece to see its chart.</p>
      </Sheet>
    );
  return (
    <Sheet title={`${pieceName(seen)}, chart`} close={close} walked>
      <PieceChart
        courses={seen.strand.courses}
        hand={hand}
        place={{ course: course ?? seen.strand.courses.length, done: seen.done }}
        terms={seen.strand.terms}
        name={seen.piece}
      />
      <p class="soft chart-wide">Larger than the screen? Push it about with a finger; the stitch in hand is marked.</p>
      <p class="soft">
        {seen.strand.courses.some((c) => c.kind === "round") ? "Seen from outside, the way your hand goes." : "Seen from the right side."}{" "}
        Publishers draw some symbols in other ways; these are ours.
      </p>
      <div class="sheet-answers">
        <button type="button" class="answer" onClick={() => print()}>
          Print
        </button>
      </div>
    </Sheet>
  );
}
