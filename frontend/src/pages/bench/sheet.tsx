import type { ComponentChildren } from "preact";
import { useEffect, useId, useLayoutEffect, useRef } from "preact/hooks";
import "./sheet.css";

interface Props {
  title: string;
  close: () => void;
  children: ComponentChildren;
}

/** Where a pedal's Enter means "next". */
export const work = () => document.querySelector<HTMLElement>(".bench [data-open], .bench .halt h1");

/** A sheet laid over the bench. Focus goes in and comes back to where it was; Escape puts it away. */
export function Sheet({ title, close, children }: Props) {
  const sheet = useRef<HTMLDialogElement>(null);
  const name = useId();
  // With the paint itself: a key may come as soon as the sheet stands there, and as soon as it is gone.
  useLayoutEffect(() => {
    const before = document.activeElement;
    const dialog = sheet.current;
    dialog?.showModal();
    return () => {
      dialog?.close(); // while it is open nothing outside it takes the focus
      const back = before instanceof HTMLElement && before !== document.body && before.isConnected ? before : work();
      back?.focus({ preventScroll: true });
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
        close();
      }}
    >
      <div class="sheet-head">
        <h2 id={name} tabIndex={-1}>{title}</h2>
        <button type="button" class="word" onClick={close}>
          close
        </button>
      </div>
      {children}
    </dialog>
  );
}
