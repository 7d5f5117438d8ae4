import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { type Device, device } from "../../follow/device";
import { keeping } from "../../follow/store";
import { newer, opensAlone, takeNewer } from "../../worker/page";
import { counted } from "./recap";

/** How this device is prepared for a time without the server. Quiet: what is at risk is said elsewhere, and louder. */
export function Here() {
  const here = useSignal<Device | null>(null);
  useEffect(() => {
    void device().then((d) => {
      here.value = d;
    });
  }, []);
  const waits = here.value?.link.waits.value ?? 0;
  const said = [
    opensAlone.value ? "Hookside opens on this device while its server is away." : "Hookside needs its server to open on this device.",
    waits > 0 ? `${counted(waits, "move")} ${waits === 1 ? "waits" : "wait"} here and ${waits === 1 ? "goes" : "go"} out when it answers.` : "",
    keeping.value === "lasting" ? "What waits is kept until you say otherwise." : "",
    keeping.value === "kept" ? "What waits is kept, unless the browser runs out of room." : "",
  ];
  return (
    <footer class="here soft">
      <p>{said.filter(Boolean).join(" ")}</p>
      {newer.value && (
        <p>
          A newer Hookside is here; it opens the next time.{" "}
          <button type="button" class="word" onClick={takeNewer}>
            Open it now
          </button>
        </p>
      )}
    </footer>
  );
}
