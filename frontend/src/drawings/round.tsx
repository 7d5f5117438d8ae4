import { arc } from "d3-shape";
import type { StrandCourse } from "../generated/pattern";
import { HookMark, type Leg, legStrokes } from "./strokes";
import { coreOf, itemsOf, legsWorked, shapeOf } from "./marks";
import { type Hand, hookAngle, lay, legs, point } from "./ring";

const FOOT = 58;
const TIP = 88;
const SPIRAL = spiral();

/** The rounds below, as the eye sees them: one thread from the middle outwards, right-handed. */
function spiral(): string {
  const turns = 3;
  const points: string[] = [];
  for (let i = 0; i <= turns * 24; i++) {
    const angle = (i / 24) * 2 * Math.PI;
    const p = point(angle, 7 + (i / (turns * 24)) * (FOOT - 17), "right");
    points.push(`${p.x.toFixed(1)} ${p.y.toFixed(1)}`);
  }
  return `M${points.join("L")}`;
}

interface Props {
  course: StrandCourse;
  /** Steps of the course's body that are worked. */
  done: number;
  hand: Hand;
}

/**
 * The round seen from outside, the way the hand goes. Worked stitches are filled, the others outlined; increases fork,
 * decreases meet; a ring of its own shape is the marker. The sentence beside it says the same, so it is hidden from ears.
 */
export function RoundDrawing({ course, done, hand }: Props) {
  const core = coreOf(course.body);
  const laid = lay(itemsOf(course.body, done).filter((item) => item.first >= core.steps));
  const marks: Leg[] = [];
  const arcs: { d: string; worked: boolean }[] = [];
  const extras: { x: number; y: number; turn: number; worked: boolean; chain: boolean }[] = [];
  const sign = hand === "right" ? 1 : -1;
  const band = arc().innerRadius(FOOT + 6).outerRadius(TIP - 6).cornerRadius(8);

  for (const { item, from, to } of laid) {
    if (item.type === "stretch") {
      // d3 measures angles clockwise from twelve o'clock; ours run from six, the way the hand goes.
      const a = Math.PI - sign * from;
      const b = Math.PI - sign * to;
      const gap = Math.min(0.035, (to - from) / 5);
      const d = band({
        innerRadius: FOOT + 6,
        outerRadius: TIP - 6,
        startAngle: Math.min(a, b) + gap,
        endAngle: Math.max(a, b) - gap,
      });
      if (d) arcs.push({ d, worked: done >= item.first + item.steps });
      continue;
    }
    const shape = shapeOf(item);
    if (shape === "skip") continue;
    if (shape === "chain" || shape === "action") {
      const middle = (from + to) / 2;
      extras.push({
        ...point(middle, (FOOT + TIP) / 2, hand),
        turn: (-sign * middle * 180) / Math.PI,
        worked: done >= item.first + item.steps,
        chain: shape === "chain",
      });
      continue;
    }
    const worked = legsWorked(item, done);
    legs(item, from, to).forEach((leg, i) => {
      marks.push({ foot: point(leg.foot, FOOT + 5, hand), tip: point(leg.tip, TIP - 5, hand), worked: i < worked });
    });
  }

  const narrowest = Math.min(
    0.3,
    ...laid.map(({ item, from, to }) => (item.type === "mark" ? (to - from) / Math.max(1, item.tips) : 0.3)),
  );
  const thick = Math.max(3.4, Math.min(9, narrowest * 73 * 0.52));
  const angle = hookAngle(laid, done);
  const hook = point(angle, TIP + 3, hand);
  const first = laid.find(({ item }) => item.type === "stretch" || item.tips > 0);
  const begun = first !== undefined && done > first.item.first;
  const firstAngle = first
    ? first.item.type === "mark"
      ? (first.from + first.to) / 2
      : first.from + (first.to - first.from) / Math.max(2, 2 * first.item.stitches)
    : 0;
  // Before that stitch is made the marker only shows where it will go: round the stitch, clear of the hook.
  const marker = point(firstAngle, begun ? TIP + 1 : (FOOT + TIP) / 2, hand);
  const seam = [point(0, FOOT - 6, hand), point(0, TIP + 9, hand)] as const;

  return (
    <svg class="drawing" viewBox="-118 -118 236 236" aria-hidden="true" focusable="false">
      {core.kind === "rounds" ? (
        <path class="below" d={SPIRAL} transform={hand === "left" ? "scale(-1 1)" : undefined} />
      ) : core.kind === "ring" ? (
        <circle class={done >= core.steps ? "ringed worked" : "ringed"} r={24} />
      ) : (
        chain(core.steps, done)
      )}
      <path class="seam" d={`M${seam[0].x} ${seam[0].y}L${seam[1].x} ${seam[1].y}`} />
      {arcs.map((a) => (
        <path class={a.worked ? "band worked" : "band"} d={a.d} />
      ))}
      {legStrokes(marks, thick)}
      {extras.map((e) =>
        e.chain ? (
          <ellipse class={e.worked ? "dot worked" : "dot"} cx={e.x} cy={e.y} rx={6.5} ry={3.8} transform={`rotate(${e.turn} ${e.x} ${e.y})`} />
        ) : (
          <rect class={e.worked ? "dot worked" : "dot"} x={e.x - 4.5} y={e.y - 4.5} width={9} height={9} rx={2} transform={`rotate(${e.turn + 45} ${e.x} ${e.y})`} />
        ),
      )}
      <circle class={begun ? "marker on" : "marker"} cx={marker.x} cy={marker.y} r={begun ? 7.5 : 12} />
      <path class="heading" d={heading(angle, hand)} />
      <HookMark x={hook.x} y={hook.y} turn={(-sign * angle * 180) / Math.PI} mirror={hand === "left"} />
    </svg>
  );
}

/** An arrow along the round, from the hook on: the way the hand goes. */
function heading(angle: number, hand: Hand): string {
  const radius = TIP + 17;
  const at = (by: number, out = 0) => {
    const p = point(angle + by, radius + out, hand);
    return `${p.x.toFixed(1)} ${p.y.toFixed(1)}`;
  };
  return `M${at(0.17)}L${at(0.29)}L${at(0.41)}L${at(0.53)}M${at(0.44, 7)}L${at(0.54)}L${at(0.43, -7)}`;
}

/** The chain in the middle of an oval, worked links filled. */
function chain(links: number, done: number) {
  const shown = links === 0 ? 9 : Math.min(links, 12);
  const pitch = 88 / shown;
  return Array.from({ length: shown }, (_, i) => (
    <ellipse
      class={done >= ((i + 1) * links) / shown ? "dot worked" : "dot"}
      cx={-44 + pitch * (i + 0.5)}
      cy={0}
      rx={pitch * 0.44}
      ry={Math.min(6, pitch * 0.32)}
    />
  ));
}
