import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, Refused, type Snapshot } from "../../api";
import type { Hand } from "../../drawings/ring";
import { useTicks } from "../../follow/choices";
import type { Making } from "../../follow/making";
import type { MakingState } from "../../follow/stepping";
import type { FinishItem } from "../../generated/pattern";
import { Card } from "../cards/card";
import { cardCalled, inTerms } from "../cards/which";
import { inHers } from "./finishing";
import { answered, leftOf, passedBy } from "./finishleft";
import { copyName, isSection, seeRun } from "./seen";
import { Sheet } from "./sheet";
import { useTaker } from "./taking";
import { answerTicked } from "./tickedoff";
import "./finish.css";

interface Props {
  making: Making;
  snapshot: Snapshot;
  state: MakingState;
  hand: Hand;
  read: (text: string) => void;
  tell: (text: string) => void;
  close: () => void;
}

const FAR = 56; // letters that can stand as large as for a metre away

/** What is left when every part is worked: the next job large, the whole list below it, each with its tick. */
export function FinishSheet(props: Props) {
  const items = useSignal<FinishItem[] | null>(null);
  const why = useSignal("");
  const { id } = props.snapshot;
  useEffect(() => {
    let here = true;
    api.finish(id).then(
      (found) => here && (items.value = found),
      (trouble: unknown) => here && (why.value = trouble instanceof Refused ? trouble.say : "The list could not be fetched. Try again in a moment."),
    );
    return () => {
      here = false;
    };
  }, [id]);
  return (
    <Sheet title="Finish list" close={props.close}>
      {items.value === null ? (
        <p role={why.value ? "alert" : "status"}>{why.value || "Fetching the list."}</p>
      ) : items.value.length === 0 ? (
        <p>There is nothing here to pin, sew or weave in.</p>
      ) : (
        <List {...props} items={inHers(items.value)} />
      )}
    </Sheet>
  );
}

function List({ making, snapshot, state, hand, read, tell, close, items }: Props & { items: readonly FinishItem[] }) {
  const [ticked, tick] = useTicks(making, "finish");
  const shown = useSignal(false);
  const passed = answered(items, snapshot, state);
  const done = (id: string) => ticked.includes(id) || passed.has(id);
  const left = leftOf(items, ticked, snapshot, state);
  const late = passedBy(items, ticked, snapshot, state);
  const many = items.filter((item) => done(item.id)).length;
  const now = left[0];
  const card = now?.card ? cardCalled(now.card) : undefined;
  const say = () => read(now ? now.spoken : "Everything is done.");
  useEffect(say, [now?.id]);

  const set = (item: FinishItem, on: boolean) => {
    shown.value = false;
    if (!tick(item.id, on)) tell("It could not be ticked just now. Try again in a moment.");
    else if (on) answerTicked(making, snapshot, items, [...ticked, item.id]);
  };
  const did = () => (now ? set(now, true) : close());
  const back = () => {
    const last = ticked.findLast((id) => items.some((item) => item.id === id));
    const item = items.find((one) => one.id === last);
    if (item) set(item, false);
  };
  useTaker({
    answers: ["done", "next", "back", "undo", "again", "show", "no", "hold"],
    word: ({ intent }) => {
      if (intent === "done" || (intent === "next" && !now)) did();
      else if (intent === "next") read(now?.spoken ?? "");
      else if (intent === "back" || intent === "undo") back();
      else if (intent === "again") say();
      else if (intent === "show") shown.value = true;
      else if (intent === "no") close();
      else return false;
      return true;
    },
    key: (ask) => {
      if (ask === "done") did();
      else if (ask === "next" && !now) close();
      else if (ask === "back" || ask === "undo") back();
      else if (ask === "again" || ask === "where" || ask === "next") say();
      else if (ask === "show") shown.value = !shown.value;
      else if (ask === "parts") close();
    },
  });

  const working = snapshot.runs.filter(({ run }) => {
    const seen = seeRun(snapshot, state, run);
    return seen && !isSection(seen.strand) && !seen.spot.finished;
  });
  return (
    <>
      {working.length > 0 && (
        <p class="still">
          For when every part is worked. Still to work: {working.map(copyName).slice(0, 4).join(", ")}
          {working.length > 4 ? ` and ${working.length - 4} more` : ""}.
        </p>
      )}
      <div class="job" role="group" aria-label="Next">
        <p class={(now?.text.length ?? 0) <= FAR ? "job-now far" : "job-now"}>{now ? now.text : "Everything is done."}</p>
        <div class="sheet-answers">
          <button type="button" class="answer main" onClick={did}>
            {now ? "Done" : "Close"}
          </button>
          {card && (
            <button type="button" class="answer" aria-expanded={shown.value} onClick={() => (shown.value = !shown.value)}>
              Show me
            </button>
          )}
        </div>
        {now?.more && <p class="job-more">{now.more}</p>}
        {now?.basis === "worked out" && <p class="soft">Not in the pattern: Hookside adds it.</p>}
        {card && shown.value && (
          <>
            <h3>{inTerms(card.title, snapshot.terms)}</h3>
            <Card card={card} terms={snapshot.terms} hand={hand} />
          </>
        )}
      </div>
      <h3>
        {many} of {items.length} done{late.size > 0 && `, ${late.size} passed by`}
      </h3>
      <ul class="jobs">
        {items.map((item) => (
          <li key={item.id} class={item === now ? "now" : undefined}>
            <label class="tick">
              <input type="checkbox" checked={done(item.id)} disabled={passed.has(item.id)} onChange={(e) => set(item, e.currentTarget.checked)} />
              <span>
                {item.text}
                {late.has(item.id) && <em> Passed by: it belonged before the sewing.</em>}
              </span>
            </label>
          </li>
        ))}
      </ul>
      <p class="said" role="status">
        {now ? `${many} of ${items.length} done. Next: ${now.text}` : "Everything is done."}
      </p>
    </>
  );
}
