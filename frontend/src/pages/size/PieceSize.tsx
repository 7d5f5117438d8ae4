import { OutlineDrawing } from "../../drawings/OutlineDrawing";
import type { PieceMeasures } from "../../generated/pattern";
import { isDisc, length, metres, short } from "./words";

interface Props {
  piece: PieceMeasures;
  /** By what share of the room it is drawn: all pieces of a pattern have one scale. */
  share: number;
  /** It is too small for that scale. */
  larger: boolean;
}

/** One piece: its outline, and what it comes to. */
export function PieceSize({ piece, share, larger }: Props) {
  const flat = piece.lies_flat ? ", lying flat" : "";
  const disc = isDisc(piece);
  const label = `${piece.name || "The piece"} from the side: ${length(piece.width_mm)} wide, ${length(piece.height_mm)} high.`;
  return (
    <section class="piece-size">
      <h2>
        {piece.name || "The piece"}
        {piece.make > 1 && <small> make {piece.make}</small>}
      </h2>
      {piece.profile_mm.length > 1 && (
        <figure style={{ "--share": share }}>
          <OutlineDrawing profile={piece.profile_mm} straight={piece.straight_mm} made={0} corners={piece.corners} strip={piece.lies_flat} stands={piece.joined !== null} label={label} />
          {larger && <figcaption class="soft">drawn larger than the others</figcaption>}
        </figure>
      )}
      <dl class="table">
        {piece.height_mm.value > 0 && !disc && (
          <>
            <dt>{piece.lies_flat ? "Long" : "High"}</dt>
            <dd>{length(piece.height_mm)}</dd>
          </>
        )}
        {piece.width_mm.value > 0 && (
          <>
            <dt>{disc ? "Across" : "Wide"}</dt>
            <dd>
              {length(piece.width_mm)}
              {disc ? "" : `, at ${piece.widest_at}${flat}`}
            </dd>
          </>
        )}
        <dt>Yarn</dt>
        <dd>{metres(piece.yarn_m)}</dd>
        {piece.stuffing_g.value > 0 && (
          <>
            <dt>Stuffing</dt>
            <dd>
              {short(piece.stuffing_g.low)} to {short(piece.stuffing_g.high)} g
            </dd>
          </>
        )}
      </dl>
      {piece.ruffled_at.length > 0 && <p>It ruffles at {piece.ruffled_at.join(", ")}: more stitches than lie flat.</p>}
      {piece.said.map((line) => (
        <p key={line} class="soft">
          {line}
        </p>
      ))}
    </section>
  );
}
