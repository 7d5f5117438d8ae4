import { type Signal, useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, type Changed, type Snapshot } from "../../api";
import type { LinkState } from "../../follow/link";

/** What a changed pattern asks here; null where it asks nothing, or the server is away: then the work goes on as it is. */
export function useChanged(id: number, snapshot: Snapshot | null, link: LinkState): Signal<Changed | null> {
  const changed = useSignal<Changed | null>(null);
  const asks = snapshot?.edited === true && link === "live";
  const head = asks ? snapshot.head : 0;
  useEffect(() => {
    if (!asks) {
      changed.value = null;
      return;
    }
    let over = false;
    api.changed(id).then(
      (told) => {
        if (!over) changed.value = told.asks ? told : null;
      },
      () => undefined,
    );
    return () => {
      over = true;
    };
  }, [id, asks, head]);
  return changed;
}
