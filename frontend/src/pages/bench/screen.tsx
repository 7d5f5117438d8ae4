import { Refused, type Snapshot } from "../../api";
import type { Making } from "../../follow/making";
import type { Intent, MakingState } from "../../follow/stepping";
import type { StrandCue } from "../../generated/pattern";
import type { Gesture } from "../../hands/gestures";
import { maker } from "../../maker";
import { aimed, aimName } from "./aiming";
import type { Box } from "./box";
import { beginAgain } from "./carried";
import type { useChanged } from "./changing";
import type { CountDue } from "./counts";
import { Fetching } from "./fetching";
import type { useFinishList } from "./finishing";
import { Halt } from "./halt";
import type { Mode } from "./handsfree/expecting";
import { late } from "./late";
import type { Shown } from "./offering";
import { ended, moreThan, placeBrief, saidFor, whenNow } from "./place";
import { moveSaid, refusalSentence } from "./said";
import { copyName, isSection, notLost, seeRun, type Seen, waiting } from "./seen";
import type { SheetName } from "./sheets";
import { Unread } from "./unread";
import { Working } from "./working";

const Finished = late(() => import("./closing").then((m) => m.Finished));
const Offer = late(() => import("./closing").then((m) => m.Offer));
const PatternChanged = late(() => import("./changed").then((m) => m.PatternChanged));
const ReadyStop = late(() => import("./readystop").then((m) => m.ReadyStop));
const Restored = late(() => import("./restored").then((m) => m.Restored));
const Settle = late(() => import("./closing").then((m) => m.Settle));

interface Props {
  making: Making;
  snapshot: Snapshot | null;
  state: MakingState | null;
  seen: Seen | null;
  mode: Mode;
  changed: ReturnType<typeof useChanged>["value"];
  /** The run that the order of work wants in hand. */
  offered: string | null;
  /** Every run is worked to its end. */
  worked: boolean;
  finishing: ReturnType<typeof useFinishList>;
  cards: Shown;
  /** Hands-free is on: its foot has no "back", and a word shows a card. */
  heard: boolean;
  due: CountDue | null;
  whispers: StrandCue[];
  box: Box | null;
  font: Parameters<typeof Working>[0]["font"];
  move: (intent: Intent) => boolean;
  back: () => void;
  right: () => void;
  undo: () => void;
  take: () => void;
  stay: () => void;
  felt: (gesture: Gesture) => void;
  open: (sheet: SheetName) => void;
  say: (text: string) => void;
}

/** What the bench shows between head and foot: the work, or what has to be answered before it goes on. */
export function Screen(bench: Props) {
  const { making, snapshot, state, seen, mode, changed, box, back, say } = bench;
  if (!snapshot || !state || !seen || !box) return <Fetching absent={making.absent.value} />;
  const question = making.question.value;
  const claims = making.claims.value;
  if (question) return <Restored question={question} snapshot={snapshot} state={state} box={box} resolve={making.resolve} />;
  if (changed && claims.length === 0) return <PatternChanged making={making.id} changed={changed} box={box} tell={say} />;
  if (mode === "settle") return <Settle snapshot={snapshot} claims={claims} box={box} settle={(run, to) => making.settle(run, to)} />;
  if (mode === "stop") return <Stop {...bench} seen={seen} box={box} />;
  if (mode === "unread" && seen.course) {
    const { id } = seen.course;
    return <Unread course={seen.course} next={seen.strand.courses[(seen.spot.course ?? 0) + 1]} box={box} done={(count) => bench.move({ intent: "done", cue: id, count })} back={back} />;
  }
  const piece = snapshot.runs.find((r) => r.run === seen.run) ?? seen;
  if (mode === "offer" && bench.offered) {
    const other = snapshot.runs.find((r) => r.run === bench.offered) ?? piece;
    const strand = snapshot.strands[state.runs[bench.offered]?.strand ?? ""];
    const section = strand !== undefined && isSection(strand);
    const there = seeRun(snapshot, state, bench.offered);
    const lies = there && there.at > 0 ? placeBrief(there.spot, there.course) : "";
    return <Offer {...{ making, snapshot, state, seen, run: bench.offered, other, section, lies, box }} items={bench.finishing} passed={passed(bench.whispers)} take={bench.take} stay={bench.stay} list={() => bench.open("parts")} />;
  }
  if (mode === "finished") {
    return (
      <Finished
        {...{ making, snapshot, state }}
        piece={copyName(piece)}
        section={isSection(seen.strand)}
        all={bench.worked}
        passed={passed(bench.whispers)}
        items={bench.finishing}
        list={() => bench.open("parts")}
        again={() => void beginAgain(making.id).catch((why: unknown) => say(why instanceof Refused ? why.say : String(why)))}
        box={box}
        runs={() => bench.open("runs")}
        back={back}
      />
    );
  }
  const { hand, words } = maker.value;
  const last = seen.last;
  return (
    <Working
      seen={seen}
      fullness={words}
      hand={hand}
      box={box}
      font={bench.font}
      whispers={bench.whispers}
      due={bench.due}
      right={bench.right}
      count={() => bench.open("count")}
      offer={bench.cards.offer}
      heard={bench.heard}
      show={() => bench.open("show")}
      text={() => bench.open("pattern")}
      last={last ? (last.took && last.from === seen.at ? `Now ${copyName(piece)}` : moveSaid(seen.strand, last.from, seen.at)) : null}
      felt={bench.felt}
      undo={bench.undo}
    />
  );
}

/** What was said in passing just now, as sentences. */
const passed = (whispers: readonly StrandCue[]): string[] => notLost(whispers).map((cue) => ended(cue.words.full || cue.text));

/** Something must be done before the hook goes on. */
function Stop({ making, snapshot, state, seen, box, cards, due, whispers, move, right, back, open, say }: Props & { seen: Seen; box: Box }) {
  const cue = waiting(seen);
  if (!cue) return null;
  const { words, text, address } = cue;
  if (snapshot && state && address.includes("/ready-")) return <ReadyStop {...{ cue, snapshot, state, box, back, say }} move={making.move} />;
  const aim = aimName(aimed.value, seen.run, seen.strand);
  const uncounted = due?.here && due.given === null ? due : null;
  const when = aim ? `You said that you are at the end of ${aim}. This came on the way; once it is done you stand there.` : whenNow(seen.spot, seen.strand.courses);
  const [said, reason] = saidFor(words.full || text);
  const ours = cue.basis === "worked out" && !address.includes("/moved-") && !reason ? "The pattern does not say so; Hookside worked it out." : "";
  return (
    <Halt
      what={address}
      title={words.short || text}
      body={[uncounted && `Count first: ${uncounted.n} in ${uncounted.name}.`, ...passed(whispers), moreThan(words.short || text, said)].join(" ").trim()}
      why={`${when} ${reason || ours}`.trim()}
      box={box}
      tone="waits"
      answers={[
        { text: "Done", main: true, act: () => move({ intent: "done", cue: address }) && uncounted && say(`Done, but ${uncounted.name} is not counted.`) },
        ...(uncounted
          ? [
              { text: `${uncounted.n} it is`, act: right },
              { text: `not ${uncounted.n}?`, act: () => open("count") },
            ]
          : []),
        { text: "Go back", act: back },
        ...(cards.waits ? [{ text: "Show me", act: () => open("show") }] : []),
      ]}
      beside={() => say(refusalSentence("stop"))}
    />
  );
}
