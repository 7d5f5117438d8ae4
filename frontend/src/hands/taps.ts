import { bounceGuard, TAP_GAP } from "./bounce";
import { type Gesture, gestureOf } from "./gestures";

/**
 * Listens to fingers, pens and mice on an element. Only the first finger counts: a resting palm or a second hand does not.
 * Clicks that no pointer made (a screen reader, a switch) count as taps.
 */
export function listenTaps(element: HTMLElement, felt: (gesture: Gesture) => void): () => void {
  const clean = bounceGuard(TAP_GAP);
  let start: { id: number; x: number; y: number; time: number } | null = null;

  const down = (event: PointerEvent) => {
    if (!event.isPrimary || event.button !== 0) return;
    start = { id: event.pointerId, x: event.clientX, y: event.clientY, time: event.timeStamp };
    element.setPointerCapture?.(event.pointerId);
  };
  const up = (event: PointerEvent) => {
    if (start === null || event.pointerId !== start.id) return;
    const stroke = { dx: event.clientX - start.x, dy: event.clientY - start.y, time: event.timeStamp - start.time };
    const time = start.time;
    start = null;
    const gesture = gestureOf(stroke);
    if (gesture !== null && clean(gesture, time)) felt(gesture);
  };
  const cancel = () => {
    start = null;
  };
  const click = (event: MouseEvent) => {
    if (event.detail === 0) felt("tap");
  };
  element.addEventListener("pointerdown", down);
  element.addEventListener("pointerup", up);
  element.addEventListener("pointercancel", cancel);
  element.addEventListener("click", click);
  return () => {
    element.removeEventListener("pointerdown", down);
    element.removeEventListener("pointerup", up);
    element.removeEventListener("pointercancel", cancel);
    element.removeEventListener("click", click);
  };
}
