import { io } from "socket.io-client";
import { Link, type Wire } from "./link";
import { type Making, openMaking as openOn } from "./making";
import { openOutbox, type Outbox } from "./outbox";

/** What this browser is to the journal: one outbox, one link. */
export interface Device {
  outbox: Outbox;
  link: Link;
}

const ANSWER_MS = 10_000;

/** A name a person would use, for "phone says round 7". */
export function deviceName(agent: string, narrowest: number, touch: boolean): string {
  if (/iPad|Tablet/i.test(agent) || (touch && narrowest >= 600)) return "tablet";
  if (/iPhone|Mobile/i.test(agent) || (touch && narrowest < 600)) return "phone";
  return "laptop";
}

function wire(): Wire {
  // A line that opens and then says nothing is given up soon: on a home network an answer takes milliseconds.
  const patience = { timeout: 4000, reconnectionDelay: 300, reconnectionDelayMax: 2000 };
  const socket = io({ transports: ["websocket"], ...patience });
  return {
    get connected() {
      return socket.connected;
    },
    on: (event, heard) => socket.on(event, heard as (...args: unknown[]) => void),
    ask: (event, data) => socket.timeout(ANSWER_MS).emitWithAck(event, data),
    connect: () => socket.connect(),
  };
}

let opened: Promise<Device> | null = null;

export function device(): Promise<Device> {
  opened ??= openOutbox().then((outbox) => {
    const narrowest = Math.min(screen.width, screen.height);
    const link = new Link(outbox, wire(), deviceName(navigator.userAgent, narrowest, navigator.maxTouchPoints > 0));
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") link.wake();
    });
    addEventListener("online", () => link.wake());
    return { outbox, link };
  });
  return opened;
}

/** The making with this number, on this device. */
export function openMaking(id: number): Making {
  return openOn(id, device());
}
