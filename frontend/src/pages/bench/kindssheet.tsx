import { useState } from "preact/hooks";
import type { Snapshot } from "../../api";
import { useChoice } from "../../follow/choices";
import type { Making } from "../../follow/making";
import type { CueKind } from "../../generated/pattern";
import { wish, wishes } from "../../hands/wishes";
import { changeMaker, maker } from "../../maker";
import { Sheet } from "./sheet";

const KINDS: readonly [CueKind, string][] = [
  ["count", "count now"],
  ["marker", "where the marker goes"],
  ["stuff", "stuffing"],
  ["eyes", "eyes"],
  ["embroider", "the face and what is embroidered"],
  ["colour", "another color"],
  ["weave", "ends and tails on the inside"],
  ["tail", "a tail to leave"],
  ["fasten", "fastening off"],
  ["close", "closing the hole"],
  ["hold", "setting a piece aside"],
  ["join", "joining parts"],
  ["pin", "pinning parts on"],
  ["sew", "sewing parts on"],
  ["shape", "bending and folding"],
  ["turn", "turning the work"],
  ["other", "all else: loops that change, words at first times"],
];

/** Kinds that are mostly said in passing. */
const PASSING: readonly CueKind[] = ["count", "marker", "weave", "other"];

interface Props {
  snapshot: Snapshot;
  making: Making;
  close: () => void;
}

/** Which kinds of prompt she wants in this making. Nothing changes before the bench has asked. */
export function KindsSheet({ snapshot, making, close }: Props) {
  const [kept, choose] = useChoice(making, "kinds_off");
  const [off, setOff] = useState<readonly CueKind[]>(kept ?? []);
  const [trouble, setTrouble] = useState("");
  const here = new Set(Object.values(snapshot.strands).flatMap((strand) => strand.cues.map((cue) => cue.kind)));
  const shown = KINDS.filter(([kind]) => here.has(kind) || off.includes(kind));
  const toggle = (kind: CueKind) => setOff(off.includes(kind) ? off.filter((one) => one !== kind) : [...off, kind]);
  const take = () => {
    const now = KINDS.map(([kind]) => kind).filter((kind) => off.includes(kind));
    if (choose(now.length ? now : null)) close();
    else setTrouble("This could not be kept just now. Try again in a moment.");
  };
  const { quiet } = maker.value;
  const always = (kind: CueKind) =>
    void changeMaker({ quiet: quiet.includes(kind) ? quiet.filter((one) => one !== kind) : [...quiet, kind] }).catch(() =>
      setTrouble("That could not be kept: Hookside does not answer. Try again in a moment."),
    );
  return (
    <Sheet title="What to tell you of" close={close} walked>
      <h3>In this making</h3>
      <p>
        Of a kind that is turned down, what was worked out is left out; what the pattern prints is still shown as you
        pass it, and does not wait for you.
      </p>
      {shown.map(([kind, name]) => (
        <label key={kind} class="tick">
          <input type="checkbox" checked={!off.includes(kind)} onChange={() => toggle(kind)} />
          <span>{name}</span>
        </label>
      ))}
      <div class="sheet-answers">
        <button type="button" class="tape" onClick={take}>
          Work by this
        </button>
      </div>
      {trouble && <p role="alert">{trouble}</p>}
      <h3>In all your work</h3>
      <p>What is only said in passing. What waits for your answer always waits.</p>
      {KINDS.filter(([kind]) => PASSING.includes(kind)).map(([kind, name]) => (
        <label key={kind} class="tick">
          <input type="checkbox" checked={!quiet.includes(kind)} onChange={() => always(kind)} />
          <span>{name}</span>
        </label>
      ))}
      <label class="tick">
        <input type="checkbox" checked={wishes.value.offers} onChange={(e) => wish({ offers: e.currentTarget.checked })} />
        <span>a word and show me, where something is new to a making (on this device)</span>
      </label>
    </Sheet>
  );
}
