import type { Order } from "../../api";

/** How many of each piece, by its number and name, and in which order: what she set before a making is begun. */
export interface Wanted {
  order: Order;
  chosen: Readonly<Record<string, number>>;
}

export const UNSET: Wanted = { order: { kind: "one" }, chosen: {} };

const key = (id: string | null) => `hookside.wanted.${id}`; // null: a text that is not kept yet

/** Kept as long as the tab, so that a look at the yarn or the size and back loses nothing. */
export function keepWanted(id: string | null, wanted: Wanted): void {
  try {
    sessionStorage.setItem(key(id), JSON.stringify(wanted));
  } catch {
    // Then it is set once more.
  }
}

export function keptWanted(id: string | null): Wanted {
  try {
    return { ...UNSET, ...(JSON.parse(sessionStorage.getItem(key(id)) ?? "{}") as Partial<Wanted>) };
  } catch {
    return UNSET; // as if nothing had been set
  }
}
