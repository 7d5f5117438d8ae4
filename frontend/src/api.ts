import type { CueKind, FinishItem, Gathered, Habits, Measures, Pattern, Spread, Strand, Terms } from "./generated/pattern";
import type { Chosen, Note } from "./follow/choices";
import { device } from "./follow/device";
import { shownOut } from "./follow/outside";
import type { MakingState } from "./follow/stepping";

type Plain = "plain" | "stitch" | "group" | "repeat" | "round";

/** What the server keeps for the maker of this device: web/makers.py says what each is. */
export interface Maker {
  hand: "right" | "left";
  decreases: "plain" | "invisible";
  terms: Terms | null;
  words: "short" | "full";
  /** Aloud, while she works; "no": she does not; null: not asked yet. */
  counting: "repeat" | "round" | "group" | "no" | null;
  plain: Plain;
  plain_keys: Plain | "same";
  plain_voice: Plain | "same";
  light: "daylight" | "lamplight" | "auto";
  /** Minutes of work after which a rest is spoken of; 0: never. */
  breaks: 0 | 20 | 30 | 50;
  quiet: CueKind[];
}

/** Who works at this device ("": nobody in particular), and all makers there are. */
export interface Who {
  name: string;
  makers: string[];
}

export interface ShelfPattern {
  id: string | number;
  title: string;
  /** As the designer printed it; "" where nothing was. */
  hook: string;
  source: "own" | "yours";
  pieces: { name: string; make: number; courses: number }[];
  findings: { error: number; warning: number; note: number };
  can_be_followed: boolean;
  /** The maker's own; none on a shelf remembered from before there were labels. */
  labels?: string[];
  /** Why nothing of it is shown: reading did not get through it. */
  cannot_read?: string;
}

export interface ShelfMaking {
  id: number;
  pattern: string | number;
  title: string;
  begun: string;
  /** Its last row; nothing where it is damaged. */
  head?: number;
  worked: string | null;
  terms: Terms;
  in_hand: {
    run: string;
    piece: string;
    copy: number;
    copies: number;
    label: string | null;
    kind: "round" | "row" | null;
    stitch: number | null;
    of: number | null;
    next_cue: { kind: CueKind; text: string; distance_courses: number; waits: boolean } | null;
    /** Behind the last stitch of a run: what is taken in hand next; a part, or a section that is only sewn. */
    then?: { piece: string; copy: number; copies: number; crocheted: boolean } | null;
  } | null;
  finished: boolean;
  /** Jobs of its finish list that are not done, of one that is worked; null or nothing where that is not known. */
  to_finish?: number | null;
  labels?: string[];
  asides: number;
  /** Its pattern was changed, and the maker has not said whether to go on by it. */
  edited?: boolean;
  /** Its rows are not what was written: it cannot be gone on with, and this says what can be done. */
  damaged?: string;
}

export interface Shelf {
  epoch: string;
  /** The highest number a making has, wherever it is; nothing on a shelf remembered from before it was told. */
  newest?: number;
  maker: Maker;
  patterns: ShelfPattern[];
  makings: ShelfMaking[];
  /** Put away: out of sight, with their place, to be brought back. */
  away: ShelfMaking[];
}

/** One stretch of work, in seconds since 1970. `a_minute` null: too short to tell. */
export interface ToldSitting {
  begun: number;
  ended: number;
  stitches: number;
  pieces: string[];
  a_minute: number | null;
}

/** `place`: "round 3"; nothing in a record kept from before it was told. */
export type ToldNote = Note & { piece: string; place?: string };

/** The record of a making: server/hookside/record/told.py says what each is. */
export interface Told {
  title: string;
  sittings: ToldSitting[];
  worked_seconds: number;
  /** Stitches that were ripped; nothing in a record kept from before they were told. */
  pulled_out?: number;
  pace: (Spread & { sittings: number }) | null;
  left: {
    stitches: number;
    stitches_of: number;
    courses: number;
    courses_of: number;
    unread: number;
    minutes: Spread & { sittings: number };
    metres: Spread | null;
  };
  runs: { run: string; piece: string; number: number; copies: number; stitches: number; stitches_of: number }[];
  notes: ToldNote[];
}

export interface KeptPattern {
  id: string | number;
  text: string;
  terms: Terms | null;
  source: "own" | "yours";
}

export type Order = { kind: "one" } | { kind: "pair" } | { kind: "level"; label: string };

/** How many to make of a piece, by its number from 1. A piece not named: as the pattern prints it. */
export type Copies = Record<number, number>;

export type Reading = Pattern & { digest: string };

export interface Aside {
  row: number;
  device: string;
  device_name: string;
  run: string;
  to: number;
}

/** A making as the journal has it. */
export interface Snapshot {
  epoch: string;
  id: number;
  pattern: string | number;
  title: string;
  head: number;
  order: Order;
  terms: Terms;
  runs: { run: string; piece: string; copy: number; copies: number; strand: string }[];
  state: MakingState;
  strands: Record<string, Strand>;
  asides: Aside[];
  /** The pattern's text was changed, and the maker has not said whether to go on by it. */
  edited?: boolean;
  /** What was chosen for it: read it from the open making, where it has what waits here too. */
  choices?: Chosen;
  /** For each run the device whose move stands on the bench, where one has moved. */
  last?: Record<string, { device: string; device_name: string }>;
  /**
   * Of each run that was mended what was done, the oldest first, the course that went wrong, and those that are worked
   * otherwise for it; these are missing in what was kept from before they were told.
   */
  mends?: Record<string, { say: string; course: string; courses?: string[] }[]>;
}

/** A place in a run's steps, and how one says it. */
export interface Spoken {
  at: number;
  say: string;
}

/** A run that would go on by the changed text. */
export interface Recast {
  run: string;
  piece: string;
  copy: number;
  copies: number;
  begun: boolean;
  /** False: the round in hand is another one now, and only the maker knows where she is in it. */
  sure: boolean;
  from: Spoken;
  to: Spoken;
  start: Spoken;
  /** The round in hand as it was written, and as it is. */
  was: string;
  now: string;
  /** What waits and was never asked, and lies behind the place. */
  missed: { address: string; kind: CueKind; text: string }[];
}

/** What a changed pattern asks of a making that is under way. */
export interface Changed {
  asks: boolean;
  /** The choices that ask, where it is not the text that was changed. */
  chosen?: string[];
  /** Why the changed text can't be followed as it is. */
  cannot?: string | null;
  digest?: string;
  head?: number;
  say?: string;
  runs?: Recast[];
  added?: string[];
  left?: string[];
}

export interface ChangedAnswer {
  stay: boolean;
  digest?: string;
  head?: number;
  places?: Record<string, number>;
  anyway?: boolean;
}

/** What the maker said of her own fabric, as she wrote it. */
export interface KeptFabric {
  gauge?: string;
  used?: string;
  yarn?: string;
  hook?: string;
}

/** `ticked`: of a pattern's own list; of a making its ticks are choices. */
export type GatheredList = Gathered & { pattern: string; ticked?: string[] };

export type Size = Measures & { said: KeptFabric };

/** What went wrong, as a sentence for the maker. */
export class Refused extends Error {
  constructor(
    readonly say: string,
    readonly code: string,
  ) {
    super(say);
  }
}

export const AWAY = "away";

/** A network that swallows everything is no reason to look at nothing for longer than this. */
const PATIENCE_MS = 15_000;

export async function ask<T>(method: string, address: string, body?: unknown): Promise<T> {
  let answer: Response;
  try {
    answer = await fetch(address, {
      method,
      cache: "no-store",
      ...(method === "GET" ? { signal: AbortSignal.timeout(PATIENCE_MS) } : {}),
      ...(body === undefined ? {} : { body: JSON.stringify(body), headers: { "Content-Type": "application/json" } }),
    });
  } catch {
    throw new Refused("Hookside does not answer. Is it still running? This page tries again by itself.", AWAY);
  }
  const text = await answer.text();
  let data: unknown = null;
  try {
    data = text ? JSON.parse(text) : null;
  } catch {
    throw new Refused("Hookside answered with something this page cannot read. Reload the page.", "unreadable");
  }
  if (answer.ok) return data as T;
  const { say, code } = (data ?? {}) as { say?: unknown; code?: unknown };
  // The page itself opens on a device that was shown out: that is said, with the way back in.
  if (code === "unpaired") shownOut.value = true;
  throw new Refused(
    typeof say === "string" ? say : `Hookside refused this (${answer.status}). Reload the page and try once more.`,
    typeof code === "string" ? code : String(answer.status),
  );
}

/** What the server answered here the last time, as this device kept it. */
async function remembered<T>(address: string): Promise<T | undefined> {
  return (await (await device()).basket.answer(address).catch(() => undefined)) as T | undefined;
}

/** An answer that this device keeps for a time without the server. */
async function fresh<T>(address: string): Promise<T> {
  const answer = await ask<T>("GET", address);
  void device()
    .then(({ basket }) => basket.keepAnswer(address, answer))
    .catch(() => undefined);
  return answer;
}

/** The server's answer, or where it is away the last one it gave. */
async function freshOrKept<T>(address: string): Promise<T> {
  try {
    return await fresh<T>(address);
  } catch (why) {
    const kept = why instanceof Refused && why.code === AWAY ? await remembered<T>(address) : undefined;
    if (kept === undefined) throw why;
    return kept;
  }
}

/** A file as it is; the answer like any other. */
export async function send<T>(address: string, file: Blob): Promise<T> {
  let answer: Response;
  try {
    answer = await fetch(address, { method: "POST", body: file, headers: { "Content-Type": "application/octet-stream" } });
  } catch {
    throw new Refused("Hookside does not answer, so the file stays where it is. Try again in a moment.", AWAY);
  }
  const data = (await answer.json().catch(() => ({}))) as { say?: string; code?: string };
  if (answer.ok) return data as T;
  throw new Refused(data.say ?? `Hookside refused this file (${answer.status}).`, data.code ?? String(answer.status));
}

const patterns = (id: string | number) => `/api/patterns/${encodeURIComponent(id)}`;

const underWay = new Map<string, Promise<unknown>>();

/** A second touch while the first is still being answered asks for nothing more. */
function once<T>(what: string, ask: () => Promise<T>): Promise<T> {
  const waits = underWay.get(what) as Promise<T> | undefined;
  if (waits) return waits;
  const asked = ask().finally(() => underWay.delete(what));
  underWay.set(what, asked);
  return asked;
}

export const api = {
  shelf: () => fresh<Shelf>("/api/shelf"),
  /** The shelf as it was the last time this device saw it. */
  shelfRemembered: () => remembered<Shelf>("/api/shelf"),
  read: (text: string, terms: Terms | null, words: Terms | null = null) => ask<Reading>("POST", "/api/read", { text, terms, words }),
  pattern: (id: string | number) => freshOrKept<KeptPattern>(patterns(id)),
  gather: (id: string | number, times: number) => freshOrKept<GatheredList>(`${patterns(id)}/gather?times=${times}`),
  tickGathered: (id: string | number, item: string, on: boolean) => ask<unknown>("PUT", `${patterns(id)}/gather`, { item, on }),
  gatherMaking: (id: number) => freshOrKept<GatheredList>(`/api/makings/${id}/gather`),
  habits: (id: string | number) => freshOrKept<Habits>(`${patterns(id)}/habits`),
  size: (id: string | number) => freshOrKept<Size>(`${patterns(id)}/size`),
  /** The same by what she says now, which is kept nowhere. */
  sizeBy: (id: string | number, fabric: KeptFabric) => ask<Size>("POST", `${patterns(id)}/size`, fabric),
  sizeOfMaking: (id: number) => freshOrKept<Size>(`/api/makings/${id}/size`),
  setFabric: (id: string | number, fabric: KeptFabric) => ask<Size>("PUT", `${patterns(id)}/fabric`, fabric),
  /** The text of a file, by what is in it. */
  file: async (file: File): Promise<{ text: string; kind: string; said: string[] }> =>
    send(`/api/file?name=${encodeURIComponent(file.name)}`, file),
  addPattern: (text: string, terms: Terms | null) =>
    ask<{ id: string | number }>("POST", "/api/patterns", { text, terms }),
  /** As a file has it: once, and only where a round is in it. */
  addFile: (text: string) => ask<{ id: string | number; known?: boolean }>("POST", "/api/patterns", { text, terms: null, file: true }),
  changePattern: (id: string | number, text: string, terms: Terms | null) =>
    ask<{ id: string | number }>("PUT", patterns(id), { text, terms }),
  removePattern: (id: string | number) => ask<unknown>("DELETE", patterns(id)),
  begin: (pattern: string | number, order: Order, copies: Copies, anyway: boolean) =>
    ask<{ id: number }>("POST", "/api/makings", { pattern, order, copies, ...(anyway ? { anyway } : {}) }),
  making: (id: number) => ask<Snapshot>("GET", `/api/makings/${id}`),
  changed: (id: number) => ask<Changed>("GET", `/api/makings/${id}/recast`),
  answerChanged: (id: number, answer: ChangedAnswer) => ask<{ head: number }>("POST", `/api/makings/${id}/recast`, answer),
  /** A new making by what was said of yarn and fabric; `say`: what came along. */
  again: (id: number) => once(`again ${id}`, () => ask<{ id: number; say: string }>("POST", `/api/makings/${id}/again`)),
  record: (id: number) => freshOrKept<Told>(`/api/makings/${id}/record`),
  putAway: (id: number) => ask<unknown>("DELETE", `/api/makings/${id}`),
  labelMaking: (id: number, labels: string[]) => ask<unknown>("PUT", `/api/makings/${id}/labels`, { labels }),
  labelPattern: (id: string | number, labels: string[]) => ask<unknown>("PUT", `${patterns(id)}/labels`, { labels }),
  bringPatternBack: (id: string | number) => ask<unknown>("POST", `${patterns(id)}/back`),
  /** Off the shelf for good, from among those put away; it can be shown again. */
  takeOff: (id: number) => ask<unknown>("DELETE", `/api/makings/away/${id}`),
  showAgain: (id: number) => ask<unknown>("POST", `/api/makings/away/${id}/back`),
  bringBack: (id: number) => ask<unknown>("POST", `/api/makings/${id}/back`),
  /** What is left when every part is worked. */
  finish: (id: number) => freshOrKept<FinishItem[]>(`/api/makings/${id}/finish`),
  finishKept: (id: number) => remembered<FinishItem[]>(`/api/makings/${id}/finish`),
  maker: () => freshOrKept<Maker>("/api/maker"),
  setMaker: (change: Partial<Maker>) => ask<Maker>("PUT", "/api/maker", change),
  who: () => ask<Who>("GET", "/api/maker/who"),
  setWho: (name: string) => ask<Who>("PUT", "/api/maker/who", { name }),
};
