import { useEffect, useMemo, useRef } from "preact/hooks";
import { LineOrRound } from "./drawing";
import type { Hand } from "../../drawings/ring";
import { listenTaps } from "../../hands/taps";
import type { Gesture } from "../../hands/gestures";
import type { Box } from "./box";
import { fitTitle } from "./fit";
import { type Plan, planFor } from "./layout";
import { measure } from "./measure";
import { OpenedOut } from "./opened";
import { cueAhead, lastCourse, placeLines, plainRun, moreThan, whisperText } from "./place";
import { pieceName, type Seen, waiting } from "./seen";
import { type Fullness, openedOut, sentenceOf } from "./sentence";
import { SentenceLine } from "./sentenceline";
import type { StrandCue } from "../../generated/pattern";

interface Props {
  seen: Seen;
  fullness: Fullness;
  hand: Hand;
  box: Box;
  font: number;
  whispers: readonly StrandCue[];
  last: string | null;
  felt: (gesture: Gesture) => void;
  undo: () => void;
}

/** The work in hand: the sentence with its thread, the repeat opened out, the place, the drawing, the last move. */
export function Working(props: Props) {
  const { seen, fullness, box, font } = props;
  const { course, spot } = seen;
  const sentence = course ? sentenceOf(course, fullness) : pieceName(seen);
  const kind = course?.kind ?? "round";
  const ahead = cueAhead(spot, seen.strand);
  const before = lastCourse(seen.strand.courses, spot.course, seen.counts);
  const longest = seen.strand.cues.reduce((l, c) => (c.weight === "whisper" && whisperText(c).length > l.length ? whisperText(c) : l), "");
  const plan = useMemo(
    () => planFor(seen, sentence, fullness, box, [before ?? "", ahead ?? "", longest].filter(Boolean), measure),
    [seen.strand, course, spot.repeats.length, sentence, fullness, box, font],
  );
  const open = useRef<HTMLButtonElement>(null);
  const felt = useRef(props.felt);
  felt.current = props.felt;
  useEffect(() => {
    if (!open.current) return;
    open.current.focus({ preventScroll: true });
    return listenTaps(open.current, (gesture) => felt.current(gesture));
  }, []);

  const pause = waiting(seen);
  const parts = course ? openedOut(course.body, seen.done, fullness) : [];
  const inHand = parts.find((p) => p.state === "hand");
  const run = course && plainRun(course);
  return (
    <div
      class={`working columns-${plan.columns}${plan.fits ? "" : " long"}`}
      style={{
        "--sentence": `${plan.sentence}px`,
        "--place": `${plan.place}px`,
        "--ring": `${plan.ring}px`,
        "--side": `${plan.side}px`,
        "--far": plan.scale,
      }}
    >
      <button
        ref={open}
        type="button"
        class="open"
        data-open
        aria-label={pause ? `Done, go on: ${pause.words.short}` : `Next: ${[inHand?.head, inHand?.tail].filter(Boolean).join(" ") || "go on"}`}
      />
      <div class="words">
        {course ? (
          <SentenceLine text={sentence} course={course} done={seen.done} fullness={fullness} size={plan.sentence} width={plan.width} font={font} />
        ) : (
          <div class="sentence">
            <h1>{sentence}</h1>
          </div>
        )}
        {pause ? (
          <Pause cue={pause} plan={plan} room={plan.pause} />
        ) : (
          <>
            <OpenedOut parts={parts} done={seen.done} hand={plan.hand} width={plan.width} block={plan.block} />
            {course && (
              <p class="place">
                {placeLines(spot, course).map((line, i) => (
                  <>
                    {i > 0 && <i class="said">, </i>}
                    <span>{line}</span>
                    {run?.[0] === line && [<i class="said">, </i>, <small>{run[1]}</small>]}
                  </>
                ))}
              </p>
            )}
          </>
        )}
      </div>
      <div class={`beside of-${kind}`}>
        {course && (!pause || plan.columns === 2) && (
          <figure>
            <LineOrRound course={course} done={seen.done} hand={props.hand} />
            <figcaption>{course.kind === "round" ? "seen from outside" : "as it faces you"}</figcaption>
          </figure>
        )}
        <div class="near small-words">
          {before && <p>{before}</p>}
          {ahead && <p class="ahead">{ahead}</p>}
          {props.whispers.map((w) => (
            <p key={w.address} class="whisper">
              {whisperText(w)}
            </p>
          ))}
        </div>
      </div>
      <div class="last">
        {props.last !== null && (
          <>
            <p>{props.last}</p>
            <button type="button" class="word undo" onMouseDown={keepFocus} onClick={props.undo}>
              take it back
            </button>
          </>
        )}
      </div>
    </div>
  );
}

/** A pause: shown large where the stitch in hand would stand. The next move answers it. */
function Pause({ cue, plan, room }: { cue: StrandCue; plan: Plan; room: number }) {
  const title = cue.words.short || cue.text;
  const more = moreThan(title, cue.words.full || cue.text);
  const most = { title: plan.hand * 0.8, body: Math.max(26, plan.hand * 0.3) };
  const size = fitTitle(title, more, most, plan.width - 18, room - 48, measure);
  return (
    <div class="pause" style={{ minHeight: `${room}px` }} data-pauses={cue.address}>
      <p class="pause-title" style={{ fontSize: `${size.title}px` }}>
        {title}
      </p>
      {more && <p style={{ fontSize: `${size.body}px` }}>{more}</p>}
      <p class="pause-on">Touch when it is done: the work goes on.</p>
    </div>
  );
}

/** A finger on a button leaves the focus where it is: a pedal's Enter means "next" afterwards too. */
export const keepFocus = (event: MouseEvent): void => event.preventDefault();
