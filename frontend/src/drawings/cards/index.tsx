import "./cards.css";
import type { Hand } from "../ring";
import { type Frame, SIZE } from "./kit";
import { closing, endsFlat, endsStuffed, sewingOn, shaping, stuffing } from "./making";
import { chain, chainSides, chainStart, colour, marker, picot, ring, secondRound } from "./rounds";
import { bobble, decrease, invisibleDecrease, invisibleIncrease, popcorn, shell, tallDecrease, twoInOne } from "./shaping";
import { double, extended, foundation, halfDouble, loops, post, reverse, single, slipStitch, spike, standing, surface, treble, turn } from "./stitches";

/** A card's key -> the frames of its drawing. */
export const DRAWINGS: Record<string, readonly Frame[]> = {
  ring,
  "chain-start": chainStart,
  chain,
  turn,
  "chain-sides": chainSides,
  foundation,
  standing,
  "slip-stitch": slipStitch,
  single,
  "half-double": halfDouble,
  double,
  treble,
  extended,
  reverse,
  spike,
  surface,
  loops,
  post,
  "two-in-one": twoInOne,
  "invisible-increase": invisibleIncrease,
  decrease,
  "invisible-decrease": invisibleDecrease,
  "tall-decrease": tallDecrease,
  bobble,
  popcorn,
  shell,
  picot,
  "second-round": secondRound,
  marker,
  colour,
  stuffing,
  closing,
  shaping,
  "ends-stuffed": endsStuffed,
  "ends-flat": endsFlat,
  "sewing-on": sewingOn,
};

/**
 * One frame, as the maker's own hands have it. What it shows is said by the step beside it: to those who do not see it,
 * it is nothing more.
 */
export const FrameDrawing = ({ frame, hand }: { frame: Frame; hand: Hand }) => (
  <svg class={`card-drawing ${hand}`} viewBox={`0 0 ${SIZE.width} ${SIZE.height}`} aria-hidden="true" focusable="false">
    <g transform={hand === "left" ? `translate(${SIZE.width} 0) scale(-1 1)` : undefined}>{frame.draw()}</g>
  </svg>
);
