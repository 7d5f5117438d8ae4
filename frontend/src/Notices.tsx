import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";
import { type Device, device } from "./follow/device";
import { atTheDoor, shownOut } from "./follow/outside";
import { type Keeping, keeping } from "./follow/store";
import { route, toBench, toShelf } from "./route";

/** What is at risk where this browser does not keep things, and what can be done. */
const UNKEPT: Partial<Record<Keeping, string>> = {
  refused:
    "This browser will not keep anything (a private window, perhaps). Your place is still saved by Hookside with every move, but moves made while the connection is away would be lost with this tab.",
  full: "There is no room left on this device. Your place is still saved by Hookside with every move, but moves made while the connection is away would be lost with this tab. Make some room, then open the page again.",
  "held up":
    "Another tab has an older page of Hookside open and holds what this device keeps. Close that tab; this one goes on by itself.",
  left: "A newer page of Hookside was opened in another tab and has taken over what this device keeps. Open this page again before you go on.",
};

/** What the maker must hear about this device, on whichever page she is. */
export function Notices() {
  const here = useSignal<Device | null>(null);
  const kept = useSignal<readonly string[]>([]);
  /** What was seen: the same is not said again. */
  const seen = useSignal<readonly string[]>([]);
  useEffect(() => {
    void device().then((d) => {
      here.value = d;
    });
  }, []);
  const link = here.value?.link;
  const since = link?.heldSince.value ?? 0;
  useEffect(() => {
    const now = here.value;
    if (now) void import("./follow/kept").then(({ keptBack }) => keptBack(now)).then((told) => (kept.value = told), () => undefined);
  }, [here.value, since]);

  const at = route.value;
  const elsewhere = (link?.strangers.value ?? []).filter((making) => at.page !== "bench" || at.id !== making);
  const told: [string, ComponentChildren][] = [];
  if (shownOut.value)
    told.push([
      "This device was shown out, and what it does reaches nobody now. All that was made on it is kept on it. To come back: on the machine that Hookside runs on, open the shelf and invite a device; then pair this one again.",
      <a class="label" href="/pair">
        Pair it again
      </a>,
    ]);
  const unkept = UNKEPT[keeping.value];
  if (unkept) told.push([unkept, null]);
  if (elsewhere[0] !== undefined)
    told.push([
      "The journal is another one than your last moves were made for: a copy was put back. Those moves wait on this device, and nothing of them has been sent.",
      <a class="label" href={toBench(elsewhere[0])}>
        Look where they belong
      </a>,
    ]);
  if (link?.trouble.value) told.push([`${link.trouble.value} Your moves wait on this device.`, null]);
  for (const one of kept.value) told.push([one, null]);
  const [knocking] = at.page === "shelf" ? [] : atTheDoor.value;
  const asks = knocking === undefined ? "" : `${knocking} asks to come in.`;
  if (asks)
    told.push([
      asks,
      <a class="word" href={toShelf}>
        Answer on the shelf
      </a>,
    ]);
  const [words, more] = told.find(([text]) => !seen.value.includes(text)) ?? [];
  if (words === undefined) return null;
  // Somebody at the door puts nothing at risk: one line, and no alarm.
  const quiet = words === asks;
  return (
    <div class={quiet ? "notice quiet" : "notice"} role={quiet ? "status" : "alert"}>
      <p>{words}</p>
      <p class="deeds">
        {more}
        <button type="button" class="word" onClick={() => (seen.value = [...seen.value, words])}>
          I have seen it
        </button>
      </p>
    </div>
  );
}
