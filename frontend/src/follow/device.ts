import { type Basket, openBasket } from "./basket";
import { type Elsewhere, Lines } from "./lines";
import { Link } from "./link";
import { type Making, openMaking as openOn } from "./making";
import { openOutbox, type Outbox } from "./outbox";
import { watchDoor } from "./outside";
import type { Store } from "./store";
import type { Wire } from "./wire";

/** What this browser is to the journal: one outbox, one link, and what it keeps to go on without the server. */
export interface Device {
  outbox: Outbox;
  basket: Basket;
  link: Link;
  wire: Wire;
  /** The rest of what it keeps; null where this browser keeps nothing. */
  store: Store | null;
}

const MOST_ADDRESSES = 20;

/** A name a person would use, for "phone says round 7". */
export function deviceName(agent: string, narrowest: number, touch: boolean): string {
  if (/iPad|Tablet/i.test(agent) || (touch && narrowest >= 600)) return "tablet";
  if (/iPhone|Mobile/i.test(agent) || (touch && narrowest < 600)) return "phone";
  return "laptop";
}

let opened: Promise<Device> | null = null;

async function open(): Promise<Device> {
  const { outbox, store } = await openOutbox();
  const known = (await store?.get("about", "elsewhere").catch(() => undefined)) as Elsewhere | undefined;
  const lines = new Lines(location.origin, known);
  const narrowest = Math.min(screen.width, screen.height);
  const link = new Link(outbox, lines, deviceName(navigator.userAgent, narrowest, navigator.maxTouchPoints > 0));
  watchDoor(lines);
  lines.on("connect", () => {
    void learn().then((told) => {
      if (!told) return;
      lines.know(told);
      void store?.put("about", told, "elsewhere").catch(() => undefined);
    });
  });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") void link.look();
  });
  addEventListener("pageshow", (event) => {
    if (event.persisted) void link.look();
  });
  addEventListener("online", () => link.wake());
  return { outbox, basket: openBasket(store), link, wire: lines, store };
}

const texts = (list: unknown): string[] =>
  Array.isArray(list) ? list.filter((one): one is string => typeof one === "string").slice(0, MOST_ADDRESSES) : [];

/** Where else the same server can be reached, by its own word; undefined where it does not say. */
async function learn(): Promise<Elsewhere | undefined> {
  try {
    const answer = await fetch("/api/addresses", { cache: "no-store" });
    const { addresses, protocols } = (await answer.json()) as { addresses?: unknown; protocols?: unknown };
    return answer.ok ? { addresses: texts(addresses), protocols: texts(protocols) } : undefined;
  } catch {
    return undefined;
  }
}

export function device(): Promise<Device> {
  opened ??= open();
  return opened;
}

/** The making with this number, on this device. */
export function openMaking(id: number): Making {
  return openOn(id, device());
}
