import type { LinkState } from "../../follow/link";
import { shownOut } from "../../follow/outside";
import { type Ask, keyShown } from "../../hands/keys";
import type { Terms } from "../../generated/pattern";
import { toShelf } from "../../route";
import { useByKeys } from "./box";
import { keepFocus } from "./working";

/** How the link stands, in few and quiet words; "" while moves go out as they are made. */
export function linkSign(link: LinkState, waiting: number): string {
  if (link !== "waiting") return "";
  if (shownOut.value) return "shown out";
  if (waiting > 0) return `${waiting} ${waiting === 1 ? "move waits" : "moves wait"}`;
  return "no connection";
}

/** Above the work: where we are, and what is not needed while the hook moves. */
export function Head(props: { piece: string; sign: string; terms: Terms | null; hands: () => void; on: boolean; more: () => void; pattern: () => void }) {
  return (
    <header class="head">
      <a class="word" href={toShelf}>
        shelf
      </a>
      <p class={props.sign ? "which link" : "which"}>{props.sign || props.piece}</p>
      <button type="button" class="word start-hands" onMouseDown={keepFocus} onClick={props.hands}>
        <span class="said">{props.on ? "Settings of " : "Start "}</span>hands-free
      </button>
      {props.terms && (
        <button type="button" class="label" title={`stitches are named the ${props.terms} way: look at the pattern`} onClick={props.pattern}>
          <span class="sewn">
            {props.terms}
            <i> terms</i>
          </span>
        </button>
      )}
      <button type="button" class="word more" onClick={props.more}>
        more
      </button>
    </header>
  );
}

interface FootProps {
  working: boolean;
  /** There are no stitches here to move by. */
  section: boolean;
  kind: "round" | "row";
  back: () => void;
  round: () => void;
  stitch: () => void;
  undo: (() => void) | null;
  /** What the foot says where nothing is worked. */
  words: string;
}

/** Below the work: what the strokes do, each word a button for it too. */
export function Foot({ working, section, kind, back, round, stitch, undo, words }: FootProps) {
  const keys = useByKeys();
  const plain = keyShown("next");
  return (
    <footer class="foot" onMouseDown={keepFocus}>
      {working ? (
        <>
          <p class="touch">{keys && plain ? [<kbd>{plain}</kbd>, " next"] : "touch: next"}</p>
          <button type="button" class="word" onClick={back}>
            <Way keys={keys} ask="back" way="left" /> back
          </button>
          {!section && (
            <>
              <button type="button" class="word" onClick={round}>
                <Way keys={keys} ask="round" way="up" /> {kind}
              </button>
              <button type="button" class="word" onClick={stitch}>
                <Way keys={keys} ask="stitch" way="right" /> stitch
              </button>
            </>
          )}
        </>
      ) : (
        <>
          {words && <p class="touch">{words}</p>}
          {undo && (
            <button type="button" class="word" onClick={undo}>
              take back the last move
            </button>
          )}
        </>
      )}
    </footer>
  );
}

/** Below something that asks: where its answers are. */
export const waitsAt = (mode: string, ready: boolean): string =>
  (mode === "stop" && !ready) || mode === "unread" ? "Done is at the top; a touch down here does nothing." : "The answers are at the top.";

/** What else does the same as a button: a key where hands are at keys, else a swipe. */
function Way({ keys, ask, way }: { keys: boolean; ask: Ask; way: "left" | "up" | "right" }) {
  if (!keys) return <Stroke way={way} />;
  const key = keyShown(ask);
  return key ? <kbd aria-hidden="true">{key === "Left" ? "\u2190" : key}</kbd> : null;
}

/** A swipe of the finger, drawn. */
function Stroke({ way }: { way: "left" | "up" | "right" }) {
  const turn = { left: 180, up: -90, right: 0 }[way];
  return (
    <svg class="stroke" viewBox="-12 -12 24 24" aria-hidden="true">
      <path d="M-9 1C-4 -2 3 2 9 0M4 -5L9 0L4 5" transform={`rotate(${turn})`} />
    </svg>
  );
}
