import type { Point } from "./ring";

/** One leg of a stitch on the drawing, from its foot (where it is worked into) to its tip. */
export interface Leg {
  foot: Point;
  tip: Point;
  worked: boolean;
}

const at = (p: Point) => `${p.x.toFixed(1)} ${p.y.toFixed(1)}`;
const lines = (legs: readonly Leg[]) => legs.map((l) => `M${at(l.foot)}L${at(l.tip)}`).join("");

/**
 * Legs in three strokes, however many there are: a broad one for every leg, a paper one inside those that are not
 * worked, which leaves their outline. Legs that share a foot or a tip grow together.
 */
export function legStrokes(legs: readonly Leg[], thick: number) {
  const worked = lines(legs.filter((l) => l.worked));
  const ahead = lines(legs.filter((l) => !l.worked));
  return (
    <>
      <path class="leg" d={ahead} style={{ strokeWidth: thick }} />
      <path class="leg hollow" d={ahead} style={{ strokeWidth: Math.max(1.2, thick - 3) }} />
      <path class="leg worked" d={worked} style={{ strokeWidth: thick }} />
    </>
  );
}

/** The hook, its throat at x, y; unturned it comes from below, its mouth open towards the right, where the work runs. */
export function HookMark({ x, y, turn, mirror }: { x: number; y: number; turn: number; mirror: boolean }) {
  return (
    <g class="hook" transform={`translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${turn.toFixed(1)})${mirror ? " scale(-1 1)" : ""}`}>
      <path class="shaft" d="M-3 25L-1 3C0 -5 9 -4 8 4" />
    </g>
  );
}
