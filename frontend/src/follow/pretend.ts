import { readFileSync } from "node:fs";
import type { Snapshot } from "../api";
import type { Strand } from "../generated/pattern";
import { allChosen, type Chosen } from "./choices";
import type { Row, Wire } from "./wire";
import type { Answer, Move } from "./moves";
import { apply, begin, isRefusal, type MakingState, type RunIntent } from "./stepping";

/** For tests: a journal in memory that keeps the rules of moves, and a wire to it that can be cut. */
export class PretendJournal {
  readonly strands: Record<string, Strand>;
  readonly making = 1;
  state: MakingState;
  head = 10;
  asides: Snapshot["asides"] = [];
  choices: Chosen = {};
  received = 0;
  readonly applied: string[] = [];
  #answers = new Map<string, Answer>();
  #rows: { row: number; device: string }[] = [];
  #log: { row: number; move: Move }[] = [];
  /** The journal this one was put back from, and the last row both have. */
  before: { epoch: string; shared: number } | null = null;
  /** It is gone from the shelf, or damaged: no move is stored. */
  unable: "gone" | "damaged" | null = null;
  wires: PretendWire[] = [];

  constructor(public epoch = "first") {
    const path = new URL("../../../tests/vectors/strands/buoy.json", import.meta.url);
    const strand = JSON.parse(readFileSync(path, "utf8")) as Strand;
    this.strands = { [strand.id]: strand };
    this.state = this.#begun();
  }

  #begun(): MakingState {
    const strand = Object.keys(this.strands)[0] ?? "";
    return begin(
      [
        ["p1.c1", strand],
        ["p1.c2", strand],
      ],
      this.strands,
      10,
    );
  }

  /** A copy from when `row` was the head is put back. */
  restore(row: number, epoch = "second"): void {
    this.before = { epoch: this.epoch, shared: row };
    this.epoch = epoch;
    this.#log = this.#log.filter((l) => l.row <= row);
    this.#rows = this.#rows.filter((r) => r.row <= row);
    const ids = new Set(this.#log.map((l) => l.move.id));
    this.#answers = new Map([...this.#answers].filter(([id]) => ids.has(id)));
    this.head = row;
    this.state = this.#begun();
    for (const { row, move } of this.#log) {
      const done = apply(this.state, this.strands, row, move as unknown as RunIntent);
      if (!isRefusal(done)) this.state = done.state;
    }
  }

  /** Rows of these moves, by their ids. */
  which(ids: string[]): Record<string, number> {
    return Object.fromEntries(ids.flatMap((id) => (this.#answers.has(id) ? [[id, this.#answers.get(id)?.row ?? 0]] : [])));
  }

  snapshot(): Snapshot {
    const strand = Object.keys(this.strands)[0] ?? "";
    const run = (copy: number) => ({ run: `p1.c${copy}`, piece: "Buoy", copy, copies: 2, strand });
    const shape = { pattern: "buoy", title: "Harbour buoy", order: { kind: "one" as const }, terms: "US" as const, runs: [run(1), run(2)] };
    return structuredClone({
      ...shape, epoch: this.epoch, id: this.making, head: this.head, state: this.state, strands: this.strands, asides: this.asides,
      choices: this.choices,
    });
  }

  take(move: Move, from: PretendWire | null): Answer {
    this.received++;
    const known = this.#answers.get(move.id);
    if (known) return known;
    if (this.unable) return { ok: false, code: this.unable, say: `This making is ${this.unable}.` };
    if (move.run === "malformed") return { ok: false, code: "malformed", say: "This move cannot be understood." };
    const row = this.head + 3; // rows of other makings lie between
    const newer = this.#rows.filter((r) => r.row > move.base && r.device !== move.device);
    let answer: Answer;
    const asks = move.choices?.some(({ choice }) => choice === "spiral");
    const at = this.state.runs[move.run]?.at ?? 0;
    if (move.choices) {
      this.choices = allChosen(this.choices, move.choices);
      answer = { ok: true, id: move.id, row, kind: "choice", run: "", from: 0, to: 0, passed: [], head: row, asks };
    } else if (newer.length > 1 || (newer.length === 1 && move.backlog)) {
      this.asides.push({ row, device: move.device, device_name: "phone", run: move.run, to: at });
      answer = { ok: true, id: move.id, row, kind: "aside", run: move.run, from: at, to: at, passed: [], head: row };
    } else {
      const done = apply(this.state, this.strands, row, move as unknown as RunIntent);
      if (isRefusal(done)) {
        answer = { ok: true, id: move.id, row, kind: "refused", code: done.code, run: move.run, from: at, to: at, passed: [], head: row };
      } else {
        this.state = done.state;
        this.applied.push(move.id);
        answer = { ok: true, id: move.id, row, kind: "move", ...done.outcome, head: row };
      }
    }
    this.head = row;
    if (!move.choices) this.#rows.push({ row, device: move.device });
    this.#answers.set(move.id, answer);
    if (answer.kind === "move") this.#log.push({ row, move });
    const told: Row = {
      row,
      id: move.id,
      kind: answer.kind ?? "move",
      device: move.device,
      run: move.run,
      intent: move.intent,
      from: answer.from ?? 0,
      to: answer.to ?? 0,
      passed: answer.passed ?? [],
      in_hand: this.state.in_hand,
      ...(move.choices ? { choices: move.choices, asks } : {}),
    };
    for (const wire of this.wires) if (wire !== from) wire.hear("rows", { making: this.making, head: this.head, rows: [told] });
    return answer;
  }

  /** Another device, which is at the head, moves. */
  other(intent: Partial<Move> & { intent: string }): Answer {
    const id = `other-${this.head}`;
    const base = { device: "other", device_seq: 1, making: 1, strand: "", run: "p1.c1" };
    return this.take({ ...base, id, base: this.head, ...intent }, null);
  }
}

type Fate = "through" | "lost" | "answer lost";

export class PretendWire implements Wire {
  connected = false;
  asked: string[] = [];
  fate: (event: string) => Fate = () => "through";
  #whole = false;
  #heard = new Map<string, (...args: unknown[]) => void>();

  constructor(readonly journal: PretendJournal) {
    journal.wires.push(this);
  }

  on(event: string, heard: (...args: never[]) => void): void {
    this.#heard.set(event, heard as (...args: unknown[]) => void);
  }

  hear(event: string, data: unknown): void {
    if (this.connected) this.#heard.get(event)?.(structuredClone(data));
  }

  /** What a page does: it helps only while the wire is whole. */
  connect(): void {
    if (this.connected || !this.#whole) return;
    this.connected = true;
    this.#heard.get("connect")?.();
  }

  mend(): void {
    this.#whole = true;
    this.connect();
  }

  cut(): void {
    this.#whole = false;
    this.connected = false;
    this.#heard.get("disconnect")?.("transport close");
  }

  async ask(event: string, data: unknown): Promise<unknown> {
    await Promise.resolve();
    if (!this.connected) throw new Error("cut");
    this.asked.push(event);
    const fate = this.fate(event);
    if (fate === "lost") throw new Error("lost");
    const answer = this.#answer(event, structuredClone(data) as never);
    await Promise.resolve();
    if (fate === "answer lost" || !this.connected) throw new Error("lost");
    return structuredClone(answer);
  }

  #answer(event: string, data: { making: number; epoch: string; head: number; moves: Move[]; ids: string[] }): unknown {
    const { journal } = this;
    if (event === "which") return { ok: true, epoch: journal.epoch, rows: journal.which(data.ids) };
    if (event === "join") {
      if (data.making !== journal.making) return { ok: false, code: "gone", say: "This making is not on the shelf any more." };
      if (journal.unable) return { ok: false, code: journal.unable, say: `This making is ${journal.unable}.` };
      const same = data.epoch === journal.epoch;
      if (same && data.head > journal.head) {
        const behind = { known: "behind", shared: 0, when: null, taken: null };
        return { ok: true, epoch: journal.epoch, head: journal.head, restored: behind, snapshot: journal.snapshot() };
      }
      const earlier = journal.before?.epoch === data.epoch ? journal.before : null;
      const standing = { known: earlier ? "earlier" : "stranger", shared: earlier?.shared ?? 0, when: null, taken: null };
      const told = { ok: true, epoch: journal.epoch, head: journal.head, restored: data.epoch && !same ? standing : null };
      return { ...told, snapshot: same && data.head === journal.head ? null : journal.snapshot() };
    }
    if (data.epoch !== journal.epoch) return { ok: false, code: "epoch", epoch: journal.epoch };
    if (data.moves.some((m) => m.base > journal.head))
      return { ok: true, answers: data.moves.map(() => ({ ok: false, code: "ahead", say: "This device knows more." })) };
    return { ok: true, answers: data.moves.map((m) => journal.take(m, this)) };
  }
}
