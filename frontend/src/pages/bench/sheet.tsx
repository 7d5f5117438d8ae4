import type { ComponentChildren } from "preact";
import { useEffect, useId, useLayoutEffect, useRef } from "preact/hooks";
import type { Ask } from "../../hands/keys";
import { tellThere, toldThere, useTaker } from "./taking";
import { onward, pressed } from "./walking";
import "./sheet.css";

interface Props {
  title: string;
  close: () => void;
  /** Words, keys and pedals walk it: next and back go from one thing to the next, done presses it, no puts the sheet away. */
  walked?: boolean;
  /** What a key asks beside that: true where the sheet has it. */
  asks?: (what: Ask) => boolean;
  children: ComponentChildren;
}

/** Where a pedal's Enter means "next". */
export const work = () => document.querySelector<HTMLElement>(".bench [data-open], .bench .halt h1");

/**
 * A sheet laid over the bench. Focus goes in; Escape puts it away. Then it goes to the work: on the word that opened the
 * sheet the next Space or Enter, of a pedal or a key, would open it again. Only who walks the page by Tab and puts it
 * away undone is taken back to that word.
 */
export function Sheet({ title, close, walked, asks, children }: Props) {
  const sheet = useRef<HTMLDialogElement>(null);
  const name = useId();
  const away = useRef(false);
  const putAway = () => {
    away.current = true;
    close();
  };
  // With the paint itself: a key may come as soon as the sheet stands there, and as soon as it is gone.
  useLayoutEffect(() => {
    const before = document.activeElement;
    const dialog = sheet.current;
    dialog?.showModal();
    dialog?.querySelector("h2")?.focus(); // not the word that puts it away: a Space too many would
    return () => {
      tellThere("");
      dialog?.close(); // while it is open nothing outside it takes the focus
      const walked = away.current && document.querySelector(".bench.by-keys") !== null;
      const opener = walked && before instanceof HTMLElement && before !== document.body && before.isConnected ? before : null;
      const to = opener ?? work();
      if (to) to.focus({ preventScroll: true });
      else if (document.activeElement instanceof HTMLElement) document.activeElement.blur(); // showModal's own way back
    };
  }, []);
  useEffect(() => {
    // What had the focus may be gone with what it stood in.
    if (!sheet.current?.contains(document.activeElement)) sheet.current?.querySelector("h2")?.focus();
  });
  return (
    <dialog
      ref={sheet}
      class="sheet"
      aria-labelledby={name}
      onCancel={(event) => {
        event.preventDefault();
        putAway();
      }}
    >
      <div class="sheet-head">
        <h2 id={name} tabIndex={-1}>{title}</h2>
        <button type="button" class="word" onClick={putAway}>
          close
        </button>
        <p class={toldThere.value ? "sheet-told" : "sheet-told said"} aria-live="polite">
          {toldThere.value}
        </p>
      </div>
      {walked && <Walked close={close} asks={asks} />}
      {children}
    </dialog>
  );
}

function Walked({ close, asks }: Pick<Props, "close" | "asks">) {
  const means = (what: string): boolean => {
    if (what === "next") return onward(1);
    if (what === "back") return onward(-1);
    if (what === "done" || what === "yes") return pressed();
    if (what === "no" || what === "more") close();
    return what === "no" || what === "more";
  };
  useTaker({ answers: ["next", "back", "done", "yes", "no"], word: ({ intent }) => means(intent), key: (what) => void (means(what) || asks?.(what)) });
  return null;
}
