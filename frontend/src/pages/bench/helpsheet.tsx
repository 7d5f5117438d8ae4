import { keyName, KEYS, lettersOn, setLetters } from "../../hands/keys";
import { changeMaker, maker } from "../../maker";
import { Sheet } from "./sheet";

/** What the hands can do, and what can be had otherwise. */
export function HelpSheet({ close, say }: { close: () => void; say: (text: string) => void }) {
  const change = (wish: Parameters<typeof changeMaker>[0]) =>
    changeMaker(wish).catch(() => say("That could not be kept: Hookside does not answer. Try again in a moment."));
  const { words, plain, hand } = maker.value;
  return (
    <Sheet title="What your hands can do" close={close}>
      <h3>On the lower two thirds of the screen</h3>
      <dl class="table">
        <dt>touch</dt>
        <dd>next: the repeat, the round where it is plain, else the group</dd>
        <dt>stroke right</dt>
        <dd>one stitch</dd>
        <dt>stroke up</dt>
        <dd>to the end of the round or row</dd>
        <dt>stroke left</dt>
        <dd>back by as much</dd>
      </dl>
      <p>No aim is needed, and nothing asks for a double or a long touch. The words at the foot do the same.</p>
      <h3>Keys, pedals, presenters</h3>
      <dl class="table">
        {KEYS.map((row) => (
          <>
            <dt>{row.keys.map(keyName).join(", ")}</dt>
            <dd>{row.says}</dd>
          </>
        ))}
      </dl>
      <label class="tick">
        <input type="checkbox" checked={lettersOn.value} onChange={(e) => setLetters(e.currentTarget.checked)} />
        <span>single letters do something too</span>
      </label>
      <h3>As you like it</h3>
      <label class="tick">
        <input type="checkbox" checked={words === "full"} onChange={(e) => void change({ words: e.currentTarget.checked ? "full" : "short" })} />
        <span>stitches in full words</span>
      </label>
      <label class="tick">
        <input type="checkbox" checked={plain === "stitch"} onChange={(e) => void change({ plain: e.currentTarget.checked ? "stitch" : "plain" })} />
        <span>next means one stitch (for learning)</span>
      </label>
      <label class="tick">
        <input type="checkbox" checked={hand === "left"} onChange={(e) => void change({ hand: e.currentTarget.checked ? "left" : "right" })} />
        <span>I crochet with my left hand</span>
      </label>
    </Sheet>
  );
}
