import type { StrandCourse } from "../generated/pattern";
import { type Leg, legStrokes } from "./strokes";
import { chainSteps } from "./ground";
import { itemsOf, legsWorked, shapeOf } from "./marks";
import type { Hand } from "./ring";
import { across, hookAcross, layRow } from "./row";

const LEFT = 26;
const RIGHT = 294;
const BASE = 66;
const TOP = 34;

/** A row as it faces the maker: which way it runs, what is worked, and the turn at its end. */
export function RowDrawing({ course, done, hand }: { course: StrandCourse; done: number; hand: Hand }) {
  const links = chainSteps(course);
  const bare = done < links;
  const spans = layRow(itemsOf(course.body, done).filter((item) => item.first >= links));
  const x = (part: number) => across(part, LEFT, RIGHT, hand);
  const legs: Leg[] = [];
  const bars: { from: number; to: number; worked: boolean }[] = [];
  const extras: { x: number; worked: boolean; chain: boolean }[] = [];
  let narrowest = 22;
  for (const { item, from, to } of spans) {
    if (item.type === "stretch") {
      bars.push({ from: x(from), to: x(to), worked: done >= item.first + item.steps });
      continue;
    }
    const shape = shapeOf(item);
    if (shape === "skip") continue;
    const middle = x((from + to) / 2);
    if (shape === "chain" || shape === "action") {
      extras.push({ x: middle, worked: done >= item.first + item.steps, chain: shape === "chain" });
      continue;
    }
    const count = Math.max(1, item.tips, item.feet);
    narrowest = Math.min(narrowest, (Math.abs(x(to) - x(from)) / Math.max(1, item.tips)) * 0.52);
    const worked = legsWorked(item, done);
    for (let i = 0; i < count; i++) {
      const own = x(from + ((to - from) * (i + 0.5)) / count);
      legs.push({
        foot: { x: item.tips > 1 ? middle : own, y: BASE - 4 },
        tip: { x: item.feet > item.tips ? middle : own, y: TOP + 4 },
        worked: i < worked,
      });
    }
  }
  // While the chain is made it grows the other way: the row will run back along it.
  const hook = bare ? x(1 - done / links) : x(hookAcross(spans, done));
  const end = x(1);
  const out = hand === "right" ? -1 : 1;
  return (
    <svg class="drawing line" viewBox="0 0 320 112" aria-hidden="true" focusable="false">
      {links > 0 ? (
        chain(links, done, x)
      ) : (
        <path class="below" d={`M${LEFT} ${BASE + 6}H${RIGHT}M${LEFT + 4} ${BASE + 14}H${RIGHT - 4}`} />
      )}
      {/* The turn: up and round to where the next row will run. A bare chain has none yet. */}
      {!bare && <path class="turn" d={`M${end} ${BASE - 6}c${out * 20} 0 ${out * 20} -38 0 -44h${-out * 22}m${out * 8} -6l${-out * 8} 6l${out * 8} 6`} />}
      {bars.map((b) => (
        <rect
          class={b.worked ? "band worked" : "band"}
          x={Math.min(b.from, b.to) + 1.5}
          y={TOP + 8}
          width={Math.max(2, Math.abs(b.to - b.from) - 3)}
          height={BASE - TOP - 16}
          rx={7}
        />
      ))}
      {legStrokes(legs, Math.max(3.4, Math.min(9, narrowest)))}
      {extras.map((e) =>
        e.chain ? (
          <ellipse class={e.worked ? "dot worked" : "dot"} cx={e.x} cy={(BASE + TOP) / 2} rx={6} ry={3.8} />
        ) : (
          <rect class={e.worked ? "dot worked" : "dot"} x={e.x - 4.5} y={(BASE + TOP) / 2 - 4.5} width={9} height={9} rx={2} />
        ),
      )}
      <g class="hook" transform={`translate(${hook.toFixed(1)} ${bare ? BASE - 4 : TOP - 4})${hand === "right" ? " scale(-1 1)" : ""}`}>
        <path class="shaft" d="M-9 -24L-1 -6C2 1 10 -1 8 -7" />
      </g>
    </svg>
  );
}

/** The chain that the row is worked into, worked links filled. */
function chain(links: number, done: number, x: (part: number) => number) {
  const shown = Math.min(links, 24);
  const pitch = (RIGHT - LEFT) / shown;
  return Array.from({ length: shown }, (_, i) => (
    <ellipse
      class={done >= ((i + 1) * links) / shown ? "dot worked" : "dot"}
      cx={x(1 - (i + 0.5) / shown)}
      cy={BASE + 10}
      rx={pitch * 0.44}
      ry={Math.min(6, pitch * 0.36)}
    />
  ));
}
