import { signal } from "@preact/signals";
import type { Snapshot } from "../api";
import type { Answer, Entry } from "./moves";
import type { Outbox } from "./outbox";
import { askOf, type Question, type Standing } from "./restored";
import { type News, Tabs } from "./tabs";
import type { Guest, Rows, Wire } from "./wire";

interface Joined {
  ok: boolean;
  code?: string;
  say?: string;
  epoch: string;
  head: number;
  snapshot: Snapshot | null;
  restored?: Standing | null;
}

interface Taken {
  ok: boolean;
  code?: string;
  say?: string;
  epoch?: string;
  answers?: Answer[];
}

/**
 * live: moves go out as they are made. waiting: no connection, they wait here.
 * gone: the making is not in the journal any more.
 * restored: the journal of this making is another one than its moves were made for; nothing of it is sent until the
 * maker has said.
 */
export type LinkState = "live" | "waiting" | "gone" | "restored";

const BATCH = 500;
/** So many are read from the store at once. */
const AHEAD = 4 * BATCH;
const RETRY_MS = 1500;

/** One sender for the whole device: lowest number first, one batch in flight, let go of only when acknowledged. */
export class Link {
  readonly state = signal<LinkState>("waiting");
  /** Makings with moves for another journal than the one now serving. */
  readonly strangers = signal<readonly number[]>([]);
  /** Why the journal takes nothing just now, in its own words. */
  readonly trouble = signal("");
  /** How often a server has answered on this line. */
  readonly meetings = signal(0);
  /** How many moves of this device wait, whatever they are for. */
  readonly waits = signal(0);
  /** Counts up whenever moves were held, or are not any more: someone may want to say so. */
  readonly heldSince = signal(0);
  #guest: Guest | null = null;
  #joined = false;
  #missed = false;
  /** The epoch of the journal that serves, as far as it has been told. */
  #serving: string | null = null;
  /** Makings of which nothing is sent before the maker has answered. */
  readonly #asking = new Set<number>();
  #turn: Promise<void> = Promise.resolve();
  #queued: Promise<void> | null = null;
  readonly #tabs: Tabs;

  constructor(
    private readonly outbox: Outbox,
    private readonly wire: Wire,
    private readonly deviceName: string,
    private readonly pause: (ms: number) => Promise<void> = (ms) => new Promise((done) => setTimeout(done, ms)),
    tabs: (heard: (news: News) => void) => Tabs = (heard) => new Tabs(heard),
  ) {
    wire.on("connect", () => {
      // It may be another journal again.
      this.strangers.value = [];
      this.#asking.clear();
      this.meetings.value += 1;
      void this.#meet();
    });
    wire.on("disconnect", (...args: never[]) => {
      this.#joined = false;
      if (this.state.value === "live") this.state.value = "waiting";
      if ((args[0] as unknown) === "io server disconnect") void this.pause(RETRY_MS).then(() => wire.connect());
    });
    wire.on("rows", (...args: never[]) => {
      const rows = args[0] as unknown as Rows;
      if (this.#guest && rows.making === this.#guest.making) this.#guest.rows(rows);
    });
    this.#tabs = tabs((news) => this.#hear(news));
    void this.#count();
    if (wire.connected) void this.#meet();
  }

  #hear(news: News): void {
    const guest = this.#guest;
    void this.#count();
    if (news.kind === "added") {
      guest?.added(news.entry);
      void this.send(); // the tab it was made in may be without a line
    } else if (news.kind === "answered") guest?.answered(news.entries, news.answers);
    else void guest?.refresh().then(() => this.rejoin());
  }

  enter(guest: Guest): void {
    this.#guest = guest;
    this.#joined = false;
    if (this.state.value !== "waiting") this.state.value = "waiting";
    if (this.wire.connected) void this.#meet();
  }

  leave(guest: Guest): void {
    if (this.#guest === guest) this.#guest = null;
  }

  /** A move was stored: the other tabs see it, and it goes out. */
  added(entry: Entry): void {
    this.#tabs.tell({ kind: "added", entry });
    void this.#count();
    this.wake();
  }

  /** The page is looked at again, or a move was added. */
  wake(): void {
    if (!this.wire.connected) this.wire.connect();
    else if (this.#guest && !this.#joined && this.state.value !== "restored") void this.#meet();
    else void this.send();
  }

  /** The page was away from the screen: what its other tabs told meanwhile may not have been heard. */
  async look(): Promise<void> {
    await this.#guest?.refresh();
    this.wake();
  }

  /** Ask for the making afresh: something was missed. */
  async rejoin(): Promise<void> {
    this.#joined = false;
    this.#missed = true;
    await this.#meet();
  }

  /** The maker's answer about a journal that knows less: put this device's moves on it, or leave it as it is. */
  async resolve(question: Question, choice: "put back" | "go on"): Promise<void> {
    const { epoch, snapshot, moves } = question;
    if (choice === "put back") await this.outbox.putBack(snapshot.id, epoch, moves);
    else await this.outbox.layBy(snapshot.id);
    this.strangers.value = this.strangers.value.filter((making) => making !== snapshot.id);
    this.#asking.delete(snapshot.id);
    this.#guest?.joined(epoch, snapshot);
    await this.#guest?.refresh();
    this.state.value = "waiting";
    this.#tabs.tell({ kind: "changed" });
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
      return !guest || (await this.#join(guest));
    });
    if (settled || !this.wire.connected) return;
    await this.pause(RETRY_MS);
    if (this.#guest === guest && this.wire.connected && !this.#joined) await this.#meet();
  }

  async #join(guest: Guest): Promise<boolean> {
    const held = guest.held();
    // What was missed may lie before the newest row that is held: then only the whole making tells it.
    const missed = this.#missed;
    const head = missed ? 0 : (held?.head ?? 0);
    this.#missed = false;
    let answer: Joined;
    let question: Question | null;
    try {
      const about = { making: guest.making, device: this.outbox.device, device_name: this.deviceName };
      answer = (await this.wire.ask("join", { ...about, epoch: held?.epoch ?? "", head })) as Joined;
      question = answer.ok && answer.snapshot ? await askOf(guest, answer.epoch, answer.snapshot, answer.restored ?? null, this.outbox, this.wire) : null;
    } catch {
      this.#missed ||= missed;
      return false;
    }
    if (this.#guest !== guest) return true;
    if (!answer.ok) return this.#absent(guest, answer);
    this.#serving = answer.epoch;
    if (question) {
      this.#asking.add(guest.making);
      this.state.value = "restored";
      guest.restored(question);
      return true;
    }
    this.#joined = true;
    this.state.value = "live";
    guest.joined(answer.epoch, answer.snapshot);
    if ((await this.outbox.takeUp(guest.making)) > 0) {
      this.heldSince.value += 1;
      await guest.refresh();
      void this.send();
    }
    return true;
  }

  /** The making is not there, or cannot be followed: what waits for it is kept. */
  async #absent(guest: Guest, answer: Joined): Promise<boolean> {
    const { code = "", say = "" } = answer;
    if (code !== "gone" && code !== "damaged") {
      this.trouble.value = say;
      return false;
    }
    await this.outbox.hold(guest.making, code, say);
    this.heldSince.value += 1;
    this.state.value = "gone";
    guest.gone(code, say);
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
    while (this.wire.connected) {
      const done = await this.#tabs.alone(async () => {
        const waiting = await this.#next();
        return waiting.length ? this.#deliver(waiting) : "empty";
      });
      if (done === "empty") return;
      if (!done) await this.pause(RETRY_MS);
    }
  }

  async #count(): Promise<void> {
    this.waits.value = await this.outbox.count().catch(() => this.waits.value);
  }

  /** The oldest moves that may be sent: those of one journal, and of the one that serves where that is known. */
  async #next(): Promise<Entry[]> {
    if (!this.strangers.value.length && !this.#asking.size) return cut(await this.outbox.all(AHEAD));
    const all = await this.outbox.all();
    return all.filter((e) => e.epoch === this.#serving && !this.#asking.has(e.move.making)).slice(0, AHEAD);
  }

  /** One batch after the other; while the journal looks at the next, the one before is let go of. */
  async #deliver(waiting: readonly Entry[]): Promise<boolean> {
    let lettingGo: Promise<unknown> = Promise.resolve();
    try {
      for (let at = 0; at < waiting.length; at += BATCH) {
        const batch = waiting.slice(at, at + BATCH);
        const answers = await this.#ask(batch);
        if (typeof answers === "boolean") return answers;
        await lettingGo;
        lettingGo = this.#letGo(batch.slice(0, answers.length), answers);
        lettingGo.catch(() => undefined); // heard of in its turn
      }
    } finally {
      await lettingGo;
    }
    return true;
  }

  /** The journal's answers to one batch. Where it took nothing: whether there may be others to be sent at once. */
  async #ask(batch: readonly Entry[]): Promise<Answer[] | boolean> {
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
      if (taken.code === "epoch" && taken.epoch) {
        await this.#stranger(taken.epoch);
        return true;
      }
      this.trouble.value = taken.say ?? "";
      return false;
    }
    this.#serving = batch[0]?.epoch ?? null;
    this.trouble.value = "";
    const ahead = batch.filter((_, i) => taken.answers?.[i]?.code === "ahead");
    return ahead.length ? this.#behind(ahead) : taken.answers;
  }

  /** These are acknowledged: they need not wait any more. */
  async #letGo(done: readonly Entry[], answers: Answer[]): Promise<void> {
    await this.outbox.answered(done, answers);
    void this.#count();
    if (answers.some((a) => !a.ok || a.code === "gone")) this.heldSince.value += 1;
    this.#guest?.answered(done, answers);
    this.#tabs.tell({ kind: "answered", entries: done, answers });
  }

  /** The journal has fewer rows than these moves were made on: an older file lies there. Nothing was stored. */
  async #behind(ahead: readonly Entry[]): Promise<boolean> {
    const makings = ahead.map((e) => e.move.making);
    for (const making of makings) this.#asking.add(making);
    this.strangers.value = [...new Set([...this.strangers.value, ...makings])];
    return true;
  }

  /** Another journal serves: what was made for the one before stays here. */
  async #stranger(serving: string): Promise<void> {
    this.#serving = serving;
    const foreign = (await this.outbox.all()).filter((e) => e.epoch !== serving);
    this.strangers.value = [...new Set(foreign.map((e) => e.move.making))];
  }
}

/** The next batch out of the oldest moves: those of one journal. */
export function cut(entries: Entry[]): Entry[] {
  const other = entries.findIndex((e) => e.epoch !== entries[0]?.epoch);
  return other < 0 ? entries : entries.slice(0, other);
}
