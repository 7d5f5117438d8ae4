import { type Hoop, outline } from "../../drawings/outline";
import type { Spread } from "../../generated/pattern";

/** "about 10 cm, 8.6 to 11.4": a length in mm for people. */
export function length(mm: Spread): string {
  const [value, low, high] = [mm.value, mm.low, mm.high].map((n) => cm(n));
  return `about ${value} cm, between ${low} and ${high}`;
}

/** Centimetres with as many digits as they deserve. */
export const cm = (mm: number): string => (mm >= 200 ? (mm / 10).toFixed(0) : (mm / 10).toFixed(1).replace(/\.0$/, ""));

/** "about 34 m, between 23 and 50". */
export const metres = (m: Spread): string => `about ${short(m.value)} m, between ${short(m.low)} and ${short(m.high)}`;

export const grams = (g: Spread): string => `about ${short(g.value)} g, between ${short(g.low)} and ${short(g.high)}`;

export const short = (n: number): string => (n >= 10 ? n.toFixed(0) : n >= 1 ? n.toFixed(1).replace(/\.0$/, "") : n.toFixed(2));

/** A finger is about 16 mm across (common practice, no source). */
const FINGER = 16;

/** "open 48 mm, room for three fingers": what an opening is to a hand. */
export function opening(mm: number): string {
  return `open ${cm(mm)} cm across, ${fingers(mm)}`;
}

export function fingers(mm: number): string {
  const n = Math.floor(mm / FINGER);
  if (n < 1) return "too small for a finger";
  if (n > 4) return "room for a hand";
  return `room for ${["one finger", "two fingers", "three fingers", "four fingers"][n - 1]}`;
}

/** Whether a piece is a disc to the eye: much wider than deep. */
export const isDisc = (piece: { height_mm: Spread; width_mm: Spread; lies_flat: boolean }): boolean =>
  !piece.lies_flat && piece.width_mm.value > 4 * piece.height_mm.value;

/** How wide and high a piece is drawn, mm: discs lie as seen from above. */
function drawn({ profile_mm, straight_mm, lies_flat }: Drawn): number {
  const { width, height } = outline(profile_mm, straight_mm, 0, 0, lies_flat);
  return Math.max(width, height);
}

type Drawn = { profile_mm: readonly Hoop[]; straight_mm: number; lies_flat: boolean };

/** Below this share of the largest a piece could not be made out. */
const LEAST = 0.16;

/**
 * By what share of the room each piece is drawn, so that all have one scale; `larger`: it is too small for that, and is
 * drawn larger than it would be.
 */
export function toScale(pieces: readonly Drawn[]): { share: number; larger: boolean }[] {
  const sizes = pieces.map((piece) => (piece.profile_mm.length > 1 ? drawn(piece) : 0));
  const largest = Math.max(...sizes, 1);
  return sizes.map((size) => ({ share: Math.max(LEAST, size / largest), larger: size > 0 && size / largest < LEAST }));
}
