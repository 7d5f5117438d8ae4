import type { Course, Group, Node, StrandCourse } from "../../generated/pattern";
import { type Hand, point } from "../ring";
import type { At } from "./lay";

/**
 * What a chart of rounds has in its middle: what the first round is worked into.
 *
 * ring    a ring that is drawn shut
 * loop    so many chains joined to a ring: the number stands in it
 * chain   a chain, worked along both sides: an oval for each
 * parts   other pieces, "first leg" and "second leg", and the chain between them
 * edge    the open edge of what lies below
 */
export type Middle =
  | { kind: "ring" }
  | { kind: "loop"; chains: number }
  | { kind: "chain"; chains: number }
  | { kind: "parts"; parts: Part[]; chains: number }
  | { kind: "edge"; radius: number };

/** A piece that is worked in, the `nth` in the round. */
interface Part {
  name: string;
  nth: number;
  at: At;
  radius: number;
}

type First = Pick<Course | StrandCourse, "body"> & { uses?: number | null };

const RING = 1.1; // radius that is left free about a ring
const SPACED = 0.9; // of a stitch on an edge, along it
const PART = 0.22; // radius of a part that is worked in, for each of its stitches...
const LEAST = 1.5; // ...and the least and most of it
const MOST = 2.6;
export const OVAL = 0.9; // length of a chain

/** What stands in the middle of these rounds, and the radius at which the first of them begins. */
export function middleOf(first: First | undefined, hand: Hand): { middle: Middle; radius: number } {
  const groups = flat(first?.body ?? []);
  const chains = groups.filter((g) => g.stitch === "ch" && g.makes === 0).reduce((n, g) => n + g.count, 0);
  const worked = groups.filter((g) => g.makes > 0);
  const parts = into(worked);
  if (parts.length > 0) {
    const total = worked.reduce((n, g) => n + g.count * g.makes, 0);
    const wide = parts.map((p) => Math.min(MOST, Math.max(LEAST, PART * p.stitches)));
    const half = wide.reduce((sum, r) => sum + r, 0) + (Math.max(0, parts.length - 1) * chains * OVAL) / 2;
    const placed = along(parts, wide, half, chains, total, hand);
    return { middle: { kind: "parts", parts: placed, chains }, radius: Math.max(half + 0.6, (SPACED * total) / (2 * Math.PI)) };
  }
  if (groups.some((g) => g.stitch === "ring" || g.into === "ring" || /\bfrom hook\b/.test(g.into ?? "")) && !alongBoth(worked)) {
    return { middle: chains > 3 ? { kind: "loop", chains } : { kind: "ring" }, radius: RING };
  }
  if (alongBoth(worked) && chains > 1) return { middle: { kind: "chain", chains: chains - 1 }, radius: Math.max(RING, ((chains - 1) * OVAL) / 2 + 0.4) };
  const below = worked.reduce((n, g) => n + g.count * g.uses, 0);
  if (below > 0) {
    const radius = Math.max(RING, (SPACED * below) / (2 * Math.PI));
    return { middle: { kind: "edge", radius: radius - 0.2 }, radius };
  }
  return { middle: chains > 3 ? { kind: "loop", chains } : { kind: "ring" }, radius: RING };
}

const alongBoth = (worked: readonly Group[]): boolean => worked.some((g) => g.into?.includes("other side"));

/** The pieces that a round is worked into, in their order, with how many stitches go into each. */
function into(worked: readonly Group[]): { name: string; stitches: number; from: number }[] {
  const found: { name: string; stitches: number; from: number }[] = [];
  let made = 0;
  for (const g of worked) {
    const name = PIECE.exec(g.into ?? "")?.[1]?.trim();
    const last = found.at(-1);
    if (name && last?.name === name) last.stitches += g.count * g.makes;
    else if (name) found.push({ name, stitches: g.count * g.makes, from: made });
    made += g.count * g.makes;
  }
  return found.length > 1 ? found : [];
}

/** "first leg", "around the second leg", "leg 2"; no chain, ring, loop or stitch. */
const PIECE = /^(?:(?:around|along|on|in|into)\s+)?(?:the\s+)?((?!.*\b(?:ch|chain|chains|ring|loop|loops|side|hook|sp|space|st|stitch|same|next|last)\b)[a-z][\w -]*)$/i;

/** Beside one another, each on the side on which the round passes it. */
function along(parts: readonly { name: string; stitches: number; from: number }[], wide: readonly number[], half: number, chains: number, total: number, hand: Hand) {
  const side = (i: number): number => {
    const part = parts[i];
    return part ? point((2 * Math.PI * (part.from + part.stitches / 2)) / total, 1, hand).x : 0;
  };
  const order = parts.map((_, i) => i).sort((a, b) => side(a) - side(b));
  const placed: Part[] = [];
  let left = -half;
  for (const i of order) {
    const radius = wide[i] ?? LEAST;
    placed.push({ name: parts[i]?.name ?? "", nth: i, at: { x: left + radius, y: 0 }, radius });
    left += 2 * radius + chains * OVAL;
  }
  return placed;
}

function flat(body: readonly Node[]): Group[] {
  return body.flatMap((node) => (node.type === "group" ? [node] : Array.from({ length: node.times }, () => flat(node.body)).flat()));
}
