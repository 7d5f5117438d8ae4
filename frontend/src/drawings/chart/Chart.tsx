import "./chart.css";
import { useEffect, useRef } from "preact/hooks";
import type { Course, StrandCourse, Terms } from "../../generated/pattern";
import { SYMBOLS } from "../../generated/stitches";
import type { Hand } from "../ring";
import { layChart, type Placed } from "./lay";
import { middleSaid, Start } from "./Start";
import { field, type Shape, shadesOf } from "./shades";
import { strokes } from "./symbols";

interface Props {
  courses: readonly (Course | StrandCourse)[];
  hand: Hand;
  /** The course in hand and the steps of its body that are worked; null where nothing is. */
  place: { course: number; done: number } | null;
  terms: Terms;
  /** What the piece is called, for who does not see it. */
  name: string;
}

/** A piece as a chart: worked stitches dark, the one in hand in a ring of its own, the others pale; a key below. */
export function PieceChart({ courses, hand, place, terms, name }: Props) {
  const chart = layChart(courses, hand);
  const shades = shadesOf(courses);
  const behind = (s: Placed) => place === null || s.course < place.course || (s.course === place.course && s.end <= place.done);
  const inHand = place === null ? undefined : chart.stitches.find((s) => s.course === place.course && s.end > place.done);
  const [made, rest] = [chart.stitches.filter(behind), chart.stitches.filter((s) => !behind(s))];
  const { half, kind } = chart;
  const top = kind === "round" ? -half.y : -half.y - 0.5;
  const box = `${-half.x} ${top} ${2 * half.x} ${kind === "round" ? 2 * half.y : half.y + 1}`;
  const tip = inHand?.tips[0];
  const frame = useRef<HTMLDivElement>(null);
  useEffect(() => {
    // The stitch in hand in the middle of what is seen, once the sheet it lies on stands open.
    const soon = requestAnimationFrame(() => {
      const view = frame.current;
      if (!view || !tip) return;
      view.scrollTo({
        left: ((tip.x + half.x) / (2 * half.x)) * view.scrollWidth - view.clientWidth / 2,
        top: ((tip.y - top) / (kind === "round" ? 2 * half.y : half.y + 1)) * view.scrollHeight - view.clientHeight / 2,
      });
    });
    return () => cancelAnimationFrame(soon);
  }, [tip?.x, tip?.y]);
  return (
    <>
      <div class="chart-frame" ref={frame} tabIndex={0}>
        <svg class="chart" role="img" aria-label={`Chart of ${name}. ${chart.middle ? middleSaid(chart.middle) : ""}`.trim()} viewBox={box} style={{ minWidth: `${2 * half.x * STITCH}px` }}>
          {[...shades].map(([colour, shape]) => (
            <path key={colour} class={`shade ${shape}`} d={chart.stitches.filter((s) => s.colour === colour).map((s) => behindOf(s, shape)).join("")} />
          ))}
          {chart.middle && <Start middle={chart.middle} />}
          <Layer stitches={rest} class="rest" />
          <Layer stitches={made} class="made" />
          {tip && <circle class="hand" cx={tip.x} cy={tip.y} r={0.55} />}
          {chart.labels.map((l) => (
            <text key={l.text} x={l.at.x} y={l.at.y}>
              {l.text}
            </text>
          ))}
        </svg>
      </div>
      {chart.left > 0 && <p>The last {chart.left} are left out: there are too many stitches for one chart.</p>}
      <Key stitches={[...new Set(courses.flatMap((c) => names(c.body)))]} loops={chart.stitches.some((s) => s.loops)} terms={terms} shades={shades} />
    </>
  );
}

/** The field behind a stitch of another colour. */
function behindOf({ feet, tips }: Placed, shape: Shape): string {
  const all = [...feet, ...tips];
  const mean = (of: "x" | "y") => all.reduce((sum, at) => sum + at[of], 0) / Math.max(1, all.length);
  return field(shape, mean("x"), mean("y"));
}

/** So many px a stitch is wide at least; a chart that is wider then can be pushed about. */
const STITCH = 15;

function Layer({ stitches, class: look }: { stitches: readonly Placed[]; class: string }) {
  const drawn = stitches.map(strokes);
  return (
    <>
      <path class={`${look} lines`} d={drawn.map((d) => d.line).join("")} />
      <path class={`${look} solid`} d={drawn.map((d) => d.fill).join("")} />
    </>
  );
}

const names = (body: Course["body"]): string[] =>
  body.flatMap((node) => (node.type === "group" ? (node.steps > 0 && node.makes > 0 ? [node.stitch] : []) : names(node.body)));

/** Which symbol is which stitch, and how a loop is shown. */
function Key({ stitches, loops, terms, shades }: { stitches: readonly string[]; loops: boolean; terms: Terms; shades: ReadonlyMap<string, Shape> }) {
  const known = stitches.filter((s) => s in SYMBOLS);
  return (
    <ul class="chart-key">
      {known.map((stitch) => (
        <li key={stitch}>
          <Sample stitch={stitch} loops={null} />
          {SYMBOLS[stitch]?.[terms === "US" ? 2 : 3]}
        </li>
      ))}
      {[...shades].map(([colour, shape]) => (
        <li key={colour}>
          <svg class="chart sample" viewBox="-0.8 -0.8 1.6 1.6" aria-hidden="true">
            <path class={`shade ${shape}`} d={field(shape, 0, 0)} />
          </svg>
          {colour}
        </li>
      ))}
      {loops && (
        <>
          <li>
            <Sample stitch="sc" loops="back" /> back loop
          </li>
          <li>
            <Sample stitch="sc" loops="front" /> front loop
          </li>
        </>
      )}
    </ul>
  );
}

function Sample({ stitch, loops }: { stitch: string; loops: Placed["loops"] }) {
  const [symbol = "cross", high = 1] = SYMBOLS[stitch] ?? [];
  const tall = Math.max(1, high);
  const wide = symbol.includes("vee") || symbol === "shell";
  const meets = symbol.includes("caret");
  const three = symbol.endsWith("3") || symbol.startsWith("double");
  const spread = three ? [-0.5, 0, 0.5] : [-0.4, 0.4];
  const shown = strokes({
    symbol, loops, course: 0, first: 0, end: 0, colour: null,
    feet: (meets ? spread : [0]).map((x) => ({ x, y: 0 })),
    tips: (wide ? spread : [0]).map((x) => ({ x, y: -tall })),
  });
  return (
    <svg class="chart sample" viewBox={`-0.8 ${-tall - 0.3} 1.6 ${tall + 0.6}`} aria-hidden="true">
      <path class="made lines" d={shown.line} />
      <path class="made solid" d={shown.fill} />
    </svg>
  );
}
