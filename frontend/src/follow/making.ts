import { batch, computed, type ReadonlySignal, signal } from "@preact/signals";
import type { Aside, Snapshot } from "../api";
import type { Device } from "./device";
import type { Answer, Guest, LinkState, Rows } from "./link";
import { type Entry, type Move, randomId } from "./outbox";
import { apply, type Intent, isRefusal, type MakingState, type Outcome, type Refusal, type RunIntent } from "./stepping";

/** A move made here that the journal has not acknowledged. */
interface Pending {
  /** Stands in for the row until it is known: below zero, so that it never meets a real one. */
  local: number;
  intent: RunIntent & { id: string };
  stored: boolean;
}

/** One making, open on this page. Its signals change in the same breath as a move; the outbox comes after. */
export interface Making {
  readonly id: number;
  readonly snapshot: ReadonlySignal<Snapshot | null>;
  /** What the journal has confirmed, with everything that waits here done on top of it. */
  readonly visible: ReadonlySignal<MakingState | null>;
  /** How many moves wait. */
  readonly pending: ReadonlySignal<number>;
  readonly link: ReadonlySignal<LinkState>;
  readonly asides: ReadonlySignal<Aside[]>;
  /**
   * `run`: the one in hand where none is named. Undo names a row of the visible history, sure or not. `id`: where the
   * move is called forth by something that has one already, an utterance, so that it is never made twice.
   */
  move(intent: Intent, run?: string, id?: string): Outcome | Refusal;
  /** The maker's answer where devices disagreed: `run` stands at `to`, and the asking ends. */
  settle(run: string, to: number): Outcome | Refusal;
  close(): void;
}

/** Moves of other devices that say all there is to say by from and to. */
const PLAIN = new Set(["next", "back", "goto", "rip", "take"]);

export function openMaking(id: number, opening: Promise<Device>): Making {
  const confirmed = signal<Snapshot | null>(null);
  const waiting = signal<Pending[]>([]);
  const visible = signal<MakingState | null>(null);
  const here = signal<Device | null>(null);
  const gone = signal(false);
  /** Rows in `confirmed` that came since its snapshot. */
  let seen = new Set<number>();
  let nextLocal = 0;
  let closed = false;

  function replay(): void {
    const base = confirmed.value;
    let state = base?.state ?? null;
    if (base && state)
      for (const p of waiting.value) {
        const done = apply(state, base.strands, p.local, p.intent);
        if (!isRefusal(done)) state = done.state;
      }
    visible.value = state;
  }

  function adopt(snapshot: Snapshot): void {
    confirmed.value = snapshot;
    seen = new Set();
  }

  function keepCopy(): void {
    if (confirmed.value) void here.value?.outbox.keepSnapshot(confirmed.value).catch(() => undefined);
  }

  /** What waits on this device for this making, other tabs of it included. */
  async function refresh(): Promise<void> {
    const device = here.value;
    if (!device) return;
    const entries = (await device.outbox.all()).filter((e) => e.move.making === id);
    const known = new Map(waiting.value.map((p) => [p.intent.id, p]));
    const stored = new Set(entries.map((e) => e.move.id));
    // Moves of this breath that are not stored yet keep their place behind the others.
    const fresh = waiting.value.filter((p) => !p.stored && !stored.has(p.intent.id));
    waiting.value = [...entries.map((e) => known.get(e.move.id) ?? revived(e)), ...fresh];
    replay();
  }

  function revived({ move }: Entry): Pending {
    const { id: moveId, intent, run, unit, to, cue, count, undoes, n, asides } = move;
    const asked = { intent, id: moveId, run, unit, to, cue, count, undoes, n, asides };
    return { local: --nextLocal, intent: asked as Pending["intent"], stored: true };
  }

  const guest: Guest = {
    making: id,
    held: () => (confirmed.value ? { epoch: confirmed.value.epoch, head: confirmed.value.head } : null),
    joined(epoch, snapshot) {
      const now = confirmed.value;
      if (snapshot && !(now && now.epoch === epoch && snapshot.head < now.head)) adopt(snapshot);
      keepCopy();
      void refresh();
    },
    answered(entries, answers) {
      let missed = false;
      batch(() => {
        entries.forEach((e, i) => {
          const answer = answers[i];
          if (e.move.making === id && answer && !confirm(e, answer)) missed = true;
        });
        replay();
      });
      keepCopy();
      if (missed) void here.value?.link.rejoin();
    },
    rows(rows) {
      batch(() => {
        if (!follow(rows)) void here.value?.link.rejoin();
        replay();
      });
    },
    refresh() {
      void refresh().then(() => here.value?.link.rejoin());
    },
    gone() {
      gone.value = true;
      void here.value?.outbox.dropSnapshot(id);
    },
  };

  /** An acknowledgement: the move leaves what waits and joins what is sure. False when something was missed. */
  function confirm(e: Entry, answer: Answer): boolean {
    const base = confirmed.value;
    const mine = waiting.value.find((p) => p.intent.id === e.move.id);
    if (mine) waiting.value = waiting.value.filter((p) => p !== mine);
    const row = answer.row;
    if (!base || row === undefined || row <= base.head || answer.kind === "refused") return true;
    if (answer.kind !== "move" || !mine) return false;
    const done = apply(base.state, base.strands, row, mine.intent);
    if (isRefusal(done) || done.outcome.from !== answer.from || done.outcome.to !== answer.to) return false;
    seen.add(row);
    confirmed.value = { ...base, head: row, state: done.state };
    return answer.head === undefined || answer.head <= row;
  }

  /** Rows of other devices. False when one was missed, or says more than a place. */
  function follow({ rows }: Rows): boolean {
    for (const row of rows) {
      const base = confirmed.value;
      if (!base) return false;
      if (seen.has(row.row) || row.kind === "refused") continue;
      const run = base.state.runs[row.run];
      if (row.row <= base.head || !run || run.at !== row.from) return false;
      if (row.kind !== "move" || !PLAIN.has(row.intent) || row.in_hand === undefined) return false;
      const stayed = row.from === row.to && base.state.in_hand === row.run;
      const past = { row: row.row, at: row.from, in_hand: base.state.in_hand };
      const moved = stayed ? run : { ...run, at: row.to, history: [...run.history, past] };
      // A way back over an unread course drops its count, which a row does not tell.
      if (row.to < row.from && Object.keys(run.counts).length) return false;
      seen.add(row.row);
      const runs = { ...base.state.runs, [row.run]: moved };
      confirmed.value = { ...base, head: row.row, state: { head: row.row, in_hand: row.in_hand, runs } };
    }
    return true;
  }

  function queue(asked: Intent, intent: RunIntent & { id: string }, base: Snapshot, device: Device): void {
    const pending: Pending = { local: --nextLocal, intent, stored: false };
    waiting.value = [...waiting.value, pending];
    const move: Move = {
      ...asked,
      ...(intent.undoes == null ? {} : { undoes: intent.undoes }),
      id: intent.id,
      device: device.outbox.device,
      device_seq: 0,
      making: id,
      run: intent.run,
      strand: base.state.runs[intent.run]?.strand ?? "",
      base: base.head,
      ...(device.link.state.value === "live" ? {} : { backlog: true }),
    };
    void device.outbox.add({ epoch: base.epoch, move }).then(() => {
      pending.stored = true;
      device.link.wake();
    });
  }

  void opening.then(async (device) => {
    here.value = device;
    const cached = await device.outbox.snapshot(id).catch(() => undefined);
    if (closed) return;
    if (cached && !confirmed.value) adopt(cached);
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
    visible,
    pending: computed(() => waiting.value.length),
    link: computed(() => (gone.value ? "gone" : (here.value?.link.state.value ?? "waiting"))),
    asides,
    move(asked, run, given = randomId()) {
      const base = confirmed.value;
      const state = visible.value;
      const device = here.value;
      const on = run ?? state?.in_hand;
      if (!base || !state || !device || !on) return { code: "no-run" };
      const intent: RunIntent & { id: string } = { ...asked, run: on, id: given };
      if (asked.intent === "undo" && asked.undoes < 0)
        intent.undoes = waiting.value.find((p) => p.local === asked.undoes)?.intent.id ?? asked.undoes;
      const done = apply(state, base.strands, nextLocal - 1, intent);
      if (isRefusal(done)) return done;
      batch(() => {
        queue(asked, intent, base, device);
        visible.value = done.state;
      });
      return done.outcome;
    },
    settle: (run, to) => making.move({ intent: "settle", to, asides: asides.value.map((a) => a.row) }, run),
    close() {
      closed = true;
      here.value?.link.leave(guest);
    },
  };
  return making;
}
