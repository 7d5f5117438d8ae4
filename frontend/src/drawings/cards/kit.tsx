import type { ComponentChildren, JSX } from "preact";
import { through } from "../thread";

/*
 * What the cards are drawn with: yarn as a cord with an edge, so that one sees what lies over and what under. Whatever is
 * painted later lies over. All is drawn for a right hand, work running to the left; for a left hand the whole is mirrored.
 */

export type Point = readonly [number, number];

/** ground: made before; hand: in the making; comes: the yarn or thread that comes next. */
export type Tone = "ground" | "hand" | "comes";

/** How large a drawing is, in its own units. */
export const SIZE = { width: 240, height: 170 };

const path = (points: readonly Point[] | string): string => (typeof points === "string" ? points : through(points));

/** A length of yarn; `goes`: it goes on where it ends here, in another piece that is painted before or after something. */
export function Yarn({ on, tone = "hand", thick = 7, goes = false }: { on: readonly Point[] | string; tone?: Tone; thick?: number; goes?: boolean }) {
  const d = path(on);
  return (
    <g class={`yarn ${tone}${goes ? " goes" : ""}`}>
      <path class="edge" d={d} style={{ strokeWidth: thick + 3.2 }} />
      <path class="cord" d={d} style={{ strokeWidth: thick }} />
    </g>
  );
}

/** A thread, and what of it runs hidden inside the work. */
export const Thread = ({ on, hidden = false }: { on: readonly Point[] | string; hidden?: boolean }) => (
  <path class={hidden ? "sewing hidden" : "sewing"} d={path(on)} />
);

/** A way to go, with its head at the end. */
export function Way({ on }: { on: readonly Point[] }) {
  const [last, before] = [on.at(-1) ?? [0, 0], on.at(-2) ?? [0, 0]];
  const turn = (Math.atan2(last[1] - before[1], last[0] - before[0]) * 180) / Math.PI;
  return (
    <g class="way-to">
      <path d={path(on)} />
      <path class="head" d="M-11 -6.5L2 0L-11 6.5" transform={`translate(${last[0]} ${last[1]}) rotate(${turn.toFixed(1)})`} />
    </g>
  );
}

/** Not here. */
export const Not = ({ at: [x, y] }: { at: Point }) => <path class="not" d={`M${x - 9} ${y - 9}l18 18m0 -18l-18 18`} />;

/** A number, upright for either hand. */
export const Mark = ({ at: [x, y], children }: { at: Point; children: ComponentChildren }) => (
  <text class="count-mark" x={x} y={y} text-anchor="middle">
    {children}
  </text>
);

/** The hook, its tip at a point; unturned it points to the left, its mouth downwards. */
export const Hook = ({ at: [x, y], turn = 0, long = 230 }: { at: Point; turn?: number; long?: number }) => (
  <path
    class="tool"
    transform={`translate(${x} ${y}) rotate(${turn})`}
    d={`M5 -5.5H${long}V5.5H31C24 5.5 21 0 16 -.5C13 0 12 3 11.5 6.5H7C2 5.5 0 3 0 .5C0 -3 2 -5.5 5 -5.5Z`}
  />
);

/** A blunt needle, its tip at a point, its eye at the far end. */
export const Needle = ({ at: [x, y], turn = 0, long = 74 }: { at: Point; turn?: number; long?: number }) => (
  <g transform={`translate(${x} ${y}) rotate(${turn})`}>
    <path class="tool" d={`M0 0C4 -3 9 -3.6 16 -3.6H${long - 4}C${long + 2} -3.6 ${long + 2} 3.6 ${long - 4} 3.6H16C9 3.6 4 3 0 0Z`} />
    <path class="eye-of" d={`M${long - 16} 0H${long - 6}`} />
  </g>
);

/** A part of a drawing from near, its middle in the middle. */
export const Near = ({ to: [cx, cy], times = 1.6, children }: { to: Point; times?: number; children: ComponentChildren }) => (
  <g transform={`translate(${SIZE.width / 2 - cx * times} ${SIZE.height / 2 - cy * times}) scale(${times})`}>{children}</g>
);

// -- a row, seen from the front and a little from above --------------------------------------------------------

export const BASE = 114; // where the row below has its Vs
const PITCH = 28;

/** The middle of a stitch of the row below: 0 at the right edge, counted to the left as the work runs. */
export const x = (i: number): number => 218 - PITCH * i;

/** One strand of a V: it runs out of the stitch on its right. */
const strand = (cx: number, cy: number, side: 1 | -1): string =>
  `M${cx + 17} ${cy}C${cx + 8} ${cy + side * 8} ${cx - 4} ${cy + side * 9} ${cx - 13} ${cy + side * 6}`;

/** The two strands of a stitch's top; `only` one of them. */
export const Vee = ({ at: [cx, cy], tone = "ground", only }: { at: Point; tone?: Tone; only?: "front" | "back" }) => (
  <>
    {only !== "front" && <Yarn on={strand(cx, cy, -1)} tone={tone} thick={6} />}
    {only !== "back" && <Yarn on={strand(cx, cy, 1)} tone={tone} thick={6} />}
  </>
);

/** The work below: rows of stitches, each a V with its point down. */
export function Cloth({ from = 0, to = 7, y = BASE, rows = 3 }: { from?: number; to?: number; y?: number; rows?: number }) {
  const legs: string[] = [];
  for (let row = 0; row < rows; row++)
    for (let i = from; i <= to; i++) legs.push(`M${x(i) - 9} ${y + 8 + row * 18}L${x(i)} ${y + 24 + row * 18}L${x(i) + 9} ${y + 8 + row * 18}`);
  return <path class="cloth" d={legs.join("")} />;
}

/** A row that can be worked into; `bare`: Vs that are painted later, because something goes under them. */
export const Ground = ({ from = 0, to = 7, bare = [] }: { from?: number; to?: number; bare?: readonly number[] }) => (
  <>
    <Cloth from={from} to={to} />
    {Array.from({ length: to - from + 1 }, (_, k) => from + k)
      .filter((i) => !bare.includes(i))
      .map((i) => (
        <Vee at={[x(i), BASE]} />
      ))}
  </>
);

/** How tall stitches stand in the drawings, by their turning chains. */
export const TALL = { 1: 29, 2: 40, 3: 50, 4: 62 } as const;

/** A stitch that stands on feet and has one top; `bars`: turns of yarn across its post. */
export function Stands({ feet, top, tall = TALL[1], bars = 0, tone = "ground", base = BASE }: { feet: readonly number[]; top: number; tall?: number; bars?: number; tone?: Tone; base?: number }) {
  const up = base - tall;
  return (
    <>
      {feet.map((foot) => (
        <>
          <Yarn on={`M${foot} ${base}C${foot - 2} ${base - tall * 0.4} ${top - 9} ${up + tall * 0.3} ${top - 8} ${up + 3}`} tone={tone} thick={5.5} />
          <Yarn on={`M${foot} ${base}C${foot + 2} ${base - tall * 0.4} ${top + 9} ${up + tall * 0.3} ${top + 8} ${up + 3}`} tone={tone} thick={5.5} />
          {Array.from({ length: bars }, (_, k) => {
            const y = base - tall * ((k + 1) / (bars + 1)) + 2;
            const cx = foot + (top - foot) * ((k + 1) / (bars + 1));
            return <Yarn on={`M${cx - 8} ${y + 4}L${cx + 8} ${y - 4}`} tone={tone} thick={4.5} />;
          })}
        </>
      ))}
      <Vee at={[top, up]} tone={tone} />
    </>
  );
}

/** So many stitches that are made, from the right edge. */
export const Made = ({ count = 3, tall = TALL[1], bars = 0, tone = "ground" }: { count?: number; tall?: number; bars?: number; tone?: Tone }) => (
  <>
    {Array.from({ length: count }, (_, i) => (
      <Stands feet={[x(i)]} top={x(i)} tall={tall} bars={bars} tone={tone} />
    ))}
  </>
);

// -- the hook in the work ---------------------------------------------------------------------------------------

const LEAN = 40; // the hook goes in from the front: its tip behind the work, its shaft towards the maker

/** A point on the shaft of a leaning hook, so far from its tip. */
const along = ([tx, ty]: Point, far: number): Point => [tx + far * Math.cos((LEAN * Math.PI) / 180), ty + far * Math.sin((LEAN * Math.PI) / 180)];

/**
 * The hook put in under what is painted after it. `from`: where loops that lie on it hang, the newest first, the last
 * stitch's top at the end; `turns`: yarn that was laid round the hook before.
 */
export function HookIn({ at: [cx, cy], from = [], turns = 0, tone = "hand" }: { at: Point; from?: readonly Point[]; turns?: number; tone?: Tone }) {
  const tip: Point = [cx - 24, cy - 26];
  const hung = from.map((_, k) => along(tip, 58 + 15 * (turns + k)));
  const last = from.at(-1);
  return (
    <>
      {last && <Yarn on={[[last[0] - 10, last[1] - 4], [cx - 2, cy - 48], [16, 30]]} tone={tone} thick={6} />}
      {from.map((foot, k) => {
        const [hx, hy] = hung[k] ?? tip;
        return <Yarn on={[[foot[0] + 2, foot[1]], [hx + 10, hy - 14], [hx + 9, hy - 1]]} tone={tone} thick={5.5} goes />;
      })}
      <Hook at={tip} turn={LEAN} />
      {Array.from({ length: turns }, (_, k) => {
        const [wx, wy] = along(tip, 56 + 13 * k);
        return <Yarn on={`M${wx - 9} ${wy + 6}L${wx + 9} ${wy - 6}`} tone={tone} thick={5} />;
      })}
      {from.map((foot, k) => {
        const [hx, hy] = hung[k] ?? tip;
        return <Yarn on={[[hx + 9, hy - 2], [hx + 3, hy + 7], [hx - 7, hy + 5], [hx - 8, hy - 8], [foot[0] - 9, foot[1] + 3]]} tone={tone} thick={5.5} />;
      })}
    </>
  );
}

/** A loop that lies round the hook; it hangs from `foot`, or is only a turn of yarn. */
export interface OnHook {
  foot?: Point;
  tone?: Tone;
}

/**
 * The hook lying over the work with loops on it, the newest at its head; `yarn`: the yarn is laid over it, and goes
 * through so many of the loops.
 */
export function HookOver({ y, loops, yarn = 0, comes = "comes", tip = 92 }: { y: number; loops: readonly OnHook[]; yarn?: number; comes?: Tone; tip?: number }) {
  const place = (i: number) => tip + 34 + 21 * i;
  return (
    <>
      {loops.map(({ foot, tone = "hand" }, i) => {
        const lx = place(i);
        const end: Point = foot ? [foot[0] + 4, foot[1]] : [lx + 1, y + 13];
        return <Yarn on={[[lx + 4, y - 9], [lx + 10, y], end]} tone={tone} thick={5.5} goes />;
      })}
      {yarn > 0 && <Yarn on={[[16, y + 44], [tip - 12, y + 20], [tip + 12, y + 10]]} tone={comes} thick={6} />}
      <Hook at={[tip, y]} />
      {loops.map(({ foot, tone = "hand" }, i) => {
        const lx = place(i);
        const end: Point = foot ? [foot[0] - 5, foot[1]] : [lx - 3, y + 13];
        return <Yarn on={[[lx + 4, y - 9], [lx - 3, y - 3], [lx - 6, y + 8], end]} tone={tone} thick={5.5} />;
      })}
      {yarn > 0 && <Yarn on={[[tip + 11, y + 12], [tip + 14, y + 2], [tip + 19, y - 10], [tip + 24, y - 2]]} tone={comes} thick={6} />}
      {yarn > 0 && <Way on={[[tip + 20, y - 21], [tip + 44, y - 25], [place(yarn - 1) + 18, y - 21]]} />}
    </>
  );
}

/** One frame of a card's drawing: what it shows, and the steps it belongs to, counted from 0. */
export interface Frame {
  steps: readonly number[];
  draw: () => JSX.Element;
}
