import { useEffect, useRef, useState } from "preact/hooks";
import type { Intent } from "../../../follow/stepping";
import type { StrandCourse } from "../../../generated/pattern";
import { aimed } from "../aiming";
import type { Seen } from "../seen";
import { courseName } from "../sentence";
import { Sheet } from "../sheet";
import { useAnswers } from "./answering";
import { goOn, namedPassed, type Passed, passedBetween, readOut } from "./passing";
import { begun } from "./talk";

interface Props {
  seen: Seen;
  /** Where to; null: it is asked. */
  to: number | null;
  place: () => number;
  move: (intent: Intent) => boolean;
  tell: (text: string) => void;
  read: (text: string) => void;
  close: () => void;
}

const SHOWN = 8; // rounds offered as one touch

/** "I worked on": to the end of which round, and what of the things on the way is done. */
export function PassedSheet({ seen, to: known, place, move, tell, read, close }: Props) {
  const { strand } = seen;
  const [to, setTo] = useState<number | null>(() => known ?? strand.courses.find((c) => c.label === begun.peek().course)?.end ?? null);
  const [ticked, tick] = useState<ReadonlySet<string>>(new Set());
  const [counts, count] = useState<Readonly<Record<string, number>>>({});
  useEffect(() => {
    begun.value = { answers: {}, course: null };
  }, []);
  const ahead = strand.courses.filter((c) => c.end > seen.at);
  const passed = to === null ? [] : passedBetween(strand, seen.at, to);
  const jobs = passed.filter((one) => one.kind === "cue");
  const all = jobs.every((one) => ticked.has(one.id));
  const every = { text: jobs.length > 1 ? "All are done" : "Done", done: new Set(jobs.map((one) => one.id)) };
  const these = { text: ticked.size > 0 ? "Only these" : "Not yet", done: ticked };
  // Who ticked some of them most likely means those: a tired touch takes the first.
  const answers: { text: string; done: ReadonlySet<string> }[] = all ? [every] : ticked.size > 0 ? [these, every] : [every, these];
  const go = (done: ReadonlySet<string>): boolean => {
    if (to === null) return false;
    close();
    if (!goOn(strand, to, done, counts, place, move)) {
      aimed.value = { run: seen.run, strand: strand.id, to, at: place() };
      tell("This waits on the way there. Answer it, and you stand there.");
    }
    return true;
  };
  // Nothing waits on the way: there is nothing to ask.
  useEffect(() => {
    if (to !== null && passed.length === 0) go(ticked);
    else if (to !== null) read(readOut(passed));
    else read("To the end of which round?");
  }, [to]);
  const toggle = (id: string) => {
    const next = new Set(ticked);
    if (!next.delete(id)) next.add(id);
    tick(next);
  };
  const called = (label: string): boolean => {
    const course = ahead.find((c) => c.label === label);
    if (course) setTo(course.end);
    return course !== undefined;
  };
  useAnswers({
    yes: () => to !== null && go(new Set(jobs.map((one) => one.id))),
    no: () => to !== null && go(ticked),
    // Of a round with two figures the first one is no answer yet.
    field: () => (to === null && ahead.some(({ label }) => label.length > 1) ? document.querySelector<HTMLInputElement>("dialog[open] .asked input") : null),
    number: (n) => {
      if (to === null) return called(String(n));
      const one = passed[n - 1];
      if (one?.kind === "cue") toggle(one.id);
      return one?.kind === "cue";
    },
    back: () => {
      if (to === null || known !== null) close();
      else setTo(null);
      return true;
    },
  });

  if (to === null) return <ToWhere ahead={ahead} go={(course) => setTo(course.end)} called={called} close={close} />;
  return (
    <Sheet title="You worked on" close={close}>
      <div class="talk">
        <p class="talk-asked" role="alert">
          {passed.length === 1 ? "This came on the way. Is it done?" : "These came on the way. Which of them are done?"}
        </p>
        <ul class="talk-ticks">
          {passed.map((one, i) => (
            <li key={one.id}>
              <Item n={i + 1} one={one} ticked={ticked.has(one.id)} toggle={() => toggle(one.id)} count={(n) => count({ ...counts, [one.id]: n })} />
            </li>
          ))}
        </ul>
        <div class="sheet-answers stay">
          {answers.map(({ text, done }, i) => (
            <button key={text} type="button" class={i ? "answer" : "answer main"} onClick={() => go(done)}>
              {text}
            </button>
          ))}
        </div>
      </div>
    </Sheet>
  );
}

interface ItemProps {
  n: number;
  one: Passed;
  ticked: boolean;
  toggle: () => void;
  count: (n: number) => void;
}

function Item({ n, one, ticked, toggle, count }: ItemProps) {
  if (one.kind === "unread")
    return (
      <label class="count">
        <span>
          {courseName(one.course)}: “{one.course.text}” How many stitches did you make?
        </span>
        <input
          inputMode="numeric"
          autocomplete="off"
          maxLength={4}
          onInput={(e) => /^\d{1,4}$/.test(e.currentTarget.value) && count(Number(e.currentTarget.value))}
        />
      </label>
    );
  return (
    <button type="button" class="tick" role="checkbox" aria-checked={ticked} onClick={toggle}>
      <i aria-hidden="true">{n}</i>
      <span>{namedPassed(one)}</span>
    </button>
  );
}

function ToWhere({ ahead, go, called, close }: { ahead: readonly StrandCourse[]; go: (course: StrandCourse) => void; called: (label: string) => boolean; close: () => void }) {
  const [typed, type] = useState("");
  const [say, setSay] = useState("");
  const heading = useRef<HTMLParagraphElement>(null);
  useEffect(() => heading.current?.focus({ preventScroll: true }), []);
  const kind = ahead[0]?.kind ?? "round";
  return (
    <Sheet title="You worked on" close={close}>
      <div class="talk">
        <p class="talk-asked far" ref={heading} tabIndex={-1}>
          To the end of which {kind}?
        </p>
        <div class="talk-numbers">
          {ahead.slice(0, SHOWN).map((course) => (
            <button key={course.id} type="button" class="answer" aria-label={courseName(course)} onClick={() => go(course)}>
              {course.label}
            </button>
          ))}
        </div>
        <form
          class="asked"
          onSubmit={(event) => {
            event.preventDefault();
            if (!called(typed.trim())) setSay(`There is no ${kind} ${typed.trim()} ahead in this piece.`);
          }}
        >
          <label class="count">
            <span>another {kind}</span>
            <input inputMode="numeric" autocomplete="off" maxLength={4} value={typed} onInput={(e) => type(e.currentTarget.value)} />
          </label>
          <button type="submit" class="answer">
            That one
          </button>
          <p role="status">{say}</p>
        </form>
      </div>
    </Sheet>
  );
}
