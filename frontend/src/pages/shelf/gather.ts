import { api, type Shelf } from "../../api";
import { device } from "../../follow/device";
import { yarnInHand } from "../bench/yarn";

/** So many makings, the latest worked, open without the server though they were never opened on this device. */
const GATHERED = 6;

/** The same from whichever page was opened first. */
export async function prepare(): Promise<void> {
  try {
    gather(await api.shelf());
  } catch {
    // The server is away: what is here is all there is.
  }
}

/** Patterns whose text was asked for since the page was opened. */
const texts = new Set<string | number>();

let gathering: Promise<void> = Promise.resolve();

/** Have at hand what is on the shelf, for a time without the server. */
export function gather(shelf: Shelf): void {
  gathering = gathering.then(() => fetchAll(shelf));
}

async function fetchAll(shelf: Shelf): Promise<void> {
  try {
    const { basket } = await device();
    const heads = await basket.heads();
    const wanted = shelf.makings.filter((m) => !m.finished && !m.damaged).slice(0, GATHERED);
    for (const { id, head, pattern } of wanted) {
      if (!texts.has(pattern)) await api.pattern(pattern).then(() => texts.add(pattern), () => undefined);
      const kept = heads.get(id);
      // One of another journal stays: its bench asks first which of the two is right.
      if (kept && (kept.epoch !== shelf.epoch || kept.head >= (head ?? 0))) continue;
      await basket.keepSnapshot(await api.making(id));
    }
  } catch {
    // Without room or without an answer there is nothing to gather; the bench says so when it is opened.
  }
}

/** The yarn in hand in a making, as this device has it; null where it names none. */
export async function yarnOf(making: number): Promise<string | null> {
  await gathering;
  const snapshot = await (await device()).basket.snapshot(making).catch(() => undefined);
  const run = snapshot?.state.in_hand ? snapshot.state.runs[snapshot.state.in_hand] : undefined;
  const strand = run && snapshot?.strands[run.strand];
  return run && strand ? yarnInHand(strand, run.at) : null;
}
