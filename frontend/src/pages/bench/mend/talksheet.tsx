import { useEffect, useLayoutEffect, useRef, useState } from "preact/hooks";
import { AWAY, Refused } from "../../../api";
import { cuesBetween } from "../../../follow/place";
import type { CountDue } from "../counts";
import { unbroken } from "../place";
import type { Seen } from "../seen";
import { useByKeys } from "../box";
import { Sheet } from "../sheet";
import { Key } from "../working";
import { Letter, useAnswers } from "./answering";
import { useArrived } from "./arriving";
import { askedBelow, countPlainly, counting, lostPlainly } from "./plainly";
import { type Answers, begun, mending, type Offer, type Talk, type Value } from "./talk";

interface Props {
  topic: "count" | "lost";
  making: number;
  seen: Seen;
  /** False while moves of this page are on their way: a mend needs the journal to be at this place. */
  settled: boolean;
  /** The last row the bench knows of. */
  head: number;
  /** The server answers. */
  live: boolean;
  /** The count that waits on the bench, and what is done where she would rather not. */
  due: CountDue | null;
  later: () => void;
  /** Without the server: the place is chosen from the list of rounds. */
  byHand: (what: "goto" | "rip") => void;
  go: (to: number) => void;
  /** The answers come along: who turns the way down chooses another without being asked anew. */
  rip: (offer: Offer, answers: Answers) => void;
  /** On to a place with things that wait on the way: they are ticked first. */
  pass: (to: number) => void;
  counted: (n: number) => void;
  read: (text: string) => void;
  tell: (text: string) => void;
  close: () => void;
}

const TITLES = { count: "Count check", lost: "Lost, and found" };

/** One question at a time, until there is something to do. */
export function TalkSheet(props: Props) {
  const { topic, making, seen, settled, head, live, due, later, byHand, go, rip, pass, counted, read, tell, close } = props;
  const [answers, answer] = useState<Answers>(() => {
    const said = begun.peek().answers;
    return topic === "count" && said.n === undefined && due?.here && due.given !== null ? { n: due.given } : said;
  });
  const [talk, show] = useState<Talk | null>(null);
  const [wrong, setWrong] = useState("");
  const [wanted, want] = useState<Offer | null>(null);
  const [awaited, awaits] = useState<number | null>(null);
  const heading = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    begun.value = { answers: {}, course: null };
  }, []);
  useEffect(() => {
    let over = false;
    const { due: below, ...rest } = answers;
    if (due && !due.here && below === undefined && rest.n === undefined) {
      const asked = askedBelow(due);
      show(asked);
      read(asked.ask?.text ?? "");
      return undefined;
    }
    const plainly = () => (topic === "count" ? countPlainly(seen, rest) : lostPlainly(seen, rest));
    const asking = live ? mending.talk(making, topic, seen.run, seen.at, rest).catch((e: unknown) => (e instanceof Refused && e.code !== AWAY ? Promise.reject(e) : plainly())) : Promise.resolve(plainly());
    asking.then(
      (told) => {
        if (over) return;
        show(told);
        setWrong("");
        read([told.said, told.ask?.text ?? ""].filter(Boolean).join(" "));
      },
      (e: unknown) => !over && setWrong(e instanceof Refused ? e.say : "This can't be asked just now."),
    );
    return () => {
      over = true;
    };
  }, [answers, seen.run, seen.at]);
  // With the paint itself: a key that walks the answers may come at once.
  useLayoutEffect(() => heading.current?.focus({ preventScroll: true }), [talk]);

  const say = (value: Value): boolean => {
    if (!talk?.ask) return false;
    const { key } = talk.ask;
    if (key === "due" && value === "unsure") later();
    else if (key === "due" && value === "yes" && due) {
      counted(due.n);
      close();
      tell(`${due.n}: good.`);
    }
    if (key === "due" && value !== "no") return true;
    if (topic === "count" && (key === "n" || key === "again") && typeof value === "number") counted(value);
    answer({ ...answers, [key]: value });
    return true;
  };
  const back = (): boolean => {
    const keys = Object.keys(answers);
    if (keys.length === 0) close();
    else answer(Object.fromEntries(Object.entries(answers).slice(0, -1)));
    return true;
  };
  const move = (to: number) => {
    const waits = to > seen.at && cuesBetween(seen.strand, seen.at, to).some((cue) => cue.weight !== "whisper");
    if (waits) return pass(to);
    close();
    if (to !== seen.at) go(to);
  };
  const take = (offer: Offer) => {
    if (offer.to === null && (offer.key === "goto" || offer.key === "rip")) byHand(offer.key);
    else if (offer.kind === "go" && offer.to !== null) move(offer.to);
    else if (offer.kind === "rip" && offer.to !== null) rip(offer, answers);
    else if (offer.kind === "mend") want((before) => before ?? offer);
  };
  // The journal has to know of the place first: the count was a move as well.
  useEffect(() => {
    if (!wanted || !settled) return;
    mending.mend(making, seen.run, seen.at, answers, wanted.key).then(
      (told) => awaits(told.head),
      (e: unknown) => {
        want(null);
        setWrong(e instanceof Refused ? e.say : "This was not taken. Try once more.");
      },
    );
  }, [wanted, settled]);
  useArrived(awaited, head, () => {
    if (wanted) tell(`Taken: ${wanted.line ? `${wanted.title.replace(/^In /, "in ")}, ${wanted.line}` : wanted.title.toLowerCase()}.`);
    close();
  });
  const first = topic === "count" && talk?.ask?.key === "n";
  const ours = counting(seen)?.n;
  const taken = talk?.offers.filter((offer) => offer.kind !== "refused") ?? [];
  const pick = (n: number): boolean => {
    const { ask } = talk ?? {};
    if (ask?.kind === "number") {
      if (n < ask.least || n > ask.most) return false;
      return say(n);
    }
    const choice = ask?.choices[n - 1];
    if (choice) return say(choice.value);
    if (!talk || ask) return false;
    const offer = taken[n - 1];
    if (offer) take(offer);
    else if (talk.offers.length > 0 || talk.to === null || n > 2) return false;
    else if (n === 1) move(talk.to);
    else answer({});
    return true;
  };
  useAnswers({
    yes: () => {
      // To the first number, yes is the one that stands there.
      if (first) return ours !== undefined && say(ours);
      if (talk?.ask) return talk.ask.choices.some((c) => c.value === "yes") && say("yes");
      if (!talk || talk.offers.length > 0) return false;
      if (talk.to === null) close();
      else move(talk.to);
      return true;
    },
    no: () => {
      if (first && due) return later(), true;
      // To a number, no is that it can't be told.
      if (talk?.ask) return talk.ask.choices.some((c) => c.value === "no") ? say("no") : talk.ask.choices.some((c) => c.value === "unsure") && say("unsure");
      if (talk && talk.to !== null) answer({});
      else close();
      return true;
    },
    number: pick,
    back,
    walked: first || talk?.ask?.key === "due",
    // Of a number that may have two figures the first one answers nothing yet.
    field: () => (talk?.ask?.kind === "number" && talk.ask.most > 9 ? (heading.current?.parentElement?.querySelector("input") ?? null) : null),
  });

  const last = Object.keys(answers).length > 0;
  return (
    <Sheet title={TITLES[topic]} close={close}>
      <div class="talk" aria-busy={talk === null}>
        {talk?.said && <p class="talk-said">{talk.said}</p>}
        {talk?.ask && (
          <Asked key={talk.ask.key} heading={heading} talk={talk} ours={first ? ours : undefined} later={first && due ? later : null} say={say} />
        )}
        {talk && !talk.ask && talk.to !== null && talk.offers.length === 0 && (
          <div class="sheet-answers">
            <button type="button" class="answer main" onClick={() => move(talk.to ?? seen.at)}>
              <i aria-hidden="true">1</i>
              {talk.to === seen.at ? "Done" : "Yes, I am there"}
            </button>
            <button type="button" class="answer" onClick={() => answer({})}>
              <i aria-hidden="true">2</i>
              Ask me again
            </button>
          </div>
        )}
        {wanted && <p class="talk-said">One moment: it is put on the bench.</p>}
        {talk && talk.offers.length > 0 && !wanted && <Offers offers={talk.offers} take={take} />}
        {wrong && (
          <p class="talk-wrong" role="alert">
            {wrong}
          </p>
        )}
        <div class="sheet-answers">
          {last && (
            <button type="button" class="answer quiet" onClick={back}>
              One question back
            </button>
          )}
          {talk && !talk.ask && (talk.to === null || talk.offers.length > 0) && (
            <button type="button" class="answer quiet" onClick={close}>
              {talk.offers.length > 0 ? "Nothing now" : "Done"}
            </button>
          )}
        </div>
      </div>
    </Sheet>
  );
}

/** So many letters can stand as large as for a metre away and leave room for the answers. */
const FAR = 56;

export const farClass = (text: string): string => (text.length <= FAR ? "talk-asked far" : "talk-asked");

interface AskedProps {
  talk: Talk;
  /** The number that is expected, where one is. */
  ours: number | undefined;
  /** She would rather not count now; null where that is no answer. */
  later: (() => void) | null;
  say: (value: Value) => boolean;
  heading: { current: HTMLParagraphElement | null };
}

function Asked({ talk, ours, later, say, heading }: AskedProps) {
  const { ask } = talk;
  const keys = useByKeys();
  const [typed, type] = useState("");
  if (!ask) return null;
  const n = /^\d{1,4}$/.test(typed.trim()) ? Number(typed) : Number.NaN;
  const good = n >= ask.least && n <= ask.most;
  const numbers = ask.kind === "number";
  return (
    <>
      <p class={farClass(ask.text)} ref={heading} tabIndex={-1} role="alert">
        {unbroken(ask.text)}
      </p>
      {ask.more && <p class="talk-more">{ask.more}</p>}
      <div class={numbers ? "talk-numbers" : "talk-choices"}>
        {ask.choices.map((choice, i) => (
          <button key={choice.value} type="button" class={numbers && typeof choice.value === "string" ? "answer in-words" : "answer"} onClick={() => say(choice.value)}>
            {!numbers && <i aria-hidden="true">{i + 1}</i>}
            {!numbers && ask.choices.length < 3 && <Letter of={choice.value === "yes" ? "y" : "n"} />}
            {choice.value === ours && <Key ask="done" />}
            {choice.text}
          </button>
        ))}
        {/* Among the numbers, where it is seen: below the field it would lie under the edge of a phone. */}
        {later && (
          <button type="button" class="answer quiet" onClick={later}>
            <Letter of="n" />
            Not now
          </button>
        )}
      </div>
      {numbers && (
        <form
          class="asked"
          onSubmit={(event) => {
            event.preventDefault();
            if (good) say(n);
          }}
        >
          <label class="count">
            <span>another number{keys && ask.most > 9 && ": type it, then Enter"}</span>
            <input inputMode="numeric" autocomplete="off" maxLength={4} value={typed} onInput={(e) => type(e.currentTarget.value)} />
          </label>
          <button type="submit" class="answer" disabled={!good}>
            That many
          </button>
        </form>
      )}
    </>
  );
}

function Offers({ offers, take }: { offers: readonly Offer[]; take: (offer: Offer) => void }) {
  let n = 0;
  const [not, can] = [offers.filter(({ kind }) => kind === "refused"), offers.filter(({ kind }) => kind !== "refused")];
  return (
    <ul class="ways talk-offers">
      {[...can, ...not].map((offer) => (
        <li key={offer.key}>
          {offer.kind === "refused" ? (
            <p class="refused">
              <b>{offer.title}: not here.</b> {offer.say}
            </p>
          ) : (
            <button type="button" class="way" onClick={() => take(offer)}>
              <i aria-hidden="true">{++n}</i>
              <b>{offer.title}</b>
              <span>{offer.say}</span>
            </button>
          )}
        </li>
      ))}
    </ul>
  );
}
