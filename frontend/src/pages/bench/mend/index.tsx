import { useState } from "preact/hooks";
import type { Snapshot } from "../../../api";
import type { Making } from "../../../follow/making";
import type { Intent } from "../../../follow/stepping";
import type { Seen } from "../seen";
import { countDue, turnDown } from "../countdue";
import { isSpent } from "../mending";
import { courseName } from "../sentence";
import { RipSheet } from "../ripsheet";
import "./mend.css";
import { PassedSheet } from "./passedsheet";
import { RecapSheet } from "./recapsheet";
import { SpentSheet } from "./spentsheet";
import { type Answers, begun, type Offer } from "./talk";
import { TalkSheet } from "./talksheet";

export type MendSheet = "count" | "lost" | "passed" | "recap" | "spent";

interface Props {
  sheet: MendSheet;
  making: Making;
  snapshot: Snapshot;
  seen: Seen;
  move: (intent: Intent) => boolean;
  open: (sheet: MendSheet | "goto" | "rip") => void;
  close: () => void;
  /** Said aloud, where that is wanted. */
  read: (text: string) => void;
  tell: (text: string) => void;
}

/** The sheets for what went wrong, or for coming back after a rest. */
export function MendSheets({ sheet, making, snapshot, seen, move, open, close, read, tell }: Props) {
  const [rip, setRip] = useState<{ offer: Offer; answers: Answers } | null>(null);
  const [to, setTo] = useState<number | null>(null);
  const counted = making.chosen.value.counted ?? [];
  const due = countDue(seen, counted);
  const last = counted.findLast((one) => one.run === seen.run && one.n !== null);
  const of = last && seen.strand.courses.find(({ id }) => id === last.course);
  const mend = snapshot.mends?.[seen.run]?.at(-1);
  if (rip !== null)
    return (
      <RipSheet
        seen={seen}
        first={rip.offer.to ?? undefined}
        many={rip.offer.many}
        elsewhere={() => {
          begun.value = { answers: rip.answers, course: null };
          setRip(null);
        }}
        close={close}
        rip={(step, then) => {
          if (move({ intent: "rip", to: step })) tell(then);
          close();
        }}
      />
    );
  if (to !== null || sheet === "passed")
    return (
      <PassedSheet seen={seen} to={to} place={() => making.visible.value?.runs[seen.run]?.at ?? seen.at} move={move} tell={tell} read={read} close={close} />
    );
  if (sheet === "recap")
    return (
      <RecapSheet
        making={making.id}
        seen={seen}
        right={(n) => {
          move({ intent: "count", n });
          close();
          tell(`${n}: good. Go on from here.`);
        }}
        other={() => open("count")}
        lost={() => open("lost")}
        last={of && last.n !== null ? { name: courseName(of).toLowerCase(), n: last.n } : null}
        unmend={mend ? () => open("spent") : null}
        read={read}
        close={close}
      />
    );
  if (sheet === "spent")
    return <SpentSheet making={making.id} seen={seen} say={mend?.say ?? ""} spent={isSpent(snapshot, seen)} settled={making.pending.value === 0} head={snapshot.head} read={read} tell={tell} close={close} />;
  return (
    <TalkSheet
      key={sheet}
      topic={sheet}
      making={making.id}
      seen={seen}
      settled={making.pending.value === 0}
      head={snapshot.head}
      live={making.link.value === "live"}
      due={sheet === "count" ? due : null}
      later={() => {
        if (due) turnDown(making, seen.run, due);
        close();
      }}
      byHand={(what) => open(what)}
      go={(step) => move({ intent: "goto", to: step })}
      rip={(offer, answers) => setRip({ offer, answers })}
      pass={setTo}
      counted={(n) => move({ intent: "count", n })}
      read={read}
      tell={tell}
      close={close}
    />
  );
}
