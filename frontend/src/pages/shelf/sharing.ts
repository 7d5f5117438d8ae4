import { ask } from "../../api";

/** Who may come in, as the machine itself knows it. Days are ISO dates. */
export interface Doors {
  on: boolean;
  devices: { id: string; name: string; maker: string; paired: string; seen: string; here: boolean }[];
  knocking: { id: string; name: string; figures: string }[];
  say: string | null;
  /** Where paired devices find it; empty while this machine is on no home network. */
  addresses?: string[];
  named?: boolean;
  trust?: string;
  fingerprint?: string;
}

export interface Invitation {
  url: string;
  qr: string;
  typed: string;
  trust_qr: string;
  /** Seconds that each form is still good for. */
  lasts: { link: number; typed: number };
}

export const doors = {
  look: () => ask<Doors>("GET", "/api/share"),
  share: (on: boolean) => ask<Doors>("POST", "/api/share", { on }),
  invite: () => ask<Invitation>("POST", "/api/share/invite", {}),
  answer: (knock: string, let_in: boolean, name: string, maker: string) =>
    ask<Doors>("POST", "/api/share/answer", { knock, let_in, name, maker }),
  showOut: (id: string) => ask<Doors>("DELETE", `/api/devices/${encodeURIComponent(id)}`),
};

/** Whether this page is the one on the machine itself, which alone may decide these things. */
export const atHome = (): boolean => ["127.0.0.1", "localhost", "[::1]"].includes(location.hostname) && location.protocol === "http:";

/** A drawing as an address for an image. */
export const drawn = (svg: string): string => `data:image/svg+xml,${encodeURIComponent(svg)}`;

/** The fingerprint in lines that can be compared with a phone's. */
export function lines(fingerprint: string, pairs = 8): string[] {
  const all = fingerprint.split(":");
  return Array.from({ length: Math.ceil(all.length / pairs) }, (_, n) => all.slice(n * pairs, (n + 1) * pairs).join(" "));
}

/** When a device was last here, as it is said. */
export function seen(device: { here: boolean; seen: string }, today: string): string {
  if (device.here) return "here now";
  return device.seen === today ? "here today" : `last here on ${device.seen}`;
}
