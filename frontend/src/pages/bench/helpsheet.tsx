import { keyName, KEYS, keysOf } from "../../hands/keys";
import { wish, wishes } from "../../hands/wishes";
import { changeMaker, maker } from "../../maker";
import { Sheet } from "./sheet";

/** What a plain "next" does, as the maker has set it. */
const nextMeans = (plain: string) =>
  plain === "stitch" ? "next: one stitch" : "next: the repeat, the round where it is plain, else the group";

/** What the hands can do, and what can be had otherwise. */
export function HelpSheet({ close, say }: { close: () => void; say: (text: string) => void }) {
  const change = (wish: Parameters<typeof changeMaker>[0]) =>
    changeMaker(wish).catch(() => say("That could not be kept: Hookside does not answer. Try again in a moment."));
  const { words, plain, hand } = maker.value;
  return (
    <Sheet title="What your hands can do" close={close} walked>
      <h3>On the lower two thirds of the screen</h3>
      <dl class="table">
        <dt>touch</dt>
        <dd>{nextMeans(plain)}</dd>
        <dt>swipe right</dt>
        <dd>one stitch</dd>
        <dt>swipe up</dt>
        <dd>to the end of the round or row</dd>
        <dt>swipe left</dt>
        <dd>back by as much</dd>
      </dl>
      <p>No aim is needed, and nothing asks for a double or a long touch. The words at the foot do the same.</p>
      <p>Where something must be done first, it fills the screen. Done stands at the top: nothing else, no touch below and no pedal, passes it.</p>
      <h3>Keys, pedals, presenters</h3>
      <dl class="table">
        {KEYS.filter((row) => keysOf(row.ask).length > 0).map((row) => (
          <>
            <dt>{keysOf(row.ask).map(keyName).join(", ")}</dt>
            <dd>{row.ask === "next" ? `${nextMeans(plain)}; never past something that waits` : row.says}</dd>
          </>
        ))}
      </dl>
      <label class="tick">
        <input type="checkbox" checked={wishes.value.letters} onChange={(e) => wish({ letters: e.currentTarget.checked })} />
        <span>single letters do something too</span>
      </label>
      <p>Any key, pedal or presenter button can be taught any of these: more, Hands-free, Teach keys and pedals.</p>
      <h3>As you like it</h3>
      <label class="tick">
        <input type="checkbox" checked={words === "full"} onChange={(e) => void change({ words: e.currentTarget.checked ? "full" : "short" })} />
        <span>the stitch in hand in full words too</span>
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
