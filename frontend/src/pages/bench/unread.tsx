import { useEffect, useRef, useState } from "preact/hooks";
import type { StrandCourse } from "../../generated/pattern";
import type { Box } from "./box";
import { haltSizes, useDeaf } from "./halt";
import { offBy, sentenceCase, takenUp } from "./place";
import { courseName } from "./sentence";

interface Props {
  course: StrandCourse;
  /** The one that is worked into it. */
  next: StrandCourse | undefined;
  box: Box;
  done: (count: number) => void;
  back: () => void;
}

/** A course that could not be read: the designer's own words, and the count comes from the maker. */
export function Unread({ course, next, box, done, back }: Props) {
  const size = Math.min(64, haltSizes(course.text, "", "", box, 420).title);
  const [count, setCount] = useState("");
  const [say, setSay] = useState("");
  const [warned, setWarned] = useState<number | null>(null);
  const awake = useDeaf(course.id);
  const field = useRef<HTMLInputElement>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    setCount("");
    setSay("");
    setWarned(null);
    // Not the field: a keyboard sliding up would cover the words that are to be worked.
    heading.current?.focus({ preventScroll: true });
  }, [course.id]);
  const send = (event: Event) => {
    event.preventDefault();
    if (!awake()) return;
    if (!/^\d{1,4}$/.test(count.trim()) || Number(count) > 2000) {
      setSay("Count the stitches you made and type the number, 0 to 2000.");
      field.current?.focus();
      return;
    }
    const made = Number(count);
    const uses = takenUp(course, next);
    const wanted = uses ?? course.declared;
    if (wanted !== null && made !== wanted && made !== warned) {
      setWarned(made);
      const why = [course.declared === null ? "" : `${wanted} are printed`, next && uses !== null ? `${courseName(next).toLowerCase()} takes up ${uses}` : ""];
      setSay(`${sentenceCase(why.filter(Boolean).join(", and "))}. You typed ${made}: ${offBy(made, wanted)}. Count once more; if ${made} it is, touch Done again.`);
      return;
    }
    done(made);
  };
  return (
    <section class="halt waits in-words" aria-label={courseName(course)} data-waits={course.id}>
      <div class="halt-words">
        <p class="why">{courseName(course)}, in the designer's words:</p>
        <h1 ref={heading} tabIndex={-1} style={{ fontSize: `${size}px` }}>
          {course.text}
        </h1>
        <p class="why">I could not read this one. Work it as it says, then tell me how many stitches you made.</p>
      </div>
      <form class="halt-answers" onSubmit={send} noValidate>
        <label class="count">
          <span>stitches made</span>
          <input
            ref={field}
            inputMode="numeric"
            autocomplete="off"
            maxLength={4}
            value={count}
            aria-describedby="count-say"
            onInput={(event) => setCount(event.currentTarget.value)}
          />
        </label>
        <button type="submit" class="answer main">
          Done
        </button>
        {course.declared !== null && (
          <button type="button" class="answer" onClick={() => awake() && course.declared !== null && done(course.declared)}>
            {course.declared}, as printed
          </button>
        )}
        <button type="button" class="answer" onClick={() => awake() && back()}>
          Go back
        </button>
        <p id="count-say" role="alert" class="why">
          {say}
        </p>
      </form>
    </section>
  );
}
