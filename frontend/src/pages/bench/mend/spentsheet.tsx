import { useEffect, useState } from "preact/hooks";
import { Refused } from "../../../api";
import type { Seen } from "../seen";
import { Sheet } from "../sheet";
import { useAnswers } from "./answering";
import { useArrived } from "./arriving";
import { mending } from "./talk";

interface Props {
  making: number;
  seen: Seen;
  /** The newest mend, in words. */
  say: string;
  /** The hook is back before the slip. */
  spent: boolean;
  /** False while moves of this page are on their way. */
  settled: boolean;
  /** The last row the bench knows of. */
  head: number;
  read: (text: string) => void;
  tell: (text: string) => void;
  close: () => void;
}

const ASKED = "Shall the rounds be as written again?";
const SPENT = "You are back before the slip.";

/** The newest mend is taken back: asked for, or because the hook is back before the slip. */
export function SpentSheet({ making, seen, say, spent, settled, head, read, tell, close }: Props) {
  const [wrong, setWrong] = useState("");
  const [wanted, want] = useState(false);
  const [awaited, awaits] = useState<number | null>(null);
  const asked = spent ? `${SPENT} ${ASKED}` : ASKED;
  useEffect(() => read(asked), []);
  const take = (): boolean => {
    want(true);
    return true;
  };
  // The journal has to know of the place first.
  useEffect(() => {
    if (!wanted || !settled) return;
    mending.unmend(making, seen.run, seen.at).then(
      (told) => awaits(told.head),
      (e: unknown) => {
        want(false);
        setWrong(e instanceof Refused ? e.say : "This was not taken. Try once more.");
      },
    );
  }, [wanted, settled]);
  useArrived(awaited, head, () => {
    tell("The rounds are as written again.");
    close();
  });
  const keep = (): boolean => {
    close();
    return true;
  };
  useAnswers({ yes: take, no: keep, number: () => false, back: keep });
  return (
    <Sheet title="The mend" close={close}>
      <div class="talk">
        <p class="talk-said">{say}.</p>
        <p class="talk-asked" role="alert">
          {asked}
        </p>
        <div class="sheet-answers">
          <button type="button" class="answer main" onClick={take}>
            Yes, as written
          </button>
          <button type="button" class="answer" onClick={keep}>
            Keep the mend
          </button>
        </div>
        {wrong && (
          <p class="talk-wrong" role="alert">
            {wrong}
          </p>
        )}
      </div>
    </Sheet>
  );
}
