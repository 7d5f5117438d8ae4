import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import type { RefObject } from "preact";
import { forgetWidths } from "./measure";

export interface Box {
  width: number;
  height: number;
}

/** The size of an element, kept up to date without asking on a tap. */
export function useBox(element: RefObject<HTMLElement | null>): Box | null {
  const [box, setBox] = useState<Box | null>(null);
  useLayoutEffect(() => {
    const now = element.current;
    if (!now) return;
    const read = () => setBox({ width: now.clientWidth, height: now.clientHeight });
    read();
    const watch = new ResizeObserver(read);
    watch.observe(now);
    return () => watch.disconnect();
  }, []);
  return box;
}

/** Grows by one whenever a font has come in: widths measured before hold no longer. */
export function useFont(): number {
  const [times, setTimes] = useState(0);
  useEffect(() => {
    const again = () => {
      forgetWidths();
      setTimes((n) => n + 1);
    };
    document.fonts.addEventListener("loadingdone", again);
    void document.fonts.load('700 20px "Atkinson Hyperlegible"', "4 sc").then(again);
    return () => document.fonts.removeEventListener("loadingdone", again);
  }, []);
  return times;
}

/** Whether the page is being walked by keyboard: then the focus must be seen. A touch ends it. */
export function useWalkedByKeys(): boolean {
  const [walked, setWalked] = useState(false);
  useEffect(() => {
    const key = (event: KeyboardEvent) => {
      if (event.key === "Tab") setWalked(true);
    };
    const touch = () => setWalked(false);
    addEventListener("keydown", key);
    addEventListener("pointerdown", touch);
    return () => {
      removeEventListener("keydown", key);
      removeEventListener("pointerdown", touch);
    };
  }, []);
  return walked;
}
