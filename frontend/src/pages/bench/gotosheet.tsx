import { useEffect, useRef, useState } from "preact/hooks";
import type { StrandCourse } from "../../generated/pattern";
import { type Seen, waiting } from "./seen";
import { courseName, type Fullness, sentenceOf } from "./sentence";
import { Sheet } from "./sheet";
import { stepAtStitch } from "./ways";

interface Props {
  seen: Seen;
  fullness: Fullness;
  go: (to: number) => void;
  close: () => void;
}

/** Going to another place: a course from the list, then a stitch in it. */
export function GotoSheet({ seen, fullness, go, close }: Props) {
  const [course, setCourse] = useState<StrandCourse | null>(null);
  const here = useRef<HTMLLIElement>(null);
  const pause = waiting(seen);
  useEffect(() => here.current?.scrollIntoView({ block: "center" }), []);
  if (course) return <Stitch seen={seen} course={course} go={go} again={() => setCourse(null)} close={close} />;
  return (
    <Sheet title="Go to which one?" close={close} walked>
      <p>
        Going forwards halts at the first thing that waits on the way.
        {pause && ` What is asked here now counts as done then: ${pause.words.short || pause.text}.`}
      </p>
      <ul class="ways">
        {seen.strand.courses.map((c) => (
          <li key={c.id} ref={c === seen.course ? here : undefined}>
            <button type="button" class="way" aria-current={c === seen.course ? "step" : undefined} onClick={() => setCourse(c)}>
              <b>{sentenceOf(c, fullness)}</b>
              <span>{c === seen.course ? "here" : seen.at >= c.end ? "worked" : "ahead"}</span>
            </button>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}

function Stitch(props: { seen: Seen; course: StrandCourse; go: (to: number) => void; again: () => void; close: () => void }) {
  const { seen, course } = props;
  const most = course.makes ?? 0;
  const [count, setCount] = useState("0");
  const n = /^\d{1,4}$/.test(count.trim()) ? Number(count) : Number.NaN;
  const good = n >= 0 && n <= most;
  const send = (event: Event) => {
    event.preventDefault();
    if (good) props.go(stepAtStitch(seen.strand, course, n));
  };
  return (
    <Sheet title={`${courseName(course)}: how many stitches are made?`} close={props.close} walked>
      <form class="asked" onSubmit={send}>
        <label class="count">
          <span>stitches made, 0 to {most}</span>
          <input inputMode="numeric" autocomplete="off" maxLength={4} value={count} onInput={(e) => setCount(e.currentTarget.value)} />
        </label>
        <p role="status">{good ? "" : `${courseName(course)} makes ${most}. Type a number from 0 to ${most}.`}</p>
        <div class="sheet-answers">
          <button type="submit" class="answer main">
            Go there
          </button>
          <button type="button" class="answer" onClick={props.again}>
            Another one
          </button>
        </div>
      </form>
    </Sheet>
  );
}
