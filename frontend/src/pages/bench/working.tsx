import { useEffect, useMemo, useRef } from "preact/hooks";
import { LineOrRound } from "./drawing";
import type { Hand } from "../../drawings/ring";
import { type Ask, keyShown } from "../../hands/keys";
import { listenTaps } from "../../hands/taps";
import type { Gesture } from "../../hands/gestures";
import { type Box, useByKeys } from "./box";
import { CAP, FAR_CAP, fitTitle, lines as linesOf } from "./fit";
import { farSize, pauseRoom, type Plan, planFor, SMALL_SENTENCE, spokenSizes } from "./layout";
import { measure } from "./measure";
import { OpenedOut } from "./opened";
import type { CountDue } from "./counts";
import { cueAhead, how, lastCourse, placeLines, plainRun, printedOtherwise, moreThan, whisperText } from "./place";
import { pieceName, type Seen, waiting } from "./seen";
import { ended, endingIn, yarnInHand, yarnToBegin } from "./yarn";
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
  /** The count that waits, and what is done about it: it is right, or it is looked into. */
  due: CountDue | null;
  right: () => void;
  count: () => void;
  /** What is new here and has a card; null: nothing, or it is not wanted. */
  offer: string | null;
  heard: boolean;
  show: () => void;
  /** The pattern's text, where it is mended. */
  text: () => void;
  last: string | null;
  felt: (gesture: Gesture) => void;
  undo: () => void;
}

/** The work in hand: the sentence with its thread, the repeat opened out, the place, the drawing, the last move. */
export function Working(props: Props) {
  const { seen, fullness, box, font, due } = props;
  const { course, spot } = seen;
  // From afar the whole round is only legible in short words; full ones stand at the stitch in hand.
  const sentence = course ? sentenceOf(course, "short") : pieceName(seen);
  const kind = course?.kind ?? "round";
  const here = due?.here === true && due.given === null;
  // A count that was not given yet waits where else stands what is due in later rounds.
  const asked = here && props.whispers.some(({ kind }) => kind === "count");
  const ahead = due && !asked && (here || spot.next_cue?.distance_courses !== 0) ? countWaits(due) : cueAhead(spot, seen.strand);
  const before = lastCourse(seen.strand.courses, spot.course, seen.counts);
  const yarn = yarnInHand(seen.strand, seen.at);
  const odd = course && printedOtherwise(course, seen.mended);
  const said = [odd, before, yarn && `yarn: ${yarn}`].filter((text): text is string => Boolean(text));
  const passing = course ? passingIn(seen.strand, course) : "";
  const pause = waiting(seen);
  // Its name is read where the work is; the word to touch stands below, beside the field where a touch means "next".
  const offer = pause ? null : props.offer;
  const both = here && offer !== null;
  const amiss = pause ? pause.address.includes("/doubt.") : odd && !seen.mended && !due && !offer;
  // Where much is said in passing, a line of its own would push something off a phone.
  const offered = !offer || props.whispers.length > 2 ? [] : [`new here: ${offer}`];
  // Who reads short words knows most of it: an offer is one of the small lines there, and takes no room from the work.
  const aside = fullness === "short" && props.whispers.length === 0 ? offered : [];
  const [plan, small] = useMemo((): [Plan, string[]] => {
    const planned = (lines: string[]) => planFor(seen, sentence, fullness, box, { small: lines, far: ahead ?? "", passing }, font, measure);
    const bare = planned(said);
    const more = course && fullness === "full" ? spelledOut(course) : aside;
    if (more.length === 0) return [bare, said];
    // What comes is only spelled out where all that is read from afar stays as large; a card is only offered where the
    // sentence and the stitch in hand do.
    for (const lines of [[...more, ...said], more]) {
      const rich = planned(lines);
      if (rich.fits && rich.hand >= bare.hand && rich.sentence >= bare.sentence && (aside.length > 0 || rich.far >= bare.far)) return [rich, lines];
    }
    return [bare, said];
  }, [seen.strand, course, spot.repeats.length, sentence, fullness, box, font, said.join(), aside.join(), ahead?.replaceAll(/\d/g, "0")]);
  const open = useRef<HTMLButtonElement>(null);
  const felt = useRef(props.felt);
  felt.current = props.felt;
  useEffect(() => {
    if (!open.current) return;
    open.current.focus({ preventScroll: true });
    return listenTaps(open.current, (gesture) => felt.current(gesture));
  }, []);

  const above = pause ? Math.min(plan.sentence, SMALL_SENTENCE * plan.scale) : plan.sentence;
  const whispered = props.whispers.length > 0 || offered.length > aside.length;
  const showsDrawing = !whispered && (!pause || plan.columns === 2);
  // Beside what the hands do now, what is due rounds later only takes room.
  const soon = ahead !== null && !pause && (!whispered || (spot.next_cue?.distance_courses ?? 0) < 2);
  const lines = course ? placeLines(spot, course) : [];
  const large = props.whispers.filter((w) => !atFirst(w));
  let quieter = props.whispers.filter(atFirst);
  let cards = offered.length > aside.length ? offered : [];
  // What is known of the place gives way to what was said in passing, but for words that are only for first times.
  const facts = !pause && (!whispered || (fullness === "short" && large.length === 0)) ? small : [];
  const sizes = () => spokenSizes(large.map(whisperText), [...quieter.map(whisperText), ...cards, ...(whispered ? facts : [])], spot.stitch === 0 ? lines : [], (soon ? plan.side * 2 : 4) + (here && box.width < 380 ? plan.side * 3 : 0), plan, box, kind === "row", measure);
  let spoken = sizes();
  // Where even the smallest letters have no room, a card is not offered, and then words for first times are not shown.
  if (!spoken.fits) {
    cards = [];
    spoken = sizes();
  }
  if (!spoken.fits) {
    quieter = [];
    spoken = sizes();
  }
  const parts = course ? ended(openedOut(course, seen.done, fullness), endingIn(seen.strand, course, seen.at, seen.done)) : [];
  const inHand = parts.find((p) => p.state === "hand");
  const run = course && plainRun(course);
  return (
    <div
      class={`working columns-${plan.columns}${plan.fits ? "" : " long"}`}
      style={{
        "--sentence": `${above}px`,
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
          <SentenceLine text={sentence} course={course} done={seen.done} fullness="short" size={above} width={plan.width} font={font} />
        ) : (
          <div class="sentence">
            <h1>{sentence}</h1>
          </div>
        )}
        {pause ? (
          <Pause cue={pause} yarn={yarnToBegin(seen.strand, pause)} plan={plan} room={pauseRoom(sentence, props.whispers.map(whisperText), plan, box, measure)} />
        ) : (
          <>
            <OpenedOut parts={parts} done={seen.done} hand={plan.hand} width={plan.width} block={plan.block} />
            {course && (
              <p class={spoken.bare ? "place said" : "place"}>
                {lines.map((line, i) => (
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
          {props.whispers.filter((w) => large.includes(w) || quieter.includes(w)).map((w) => (
            <p key={w.address} class="whisper" style={{ fontSize: `${pause ? plan.side * 1.3 : quieter.includes(w) ? spoken.small : spoken.large}px` }}>
              {whisperText(w)}
            </p>
          ))}
          {cards.map((text) => (
            <p key={text} class="whisper" style={{ fontSize: `${Math.min(plan.side, spoken.small)}px` }}>
              {text}
            </p>
          ))}
          {facts.map((text) => <p key={text}>{text}</p>)}
          {soon && (
            <p class="ahead" style={whispered ? { fontSize: `${plan.side}px` } : undefined}>
              {ahead}
            </p>
          )}
        </div>
      </div>
      <div class={here ? "last counts" : "last"}>
        <p class={here ? "said" : ""}>{props.last}</p>
        {due &&
          (here ? (
            <>
              <Word text={`${due.n} it is`} says=", the count is right" ask="done" act={props.right} />
              <Word text={`not ${due.n}?`} ask="check" act={props.count} />
            </>
          ) : (
            <Word text={due.given === null ? `${due.n}?` : "mend"} says={` ${countWaits(due)}`} act={props.count} />
          ))}
        {/* Beside a count there is room for one of the two: the foot's "back" takes back as well, and a word shows a card. */}
        {offer && !(both && props.heard) && <Word text="show me" says={` ${offer}`} act={props.show} />}
        {amiss && <Word text="mend it" says=" in the pattern's text" act={props.text} />}
        {props.last !== null && (!both || props.heard) && !(here && amiss) && <Word text="take it back" act={props.undo} />}
      </div>
    </div>
  );
}

/** "count round 4: 24?", or what came of it. */
const countWaits = ({ name, n, given }: CountDue): string => (given === null ? `count ${name}: ${n}?` : `${given} for ${n} in ${name}: to be mended`);

/** Words for someone who does it for the first time: read once, and close by. */
const atFirst = ({ address }: StrandCue): boolean => address.includes("/learn-");

/** A word below the work that may be touched. */
const Word = ({ text, says, ask, act }: { text: string; says?: string; ask?: Ask; act: () => void }) => (
  <button type="button" class="word undo" onMouseDown={keepFocus} onClick={act}>
    {ask && <Key ask={ask} />}
    <span>{text}</span>
    {says && <i class="said">{says}</i>}
  </button>
);

/** The key that does the same as a button, where hands are at keys. */
export function Key({ ask }: { ask: Ask }) {
  const key = useByKeys() && keyShown(ask);
  return key ? <kbd aria-hidden="true">{key}</kbd> : null;
}

/** The longest line that is said in passing within a course; at its start the place's lines make way as well. */
const passingIn = (strand: Strand, course: StrandCourse): string =>
  strand.cues
    .filter((c) => c.weight === "whisper" && c.step > course.first && c.step < course.end)
    .reduce((longest, c) => (whisperText(c).length > longest.length ? whisperText(c) : longest), "");

/** A pause: shown large where the stitch in hand would stand. The next move answers it. */
function Pause({ cue, yarn, plan, room }: { cue: StrandCue; yarn: string | null; plan: Plan; room: number }) {
  const said = cue.words.short || cue.text;
  const title = yarn ? `Take up ${yarn}` : said;
  const { own, rest } = how(cue);
  // How it is done is read with yarn in both hands; the designer's words stand below it, where they say more.
  const more = rest || moreThan(said, own);
  const also = rest ? moreThan(said, own) : "";
  const near = Math.max(24, plan.side * 1.2);
  const most = { title: plan.hand * 0.8, body: (FAR_CAP / CAP) * plan.scale };
  const below = also ? linesOf(also, near, plan.width - 18, measure) * near * 1.3 + 12 : 0;
  const key = useByKeys() && keyShown("next");
  const way = key || "Touch";
  const on = Math.max(32, plan.hand * 0.28);
  const size = fitTitle(title, more, most, plan.width - 18, room - 44 - on - below, measure);
  // A stitch that is told of beforehand is counted by a move of its own: who makes it first would make it twice.
  const first = /^Next st/.test(more);
  const until = yarn ? " when you have it." : first ? ", then make it." : cue.basis === "written" && !/^do/i.test(title) ? " when it is done." : " to go on.";
  return (
    <div class="pause" style={{ minHeight: `${room}px` }} data-pauses={cue.address}>
      <p class="pause-title" style={{ fontSize: `${size.title}px` }}>
        {title}
      </p>
      {more && <p style={{ fontSize: `${size.body}px` }}>{more}</p>}
      {also && <p style={{ fontSize: `${Math.min(near, size.body)}px` }}>{also}</p>}
      <p class="pause-on" style={{ fontSize: `${on}px` }}>
        {way}
        {until}
      </p>
    </div>
  );
}

/** A finger on a button leaves the focus where it is: a pedal's Enter means "next" afterwards too. */
export const keepFocus = (event: MouseEvent): void => event.preventDefault();
