import { signal } from "@preact/signals";

/** True once this page opens without its server: its files are kept on the device. */
export const opensAlone = signal(false);

/** True once a newer version of the page is here. It is taken when the page is next opened, or by `takeNewer`. */
export const newer = signal(false);

const HOUR = 3_600_000;

let mine: ServiceWorkerRegistration | null = null;
let looked = 0;

/** Have the page kept on this device, where the browser can (not in every private window). */
export async function keepPage(): Promise<void> {
  const workers = navigator.serviceWorker as ServiceWorkerContainer | undefined;
  if (!workers) return;
  let before = workers.controller;
  workers.addEventListener("controllerchange", () => {
    // The very first worker brings no other page than the one that is open.
    if (before) newer.value = true;
    before = workers.controller;
  });
  try {
    mine = await workers.register("./worker.js", { updateViaCache: "none" });
    looked = performance.now();
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible" && performance.now() - looked > HOUR) lookForNewer();
    });
    await workers.ready;
    opensAlone.value = true;
  } catch {
    // Without it the page still works while its server is there.
  }
}

/** Ask the server for a newer page. */
export function lookForNewer(): void {
  looked = performance.now();
  mine?.update().catch(() => undefined);
}

/** Open the page anew. The place is kept; what waits is on the device. */
export function takeNewer(): void {
  location.reload();
}
