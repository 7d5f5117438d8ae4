import { go, toShelf } from "../../route";
import type { Box } from "./box";
import { Halt } from "./halt";
import { copyName, type Seen } from "./seen";
import { courseName } from "./sentence";

interface OfferProps {
  seen: Seen;
  other: { piece: string; copy: number; copies: number };
  box: Box;
  take: () => void;
  stay: () => void;
}

/** The order of work wants another run in hand: offered like a stop, and free to be declined. */
export function Offer({ seen, other, box, take, stay }: OfferProps) {
  const mine = copyName(seen);
  const name = copyName(other);
  const ended = seen.spot.finished;
  const before = seen.strand.courses[(seen.spot.course ?? seen.strand.courses.length) - 1];
  const aside = `Set it aside with the loop live, a marker through it; take up ${name}.`;
  const alike = seen.strand.cues.some((c) => c.kind === "stuff") ? "match its stuffing" : "make the next one the same size, at the same tension";
  const like = `Keep it beside you and ${alike}. Take up ${name} next.`;
  return (
    <Halt
      what={`${seen.run}@${seen.at}`}
      title={ended ? `${mine} is finished` : before ? `${mine}: ${courseName(before).toLowerCase()} is done` : `${mine} is begun`}
      body={!ended ? aside : other.piece === seen.piece ? like : `Lay it by. Take up ${name} next.`}
      box={box}
      tone="comes"
      answers={[
        { text: `Take up ${name}`, main: true, act: take },
        { text: ended ? "Look at it a while" : `Stay with ${mine}`, act: stay },
      ]}
    />
  );
}

interface FinishedProps {
  title: string;
  piece: string;
  all: boolean;
  box: Box;
  runs: () => void;
  back: () => void;
}

/** Nothing waits and nothing presses: a piece, or the whole making, is finished. */
export function Finished({ title, piece, all, box, runs, back }: FinishedProps) {
  const head = all ? "All finished" : `${piece} is finished`;
  const body = all
    ? `${title}: every piece is worked and every end is seen to. Put the hook down and look at it.`
    : "Its last stitch is made and nothing waits. Take up another piece when you like.";
  return (
    <Halt
      what={`finished ${piece}`}
      title={head}
      body={body}
      box={box}
      tone="calm"
      answers={[
        all ? { text: "To the shelf", main: true, act: () => go(toShelf) } : { text: "Pieces and copies", main: true, act: runs },
        { text: "Go back", act: back },
      ]}
    />
  );
}
