import { useEffect, useState } from "preact/hooks";
import { AWAY, Refused } from "../../../api";
import type { Seen } from "../seen";
import { Sheet } from "../sheet";
import { Key } from "../working";
import { Letter, useAnswers } from "./answering";
import { recapPlainly } from "./plainly";
import { mending, type RecapLine } from "./talk";
import { farClass } from "./talksheet";

interface Props {
  making: number;
  seen: Seen;
  /** The count is as expected; `n` is it. */
  right: (n: number) => void;
  /** It is another one. */
  other: () => void;
  lost: () => void;
  /** The last count of this piece that this device knows of. */
  last: { name: string; n: number } | null;
  /** The newest mend can be taken back; null: there is none. */
  unmend: (() => void) | null;
  read: (text: string) => void;
  close: () => void;
}

const EXPECTED = /I expect (\d+)/;

/** After a rest: what the hands have to know, and what a count should come to. */
export function RecapSheet({ making, seen, right, other, lost, last, unmend, read, close }: Props) {
  const [lines, show] = useState<RecapLine[] | null>(null);
  const [wrong, setWrong] = useState("");
  useEffect(() => {
    let over = false;
    mending.recap(making, seen.run).then(
      (told) => {
        if (over) return;
        show(told.lines);
        read(told.lines.map((line) => line.text).join(" "));
      },
      (e: unknown) => {
        if (over) return;
        if (e instanceof Refused && e.code !== AWAY) setWrong(e.say);
        else {
          show(recapPlainly(seen, last));
          setWrong("The link is down: this is what this device knows by itself.");
        }
      },
    );
    return () => {
      over = true;
    };
  }, []);
  const expect = lines?.find((line) => line.what === "expect")?.text ?? "";
  const number = EXPECTED.exec(expect)?.[1];
  const agree = (): boolean => {
    if (number !== undefined) right(Number(number));
    else close();
    return true;
  };
  useAnswers({
    yes: agree,
    no: () => {
      other();
      return true;
    },
    number: (n) => {
      if (String(n) === number) return agree();
      other();
      return true;
    },
    back: () => {
      close();
      return true;
    },
    walked: true,
  });
  return (
    <Sheet title="Where you were" close={close}>
      <div class="talk" aria-busy={lines === null && !wrong}>
        {expect && <p class={farClass(expect)}>{expect}</p>}
        {number !== undefined && (
          <div class="sheet-answers">
            <button type="button" class="answer main" onClick={agree}>
              <Key ask="done" />
              It is {number}
            </button>
            <button type="button" class="answer" onClick={other}>
              <Letter of="n" />
              Another number
            </button>
            <button type="button" class="answer quiet" onClick={lost}>
              I am lost
            </button>
          </div>
        )}
        <ul class="talk-lines">
          {lines?.filter((line) => line.what !== "expect").map((line) => <li key={line.text}>{line.text}</li>)}
        </ul>
        {unmend && (
          <div class="sheet-answers">
            <button type="button" class="answer quiet" onClick={unmend}>
              Take the last change back
            </button>
          </div>
        )}
        {wrong && (
          <p class="talk-wrong" role="alert">
            {wrong}
          </p>
        )}
      </div>
    </Sheet>
  );
}
