import { useState } from "preact/hooks";
import { locate } from "../../follow/place";
import { cueName, placeBrief, sentenceCase } from "./place";
import type { Strand } from "../../generated/pattern";
import type { Seen } from "./seen";
import { courseName } from "./sentence";
import { Sheet } from "./sheet";
import { costOf, coursesBehind, lastRepeat, stepBehind, undoing } from "./ways";

interface Props {
  seen: Seen;
  /** A place that is proposed already: only its cost is asked. */
  first?: number;
  /** How many stitches lie between, where a count came out with others than the pattern has up to here. */
  many?: number | null;
  /** Where it was proposed: back to where that was chosen from. */
  elsewhere?: () => void;
  /** `then`: what to count when the hands have ripped. */
  rip: (to: number, then: string) => void;
  close: () => void;
}

/** What to count once it is ripped. */
function countAfter(strand: Strand, to: number): string {
  const { course: index, stitch } = locate(strand, to);
  const course = index === null ? undefined : strand.courses[index];
  if (course && stitch > 0) return `Then count: ${stitches(stitch)} from ${course.kind === "row" ? "the start of the row" : "the marker"} to the hook.`;
  const before = strand.courses[(index ?? strand.courses.length) - 1];
  return before?.makes ? `Then count ${courseName(before).toLowerCase()}: it should have ${before.makes}.` : "";
}

const stitches = (n: number) => `${n} ${n === 1 ? "stitch" : "stitches"}`;

/** Ripping back: first where to, then what it costs, asked once. */
export function RipSheet({ seen, first, many, elsewhere, rip, close }: Props) {
  const { strand, at } = seen;
  const [to, setTo] = useState<number | null>(first ?? null);
  const [count, setCount] = useState("");
  const repeat = lastRepeat(strand, at);
  const behind = coursesBehind(strand, at);

  if (at === 0)
    return (
      <Sheet title="Rip back" close={close} walked>
        <p>Nothing is worked yet, so there is nothing to rip.</p>
      </Sheet>
    );

  if (to !== null) {
    const cost = costOf(strand, at, to);
    const pulled = stitches(many ?? cost.stitches);
    const then = countAfter(strand, to);
    const spot = locate(strand, to);
    const where = placeBrief(spot, spot.course === null ? undefined : strand.courses[spot.course]);
    return (
      <Sheet title={`Rip back ${pulled}?`} close={close} walked>
        <p class="large">
          You will be {where.startsWith("at") || where.startsWith("after") ? where : `in ${where}`}. Clip a marker into the stitch to stop at, pull the hook out, and draw the thread gently.
        </p>
        <p class="large">{then}</p>
        {cost.reopened.length > 0 && (
          <>
            <p>These were passed and will be asked again:</p>
            <ul class="list">
              {cost.reopened.map((cue) => (
                <li key={cue.address}>
                  <b>{sentenceCase(cueName(cue, strand.terms))}</b>
                  {undoing(cue, strand.terms) && `: ${undoing(cue, strand.terms)}`}
                </li>
              ))}
            </ul>
          </>
        )}
        <div class="sheet-answers stay">
          <button type="button" class="answer main waits" onClick={() => rip(to, then)}>
            Ripped, {pulled}
          </button>
          <button type="button" class="answer" onClick={elsewhere ?? (() => setTo(null))}>
            Not there
          </button>
        </div>
      </Sheet>
    );
  }

  const send = (event: Event) => {
    event.preventDefault();
    const n = Number(count);
    if (/^\d{1,4}$/.test(count.trim()) && n > 0) setTo(stepBehind(strand, at, n));
  };
  return (
    <Sheet title="Rip back to where?" close={close} walked>
      <form class="asked" onSubmit={send}>
        <label class="count">
          <span>by stitches</span>
          <input inputMode="numeric" autocomplete="off" maxLength={4} value={count} onInput={(e) => setCount(e.currentTarget.value)} />
        </label>
        <button type="submit" class="answer">
          what it costs
        </button>
      </form>
      <ul class="ways">
        {repeat !== null && (
          <li>
            <button type="button" class="way" onClick={() => setTo(repeat)}>
              <b>The start of the last repeat</b>
              <span>{stitches(costOf(strand, at, repeat).stitches)} to pull out</span>
            </button>
          </li>
        )}
        {behind.map((course) => (
          <li key={course.id}>
            <button type="button" class="way" onClick={() => setTo(course.first)}>
              <b>The start of {courseName(course).toLowerCase()}</b>
              <span>{stitches(costOf(strand, at, course.first).stitches)} to pull out</span>
            </button>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
