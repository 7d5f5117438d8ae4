import { useSignal } from "@preact/signals";
import { useEffect, useMemo, useRef } from "preact/hooks";
import { api, Refused } from "../../api";
import { openMaking } from "../../follow/device";
import type { Intent, Outcome, Refusal } from "../../follow/stepping";
import { suggest } from "../../follow/stepping";
import type { Gesture } from "../../hands/gestures";
import { type Ask, listenKeys } from "../../hands/keys";
import { lock, lockTouch, toggleByKey } from "../../hands/lock";
import type { Session } from "../../hands/session";
import { maker, plainNext } from "../../maker";
import { go, toBench, toRecord } from "../../route";
import { useBreaks } from "./breaks";
import { useBox, useFont, useWalkedByKeys } from "./box";
import "./bench.css";
import { useChanged } from "./changing";
import { Finished, Offer } from "./closing";
import { Foot, Head, linkSign, waitsAt } from "./edges";
import { leftOf, useFinishList } from "./finishing";
import { Fetching } from "./fetching";
import { Halt, PAUSE_DEAF, useDeaf } from "./halt";
import type { Road } from "./handsfree/road";
import { LockCover } from "./lockcover";
import { Lost } from "./lost";
import type { MendSheet } from "./mend";
import { useMending } from "./mending";
import { late } from "./late";
import { notesHere } from "./notes";
import { useCards } from "./offering";
import { moreThan, placeSentence, printedOtherwise, sentences, whenNow } from "./place";
import { moveSaid, refusalSentence } from "./said";
import { copyName, inHand, isSection, pieceName, seeRun, waiting, welcome, whispersBehind } from "./seen";
import { Settle } from "./settle";
import { Unread } from "./unread";
import { Working } from "./working";
import { yarnInHand } from "./yarn";

const PatternChanged = late(() => import("./changed").then((m) => m.PatternChanged));
const Restored = late(() => import("./restored").then((m) => m.Restored));
const RunsSheet = late(() => import("./runssheet").then((m) => m.RunsSheet));
const HelpSheet = late(() => import("./helpsheet").then((m) => m.HelpSheet));
const PatternSheet = late(() => import("./patternsheet").then((m) => m.PatternSheet));
const MoreSheet = late(() => import("./moresheet").then((m) => m.MoreSheet));
const HabitsSheet = late(() => import("./habitssheet").then((m) => m.HabitsSheet));
const GatherSheet = late(() => import("./gathersheet").then((m) => m.GatherSheet));
const ShapeSheet = late(() => import("./shapesheet").then((m) => m.ShapeSheet));
const CardSheet = late(() => import("./cardsheet").then((m) => m.CardSheet));
const FinishSheet = late(() => import("./finishsheet").then((m) => m.FinishSheet));
const KindsSheet = late(() => import("./kindssheet").then((m) => m.KindsSheet));
const MendSheets = late(() => import("./mend").then((m) => m.MendSheets));
const GotoSheet = late(() => import("./gotosheet").then((m) => m.GotoSheet));
const RipSheet = late(() => import("./ripsheet").then((m) => m.RipSheet));
const NoteSheet = late(() => import("./notesheet").then((m) => m.NoteSheet));
const ChartSheet = late(() => import("./chartsheet").then((m) => m.ChartSheet));

type SheetName = "gather" | "habits" | "notes" | "kinds" | "show" | "parts" | "pattern" | "shape" | "chart" | "more" | "rip" | "goto" | "runs" | "help" | "hands" | "say" | "teach" | MendSheet;
type Unit = "plain" | "stitch" | "group" | "repeat" | "round";

const refused = (outcome: Outcome | Refusal): outcome is Refusal => "code" in outcome;

/** The screen worked from. */
export function Bench({ id }: { id: number }) {
  const making = useMemo(() => openMaking(id), [id]);
  useEffect(() => () => making.close(), [making]);
  const byKeys = useWalkedByKeys();
  useEffect(() => {
    // Without an answer the maker works on as the page has it.
    api.maker().then((kept) => (maker.value = kept), () => undefined);
  }, []);
  const sheet = useSignal<SheetName | null>(null);
  const say = useSignal("");
  const stayed = useSignal("");
  // Fetched behind the first paint, so that the touch that starts hands-free finds it here: only there is sound given.
  const room = useSignal<typeof import("./handsfree") | null>(null);
  const session = useSignal<Session | null>(null);
  useEffect(() => {
    void import("./handsfree").then((hands) => (room.value = hands), () => undefined);
    return () => session.value?.end();
  }, []);
  const startHands = () => {
    if (!room.value) say.value = "Hands-free is not fetched yet. Touch once more in a moment.";
    else session.value ??= room.value.begin(id);
  };
  const endHands = () => {
    session.value?.end();
    session.value = null;
  };
  const root = useRef<HTMLElement>(null);
  const box = useBox(root);
  const font = useFont();

  const snapshot = making.snapshot.value;
  const state = making.visible.value;
  const seen = snapshot && state ? inHand(snapshot, state) : null;
  const link = making.link.value;
  const claims = making.claims.value;
  const question = making.question.value;
  const lost = making.lost.value;
  const changed = useChanged(id, snapshot, link).value;
  const cards = useCards(snapshot, state, seen);
  const worked = snapshot !== null && state !== null && snapshot.runs.every((r) => seeRun(snapshot, state, r.run)?.spot.finished);
  const finishing = useFinishList(id, link, worked);
  const { hand, words } = maker.value;
  const plain = plainNext(maker.value);
  const rest = useBreaks(seen ? `${seen.run}@${seen.at}` : "", maker.value.breaks);
  const mend = useMending(id, sheet, snapshot, seen, link);

  const move = (intent: Intent, run = seen?.run, by?: string) => {
    const outcome = making.move(intent, run, by);
    say.value = refused(outcome)
      ? refusalSentence(outcome.code)
      : intent.intent === "goto" && outcome.to < intent.to
        ? "This waits on the way there. Answer it, then go on."
        : "";
    return !refused(outcome);
  };
  const next = (unit: Unit) => move({ intent: "next", unit });
  /** Where something asks, a key that means "next" passes nothing and says what to do. */
  const forward = (unit: Unit) => {
    if (offered !== null || claims.length > 0 || question || changed) say.value = "Choose one of the answers at the top of the screen.";
    else if (pauses === "" || awake()) next(unit);
  };
  const back = (unit: Unit) => move({ intent: "back", unit });
  const undo = () => {
    if (seen?.last) move({ intent: "undo", undoes: seen.last.row });
    else say.value = "There is nothing to take back.";
    refocus();
  };
  const refocus = () => root.current?.querySelector<HTMLElement>("[data-open], .halt h1")?.focus({ preventScroll: true });
  const close = () => {
    sheet.value = null;
  };

  const wanted =
    snapshot && state?.in_hand && seen && !waiting(seen) && !seen.spot.unread
      ? suggest(snapshot.order, snapshot.runs.map((r) => r.run), state, snapshot.strands)
      : null;
  const offered = wanted !== null && seen && stayed.value !== `${seen.run}@${seen.at}` ? wanted : null;
  const stops = seen ? (waiting(seen)?.weight === "stop" ? waiting(seen) : null) : null;

  const pauses = seen && waiting(seen)?.weight === "pause" ? (waiting(seen)?.address ?? "") : "";
  const awake = useDeaf(pauses, PAUSE_DEAF);

  const ask = (what: Ask) => {
    if (sheet.value !== null || !seen) return;
    switch (what) {
      case "next":
        forward(plain.key);
        break;
      case "back": {
        // While something is asked at the foot, done says yes and back says no.
        const no = root.current?.querySelector<HTMLButtonElement>(".band .answer.main ~ .answer");
        if (no) no.click();
        else back(plain.key);
        break;
      }
      case "stitch":
      case "group":
      case "repeat":
      case "round":
        forward(what);
        break;
      case "undo":
        undo();
        break;
      case "done": {
        const cue = waiting(seen);
        const main = root.current?.querySelector<HTMLButtonElement>(".band .answer.main") ?? root.current?.querySelector<HTMLButtonElement>(".answer.main");
        // The answer itself knows whether it has been on the screen for long enough.
        if (main) main.click();
        else if (cue) move({ intent: "done", cue: cue.address });
        else say.value = "Nothing waits here. Go on with the next stitch.";
        break;
      }
      case "where":
        tell(placeSentence(seen.spot, seen.course));
        break;
      case "show":
      case "gather":
      case "habits":
      case "parts":
      case "pattern":
      case "goto":
      case "rip":
      case "runs":
      case "help":
        sheet.value = what;
        break;
      case "lock":
        toggleByKey();
        break;
      case "listen":
        if (!session.value) startHands();
        else if (session.value.sign.value === "holding" || session.value.sign.value === "deaf") session.value.listen();
        else session.value.hold("asked");
        break;
      case "recount":
      case "finish":
        if (session.value) session.value.told.asked(what);
        else say.value = "Start hands-free for this: touch it at the top, or press M.";
        break;
      case "check":
      case "recap":
      case "lost":
        if (link === "live") sheet.value = what === "check" ? "count" : what;
        else tell(room.value?.answerTo("lost", road, session.value) ?? "");
        break;
      case "left":
      case "ahead":
      case "again":
        tell(room.value?.answerTo(what, road, session.value) ?? "");
        break;
    }
  };
  const asked = useRef(ask);
  asked.current = ask;
  useEffect(() => listenKeys((what) => asked.current(what), () => document.querySelector("dialog[open]") === null), []);

  const felt = (gesture: Gesture) => {
    if (gesture === "tap") next(plain.touch);
    else if (gesture === "left") back(plain.touch);
    else if (gesture === "right") next("stitch");
    else if (gesture === "up") next("round");
  };

  if (lost) return <Lost damaged={lost.code === "damaged"} say={lost.say} />;

  const whispers = seen ? [...(rest ? [rest] : []), ...welcome(whispersBehind(seen), maker.value), ...notesHere(making.chosen.value.notes ?? [], seen)] : [];
  const mode =
    !snapshot || !state || !seen || !box
      ? "waiting"
      : question || claims.length > 0 || changed
        ? "settle"
        : stops
          ? "stop"
          : seen.spot.unread
            ? "unread"
            : offered
              ? "offer"
              : seen.spot.finished
                ? "finished"
                : "work";

  const tell = (text: string) => {
    say.value = text;
    session.value?.read(text);
  };
  const take = (by?: string) => offered !== null && move({ intent: "take" }, offered, by);
  const stay = () => {
    if (seen) stayed.value = `${seen.run}@${seen.at}`;
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
    live: link === "live",
    offer: cards.offer,
    move,
    ask: (what) => asked.current(what),
    take,
    stay,
    tell: (text) => (say.value = text),
    open: (name) => (sheet.value = name),
  };

  const sectionAt = (run: string) => {
    const strand = snapshot?.strands[state?.runs[run]?.strand ?? ""];
    return strand !== undefined && isSection(strand);
  };
  const page = () => {
    if (!snapshot || !state || !seen || !box) return <Fetching absent={making.absent.value} />;
    const piece = snapshot.runs.find((r) => r.run === seen.run) ?? seen;
    if (question) return <Restored question={question} snapshot={snapshot} state={state} box={box} resolve={making.resolve} />;
    if (changed && claims.length === 0) return <PatternChanged making={id} changed={changed} box={box} tell={(text) => (say.value = text)} />;
    if (mode === "settle") return <Settle snapshot={snapshot} claims={claims} box={box} settle={(run, to) => making.settle(run, to)} />;
    if (stops)
      return (
        <Halt
          what={stops.address}
          title={stops.words.short || stops.text}
          body={moreThan(stops.words.short || stops.text, stops.words.full || stops.text)}
          why={`${whenNow(seen.spot, seen.strand.courses)} ${stops.basis === "worked out" && !stops.address.includes("/moved-") ? "The pattern does not say so; Hookside worked it out." : ""}`.trim()}
          box={box}
          tone="waits"
          answers={[
            { text: "Done", main: true, act: () => move({ intent: "done", cue: stops.address }) },
            { text: "Go back", act: () => back(plain.touch) },
            ...(cards.waits ? [{ text: "Show me", act: () => (sheet.value = "show") }] : []),
          ]}
          beside={() => (say.value = refusalSentence("stop"))}
        />
      );
    if (mode === "unread" && seen.course) {
      const { course } = seen;
      return (
        <Unread
          course={course}
          box={box}
          done={(count) => move({ intent: "done", cue: course.id, count })}
          back={() => back(plain.touch)}
        />
      );
    }
    if (mode === "offer" && offered)
      return (
        <Offer
          seen={seen}
          other={snapshot.runs.find((r) => r.run === offered) ?? piece}
          section={sectionAt(offered)}
          box={box}
          take={take}
          stay={stay}
          list={() => (sheet.value = "parts")}
        />
      );
    if (mode === "finished")
      return (
        <Finished
          title={snapshot.title}
          piece={copyName(piece)}
          section={isSection(seen.strand)}
          all={worked}
          left={finishing && leftOf(finishing, making.chosen.value.ticks?.finish ?? [], snapshot, state).length}
          list={() => (sheet.value = "parts")}
          again={() => void api.again(id).then((begun) => go(toBench(begun.id)), (why: unknown) => (say.value = why instanceof Refused ? why.say : String(why)))}
          box={box}
          runs={() => (sheet.value = "runs")}
          back={() => back(plain.touch)}
        />
      );
    return (
      <Working
        seen={seen}
        fullness={words}
        hand={hand}
        box={box}
        font={font}
        whispers={whispers}
        count={link === "live" ? () => (sheet.value = "count") : null}
        offer={cards.offer}
        show={() => (sheet.value = "show")}
        last={seen.last ? (seen.last.took && seen.last.from === seen.at ? `Now ${copyName(piece)}` : moveSaid(seen.strand, seen.last.from, seen.at)) : null}
        felt={felt}
        undo={undo}
      />
    );
  };

  const sign = snapshot ? linkSign(link, making.pending.value) : "";

  return (
    <main ref={root} class={`bench is-${mode}${byKeys ? " by-keys" : ""}`}>
      <Head piece={seen ? pieceName(seen) : ""} sign={sign} terms={snapshot?.terms ?? null} on={session.value !== null} hands={() => (session.value ? (sheet.value = "hands") : startHands())} more={() => (sheet.value = "more")} pattern={() => (sheet.value = "pattern")} />
      {page()}
      {session.value && room.value ? (
        <room.value.HandsFoot session={session.value} road={road} words={mode === "work" ? "" : waitsAt(mode)} ended={endHands} />
      ) : (
        <Foot
          working={mode === "work"}
          section={seen !== null && isSection(seen.strand)}
          kind={seen?.course?.kind ?? "round"}
          back={() => back(plain.touch)}
          round={() => next("round")}
          stitch={() => next("stitch")}
          undo={mode === "settle" && !question && seen?.last ? undo : null}
          words={mode === "work" ? "" : waitsAt(mode)}
        />
      )}
      <p class={say.value ? "say" : "say said"} role="status">
        {say.value}
      </p>
      <p class="said" role="status">
        {seen ? sentences([placeSentence(seen.spot, seen.course), (seen.course && printedOtherwise(seen.course)) ?? "", ...whispers.map((w) => w.words.full || w.text)]) : ""}
      </p>
      {lock.value !== "open" && <LockCover />}
      {seen && snapshot && state && sheet.value === "rip" && (
        <RipSheet
          seen={seen}
          close={close}
          rip={(to) => {
            move({ intent: "rip", to });
            close();
          }}
        />
      )}
      {seen && sheet.value === "goto" && (
        <GotoSheet
          seen={seen}
          fullness={words}
          close={close}
          go={(to) => {
            move({ intent: "goto", to });
            close();
          }}
        />
      )}
      {snapshot && state && sheet.value === "runs" && (
        <RunsSheet
          snapshot={snapshot}
          state={state}
          close={close}
          more={(number, copies) => making.choose([{ choice: "copies", value: { ...making.chosen.value.copies, [number]: copies } }])}
          take={(run) => {
            // Chosen by hand: the order of work does not ask for another one in the same breath.
            if (move({ intent: "take" }, run)) stayed.value = `${run}@${state.runs[run]?.at}`;
            close();
          }}
        />
      )}
      {seen && snapshot && sheet.value === "pattern" && (
        <PatternSheet pattern={snapshot.pattern} title={snapshot.title} yarn={yarnInHand(seen.strand, seen.at)} close={close} />
      )}
      {seen && snapshot && sheet.value === "shape" && <ShapeSheet pattern={snapshot.pattern} id={id} making={making} seen={seen} close={close} />}
      {seen && sheet.value === "notes" && <NoteSheet making={making} seen={seen} close={close} />}
      {snapshot && sheet.value === "habits" && <HabitsSheet snapshot={snapshot} making={making} close={close} />}
      {snapshot && sheet.value === "gather" && (
        <GatherSheet making={making} snapshot={snapshot} read={(text) => session.value?.read(text)} tell={(text) => (say.value = text)} close={close} />
      )}
      {snapshot && sheet.value === "kinds" && <KindsSheet snapshot={snapshot} making={making} close={close} />}
      {snapshot && state && sheet.value === "parts" && (
        <FinishSheet
          making={making}
          snapshot={snapshot}
          state={state}
          hand={hand}
          waits={seen ? (waiting(seen)?.address ?? null) : null}
          answer={(cue) => move({ intent: "done", cue })}
          read={(text) => session.value?.read(text)}
          tell={(text) => (say.value = text)}
          close={close}
        />
      )}
      {seen && sheet.value === "show" && (
        <CardSheet seen={seen} terms={snapshot?.terms ?? "US"} hand={maker.value.hand} read={(text) => session.value?.read(text)} close={close} />
      )}
      {seen && sheet.value === "chart" && <ChartSheet seen={seen} hand={maker.value.hand} close={close} />}
      {seen && snapshot && mend && (
        <MendSheets sheet={mend} making={making} snapshot={snapshot} seen={seen} move={move} open={(name) => (sheet.value = name)} close={close} read={(text) => session.value?.read(text)} tell={tell} />
      )}
      {sheet.value === "help" && <HelpSheet close={close} say={(text) => (say.value = text)} />}
      {room.value && sheet.value === "hands" && (
        <room.value.HandsSheet
          session={session.value}
          start={() => {
            startHands();
            close();
          }}
          end={() => {
            endHands();
            close();
          }}
          go={(which) => (sheet.value = which)}
          close={close}
        />
      )}
      {room.value && sheet.value === "say" && <room.value.SaySheet session={session.value} close={close} />}
      {room.value && sheet.value === "teach" && <room.value.TeachSheet close={close} />}
      {sheet.value === "more" && (
        <MoreSheet
          title={snapshot?.title || "More"}
          close={close}
          choose={(what) => {
            close();
            if (what === "lock") lockTouch();
            else if (what === "group") next("group");
            else if (what === "record") go(toRecord(id));
            else sheet.value = what;
          }}
        />
      )}
    </main>
  );
}
