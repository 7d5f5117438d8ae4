import { device } from "../../follow/device";

/** The shelf is looked at no more often than this. */
const APART_MS = 1000;

let shown: (() => void) | null = null;
let listening = false;

/**
 * Whenever the server says that something on the shelf is another, `look`; while it looks, once more afterwards, never
 * two at a time: a busy server is not asked faster than it answers. Returns the way to end it.
 */
export function watching(look: () => Promise<void>): () => void {
  let last = Date.now();
  let looking = false;
  let again = false;
  let waits: ReturnType<typeof setTimeout> | undefined;
  shown = () => {
    // Out of sight nothing is looked at; the page looks by itself when it is seen again.
    if (waits !== undefined || document.visibilityState === "hidden") return;
    if (looking) {
      again = true;
      return;
    }
    waits = setTimeout(
      () => {
        waits = undefined;
        looking = true;
        void look().finally(() => {
          looking = false;
          last = Date.now();
          if (again) shown?.();
          again = false;
        });
      },
      Math.max(0, last + APART_MS - Date.now()),
    );
  };
  void listen();
  return () => {
    shown = null;
    clearTimeout(waits);
  };
}

/** Once for the page: with every new connection it says that it shows the shelf, and what was missed is looked at. */
async function listen(): Promise<void> {
  const { wire } = await device();
  const say = () => void wire.ask("shelf", {}).then(() => shown?.(), () => undefined);
  if (!listening) {
    listening = true;
    wire.on("shelf", () => shown?.());
    wire.on("connect", say);
  }
  if (wire.connected) say();
}
