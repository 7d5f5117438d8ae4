import { api } from "../../api";
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
    if (!found || typeof found.text !== "string" || !found.text.trim()) return null;
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

/** A new sheet's text goes on the shelf as it stands: nothing that was written is lost for the next one. */
export async function shelveDraft(): Promise<void> {
  const found = draft(null);
  if (found) await api.addPattern(found.text, found.terms);
  dropDraft(null);
}

/** The first line with words in it, cut where it is long. */
export function firstLine(text: string): string {
  const line = text.split("\n").map((l) => l.trim()).find((l) => l) ?? "";
  return line.length > 60 ? `${line.slice(0, 59).trimEnd()}\u2026` : line;
}

export function dropDraft(id: string | null): void {
  try {
    localStorage.removeItem(key(id));
  } catch {
    // Nothing was kept, nothing to drop.
  }
}
