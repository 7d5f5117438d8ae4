import type { Group, Node, StrandCourse, Words } from "../../generated/pattern";
import { lengthOf } from "../../drawings/marks";
import { edges } from "../../follow/place";

export type Fullness = "short" | "full";

export const chosen = (words: Words, fullness: Fullness): string =>
  fullness === "full" ? words.full || words.short : words.short;

/** "Round 11", "Row 4"; a chain to work into has no number, nor has a first round that is only described. */
export function courseName(course: { kind: "round" | "row"; label: string; makes?: number | null }): string {
  if (course.label === "0") return course.kind === "row" || course.makes === 0 ? "The start" : "First round";
  return `${course.kind === "row" ? "Row" : "Round"} ${course.label}`;
}

/** A group as the words room wrote it, or, where it wrote nothing, as amount and stitch. */
export function groupText(group: Group, fullness: Fullness): string {
  const said = chosen(group.words, fullness);
  if (said) return said;
  return group.count === 1 && group.makes !== 1 ? group.stitch : `${group.count} ${group.stitch}`;
}

export function nodeText(node: Node, fullness: Fullness): string {
  if (node.type === "group") return groupText(node, fullness);
  const inside = node.body.map((n) => nodeText(n, fullness)).join(", ");
  // The words room's own rule: a single group of one word needs no brackets, "inc x 6".
  const bare = node.body.length === 1 && node.body[0]?.type === "group" && !inside.includes(" ");
  return bare ? `${inside} x ${node.times}` : `(${inside}) x ${node.times}`;
}

/** "6 sc in ring": the amount and stitch, which are read from afar, and the rest, which is read once. */
export function parted(text: string): { head: string; tail: string } {
  const found = /^(.+?)(?:,? )((?:in|into|through|over|with|one in|each) .*)$/.exec(text);
  return found?.[1] && found[2] ? { head: found[1].replace(/,$/, ""), tail: found[2] } : { head: text, tail: "" };
}

/** The course as one sentence: "Round 11: (4 sc, inc) x 7, 42 stitches". */
export function sentenceOf(course: StrandCourse, fullness: Fullness): string {
  const said = chosen(course.words, fullness) || course.body.map((n) => nodeText(n, fullness)).join(", ") || course.text;
  const named = /^(the start|first round|round|row|rounds|rows)\b/i.test(said) ? said : `${courseName(course)}: ${said}`;
  if (!course.makes || /\d+ stitch(es)?\W*$/.test(named)) return named;
  return `${named.replace(/[.,]$/, "")}, ${course.makes} ${course.makes === 1 ? "stitch" : "stitches"}`;
}

/**
 * The sentence in chunks that no line may break: "4 sc," and "x 7" stay together, "Round 11:" too. Joined with single
 * spaces they are the sentence again.
 */
export function chunksOf(sentence: string): string[] {
  const chunks: string[] = [];
  for (const word of sentence.split(" ")) {
    const before = chunks.at(-1);
    const amount = before !== undefined && /(^|[^\p{L}\p{N}])(\d+|x|ch|sk|Round|Row)$/u.test(before);
    if (amount && before.length + word.length < 16 && !/ \S+ /.test(`${before} `)) chunks[chunks.length - 1] = `${before} ${word}`;
    else chunks.push(word);
  }
  return chunks;
}

/** The same for measuring: spaces that must hold are no-break spaces. */
export const unbroken = (sentence: string): string => chunksOf(sentence).map((c) => c.replaceAll(" ", "\u00a0")).join(" ");

/** Where the words of a group stand in its sentence. `first` counts body steps of the group's first working. */
export interface Anchor {
  group: Group;
  from: number;
  to: number;
}

function groupsIn(body: readonly Node[]): Group[] {
  return body.flatMap((n) => (n.type === "group" ? [n] : groupsIn(n.body)));
}

/** Finds each group's words in the sentence, in order; a group the sentence says otherwise has no anchor. */
export function anchorsOf(sentence: string, body: readonly Node[], fullness: Fullness): Anchor[] {
  const colon = sentence.indexOf(": ");
  let cursor = colon < 0 ? 0 : colon + 2;
  const anchors: Anchor[] = [];
  for (const group of groupsIn(body)) {
    for (const text of [groupText(group, fullness), `${group.count} ${group.stitch}`, group.stitch]) {
      const from = text ? findWord(sentence, text, cursor) : -1;
      if (from < 0) continue;
      anchors.push({ group, from, to: from + text.length });
      cursor = from + text.length;
      break;
    }
  }
  return anchors;
}

/** As indexOf, but "sc" is not found inside "sc2tog" nor "2 sc" inside "12 sc". */
function findWord(sentence: string, text: string, start: number): number {
  const wordly = /[\p{L}\p{N}]/u;
  for (let from = sentence.indexOf(text, start); from >= 0; from = sentence.indexOf(text, from + 1)) {
    const before = sentence[from - 1] ?? " ";
    const after = sentence[from + text.length] ?? " ";
    if (!wordly.test(before) && !wordly.test(after)) return from;
  }
  return -1;
}

/** A group with the step at which its present working began. */
export interface Held {
  group: Group;
  first: number;
}

export function heldAt(body: readonly Node[], at: number, start = 0): Held | null {
  let first = start;
  for (const node of body) {
    if (node.type === "group") {
      const steps = node.count * node.steps;
      if (at >= first && at < first + steps) return { group: node, first };
      first += steps;
    } else {
      const each = lengthOf(node.body);
      const all = each * node.times;
      if (at >= first && at < first + all && each > 0)
        return heldAt(node.body, at, first + each * Math.floor((at - first) / each));
      first += all;
    }
  }
  return null;
}

/**
 * How many characters of the sentence the thread has passed when `done` body steps are worked.
 * Within a repeat the hook runs along the repeat's words once for each time they are worked.
 */
export function hookChar(sentence: string, course: StrandCourse, done: number, fullness: Fullness): number {
  const total = lengthOf(course.body);
  if (done >= total) return sentence.length;
  const held = heldAt(course.body, done);
  const anchor = held && anchorsOf(sentence, course.body, fullness).find((a) => a.group === held.group);
  if (held && anchor) {
    const steps = held.group.count * held.group.steps;
    return anchor.from + ((anchor.to - anchor.from) * (done - held.first)) / steps;
  }
  const colon = sentence.indexOf(": ");
  const from = colon < 0 ? 0 : colon + 2;
  return from + ((sentence.length - from) * done) / Math.max(1, total);
}

/**
 * Increases and decreases of a course in full words, "inc: 2 single crochet in the next stitch": they stand there from
 * its first stitch to its last, so that what comes is known before it is in hand. None where the course is nothing else.
 */
export function spelledOut(course: StrandCourse): string[] {
  const groups = groupsIn(course.body).filter((g) => g.steps > 0 && (g.makes > 0 || g.uses > 0));
  const shaping = groups.filter((g) => g.makes !== g.uses && g.uses > 0 && g.makes > 0);
  if (shaping.length === groups.length) return [];
  const told = shaping.filter((g) => g.count === 1).map((g) => [g.words.short, g.words.full] as const);
  return [...new Map(told.filter(([short, full]) => short && full && short !== full)).entries()].slice(0, 2).map((pair) => pair.join(": "));
}

/** One part of the repeat that lies open on the bench. */
export interface Part {
  /** Amount and stitch, in the short words that can be read from afar. */
  head: string;
  /** How: where it goes, or the stitch in full words. */
  tail: string;
  /** What is done before it in the same breath: "ch 1 first". */
  lead: string;
  /** What is done after it in the same breath: "then join". */
  then: string;
  state: "worked" | "hand" | "ahead";
  first: number;
  steps: number;
}

/** Never more parts than this side by side: what is in hand and what comes next. */
export const OPEN_PARTS = 3;

/**
 * The innermost repeat that holds the next step, opened out (or the course itself where nothing is repeated). What
 * leads into a course and what closes it stand small beside the stitches they go with.
 */
export function openedOut(course: StrandCourse, at: number, fullness: Fullness): Part[] {
  const { body } = course;
  const all = lengthOf(body);
  const [begin, end] = edges(course);
  if (at >= end && at < all) return shown(open(body, at, 0, fullness).filter((p) => p.first >= end));
  const here = Math.min(Math.max(at, begin), Math.max(0, end - 1));
  const parts = open(body, here, 0, fullness)
    // What is passed over takes no step: it stands before the stitch that it leads to, or behind the last one.
    .filter((p) => (p.steps > 0 ? p.first + p.steps > begin && p.first < end : p.first >= begin && p.first <= end))
    .map((p): Part => (at >= all ? { ...p, state: "worked" } : p));
  const own = (from: number, to: number) => topGroups(body).filter((g) => g.first >= from && g.first < to && g.first + g.steps > at);
  const said = (from: number, to: number) => own(from, to).map((g) => chosen(g.group.words, fullness) || groupText(g.group, fullness));
  const lead = said(0, begin);
  const trail = said(end, all);
  return shown(
    parts.map((p, i) => ({
      ...p,
      lead: lead.length > 0 && p.state === "hand" ? `${lead.join(", ")} first` : "",
      then: trail.length > 0 && p.first + p.steps === end && i === parts.length - 1 ? `then ${trail.join(", ")}` : "",
    })),
  );
}

function shown(parts: Part[]): Part[] {
  if (parts.length <= OPEN_PARTS) return parts;
  const hand = Math.max(0, parts.findIndex((p) => p.state === "hand"));
  const from = Math.min(hand, parts.length - OPEN_PARTS);
  return parts.slice(from, from + OPEN_PARTS);
}

/** The groups that stand in no repeat, with the steps they take. */
function topGroups(body: readonly Node[]): { group: Group; first: number; steps: number }[] {
  let first = 0;
  return body.flatMap((node) => {
    const start = first;
    const steps = lengthOf([node]);
    first += steps;
    return node.type === "group" && steps > 0 ? [{ group: node, first: start, steps }] : [];
  });
}

/** Every step at which other words come to be in hand, the first and the last turn of each repeat once. */
export function turnsOf(body: readonly Node[], start = 0): number[] {
  const steps: number[] = [];
  let first = start;
  for (const node of body) {
    if (node.type === "group") {
      steps.push(first);
      first += node.count * node.steps;
      continue;
    }
    const each = lengthOf(node.body);
    steps.push(...turnsOf(node.body, first));
    if (node.times > 1) steps.push(...turnsOf(node.body, first + each * (node.times - 1)));
    first += each * node.times;
  }
  return [...new Set(steps)];
}

/** A lone stitch has its number, so that it does not read as a label: "1 sc", but "inc". */
export const numbered = (group: Group, words: string): string =>
  group.count === 1 && group.makes === 1 && group.uses <= 1 && words.startsWith(group.words.short) && !/^\d/.test(words) && !/^(ch|join|turn)\b/.test(words)
    ? `1 ${words}`
    : words;

function open(body: readonly Node[], at: number, start: number, fullness: Fullness): Part[] {
  const parts: Part[] = [];
  let first = start;
  for (const node of body) {
    const each = node.type === "group" ? node.count * node.steps : lengthOf(node.body);
    const steps = node.type === "group" ? each : each * node.times;
    const holds = at >= first && at < first + steps;
    if (holds && node.type === "repeat") return open(node.body, at, first + each * Math.floor((at - first) / each), fullness);
    const state = holds ? "hand" : at >= first + steps ? "worked" : "ahead";
    parts.push({ ...partOf(node, holds && fullness === "full"), lead: "", then: "", state, first, steps });
    first += steps;
  }
  return parts;
}

/**
 * Amount and stitch stay short, because only short words can be large enough for a metre: full words stand below what
 * is in hand.
 */
function partOf(node: Node, full: boolean): { head: string; tail: string } {
  if (node.type !== "group") return { head: nodeText(node, "short"), tail: "" };
  const short = parted(numbered(node, groupText(node, "short")));
  return full ? { head: short.head, tail: groupText(node, "full") } : short;
}
