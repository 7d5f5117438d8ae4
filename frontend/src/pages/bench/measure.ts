import type { Measure } from "./fit";
import type { Run, Spot } from "../../drawings/thread";

const SIZE = 100;
let canvas: CanvasRenderingContext2D | null = null;
let known = new Map<string, number>();

/** A canvas knows no tabular figures, the page uses nothing else: their one width is read off the page, once a weight. */
function figure(bold: boolean): number {
  const key = bold ? "!figure" : "figure";
  const before = known.get(key);
  if (before !== undefined) return before;
  const probe = document.createElement("span");
  probe.style.cssText = `position:absolute;visibility:hidden;white-space:pre;font-size:${SIZE}px;font-weight:${bold ? 700 : 400}`;
  probe.textContent = "0".repeat(10);
  document.body.append(probe);
  const width = probe.getBoundingClientRect().width / SIZE / 10;
  probe.remove();
  known.set(key, width);
  return width;
}

/** Width of a word in em, from the font itself and without touching the page's layout. */
export const measure: Measure = (word, bold) => {
  const key = bold ? `!${word}` : word;
  const before = known.get(key);
  if (before !== undefined) return before;
  canvas ??= document.createElement("canvas").getContext("2d");
  if (!canvas) return word.length * 0.56;
  canvas.font = `${bold ? 700 : 400} ${SIZE}px "Atkinson Hyperlegible", system-ui, sans-serif`;
  const letters = word.replace(/\d/g, "");
  const width = canvas.measureText(letters).width / SIZE + (word.length - letters.length) * figure(bold);
  known.set(key, width);
  return width;
};

/** After the font has come in, what was measured with another is forgotten. */
export function forgetWidths(): void {
  known = new Map();
}

interface Word {
  from: number;
  to: number;
  line: number;
  left: number;
  right: number;
}

/** Where each word of a text stands. Measured once a course, never on a tap. */
export interface TextMap {
  runs: Run[];
  words: Word[];
}

/** Reads the lines of `element`'s text; x and y from its own top left corner, the thread `drop` em under each line's foot. */
export function mapText(element: HTMLElement, size: number): TextMap {
  const origin = element.getBoundingClientRect();
  const walker = document.createTreeWalker(element, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  const runs: Run[] = [];
  const words: Word[] = [];
  let offset = 0;
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const text = node.textContent ?? "";
    for (const match of text.matchAll(/\S+/g)) {
      range.setStart(node, match.index);
      range.setEnd(node, match.index + match[0].length);
      for (const box of range.getClientRects()) {
        if (box.width === 0) continue;
        const left = box.left - origin.left;
        const right = box.right - origin.left;
        // The box of a text is its font's: its middle lies about 0.3 em above the line the letters stand on.
        const y = box.top + box.height / 2 - origin.top + size * 0.47;
        const last = runs.at(-1);
        if (last && Math.abs(last.y - y) < size / 2) last.right = Math.max(last.right, right);
        else runs.push({ left, right, y });
        words.push({ from: offset + match.index, to: offset + match.index + match[0].length, line: runs.length - 1, left, right });
      }
    }
    offset += text.length;
  }
  return { runs, words };
}

/** Where on the mapped lines a thread that has passed `chars` characters is. */
export function spotOn(map: TextMap, chars: number): Spot {
  let spot: Spot = { line: 0, x: map.runs[0]?.left ?? 0 };
  for (const word of map.words) {
    if (chars <= word.from) return chars === word.from ? { line: word.line, x: word.left } : spot;
    const part = Math.min(1, (chars - word.from) / (word.to - word.from));
    spot = { line: word.line, x: word.left + (word.right - word.left) * part };
    if (part < 1) return spot;
  }
  return spot;
}
