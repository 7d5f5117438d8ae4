import { useEffect } from "preact/hooks";
import type { Snapshot } from "../../api";
import type { Making } from "../../follow/making";
import type { MakingState } from "../../follow/stepping";
import type { FinishItem } from "../../generated/pattern";
import { go, toShelf } from "../../route";
import type { Box } from "./box";
import { beforeSewing, leftOf } from "./finishleft";
import { Halt } from "./halt";
import { sentenceCase, unbroken } from "./place";
import { copyName, goesOn, isSection, onTo, type Seen, sectionName } from "./seen";
import { courseName } from "./sentence";
import { answerTicked } from "./tickedoff";

// One file for all that ends or interrupts the work: each has a line in the worker.
export { FinishSheet } from "./finishsheet";
export { Settle } from "./settle";

/** The making, and what is to do when every part of it is worked; null until that is known. */
interface Listed {
  making: Making;
  snapshot: Snapshot;
  state: MakingState;
  items: readonly FinishItem[] | null;
}

const tickedIn = (making: Making): readonly string[] => making.chosen.value.ticks?.finish ?? [];

interface OfferProps extends Listed {
  seen: Seen;
  /** The run that is offered. */
  run: string;
  other: { piece: string; copy: number; copies: number };
  /** The other one is a section of jobs, such as the finishing: no part that one takes up. */
  section: boolean;
  /** Where the other one lies, of a piece that is begun; "" of one that is not. */
  lies: string;
  /** What was said in passing at this end, as sentences. */
  passed: readonly string[];
  box: Box;
  take: () => void;
  stay: () => void;
  list: () => void;
}

/** The order of work wants another run in hand: offered like a stop, and free to be declined. */
export function Offer({ making, snapshot, state, items, seen, run, other, section, lies, passed, box, take, stay, list }: OfferProps) {
  const ticked = tickedIn(making);
  // What the finish list has to be done before the first job of that section: blocking, for one
  const first = section ? beforeSewing(items ?? [], ticked, snapshot, state) : null;
  // What was ticked before its turn has come to it.
  useEffect(() => {
    if (section && items) answerTicked(making, snapshot, items, ticked);
  }, [items]);
  const mine = copyName(seen);
  const name = section ? sectionName(other.piece) : copyName(other);
  const then = section ? `Next: ${name}.` : `Take up ${name}`;
  const open = !section && lies ? ` It lies open, ${lies}.` : "";
  const ended = seen.spot.finished;
  const before = seen.strand.courses[(seen.spot.course ?? seen.strand.courses.length) - 1];
  const beforehand = first ? `Before ${name}: ${first}` : then;
  const aside = `Set it aside with the loop live, a marker through it. ${section ? then : `${then}.`}`;
  // "Do not fasten off the second leg": what comes next may start from this loop, so it is neither cut nor laid by.
  const ending = seen.strand.cues.filter((c) => c.step >= (seen.strand.courses.at(-1)?.end ?? 0) && (c.kind === "fasten" || c.kind === "hold"));
  const onto = snapshot.strands[state.runs[run]?.strand ?? ""];
  const on = ended && !section && state.runs[run]?.history.length === 0 && seen.copies === 1 && other.copies === 1 && onto ? goesOn(seen.strand, onto) : null;
  const live = ended && (on !== null || ending.at(-1)?.kind === "hold");
  const alike = seen.strand.cues.some((c) => c.kind === "stuff") ? "match its stuffing" : "make the next one the same size, at the same tension";
  const like = `Keep it beside you and ${alike}. ${then} next.`;
  return (
    <Halt
      what={`${seen.run}@${seen.at}`}
      title={ended ? `${unbroken(mine)} is ${live ? "worked" : isSection(seen.strand) ? "done" : "finished"}` : before ? `${mine}: ${courseName(before).toLowerCase()} is done` : `${mine} is begun`}
      body={[...passed, !ended ? aside : other.piece === seen.piece ? like : on ? `Do not cut its yarn, and keep the loop on the hook: ${courseName(on).toLowerCase()} of ${name} goes on in these ${on.uses} stitches. ${then} next.` : live ? `Do not cut its yarn: the loop stays on the hook or on a marker. ${then}${section ? "" : " next."}` : section ? beforehand : `${isSection(seen.strand) ? "" : "Lay it by. "}${then} next.${open}`].join(" ")}
      box={box}
      tone="comes"
      answers={[
        ...(section && first ? [{ text: "Finish list", main: true, act: list }] : []),
        { text: section ? sentenceCase(onTo(other.piece)) : then, main: !(section && first), act: take },
        ...(section && !first ? [{ text: "Finish list", act: list }] : []),
        { text: ended ? "Look at it a while" : `Stay with ${mine}`, act: stay },
      ]}
    />
  );
}

interface FinishedProps extends Listed {
  piece: string;
  all: boolean;
  /** What was said in passing at this end, as sentences. */
  passed: readonly string[];
  section: boolean;
  box: Box;
  runs: () => void;
  list: () => void;
  again: () => void;
  back: () => void;
}

/** Nothing waits and nothing presses: a piece, or the whole making, is finished. */
export function Finished({ making, snapshot, state, items, piece, all, passed, section, box, runs, list, again, back }: FinishedProps) {
  const { title } = snapshot;
  const left = items && leftOf(items, tickedIn(making), snapshot, state);
  const listed = all && left?.length !== 0;
  const head = all ? (listed ? "All is worked" : "All finished") : `${piece} is ${section ? "done" : "finished"}`;
  const first = left?.[0];
  const body = listed
    ? first
      ? `${left.length === 1 ? "One thing is left" : `${left.length} things are left`}. Next: ${first.text}`
      : "What is left to pin, to sew and to weave in stands on the finish list."
    : all
    ? `${title}: every piece is worked and nothing waits. Look for loose ends once more, then put the hook down and look at it.`
    : section
      ? "Nothing of it is left. Take up another piece when you like."
      : "Its last stitch is made and nothing waits. Take up another piece when you like.";
  return (
    <Halt
      what={`finished ${piece}`}
      title={head}
      body={[...passed, body].join(" ")}
      box={box}
      tone="calm"
      answers={[
        ...(listed ? [{ text: "Finish list", main: true, act: list }] : []),
        all ? { text: "To the shelf", main: !listed, act: () => go(toShelf) } : { text: "Pieces and copies", main: true, act: runs },
        ...(all ? [{ text: "The same again", act: again }] : []),
        { text: "Go back", act: back },
      ]}
    />
  );
}
