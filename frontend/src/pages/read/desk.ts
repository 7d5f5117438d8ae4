import { batch, computed, signal } from "@preact/signals";
import { AWAY, api, type KeptPattern, type Order, type Reading, Refused } from "../../api";
import type { Suggestion, Terms } from "../../generated/pattern";
import { draft, dropDraft, keepDraft } from "./draft";
import { take } from "./text";

const REST_MS = 250;
const AGAIN_MS = 3000;

/** A text on the desk: what it says, what reading made of it, what was changed by a tap. */
export function openDesk(id: string | null) {
  const text = signal("");
  const terms = signal<Terms | null>(null);
  const kept = signal<KeptPattern | null>(null);
  const editable = signal(id === null);
  const ready = signal(id === null);
  const read = signal<{ text: string; terms: Terms | null; pattern: Reading } | null>(null);
  const say = signal("");
  const draftRefused = signal(false);
  const taken = signal<{ before: string; after: string; label: string }[]>([]);
  const order = signal<Order>({ kind: "one" });
  const starting = signal(false);
  let resting: ReturnType<typeof setTimeout> | undefined;
  let asked = 0;
  let closed = false;

  const changed = computed(() => {
    const k = kept.value;
    return k ? text.value !== k.text || terms.value !== k.terms : text.value.trim() !== "";
  });
  /** Reading lags behind typing: its findings belong to the text it read. */
  const fresh = computed(() => read.value?.text === text.value && read.value.terms === terms.value);

  function keep(): void {
    if (!editable.value) return;
    if (changed.value) draftRefused.value = !keepDraft(id, { text: text.value, terms: terms.value });
    else dropDraft(id);
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
      const pattern = await api.read(of.text, of.terms);
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
    const found = draft(id);
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
    if (id === null) {
      const made = await api.addPattern(now.text, now.terms);
      dropDraft(null);
      return made.id;
    }
    if (!changed.value) return id;
    const made = await api.changePattern(id, now.text, now.terms);
    dropDraft(id);
    return made.id;
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
    edit() {
      editable.value = true;
    },
    takeSuggestion(suggestion: Suggestion) {
      if (!fresh.value) return;
      const before = text.value;
      const after = take(before, suggestion);
      batch(() => {
        editable.value = true;
        taken.value = [...taken.value, { before, after, label: suggestion.label }];
        text.value = after;
      });
      keep();
      void readNow();
    },
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
        if (id === null) return false;
        await api.removePattern(id);
        return true;
      }),
    /** Onto the hook: the text goes on the shelf, a making begins. Its number, or null when refused (said). */
    start: () =>
      tried(async () => {
        if (!fresh.value) await readNow();
        const anyway = read.value?.pattern.findings.some((f) => f.severity === "error") ?? false;
        const on = await shelve();
        return (await api.begin(on, order.value, anyway)).id;
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
