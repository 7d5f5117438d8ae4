import { useLayoutEffect, useRef, useState } from "preact/hooks";
import { partedThread } from "../../drawings/thread";
import { edges } from "../../follow/place";
import type { StrandCourse } from "../../generated/pattern";
import { mapText, spotOn, type TextMap } from "./measure";
import { anchorsOf, chunksOf, type Fullness, heldAt, hookChar } from "./sentence";

interface Props {
  text: string;
  course: StrandCourse;
  done: number;
  fullness: Fullness;
  size: number;
  width: number;
  /** Changes when the font has come in. */
  font: number;
}

const UNMEASURED: TextMap = { runs: [], words: [] };
/** Where the words of a sentence stand, kept: on a tap the page's layout is not asked. */
const maps = new Map<string, TextMap>();
const MAPS = 60;

/** The course as one sentence, the thread running under its words to where the hook is. */
export function SentenceLine({ text, course, done, fullness, size, width, font }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  const [, measured] = useState("");
  // Figures are all of one width, so a text that differs in them alone stands where the other one stood.
  const alike = `${text.replaceAll(/\d/g, "0")} ${size} ${width} ${font}`;
  useLayoutEffect(() => {
    if (!heading.current || maps.has(alike)) return;
    if (maps.size >= MAPS) maps.clear();
    maps.set(alike, mapText(heading.current, size));
    measured(alike);
  }, [alike]);
  const map = maps.get(alike) ?? UNMEASURED;

  // What leads in is done in one breath with the first stitches: those are in hand.
  const held = heldAt(course.body, Math.max(done, edges(course)[0]));
  const anchor = held && anchorsOf(text, course.body, fullness).find((a) => a.group === held.group);
  const from = anchor?.from ?? 0;
  const to = anchor?.to ?? 0;
  const spot = spotOn(map, hookChar(text, course, done, fullness));
  const sway = Math.max(0.8, size / 34);
  const thread = partedThread(map.runs, spot, text.length * 7 + course.body.length, sway);
  const y = map.runs[spot.line]?.y;
  return (
    <div class="sentence">
      <h1 ref={heading}>
        {chunks(text, from, to)}
      </h1>
      <svg class="yarn" aria-hidden="true" style={{ "--yarn": `${Math.max(2.5, size / 13)}px` }}>
        <path class="rest" d={thread.rest} />
        <path class="worked" d={thread.worked} />
        {y !== undefined && <circle class="loop" cx={spot.x} cy={y} r={Math.max(3.5, size / 8.5)} />}
      </svg>
    </div>
  );
}

/** The words in unbreakable chunks, those from `from` to `to` marked as in hand. */
function chunks(text: string, from: number, to: number) {
  let at = 0;
  return chunksOf(text).flatMap((chunk, i) => {
    const start = at + (i === 0 ? 0 : 1);
    const end = start + chunk.length;
    at = end;
    const a = Math.min(end, Math.max(start, from)) - start;
    const b = Math.max(a, Math.min(end, Math.max(start, to)) - start);
    return [
      i === 0 ? "" : " ",
      <span class="chunk">
        {chunk.slice(0, a)}
        <span class="held">{chunk.slice(a, b)}</span>
        {chunk.slice(b)}
      </span>,
    ];
  });
}
