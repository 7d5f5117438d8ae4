import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import type { Snapshot } from "../../api";
import type { MakingState } from "../../follow/stepping";
import type { StrandCue } from "../../generated/pattern";
import { wishes } from "../../hands/wishes";
import { type Seen, waiting } from "./seen";

/** What the cards have for the place in hand. */
export interface Shown {
  /** Something that waits has a card. */
  waits: boolean;
  /** The name of what is used for the first time in this making, where that is wanted; else null. */
  offer: string | null;
  /** Whether a word for first times is one in this making, where such words are wanted. */
  isNew: (cue: StrandCue) => boolean;
}

const NOTHING: Shown = { waits: false, offer: null, isNew: () => false };

/** The cards are fetched behind the first paint; until they are here they offer nothing. */
export function useCards(snapshot: Snapshot | null, state: MakingState | null, seen: Seen | null): Shown {
  const cards = useSignal<typeof import("../cards/which") | null>(null);
  useEffect(() => {
    void import("../cards/which").then((room) => (cards.value = room), () => undefined);
  }, []);
  const room = cards.value;
  if (!room || !snapshot || !state || !seen) return NOTHING;
  const { isNew } = wishes.value.offers ? { isNew: room.toldFirst(snapshot, state, seen) } : NOTHING;
  if (waiting(seen)) return { waits: room.cardsAt(seen).length > 0, offer: null, isNew };
  const key = wishes.value.offers ? room.firstUse(snapshot, state, seen) : null;
  const card = key === null ? undefined : room.cardCalled(key);
  return { waits: false, offer: card ? room.inTerms(card.title, snapshot.terms) : null, isNew };
}
