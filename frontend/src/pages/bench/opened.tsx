import { GAP, handSize, NEAR, nearSize, TAIL, together } from "./fit";
import { measure } from "./measure";
import type { Part } from "./sentence";

interface Props {
  parts: readonly Part[];
  done: number;
  hand: number;
  width: number;
  block: number;
}

const WAVES = [
  "M0 5C12 2 22 8 36 5S60 3 72 6S92 4 100 5",
  "M0 4C10 7 24 3 38 5S64 7 76 4S94 6 100 5",
  "M0 5C16 7 26 3 42 4S62 7 78 5S92 3 100 5",
];

/** The repeat in hand, opened out on its thread: what is worked, what is in hand (largest), what comes. */
export function OpenedOut({ parts, done, hand, width, block }: Props) {
  return (
    <p class="opened" style={{ minHeight: `${block}px`, fontSize: `${hand * NEAR}px`, columnGap: `${hand * GAP}px` }}>
      {parts.map((part, i) => {
        const share = part.steps === 0 ? (part.state === "worked" ? 1 : 0) : (done - part.first) / part.steps;
        const worked = Math.max(0, Math.min(1, share));
        const size = part.state === "hand" ? handSize(part.head, hand, width, measure) : nearSize(part.head, hand, width, measure);
        const small = { fontSize: `${hand * TAIL}px` };
        const joined = together({ ...part, hand: part.state === "hand" }, hand, width, measure) > 0;
        return [
          part.lead && (
            <span key={`${part.first}.${i}l`} class="tail" style={small}>
              {part.lead}
            </span>
          ),
          <span key={`${part.first}.${i}`} class={`part ${part.state}`} style={{ fontSize: `${size}px` }}>
            {part.head.replace(" x ", " x\u00a0")}
            {joined && <span style={small}> {part.tail}</span>}
            <svg class="under" viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true" focusable="false">
              <path class="rest" d={WAVES[i % WAVES.length]} />
              <path class="worked" d={WAVES[i % WAVES.length]} style={{ clipPath: `inset(-10px ${(100 - worked * 100).toFixed(1)}% -10px 0)` }} />
            </svg>
          </span>,
          part.tail && !joined && (
            <span key={`${part.first}.${i}t`} class="tail" style={small}>
              {part.tail}
            </span>
          ),
          part.then && (
            <span key={`${part.first}.${i}n`} class="tail" style={small}>
              {part.then}
            </span>
          ),
        ];
      })}
    </p>
  );
}
