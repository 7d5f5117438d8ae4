import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Device } from "./follow/device";
import { device } from "./follow/device";
import { storageRefused } from "./follow/outbox";

/** What the maker must hear about this device, on whichever page she is. */
export function Notices() {
  const here = useSignal<Device | null>(null);
  const heard = useSignal(false);
  useEffect(() => {
    void device().then((d) => {
      here.value = d;
    });
  }, []);
  const link = here.value?.link;
  const stranger = link?.stranger.value ?? null;
  const said = link?.said.value ?? "";
  if (stranger !== null && link)
    return (
      <div class="notice" role="alertdialog" aria-label="Another journal">
        <p>
          This journal is not the one your last moves were made for: it was restored or replaced. Those moves wait on
          this device and nothing has been sent.
        </p>
        <p class="deeds">
          <button type="button" class="label" onClick={() => void link.resolve("send")}>
            Add them, and ask me where they do not fit
          </button>
          <button type="button" class="label" onClick={() => void link.resolve("drop")}>
            Let them go, use the journal as it is
          </button>
        </p>
      </div>
    );
  if (said && link)
    return (
      <div class="notice" role="alert">
        <p>{said}</p>
        <button type="button" class="word" onClick={() => (link.said.value = "")}>
          I have seen it
        </button>
      </div>
    );
  if (storageRefused.value && !heard.value)
    return (
      <div class="notice" role="alert">
        <p>
          This browser will not keep anything (a private window, or a full disk). Your place is still saved by Hookside
          with every move, but moves made while the connection is away would be lost with this tab.
        </p>
        <button type="button" class="word" onClick={() => (heard.value = true)}>
          I have seen it
        </button>
      </div>
    );
  return null;
}
