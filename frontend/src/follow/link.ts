import { signal } from "@preact/signals";
import type { Snapshot } from "../api";
import type { Entry, Outbox } from "./outbox";

/** The server's word on one move. */
export interface Answer {
  ok: boolean;
  id?: string;
  row?: number;
  kind?: "move" | "aside" | "refused" | "settle";
  code?: string;
  say?: string;
  run?: string;
  from?: number;
  to?: number;
  passed?: string[];
  head?: number;
}

export interface Row {
  row: number;
  kind: string;
  device: string;
  run: string;
  intent: string;
  from: number;
  to: number;
  passed: string[];
  in_hand: string | null;
}

export interface Rows {
  making: number;
  head: number;
  rows: Row[];
}

interface Joined {
  ok: boolean;
  code?: string;
  say?: string;
  epoch: string;
  head: number;
  snapshot: Snapshot | null;
}

interface Taken {
  ok: boolean;
  code?: string;
  say?: string;
  epoch?: string;
  answers?: Answer[];
}

/** The little of a socket that the link needs; socket.io-client fits, and so does a test's own. */
export interface Wire {
  readonly connected: boolean;
  on(event: string, heard: (...args: never[]) => void): unknown;
  ask(event: string, data: unknown): Promise<unknown>;
  connect(): unknown;
}

/** Who works from this link: one making, while it is open. */
export interface Guest {
  readonly making: number;
  /** Epoch and head this page holds; null before the first snapshot. */
  held(): { epoch: string; head: number } | null;
  joined(epoch: string, snapshot: Snapshot | null): void;
  answered(entries: Entry[], answers: Answer[]): void;
  rows(rows: Rows): void;
  refresh(): void;
  gone(): void;
}

/**
 * live: moves go out as they are made. waiting: no connection, they wait here.
 * gone: the making is not in the journal any more.
 * restored: the journal is another one than these moves were made for; nothing is sent until the maker has said.
 */
export type LinkState = "live" | "waiting" | "gone" | "restored";

const BATCH = 500;
const RETRY_MS = 1500;

/** One sender for the whole device: lowest number first, one batch in flight, forgotten only when acknowledged. */
export class Link {
  readonly state = signal<LinkState>("waiting");
  /** Epoch of the journal now serving, once it differs from that of waiting moves. */
  readonly stranger = signal<string | null>(null);
  readonly said = signal<string>("");
  #guest: Guest | null = null;
  #joined = false;
  #turn: Promise<void> = Promise.resolve();
  #queued: Promise<void> | null = null;
  #tabs: BroadcastChannel | null = null;

  constructor(
    private readonly outbox: Outbox,
    private readonly wire: Wire,
    private readonly deviceName: string,
    private readonly pause: (ms: number) => Promise<void> = (ms) => new Promise((done) => setTimeout(done, ms)),
  ) {
    wire.on("connect", () => void this.#meet());
    wire.on("disconnect", (...args: never[]) => {
      this.#joined = false;
      if (this.state.value === "live") this.state.value = "waiting";
      if ((args[0] as unknown) === "io server disconnect") void this.pause(RETRY_MS).then(() => wire.connect());
    });
    wire.on("rows", (...args: never[]) => {
      const rows = args[0] as unknown as Rows;
      if (this.#guest && rows.making === this.#guest.making) this.#guest.rows(rows);
    });
    if (typeof BroadcastChannel !== "undefined") {
      this.#tabs = new BroadcastChannel("hookside");
      this.#tabs.onmessage = () => this.#guest?.refresh();
    }
    if (wire.connected) void this.#meet();
  }

  enter(guest: Guest): void {
    this.#guest = guest;
    this.#joined = false;
    if (this.state.value === "gone" || this.state.value === "live") this.state.value = "waiting";
    if (this.wire.connected) void this.#meet();
  }

  leave(guest: Guest): void {
    if (this.#guest === guest) this.#guest = null;
  }

  /** The page is looked at again, or a move was added. */
  wake(): void {
    if (!this.wire.connected) this.wire.connect();
    else if (this.#guest && !this.#joined) void this.#meet();
    else void this.send();
  }

  /** Ask for the making afresh: something was missed. */
  async rejoin(): Promise<void> {
    this.#joined = false;
    await this.#meet();
  }

  /** The maker's answer about another journal: put the waiting moves on it, or let them go. */
  async resolve(choice: "send" | "drop"): Promise<void> {
    const epoch = this.stranger.value;
    if (epoch === null) return;
    if (choice === "send") await this.outbox.readdress(epoch);
    else {
      const old = (await this.outbox.all()).filter((e) => e.epoch !== epoch);
      await this.outbox.forget(old);
    }
    this.stranger.value = null;
    this.state.value = "waiting";
    this.#guest?.refresh();
    await this.rejoin();
  }

  /** Meeting and sending take turns, so that a snapshot never crosses an acknowledgement on the way. */
  async #alone<T>(work: () => Promise<T>): Promise<T> {
    const before = this.#turn;
    let release = () => {};
    this.#turn = new Promise<void>((done) => {
      release = done;
    });
    await before;
    try {
      return await work();
    } finally {
      release();
    }
  }

  /** First what waits here goes out, then the making is asked for: its snapshot then holds all of it. */
  async #meet(): Promise<void> {
    const guest = this.#guest;
    const settled = await this.#alone(async () => {
      await this.#empty();
      return !guest || this.stranger.value !== null || (await this.#join(guest));
    });
    if (settled || !this.wire.connected) return;
    await this.pause(RETRY_MS);
    if (this.#guest === guest && this.wire.connected && !this.#joined) await this.#meet();
  }

  async #join(guest: Guest): Promise<boolean> {
    const held = guest.held();
    let answer: Joined;
    try {
      const about = { making: guest.making, device: this.outbox.device, device_name: this.deviceName };
      answer = (await this.wire.ask("join", { ...about, epoch: held?.epoch ?? "", head: held?.head ?? 0 })) as Joined;
      if (!answer.ok && answer.code === "epoch")
        answer = (await this.wire.ask("join", { ...about, epoch: answer.epoch, head: 0 })) as Joined;
    } catch {
      return false;
    }
    if (this.#guest !== guest) return true;
    if (!answer.ok) {
      this.state.value = "gone";
      this.said.value = answer.say ?? "";
      guest.gone();
      return true;
    }
    this.#joined = true;
    this.state.value = "live";
    guest.joined(answer.epoch, answer.snapshot);
    return true;
  }

  send(): Promise<void> {
    this.#queued ??= this.#alone(async () => {
      this.#queued = null;
      await this.#empty();
    });
    return this.#queued;
  }

  async #empty(): Promise<void> {
    while (this.wire.connected && this.stranger.value === null) {
      const batch = cut(await this.outbox.all(BATCH));
      if (!batch.length) return;
      if (!(await this.#deliver(batch))) await this.pause(RETRY_MS);
    }
  }

  async #deliver(batch: Entry[]): Promise<boolean> {
    let taken: Taken;
    try {
      taken = (await this.wire.ask("moves", {
        epoch: batch[0]?.epoch,
        moves: batch.map((e) => ({ ...e.move, device_seq: e.seq })),
      })) as Taken;
    } catch {
      return false;
    }
    if (!taken.ok || !taken.answers) {
      if (taken.code !== "epoch") return false;
      this.stranger.value = taken.epoch ?? "";
      this.state.value = "restored";
      return true;
    }
    const answers = taken.answers;
    const done = batch.slice(0, answers.length);
    // A malformed move is never stored by the server, however often it is sent: it is let go, and that is said.
    const lost = answers.find((a) => !a.ok);
    if (lost) this.said.value = lost.say ?? "One of your moves could not be kept. Please check your place.";
    await this.outbox.forget(done);
    this.#guest?.answered(done, answers);
    this.#tabs?.postMessage("moved");
    return true;
  }
}

/** The next batch out of the oldest moves: those of one journal. */
export function cut(entries: Entry[]): Entry[] {
  const other = entries.findIndex((e) => e.epoch !== entries[0]?.epoch);
  return other < 0 ? entries : entries.slice(0, other);
}
