import type { ComponentChildren } from "preact";
import { useEffect, useRef } from "preact/hooks";
import type { Box } from "./box";
import { fitTitle } from "./fit";
import { measure } from "./measure";

/** Touches this soon after a stop has come up were meant for what was there before. In milliseconds. */
export const DEAF = 700;

interface Props {
  /** Changes when something else waits: the deaf time begins anew. */
  what: string;
  title: string;
  /** What it says below the title: the sizes of both are fitted to the screen. */
  body: string;
  box: Box;
  /** Spoken at once: it waits, and nothing goes on without an answer. */
  children?: ComponentChildren;
  tone: "waits" | "comes" | "calm";
  answers: { text: string; act: () => void; main?: boolean }[];
}

/** Something fills the bench and waits for a deliberate answer. */
export function Halt({ what, title, body, box, children, tone, answers }: Props) {
  const size = haltSizes(title, body, box, box.width < 600 ? 440 : 380);
  const main = useRef<HTMLButtonElement>(null);
  const since = useRef(performance.now());
  const shown = useRef(what);
  if (shown.current !== what) {
    shown.current = what;
    since.current = performance.now();
  }
  useEffect(() => {
    since.current = performance.now();
    main.current?.focus({ preventScroll: true });
  }, [what]);
  return (
    <section class={`halt ${tone}`} role="group" aria-label={title} data-waits={what}>
      <div class="halt-words" role="alert">
        <h1 style={{ fontSize: `${size.title}px` }}>{title}</h1>
        {body && (
          <p class="said-why" style={{ fontSize: `${size.body}px` }}>
            {body}
          </p>
        )}
        {children}
      </div>
      <div class="halt-answers">
        {answers.map((answer, i) => (
          <button
            key={answer.text}
            type="button"
            ref={answers.findIndex((a) => a.main) === i ? main : undefined}
            class={`answer${answer.main ? " main" : ""}${answer.text.length > 10 ? " wordy" : ""}`}
            onClick={() => {
              if (performance.now() - since.current >= DEAF) answer.act();
            }}
          >
            {answer.text}
          </button>
        ))}
      </div>
    </section>
  );
}

/** Padding of .halt, as in bench.css. */
const side = (width: number) => Math.min(72, Math.max(20, width * 0.06));

/** A title as large as a stitch in hand, its words below, and `taken` px for the head, the foot and the answers. */
export function haltSizes(title: string, body: string, box: Box, taken: number): { title: number; body: number } {
  const width = Math.min(box.width - 2 * side(box.width), 1000);
  const most = { title: Math.min(160, Math.max(84, box.width * 0.16)), body: Math.min(44, Math.max(28, box.width * 0.075)) };
  return fitTitle(title, body, most, width, Math.max(150, box.height - taken), measure);
}
