import type { Ask } from "../../hands/keys";
import { Sheet } from "./sheet";
import { Key } from "./working";

export type More = "gather" | "habits" | "notes" | "record" | "kinds" | "pattern" | "shape" | "chart" | "rip" | "goto" | "runs" | "help" | "lock" | "group" | "hands" | "count" | "lost" | "passed" | "recap" | "show" | "parts";

/** By what a maker wants of them, the likeliest first: what went wrong, what she would see, this making, how it goes on. */
const MORE: readonly [string, readonly [More, string, string][]][] = [
  [
    "Something is not right",
    [
      ["count", "Count check", "a stitch too many or too few: found, and mended small"],
      ["lost", "I am lost", "the fabric is asked, one question at a time"],
      ["rip", "Rip back", "by stitches, to the last repeat, to a round"],
      ["passed", "I worked on", "on to a later round; what came on the way is ticked"],
      ["goto", "Go to", "another round or stitch"],
    ],
  ],
  [
    "To look at",
    [
      ["show", "Show me", "how the stitch in hand, or what waits, is done; all cards"],
      ["recap", "Where I was", "hook, yarn, side, changes, and the count to expect"],
      ["pattern", "The pattern", "what is to be mended in it, hook, gauge, notes, the text"],
      ["shape", "Shape so far", "how it will look, how wide it stands open, its size"],
      ["chart", "Chart", "every stitch of this piece as a symbol; to print"],
    ],
  ],
  [
    "This making",
    [
      ["notes", "Notes", "what you write down at a place; it comes up there again"],
      ["gather", "What to have at hand", "hook, yarn, all else; what the list forgets; ticks that stay"],
      ["runs", "Pieces and copies", "what is on the hook, set aside, ready to sew"],
      ["parts", "Finish list", "pin, sew, ends: what is done and what is left"],
      ["record", "Record", "sittings, your pace, what is left in stitches and hours"],
    ],
  ],
  [
    "How you work",
    [
      ["hands", "Hands-free", "voice, counting aloud, what is spoken, keys and pedals, headset"],
      ["habits", "Words and habits", "US or UK names, decreases, joined rounds as a spiral, your hand"],
      ["kinds", "What to tell you of", "kinds of prompt that you turn down in this making"],
      ["group", "On by one group", "only to the end of what is named in one breath"],
      ["lock", "Lock touch", "keys and pedals go on working"],
      ["help", "What your hands can do", "touches, strokes, keys; words and hand"],
    ],
  ],
];

const askFor = (what: More): Ask => (what === "count" ? "check" : what);

/** What is not needed while the hook moves, each with its key, which opens it here as well. */
export function MoreSheet({ title, close, choose }: { title: string; close: () => void; choose: (what: More) => void }) {
  const asks = (key: Ask): boolean => {
    const found = MORE.flatMap(([, of]) => of).find(([what]) => askFor(what) === key);
    if (found) choose(found[0]);
    return found !== undefined;
  };
  return (
    <Sheet title={title} close={close} asks={asks} walked>
      {MORE.map(([head, of]) => (
        <section key={head} aria-label={head}>
          <h3>{head}</h3>
          <ul class="ways">
            {of.map(([what, name, text]) => (
              <li key={what}>
                <button type="button" class="way" onClick={() => choose(what)}>
                  <b>
                    <Key ask={askFor(what)} /> {name}
                  </b>
                  <span>{text}</span>
                </button>
              </li>
            ))}
          </ul>
        </section>
      ))}
    </Sheet>
  );
}
