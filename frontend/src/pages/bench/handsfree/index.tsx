import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { device, deviceName } from "../../../follow/device";
import { locate } from "../../../follow/place";
import type { Counted, Expecting, Heard } from "../../../hands/ear/events";
import { Session } from "../../../hands/session";
import { wishes } from "../../../hands/wishes";
import { maker } from "../../../maker";
import { placeBrief, sentenceCase } from "../place";
import { isSection, onTo, waiting } from "../seen";
import { work } from "../sheet";
import { taker } from "../taking";
import { Band } from "./band";
import { stepCounted } from "./counting";
import { ANSWERS, expectingAt, mostOf, type Mode } from "./expecting";
import "./handsfree.css";
import { countHeard, recount } from "./count";
import type { Hands, Question } from "./hands";
import { obey } from "./obey";
import { type About, voice } from "./rest";
import type { Road } from "./road";
import { EarLine, TouchLine } from "./signs";
import { farewell } from "./telling";
import { type Before, beforeOf, newsOf, promptSaid } from "./spoken";

export { HandsSheet } from "./handssheet";
export { SaySheet } from "./saysheet";
export { TeachSheet } from "./teachsheet";
export { answerTo } from "./telling";

const ASKED_MS = 12_000; // a question that nobody answers goes away: it is a no
const AMIDST_MS = 15_000; // a slow hand makes a stitch in ten seconds
const COUNTING_MS = 60_000;
const RECOUNT_MS = 3500; // no further number for so long: the last one was the count
const NO_COUNT_MS = 20_000; // not one number for so long: she does not count after all
const FAREWELL_MS = 12_000;
const HEARD_MS = 8000; // for so long the foot shows what was heard
const OWN_MOVE_MS = 1000; // the move that a word makes comes within so long of it

let own = "";
void device().then(({ outbox }) => {
  own = outbox.device;
});

/** Begins to work hands-free. Called in the touch itself. */
export function begin(making: number): Session {
  const name = deviceName(navigator.userAgent, Math.min(screen.width, screen.height), navigator.maxTouchPoints > 0);
  const session = new Session(() => {
    const { single, language } = wishes.value;
    const { counting } = maker.value;
    const count = counting === null || counting === "no" ? null : { style: counting };
    return { making, device: own, device_name: name, language, single, count };
  });
  session.start();
  return session;
}

/** The id of a counted number's move: one utterance may hold several numbers. */
const idOf = ({ utterance, number }: Counted): string => utterance.slice(0, 28) + (number & 0xffff).toString(16).padStart(4, "0");

/** What to say where something waits, as short as a foot is wide. */
function saying(mode: Mode, phrases: Record<string, string>): string {
  if (mode === "stop") return phrases.done ? `say “${phrases.done}”` : "";
  if (mode === "unread") return "say how many";
  return mode === "offer" || mode === "settle" ? "say yes, or no" : "";
}

interface Props {
  session: Session;
  road: Road;
  /** Where the answers are, when the bench asks something. */
  words: string;
  /** The foot for touch and keys, where it is put away that nothing is heard. */
  foot: ComponentChildren;
  /** The sitting is over. */
  ended: () => void;
}

/** The foot of the bench while hands-free: what the ear does, what it heard; above it what is asked. */
export function HandsFoot({ session, road, words, foot, ended }: Props) {
  const question = useSignal<Question | null>(null);
  const heard = useSignal("");
  const heardAt = useRef(0);
  const forgotten = useRef<ReturnType<typeof setTimeout>>(undefined);
  const hear = (text: string, time = HEARD_MS) => {
    clearTimeout(forgotten.current);
    heard.value = text;
    heardAt.current = performance.now();
    forgotten.current = setTimeout(() => (heard.value = ""), time);
  };
  useEffect(() => () => clearTimeout(forgotten.current), []);
  /** Why it cannot hear, as it was put away. */
  const readAway = useSignal("");
  const claim = useSignal(0);
  /** "Let me count" was said: numbers are wanted, whether or not this maker counts as she works. */
  const recounting = useSignal(false);
  const since = useRef(performance.now());
  const before = useRef<Before | null>(null);
  const counted = useRef(-AMIDST_MS);
  const recounted = useRef<ReturnType<typeof setTimeout>>(undefined);
  const sent = useRef("");
  /** The first phrase of each intent, to tell what to say. */
  const phrases = useSignal<Record<string, string>>({});
  const { spoken, language, single } = wishes.value;
  const { counting } = maker.value;
  useEffect(() => {
    const first = (about: About) => Object.fromEntries((about.phrases[language] ?? []).map((row) => [row.intent, row.phrases[0] ?? ""]));
    voice.about().then((about) => (phrases.value = first(about)), () => undefined);
  }, [language]);
  const { seen, mode } = road;
  const style = counting === "no" ? null : counting;

  const tell = (text: string) => {
    road.tell(text);
    session.read(text);
  };
  const hands: Hands = {
    session,
    tell,
    question: question.value,
    since: since.current,
    phrase: (intent) => phrases.value[intent] ?? intent,
    ask(asked) {
      question.value = asked;
      if (asked) session.read(asked.text);
    },
    redo: (again) => obey(again, now.current.road, now.current.hands),
    recount() {
      recounting.value = true;
      clearTimeout(recounted.current);
      recounted.current = setTimeout(() => (recounting.value = false), NO_COUNT_MS);
      hear("counting", COUNTING_MS);
    },
    finish() {
      session.hold("asked");
      tell(farewell(road));
      const over = setTimeout(ended, FAREWELL_MS);
      const stop = session.speech.speaking.subscribe((on) => {
        if (on) return;
        clearTimeout(over);
        setTimeout(() => (stop(), ended()), session.speech.voices.value.length ? 0 : FAREWELL_MS / 2);
      });
    },
  };
  const now = useRef({ road, hands, style });
  now.current = { road, hands, style };

  useEffect(() => {
    const count = (number: Counted) => {
      const { road: at, style: by, hands: with_ } = now.current;
      if (session.held.value !== null || !at.seen || with_.question) return;
      session.stirred();
      hear(String(number.number));
      if (number.recount) {
        clearTimeout(recounted.current);
        recounted.current = setTimeout(() => {
          const take = (id: string) => {
            const { road: later, hands: last } = now.current;
            if (!later.seen) return;
            later.move({ intent: "count", n: number.number }, undefined, id);
            countHeard(number.number, later.seen, later, last);
          };
          recounting.value = false;
          // A count with a number missing or misheard in it is asked about, not believed.
          if (number.confirmed) take(idOf(number));
          else now.current.hands.ask({ text: `${number.number} stitches?`, yes: (id) => take(id ?? idOf(number)) });
        }, RECOUNT_MS);
        return;
      }
      if (by === null || at.mode !== "work") return;
      counted.current = performance.now();
      const to = stepCounted(at.seen.strand, at.seen.at, by, number.number, /\binc\w*$/.test(number.words));
      if (to !== null && to !== at.seen.at) at.move({ intent: "goto", to }, undefined, idOf(number));
    };
    session.told = {
      heard(said: Heard) {
        if (said.verdict === "ignore") {
          hear(""); // talk went by: what was said before it is over
          return;
        }
        hear(`“${said.words}”`);
        obey(said, now.current.road, now.current.hands);
      },
      counted: count,
      headset: (what) => now.current.road.ask(what),
      asked(what) {
        if (what === "finish") now.current.hands.finish();
        else recount(now.current.hands);
      },
    };
  }, [session]);

  // Two devices disagree: their places are asked one after another, until one is the right one or it was said elsewhere.
  const held = session.held.value !== null;
  const { claims } = road;
  const disputed = claims.map((c) => `${c.run}@${c.at}`).join(" ");
  useEffect(() => {
    const said = claims[claim.value % Math.max(1, claims.length)];
    const strand = said && road.state && road.snapshot?.strands[road.state.runs[said.run]?.strand ?? ""];
    if (!said || !strand) return undefined;
    const spot = locate(strand, said.at);
    const where = placeBrief(spot, spot.course === null ? undefined : strand.courses[spot.course]);
    const asked: Question = {
      text: `Is your marker ${/^(at|after|finished)/.test(where) ? where : `in ${where}`}?`,
      yes: () => now.current.road.settle(said.run, said.at),
      no: () => (claim.value += 1),
    };
    hands.ask(asked);
    return () => {
      if (question.value === asked) question.value = null;
    };
  }, [disputed, claim.value]);

  // What a move has brought is heard: a chime, and as many words as the maker wants.
  useEffect(() => {
    if (!seen) return;
    const was = before.current;
    before.current = beforeOf(seen);
    since.current = performance.now();
    session.stirred();
    if (was && (session.held.value === "rest" || session.held.value === "nothing")) session.listen();
    if (was?.at === seen.at && was.run === seen.run) return;
    session.speech.hush();
    recounting.value = false;
    if (performance.now() - heardAt.current > OWN_MOVE_MS) hear("");
    if (mode !== "settle") question.value = null;
    const news = was && newsOf(was, seen);
    if (news) session.chime(news);
    const amidst = style !== null && performance.now() - counted.current < AMIDST_MS;
    const text = promptSaid(was, seen, road.told, spoken, amidst);
    // As quiet as a whisper: between two numbers of a count, and on the way back, it is not said.
    const fresh = road.offer !== null && was && was.at < seen.at && !amidst && spoken !== "silent" ? `New here: ${road.offer}. To see it, say ${phrases.value.show ?? "show me how"}.` : "";
    if (text || fresh) session.speech.say(`${text} ${fresh}`.trim());
  }, [seen?.run, seen?.at, mode]);

  useEffect(() => {
    if (mode !== "offer") return;
    const other = road.snapshot?.runs.find((r) => r.run === road.offered);
    const strand = other && road.state && road.snapshot?.strands[road.state.runs[other.run]?.strand ?? ""];
    if (other && strand && isSection(strand)) session.read(`${sentenceCase(onTo(other.piece))} now?`);
    else if (other) session.read(`Take up ${other.piece}${other.copies > 1 ? ` ${other.copy}` : ""} now?`);
  }, [mode, road.offered]);

  useEffect(() => {
    if (!question.value || mode === "settle") return;
    const over = setTimeout(() => (question.value = null), ASKED_MS);
    return () => clearTimeout(over);
  }, [question.value]);

  // A button that is gone has taken the focus with it.
  useEffect(() => {
    if (document.activeElement === document.body) work()?.focus({ preventScroll: true });
  });

  const deaf = session.sign.value === "deaf";
  const why = session.why.value;
  const away = readAway.value !== "" && readAway.value === why;
  const listen = () => {
    readAway.value = "";
    session.listen();
  };
  // With the paint itself: the key may come as soon as the words stand there.
  useLayoutEffect(() => {
    if (!deaf || away) return undefined;
    const key = (event: KeyboardEvent) => {
      if (event.key === "Escape" && !document.querySelector("dialog[open]")) readAway.value = why;
    };
    addEventListener("keydown", key);
    return () => removeEventListener("keydown", key);
  }, [deaf, away, why]);

  // A sheet that takes words hears its own ones and nothing else.
  const taken = held || question.value ? null : taker.value;
  const expected: Expecting = {
    ...(taken ? { waits: "question", answers: taken.answers, count: null } : expectingAt(seen, mode, question.value && mode !== "settle" ? ANSWERS : null, held, style ?? (recounting.value ? "round" : null), recounting.value)),
    ...(seen && { most: mostOf(seen.strand) }),
  };
  const key = JSON.stringify(expected);
  useEffect(() => {
    if (key === sent.current) return;
    sent.current = key;
    session.ear.expect(expected);
  }, [key]);

  useEffect(() => {
    session.relisten();
  }, [counting, single, language]);

  return (
    <>
      <Band session={session} question={question.value} answered={() => (question.value = null)} wake={phrases.value.listen ?? ""} listen={listen} away={away} putAway={() => (readAway.value = why)} />
      {deaf && away ? (
        <TouchLine foot={foot} listen={listen} />
      ) : (
        <EarLine session={session} heard={heard.value} words={saying(mode === "work" && seen && waiting(seen) ? "stop" : mode, phrases.value) || words} open={() => road.open("hands")} toggle={() => (held || session.sign.value === "deaf" ? listen() : session.hold("asked"))} />
      )}
    </>
  );
}
