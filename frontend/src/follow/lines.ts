import { io, type Socket } from "socket.io-client";
import type { Wire } from "./wire";

const ANSWER_MS = 10_000;
/** So many failures in a row, and the next address is tried. */
const FAILURES = 3;

/** Where else the same server is, by its own word, and what a socket has to say there to be let in. */
export interface Elsewhere {
  addresses: readonly string[];
  protocols: readonly string[];
}

type Heard = (...args: never[]) => void;

/**
 * The line to the server: at the address this page came from, and where nobody answers there, at the others the same
 * server told of, one after another. Only the socket goes elsewhere: the page, its address and its store stay.
 */
export class Lines implements Wire {
  #socket: Socket | null = null;
  #at = 0;
  #failed = 0;
  #heard: [string, Heard][] = [];
  #addresses: readonly string[];
  #protocols: readonly string[] = [];

  /** `home`: where the page came from. */
  constructor(
    private readonly home: string,
    others: Elsewhere | undefined = undefined,
    private readonly open: (address: string, protocols: readonly string[]) => Socket = dial,
  ) {
    this.#addresses = [home];
    if (others) this.know(others);
    this.#dial();
  }

  /** Addresses of the same server, as it told them itself. */
  know({ addresses, protocols }: Elsewhere): void {
    const now = this.#addresses[this.#at] ?? this.home;
    this.#protocols = protocols;
    this.#addresses = [...new Set([this.home, ...addresses.filter((other) => alike(other, this.home))])];
    this.#at = Math.max(0, this.#addresses.indexOf(now));
  }

  get connected(): boolean {
    return this.#socket?.connected ?? false;
  }

  /** Where it is connected, or tries to be. */
  get address(): string {
    return this.#addresses[this.#at] ?? this.home;
  }

  on(event: string, heard: Heard): void {
    this.#heard.push([event, heard]);
    this.#socket?.on(event, heard as (...args: unknown[]) => void);
  }

  async ask(event: string, data: unknown): Promise<unknown> {
    const socket = this.#socket;
    if (!socket) throw new Error("no line");
    try {
      return await socket.timeout(ANSWER_MS).emitWithAck(event, data);
    } catch (why) {
      // A line that stands and does not answer may be cut where nobody tells this end of it: another one is dialled.
      if (socket === this.#socket && socket.connected) this.#dial();
      throw why;
    }
  }

  connect(): void {
    this.#socket?.connect();
  }

  #dial(): void {
    const old = this.#socket;
    old?.disconnect(); // which is heard, where it stood
    old?.removeAllListeners();
    // At home the cookie speaks for this device; elsewhere it is not sent.
    const socket = this.open(this.address, this.address === this.home ? [] : this.#protocols);
    this.#socket = socket;
    for (const [event, heard] of this.#heard) socket.on(event, heard as (...args: unknown[]) => void);
    socket.on("connect", () => {
      this.#failed = 0;
    });
    socket.on("connect_error", () => {
      this.#failed += 1;
      if (this.#failed < FAILURES || this.#addresses.length < 2) return;
      this.#failed = 0;
      this.#at = (this.#at + 1) % this.#addresses.length;
      this.#dial();
    });
  }
}

/** An address as a server gives it, of the same kind as ours: from a page over TLS no browser goes to one without. */
function alike(other: unknown, home: string): boolean {
  return typeof other === "string" && /^https?:\/\/[^/?#@\s]+$/.test(other) && other.split(":")[0] === home.split(":")[0];
}

function dial(address: string, protocols: readonly string[]): Socket {
  // A line that opens and then says nothing is given up soon: on a home network an answer takes milliseconds.
  const patience = { timeout: 4000, reconnectionDelay: 300, reconnectionDelayMax: 2000 };
  return io(address, { transports: ["websocket"], forceNew: true, protocols: [...protocols], ...patience });
}
