import { ask, send } from "../../../api";
import type { Progress } from "../../../hands/ear/events";

/** One intent with the phrases that call for it. */
export interface Phrased {
  intent: string;
  unit: string | null;
  phrases: string[];
  /** One word, where the maker wants to say so little. */
  single: string[];
  says: string;
}

/** What the machine that listens has. Sizes in bytes. */
export interface About {
  engines: { name: string; there: boolean; say: string }[];
  models: { language: string; name: string; engine: string; size: number; where: string }[];
  languages: { code: string; name: string; there: boolean }[];
  phrases: Record<string, Phrased[]>;
  /** How far the model is that was added last. */
  job: Progress | null;
}

const PIECE = 1 << 20; // bytes that are sent at once: no request is larger

/** A model from a zip on this device, in pieces. `progress`: the share that is there. */
async function addFile(file: File, progress: (share: number) => void): Promise<void> {
  let next = `name=${encodeURIComponent(file.name)}&size=${file.size}`;
  for (let at = 0; ; ) {
    const told = await send<{ file: string; at: number; job: string | null }>(`/api/voice/file?${next}`, file.slice(at, at + PIECE));
    if (told.job !== null) return;
    at = told.at;
    next = `file=${told.file}&at=${at}`;
    progress(at / file.size);
  }
}

export const voice = {
  about: () => ask<About>("GET", "/api/voice"),
  add: (language: string) => ask<{ job: string }>("POST", "/api/voice/models", { add: language }),
  addFile,
  remove: (name: string) => ask<unknown>("DELETE", `/api/voice/models/${encodeURIComponent(name)}`),
};
