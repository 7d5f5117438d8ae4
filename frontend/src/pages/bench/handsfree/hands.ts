import type { Heard, Said } from "../../../hands/ear/events";
import type { Session } from "../../../hands/session";

/** Something asked of the maker, answered by a word or one touch. */
export interface Question {
  text: string;
  yes: (id?: string) => void;
  no?: () => void;
  /** What the answers are called on the screen. */
  words?: [string, string];
}

export interface Hands {
  session: Session;
  /** Say it and show it. */
  tell(text: string): void;
  ask(question: Question | null): void;
  /** A phrase for an intent, to tell what to say. */
  phrase(intent: Said): string;
  question: Question | null;
  /** An utterance that was asked back, and is now sure. */
  redo(heard: Heard): void;
  /** A recount has begun: its last number is the count. */
  recount(): void;
  /** When what waits now came up, by performance.now(). */
  since: number;
  finish(): void;
}
