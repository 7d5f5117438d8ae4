import { api } from "../../api";
import type { Off } from "./Rows";

const KEY = "hookside.off";

/** Kept as long as the tab: a reload must not lose the way back. */
export function keepOff(off: Off | null): void {
  try {
    if (off) sessionStorage.setItem(KEY, JSON.stringify(off));
    else sessionStorage.removeItem(KEY);
  } catch {
    // Then it is there until the page is left.
  }
}

export function keptOff(): Off | null {
  try {
    const found = JSON.parse(sessionStorage.getItem(KEY) ?? "null") as Partial<Off> | null;
    return found?.say && found.id !== undefined && found.was ? { say: found.say, id: found.id, was: found.was } : null;
  } catch {
    return null;
  }
}

export function back({ was, id }: Off): Promise<unknown> {
  if (was === "pattern") return api.bringPatternBack(id);
  return was === "begun" ? api.bringBack(Number(id)) : api.showAgain(Number(id));
}
