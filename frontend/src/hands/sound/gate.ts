import { loudness, PACKET_MS } from "./packet";

/**
 * Silence stays on this device. The quietest moment of the last seconds is the room; what stands out of it opens the
 * gate, and the packets just before go along, since a soft consonant begins a word. It closes only well after the
 * last sound: the server finds the end of an utterance by the silence behind it.
 */
export const BEFORE = 6; // packets that go along: 300 ms
export const BEHIND = 24; // packets of silence that still go: 1.2 s, longer than the slowest endpointer waits
const REMEMBERED = 80; // packets in which the room is looked for: 4 s
const KNOWN = 20; // packets until the room is known; till then a quiet one is assumed, so that a first word is sent
const QUIET_ROOM = -55; // dB
const OUT_OF_ROOM = 5; // dB above the room
const FAINT = -66; // dB: nothing below this is ever speech
const STIR = 3; // dB above the room before the eye sees something

export interface Let {
  packets: Int16Array[];
  /** Milliseconds of silence that were left out directly before these. */
  quiet: number;
}

export class Gate {
  #levels: number[] = [];
  #held: Int16Array[] = [];
  #behind = 0;
  #left = 0;
  /** Loudness of the last packet above the room, 0 to 1, for the eye. */
  level = 0;

  get open(): boolean {
    return this.#behind > 0;
  }

  /** One packet in; what goes out with it, or null. */
  take(pcm: Int16Array): Let | null {
    const now = loudness(pcm);
    this.#levels.push(now);
    if (this.#levels.length > REMEMBERED) this.#levels.shift();
    const room = Math.min(...this.#levels, this.#levels.length < KNOWN ? QUIET_ROOM : 0);
    this.level = Math.max(0, Math.min(1, (now - room - STIR) / 30));
    const was = this.open;
    if (now > FAINT && now > room + OUT_OF_ROOM) this.#behind = BEHIND + 1;
    if (this.#behind > 0) this.#behind -= 1;
    else {
      this.#held.push(pcm);
      if (this.#held.length > BEFORE) {
        this.#held.shift();
        this.#left += PACKET_MS;
      }
      return null;
    }
    if (was) return { packets: [pcm], quiet: 0 };
    const out = { packets: [...this.#held, pcm], quiet: this.#left };
    this.#held = [];
    this.#left = 0;
    return out;
  }

  /** A packet that is not listened to, since the page speaks: it and what was held are thrown away, as silence. */
  drop(): void {
    this.#left += this.#held.length * PACKET_MS + PACKET_MS;
    this.#held = [];
    this.#behind = 0;
  }
}
