import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { Refused } from "../../../api";
import type { Session } from "../../../hands/session";
import { wishes } from "../../../hands/wishes";
import { Sheet } from "../sheet";
import { type Phrased, voice } from "./rest";

/** What can be said, printed from the very table that listens. */
export function SaySheet({ session, close }: { session: Session | null; close: () => void }) {
  const phrases = useSignal<Phrased[]>([]);
  const say = useSignal("Fetching the list.");
  useEffect(() => {
    voice.about().then(
      (about) => {
        phrases.value = about.phrases[wishes.value.language] ?? [];
        say.value = "";
      },
      (why: unknown) => (say.value = why instanceof Refused ? why.say : String(why)),
    );
  }, []);
  const engine = session?.ear.engine.value;
  return (
    <Sheet title="What you can say" close={close}>
      {engine && <p>{engine.say}</p>}
      <p>Pause for a moment before and after. Where something has to be done first, nothing else goes on.</p>
      <p role="status">{say.value}</p>
      <dl class="table say-table">
        {phrases.value.map((row) => (
          <>
            <dt>{[...row.phrases, ...(wishes.value.single ? row.single : [])].map((p) => `“${p}”`).join(" ")}</dt>
            <dd>{row.says}</dd>
          </>
        ))}
      </dl>
    </Sheet>
  );
}
