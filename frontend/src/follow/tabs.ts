import type { Answer, Entry } from "./moves";

/** What the tabs of one device tell each other. */
export type News =
  | { kind: "added"; entry: Entry }
  | { kind: "answered"; entries: readonly Entry[]; answers: readonly Answer[] }
  /** Look at the store again. */
  | { kind: "changed" };

/** The other tabs of this device. They share one outbox; one at a time sends from it. */
export class Tabs {
  #channel: BroadcastChannel | null = null;
  #locks: LockManager | undefined;

  constructor(
    heard: (news: News) => void,
    private readonly name = "hookside",
    locks: LockManager | undefined = globalThis.navigator?.locks,
  ) {
    this.#locks = locks;
    if (typeof BroadcastChannel === "undefined") return;
    this.#channel = new BroadcastChannel(name);
    this.#channel.onmessage = (event: MessageEvent<News>) => heard(event.data);
  }

  tell(news: News): void {
    this.#channel?.postMessage(news);
  }

  /** Does the work while no other tab of this device does such work. */
  alone<T>(work: () => Promise<T>): Promise<T> {
    return this.#locks ? (this.#locks.request(this.name, work) as Promise<T>) : work();
  }
}
