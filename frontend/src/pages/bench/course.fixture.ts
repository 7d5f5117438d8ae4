import type { Group, Node, Strand, StrandCourse, StrandCue } from "../../generated/pattern";
import { lengthOf, makesOf } from "../../drawings/marks";

/** Small strands of our own for the bench's tests (demo data: a mooring buoy). */
export const words = (short: string, full = short) => ({ short, full, spoken: full });

export function group(stitch: string, count: number, more: Partial<Group> = {}): Group {
  const plain = { type: "group" as const, stitch, count, uses: 1, makes: 1, steps: 1, loops: null, into: null, colour: null };
  return { ...plain, words: words(`${count} ${stitch}`), ...more };
}

export const sc = (n: number): Group => group("sc", n);
export const inc = (): Group => group("inc", 1, { makes: 2, steps: 2, words: words("inc", "2 single crochet in the next stitch") });
export const dec = (): Group => group("sc2tog", 1, { uses: 2, words: words("dec") });
export const repeat = (times: number, ...body: Node[]): Node => ({ type: "repeat", times, body });

const said = (node: Node): string => {
  if (node.type === "group") return node.words.short;
  const inside = node.body.map(said).join(", ");
  return node.body.length === 1 && !inside.includes(" ") ? `${inside} x ${node.times}` : `(${inside}) x ${node.times}`;
};

export interface Told {
  label: string;
  body?: Node[];
  text?: string;
  kind?: "round" | "row";
  /** A cue behind the course: its kind and weight. */
  then?: [StrandCue["kind"], StrandCue["weight"]];
}

export function strandOf(...told: Told[]): Strand {
  const courses: StrandCourse[] = [];
  const cues: StrandCue[] = [];
  let at = 0;
  for (const { label, body = [], text = "", kind = "round", then } of told) {
    const read = body.length > 0;
    const first = at;
    at += read ? lengthOf(body) : 1;
    courses.push({
      id: `buoy.${label}`,
      label,
      kind,
      first,
      end: at,
      uses: null,
      makes: read ? makesOf(body) : null,
      declared: null,
      text,
      body,
      read,
      spiral: true,
      plain: false,
      plain_index: null,
      plain_of: null,
      plain_from: null,
      plain_to: null,
      words: words(read ? body.map(said).join(", ") : text),
    });
    if (then) {
      const [what, weight] = then;
      const address = `buoy.${label}/${what}.1`;
      cues.push({ address, step: at++, kind: what, text: `${what} it`, basis: "written", weight, words: words(`${what} now`) });
    }
  }
  return { format: 1, id: "s", piece: "Buoy", terms: "US", length: at, courses, cues };
}
