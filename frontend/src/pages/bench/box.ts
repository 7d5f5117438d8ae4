import { useEffect, useLayoutEffect, useState } from "preact/hooks";
import type { RefObject } from "preact";
import { FOOT, HEAD } from "./layout";
import { forgetWidths } from "./measure";

export interface Box {
  width: number;
  height: number;
}

/** By how much head and foot are higher than they mostly are: where letters are large their words take a second line. */
const higher = (bench: HTMLElement): number =>
  ([[".head", HEAD], [".foot", FOOT]] as const).reduce((sum, [edge, usual]) => {
    const high = bench.querySelector<HTMLElement>(`:scope > ${edge}`)?.offsetHeight ?? usual;
    return sum + Math.max(0, high - usual);
  }, 0);

/** The room of the bench under head and foot of their usual height, kept up to date without asking on a tap. */
export function useBox(element: RefObject<HTMLElement | null>): Box | null {
  const [box, setBox] = useState<Box | null>(null);
  useLayoutEffect(() => {
    const now = element.current;
    if (!now) return;
    const read = () => setBox({ width: now.clientWidth, height: now.clientHeight - higher(now) });
    read();
    const watch = new ResizeObserver(read);
    for (const part of [now, ...now.querySelectorAll(":scope > .head, :scope > .foot")]) watch.observe(part);
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

/** Whether hands are at keys: where nothing can be touched, and from a letter typed on; until a finger comes. */
export function useByKeys(): boolean {
  const [typed, setTyped] = useState(() => !matchMedia("(any-pointer: coarse)").matches);
  useEffect(() => {
    const key = (event: KeyboardEvent) => {
      if (/^[a-z?]$/i.test(event.key)) setTyped(true); // a pedal sends no letters
    };
    const touch = (event: PointerEvent) => {
      if (event.pointerType === "touch") setTyped(false);
    };
    addEventListener("keydown", key);
    addEventListener("pointerdown", touch);
    return () => {
      removeEventListener("keydown", key);
      removeEventListener("pointerdown", touch);
    };
  }, []);
  return typed;
}
