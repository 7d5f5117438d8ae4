import type { CueKind, Strand, StrandCourse, StrandCue, Terms } from "../../generated/pattern";
import type { Snapshot } from "../../api";
import { locate, type Spot } from "../../follow/place";
import { courseName } from "./sentence";

const stitches = (n: number) => `${n} ${n === 1 ? "stitch" : "stitches"}`;

/** The place in words, a line for each thing: "repeat 3 of 7", "17 of 42 made": the stitch in hand is the next one. */
export function placeLines(spot: Spot, course: StrandCourse): string[] {
  const lines: string[] = [];
  const outer = spot.repeats.length > 1 ? spot.repeats[0] : undefined;
  if (outer) lines.push(`repeat ${outer.i} of ${outer.n}`);
  if (spot.repeat) lines.push(outer ? `in it ${spot.repeat.i} of ${spot.repeat.n}` : `repeat ${spot.repeat.i} of ${spot.repeat.n}`);
  const run = plainRun(course);
  if (run) lines.push(run[0]);
  // A foundation chain makes no stitches: its chains are counted.
  if (spot.group?.stitch === "ch" && spot.group.makes === 0 && (spot.of === 0 || spot.group_length > 3))
    lines.push(spot.group_step === 0 ? `${spot.group_length} chains` : `chain ${spot.group_step} of ${spot.group_length}`);
  else if (spot.of) lines.push(spot.stitch === 0 ? `${spot.of} to make` : `${spot.stitch} of ${spot.of} made`);
  return lines;
}

/** "plain round 2 of 4" and "rounds 9 to 12", where plain courses follow one another. */
export function plainRun(course: StrandCourse): [string, string] | null {
  const { plain_index: i, plain_of: n, plain_from: from, plain_to: to, kind } = course;
  if (i === null || n === null || n < 2) return null;
  return [`plain ${kind} ${i} of ${n}`, `${kind}s ${from} to ${to}`];
}

/** The longest the place's lines get during a course, so that their size holds all through it. */
export function widestPlace(spot: Spot, course: StrandCourse): string[] {
  const full = (n: number) => "4".repeat(String(n).length);
  const repeats = spot.repeats.map((r) => ({ i: Number(full(r.n)), n: r.n }));
  return placeLines({ ...spot, stitch: Number(full(spot.of ?? 0)), group: spot.of === 0 ? spot.group : null, repeats, repeat: repeats.at(-1) ?? null }, course);
}

/** The whole place as one sentence, for ears: "Round 11, repeat 3 of 7, 17 of 42 made". */
export function placeSentence(spot: Spot, course: StrandCourse | undefined): string {
  if (spot.finished) return "Finished.";
  if (spot.cue && spot.cue.weight !== "whisper") return `Waiting: ${spot.cue.words.full || spot.cue.text}`;
  if (!course) return "All rounds are worked; the making up is left.";
  if (spot.unread) return `${courseName(course)}, in the designer's words: ${course.text}`;
  const [first = "", ...rest] = placeLines(spot, course);
  const run = plainRun(course)?.[1];
  return [courseName(course), first, ...(run ? [run] : []), ...rest].filter(Boolean).join(", ");
}

/** Things that are said one after another, each with one stop. */
export const sentences = (said: readonly string[]): string => said.filter(Boolean).map(ended).join(" ");

export const ended = (text: string): string => (/[.!?…]$/.test(text) ? text : `${text}.`);

/** A place short enough to tell two apart: "round 7, after stitch 12", "at the start of round 8". */
export function placeBrief(spot: Spot, course: StrandCourse | undefined): string {
  if (spot.finished) return "finished";
  if (!course) return "after the last round";
  const name = courseName(course).toLowerCase();
  if (spot.stitch > 0) return `${name}, after stitch ${spot.stitch}`;
  const chains = chainsMade(spot);
  if (chains) return `${name}, after chain ${chains} of ${spot.group_length}`;
  return name === "the start" ? `at ${name}` : `at the start of ${name}`;
}

/** Chains of a foundation that are made, where no stitches are: a place among fifteen hundred of them is one by its chain. */
const chainsMade = ({ group, group_step }: Spot): number => (group?.stitch === "ch" && group.makes === 0 ? group_step : 0);

/** The same, of a run of a making. */
export function briefAt(snapshot: Snapshot, run: string, at: number): string {
  const strand = snapshot.strands[snapshot.state.runs[run]?.strand ?? ""];
  if (!strand) return "elsewhere";
  const spot = locate(strand, at);
  return placeBrief(spot, spot.course === null ? undefined : strand.courses[spot.course]);
}

/** The same behind "says". */
export const saidAt = (snapshot: Snapshot, run: string, at: number): string => briefAt(snapshot, run, at).replace(/^at /, "");

/**
 * "32 are printed, 30 add up": where the designer's count is another one than the stitches come to, both are shown.
 * `mended`: the maker's own mend changes the course, and no fault of the pattern.
 */
export function printedOtherwise({ declared, makes }: Pick<StrandCourse, "declared" | "makes">, mended = false): string | null {
  const otherwise = declared !== null && makes !== null && declared !== makes;
  if (mended) return otherwise ? `as you mended it: ${makes}, where ${declared} are printed` : "as you mended it";
  return otherwise ? `${declared} are printed, ${makes} add up` : null;
}

/** A number stays on the line of what it counts. */
export const unbroken = (text: string): string => text.replaceAll(/ (?=\d)/g, "\u00a0");

const DEEDS: Record<CueKind, string> = {
  stuff: "stuff",
  tail: "see to the tail",
  close: "close the opening",
  colour: "change colour",
  eyes: "put the eyes in",
  shape: "shape it",
  weave: "weave in the ends",
  sew: "sew",
  turn: "turn",
  fasten: "fasten off",
  marker: "place the marker",
  hold: "set it aside",
  join: "join",
  pin: "pin the parts",
  embroider: "embroider",
  count: "count",
  other: "something to do",
};

/** What a kind of cue asks, where its own words are too long. */
export function deed(cue: Pick<StrandCue, "kind">, terms: Terms): string {
  return cue.kind === "colour" && terms === "US" ? "change color" : DEEDS[cue.kind];
}

/** Longer than this is no name; a question may be a little longer, since half of one is an order. */
const NAME = 30;
const QUESTION = 36;

/**
 * What a cue asks, in as few words as will do: its own where they are few, since its kind may mislead ("stuff" for a
 * neck that is only topped up).
 */
export function cueName(cue: Pick<StrandCue, "kind" | "words" | "text">, terms: Terms): string {
  const said = cue.words.short || cue.text;
  const [whole = ""] = said.split(/[.:;]/);
  const [main = ""] = said.split(/[.:;,]|(?<!\bbetween [^,]{0,14}) (?:for|in|with|until|leaving|and) /);
  const own = [whole, main].map((text) => text.trim().replace(/\s+now$/i, "")).find((text) => text && text.length <= NAME);
  if (said.endsWith("?") && said.length <= QUESTION) return said.slice(0, 1).toLowerCase() + said.slice(1);
  if (!own) return deed(cue, terms);
  return /^[A-Z][a-z]/.test(own) ? own.slice(0, 1).toLowerCase() + own.slice(1) : own;
}

export const sentenceCase = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** What a cue says of the course it stands before: seen from an earlier one, "this round" would be another. */
const OF_ITS_OWN = / in this (?:round|row)$/;

/** "in 4 rounds: stuff", "after this round: stuff", "in the next round: change to cream", "in 12 stitches: fasten off". */
export function cueAhead(spot: Spot, strand: Strand): string | null {
  const next = spot.next_cue;
  const cue = next && strand.cues.find((c) => c.address === next.address);
  if (!next || !cue) return null;
  const named = cueName(cue, strand.terms);
  const what = named.replace(OF_ITS_OWN, "");
  const course = spot.course === null ? undefined : strand.courses[spot.course];
  const kind = course?.kind ?? "round";
  if (next.distance_courses > 1) return `in ${next.distance_courses} ${kind}s: ${what}`;
  if (next.distance_courses === 1) {
    const behind = strand.courses[(spot.course ?? 0) + 1];
    const within = behind !== undefined && cue.step > behind.first && cue.step < behind.end;
    return within || what !== named ? `in the next ${kind}: ${what}` : `after this ${kind}: ${what}`;
  }
  if (next.distance_stitches > 0) return `in ${stitches(next.distance_stitches)}: ${what}`;
  return `next: ${what}`;
}

/**
 * Where she typed what a round in the designer's words came to, and the round in hand takes up another number: what comes
 * next is laid by the text, so it is said. Null where the two agree, or nothing was typed.
 */
export function typedOtherwise(courses: readonly StrandCourse[], index: number | null, counts: Record<string, number>): { made: number; uses: number } | null {
  const [below, course] = index === null ? [] : [courses[index - 1], courses[index]];
  const made = below && counts[below.id];
  const uses = below && takenUp(below, course);
  return made === undefined || !uses || uses === made ? null : { made, uses };
}

/** How many of a round the next one takes up; null where it is known to leave some, or to work in other parts as well. */
export function takenUp({ declared }: StrandCourse, next: StrandCourse | undefined): number | null {
  return next?.read && next.uses && (declared === null || declared === next.uses) ? next.uses : null;
}

/** "1 is left over", "2 are missing". */
export function offBy(made: number, uses: number): string {
  const n = Math.abs(made - uses);
  return `${n} ${n === 1 ? "is" : "are"} ${made > uses ? "left over" : "missing"}`;
}

/** "Round 10 made 36": the course before the one in hand. */
export function lastCourse(courses: readonly StrandCourse[], index: number | null, counts: Record<string, number>): string | null {
  const course = courses[(index ?? courses.length) - 1];
  if (!course) return null;
  const made = counts[course.id] ?? course.makes;
  const otherwise = typedOtherwise(courses, index, counts);
  if (otherwise) return `${courseName(course)} made ${otherwise.made}, this takes up ${otherwise.uses}: ${offBy(otherwise.made, otherwise.uses)}`;
  return made === null || made === 0 ? `${courseName(course)} is done` : `${courseName(course)} made ${made}`;
}

const MOVES = /^(?:then |and |now )*(?:move|bring|shift|put|place|replace) (?:your |the |a )?(?:stitch )?marker(?: up| along| on| forward)*[.!]*$/i;

/**
 * "Move the marker" at a round's end would have a beginner mark the last stitch or the loop on the hook: the marker
 * goes into the first stitch of the new round, once that stitch is made (common practice, no source). Whatever else a
 * designer says of a marker, "remove the marker" above all, is said in their own words.
 */
export const movesMarker = (cue: StrandCue): boolean => cue.kind === "marker" && (cue.basis === "worked out" || MOVES.test(cue.text));

/** One line. */
export function whisperText(cue: StrandCue): string {
  if (movesMarker(cue)) return "Make 1 stitch, marker into it";
  if (cue.kind === "count") return cue.words.short.replace(/^Count now: (\d+) in (?:round|row) \S+$/, "Count: $1"); // the one that ends here
  // A sentence that was cut to a few words is no instruction any more.
  return /…$/.test(cue.words.short) ? saidFor(cue.words.full)[0] : cue.words.short || cue.text;
}

/** What is to be done, and why it was worked out: that is read by whoever wonders, once, and close by. */
export function saidFor(full: string): [what: string, why: string] {
  const why = /(?: ?Printed in line \d+\.)? ?Worked out, because (?:[^.]|\.(?=\d))*\./.exec(full)?.[0] ?? "";
  return [full.replace(why, ""), why.trim()];
}

/** What a cue says beyond its few words; "" where that is nothing. What the title has said is not said again. */
export function moreThan(title: string, said: string): string {
  const bare = (text: string) => text.toLowerCase().replace(/[^\p{L}\p{N}]+/gu, " ").trim();
  if (bare(said) === bare(title)) return "";
  const rest = said.slice(title.length);
  // Cut where the title ends with a part of the sentence, and not in the middle of a list of numbers.
  const cut = said.toLowerCase().startsWith(title.toLowerCase()) ? /^(?:[.;:!]|,(?! *\d))\s*(?=\S)/.exec(rest) : null;
  return cut ? sentenceCase(rest.slice(cut[0].length)) : said;
}

/** What a cue says in the designer's own words, and what is said of how it is done. */
export function how({ text, words }: Pick<StrandCue, "text" | "words">): { own: string; rest: string } {
  const own = ended(text);
  const begins = words.full.toLowerCase().startsWith(own.toLowerCase());
  return begins ? { own, rest: words.full.slice(own.length).trim() } : { own: words.full, rest: "" };
}

/** When something that waits is due, in words: after which course, or in the middle of one; a section has none. */
export function whenNow(spot: Spot, courses: readonly StrandCourse[]): string {
  const now = spot.course === null ? undefined : courses[spot.course];
  if (now && spot.stitch > 0) return `In ${courseName(now).toLowerCase()}, after stitch ${spot.stitch}.`;
  const before = courses[(spot.course ?? courses.length) - 1];
  return before ? `${courseName(before)} is done.` : courses.length > 0 ? "Before the first stitch." : "";
}
