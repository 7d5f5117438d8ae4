import { useEffect, useMemo, useRef } from "preact/hooks";
import { LineOrRound } from "./drawing";
import type { Hand } from "../../drawings/ring";
import { listenTaps } from "../../hands/taps";
import type { Gesture } from "../../hands/gestures";
import type { Box } from "./box";
import { fitTitle } from "./fit";
import { farSize, type Plan, planFor, spokenSize } from "./layout";
import { measure } from "./measure";
import { OpenedOut } from "./opened";
import { cueAhead, lastCourse, placeLines, plainRun, printedOtherwise, moreThan, whisperText } from "./place";
import { pieceName, type Seen, waiting } from "./seen";
import { yarnInHand, yarnToBegin } from "./yarn";
import { type Fullness, openedOut, sentenceOf, spelledOut } from "./sentence";
import { SentenceLine } from "./sentenceline";
import type { Strand, StrandCourse, StrandCue } from "../../generated/pattern";

interface Props {
  seen: Seen;
  fullness: Fullness;
  hand: Hand;
  box: Box;
  font: number;
  whispers: readonly StrandCue[];
  /** The count is another one than it should be; null while nothing can be asked. */
  count: (() => void) | null;
  /** What is new here and has a card; null: nothing, or it is not wanted. */
  offer: string | null;
  show: () => void;
  last: string | null;
  felt: (gesture: Gesture) => void;
  undo: () => void;
}

/** What a count should come to, where one is asked. */
const COUNTED = /^Count now: (\d+)/;

/** The work in hand: the sentence with its thread, the repeat opened out, the place, the drawing, the last move. */
export function Working(props: Props) {
  const { seen, fullness, box, font } = props;
  const { course, spot } = seen;
  // From afar the whole round is only legible in short words; full ones stand at the stitch in hand.
  const sentence = course ? sentenceOf(course, "short") : pieceName(seen);
  const kind = course?.kind ?? "round";
  const ahead = cueAhead(spot, seen.strand);
  const before = lastCourse(seen.strand.courses, spot.course, seen.counts);
  const yarn = yarnInHand(seen.strand, seen.at);
  const said = [course && printedOtherwise(course), before, yarn && `yarn: ${yarn}`].filter((text): text is string => Boolean(text));
  const passing = course ? passingIn(seen.strand, course) : "";
  const [plan, small] = useMemo((): [Plan, string[]] => {
    const planned = (lines: string[]) => planFor(seen, sentence, fullness, box, { small: lines, far: ahead ?? "", passing }, font, measure);
    const bare = planned(said);
    const more = course && fullness === "full" ? spelledOut(course) : [];
    if (more.length === 0) return [bare, said];
    // What comes is only spelled out where all that is read from afar stays as large.
    for (const lines of [[...more, ...said], more]) {
      const rich = planned(lines);
      if (rich.fits && rich.hand >= bare.hand && rich.sentence >= bare.sentence && rich.far >= bare.far) return [rich, lines];
    }
    return [bare, said];
  }, [seen.strand, course, spot.repeats.length, sentence, fullness, box, font, said.join(), ahead?.replaceAll(/\d/g, "0")]);
  const open = useRef<HTMLButtonElement>(null);
  const felt = useRef(props.felt);
  felt.current = props.felt;
  useEffect(() => {
    if (!open.current) return;
    open.current.focus({ preventScroll: true });
    return listenTaps(open.current, (gesture) => felt.current(gesture));
  }, []);

  const pause = waiting(seen);
  const offered = pause || props.offer === null ? [] : [`show me: ${props.offer}`];
  // Where much is said in passing, a line of its own would push something off a phone.
  const crowded = offered.length > 0 && props.whispers.length > 2;
  const whispered = props.whispers.length > 0 || offered.length > 0;
  const showsDrawing = plan.columns === 2 || (!pause && !whispered);
  const whisperSize = whispered ? spokenSize([...props.whispers.map(whisperText), ...offered], plan, kind === "row", measure) : 0;
  const asked = COUNTED.exec([pause, ...props.whispers].find((cue) => cue?.kind === "count")?.text ?? "")?.[1];
  const parts = course ? openedOut(course, seen.done, fullness) : [];
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
        "--far-words": `${farSize(ahead ?? "", plan, kind === "row", course !== undefined, measure)}px`,
        "--far": plan.scale,
      }}
    >
      <button
        ref={open}
        type="button"
        class="open"
        data-open
        aria-label={pause ? `Done, go on: ${yarnToBegin(seen.strand, pause) ?? pause.words.short}` : `Next: ${[inHand?.lead, inHand?.head, inHand?.tail, inHand?.then].filter(Boolean).join(" ") || "go on"}`}
      />
      <div class="words">
        {course ? (
          <SentenceLine text={sentence} course={course} done={seen.done} fullness="short" size={plan.sentence} width={plan.width} font={font} />
        ) : (
          <div class="sentence">
            <h1>{sentence}</h1>
          </div>
        )}
        {pause ? (
          <Pause cue={pause} yarn={yarnToBegin(seen.strand, pause)} plan={plan} room={plan.pause} />
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
        {course && showsDrawing && (
          <figure>
            <LineOrRound courses={seen.strand.courses} index={spot.course ?? 0} course={course} done={seen.done} hand={props.hand} />
            <figcaption>{course.kind === "round" ? "seen from outside" : "as it faces you"}</figcaption>
          </figure>
        )}
        <div class="near small-words">
          {/* Just passed, and needed from afar: it stands where the drawing does until the next move. */}
          {props.whispers.map((w, i) => (
            <p key={w.address} class="whisper" style={{ fontSize: `${whisperSize}px` }}>
              {whisperText(w)} {crowded && i === props.whispers.length - 1 && <ShowMe text="Show me" show={props.show} />}
            </p>
          ))}
          {!crowded && offered.map((text) => (
            <p key={text} class="whisper" style={{ fontSize: `${Math.min(OFFER, whisperSize)}px` }}>
              <ShowMe text={text} show={props.show} />
            </p>
          ))}
          {!whispered && small.map((text) => <p key={text}>{text}</p>)}
          {ahead && (
            <p class="ahead" style={whispered ? { fontSize: `${plan.side}px` } : undefined}>
              {ahead}
            </p>
          )}
        </div>
      </div>
      <div class="last">
        {props.last !== null && (
          <>
            <p>{props.last}</p>
            {asked && props.count && (
              <button type="button" class="word undo" aria-label={`The count is not ${asked}`} onMouseDown={keepFocus} onClick={props.count}>
                not {asked}?
              </button>
            )}
            <button type="button" class="word undo" onMouseDown={keepFocus} onClick={props.undo}>
              take it back
            </button>
          </>
        )}
      </div>
    </div>
  );
}

const OFFER = 26; // px at most: an offer is quieter than what has to be heard

/** A word amid the open part that may be touched. */
const ShowMe = ({ text, show }: { text: string; show: () => void }) => (
  <button type="button" class="word offer" onMouseDown={keepFocus} onClick={show}>
    {text}
  </button>
);

/** The longest line that is said in passing at a course's start or within it. */
const passingIn = (strand: Strand, course: StrandCourse): string =>
  strand.cues
    .filter((c) => c.weight === "whisper" && c.step >= course.first - 2 && c.step < course.end)
    .reduce((longest, c) => (whisperText(c).length > longest.length ? whisperText(c) : longest), "");

/** A pause: shown large where the stitch in hand would stand. The next move answers it. */
function Pause({ cue, yarn, plan, room }: { cue: StrandCue; yarn: string | null; plan: Plan; room: number }) {
  const said = cue.words.short || cue.text;
  const title = yarn ? `Take up ${yarn}` : said;
  const more = moreThan(said, cue.words.full || cue.text);
  const most = { title: plan.hand * 0.8, body: Math.max(30, plan.hand * 0.42) };
  const size = fitTitle(title, more, most, plan.width - 18, room - 40 - plan.hand * 0.3, measure);
  return (
    <div class="pause" style={{ minHeight: `${room}px` }} data-pauses={cue.address}>
      <p class="pause-title" style={{ fontSize: `${size.title}px` }}>
        {title}
      </p>
      {more && <p style={{ fontSize: `${size.body}px` }}>{more}</p>}
      <p class="pause-on" style={{ fontSize: `${Math.max(24, plan.hand * 0.26)}px` }}>
        {yarn ? "Touch when you have it." : cue.basis === "written" ? "Touch when it is done." : "Touch to go on."}
      </p>
    </div>
  );
}

/** A finger on a button leaves the focus where it is: a pedal's Enter means "next" afterwards too. */
export const keepFocus = (event: MouseEvent): void => event.preventDefault();
