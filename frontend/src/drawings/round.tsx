import type { StrandCourse } from "../generated/pattern";
import { chainSteps, circleWay, type Ground, HALF, lineAlong, ovalWay, type Way } from "./ground";
import { HookMark, type Leg, legStrokes } from "./strokes";
import { coreOf, itemsOf, legsWorked, shapeOf } from "./marks";
import { type Hand, hookAngle, lay, legs, type Point } from "./ring";

const FOOT = 58;
const TIP = 88;
const TURN = 2 * Math.PI;
/** The rounds below: how far out each of them lies. */
const RINGS = [16, 30, 44];

/** The rounds below, as the eye sees them: one thread from the middle outwards, or rings that are closed. */
function below(way: Way, spiral: boolean): string {
  if (!spiral) return RINGS.map((r) => `${lineAlong(way, 0, TURN, r)}Z`).join("");
  const steps = 72;
  const points = Array.from({ length: steps + 1 }, (_, i) => way(((i / 24) % 1) * TURN, 7 + (i / steps) * (FOOT - 17)));
  return `M${points.map((p) => `${p.x.toFixed(1)} ${p.y.toFixed(1)}`).join("L")}`;
}

interface Props {
  course: StrandCourse;
  ground: Ground;
  /** Steps of the course's body that are worked. */
  done: number;
  hand: Hand;
}

/**
 * The round seen from outside, the way the hand goes. Worked stitches are filled, the others outlined; increases fork,
 * decreases meet; a ring of its own shape is the marker. The sentence beside it says the same, so it is hidden from ears.
 */
export function RoundDrawing({ course, ground, done, hand }: Props) {
  const core = coreOf(course.body);
  const links = chainSteps(course);
  const bare = done < links;
  const laid = lay(
    itemsOf(course.body, done).filter((item) => item.first >= Math.max(core.steps, links)),
    ground.oval !== null,
  );
  // The first round lies close to its chain, the others round the rounds below.
  const chained = links > 0 || core.kind === "chain";
  const [foot, tip] = chained ? [18, 64] : [FOOT, TIP];
  const middleOut = (foot + tip) / 2;
  const way = ground.oval ? ovalWay(ground.oval, course.makes ?? 0, hand) : circleWay(hand);
  const marks: Leg[] = [];
  const bands: { d: string; worked: boolean }[] = [];
  const extras: { at: Point; turn: number; worked: boolean; chain: boolean }[] = [];

  for (const { item, from, to } of laid) {
    if (item.type === "stretch") {
      // The round ends of the line stand over the stitches at its ends.
      const inset = Math.min((to - from) * 0.46, BAND / 2 / MIDDLE + 0.02);
      bands.push({ d: lineAlong(way, from + inset, to - inset, middleOut), worked: done >= item.first + item.steps });
      continue;
    }
    const shape = shapeOf(item);
    if (shape === "skip") continue;
    if (shape === "chain" || shape === "action") {
      const middle = (from + to) / 2;
      extras.push({ at: way(middle, middleOut), turn: turnAt(way, middle), worked: done >= item.first + item.steps, chain: shape === "chain" });
      continue;
    }
    const worked = legsWorked(item, done);
    legs(item, from, to).forEach((leg, i) => {
      marks.push({ foot: way(leg.foot, foot + 5), tip: way(leg.tip, tip - 5), worked: i < worked });
    });
  }

  const narrowest = Math.min(
    0.3,
    ...laid.map(({ item, from, to }) => (item.type === "mark" ? (to - from) / Math.max(1, item.tips) : 0.3)),
  );
  const thick = Math.max(3.4, Math.min(9, narrowest * 73 * 0.52));
  const angle = hookAngle(laid, done);
  const hook = way(angle, tip + 3);
  const first = laid.find(({ item }) => item.type === "stretch" || item.tips > 0);
  const begun = first !== undefined && done > first.item.first;
  const firstAngle = first
    ? first.item.type === "mark"
      ? (first.from + first.to) / 2
      : first.from + (first.to - first.from) / Math.max(2, 2 * first.item.stitches)
    : 0;
  // Before that stitch is made the marker only shows where it will go: round the stitch, clear of the hook.
  const marker = way(firstAngle, begun ? tip + 1 : middleOut);
  const seam = [way(0, foot - 6), way(0, tip + 9)] as const;
  return (
    <svg class="drawing" viewBox={ground.oval ? "-108 -108 216 216" : "-118 -118 236 236"} aria-hidden="true" focusable="false">
      {chained ? (
        chain(links, done, hand)
      ) : core.kind === "ring" ? (
        <circle class={done >= core.steps ? "ringed worked" : "ringed"} r={24} />
      ) : (
        <path class="below" d={below(way, ground.spiral && ground.oval === null)} />
      )}
      {!bare && <path class="seam" d={`M${seam[0].x} ${seam[0].y}L${seam[1].x} ${seam[1].y}`} />}
      {bands.map((b) => (
        <>
          <path class={b.worked ? "leg worked" : "leg"} d={b.d} style={{ strokeWidth: BAND }} />
          {!b.worked && <path class="leg hollow" d={b.d} style={{ strokeWidth: BAND - 3 }} />}
        </>
      ))}
      {legStrokes(marks, thick)}
      {extras.map((e) =>
        e.chain ? (
          <ellipse class={e.worked ? "dot worked" : "dot"} cx={e.at.x} cy={e.at.y} rx={6.5} ry={3.8} transform={`rotate(${e.turn} ${e.at.x} ${e.at.y})`} />
        ) : (
          <rect class={e.worked ? "dot worked" : "dot"} x={e.at.x - 4.5} y={e.at.y - 4.5} width={9} height={9} rx={2} transform={`rotate(${e.turn + 45} ${e.at.x} ${e.at.y})`} />
        ),
      )}
      {/* At a bare chain there is nothing to mark, and no way round yet. */}
      {!bare && first && <circle class={begun ? "marker on" : "marker"} cx={marker.x} cy={marker.y} r={begun ? 7.5 : 12} />}
      {!bare && <path class="heading" d={heading(way, angle, tip + 17)} />}
      {!bare && <HookMark x={hook.x} y={hook.y} turn={turnAt(way, angle)} mirror={hand === "left"} />}
    </svg>
  );
}

/** The middle of the stitches, and the width of a stretch of them. */
const MIDDLE = (FOOT + TIP) / 2;
const BAND = TIP - FOOT - 12;

/** By how much something that points outwards is turned there, in degrees; 0 points to the foot of the drawing. */
function turnAt(way: Way, along: number): number {
  const near = way(along, MIDDLE);
  const far = way(along, MIDDLE + 10);
  return (-Math.atan2(far.x - near.x, far.y - near.y) * 180) / Math.PI;
}

/** An arrow along the round, from the hook on: the way the hand goes. */
function heading(way: Way, angle: number, radius: number): string {
  const at = (by: number, out = 0) => {
    // Past the end of the round the arrow goes on into the next one.
    const p = way((angle + by) % TURN, radius + out);
    return `${p.x.toFixed(1)} ${p.y.toFixed(1)}`;
  };
  return `M${at(0.17)}L${at(0.29)}L${at(0.41)}L${at(0.53)}M${at(0.44, 7)}L${at(0.54)}L${at(0.43, -7)}`;
}

/** The chain in the middle of an oval, worked links filled; it grows towards the end where the first round begins. */
function chain(links: number, done: number, hand: Hand) {
  const shown = links === 0 ? 9 : Math.min(links, 12);
  const pitch = (2 * HALF) / shown;
  const way = hand === "right" ? 1 : -1;
  return Array.from({ length: shown }, (_, i) => (
    <ellipse
      class={done >= ((i + 1) * links) / shown ? "dot worked" : "dot"}
      cx={way * (pitch * (i + 0.5) - HALF)}
      cy={0}
      rx={pitch * 0.44}
      ry={Math.min(6, pitch * 0.42)}
    />
  ));
}
