import type { Heard, Said } from "../../../hands/ear/events";
import { stitchesBetween } from "../../../follow/place";
import { type Seen, waiting } from "../seen";
import { takenBack, taker, tellThere } from "../taking";
import { counted, recount } from "./count";
import { goTo, other, rip } from "./going";
import type { Hands } from "./hands";
import { answered, besideQuestion, MOVES, partsFirst } from "./question";
import type { Road } from "./road";
import { answerTo } from "./telling";

/** Words that end this soon after something came up were said before it was there: they are no answer to it. */
export const TOO_SOON = 400;

/** A word said for what was there before must not pass what has only just come up. */
const meantForThis = (heard: Heard, since: number, now: number): boolean => now - heard.ms - since >= TOO_SOON;

/** These ask by themselves before anything moves: asking whether it was said would be asking twice. */
const ASKED_BACK: ReadonlySet<Said> = new Set<Said>(["goto", "rip", "worked_on"]);

const FORWARD: ReadonlySet<Said> = new Set<Said>(["next", "stitch", "group", "repeat", "round", "done"]);

/** What a sheet that listens for it keeps from the bench, even where it has no use for it just now. */
const SHEETS_OWN: ReadonlySet<Said> = new Set<Said>([...MOVES, "undo", "count"]);

/** For so long after a sheet was told to go back, the same word may still have been meant for the sheet. */
const STILL_THE_SHEETS = 6000;

/** Make of an utterance what it says. Its moves take the road of a touch, under the utterance's own id. */
export function obey(heard: Heard, road: Road, hands: Hands, now = performance.now()): void {
  const { seen, mode } = road;
  const { session } = hands;
  if (session.held.value !== null) {
    if (heard.intent === "listen") {
      tellThere("");
      session.listen();
    }
    return;
  }
  session.stirred();
  if (heard.verdict === "ask" && !ASKED_BACK.has(heard.intent)) {
    const twin = other(heard);
    // What is no sure answer to a question leaves it as it stands: it can be answered once more.
    if (!hands.question) hands.ask({ text: `Did you say “${heard.words}”?`, yes: () => hands.redo({ ...heard, verdict: "act" }), ...(twin && { no: () => obey(twin, road, hands) }) });
    session.chime("unsure");
    return;
  }
  const sheet = taker.value;
  if (sheet?.word(heard)) {
    if (heard.intent === "back") takenBack.value = now;
    session.chime("heard");
    return;
  }
  // It was said to the sheet, which could make nothing of it: the bench behind it does not move.
  if (sheet?.answers.includes(heard.intent) && SHEETS_OWN.has(heard.intent)) {
    session.chime("unsure");
    return;
  }
  if (sheet && besideSheet(heard, road, hands)) return;
  if (!seen) return;
  if (heard.intent === "yes" || heard.intent === "no") {
    answered(heard, road, hands);
    return;
  }
  if (hands.question && besideQuestion(heard, road, hands)) return;
  if (FORWARD.has(heard.intent) && waiting(seen) && !meantForThis(heard, hands.since, now)) {
    session.chime("unsure");
    return;
  }
  if (hands.question && mode !== "settle") hands.ask(null); // where devices disagree it stands until it is answered
  road.open(null);
  session.chime("heard");
  const id = heard.utterance;
  const unit = heard.unit ?? road.plain;
  const tell = (text: string) => hands.tell(text);
  const step = (intent: "next" | "back", by: typeof unit) => {
    if (mode === "offer" || mode === "settle") tell("Answer this first: say yes, or no.");
    else if (!road.move({ intent, unit: by }, undefined, id) && intent === "next" && (mode === "stop" || mode === "unread")) tell(waitsSaid(mode, hands));
  };
  switch (heard.intent) {
    case "next":
      step("next", unit);
      break;
    case "stitch":
    case "group":
    case "repeat":
    case "round":
      step("next", heard.intent);
      break;
    case "back":
      if (mode === "work" && now - heard.ms - takenBack.value < STILL_THE_SHEETS)
        hands.ask({ text: "Go back on the bench as well?", yes: (by) => void road.move({ intent: "back", unit }, undefined, by) });
      else step("back", unit);
      break;
    case "undo":
      takeBack(heard, seen, road, hands);
      break;
    case "done": {
      const cue = waiting(seen);
      if (mode === "settle" || mode === "offer") tell("Answer this first: say yes, or no.");
      else if (mode === "unread") tell(waitsSaid(mode, hands));
      else if (!cue) tell("Nothing waits here. Go on.");
      else if (!partsFirst(cue, road, hands)) road.move({ intent: "done", cue: cue.address }, undefined, id);
      break;
    }
    case "count":
      counted(heard, road, hands);
      break;
    case "recount":
      recount(hands);
      break;
    case "goto":
    case "worked_on":
      goTo(heard, road, hands);
      break;
    case "rip":
      rip(heard, road, hands);
      break;
    case "lost":
      road.ask("lost");
      break;
    case "pause":
      session.hold("rest");
      break;
    case "hold":
      session.hold("asked");
      break;
    case "listen":
      session.listen();
      break;
    case "finish":
      hands.finish();
      break;
    case "help":
      road.open("say");
      break;
    case "show":
      road.open("show");
      break;
    case "parts":
    case "gather":
    case "habits":
      road.open(heard.intent);
      break;
    case "pattern":
    case "runs":
    case "check":
    case "recap":
    case "shape":
    case "chart":
    case "notes":
    case "record":
    case "kinds":
    case "lock":
    case "hands":
    case "more":
      road.ask(heard.intent);
      break;
    default: {
      const answer = answerTo(heard.intent, road, session);
      if (answer) tell(answer);
    }
  }
}

/** Said over an open sheet and not meant for it: it is answered there, and the sheet stays. Help and "I am lost" have sheets of their own. */
function besideSheet({ intent }: Heard, road: Road, { session, phrase }: Hands): boolean {
  if (intent === "hold" || intent === "pause") {
    session.hold(intent === "hold" ? "asked" : "rest");
    tellThere(`I do not listen now. Say “${phrase("listen")}” when I am to listen again.`, true);
    return true;
  }
  const answer = intent === "lost" ? null : answerTo(intent, road, session);
  if (answer === null) return false;
  session.chime("heard");
  session.read(answer);
  tellThere(answer);
  return true;
}

/** A word that was talk must not take much work back: more than a repeat or so is asked first. */
const TAKEN_UNASKED = 12; // stitches

function takeBack(heard: Heard, { last, strand, at }: Seen, road: Road, hands: Hands): void {
  if (!last) {
    hands.tell("There is nothing to take back.");
    return;
  }
  const undo = (id?: string) => void road.move({ intent: "undo", undoes: last.row }, undefined, id);
  const gone = stitchesBetween(strand, Math.min(last.from, at), Math.max(last.from, at));
  if (gone > TAKEN_UNASKED) hands.ask({ text: `Take back the last move, ${gone} stitches?`, yes: undo });
  else undo(heard.utterance);
}

const waitsSaid = (mode: string, hands: Hands): string =>
  mode === "unread" ? "Say how many stitches you made, as a number." : `This waits for you. Do it first, then say “${hands.phrase("done")}”.`;
