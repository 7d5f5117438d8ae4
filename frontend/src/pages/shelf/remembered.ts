import { api, type Shelf, type ShelfMaking, type Snapshot } from "../../api";
import type { Basket } from "../../follow/basket";
import { device } from "../../follow/device";
import type { Entry } from "../../follow/moves";
import { locate } from "../../follow/place";
import { apply, isRefusal, type MakingState, type RunIntent } from "../../follow/stepping";

/** The shelf as this device last saw it, each making where this device has it; undefined where it never saw one. */
export async function remembered(): Promise<Shelf | undefined> {
  const shelf = await api.shelfRemembered();
  if (!shelf) return undefined;
  const { basket, outbox } = await device();
  const waiting = await outbox.all();
  const makings = shelf.makings.map(async (making) => {
    const snapshot = await basket.snapshot(making.id).catch(() => undefined);
    if (!snapshot || snapshot.epoch !== shelf.epoch) return making;
    const mine = waiting.filter((e) => e.move.making === making.id).map((e) => e.move as RunIntent);
    return moved(making, snapshot, mine);
  });
  return { ...shelf, makings: [...(await Promise.all(makings)), ...(await begunSince(shelf, basket, waiting))] };
}

/** Makings that this device knows and that were begun after it saw the shelf for the last time. */
async function begunSince(shelf: Shelf, basket: Basket, waiting: readonly Entry[]): Promise<ShelfMaking[]> {
  const { newest } = shelf;
  const heads = newest === undefined ? [] : [...(await basket.heads())];
  const since = heads.filter(([id, { epoch }]) => id > (newest ?? 0) && epoch === shelf.epoch);
  const found = await Promise.all(since.map(([id]) => basket.snapshot(id)));
  return found.flatMap((snapshot) => {
    if (!snapshot) return [];
    const { id, pattern, title, terms, asides } = snapshot;
    const begun: ShelfMaking = { id, pattern, title, terms, begun: "", worked: "", in_hand: null, finished: false, asides: asides.length };
    return [moved(begun, snapshot, waiting.filter((e) => e.move.making === id).map((e) => e.move as RunIntent))];
  });
}

/** A making with the place it has in a snapshot, and with what waits done on top. */
export function moved(making: ShelfMaking, snapshot: Snapshot, waiting: readonly RunIntent[]): ShelfMaking {
  if (!waiting.length && snapshot.head <= (making.head ?? 0)) return making;
  let state: MakingState = snapshot.state;
  waiting.forEach((intent, i) => {
    const done = apply(state, snapshot.strands, -1 - i, intent);
    if (!isRefusal(done)) state = done.state;
  });
  const name = state.in_hand;
  const laid = snapshot.runs.find((r) => r.run === name);
  const run = name === null ? undefined : state.runs[name];
  const strand = run && snapshot.strands[run.strand];
  if (!laid || !run || !strand) return making;
  const spot = locate(strand, run.at);
  const course = spot.course === null ? undefined : strand.courses[spot.course];
  const cue = spot.cue ?? strand.cues.find((c) => c.address === spot.next_cue?.address);
  return {
    ...making,
    // When that was, only the server tells.
    worked: "",
    finished: Object.values(state.runs).every((r) => r.at === snapshot.strands[r.strand]?.length),
    in_hand: {
      run: laid.run,
      piece: laid.piece,
      copy: laid.copy,
      copies: laid.copies,
      label: course?.label ?? null,
      kind: course?.kind ?? null,
      stitch: spot.stitch,
      of: spot.of,
      next_cue: cue
        ? { kind: cue.kind, text: cue.text, distance_courses: spot.cue ? 0 : (spot.next_cue?.distance_courses ?? 0), waits: spot.cue !== null }
        : null,
    },
  };
}
