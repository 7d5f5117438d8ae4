import type { Signal } from "@preact/signals";
import type { RefObject } from "preact";
import { useEffect, useRef } from "preact/hooks";
import type { Unit } from "../../follow/stepping";
import { type Ask, keyShown, listenKeys } from "../../hands/keys";
import { toggleByKey } from "../../hands/lock";
import { go, toRecord } from "../../route";
import type { Road } from "./handsfree/road";
import { placeSentence } from "./place";
import type { HandsFree } from "./room";
import { type Seen, waiting } from "./seen";
import type { SheetName } from "./sheets";

/** What keys and pedals need of the bench. */
export interface Bench {
  root: RefObject<HTMLElement | null>;
  seen: Seen;
  road: Road;
  hands: HandsFree;
  /** What a bare "next" or "back" by key goes by. */
  plain: Unit;
  forward(unit: Unit): void;
  back(unit: Unit): void;
  undo(): void;
  open(sheet: SheetName): void;
  /** The count that waits is right; null where none does. */
  right: (() => unknown) | null;
  /** Shown, and said aloud where that is wanted. */
  tell(text: string): void;
}

/** While something is asked at the foot, done says yes and back says no. */
const ASKED_YES = ".band .answer.main";
const ASKED_NO = ".band .answer.main ~ .answer";

const STOOD_AT = "stood-at";
const STANDS = 6000; // ms: a mark that was forgotten must not make of "done" something else
let forgotten = 0; // the timer that takes the newest mark away

/**
 * Where something asks, "next" marks one of its answers after the other, and "done" presses the marked one. What to say of
 * it; null at the first one, where the screen itself says what to do, and where nothing asks. The marked one has no focus: a pedal that goes on sending Enter passes nothing.
 */
function toNextAnswer(root: HTMLElement): string | null {
  const all = [...root.querySelectorAll(".halt-answers .answer")];
  const at = all.findIndex((one) => one.classList.contains(STOOD_AT));
  const to = all[(at + 1) % all.length];
  all[at]?.classList.remove(STOOD_AT);
  if (!to) return null;
  to.classList.add(STOOD_AT);
  clearTimeout(forgotten);
  forgotten = window.setTimeout(() => to.classList.remove(STOOD_AT), STANDS);
  return at < 0 ? null : `${keyShown("done")}: ${to.lastChild?.textContent}`;
}

/** Do what a key asks. */
function answerKey(what: Ask, { root, seen, road, hands, plain, forward, back, undo, open, tell, right }: Bench): void {
  const button = (which: string) => root.current?.querySelector<HTMLButtonElement>(which);
  const { session } = hands;
  const shown = what !== "done" && keyShown(what);
  const meant = shown && [...(root.current?.querySelectorAll(".halt-answers kbd") ?? [])].find((key) => key.textContent === shown);
  if (meant) {
    meant.closest("button")?.click(); // a key that stands on an answer is that answer
    return;
  }
  switch (what) {
    case "next": {
      forward(plain);
      const answer = root.current && toNextAnswer(root.current);
      if (answer) tell(answer);
      break;
    }
    case "back": {
      const no = button(ASKED_NO);
      if (no) no.click();
      else back(plain);
      break;
    }
    case "stitch":
    case "group":
    case "repeat":
    case "round":
      forward(what);
      break;
    case "undo":
      undo();
      break;
    case "done": {
      const cue = waiting(seen);
      const marked = button(`.${STOOD_AT}`);
      const main = button(ASKED_YES) ?? marked ?? button(".answer.main");
      marked?.classList.remove(STOOD_AT); // the next question begins at its first answer again
      // The answer itself knows whether it has been on the screen for long enough.
      if (main) main.click();
      else if (right && (!cue || cue.kind === "count")) right();
      else if (cue) road.move({ intent: "done", cue: cue.address });
      else road.tell("Nothing waits here. Go on.");
      break;
    }
    case "where":
      tell(placeSentence(seen.spot, seen.course));
      break;
    case "record":
      go(toRecord(road.making));
      break;
    case "lock":
      toggleByKey();
      break;
    case "listen":
      if (!session) hands.start();
      else if (session.sign.value === "holding" || session.sign.value === "deaf") session.listen();
      else session.hold("asked");
      break;
    case "recount":
    case "finish":
      if (session) session.told.asked(what);
      else road.tell("Start hands-free for this: touch it at the top, or press M.");
      break;
    case "check":
    case "recap":
    case "lost":
      open(what === "check" ? "count" : what);
      break;
    case "left":
    case "ahead":
    case "again":
      tell(hands.room?.answerTo(what, road, session) ?? "");
      break;
    default:
      open(what); // all others are sheets, and the types hold it so
  }
}

/** Keys and pedals work the bench, except where a sheet lies over it. Returns the same road for who asks as a key does. */
export function useKeys(bench: Bench | null, sheet: Signal<SheetName | null>): (what: Ask) => void {
  const ask = (what: Ask) => {
    if (bench && sheet.value === null) answerKey(what, bench);
  };
  const asked = useRef(ask);
  asked.current = ask;
  useEffect(() => listenKeys((what) => asked.current(what), () => document.querySelector("dialog[open]") === null), []);
  return (what) => asked.current(what);
}
