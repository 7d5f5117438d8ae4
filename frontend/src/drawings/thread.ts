/** One line of set text, as measured: where it starts, ends, and where the thread lies beneath it, in px. */
export interface Run {
  left: number;
  right: number;
  y: number;
}

/** A small even noise from a whole number: the same thread for the same words, every time. */
export function noise(twist: number): number {
  let x = (twist ^ 0x9e3779b9) >>> 0;
  x = Math.imul(x ^ (x >>> 16), 0x85ebca6b) >>> 0;
  x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35) >>> 0;
  return ((x ^ (x >>> 16)) >>> 0) / 4294967296;
}

type Point = readonly [number, number];

const round = (v: number) => Math.round(v * 10) / 10;

/** What bends a curve at `at`, towards `on`: nothing where there is no point before. Spacings are roots of distances. */
function handle(before: Point | undefined, at: Point, on: Point): Point {
  if (!before) return at;
  const far = (a: Point, b: Point) => Math.hypot(a[0] - b[0], a[1] - b[1]);
  const [d1, d2] = [far(before, at), far(at, on)];
  const [r1, r2] = [Math.sqrt(d1), Math.sqrt(d2)];
  if (r1 === 0) return at;
  const weight = 2 * d1 + 3 * r1 * r2 + d2;
  const bent = (i: 0 | 1) => (at[i] * weight - before[i] * d2 + on[i] * d1) / (3 * r1 * (r1 + r2));
  return [bent(0), bent(1)];
}

/**
 * A smooth path through points: a centripetal Catmull-Rom spline as Bézier pieces (Yuksel, Schaefer, Keyser,
 * "Parameterization and Applications of Catmull-Rom Curves", 2011). It makes no loops where points lie close.
 */
export function through(points: readonly Point[]): string {
  const told = (p: Point) => `${round(p[0])},${round(p[1])}`;
  return points
    .map((point, i) => {
      const last = points[i - 1];
      if (!last) return `M${told(point)}`;
      return `C${told(handle(points[i - 2], last, point))},${told(handle(points[i + 1], point, last))},${told(point)}`;
    })
    .join("");
}

/**
 * A thread lying under one line of words from `from` to `to`: it sags and wavers a little, as yarn does on a table.
 * The waver hangs on absolute positions, so that the worked part and the rest meet exactly.
 */
export function strandPath(run: Run, from: number, to: number, twist: number, sway = 1.6): string {
  if (to - from < 0.5) return "";
  const pitch = 26;
  const height = (x: number) => {
    const k = Math.floor((x - run.left) / pitch);
    const part = (x - run.left) / pitch - k;
    const ease = part * part * (3 - 2 * part);
    const a = noise(twist * 131 + k) - 0.5;
    const b = noise(twist * 131 + k + 1) - 0.5;
    return run.y + 2 * sway * (a + (b - a) * ease);
  };
  const points: [number, number][] = [[from, height(from)]];
  for (let x = run.left + Math.ceil((from - run.left) / (pitch / 2) + 0.1) * (pitch / 2); x < to - 1; x += pitch / 2)
    points.push([x, height(x)]);
  points.push([to, height(to)]);
  return through(points);
}

/** Where a thread that has passed `chars` of the text is: the line and the x on it. */
export interface Spot {
  line: number;
  x: number;
}

export interface Threads {
  worked: string;
  rest: string;
}

/** The whole thread under several lines of words, parted at the hook. */
export function partedThread(runs: readonly Run[], spot: Spot, twist: number, sway?: number): Threads {
  const worked: string[] = [];
  const rest: string[] = [];
  runs.forEach((run, i) => {
    const split = i < spot.line ? run.right : i > spot.line ? run.left : Math.max(run.left, Math.min(run.right, spot.x));
    const a = strandPath(run, run.left, split, twist + i, sway);
    const b = strandPath(run, split, run.right, twist + i, sway);
    if (a) worked.push(a);
    if (b) rest.push(b);
  });
  return { worked: worked.join(""), rest: rest.join("") };
}
