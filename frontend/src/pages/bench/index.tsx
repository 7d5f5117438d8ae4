import { useSignal } from "@preact/signals";
import { useEffect, useMemo, useRef } from "preact/hooks";
import { openMaking } from "../../follow/device";
import type { Intent, Outcome, Refusal, Unit } from "../../follow/stepping";
import { suggest } from "../../follow/stepping";
import type { Gesture } from "../../hands/gestures";
import { lock } from "../../hands/lock";
import { maker, meetMaker, plainNext } from "../../maker";
import { useAim } from "./aiming";
import { useKeys } from "./asking";
import { useBreaks } from "./breaks";
import { useBox, useFont, useWalkedByKeys } from "./box";
import { carried } from "./carried";
import { useCounts } from "./counts";
import "./bench.css";
import { useChanged } from "./changing";
import { useHers } from "./colours/hers";
import { Foot, Head, linkSign, waitsAt } from "./edges";
import { useFinishList } from "./finishing";
import { PAUSE_DEAF, useDeaf } from "./halt";
import type { Mode } from "./handsfree/expecting";
import type { Road } from "./handsfree/road";
import { LockCover } from "./lockcover";
import { Lost } from "./lost";
import { useMending } from "./mending";
import { notesHere, typedBelow } from "./notes";
import { useCards } from "./offering";
import { placeSentence, printedOtherwise, sentences } from "./place";
import { useHandsFree } from "./room";
import { refusalSentence } from "./said";
import { Screen } from "./screen";
import { inHand, isSection, pieceName, seeRun, waiting, welcome, whispersBehind } from "./seen";
import { laid, type SheetName } from "./sheets";

/** How long one line stays, in milliseconds: time to look up and read it twice. */
const LINE_STAYS = 20_000;

const refused = (outcome: Outcome | Refusal): outcome is Refusal => "code" in outcome;

/** The screen worked from. */
export function Bench({ id }: { id: number }) {
  const making = useMemo(() => openMaking(id), [id]);
  useEffect(() => () => making.close(), [making]);
  const byKeys = useWalkedByKeys();
  useEffect(() => void meetMaker(), []);
  const sheet = useSignal<SheetName | null>(null);
  const line = useSignal(useMemo(carried, []));
  const stayed = useSignal("");
  const root = useRef<HTMLElement>(null);
  const box = useBox(root);
  const font = useFont();
  const say = (text: string) => {
    line.value = text;
  };
  const open = (name: SheetName | null) => {
    sheet.value = name;
  };
  const hands = useHandsFree(id, say);
  const { session } = hands;

  const snapshot = making.snapshot.value;
  const state = making.visible.value;
  const seen = snapshot && state ? inHand(snapshot, state) : null;
  const link = making.link.value;
  const claims = making.claims.value;
  const question = making.question.value;
  const lost = making.lost.value;
  const changed = useChanged(id, snapshot, link).value;
  const cards = useCards(snapshot, state, seen);
  const counts = useCounts(making, seen, maker.value.quiet.includes("count"));
  const due = counts?.due ?? null;
  const behind = seen ? whispersBehind(seen) : [];
  const passing = counts?.wanted(behind) ?? behind;
  const told = [...(seen ? typedBelow(seen) : []), ...welcome(passing, maker.value, cards.isNew)];
  const worked = snapshot !== null && state !== null && snapshot.runs.every((r) => seeRun(snapshot, state, r.run)?.spot.finished);
  const plain = plainNext(maker.value);
  const here = seen ? `${seen.run}@${seen.at}` : "";
  /** Where the last move was one stitch: from there "back" takes one as well, and so on. */
  const single = useRef("");
  const rest = useBreaks(here, maker.value.breaks);
  const { value: shown } = line;
  useEffect(() => {
    // It lies over the foot: what was read there is put away, whatever is done next.
    const away = setTimeout(() => say(""), LINE_STAYS);
    return () => clearTimeout(away);
  }, [shown]);
  useMending(id, sheet, snapshot, seen, link);
  useHers(making.chosen.value);

  const waits = seen && waiting(seen);
  const wanted =
    snapshot && state?.in_hand && seen && !waits && !seen.spot.unread
      ? suggest(snapshot.order, snapshot.runs.map((r) => r.run), state, snapshot.strands)
      : null;
  const offered = wanted !== null && seen && stayed.value !== here ? wanted : null;
  const listed = worked || (offered !== null && snapshot !== null && snapshot.strands[state?.runs[offered]?.strand ?? ""]?.courses.length === 0);
  const finishing = useFinishList(id, link, listed);
  const steady = useDeaf(here);
  const awake = useDeaf(waits?.weight === "pause" ? waits.address : "", PAUSE_DEAF);
  const asking = question !== null || claims.length > 0 || changed !== null;

  const mode = ((): Mode => {
    if (!snapshot || !state || !seen || !box) return "waiting";
    if (asking) return "settle";
    if (waits?.weight === "stop") return "stop";
    if (seen.spot.unread) return "unread";
    if (offered) return "offer";
    return seen.spot.finished ? "finished" : "work";
  })();

  const move = (intent: Intent, run = seen?.run, by?: string) => {
    const outcome = making.move(intent, run, by);
    if (refused(outcome)) say(refusalSentence(outcome.code));
    else {
      say(intent.intent === "goto" && outcome.to < intent.to ? "This waits on the way there. Answer it, then go on." : "");
      if (outcome.run === seen?.run) counts?.note(intent, outcome);
      single.current = "unit" in intent && intent.unit === "stitch" ? `${outcome.run}@${outcome.to}` : "";
    }
    return !refused(outcome);
  };
  useAim(id, seen, Boolean(waits) || Boolean(seen?.spot.unread), (to) => move({ intent: "goto", to }));
  const next = (unit: Unit) => move({ intent: "next", unit });
  const back = (unit: Unit) => move({ intent: "back", unit: single.current === here ? "stitch" : unit });
  const undo = () => {
    if (seen?.last) move({ intent: "undo", undoes: seen.last.row });
    else say("There is nothing to take back.");
    root.current?.querySelector<HTMLElement>("[data-open], .halt h1")?.focus({ preventScroll: true });
  };
  const take = (by?: string) => offered !== null && move({ intent: "take" }, offered, by);
  const stay = () => {
    if (seen) stayed.value = here;
  };
  const tell = (text: string) => {
    say(text);
    session?.read(text);
  };

  const felt = (gesture: Gesture) => {
    if (gesture === "tap") next(plain.touch);
    else if (gesture === "left") back(plain.touch);
    else if (gesture === "right") next("stitch");
    else if (gesture === "up") next("round");
  };

  const road: Road = {
    making: id,
    title: snapshot?.title ?? "",
    snapshot,
    state,
    seen,
    mode,
    offered,
    claims,
    settle: (run, to) => void making.settle(run, to),
    plain: plain.voice,
    offer: cards.offer,
    told,
    due,
    move,
    ask: (what) => ask(what),
    take,
    stay,
    tell: say,
    open,
  };
  /** Where something asks, a key that means "next" passes nothing: it goes to the next answer. */
  const forward = (unit: Unit) => {
    if (offered === null && !asking && (waits?.weight !== "pause" || awake())) next(unit);
  };
  /** The count that waits is as expected. A pause that asks for it is answered by that. */
  const right = () => {
    if (due && move({ intent: "count", n: due.n }) && waits?.kind === "count") move({ intent: "done", cue: waits.address });
  };
  const ask = useKeys(seen && { root, seen, road, hands, plain: plain.key, forward, back, undo, open, tell, right: due?.given === null ? () => steady() && right() : null }, sheet);

  if (lost) return <Lost damaged={lost.code === "damaged"} say={lost.say} />;

  const whispers = seen ? [...(rest ? [rest] : []), ...told, ...notesHere(making.chosen.value.notes ?? [], seen)] : [];
  const section = seen !== null && isSection(seen.strand);
  const words = mode === "work" ? "" : waitsAt(mode, waits?.address.includes("/ready-") ?? false);
  const foot = (
    <Foot
      working={mode === "work"}
      section={section}
      kind={seen?.course?.kind ?? "round"}
      back={() => back(plain.touch)}
      round={() => next("round")}
      stitch={() => next("stitch")}
      undo={mode === "settle" && !question && seen?.last ? undo : null}
      words={words}
    />
  );
  return (
    <main ref={root} class={`bench is-${mode}${byKeys ? " by-keys" : ""}`}>
      <Head
        piece={seen ? pieceName(seen) : ""}
        sign={snapshot ? linkSign(link, making.pending.value) : ""}
        terms={snapshot?.terms ?? null}
        on={session !== null}
        hands={() => (session ? open("hands") : hands.start())}
        more={() => open("more")}
        pattern={() => open("pattern")}
      />
      <Screen
        {...{ making, snapshot, state, seen, mode, changed, offered, worked, finishing, cards, heard: session !== null, due, whispers, box, font }}
        {...{ move, right, undo, take, stay, felt, open, say }}
        back={() => back(plain.touch)}
      />
      {session && hands.room ? <hands.room.HandsFoot session={session} road={road} words={words} foot={foot} ended={hands.end} /> : foot}
      <p class={line.value ? "say" : "say said"} role="status">
        {line.value}
      </p>
      <p class="said" role="status">
        {seen ? sentences([placeSentence(seen.spot, seen.course), (seen.course && printedOtherwise(seen.course, seen.mended)) ?? "", ...whispers.map((w) => w.words.full || w.text)]) : ""}
      </p>
      {lock.value !== "open" && <LockCover />}
      {sheet.value &&
        laid(sheet.value, {
          ...{ making, snapshot, state, seen, hands, move, open, say, tell },
          keep: (run) => (stayed.value = `${run}@${state?.runs[run]?.at}`),
          close: () => open(null),
        })}
    </main>
  );
}
