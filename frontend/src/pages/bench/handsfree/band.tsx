import type { Holding, Session } from "../../../hands/session";
import { changeMaker, maker } from "../../../maker";
import { keepFocus } from "../working";
import { COUNTS } from "./choices";
import type { Question } from "./hands";

const HELD: Record<Holding, string> = {
  asked: "Holding.",
  rest: "Resting until you move on.",
  hidden: "This page was out of sight, so it holds.",
  call: "The microphone was taken away, perhaps by a call, so it holds.",
  nothing: "Nothing was said or moved for a while, so it holds.",
};

interface Props {
  session: Session;
  question: Question | null;
  answered: () => void;
  /** What can be said to make it listen again; "" where that is not known. */
  wake: string;
  listen: () => void;
  /** Why it cannot hear is read and put away: the foot goes on saying that it does not listen. */
  away: boolean;
  putAway: () => void;
}

/** Above the foot, only while it is needed: a question, why it holds, why it cannot hear. */
export function Band({ session, question, answered, wake, listen, away, putAway }: Props) {
  const sign = session.sign.value;
  const held = session.held.value;
  if (question) {
    const [yes, no] = question.words ?? ["yes", "no"];
    const act = (answer?: () => void) => () => {
      answered();
      answer?.();
    };
    return (
      <section class="band asks" role="group" aria-label={question.text}>
        <p role="alert">{question.text}</p>
        <div class="band-answers" onMouseDown={keepFocus}>
          <button type="button" class="answer main" onClick={act(() => question.yes())}>
            {yes}
          </button>
          <button type="button" class="answer" onClick={act(question.no)}>
            {no}
          </button>
        </div>
      </section>
    );
  }
  if (held) {
    const hears = session.why.value === "" && wake !== "";
    return (
      <section class="band holds">
        <p role="status">
          {HELD[held]} {hears ? `Say “${wake}”, or touch listen.` : "Touch listen to go on."}
        </p>
      </section>
    );
  }
  if (sign === "deaf" && away) return null;
  if (sign === "deaf")
    return (
      <section class="band deaf">
        <p role="alert">{session.why.value}</p>
        <div class="band-answers" onMouseDown={keepFocus}>
          {session.ear.standing.value !== "away" && (
            <button type="button" class="answer" onClick={listen}>
              {session.ear.standing.value === "taken" ? "listen here" : "try again"}
            </button>
          )}
          <button type="button" class="answer" onClick={putAway}>
            go on by touch
          </button>
        </div>
      </section>
    );
  if (maker.value.counting === null && sign !== "starting")
    return (
      <section class="band asks" role="group" aria-label="Counting aloud">
        <p>Do you count aloud while you work?</p>
        <div class="band-answers" onMouseDown={keepFocus}>
          {COUNTS.map(([counting, words]) => (
            <button key={counting} type="button" class="answer" onClick={() => void changeMaker({ counting }).catch(() => undefined)}>
              {words}
            </button>
          ))}
        </div>
      </section>
    );
  return null;
}
