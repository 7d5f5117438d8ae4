import { batch, computed, signal } from "@preact/signals";
import { AWAY, api, type Copies, type KeptPattern, type Order, type Reading, Refused } from "../../api";
import type { Pattern, Suggestion, Terms } from "../../generated/pattern";
import { maker } from "../../maker";
import { draft, dropDraft, keepDraft, shelveDraft } from "./draft";
import { explainer } from "./explanation";
import { mend, told } from "./mending";
import { mixed, take } from "./text";
import { keepWanted, keptWanted, UNSET } from "./wanted";

export const MOST_COPIES = 99;

const REST_MS = 250;
const AGAIN_MS = 3000;

/** A text on the desk: what it says, what reading made of it, what was changed by a tap. */
export function openDesk(id: string | null) {
  const text = signal("");
  const terms = signal<Terms | null>(null);
  /** The terms it is shown in, where she has turned them over on this sheet; null: as she likes it, else the text's own. */
  const words = signal<Terms | null>(null);
  let shown: Terms | null = null;
  const kept = signal<KeptPattern | null>(null);
  const editable = signal(id === null);
  const ready = signal(id === null);
  const read = signal<{ text: string; terms: Terms | null; pattern: Reading } | null>(null);
  const say = signal("");
  const draftRefused = signal(false);
  /** A text of which no offered line, taken by itself, made more come out. */
  const unmended = signal("");
  const taken = signal<{ before: string; after: string; label: string }[]>([]);
  const wanted = keptWanted(id);
  const order = signal<Order>(wanted.order);
  /** How many of a piece the maker wants, by its number and name: another piece in that place is another matter. */
  const chosen = signal(wanted.chosen);
  /** A text that was pasted into another one: what it was alone, and both together. */
  const mixture = signal<{ alone: string; both: string } | null>(null);
  const starting = signal(false);
  const explain = explainer();
  let resting: ReturnType<typeof setTimeout> | undefined;
  let asked = 0;
  let closed = false;
  /** Where the text is on the shelf; null while it is a sheet that was neither kept nor started. */
  let on: string | number | null = id;
  const name = () => (on === null ? null : String(on));
  const found = draft(id);

  const changed = computed(() => {
    const k = kept.value;
    return k ? text.value !== k.text || terms.value !== k.terms : text.value.trim() !== "";
  });
  /** Reading lags behind typing: its findings belong to the text it read. */
  const fresh = computed(() => read.value?.text === text.value && read.value.terms === terms.value);

  function asNothingWereSet(): void {
    order.value = UNSET.order;
    chosen.value = UNSET.chosen;
  }

  function keep(): void {
    keepWanted(name(), { order: order.value, chosen: chosen.value });
    if (!editable.value) return;
    if (changed.value) draftRefused.value = !keepDraft(name(), { text: text.value, terms: terms.value });
    else dropDraft(name());
  }

  async function readNow(): Promise<void> {
    clearTimeout(resting);
    const mine = ++asked;
    const of = { text: text.value, terms: terms.value };
    if (!of.text.trim()) {
      read.value = null;
      return;
    }
    try {
      shown = words.value ?? maker.value.terms;
      const pattern = await api.read(of.text, of.terms, shown);
      if (mine !== asked || closed) return;
      batch(() => {
        read.value = { ...of, pattern };
        say.value = "";
      });
    } catch (why) {
      if (mine !== asked || closed) return;
      say.value = sentence(why);
      if (why instanceof Refused && why.code === AWAY) resting = setTimeout(() => void readNow(), AGAIN_MS);
    }
  }

  function rest(): void {
    clearTimeout(resting);
    resting = setTimeout(() => {
      keep();
      void readNow();
    }, REST_MS);
  }

  function write(words: string): void {
    text.value = words;
    rest();
  }

  async function open(): Promise<void> {
    try {
      if (id !== null) {
        const pattern = await api.pattern(id);
        kept.value = pattern;
        editable.value = pattern.source === "yours" || found !== null;
        text.value = pattern.text;
        terms.value = pattern.terms;
      }
      if (found) {
        text.value = found.text;
        terms.value = found.terms;
      }
      ready.value = true;
      await readNow();
    } catch (why) {
      say.value = sentence(why);
    }
  }

  /** The text on the shelf; its id there. Ours are never changed: the shelf makes a copy. */
  async function shelve(): Promise<string | number> {
    const now = { text: text.value, terms: terms.value };
    if (on !== null && !changed.value) return on;
    const before = name();
    const made = on === null ? await api.addPattern(now.text, now.terms) : await api.changePattern(on, now.text, now.terms);
    dropDraft(before);
    on = made.id;
    keepWanted(before, UNSET);
    keepWanted(name(), { order: order.value, chosen: chosen.value });
    kept.value = { id: made.id, ...now, source: "yours" };
    return made.id;
  }

  function replace(after: string, label: string): void {
    const before = text.value;
    batch(() => {
      editable.value = true;
      taken.value = [...taken.value, { before, after, label }];
      text.value = after;
    });
    keep();
    void readNow();
  }

  function copies(pattern: Pattern): Copies {
    const made: Copies = {};
    pattern.pieces.forEach((piece, i) => {
      const n = chosen.value[`${i + 1} ${piece.name}`];
      if (n !== undefined) made[i + 1] = n;
    });
    return made;
  }

  async function tried<T>(work: () => Promise<T>): Promise<T | null> {
    if (starting.value) return null;
    starting.value = true;
    try {
      return await work();
    } catch (why) {
      say.value = sentence(why);
      return null;
    } finally {
      starting.value = false;
    }
  }

  return {
    id,
    text,
    terms,
    kept,
    editable,
    ready,
    read,
    say,
    draftRefused,
    unmended,
    taken,
    order,
    starting,
    changed,
    fresh,
    write,
    open,
    keep,
    chooseTerms(choice: Terms) {
      terms.value = choice;
      keep();
      void readNow();
    },
    words,
    showTerms(choice: Terms) {
      words.value = choice;
      void readNow();
    },
    /** Once it is known how she likes it. */
    met() {
      if ((words.value ?? maker.value.terms) !== shown && text.value.trim()) void readNow();
    },
    edit() {
      editable.value = true;
    },
    /** How one course of the text was read, by its id. */
    explain: (course: string) => explain(read.value, course),
    /** Takes the best of what is offered, everywhere; one change of the text, that can be taken back. */
    mendAll: () =>
      tried(async () => {
        const of = text.value;
        const done = await mend(of, terms.value);
        if (text.value !== of) return; // written on meanwhile: what came is of another text
        if (done.changes.length) return replace(done.text, told(done));
        unmended.value = of;
        say.value = done.stops[0]?.say ?? "None of the offered lines makes it come out by itself. Look at them one by one.";
      }),
    takeSuggestion(suggestion: Suggestion) {
      if (!fresh.value) return;
      replace(take(text.value, suggestion), suggestion.label);
    },
    /** How many to make of piece `number` (from 1). */
    made: (pattern: Pattern, number: number) => copies(pattern)[number] ?? pattern.pieces[number - 1]?.make ?? 1,
    choose(pattern: Pattern, number: number, n: number) {
      const whole = Math.min(MOST_COPIES, Math.max(1, Math.round(n)));
      if (Number.isFinite(whole)) chosen.value = { ...chosen.value, [`${number} ${pattern.pieces[number - 1]?.name}`]: whole };
    },
    mixture,
    /** Told of a paste before it lands: a whole pattern in the midst of another makes one that nobody wrote. */
    pasting(words: string, from: number, to: number) {
      mixture.value = mixed(text.value, words, from, to);
    },
    onlyPasted() {
      const both = mixture.value;
      mixture.value = null;
      if (both) replace(both.alone, "only what you pasted");
    },
    /** A text that was neither kept nor started lay on this sheet when it was opened. */
    found: found !== null && id === null,
    /** An empty sheet; what was on this one goes on the shelf. */
    anew: () =>
      tried(async () => {
        keep();
        await shelveDraft();
        batch(() => {
          text.value = "";
          terms.value = null;
          asNothingWereSet();
          read.value = null;
          taken.value = [];
          mixture.value = null;
          say.value = "";
        });
        asked++;
        clearTimeout(resting);
        return true;
      }),
    takeBack() {
      const last = taken.value.at(-1);
      if (!last) return;
      batch(() => {
        taken.value = taken.value.slice(0, -1);
        text.value = last.before;
      });
      keep();
      void readNow();
    },
    shelve: () => tried(shelve),
    takeOff: () =>
      tried(async () => {
        if (on === null) return false;
        await api.removePattern(on);
        return true;
      }),
    /** Onto the hook: the text goes on the shelf, a making begins. Its number, or null when refused (said). */
    start: () =>
      tried(async () => {
        if (!fresh.value) await readNow();
        const pattern = read.value?.pattern;
        const anyway = pattern?.findings.some((f) => f.severity === "error") ?? false;
        const making = await api.begin(await shelve(), order.value, pattern ? copies(pattern) : {}, anyway);
        asNothingWereSet(); // the making has it now; another is begun anew
        return making.id;
      }),
    close() {
      closed = true;
      clearTimeout(resting);
      keep();
    },
  };
}

export type Desk = ReturnType<typeof openDesk>;

function sentence(why: unknown): string {
  return why instanceof Refused ? why.say : `Something went wrong on this page: ${String(why)}. Reload it; your text is kept.`;
}
