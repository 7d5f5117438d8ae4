import type { Heard, Said } from "../../../hands/ear/events";
import type { Session } from "../../../hands/session";
import type { StrandCue } from "../../../generated/pattern";
import { lastCourse, placeBrief, placeSentence, sentences, whenNow } from "../place";
import { locate, stitchesBetween } from "../../../follow/place";
import { refusalSentence } from "../said";
import { copyName, type Seen, waiting } from "../seen";
import { courseName } from "../sentence";
import { stillToWork } from "../ready";
import { takenBack, taker } from "../taking";
import { costOf, undoing } from "../ways";
import type { Road } from "./road";
import { begun } from "../mend/talk";
import { aheadSaid, countRight, countSaid, courseCalled, courseSaid, leftSaid, lostSaid, ripTargets } from "./spoken";

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

/** Words that end this soon after something came up were said before it was there: they are no answer to it. */
export const TOO_SOON = 400;

/** A word said for what was there before must not pass what has only just come up. */
const meantForThis = (heard: Heard, since: number, now: number): boolean => now - heard.ms - since >= TOO_SOON;

/** These ask by themselves before anything moves: asking whether it was said would be asking twice. */
const ASKED_BACK: ReadonlySet<Said> = new Set<Said>(["goto", "rip", "worked_on"]);

/** What moves at once, where nothing is asked. */
const MOVES: ReadonlySet<Said> = new Set<Said>(["next", "stitch", "group", "repeat", "round", "back", "done"]);

const FORWARD: ReadonlySet<Said> = new Set<Said>(["next", "stitch", "group", "repeat", "round", "done"]);

/** What a sheet that listens for it keeps from the bench, even where it has no use for it just now. */
const SHEETS_OWN: ReadonlySet<Said> = new Set<Said>([...MOVES, "undo", "count"]);

/** For so long after a sheet was told to go back, the same word may still have been meant for the sheet. */
const STILL_THE_SHEETS = 6000;

/** Before a course that works other pieces in, one that is not worked yet is asked about. */
function partsFirst(cue: Pick<StrandCue, "address">, road: Road, hands: Hands): boolean {
  const [first] = road.snapshot && road.state ? stillToWork(cue, road.snapshot, road.state) : [];
  if (!first) return false;
  hands.ask({
    text: `${copyName(first)} is not worked yet. Work it now?`,
    yes: (by) => void road.move({ intent: "take" }, first.run, by),
    no: () => void road.move({ intent: "done", cue: cue.address }),
    words: ["Work it", "It is ready"],
  });
  return true;
}

/** An answer to "where", "how many left" and the like; null for what is no such question. */
export function answerTo(intent: Said, { seen }: Road, session: Pick<Session, "speech"> | null): string | null {
  if (!seen) return null;
  switch (intent) {
    case "where":
      // Something waits: then where it waits belongs to the answer.
      return waiting(seen)
        ? sentences([whenNow(seen.spot, seen.strand.courses), placeSentence(seen.spot, seen.course)])
        : placeSentence(seen.spot, seen.course);
    case "left":
      return leftSaid(seen);
    case "ahead":
      return aheadSaid(seen);
    case "lost":
      return lostSaid(seen);
    case "again": {
      const now = waiting(seen);
      return session?.speech.last || (now ? aheadSaid(seen) : seen.course ? courseSaid(seen.course) : placeSentence(seen.spot, seen.course));
    }
    default:
      return null;
  }
}

/** Make of an utterance what it says. Its moves take the road of a touch, under the utterance's own id. */
export function obey(heard: Heard, road: Road, hands: Hands, now = performance.now()): void {
  const { seen, mode } = road;
  const { session } = hands;
  if (session.held.value !== null) {
    if (heard.intent === "listen") session.listen();
    return;
  }
  session.stirred();
  if (heard.verdict === "ask" && !ASKED_BACK.has(heard.intent)) {
    // What is no sure answer to a question leaves it as it stands: it can be answered once more.
    if (!hands.question) hands.ask({ text: `Did you say “${heard.words}”?`, yes: () => hands.redo({ ...heard, verdict: "act" }) });
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
      else if (!cue) tell("Nothing waits here. Go on with the next stitch.");
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

/**
 * Something else than yes or no was said to a question. It was listened for with little doubt, so it moves nothing: what
 * is only told is told, a move closes the question and has to be said again.
 */
function besideQuestion(heard: Heard, road: Road, hands: Hands): boolean {
  const told = answerTo(heard.intent, road, hands.session);
  if (told !== null) hands.tell(told);
  else if (MOVES.has(heard.intent) && road.mode !== "settle") {
    hands.ask(null);
    hands.session.chime("unsure");
    hands.tell("That was no yes, so nothing was done. Say it once more.");
  } else return false;
  return true;
}

/** "Let me count": the numbers that follow are a count and no moves. */
export function recount(hands: Hands): void {
  hands.tell("Count aloud from the marker. Your last number is the count, and nothing moves.");
  hands.recount();
}

const waitsSaid = (mode: string, hands: Hands): string =>
  mode === "unread" ? "Say how many stitches you made, as a number." : `This waits for you. Do it first, then say “${hands.phrase("done")}”.`;

/** Yes and no belong to what is asked: a question of ours, the order's offer, or two devices that disagree. */
function answered(heard: Heard, road: Road, hands: Hands): void {
  const asked = hands.question;
  const yes = heard.intent === "yes";
  if (asked) {
    hands.ask(null);
    if (yes) asked.yes(heard.utterance);
    else asked.no?.();
  } else if (road.mode === "offer") {
    if (yes) road.take(heard.utterance);
    else road.stay();
  } else return;
  hands.session.chime("heard");
}

function counted(heard: Heard, road: Road, hands: Hands): void {
  const { seen, mode } = road;
  const n = heard.number;
  if (!seen || n === null) {
    hands.tell("Say the number again, please.");
    return;
  }
  if (mode === "unread" && seen.course) {
    const { id } = seen.course;
    // A number that was misheard here would be believed for ever: so it is asked back.
    hands.ask({ text: `${n} ${n === 1 ? "stitch" : "stitches"}?`, yes: (by) => void road.move({ intent: "done", cue: id, count: n }, undefined, by) });
    return;
  }
  if (road.move({ intent: "count", n }, undefined, heard.utterance)) countHeard(n, seen, road, hands);
}

/** A count that is another one is looked into, where that can be asked; else it is told. */
export function countHeard(n: number, seen: Seen, road: Road, { tell }: Pick<Hands, "tell">): void {
  if (road.due?.n === n && !road.due.here) {
    tell(`${n}: that is right for ${road.due.name}.`);
    return;
  }
  if (countRight(seen, n)) {
    tell(countSaid(seen, n));
    return;
  }
  begun.value = { answers: { n }, course: null };
  road.open("count");
}

function goTo(heard: Heard, road: Road, hands: Hands): void {
  const { seen } = road;
  if (!seen) return;
  const { number } = heard;
  const after = heard.intent === "worked_on";
  const course = number === null ? undefined : courseCalled(seen.strand, number);
  if (after && number === null) {
    road.open("passed");
    return;
  }
  if (!course) {
    if (number === null) road.open("goto");
    else hands.tell(`There is no ${seen.course?.kind ?? "round"} ${number} in this piece.`);
    return;
  }
  const name = courseName(course).toLowerCase();
  hands.ask({
    text: after ? `You worked on, to the end of ${name}?` : `Go to ${name}?`,
    yes: (id) => {
      if (!after) road.move({ intent: "goto", to: course.first }, undefined, id);
      else if (course.end > seen.at) {
        begun.value = { answers: {}, course: course.label };
        road.open("passed");
      } else hands.tell(`${courseName(course)} is worked already.`);
    },
  });
}

/** Ripping back: the nearest place first, and by every no the one before it. Nothing moves unasked. */
function rip(heard: Heard, road: Road, hands: Hands): void {
  const { seen } = road;
  if (!seen) return;
  const course = heard.number === null ? undefined : courseCalled(seen.strand, heard.number);
  const targets = course ? [course.first] : ripTargets(seen, heard.unit);
  if (heard.number !== null && !(course && course.first < seen.at)) hands.tell(`There is no ${seen.course?.kind ?? "round"} ${heard.number} behind you.`);
  else if (targets.length === 0) hands.tell(refusalSentence("start"));
  else askRip(targets, seen, road, hands);
}

function askRip([to, ...rest]: number[], seen: Seen, road: Road, hands: Hands): void {
  if (to === undefined) {
    road.open("rip");
    return;
  }
  const spot = locate(seen.strand, to);
  const where = placeBrief(spot, spot.course === null ? undefined : seen.strand.courses[spot.course]);
  const { stitches, reopened } = costOf(seen.strand, seen.at, to);
  const first = reopened.map((cue) => undoing(cue, seen.strand.terms)).find(Boolean);
  const again = reopened.length > 0 ? ` ${reopened.length === 1 ? "One thing" : `${reopened.length} things`} will be asked again${first ? `: ${first}` : ""}.` : "";
  hands.ask({
    text: `Rip back ${stitches} ${stitches === 1 ? "stitch" : "stitches"}, to ${where.replace(/^at /, "")}?${again}`,
    yes: (id) => void road.move({ intent: "rip", to }, undefined, id),
    no: () => askRip(rest, seen, road, hands),
    words: ["yes, ripped", "no"],
  });
}

/** What is said when the sitting ends: where it will go on. */
export function farewell({ seen, title }: Road): string {
  if (!seen) return "Everything is kept.";
  const before = lastCourse(seen.strand.courses, seen.spot.course, seen.counts);
  const place = placeBrief(seen.spot, seen.course);
  return `${title ? `${title}: ` : ""}you stop ${place.startsWith("at") || place.startsWith("after") ? place : `in ${place}`}.${before ? ` ${before}.` : ""} Everything is kept.`;
}
