import type { ComponentChildren } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { wishes } from "../../hands/wishes";
import { type Box, useByKeys } from "./box";
import { fitTitle, lines } from "./fit";
import { measure } from "./measure";
import { Key, keepFocus } from "./working";

/** Touches this soon after a stop has come up were meant for what was there before. In milliseconds. */
export const DEAF = 700;
export const PAUSE_DEAF = 350; // a pause is answered by the next touch, but not by the second half of a double one

interface Props {
  /** Changes when something else waits: the deaf time begins anew. */
  what: string;
  title: string;
  /** What it says below the title: the sizes of all are fitted to the screen. */
  body: string;
  /** Why now, and where it comes from. */
  why?: string;
  box: Box;
  children?: ComponentChildren;
  tone: "waits" | "comes" | "calm";
  answers: readonly Answer[];
  /** A touch beside the answers does nothing but say so. */
  beside?: () => void;
}

export interface Answer {
  text: string;
  act: () => void;
  main?: boolean;
}

/** How long something has been on the screen: what was meant for the screen before it is not heard. */
export function useDeaf(what: string, time = DEAF) {
  const since = useRef(performance.now());
  const shown = useRef(what);
  if (shown.current !== what) {
    shown.current = what;
    since.current = performance.now();
  }
  useEffect(() => {
    since.current = performance.now();
  }, [what]);
  return () => performance.now() - since.current >= time;
}

/**
 * Something fills the bench and waits for a deliberate answer. The answers stand in the top third, where no touch means
 * "next", and none has the focus: a hand that goes on tapping, or a pedal that goes on sending Enter, passes nothing.
 * They fill up over the time in which they are deaf, and a touch meanwhile is answered in words.
 */
export function Halt({ what, title, body, why = "", box, children, tone, answers, beside }: Props) {
  const size = haltSizes(title, body, why, box, answersHeight(answers, box));
  const keys = useByKeys() && wishes.value.letters;
  const heading = useRef<HTMLHeadingElement>(null);
  const awake = useDeaf(what);
  const [early, setEarly] = useState("");
  useEffect(() => heading.current?.focus({ preventScroll: true }), [what, answers.length]);
  // The one that "done" is for has no figure; those of the others are pressed by asking.ts.
  const mains = answers.filter(({ main }) => main);
  const press = (answer: Answer) => {
    if (awake()) answer.act();
    else setEarly(what);
  };
  const button = (answer: Answer) => {
    return (
      <button
        key={`${what} ${answer.text}`}
        type="button"
        class={`answer${answer.main ? " main" : ""}${answer.text.length > 10 ? " wordy" : ""}`}
        style={{ "--deaf": `${DEAF}ms` }}
        onClick={() => press(answer)}
      >
        {answer.main && !mains[1] ? <Key ask="done" /> : keys && <kbd aria-hidden="true">{answers.indexOf(answer) + 1}</kbd>}
        {answer.text}
      </button>
    );
  };
  return (
    <section
      class={`halt ${tone}`}
      role="group"
      aria-label={title}
      data-waits={what}
      onClick={(event) => {
        if (awake() && !(event.target instanceof Element && event.target.closest("button, a"))) beside?.();
      }}
    >
      <div class="halt-words" role="alert">
        <h1 ref={heading} tabIndex={-1} style={{ fontSize: `${size.title}px` }}>
          {title}
        </h1>
        {body && (
          <p class="said-why" style={{ fontSize: `${size.body}px` }}>
            {body}
          </p>
        )}
        {why && (
          <p class="why" style={{ fontSize: `${size.why}px` }}>
            {why}
          </p>
        )}
        {children}
      </div>
      <div class="halt-answers" onMouseDown={keepFocus}>
        {answers.map(button)}
      </div>
      {early === what && (
        <p class="say" role="status">
          Once more, please: it had only just come up.
        </p>
      )}
    </section>
  );
}

/** Padding of .halt, as in bench.css. */
const side = (width: number) => Math.min(72, Math.max(20, width * 0.06));

/** Height the answers take above the words: one line of them where they are few and short, else two. */
const answersHeight = (answers: readonly Answer[], box: Box) => {
  const long = answers.some((a) => a.text.length > 10);
  const low = box.height < 480;
  // On a phone a wordy answer takes a line of its own, and so does what stands beside two others.
  return (low ? 64 : 104) + (box.width < 700 ? 76 * (Number(long) + Number(answers.length > 2) + Number(answers.length > 4)) : 0);
};

/** A title as large as a stitch in hand, its words below, and `taken` px for the answers above. */
export function haltSizes(title: string, body: string, why: string, box: Box, taken: number): { title: number; body: number; why: number } {
  const width = Math.min(box.width - 2 * side(box.width), 1000);
  const most = { title: Math.min(160, Math.max(84, box.width * 0.16)), body: Math.min(64, Math.max(46, box.width * 0.055)) };
  const room = Math.max(120, box.height - taken - (box.height < 480 ? 104 : 176));
  const fit = (height: number) => fitTitle(title, body, most, width, Math.max(100, height), measure);
  let size = { ...fit(room), why: 0 };
  for (let text = Math.min(34, most.body); text >= 20 && why; text -= 1) {
    size = { ...fit(room - lines(why, text, width, measure) * text * 1.35 - 16), why: text };
    if (size.title >= Math.min(60, most.title) && size.body >= Math.max(36, text)) break;
  }
  return size;
}
