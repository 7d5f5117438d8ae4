import { signal } from "@preact/signals";
import type { Wire } from "./wire";

/** Whether this device was shown out: the server is there and does not know it any more. */
export const shownOut = signal(false);

/** Devices that ask to come in, by name. Told at the machine itself alone, where somebody can say yes. */
export const atTheDoor = signal<readonly string[]>([]);

/** Nobody asks more often than this why there is no line. */
const ASK_MS = 4000;
/** A knock that nobody answers is forgotten after so long. */
const KNOCK_MS = 300_000;

/** The server's word where no line can be had: true when it says that this device is none of its own. */
async function refused(): Promise<boolean> {
  const answer = await fetch("/api/addresses", { cache: "no-store", signal: AbortSignal.timeout(ASK_MS) });
  const { code } = (await answer.json()) as { code?: unknown };
  return answer.status === 401 && code === "unpaired";
}

/** Keeps both up to date by what happens on the line. */
export function watchDoor(wire: Pick<Wire, "on">, ask: () => Promise<boolean> = refused, now: () => number = Date.now): void {
  let asked = Number.NEGATIVE_INFINITY;
  let forget: ReturnType<typeof setTimeout> | undefined;
  wire.on("connect", () => {
    shownOut.value = false;
  });
  wire.on("connect_error", () => {
    if (now() - asked < ASK_MS) return;
    asked = now();
    // No answer says nothing: the server is away, as it may be.
    ask().then((out) => (shownOut.value = out), () => undefined);
  });
  wire.on("disconnect", () => {
    atTheDoor.value = [];
  });
  wire.on("knocks", (...args: never[]) => {
    const { names } = args[0] as unknown as { names: readonly string[] };
    atTheDoor.value = names;
    clearTimeout(forget);
    forget = setTimeout(() => (atTheDoor.value = []), KNOCK_MS);
  });
}
