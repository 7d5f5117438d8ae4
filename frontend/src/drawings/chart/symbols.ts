import type { At, Placed } from "./lay";

/**
 * Chart symbols as strokes, after JIS L 0201 and the Craft Yarn Council's list of 2018: a cross for single crochet, a T
 * for half double, with one slash for each turn of the yarn more, a dot for a slip stitch. Increases part from one foot,
 * decreases meet in one tip. Which way the arc of a single loop bends differs between keys (from memory): the key beside
 * the chart says ours.
 */
export interface Strokes {
  /** Drawn as lines. */
  line: string;
  /** Drawn filled. */
  fill: string;
}

export function strokes(stitch: Placed): Strokes {
  const { symbol, feet, tips } = stitch;
  const [family = "cross", ...rest] = symbol.split("-");
  const slashes = Number(rest.find((part) => /^\d$/.test(part)) ?? 0);
  const lines: string[] = [];
  let fill = "";
  const forks = Math.max(feet.length, tips.length);
  if (family === "dot") fill = dot(middle(feet, tips), 0.24);
  else if (family === "bobble" || family === "cluster" || family === "popcorn" || family === "puff" || family === "shell") {
    lines.push(...bundle(family, feet[0] as At, tips));
  } else if (family === "tee") {
    for (let i = 0; i < forks; i++) lines.push(stem(pick(feet, i), pick(tips, i), slashes));
  } else if (forks > 1) {
    for (let i = 0; i < forks; i++) lines.push(line(pick(feet, i), pick(tips, i), 0.12, 0.95));
  } else {
    lines.push(cross(pick(feet, 0), pick(tips, 0)));
    if (family === "cross" && rest.includes("wave")) lines.push(wave(pick(feet, 0), pick(tips, 0)));
  }
  if (stitch.loops) lines.push(arc(pick(feet, 0), pick(tips, 0), stitch.loops === "back" ? 1 : -1));
  return { line: lines.join(""), fill };
}

const pick = (points: readonly At[], i: number): At => points[Math.min(i, points.length - 1)] as At;
const n = (v: number): string => (Math.round(v * 100) / 100).toString();
const p = (at: At): string => `${n(at.x)} ${n(at.y)}`;
const between = (a: At, b: At, share: number): At => ({ x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share });
const line = (a: At, b: At, from: number, to: number): string => `M${p(between(a, b, from))}L${p(between(a, b, to))}`;

/** A step to the side of a stem, so far. */
function aside(a: At, b: At, far: number): At {
  const long = Math.hypot(b.x - a.x, b.y - a.y) || 1;
  return { x: (-(b.y - a.y) / long) * far, y: ((b.x - a.x) / long) * far };
}

const plus = (a: At, b: At, k = 1): At => ({ x: a.x + b.x * k, y: a.y + b.y * k });

function cross(foot: At, tip: At): string {
  const mid = between(foot, tip, 0.55);
  const out = aside(foot, tip, 0.3);
  const up = { x: out.y, y: -out.x };
  return `M${p(plus(plus(mid, out), up))}L${p(plus(plus(mid, out, -1), up, -1))}M${p(plus(plus(mid, out, -1), up))}L${p(plus(plus(mid, out), up, -1))}`;
}

function stem(foot: At, tip: At, slashes: number): string {
  const bar = aside(foot, tip, 0.34);
  const top = between(foot, tip, 0.97);
  let path = `${line(foot, tip, 0.1, 0.97)}M${p(plus(top, bar))}L${p(plus(top, bar, -1))}`;
  for (let i = 0; i < slashes; i++) {
    const at = between(foot, tip, 0.55 + (i - (slashes - 1) / 2) * 0.14);
    const rise = { x: (tip.x - foot.x) * 0.06, y: (tip.y - foot.y) * 0.06 };
    path += `M${p(plus(plus(at, bar, 0.7), rise))}L${p(plus(plus(at, bar, -0.7), rise, -1))}`;
  }
  return path;
}

/** Several stems from one foot: to one tip, bulging, or to a tip each. */
function bundle(family: string, foot: At, tips: readonly At[]): string[] {
  if (family === "shell" || tips.length > 1) return tips.map((tip) => stem(foot, tip, 1));
  const tip = pick(tips, 0);
  const mid = between(foot, tip, 0.5);
  const out = aside(foot, tip, 0.42);
  const bows = [1, 0, -1].map((k) => `M${p(between(foot, tip, 0.08))}Q${p(plus(mid, out, k))} ${p(between(foot, tip, 0.92))}`);
  const top = between(foot, tip, 0.95);
  const bar = `M${p(plus(top, out, 0.7))}L${p(plus(top, out, -0.7))}`;
  return family === "puff" ? bows : family === "popcorn" ? [...bows, ring(top, 0.2)] : [...bows, bar];
}

function wave(foot: At, tip: At): string {
  const out = aside(foot, tip, 0.36);
  const top = between(foot, tip, 1.05);
  return `M${p(plus(top, out))}Q${p(plus(plus(top, out, 0.5), { x: 0, y: -0.18 }))} ${p(top)}T${p(plus(top, out, -1))}`;
}

/** An arc under the stitch: open upwards for the back loop, downwards for the front one. */
function arc(foot: At, tip: At, way: 1 | -1): string {
  const low = between(foot, tip, 0.06);
  const out = aside(foot, tip, 0.36);
  const dip = { x: (foot.x - tip.x) * 0.16 * way, y: (foot.y - tip.y) * 0.16 * way };
  return `M${p(plus(low, out))}Q${p(plus(low, dip))} ${p(plus(low, out, -1))}`;
}

const middle = (feet: readonly At[], tips: readonly At[]): At => between(pick(feet, 0), pick(tips, 0), 0.5);
const dot = (at: At, r: number): string => ring(at, r);
const ring = (at: At, r: number): string =>
  `M${n(at.x - r)} ${n(at.y)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
