import { signal } from "@preact/signals";

/** Whether the screen stays on: asked for, granted, refused for now, or not to be had in this browser. */
export type Awake = "off" | "kept" | "refused" | "cannot";
export const awake = signal<Awake>("off");

/**
 * Keeps the screen on. The system takes the lock away when the page is hidden; it is asked for again when the page
 * comes back, and at the next touch or key, since some systems grant it only then. Returns the way to let go.
 */
export function keepAwake(): () => void {
  if (!globalThis.navigator?.wakeLock) {
    awake.value = "cannot";
    return () => {
      awake.value = "off";
    };
  }
  let lock: WakeLockSentinel | null = null;
  let asking = false;
  let over = false;
  const ask = async () => {
    if (over || lock || asking || document.visibilityState !== "visible") return;
    asking = true;
    try {
      const got = await navigator.wakeLock.request("screen");
      if (over) void got.release();
      else {
        lock = got;
        awake.value = "kept";
        got.addEventListener("release", () => {
          if (lock === got) lock = null;
          if (!over) awake.value = "refused";
        });
      }
    } catch {
      awake.value = "refused";
    }
    asking = false;
  };
  const again = () => void ask();
  document.addEventListener("visibilitychange", again);
  addEventListener("pointerdown", again);
  addEventListener("keydown", again);
  again();
  return () => {
    over = true;
    document.removeEventListener("visibilitychange", again);
    removeEventListener("pointerdown", again);
    removeEventListener("keydown", again);
    void lock?.release();
    awake.value = "off";
  };
}
