import { ask } from "../../../api";

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
}

export const voice = {
  about: () => ask<About>("GET", "/api/voice"),
  add: (language: string) => ask<{ job: string }>("POST", "/api/voice/models", { add: language }),
  remove: (name: string) => ask<unknown>("DELETE", `/api/voice/models/${encodeURIComponent(name)}`),
};
