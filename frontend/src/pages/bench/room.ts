import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Session } from "../../hands/session";

/** Working hands-free: its room, once that is fetched, and the stretch of it that goes on now. */
export interface HandsFree {
  room: typeof import("./handsfree") | null;
  session: Session | null;
  /** Only inside a touch or a key: there alone a page is given sound. */
  start(): void;
  end(): void;
}

/** Fetched behind the first paint, so that the touch that starts hands-free finds it here. */
export function useHandsFree(making: number, say: (text: string) => void): HandsFree {
  const room = useSignal<HandsFree["room"]>(null);
  const session = useSignal<Session | null>(null);
  useEffect(() => {
    void import("./handsfree").then((hands) => (room.value = hands), () => undefined);
    return () => session.value?.end();
  }, []);
  return {
    room: room.value,
    session: session.value,
    start() {
      if (!room.value) say("Hands-free is not fetched yet. Touch once more in a moment.");
      else session.value ??= room.value.begin(making);
    },
    end() {
      session.value?.end();
      session.value = null;
    },
  };
}
