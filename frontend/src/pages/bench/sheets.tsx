import type { ComponentChildren } from "preact";
import type { Snapshot } from "../../api";
import type { Making } from "../../follow/making";
import type { Intent, MakingState } from "../../follow/stepping";
import { lockTouch } from "../../hands/lock";
import { maker } from "../../maker";
import { go, toRecord } from "../../route";
import { late } from "./late";
import type { MendSheet } from "./mend";
import type { HandsFree } from "./room";
import type { Seen } from "./seen";
import { yarnInHand } from "./yarn";

const CardSheet = late(() => import("./cardsheet").then((m) => m.CardSheet));
const ChartSheet = late(() => import("./chartsheet").then((m) => m.ChartSheet));
const ColoursSheet = late(() => import("./colours/sheet").then((m) => m.ColoursSheet));
const FinishSheet = late(() => import("./closing").then((m) => m.FinishSheet));
const GatherSheet = late(() => import("./gathersheet").then((m) => m.GatherSheet));
const GotoSheet = late(() => import("./gotosheet").then((m) => m.GotoSheet));
const HabitsSheet = late(() => import("./habitssheet").then((m) => m.HabitsSheet));
const HelpSheet = late(() => import("./habitssheet").then((m) => m.HelpSheet));
const KindsSheet = late(() => import("./habitssheet").then((m) => m.KindsSheet));
const MendSheets = late(() => import("./mend").then((m) => m.MendSheets));
const MoreSheet = late(() => import("./moresheet").then((m) => m.MoreSheet));
const NoteSheet = late(() => import("./notesheet").then((m) => m.NoteSheet));
const PatternSheet = late(() => import("./patternsheet").then((m) => m.PatternSheet));
const RipSheet = late(() => import("./ripsheet").then((m) => m.RipSheet));
const RunsSheet = late(() => import("./runssheet").then((m) => m.RunsSheet));
const ShapeSheet = late(() => import("./shapesheet").then((m) => m.ShapeSheet));

export type SheetName =
  | "more" | "pattern" | "gather" | "shape" | "chart" | "show" | "rip" | "goto" | "notes" | "runs" | "colours" | "parts" | "habits"
  | "kinds" | "help" | "hands" | "say" | "teach" | MendSheet; // prettier-ignore

/** What the bench gives to a sheet that lies over it. Before the making is here only few sheets have something to show. */
export interface Under {
  making: Making;
  snapshot: Snapshot | null;
  state: MakingState | null;
  seen: Seen | null;
  hands: HandsFree;
  move: (intent: Intent, run?: string) => boolean;
  /** A piece was chosen by hand: the order of work does not ask for another one in the same breath. */
  keep: (run: string) => void;
  open: (sheet: SheetName) => void;
  close: () => void;
  /** One line on the screen. */
  say: (text: string) => void;
  /** The same, and said aloud where that is wanted. */
  tell: (text: string) => void;
}

const aloud = ({ hands }: Under) => (text: string) => hands.session?.read(text);

const mended = (sheet: MendSheet) => (under: Under) => {
  const { making, snapshot, seen, move, open, close, tell } = under;
  return seen && snapshot && <MendSheets sheet={sheet} making={making} snapshot={snapshot} seen={seen} move={move} open={open} close={close} read={aloud(under)} tell={tell} />;
};

/** Every sheet by its name. */
const SHEETS: Record<SheetName, (under: Under) => ComponentChildren> = {
  more: ({ making, snapshot, move, open, close }) => (
    <MoreSheet
      title={snapshot?.title || "More"}
      close={close}
      choose={(what) => {
        close();
        if (what === "lock") lockTouch();
        else if (what === "group") move({ intent: "next", unit: "group" });
        else if (what === "record") go(toRecord(making.id));
        else open(what);
      }}
    />
  ),
  rip: ({ seen, move, tell, close }) =>
    seen && (
      <RipSheet
        seen={seen}
        close={close}
        rip={(to, then) => {
          if (move({ intent: "rip", to })) tell(then);
          close();
        }}
      />
    ),
  goto: ({ seen, move, close }) =>
    seen && (
      <GotoSheet
        seen={seen}
        fullness={maker.value.words}
        close={close}
        go={(to) => {
          move({ intent: "goto", to });
          close();
        }}
      />
    ),
  runs: ({ making, snapshot, state, move, keep, open, close, say }) =>
    snapshot &&
    state && (
      <RunsSheet
        snapshot={snapshot}
        state={state}
        close={close}
        colours={() => open("colours")}
        more={(number, copies, name) => {
          const chosen = making.choose([{ choice: "copies", value: { ...making.chosen.value.copies, [number]: copies } }]);
          say(chosen ? `One more ${name || "copy"}, ${copies} in all: it waits among the pieces.` : "This could not be kept just now. Try again in a moment.");
          return chosen;
        }}
        take={(run) => {
          if (move({ intent: "take" }, run)) keep(run);
          close();
        }}
      />
    ),
  colours: (under) => <ColoursSheet {...under} />,
  pattern: ({ snapshot, seen, close, tell }) =>
    seen &&
    snapshot && (
      <PatternSheet pattern={snapshot.pattern} title={snapshot.title} yarn={yarnInHand(seen.strand, seen.at)} course={seen.course?.id} {...{ close, tell }} />
    ),
  shape: ({ making, snapshot, seen, close }) =>
    seen && snapshot && <ShapeSheet pattern={snapshot.pattern} id={making.id} making={making} seen={seen} close={close} />,
  chart: ({ seen, close }) => seen && <ChartSheet seen={seen} hand={maker.value.hand} close={close} />,
  notes: ({ making, seen, close }) => seen && <NoteSheet making={making} seen={seen} close={close} />,
  habits: ({ making, snapshot, close }) => snapshot && <HabitsSheet snapshot={snapshot} making={making} close={close} />,
  kinds: ({ making, snapshot, close }) => snapshot && <KindsSheet snapshot={snapshot} making={making} close={close} />,
  gather: (under) =>
    under.snapshot && <GatherSheet making={under.making} snapshot={under.snapshot} read={aloud(under)} tell={under.say} close={under.close} />,
  parts: (under) => {
    const { making, snapshot, state, say, close } = under;
    return (
      snapshot &&
      state && (
        <FinishSheet
          making={making}
          snapshot={snapshot}
          state={state}
          hand={maker.value.hand}
          read={aloud(under)}
          tell={say}
          close={close}
        />
      )
    );
  },
  show: (under) =>
    under.seen && (
      <CardSheet seen={under.seen} terms={under.snapshot?.terms ?? "US"} hand={maker.value.hand} read={aloud(under)} close={under.close} />
    ),
  count: mended("count"),
  lost: mended("lost"),
  passed: mended("passed"),
  recap: mended("recap"),
  spent: mended("spent"),
  help: ({ close, say }) => <HelpSheet close={close} say={say} />,
  hands: ({ hands: { room, session, start, end }, open, close }) =>
    room && (
      <room.HandsSheet
        session={session}
        start={() => {
          start();
          close();
        }}
        end={() => {
          end();
          close();
        }}
        go={open}
        close={close}
      />
    ),
  say: ({ hands: { room, session }, close }) => room && <room.SaySheet session={session} close={close} />,
  teach: ({ hands: { room }, close }) => room && <room.TeachSheet close={close} />,
};

/** The sheet of that name, laid over the bench. */
export const laid = (name: SheetName, under: Under): ComponentChildren => SHEETS[name](under);
