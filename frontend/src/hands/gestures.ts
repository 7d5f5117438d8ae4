/** What a finger did on the open part of the bench. None of it needs aim, a second tap or a long press. */
export type Gesture = "tap" | "left" | "right" | "up" | "down";

export interface Stroke {
  dx: number;
  dy: number;
  /** Milliseconds from touch to lift. */
  time: number;
}

/** A finger that rolls, or a hand that shakes, still taps. */
export const TAP_SLOP = 26;
/** A stroke shorter than this means nothing: better no move than a wrong one. */
export const STROKE = 48;

/** null where the stroke is too short or too slanted to be sure of. */
export function gestureOf({ dx, dy }: Stroke): Gesture | null {
  const far = Math.hypot(dx, dy);
  if (far <= TAP_SLOP) return "tap";
  if (far < STROKE) return null;
  const wide = Math.abs(dx);
  const tall = Math.abs(dy);
  if (wide >= 1.5 * tall) return dx < 0 ? "left" : "right";
  if (tall >= 1.5 * wide) return dy < 0 ? "up" : "down";
  return null;
}
