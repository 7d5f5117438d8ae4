import type { Snapshot } from "../../../api";
import type { Claim } from "../../../follow/claims";
import type { Intent, MakingState, Unit } from "../../../follow/stepping";
import type { Ask } from "../../../hands/keys";
import type { StrandCue } from "../../../generated/pattern";
import type { CountDue } from "../counts";
import type { Seen } from "../seen";
import type { Mode } from "./expecting";

/** What the bench lets a word do. It is the road a touch takes: nothing here moves by itself. */
export interface Road {
  making: number;
  title: string;
  snapshot: Snapshot | null;
  state: MakingState | null;
  seen: Seen | null;
  mode: Mode;
  /** The run the order of work wants in hand, while that is asked. */
  offered: string | null;
  /** What was just said in passing, of that what this maker wants. */
  told: readonly StrandCue[];
  /** The count that waits. */
  due: CountDue | null;
  /** The card that is offered at this place; null: none. */
  offer: string | null;
  /** What devices say of where the work is, while they disagree, and the maker's answer. */
  claims: readonly Claim[];
  settle(run: string, to: number): void;
  plain: Unit;
  /** True where the move was made. `id`: that of the utterance. */
  move(intent: Intent, run?: string, id?: string): boolean;
  /** As a key asks. */
  ask(what: Ask): void;
  /** The order's offer, taken or declined. */
  take(id?: string): void;
  stay(): void;
  /** One line on the screen. */
  tell(text: string): void;
  open(sheet: "goto" | "rip" | "say" | "hands" | "count" | "lost" | "passed" | "show" | "parts" | "gather" | "habits" | null): void;
}
