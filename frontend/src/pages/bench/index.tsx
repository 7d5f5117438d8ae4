import { useSignal } from "@preact/signals";
import { useEffect, useMemo, useRef } from "preact/hooks";
import { api } from "../../api";
import { openMaking } from "../../follow/device";
import type { Intent, Outcome, Refusal } from "../../follow/stepping";
import { suggest } from "../../follow/stepping";
import type { Gesture } from "../../hands/gestures";
import { type Ask, listenKeys } from "../../hands/keys";
import { lock, lockTouch, toggleByKey } from "../../hands/lock";
import { maker } from "../../maker";
import { toShelf } from "../../route";
import { useBox, useFont } from "./box";
import "./bench.css";
import { GotoSheet } from "./gotosheet";
import { Halt, haltSizes } from "./halt";
import { HelpSheet } from "./helpsheet";
import { LockCover } from "./lockcover";
import { moreThan, placeSentence } from "./place";
import { RipSheet } from "./ripsheet";
import { RunsSheet } from "./runssheet";
import { moveSaid, refusalSentence } from "./said";
import { copyName, inHand, pieceName, seeRun, waiting } from "./seen";
import { courseName } from "./sentence";
import { Settle } from "./settle";
import { Sheet } from "./sheet";
import { Unread } from "./unread";
import { keepFocus, Working } from "./working";

type SheetName = "more" | "rip" | "goto" | "runs" | "help";
type Unit = "plain" | "stitch" | "group" | "repeat" | "round";

const refused = (outcome: Outcome | Refusal): outcome is Refusal => "code" in outcome;

/** The screen worked from. */
export function Bench({ id }: { id: number }) {
  const making = useMemo(() => openMaking(id), [id]);
  useEffect(() => () => making.close(), [making]);
  const byKeys = useSignal(false);
  useEffect(() => {
    // Without an answer the maker works on as the page has it.
    api.maker().then((kept) => (maker.value = kept), () => undefined);
  }, []);
  useEffect(() => {
    const walked = (event: KeyboardEvent) => {
      if (event.key === "Tab") byKeys.value = true;
    };
    const touched = () => {
      byKeys.value = false;
    };
    addEventListener("keydown", walked);
    addEventListener("pointerdown", touched);
    return () => {
      removeEventListener("keydown", walked);
      removeEventListener("pointerdown", touched);
    };
  }, []);
  const sheet = useSignal<SheetName | null>(null);
  const say = useSignal("");
  const stayed = useSignal("");
  const root = useRef<HTMLElement>(null);
  const box = useBox(root);
  const font = useFont();

  const snapshot = making.snapshot.value;
  const state = making.visible.value;
  const seen = snapshot && state ? inHand(snapshot, state) : null;
  const link = making.link.value;
  const asides = making.asides.value;
  const { hand, plain, words, quiet } = maker.value;

  const move = (intent: Intent, run = seen?.run) => {
    const outcome = making.move(intent, run);
    say.value = refused(outcome) ? refusalSentence(outcome.code) : "";
    return !refused(outcome);
  };
  const next = (unit: Unit) => move({ intent: "next", unit });
  const back = (unit: Unit) => move({ intent: "back", unit });
  const undo = () => {
    if (seen?.last) move({ intent: "undo", undoes: seen.last.row });
    else say.value = "There is nothing to take back.";
    refocus();
  };
  const refocus = () => root.current?.querySelector<HTMLElement>("[data-open], .answer.main")?.focus({ preventScroll: true });
  const close = () => {
    sheet.value = null;
  };

  const wanted =
    snapshot && state?.in_hand && seen && !waiting(seen) && !seen.spot.unread
      ? suggest(snapshot.order, snapshot.runs.map((r) => r.run), state, snapshot.strands)
      : null;
  const offered = wanted !== null && seen && stayed.value !== `${seen.run}@${seen.at}` ? wanted : null;
  const stops = seen ? (waiting(seen)?.weight === "stop" ? waiting(seen) : null) : null;

  const ask = (what: Ask) => {
    if (sheet.value !== null || !seen) return;
    switch (what) {
      case "next":
        if (offered === null && asides.length === 0) next(plain);
        break;
      case "back":
        back(plain);
        break;
      case "stitch":
      case "group":
      case "repeat":
      case "round":
        if (offered === null && asides.length === 0) next(what);
        break;
      case "undo":
        undo();
        break;
      case "done": {
        const cue = waiting(seen);
        const main = root.current?.querySelector<HTMLButtonElement>(".answer.main");
        if (main) main.click();
        else if (cue) move({ intent: "done", cue: cue.address });
        else say.value = "Nothing waits here. Go on with the next stitch.";
        break;
      }
      case "where":
        say.value = placeSentence(seen.spot, seen.course);
        break;
      case "goto":
      case "rip":
      case "runs":
      case "help":
        sheet.value = what;
        break;
      case "lock":
        toggleByKey();
        break;
    }
  };
  const asked = useRef(ask);
  asked.current = ask;
  useEffect(() => listenKeys((what) => asked.current(what), () => document.querySelector("dialog[open]") === null), []);

  const felt = (gesture: Gesture) => {
    if (gesture === "tap") next(plain);
    else if (gesture === "left") back(plain);
    else if (gesture === "right") next("stitch");
    else if (gesture === "up") next("round");
  };

  if (link === "gone")
    return (
      <main class="bench quiet-page">
        <h1>This making is not here any more</h1>
        <p>It was put away, perhaps on another device. Your patterns are still on the shelf.</p>
        <a class="answer" href={toShelf}>
          To the shelf
        </a>
      </main>
    );

  const whispers = seen
    ? seen.strand.cues.filter((c, _, all) => c.weight === "whisper" && !quiet.includes(c.kind) && justPassed(c.step, seen.at, all.map((x) => (x.weight === "whisper" ? x.step : -1))))
    : [];
  const mode =
    !snapshot || !state || !seen || !box
      ? "waiting"
      : asides.length > 0
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

  const page = () => {
    if (!snapshot || !state || !seen || !box) return <p class="fetching">Fetching your work.</p>;
    const piece = snapshot.runs.find((r) => r.run === seen.run) ?? seen;
    if (mode === "settle") return <Settle snapshot={snapshot} state={state} asides={asides} box={box} settle={(run, to) => making.settle(run, to)} />;
    if (stops)
      return (
        <Halt
          what={stops.address}
          title={stops.words.short || stops.text}
          body={moreThan(stops.words.short || stops.text, stops.words.full || stops.text)}
          box={box}
          tone="waits"
          answers={[
            { text: "Done", main: true, act: () => move({ intent: "done", cue: stops.address }) },
            { text: "Go back", act: () => back(plain) },
          ]}
        >
          <p class="why">
            {whenNow(seen)} {stops.basis === "worked out" ? "The pattern does not say so; Hookside worked it out." : ""}
          </p>
        </Halt>
      );
    if (mode === "unread" && seen.course) {
      const { course } = seen;
      return (
        <Unread
          course={course}
          box={box}
          done={(count) => move({ intent: "done", cue: course.id, count })}
          back={() => back(plain)}
        />
      );
    }
    if (mode === "offer" && offered) {
      const other = snapshot.runs.find((r) => r.run === offered);
      const name = other ? copyName(other) : offered;
      const before = seen.strand.courses[(seen.spot.course ?? seen.strand.courses.length) - 1];
      const ended = seen.spot.finished;
      const like = other?.piece === piece.piece;
      return (
        <Halt
          what={`${seen.run}@${seen.at}`}
          title={ended ? `${copyName(piece)} is finished` : `${copyName(piece)} has ${before ? courseName(before).toLowerCase() : "begun"}`}
          body={
            ended
              ? like
                ? `Keep it beside you and match its stuffing. Take up ${name} next.`
                : `Lay it by. Take up ${name} next.`
              : `Set it aside with the loop live, a marker through it; take up ${name}.`
          }
          box={box}
          tone="comes"
          answers={[
            { text: `Take up ${name}`, main: true, act: () => move({ intent: "take" }, offered) },
            {
              text: ended ? "Look at it a while" : `Stay with ${copyName(piece)}`,
              act: () => {
                stayed.value = `${seen.run}@${seen.at}`;
              },
            },
          ]}
        />
      );
    }
    if (mode === "finished") {
      const all = snapshot.runs.every((r) => seeRun(snapshot, state, r.run)?.spot.finished);
      const title = all ? "All finished" : `${copyName(piece)} is finished`;
      const body = all
        ? `${snapshot.title}: every piece is worked and every end is seen to. Put the hook down and look at it.`
        : "Its last stitch is made and nothing waits. Take up another piece when you like.";
      const size = haltSizes(title, body, box, 440);
      return (
        <section class="halt calm" aria-label="Finished">
          <div class="halt-words">
            <h1 style={{ fontSize: `${size.title}px` }}>{title}</h1>
            <p class="said-why" style={{ fontSize: `${size.body}px` }}>
              {body}
            </p>
          </div>
          <div class="halt-answers">
            {all ? (
              <a class="answer main" href={toShelf}>
                To the shelf
              </a>
            ) : (
              <button type="button" class="answer main" onClick={() => (sheet.value = "runs")}>
                Pieces and copies
              </button>
            )}
            <button type="button" class="answer" onClick={() => back(plain)}>
              Go back
            </button>
          </div>
        </section>
      );
    }
    return (
      <Working
        seen={seen}
        fullness={words}
        hand={hand}
        box={box}
        font={font}
        whispers={whispers}
        last={seen.last ? (seen.last.took && seen.last.from === seen.at ? `Took up ${copyName(piece)}` : moveSaid(seen.strand, seen.last.from, seen.at)) : null}
        felt={felt}
        undo={undo}
      />
    );
  };

  const pending = making.pending.value;
  const sign =
    link === "waiting" && pending > 0
      ? `${pending} ${pending === 1 ? "move waits" : "moves wait"}`
      : link === "waiting" && snapshot
        ? "no connection"
        : "";

  return (
    <main ref={root} class={`bench is-${mode}${byKeys.value ? " by-keys" : ""}`}>
      <header class="head">
        <a class="word" href={toShelf}>
          shelf
        </a>
        <p class={sign ? "which link" : "which"}>{sign || (seen ? pieceName(seen) : "")}</p>
        <span class="voice-slot" data-slot="voice" />
        {snapshot && (
          <span class="sewn" title={`stitches are named the ${snapshot.terms} way`}>
            {snapshot.terms} terms
          </span>
        )}
        <button type="button" class="word more" onClick={() => (sheet.value = "more")}>
          more
        </button>
      </header>
      {page()}
      <footer class="foot" onMouseDown={keepFocus}>
        {mode === "work" ? (
          <>
            <button type="button" class="word" onClick={() => back(plain)}>
              <Stroke way="left" /> back
            </button>
            <button type="button" class="word" onClick={() => next("round")}>
              <Stroke way="up" /> {seen?.course?.kind === "row" ? "row" : "round"}
            </button>
            <button type="button" class="word" onClick={() => next("stitch")}>
              <Stroke way="right" /> stitch
            </button>
            <p class="touch">
              touch: next
              <br />
              stroke: these
            </p>
          </>
        ) : (
          seen?.last && (
            <button type="button" class="word" onClick={undo}>
              take back the last move
            </button>
          )
        )}
      </footer>
      <p class={say.value ? "say" : "say said"} role="status">
        {say.value}
      </p>
      <p class="said" role="status">
        {seen ? [placeSentence(seen.spot, seen.course), ...whispers.map((w) => w.words.full || w.text)].join(". ") : ""}
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
          take={(run) => {
            // Chosen by hand: the order of work does not ask for another one in the same breath.
            if (move({ intent: "take" }, run)) stayed.value = `${run}@${state.runs[run]?.at}`;
            close();
          }}
        />
      )}
      {sheet.value === "help" && <HelpSheet close={close} say={(text) => (say.value = text)} />}
      {sheet.value === "more" && (
        <Sheet title={snapshot?.title || "More"} close={close}>
          <ul class="ways">
            {MORE.map(([name, title, text]) => (
              <li key={name}>
                <button
                  type="button"
                  class="way"
                  onClick={() => {
                    close();
                    if (name === "lock") lockTouch();
                    else if (name === "group") next("group");
                    else sheet.value = name;
                  }}
                >
                  <b>{title}</b>
                  <span>{text}</span>
                </button>
              </li>
            ))}
          </ul>
        </Sheet>
      )}
    </main>
  );
}

const MORE: readonly [SheetName | "lock" | "group", string, string][] = [
  ["rip", "Rip back", "by stitches, to the last repeat, to a round"],
  ["goto", "Go to", "another round or stitch"],
  ["runs", "Pieces and copies", "what is on the hook, set aside, ready to sew"],
  ["group", "On by one group", "only to the end of what is named in one breath"],
  ["lock", "Lock touch", "keys and pedals go on working"],
  ["help", "What your hands can do", "touches, strokes, keys; words and hand"],
];

/** Whether a whisper lies directly behind the place, with nothing but whispers between. */
function justPassed(step: number, at: number, whispers: readonly number[]): boolean {
  for (let s = step; s < at; s++) if (!whispers.includes(s)) return false;
  return step < at;
}

/** When a stop is due, in words: after which course, or in the middle of one. */
function whenNow(seen: { spot: { course: number | null; stitch: number }; strand: { courses: readonly { kind: "round" | "row"; label: string }[] } }): string {
  const { course, stitch } = seen.spot;
  const now = course === null ? undefined : seen.strand.courses[course];
  if (now && stitch > 0) return `In ${courseName(now).toLowerCase()}, after stitch ${stitch}.`;
  const before = seen.strand.courses[(course ?? seen.strand.courses.length) - 1];
  return before ? `${courseName(before)} is done; before you go on.` : "Before the first stitch.";
}

/** A stroke of the finger, drawn. */
function Stroke({ way }: { way: "left" | "up" | "right" }) {
  const turn = { left: 180, up: -90, right: 0 }[way];
  return (
    <svg class="stroke" viewBox="-12 -12 24 24" aria-hidden="true" focusable="false">
      <path d="M-9 1C-4 -2 3 2 9 0M4 -5L9 0L4 5" transform={`rotate(${turn})`} />
    </svg>
  );
}
