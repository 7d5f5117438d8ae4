import type { Chosen } from "../../../follow/choices";
import type { Node, Strand, Words } from "../../../generated/pattern";
import type { Hers } from "./hers";
import { yarnNamed, yarnToBegin } from "../yarn";

export type Called = Readonly<Record<string, string>>;

/** What the maker calls the colours of one copy: her words for all copies, and over them those for this one. */
export const calledIn = (chosen: Chosen, run: string): Called => ({ ...chosen.colours, ...chosen[`colours/${run}`] });

/** Whether she calls any colour anything. */
export const callsAny = (chosen: Chosen): boolean => Object.keys(chosen).some((name) => name === "colours" || name.startsWith("colours/"));

const plain = (name: string) => name.toLowerCase().replace("colour", "color");

/** Whether "A" is the word and no colour's letter: written small, or in front of a sentence's next word. */
function isWord(text: string, at: number): boolean {
  const letter = text[at] ?? "";
  if (text.length === 1) return false;
  if (letter !== letter.toUpperCase()) return true;
  return /[AI]/.test(letter) && /^ \p{Ll}/u.test(text.slice(at + 1)) && /(?:^|[.!?:] )$/.test(text.slice(0, at));
}

/** The words with her names in place of the pattern's. Its twin is in cli/hers.py; both are held against the same cases. */
export function inHerWords(text: string, called: Called): string {
  const names = Object.keys(called).filter((name) => called[name]);
  if (names.length === 0) return text;
  const hers = new Map(names.map((name) => [plain(name), called[name] ?? ""]));
  const any = [...names]
    .sort((a, b) => b.length - a.length)
    .map((name) => name.replace(/[.*+?^${}()|[\]\\]/g, "\\$&").replace(/colou?r/gi, "colou?r"))
    .join("|");
  return text.replace(new RegExp(`(?<![\\p{L}\\p{N}])(?:${any})(?![\\p{L}\\p{N}])`, "giu"), (found, at: number) => {
    if (found.length === 1 && isWord(text, at)) return found;
    const words = hers.get(plain(found)) ?? found;
    return at === 0 ? words.slice(0, 1).toUpperCase() + words.slice(1) : words;
  });
}

const worded = ({ short, full, spoken }: Words, called: Called): Words => ({
  short: inHerWords(short, called),
  full: inHerWords(full, called),
  spoken: inHerWords(spoken, called),
});

const body = (nodes: readonly Node[], called: Called): Node[] =>
  nodes.map((node) =>
    node.type === "group"
      ? { ...node, words: worded(node.words, called), colour: node.colour && inHerWords(node.colour, called) }
      : { ...node, body: body(node.body, called) },
  );

/** A strand in her words: steps, counts and the designer's text are as they were. */
export const strandInHerWords = (strand: Strand, called: Called): Strand => ({
  ...strand,
  courses: strand.courses.map((course) => ({ ...course, words: worded(course.words, called), body: body(course.body, called) })),
  cues: strand.cues.map((cue) => ({ ...cue, words: worded(cue.words, called) })),
});

/** What she calls the colours that are the same in all copies. */
function calledAlike(chosen: Chosen): Called {
  const apart = Object.entries(chosen).flatMap(([name, value]) => (name.startsWith("colours/") ? Object.keys((value as Called | null) ?? {}).map(plain) : []));
  return Object.fromEntries(Object.entries(chosen.colours ?? {}).filter(([name]) => !apart.includes(plain(name))));
}

/** Strands and sentences in her words. A strand is worked out once: it keeps its identity while neither it nor her words change. */
export function wording(chosen: Chosen): Hers {
  const known = new Map<string, Strand>();
  const strand = (strand: Strand, run: string) => {
    const called = calledIn(chosen, run);
    if (Object.keys(called).length === 0) return strand;
    const key = `${strand.id} ${JSON.stringify(called)}`;
    const dressed = known.get(key) ?? strandInHerWords(strand, called);
    known.set(key, dressed);
    return dressed;
  };
  const alike = calledAlike(chosen);
  return { strand, text: (text) => inHerWords(text, alike) };
}

/** The colours that the steps of a strand name, in the order in which they come, each once. */
export function coloursOf(strand: Strand): string[] {
  const found: [step: number, name: string][] = [];
  const look = (nodes: readonly Node[], step: number) => {
    for (const node of nodes) {
      if (node.type === "repeat") look(node.body, step);
      else if (node.colour) found.push([step, node.colour]);
    }
  };
  for (const course of strand.courses) look(course.body, course.first);
  for (const cue of strand.cues) {
    if (cue.kind !== "colour") continue;
    const name = yarnNamed(cue.words.short || cue.text) ?? yarnNamed(cue.text) ?? yarnToBegin(strand, cue);
    if (name) found.push([cue.step, name]);
  }
  const each = new Map<string, string>();
  for (const [, name] of found.sort(([a], [b]) => a - b)) if (!each.has(plain(name))) each.set(plain(name), name);
  return [...each.values()];
}
