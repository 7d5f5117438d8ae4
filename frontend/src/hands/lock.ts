import { signal } from "@preact/signals";

/**
 * The touch lock: a sleeve, a cat or a bag does not move the hook. Keys, pedals and voice go on working.
 * It opens by two touches in two different places, never by holding.
 */
export type Lock = "open" | "locked" | "asked";
export const lock = signal<Lock>("open");

export function lockTouch(): void {
  lock.value = "locked";
}

/** The first touch asks where, the second, elsewhere, opens. */
export function askToOpen(): void {
  if (lock.value === "locked") lock.value = "asked";
}

export function openTouch(): void {
  if (lock.value === "asked") lock.value = "open";
}

/** A touch anywhere else takes the question back. */
export function touchedElsewhere(): void {
  if (lock.value === "asked") lock.value = "locked";
}

export function toggleByKey(): void {
  lock.value = lock.value === "open" ? "locked" : "open";
}
