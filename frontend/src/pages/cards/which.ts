import type { MakingState } from "../../follow/stepping";
import type { Snapshot } from "../../api";
import { CARDS, type CardText, type Said } from "../../generated/cards";
import type { Group, Node, StrandCourse, StrandCue, Terms } from "../../generated/pattern";
import { type Seen, whispersBehind } from "../bench/seen";

/** A sentence of a card in the maker's terms. */
export const inTerms = (said: Said, terms: Terms): string => (typeof said === "string" ? said : said[terms === "US" ? 0 : 1]);

const BY_KEY = new Map(CARDS.map((card) => [card.key, card]));
const BY_STITCH = new Map(CARDS.flatMap((card) => card.stitches.map((stitch) => [stitch, card.key] as const)));

export const cardCalled = (key: string): CardText | undefined => BY_KEY.get(key);

/** What a group of stitches needs, the most telling first: where the hook goes may be newer than the stitch. */
export function keysOfGroup({ stitch, loops, into, count, makes }: Group): string[] {
  const keys: string[] = [];
  if (loops) keys.push("loops");
  if (into === "ring") keys.push("ring");
  if (into === "other side") keys.push("chain-sides");
  // Several stitches in one chain: the beginning that does without a ring.
  if (into !== null && /ch from hook$/.test(into) && count * makes >= 4) keys.push("chain-start");
  const own = BY_STITCH.get(stitch);
  if (own) keys.push(own);
  return keys;
}

function* groupsOf(body: readonly Node[]): Generator<Group> {
  for (const node of body) {
    if (node.type === "group") yield node;
    else yield* groupsOf(node.body);
  }
}

const known = new WeakMap<StrandCourse, Set<string>>();

/** The cards that a course needs. */
export function keysOfCourse(course: StrandCourse): Set<string> {
  let keys = known.get(course);
  if (!keys) {
    keys = new Set([...groupsOf(course.body)].flatMap(keysOfGroup));
    known.set(course, keys);
  }
  return keys;
}

const DRY = /\b(?:do not|don't|not) stuff|\bunstuffed\b|\bno stuffing\b/i;

/** Whether a piece is stuffed, by what waits in it; null: nothing says so. */
export function stuffed(cues: readonly Pick<StrandCue, "kind" | "text">[]): boolean | null {
  const jobs = cues.filter((cue) => cue.kind === "stuff");
  return jobs.length === 0 ? null : jobs.some((cue) => !DRY.test(cue.text));
}

/** The card for something that waits; null for what needs none. */
export function keyOfCue(cue: Pick<StrandCue, "kind" | "text">, cues: readonly Pick<StrandCue, "kind" | "text">[]): string | null {
  if (cue.kind === "weave") return /\bstuffing\b|\binside\b/i.test(cue.text) || stuffed(cues) ? "ends-stuffed" : "ends-flat";
  if (cue.kind === "stuff" && DRY.test(cue.text)) return null;
  if (cue.kind === "sew" && /\b(?:shut|closed?)\b/i.test(cue.text)) return "closing";
  return CARDS.find((card) => card.cues.includes(cue.kind))?.key ?? null;
}

/** The cards for what is in hand, the most telling first: what waits, else the stitch and where it goes. */
export function cardsAt({ spot, strand, course }: Seen): string[] {
  if (spot.cue && spot.cue.weight !== "whisper") {
    const cue = strand.cues.find((c) => c.address === spot.cue?.address);
    const key = cue && keyOfCue(cue, strand.cues);
    return key ? [key] : [];
  }
  if (!course || !spot.group) return [];
  // The hands turn before a row or behind it, and join behind a round: with the group that is in hand then.
  const lead = spot.lead.some((group) => group.stitch === "turn") ? ["turn"] : [];
  const trail = spot.trail.flatMap((group) => (group.stitch === "turn" || group.stitch === "join" ? keysOfGroup(group) : []));
  const keys = [...new Set([...lead, ...keysOfGroup(spot.group), ...trail])];
  const below = strand.courses[(spot.course ?? 0) - 1];
  const second = spot.course === 1 && spot.stitch === 0 && course.kind === "round" && below?.uses === 0;
  return second ? ["second-round", ...keys] : keys;
}

/** The same, and behind them the cards of what was just said in passing: the marker, a colour that changed. */
export function cardsNear(seen: Seen): string[] {
  const passing = whispersBehind(seen).flatMap((cue) => keyOfCue(cue, seen.strand.cues) ?? []);
  return [...new Set([...cardsAt(seen), ...passing])];
}

/**
 * The card of what is used here for the first time in the whole making; null where all of it is known. Only where the
 * group begins: later the hands are in it already.
 */
export function firstUse(snapshot: Snapshot, state: MakingState, seen: Seen): string | null {
  const { spot, strand, course } = seen;
  if (!course || !spot.group || spot.group_step > 0 || spot.repeats.some((r) => r.i > 1)) return null;
  const before = new Set(strand.courses.slice(0, spot.course ?? 0).flatMap((c) => [...keysOfCourse(c)]));
  for (const group of groupsOf(course.body)) {
    if (group === spot.group) break;
    if (spot.lead.includes(group)) continue;
    for (const key of keysOfGroup(group)) before.add(key);
  }
  for (const { run } of snapshot.runs) {
    const other = state.runs[run];
    if (run === seen.run || !other) continue;
    const worked = snapshot.strands[other.strand]?.courses.filter((c) => c.first < other.at) ?? [];
    for (const key of worked.flatMap((c) => [...keysOfCourse(c)])) before.add(key);
    if (worked.length > 1 && worked[0]?.uses === 0) before.add("second-round");
  }
  return cardsAt(seen).find((key) => !before.has(key)) ?? null;
}

/** Whether a word for first times was told in no other run of this making yet. */
export function toldFirst(snapshot: Snapshot, state: MakingState, seen: Seen): (cue: StrandCue) => boolean {
  const word = ({ address }: StrandCue) => address.split("/learn-")[1];
  const told = new Set<string | undefined>();
  for (const { run } of snapshot.runs) {
    const other = state.runs[run];
    if (run === seen.run || !other) continue;
    for (const cue of snapshot.strands[other.strand]?.cues ?? []) if (cue.step < other.at) told.add(word(cue));
  }
  return (cue) => !told.has(word(cue));
}
