import { signal } from "@preact/signals";
import { Gate } from "../sound/gate";
import type { About, Counted, Engine, Expecting, Heard, Listening, Progress } from "./events";
import type { Line } from "./line";

/**
 * How it stands with the ear in the server. "away": no connection, it comes back by itself. "lost": the server cannot
 * listen, and `why` says so. "taken": another device of this making listens now.
 */
export type Standing = "closed" | "asking" | "open" | "away" | "lost" | "taken";

export interface EarHears {
  heard(heard: Heard): void;
  counted(counted: Counted): void;
}

const NOTHING: Expecting = { waits: null, answers: null, count: null };
const SEEN = 400; // utterances remembered, so that none acts twice

/** The page's end of the ear: sends sound, is told what was heard. It comes back by itself after a cut. */
export class Ear {
  readonly standing = signal<Standing>("closed");
  readonly why = signal("");
  readonly engine = signal<Engine | null>(null);
  readonly missing = signal<string[]>([]);
  readonly level = signal(0);
  readonly #gate = new Gate();
  #id = "";
  #seq = 0;
  #deaf = false;
  #wanted = false;
  #turn = 0;
  #expects: Expecting = NOTHING;
  #seen: string[] = [];
  #progress: ((now: Progress) => void) | null = null;

  constructor(
    private readonly line: Line,
    private readonly about: () => About,
    private readonly to: EarHears,
  ) {
    line.on("connect", () => void this.#ask());
    line.on("disconnect", () => {
      this.#id = "";
      if (this.#wanted) this.standing.value = "away";
    });
    line.on("heard", (data: Heard) => {
      if (this.#mine(data, data.utterance)) this.to.heard(data);
    });
    line.on("counted", (data: Counted) => {
      if (this.#mine(data, `${data.utterance} ${data.number}`)) this.to.counted(data);
    });
    line.on("voice_progress", (data: Progress) => this.#progress?.(data));
    line.on("ear_lost", (data: { ear?: string; say: string }) => {
      if (data.ear === undefined || data.ear === this.#id) this.#lose("lost", data.say);
    });
    line.on("ear_taken", (data: { making: number; by: string }) => {
      if (data.making === this.about().making) this.#lose("taken", `The ear was taken by the ${data.by || "other device"}.`);
    });
  }

  /** Be told how the adding of a model goes. Returns the way to stop. */
  listenTo(progress: (now: Progress) => void): () => void {
    this.#progress = progress;
    return () => {
      if (this.#progress === progress) this.#progress = null;
    };
  }

  get hears(): boolean {
    return this.#id !== "" && !this.#deaf;
  }

  /** Begin to listen, or again with other choices. */
  async open(): Promise<void> {
    this.#wanted = true;
    await this.#ask();
  }

  close(): void {
    this.#wanted = false;
    this.#turn += 1;
    if (this.#id) this.line.tell("unlisten", { ear: this.#id });
    this.#id = "";
    this.level.value = 0;
    this.standing.value = "closed";
  }

  expect(what: Expecting): void {
    this.#expects = what;
    if (this.#id) this.line.tell("expect", { ear: this.#id, ...what });
  }

  /** While this page speaks nothing is listened to, on either side. */
  deaf(on: boolean): void {
    if (on === this.#deaf) return;
    this.#deaf = on;
    if (this.#id) this.line.tell("deaf", { ear: this.#id, on });
  }

  /** A packet from the microphone. Silence goes no further. */
  packet(pcm: Int16Array): void {
    if (!this.hears) {
      this.#gate.drop();
      return;
    }
    const out = this.#gate.take(pcm);
    this.level.value = this.#gate.open ? this.#gate.level : 0;
    if (!out) return;
    let { quiet } = out;
    for (const packet of out.packets) {
      this.line.tell("sound", { ear: this.#id, seq: this.#seq++, quiet, pcm: packet.buffer });
      quiet = 0;
    }
  }

  async #ask(): Promise<void> {
    if (!this.#wanted) return;
    if (!this.line.connected) {
      this.standing.value = "away";
      return;
    }
    this.#turn += 1;
    const turn = this.#turn;
    if (this.standing.value !== "open") this.standing.value = "asking";
    let answer: Listening;
    try {
      answer = (await this.line.ask("listen", this.about())) as Listening;
    } catch {
      if (turn === this.#turn) this.#lose("lost", "Hookside does not answer when asked to listen. Touch and keys go on; start listening again in a moment.");
      return;
    }
    if (turn !== this.#turn) return;
    if (!answer.ok) {
      this.#lose("lost", answer.say || "Hookside cannot listen just now. Touch and keys go on.");
      return;
    }
    this.#id = answer.ear;
    this.#seq = 0;
    this.engine.value = answer.engine;
    this.missing.value = answer.missing ?? [];
    this.why.value = "";
    this.standing.value = "open";
    if (this.#deaf) this.line.tell("deaf", { ear: this.#id, on: true });
    this.line.tell("expect", { ear: this.#id, ...this.#expects });
  }

  #lose(how: "lost" | "taken", why: string): void {
    this.#wanted = false;
    this.#id = "";
    this.level.value = 0;
    this.why.value = why;
    this.standing.value = how;
  }

  /** Whether it is for this ear, and new: an utterance that comes twice is one. */
  #mine(data: { ear?: string }, utterance: string): boolean {
    if (data.ear !== undefined && data.ear !== this.#id) return false;
    if (this.#seen.includes(utterance)) return false;
    this.#seen.push(utterance);
    if (this.#seen.length > SEEN) this.#seen.shift();
    return true;
  }
}
