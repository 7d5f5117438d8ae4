import { useSignal } from "@preact/signals";
import { api, type Changed, type ChangedAnswer, type Recast, Refused } from "../../api";
import type { Box } from "./box";
import { type Answer, Halt } from "./halt";
import { sentenceCase } from "./place";

interface Props {
  making: number;
  changed: Changed;
  box: Box;
  /** Says why an answer was not taken. */
  tell: (sentence: string) => void;
}

const STAY = "Keep to the old text";
const AS_IT_WAS = "Keep it as it was";
/** "You are in round 3, 2 of 18 made"; of several pieces "Float: round 3, 2 of 18 made". */
const where = (run: Recast, several: boolean) =>
  several && run.piece ? `${run.piece}: ${run.to.say}` : `You are ${/^(round|row) /.test(run.to.say) ? "in " : ""}${run.to.say}`;

/** The pattern was changed while it is being made: what is different, where she is, and whether to go on by it. */
export function PatternChanged({ making, changed, box, tell }: Props) {
  const places = useSignal<Record<string, number>>({});
  const waits = useSignal(false);
  /** The places to go on at, while what lies behind them is asked for. */
  const behind = useSignal<Record<string, number> | null>(null);
  const runs = changed.runs ?? [];
  const begun = runs.filter((run) => run.begun);
  const several = begun.length > 1;
  const answer = (said: ChangedAnswer) => {
    if (waits.value) return;
    waits.value = true;
    const done = () => {
      waits.value = false;
    };
    api.answerChanged(making, said).then(done, (e: unknown) => {
      done();
      tell(e instanceof Refused ? e.say : "This was not taken. Try once more.");
    });
  };
  const missed = begun.flatMap((run) => run.missed.map((cue) => `${cue.text.replace(/[.\s]+$/, "")}.`));
  const take = (known: Record<string, number>) =>
    answer({
      stay: false,
      digest: changed.digest ?? "",
      head: changed.head ?? 0,
      places: known,
      ...(changed.cannot ? { anyway: true } : {}),
    });
  // What lies behind the new place would never come up again: it is asked for here, in full, before she goes on.
  const goOn = (known: Record<string, number>) => {
    if (missed.length > 0) behind.value = known;
    else take(known);
  };
  const chose = (changed.chosen ?? []).length > 0;
  const title = chose ? "What you chose changes the steps" : "The pattern was changed";
  const stay: Answer = { text: chose ? AS_IT_WAS : STAY, act: () => answer({ stay: true, head: changed.head ?? 0 }) };
  const unsure = begun.find((run) => !run.sure && places.value[run.run] === undefined);
  if (changed.cannot)
    return (
      <Halt
        what={`changed-${changed.head ?? ""}-cannot`}
        title={title}
        body={changed.cannot}
        why="You can go on with the steps you have until the text is mended."
        box={box}
        tone="waits"
        answers={changed.digest && !unsure ? [{ ...stay, main: true }, { text: "Go on by it anyway", act: () => goOn(places.value) }] : [{ ...stay, main: true }]}
      />
    );
  const known = behind.value;
  if (known)
    return (
      <Halt
        what={`changed-${changed.head ?? ""}-behind`}
        title={missed.length === 1 ? "This lies behind you, and was never asked" : "These lie behind you, and were never asked"}
        body={missed.join(" ")}
        why="Do it now, while you still reach it. Hookside does not ask again."
        box={box}
        tone="waits"
        answers={[
          { text: "Done", main: true, act: () => take(known) },
          { text: "Go on without", act: () => take(known) },
          stay,
        ]}
      />
    );
  if (unsure) {
    const place = (at: number) => {
      places.value = { ...places.value, [unsure.run]: at };
      if (!begun.some((run) => !run.sure && places.value[run.run] === undefined)) goOn(places.value);
    };
    const choices = [...new Map([unsure.to, unsure.start].map((spot) => [spot.at, spot])).values()];
    const texts = unsure.was && unsure.now && unsure.was !== unsure.now ? ` It was “${unsure.was}”, now it is “${unsure.now}”.` : "";
    return (
      <Halt
        what={`changed-${changed.head ?? ""}-${unsure.run}`}
        title="Where is your hook?"
        body={`${changed.say ?? ""} You are in what was ${unsure.from.say}${several && unsure.piece ? ` of ${unsure.piece}` : ""}.${texts}`}
        why={`Choose the place that fits, or ${chose ? "keep it as it was" : "keep to the text as it was when you began"}.`}
        box={box}
        tone="waits"
        answers={[...choices.map((spot) => ({ text: sentenceCase(spot.say), main: true, act: () => place(spot.at) })), stay]}
      />
    );
  }
  const told = begun.length
    ? `${begun.map((run) => where(run, several)).join("; ")}: go on there?`
    : runs.length
      ? "You have not begun what is different. Go on by it?"
      : "Go on by it?";
  return (
    <Halt
      what={`changed-${changed.head ?? ""}`}
      title={title}
      body={`${(changed.say ?? "").replace(/^(The pattern was changed|What you chose changes what you work by)\. ?/, "")} ${told}`.trim()}
      why={missed.length ? "Something lies behind you then that was never asked: it comes next." : ""}
      box={box}
      tone="waits"
      answers={[{ text: "Go on there", main: true, act: () => goOn(places.value) }, stay]}
    />
  );
}
