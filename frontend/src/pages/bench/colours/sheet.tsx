import { useSignal } from "@preact/signals";
import type { Snapshot } from "../../../api";
import type { Choice, Chosen } from "../../../follow/choices";
import type { Making } from "../../../follow/making";
import type { MakingState } from "../../../follow/stepping";
import { copyName } from "../seen";
import { Sheet } from "../sheet";
import { coloursOf } from "./wording";
import "./colours.css";

interface Props {
  making: Making;
  snapshot: Snapshot | null;
  state: MakingState | null;
  say: (text: string) => void;
  close: () => void;
}

type Named = "colours" | `colours/${string}`;
type Written = Record<string, Record<string, string>>;

const LONGEST = 60;

/** The runs that have colours to name, each with its colours. */
function coloured(snapshot: Snapshot, state: MakingState): { run: Snapshot["runs"][number]; colours: string[] }[] {
  return snapshot.runs.flatMap((run) => {
    const strand = snapshot.strands[state.runs[run.run]?.strand ?? ""];
    const colours = strand ? coloursOf(strand) : [];
    return colours.length > 0 ? [{ run, colours }] : [];
  });
}

/** What the maker calls the pattern's colours: in all copies, and where a copy is another, in that one. */
export function ColoursSheet({ making, snapshot, state, say, close }: Props) {
  const runs = snapshot && state ? coloured(snapshot, state) : [];
  const all = [...new Set(runs.flatMap(({ colours }) => colours))];
  const copies = runs.filter(({ run }) => run.copies > 1);
  const now: Chosen = making.chosen.value;
  const written = useSignal<Written>({});
  const words = (of: Named, colour: string) => written.value[of]?.[colour] ?? now[of]?.[colour] ?? "";
  const write = (of: Named, colour: string, text: string) => {
    written.value = { ...written.value, [of]: { ...written.value[of], [colour]: text } };
  };

  const keep = () => {
    const choices = Object.entries(written.value).map(([of, names]): Choice => {
      const named = Object.entries({ ...now[of as Named], ...names }).map(([colour, text]) => [colour, text.trim()] as const);
      const value = Object.fromEntries(named.filter(([, text]) => text));
      return { choice: of as Named, value: Object.keys(value).length > 0 ? value : null };
    });
    if (choices.length > 0 && !making.choose(choices)) say("This could not be kept just now. Try again in a moment.");
    else close();
  };

  const field = (of: Named, colour: string, usual: string) => (
    <label key={`${of} ${colour}`} class="colour-named">
      <span>{colour}</span>
      <input value={words(of, colour)} maxLength={LONGEST} autocomplete="off" placeholder={usual} onInput={(event) => write(of, colour, event.currentTarget.value)} />
    </label>
  );

  return (
    <Sheet title="Colours" close={close} walked>
      {all.length === 0 ? (
        <p>The pattern names no colour by its name.</p>
      ) : (
        <form
          class="colours"
          onSubmit={(event) => {
            event.preventDefault();
            keep();
          }}
        >
          <p>What you call the pattern's colours. The bench, the list and the paper say it so.</p>
          <fieldset>
            <legend>{copies.length > 0 ? "In every copy" : "Yours"}</legend>
            {all.map((colour) => field("colours", colour, "as the pattern"))}
          </fieldset>
          {copies.map(({ run, colours }) => (
            <fieldset key={run.run}>
              <legend>{copyName(run)}</legend>
              {colours.map((colour) => field(`colours/${run.run}`, colour, words("colours", colour) || "as the others"))}
            </fieldset>
          ))}
          <button type="submit" class="tape">
            Keep the colours
          </button>
        </form>
      )}
    </Sheet>
  );
}
