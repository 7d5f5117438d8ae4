import { batch, computed, type ReadonlySignal, signal } from "@preact/signals";
import type { Aside, Snapshot } from "../api";
import { allChosen, type Choice, type Chosen, tooMany } from "./choices";
import { type Claim, claimsOf } from "./claims";
import type { Device } from "./device";
import type { LinkState } from "./link";
import { type Answer, type Entry, type Move, randomId } from "./moves";
import type { Question } from "./restored";
import { apply, type Intent, isRefusal, type MakingState, type Outcome, type Refusal, type RunIntent } from "./stepping";
import type { Guest, Row, Rows } from "./wire";

/** A move made here that the journal has not acknowledged. */
interface Pending {
  /** Stands in for the row until it is known: below zero, so that it never meets a real one. */
  local: number;
  intent: RunIntent & { id: string };
  strand: string;
  stored: boolean;
  /** Chosen, where it is no move at all. */
  choices?: Choice[];
}

/** One making, open on this page. Its signals change in the same breath as a move; the outbox comes after. */
export interface Making {
  readonly id: number;
  readonly snapshot: ReadonlySignal<Snapshot | null>;
  /** True where this device has no copy of the making: without the server there is nothing to show. */
  readonly absent: ReadonlySignal<boolean>;
  /** What the journal has confirmed, with everything that waits here done on top of it. */
  readonly visible: ReadonlySignal<MakingState | null>;
  /** What was chosen for this making, with what waits here. */
  readonly chosen: ReadonlySignal<Chosen>;
  /** How many moves and choices wait. */
  readonly pending: ReadonlySignal<number>;
  readonly link: ReadonlySignal<LinkState>;
  /** Set once the journal says that it cannot be gone on with, gone or damaged. */
  readonly lost: ReadonlySignal<{ code: string; say: string } | null>;
  readonly asides: ReadonlySignal<Aside[]>;
  /** What each device says, while they disagree: `settle` with one of them answers. */
  readonly claims: ReadonlySignal<Claim[]>;
  /** Set while the journal knows less of this making than this device: `resolve` answers. */
  readonly question: ReadonlySignal<Question | null>;
  /**
   * `run`: the one in hand where none is named. Undo names a row of the visible history, sure or not. `id`: where the
   * move is called forth by something that has one already, an utterance, so that it is never made twice.
   */
  move(intent: Intent, run?: string, id?: string): Outcome | Refusal;
  /**
   * Chosen here, seen at once, sent like a move. It touches no place: where it changes the steps, the making asks.
   * False where nothing can be chosen just now, or a list is full.
   */
  choose(choices: Choice[]): boolean;
  /** The maker's answer where devices disagreed: `run` stands at `to`, and the asking ends. */
  settle(run: string, to: number): Outcome | Refusal;
  /** The maker's answer to `question`: this device's moves on top, or the journal as it is. */
  resolve(choice: "put back" | "go on"): void;
  close(): void;
}

/** With more waiting than this, what is seen is not worked out anew for every batch that arrives. */
const MANY = 1000;

/** Moves of other devices that say all there is to say by from and to. */
const PLAIN = new Set(["next", "back", "goto", "rip", "take"]);

export function openMaking(id: number, opening: Promise<Device>): Making {
  const confirmed = signal<Snapshot | null>(null);
  const waiting = signal<Pending[]>([]);
  const visible = signal<MakingState | null>(null);
  const here = signal<Device | null>(null);
  const lost = signal<{ code: string; say: string } | null>(null);
  const absent = signal(false);
  const question = signal<Question | null>(null);
  /** Rows in `confirmed` that came since its snapshot. */
  let seen = new Set<number>();
  /** The maker has been asked about this journal: its snapshot stands, older or not. */
  let asked = false;
  let nextLocal = 0;
  let closed = false;

  function replay(): void {
    const base = confirmed.value;
    let state = base?.state ?? null;
    if (base && state)
      for (const p of waiting.value) {
        // Made on another strand: its steps mean nothing on this one, and the journal will ask.
        if (state.runs[p.intent.run]?.strand !== p.strand) continue;
        const done = apply(state, base.strands, p.local, p.intent);
        if (!isRefusal(done)) state = done.state;
      }
    visible.value = state;
  }

  function adopt(snapshot: Snapshot): void {
    confirmed.value = snapshot;
    seen = new Set();
  }

  /**
   * Called in the same breath as whatever changes what is confirmed: moves made from then on stand on it, and after a
   * reload without a line they are done on top of what lies here. Done on an older copy they would show another place.
   */
  function keepCopy(): void {
    if (confirmed.value) void here.value?.basket.keepSnapshot(confirmed.value).catch(() => undefined);
  }

  /** What this device keeps of this making, as its other tabs left it. */
  async function refresh(): Promise<void> {
    const device = here.value;
    if (!device) return;
    const [all, kept] = await Promise.all([device.outbox.all(), device.basket.snapshot(id).catch(() => undefined)]);
    // Another tab has answered for this journal.
    if (kept && confirmed.value && kept.epoch !== confirmed.value.epoch) adopt(kept);
    const entries = all.filter((e) => e.move.making === id);
    const known = new Map(waiting.value.map((p) => [p.intent.id, p]));
    const stored = new Set(entries.map((e) => e.move.id));
    // Moves of this breath that are not stored yet keep their place behind the others.
    const fresh = waiting.value.filter((p) => !p.stored && !stored.has(p.intent.id));
    waiting.value = [...entries.map((e) => known.get(e.move.id) ?? revived(e)), ...fresh];
    replay();
  }

  function revived({ move }: Entry): Pending {
    const { id: moveId, intent, run, strand, unit, to, cue, count, undoes, n, asides, choices } = move;
    if (choices) return choosing(moveId, choices, true);
    const asked = { intent, id: moveId, run, unit, to, cue, count, undoes, n, asides };
    return { local: --nextLocal, intent: asked as Pending["intent"], strand, stored: true };
  }

  /** A choice that waits. Of no run: nothing that replays moves looks at it. */
  function choosing(given: string, choices: Choice[], stored: boolean): Pending {
    const intent = { intent: "choose", id: given, run: "" } as unknown as Pending["intent"];
    return { local: --nextLocal, intent, strand: "", stored, choices };
  }

  const guest: Guest = {
    making: id,
    held: () => (confirmed.value ? { epoch: confirmed.value.epoch, head: confirmed.value.head } : null),
    joined(epoch, snapshot) {
      const now = confirmed.value;
      question.value = null;
      if (snapshot && !(now && now.epoch === epoch && snapshot.head < now.head && !asked)) adopt(snapshot);
      asked = false;
      replay();
      keepCopy();
      void refresh();
    },
    agrees(snapshot) {
      const [mine, theirs] = [visible.value?.runs ?? {}, snapshot.state.runs];
      return Object.entries(mine).every(([run, { strand, at }]) => theirs[run]?.strand === strand && theirs[run]?.at === at);
    },
    restored(found) {
      asked = true;
      question.value = found;
    },
    added(entry) {
      if (entry.move.making !== id || waiting.value.some((p) => p.intent.id === entry.move.id)) return;
      batch(() => {
        const fresh = waiting.value.filter((p) => !p.stored);
        waiting.value = [...waiting.value.filter((p) => p.stored), revived(entry), ...fresh];
        replay();
      });
    },
    answered(entries, answers) {
      const mine = entries.flatMap((e, i) => (e.move.making === id && answers[i] ? [[e.move.id, answers[i]] as const] : []));
      if (!mine.length) return;
      let missed = false;
      batch(() => {
        missed = !confirm(mine);
        if (missed || waiting.value.length < MANY) replay();
      });
      keepCopy();
      if (missed) void here.value?.link.rejoin();
    },
    rows(rows) {
      batch(() => {
        if (!follow(rows)) void here.value?.link.rejoin();
        replay();
      });
      keepCopy();
    },
    refresh,
    gone(code, say) {
      lost.value = { code, say };
    },
  };

  /** Acknowledgements: these moves leave what waits and join what is sure. False when something was missed. */
  function confirm(mine: readonly (readonly [string, Answer])[]): boolean {
    const known = new Map(waiting.value.map((p) => [p.intent.id, p]));
    const ids = new Set(mine.map(([moveId]) => moveId));
    waiting.value = waiting.value.filter((p) => !ids.has(p.intent.id));
    for (const [moveId, answer] of mine) if (!take(known.get(moveId), answer)) return false;
    return true;
  }

  /** One acknowledged move onto what is sure. */
  function take(move: Pending | undefined, answer: Answer): boolean {
    const base = confirmed.value;
    const { row, kind, from, to, head } = answer;
    if (!base || row === undefined || row <= base.head || kind === "refused") return true;
    if (kind === "choice") return chose(base, row, move?.choices, answer.asks);
    if (kind !== "move" || !move) return false;
    const done = apply(base.state, base.strands, row, move.intent);
    if (isRefusal(done) || done.outcome.from !== from || done.outcome.to !== to) return false;
    seen.add(row);
    confirmed.value = { ...base, head: row, state: done.state };
    return head === undefined || head <= row;
  }

  /** A choice that the journal has. False where it says more than that: then the whole making is asked for. */
  function chose(base: Snapshot, row: number, choices: Choice[] | undefined, asks: boolean | undefined): boolean {
    if (!choices || asks || choices.some(({ choice }) => choice === "order")) return false;
    seen.add(row);
    confirmed.value = { ...base, head: row, choices: allChosen(base.choices ?? {}, choices) };
    return true;
  }

  /** Rows that others wrote, or that another tab of this device sent. False when one was missed, or says more. */
  function follow({ rows }: Rows): boolean {
    for (const row of rows) {
      const base = confirmed.value;
      if (!base) return false;
      if (seen.has(row.row) || row.kind === "refused") continue;
      if (row.row <= base.head) return false;
      const mine = row.id === undefined ? undefined : waiting.value.find((p) => p.intent.id === row.id);
      if (mine) {
        const { row: number, kind, from, to, asks } = row;
        if (!confirm([[mine.intent.id, { ok: true, row: number, kind: kind as "move", from, to, asks }]])) return false;
      } else if (row.kind === "choice") {
        if (!chose(base, row.row, row.choices, row.asks)) return false;
      } else if (!applyRow(base, row)) return false;
    }
    return true;
  }

  /** A row of another device, where from and to say all. */
  function applyRow(base: Snapshot, row: Row): boolean {
    const run = base.state.runs[row.run];
    if (!run || run.at !== row.from) return false;
    if (row.kind !== "move" || !PLAIN.has(row.intent) || row.in_hand === undefined) return false;
    const stayed = row.from === row.to && base.state.in_hand === row.run;
    const past = { row: row.row, id: row.id ?? "", at: row.from, in_hand: base.state.in_hand };
    const moved = stayed ? run : { ...run, at: row.to, history: [...run.history, past] };
    // A way back over an unread course drops its count, which a row does not tell.
    if (row.to < row.from && Object.keys(run.counts).length) return false;
    seen.add(row.row);
    const runs = { ...base.state.runs, [row.run]: moved };
    confirmed.value = { ...base, head: row.row, state: { head: row.row, in_hand: row.in_hand, runs } };
    return true;
  }

  function queue(asked: Intent, intent: RunIntent & { id: string }, base: Snapshot, device: Device): void {
    const strand = base.state.runs[intent.run]?.strand ?? "";
    const pending: Pending = { local: --nextLocal, intent, strand, stored: false };
    const undoes = intent.undoes == null ? {} : { undoes: intent.undoes };
    store(pending, { ...asked, ...undoes, run: intent.run, strand }, base, device);
  }

  function store(pending: Pending, said: Omit<Move, "id" | "device" | "device_seq" | "making" | "base">, base: Snapshot, device: Device): void {
    waiting.value = [...waiting.value, pending];
    const from = { id: pending.intent.id, device: device.outbox.device, device_seq: 0, making: id, base: base.head };
    const move: Move = { ...said, ...from, ...(device.link.state.value === "live" ? {} : { backlog: true }) };
    void device.outbox.add({ epoch: base.epoch, move }).then((seq) => {
      pending.stored = true;
      device.link.added({ seq, epoch: base.epoch, move });
    });
  }

  void opening.then(async (device) => {
    here.value = device;
    const cached = await device.basket.snapshot(id).catch(() => undefined);
    if (closed) return;
    if (cached && !confirmed.value) adopt(cached);
    absent.value = !cached;
    await refresh();
    if (!closed) device.link.enter(guest);
  });

  const asides = computed(() => {
    const settling = new Set(waiting.value.flatMap((p) => (p.intent.intent === "settle" ? (p.intent.asides ?? []) : [])));
    return (confirmed.value?.asides ?? []).filter((a) => !settling.has(a.row));
  });

  const making: Making = {
    id,
    snapshot: confirmed,
    absent: computed(() => absent.value && confirmed.value === null),
    visible,
    chosen: computed(() => allChosen(confirmed.value?.choices ?? {}, waiting.value.flatMap((p) => p.choices ?? []))),
    pending: computed(() => waiting.value.length),
    lost,
    link: computed(() => (lost.value ? "gone" : (here.value?.link.state.value ?? "waiting"))),
    asides,
    claims: computed(() => {
      const [snapshot, state] = [confirmed.value, visible.value];
      return snapshot && state ? claimsOf(snapshot, state, asides.value, here.value?.outbox.device ?? "") : [];
    }),
    question,
    move(asked, run, given = randomId()) {
      const base = confirmed.value;
      const state = visible.value;
      const device = here.value;
      const on = run ?? state?.in_hand;
      if (!base || !state || !device || !on) return { code: "no-run" };
      // What is put on the other journal has been shown to the maker: nothing is added behind her back.
      if (question.value) return { code: "stop" };
      const intent: RunIntent & { id: string } = { ...asked, run: on, id: given };
      // By its id where that is known: a row is another one once a copy was put back.
      if (asked.intent === "undo")
        intent.undoes = state.runs[on]?.history.findLast((past) => past.row === asked.undoes)?.id || asked.undoes;
      const done = apply(state, base.strands, nextLocal - 1, intent);
      if (isRefusal(done)) return done;
      batch(() => {
        queue(asked, intent, base, device);
        visible.value = done.state;
      });
      return done.outcome;
    },
    choose(choices) {
      const [base, device] = [confirmed.value, here.value];
      if (!base || !device || question.value || tooMany(allChosen(making.chosen.value, choices))) return false;
      store(choosing(randomId(), choices, false), { intent: "choose", run: "", strand: "", choices }, base, device);
      return true;
    },
    settle: (run, to) => making.move({ intent: "settle", to, asides: asides.value.map((a) => a.row) }, run),
    resolve(choice) {
      const [found, device, state] = [question.value, here.value, visible.value];
      if (!found || !device) return;
      // Seen here, made elsewhere: there is nothing to put back but the place.
      const run = found.moves.length || choice === "go on" ? null : (state?.in_hand ?? null);
      const to = run === null ? undefined : state?.runs[run]?.at;
      void device.link.resolve(found, choice).then(() => {
        if (run !== null && to !== undefined) making.move({ intent: "goto", to }, run);
      });
    },
    close() {
      closed = true;
      here.value?.link.leave(guest);
    },
  };
  return making;
}
