import type { ComponentChildren } from "preact";
import { awake } from "../../../hands/awake";
import type { Session, Sign } from "../../../hands/session";
import { keepFocus } from "../working";

const NAMES: Record<Sign, string> = {
  starting: "Starting",
  listening: "Listening",
  holding: "Holding",
  speaking: "Speaking",
  deaf: "Not listening",
};

const still = globalThis.matchMedia?.("(prefers-reduced-motion: reduce)").matches ?? false;

/**
 * The state as a thread, so that its shape tells what the word says: it waves with what comes in while listening, lies
 * in a knot while holding, goes out in rings from the mouth while speaking, and is cut where nothing is heard.
 */
function Thread({ sign, session }: { sign: Sign; session: Session }) {
  const level = session.ear.level.value;
  const high = still ? (level > 0.15 ? 9 : 3) : 2.5 + 9 * Math.sqrt(level);
  return (
    <svg class="ear-sign" viewBox="0 0 56 32" aria-hidden="true" focusable="false">
      {sign === "listening" && <path d={`M3 16q6.25 ${-2 * high} 12.5 0t12.5 0t12.5 0t12.5 0`} />}
      {sign === "starting" && <path stroke-dasharray="1 8" d="M3 16H53" />}
      {sign === "holding" && <path d="M3 16H22M34 16H53M22 16C20 4 36 4 34 16S20 28 22 16C26 10 30 22 34 16" />}
      {sign === "speaking" && <path d="M5 16H17M24 10q5 6 0 12M33 6q9 10 0 20M42 2q13 14 0 28" />}
      {sign === "deaf" && <path d="M3 16H20l3 -5M20 16l4 4M53 16H36l-3 5M36 16l-4 -4" />}
    </svg>
  );
}

interface Props {
  session: Session;
  heard: string;
  words: string;
  open: () => void;
  toggle: () => void;
}

/** At the foot, where the eye falls last: what the ear does, in a word and a drawn thread, and what it heard. */
export function EarLine({ session, heard, words, open, toggle }: Props) {
  const sign = session.sign.value;
  const off = sign === "holding" || sign === "deaf";
  return (
    <footer class={`foot ear-line is-${sign}`} onMouseDown={keepFocus}>
      <button type="button" class="word ear-state" onClick={open} aria-label={`Hands-free: ${NAMES[sign]}. Settings`}>
        <Thread sign={sign} session={session} />
        <b>{NAMES[sign]}</b>
      </button>
      <p class="ear-heard">
        <span>{sign === "deaf" ? "" : heard || words}</span>
        {(awake.value === "refused" || awake.value === "cannot") && <small>the screen may go dark</small>}
      </p>
      <button type="button" class="word ear-hold" onClick={toggle}>
        {off ? "listen" : "hold"}
      </button>
    </footer>
  );
}

/** It cannot hear, and she goes on by touch: what touches and keys do stands at the foot again, beside how the ear is. */
export const TouchLine = ({ foot, listen }: { foot: ComponentChildren; listen: () => void }) => (
  <div class="foot touch-line is-deaf" onMouseDown={keepFocus}>
    <button type="button" class="word ear-state" onClick={listen} aria-label="Not listening: try again">
      <b>{NAMES.deaf}</b>
    </button>
    {foot}
  </div>
);
