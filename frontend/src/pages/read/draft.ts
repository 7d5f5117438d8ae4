import type { Terms } from "../../generated/pattern";

/** A text being written, kept on this device until it is on the shelf: a reload loses nothing. */
export interface Draft {
  text: string;
  terms: Terms | null;
}

const key = (id: string | null) => `hookside.draft.${id ?? "new"}`;

export function draft(id: string | null): Draft | null {
  try {
    const found = JSON.parse(localStorage.getItem(key(id)) ?? "null") as Partial<Draft> | null;
    if (!found || typeof found.text !== "string") return null;
    return { text: found.text, terms: found.terms === "US" || found.terms === "UK" ? found.terms : null };
  } catch {
    return null;
  }
}

/** False when the browser would not keep it. */
export function keepDraft(id: string | null, { text, terms }: Draft): boolean {
  try {
    if (text) localStorage.setItem(key(id), JSON.stringify({ text, terms }));
    else localStorage.removeItem(key(id));
    return true;
  } catch {
    return false;
  }
}

export function dropDraft(id: string | null): void {
  try {
    localStorage.removeItem(key(id));
  } catch {
    // Nothing was kept, nothing to drop.
  }
}
