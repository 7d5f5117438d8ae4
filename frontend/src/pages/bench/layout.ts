import { lengthOf } from "../../drawings/marks";
import { locate, stepOf } from "../../follow/place";
import type { StrandCourse } from "../../generated/pattern";
import type { Box } from "./box";
import { lines, type Measure, type Opened, SENTENCE_LINE, type Sizes, solve } from "./fit";
import { plainRun, widestPlace } from "./place";
import type { Seen } from "./seen";
import { type Fullness, openedOut, unbroken } from "./sentence";

/** Heights that hold still, in px; bench.css has the same numbers. */
export const HEAD = 48;
export const LAST = 60;
export const FOOT = 56;
export const PAD = 14;
export const CAPTION = 20;
const GAPS = 38;
/** A row's drawing is this much wider than tall. */
export const ROW_WIDE = 320 / 112;

export interface Plan extends Sizes {
  columns: 1 | 2;
  width: number;
  scale: number;
  /** Size of the small words beside the drawing. */
  side: number;
  /** Height a pause may fill: that of the repeat, the place, and the drawing that makes way for it. */
  pause: number;
}

/** Every state the opened repeat can have during a course, once each. */
export function openedStates(course: StrandCourse, fullness: Fullness): Opened[][] {
  const states = new Map<string, Opened[]>();
  const total = lengthOf(course.body);
  // A repeat looks the same each time through: beyond the first few hundred steps nothing new comes.
  for (let at = 0; at < Math.min(total, 400); at++) {
    const parts = openedOut(course.body, at, fullness);
    const key = parts.map((p) => `${p.state === "hand" ? "*" : ""}${p.head}|${p.tail}`).join("/");
    if (!states.has(key))
      states.set(
        key,
        parts.map((p) => ({ head: p.head, tail: p.tail, hand: p.state === "hand" })),
      );
  }
  return [...states.values()];
}

/** Sizes for a course on a screen: the same from its first stitch to its last, so that nothing moves while it is worked. */
export function planFor(seen: Seen, sentence: string, fullness: Fullness, box: Box, beside: readonly string[], measure: Measure): Plan {
  const columns = box.width >= 640 && box.width > box.height * 1.1 ? 2 : 1;
  const width = (columns === 2 ? Math.round(box.width * 0.6) : box.width) - 2 * PAD;
  const scale = Math.max(1, Math.min(width / 362, box.height / (columns === 2 ? 560 : 800)) ** 0.85);
  const side = Math.round(Math.min(32, 20 * scale));
  const { course, strand } = seen;
  const row = course?.kind === "row";
  const near = (room: number, said = beside) =>
    said.reduce((sum, text) => sum + lines(text, side, room, measure), 0) * side * 1.25 + (said.length - 1) * side * 0.4;
  const drawn = (ring: number) => {
    if (columns === 2) return 0;
    if (!course) return near(width);
    return row ? ring + CAPTION + 8 + near(width) : Math.max(ring + CAPTION, near(width - ring - 14));
  };
  const most = row ? width / ROW_WIDE : Math.min(width * 0.56, 420);
  const middle = course?.read ? locate(strand, stepOf(strand, course, Math.floor(lengthOf(course.body) / 2))) : seen.spot;
  const deepest = middle.repeats.length >= seen.spot.repeats.length ? middle : seen.spot;
  const run = course && plainRun(course);
  const fixed = HEAD + FOOT + GAPS + (run ? side * 1.5 : 0) + (columns === 2 ? 0 : LAST);
  const sizes = solve(
    {
      width,
      height: box.height,
      sentence: unbroken(sentence),
      opened: course ? openedStates(course, fullness) : [],
      place: course ? widestPlace(deepest, course) : [],
      fixed,
      drawn,
      ring: columns === 2 || !course ? [0, 0] : [Math.min(most, row ? Math.max(90, width * 0.16) : Math.max(124, width * 0.28)), most],
      scale,
    },
    measure,
  );
  const above = lines(unbroken(sentence), sizes.sentence, width, measure) * sizes.sentence * SENTENCE_LINE;
  const pause = Math.max(150, box.height - fixed - above - (columns === 2 ? 0 : near(width, beside.slice(0, 2))));
  return { ...sizes, columns, width, scale, side, pause };
}
