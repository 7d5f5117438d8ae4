/**
 * The outline of a piece from its hoops, as paths: what is worked filled, the rest outlined, and where the hook is.
 *
 * A profile is [radius, height] of each hoop in mm, from the start; an oval has `straight` mm between its half circles.
 */

export type Hoop = readonly [number, number];

export interface Outline {
  /** Drawn from the side, or a disc from above. */
  view: "side" | "above";
  /** In mm; the drawing's own units. */
  width: number;
  height: number;
  whole: string;
  worked: string;
  /** Where the hook is: from one edge to the other, or the circle it goes round; null where nothing is worked. */
  hook: { y: number; half: number } | null;
}

/** A disc is drawn from above when it is this many times wider than deep. */
const FLAT = 4;

/** Four corners: a square or a rectangle, whose radii are half a side. */
const BOX = 4;

/**
 * `made`: hoops that are worked, counted from the start; a part of one is the share of its stitches. `corners` of a disc
 * whose increases stand above one another. `strip`: worked flat, it is never a disc, however short it is. `stands`: it goes
 * on from other pieces, and they are below it.
 */
export function outline(profile: readonly Hoop[], straight: number, made: number, corners = 0, strip = false, stands = false): Outline {
  const half = (hoop: Hoop) => hoop[0] + straight / 2;
  const widest = Math.max(...profile.map(half), 0.5);
  const low = Math.min(...profile.map((h) => h[1]));
  const deep = Math.max(...profile.map((h) => h[1])) - low;
  const now = at(profile, made);
  if (!strip && 2 * widest > FLAT * deep) {
    const disc = (radius: number) => {
      const r = Math.max(radius, 0);
      if (corners === BOX) return box(r, straight, widest);
      return corners > 2 && straight === 0 ? polygon(r, corners, widest) : stadium(r, straight, widest, widest);
    };
    // From the middle of a polygon to the middle of a side, as a share of the circle with its edge.
    const side = corners > 2 && corners !== BOX ? Math.PI / (corners * Math.tan(Math.PI / corners)) : 1;
    return {
      view: "above",
      width: 2 * widest,
      height: 2 * widest - straight,
      whole: disc(widest - straight / 2),
      worked: made > 0 ? disc(now[0]) : "",
      hook: made > 0 ? { y: widest - straight / 2, half: now[0] * side + straight / 2 } : null,
    };
  }
  // The start is at the top: heads begin at the crown, and what is worked hangs from it. What stays open at its end
  // stands on its start, as a cup does, and what goes on from legs stands on them.
  const cup = stands || half(profile.at(-1) ?? [0, 0]) > half(profile[0] ?? [0, 0]);
  const down = (z: number) => (cup ? low + deep - z : z - low);
  const point = (hoop: Hoop, side: 1 | -1): Point => [round(widest + side * half(hoop)), round(down(hoop[1]))];
  const loop = (hoops: readonly Hoop[]) => {
    if (hoops.length < 2) return "";
    const back = [...hoops].reverse();
    return `M${along(hoops.map((h) => point(h, 1)))}L${along(back.map((h) => point(h, -1)))}Z`;
  };
  const upTo = profile.slice(0, Math.floor(made) + 1);
  if (made < profile.length - 1 && made > Math.floor(made)) upTo.push(now);
  return {
    view: "side",
    width: 2 * widest,
    height: Math.max(deep, 0.5),
    whole: kept(profile, `${straight} ${cup}`, () => loop(profile)),
    worked: made > 0 ? loop(upTo) : "",
    hook: made > 0 ? { y: down(now[1]), half: half(now) } : null,
  };
}

/** While the hook goes on only what is worked is drawn anew: the whole is kept as long as its hoops are. */
const wholes = new WeakMap<readonly Hoop[], [how: string, path: string]>();

function kept(profile: readonly Hoop[], how: string, draw: () => string): string {
  const before = wholes.get(profile);
  if (before?.[0] === how) return before[1];
  const path = draw();
  wholes.set(profile, [how, path]);
  return path;
}

type Point = [number, number];

/** A line from the first point to the last that is drawn to each one between and turns there without a corner. */
function along(points: readonly Point[]): string {
  const first = points[0] ?? [0, 0];
  let path = first.join(",");
  for (let i = 1; i < points.length; i++) {
    const here = points[i] as Point;
    const next = points[i + 1];
    path += next ? `Q${here.join(",")} ${round((here[0] + next[0]) / 2)},${round((here[1] + next[1]) / 2)}` : `L${here.join(",")}`;
  }
  return path;
}

/** The hoop at a place between two. */
function at(profile: readonly Hoop[], made: number): Hoop {
  const last = profile.length - 1;
  const i = Math.min(Math.max(Math.floor(made), 0), last);
  const a = profile[i] ?? [0, 0];
  const b = profile[Math.min(i + 1, last)] ?? a;
  const share = Math.min(Math.max(made - i, 0), 1);
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
}

/** A polygon with the edge of a circle of this radius, a corner at the top: 2 pi r shared out over its sides. */
function polygon(r: number, corners: number, middle: number): string {
  const out = (Math.PI * r) / (corners * Math.sin(Math.PI / corners));
  const points = Array.from({ length: corners }, (_, i) => {
    const turn = (2 * Math.PI * i) / corners;
    return [round(middle + out * Math.sin(turn)), round(middle - out * Math.cos(turn))].join(",");
  });
  return `M${points.join("L")}Z`;
}

function box(r: number, straight: number, middle: number): string {
  const [left, right] = [round(middle - r - straight / 2), round(middle + r + straight / 2)];
  const y = middle - straight / 2;
  const [top, bottom] = [round(y - r), round(y + r)];
  return `M${left},${top}L${right},${top}L${right},${bottom}L${left},${bottom}Z`;
}

function stadium(r: number, straight: number, cx: number, widest: number): string {
  const y = widest - straight / 2;
  const left = round(cx - straight / 2);
  const right = round(cx + straight / 2);
  const [top, bottom, arc] = [round(y - r), round(y + r), `${round(r)},${round(r)} 0 0 1`];
  return `M${left},${top}L${right},${top}A${arc} ${right},${bottom}L${left},${bottom}A${arc} ${left},${top}Z`;
}

const round = (n: number) => Math.round(n * 10) / 10;

/** How many hoops stand behind a place: whole courses, and the share of the one in hand. */
export function hoopsMade(openings: readonly (number | null)[], course: number | null, share: number, finished: boolean): number {
  const measured = openings.slice(0, course ?? (finished ? openings.length : 0)).filter((o) => o !== null).length;
  return measured + (course !== null && openings[course] !== null ? share : 0);
}
