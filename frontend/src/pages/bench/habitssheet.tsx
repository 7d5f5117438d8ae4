import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import { api, Refused, type Snapshot } from "../../api";
import type { Choice, Chosen } from "../../follow/choices";
import type { Making } from "../../follow/making";
import type { Allowed, Habits, Terms } from "../../generated/pattern";
import { changeMaker, maker } from "../../maker";
import { Sheet } from "./sheet";

// One file for what is set once: each has a line in the worker.
export { HelpSheet } from "./helpsheet";
export { KindsSheet } from "./kindssheet";

interface Props {
  snapshot: Snapshot;
  making: Making;
  close: () => void;
}

type Found = Habits | { say: string } | null;

/** In whose words this making is told, and what of it is worked in another way. The bench asks before steps change. */
export function HabitsSheet({ snapshot, making, close }: Props) {
  const [found, set] = useState<Found>(null);
  useEffect(() => {
    let here = true;
    api
      .habits(snapshot.pattern)
      .catch((why: unknown) => ({ say: why instanceof Refused ? why.say : "What the pattern allows could not be asked just now." }))
      .then((habits) => here && set(habits));
    return () => {
      here = false;
    };
  }, [snapshot.pattern]);
  return (
    <Sheet title="Words and habits" close={close} walked>
      {found === null ? (
        <p role="status">Looking at what the pattern allows.</p>
      ) : "say" in found ? (
        <p role="alert">{found.say}</p>
      ) : (
        <Asked habits={found} snapshot={snapshot} making={making} close={close} />
      )}
    </Sheet>
  );
}

const OTHER = "This could not be kept just now. Try again in a moment.";

function Asked({ habits, snapshot, making, close }: Props & { habits: Habits }) {
  const chosen: Chosen = making.chosen.value;
  const [terms, setTerms] = useState<Terms>(chosen.terms ?? snapshot.terms);
  const [decreases, setDecreases] = useState(chosen.decreases ?? null);
  const [spiral, setSpiral] = useState(chosen.spiral ?? false);
  const [trouble, setTrouble] = useState("");
  const hand = (which: "left" | "right") =>
    void changeMaker({ hand: which }).catch((why: unknown) => setTrouble(why instanceof Refused ? why.say : OTHER));
  const work = () => {
    const said: Choice[] = [];
    if (terms !== (chosen.terms ?? snapshot.terms)) said.push({ choice: "terms", value: terms });
    if (decreases !== (chosen.decreases ?? null)) said.push({ choice: "decreases", value: decreases });
    if (spiral !== (chosen.spiral ?? false)) said.push({ choice: "spiral", value: spiral || null });
    if (said.length === 0 || making.choose(said)) close();
    else setTrouble(OTHER);
  };
  const kinds: [typeof decreases, string, Allowed | null][] = [
    [null, "as the pattern has them", null],
    ["invisible", "invisible, through two front loops", habits.invisible],
    ["plain", "plain, two together through both loops", habits.plain],
  ];
  const decreasing = kinds.filter(([value, , allowed]) => allowed === null || value === decreases || allowed.changes.length > 0);
  return (
    <>
      <fieldset class="choices">
        <legend>Stitches are called</legend>
        {(["US", "UK"] as const).map((name) => (
          <Choose key={name} name="terms" on={terms === name} choose={() => setTerms(name)}>
            in {name} terms
          </Choose>
        ))}
      </fieldset>
      <p class="soft">
        The pattern is written in {habits.terms} terms. {habits.because}
      </p>

      <h3>Decreases</h3>
      {decreasing.length > 1 && (
        <fieldset class="choices">
          <legend class="said">Decreases</legend>
          {decreasing.map(([value, words]) => (
            <Choose key={words} name="decreases" on={decreases === value} choose={() => setDecreases(value)}>
              {words}
            </Choose>
          ))}
        </fieldset>
      )}
      <Told allowed={habits.invisible} nothing={decreasing.length > 1 ? "" : "There is none in it that could be worked in another way."} />

      <h3>Joined rounds</h3>
      {(habits.spiral.changes.length > 0 || spiral) && (
        <fieldset class="choices">
          <legend class="said">Joined rounds</legend>
          <Choose name="spiral" on={!spiral} choose={() => setSpiral(false)}>
            joined, as written
          </Choose>
          <Choose name="spiral" on={spiral} choose={() => setSpiral(true)}>
            as a spiral, with a marker
          </Choose>
        </fieldset>
      )}
      <Told allowed={habits.spiral} nothing={habits.spiral.changes.length ? "" : "No round of it is joined."} />

      <h3>Your hand</h3>
      <fieldset class="choices">
        <legend class="said">The hook is in your</legend>
        {(["right", "left"] as const).map((which) => (
          <Choose key={which} name="hand" on={maker.value.hand === which} choose={() => hand(which)}>
            {which} hand: drawings and charts run {which === "right" ? "anticlockwise" : "clockwise"}
          </Choose>
        ))}
      </fieldset>
      {trouble && <p role="alert">{trouble}</p>}
      <div class="sheet-answers">
        <button type="button" class="tape" onClick={work}>
          Work by this
        </button>
      </div>
    </>
  );
}

function Choose({ name, on, choose, children }: { name: string; on: boolean; choose: () => void; children: ComponentChildren }) {
  return (
    <label class="choice">
      <input type="radio" name={`habit-${name}`} checked={on} onChange={choose} />
      <span>{children}</span>
    </label>
  );
}

/** What would change, what stays and why, what no longer holds; `nothing` where there is none of it. */
function Told({ allowed, nothing }: { allowed: Allowed; nothing: string }) {
  const lines = [...(allowed.changes.length ? [`It changes ${allowed.changes.join(", ")}.`] : []), ...allowed.stays, ...allowed.mind];
  return (
    <>
      {(lines.length ? lines : nothing ? [nothing] : []).map((line) => (
        <p key={line} class="soft">
          {line}
        </p>
      ))}
    </>
  );
}
