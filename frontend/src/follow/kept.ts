import type { Device } from "./device";

/** Moves of one making that the journal could not take. */
interface Kept {
  title: string;
  moves: number;
  gone: boolean;
  say: string;
}

/** What of this device's moves is kept back, a sentence for each making. Fetched behind the first paint. */
export async function keptBack({ outbox, basket }: Device): Promise<string[]> {
  const found = new Map<number, Kept>();
  for (const { move, code, say } of await outbox.held()) {
    const before = found.get(move.making);
    const title = before?.title ?? (await basket.snapshot(move.making).catch(() => undefined))?.title ?? "a making";
    found.set(move.making, { title, moves: (before?.moves ?? 0) + 1, gone: code === "gone", say });
  }
  return [...found.values()].map(whyKept);
}

function whyKept({ title, moves, gone, say }: Kept): string {
  const one = moves === 1;
  const what = `${moves} ${one ? "move" : "moves"} for ${title} ${one ? "is" : "are"} kept on this device.`;
  return gone ? `${what} It is not on the shelf any more; bring it back, open it, and ${one ? "it is" : "they are"} added.` : `${what} ${say}`;
}
