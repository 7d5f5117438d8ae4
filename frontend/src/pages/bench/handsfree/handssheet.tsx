import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { awake } from "../../../hands/awake";
import type { Session } from "../../../hands/session";
import { wish, wishes } from "../../../hands/wishes";
import { changeMaker, maker } from "../../../maker";
import { Sheet } from "../sheet";
import { AMOUNTS, Choices, COUNTS } from "./choices";
import { Models } from "./models";

interface Props {
  session: Session | null;
  start: () => void;
  end: () => void;
  go: (sheet: "say" | "teach") => void;
  close: () => void;
}

const Tick = (props: { on: boolean; set: (on: boolean) => void; children: ComponentChildren }) => (
  <label class="tick">
    <input type="checkbox" checked={props.on} onChange={(e) => props.set(e.currentTarget.checked)} />
    <span>{props.children}</span>
  </label>
);

const RATES = [
  [0.8, "slow"],
  [1, "as it is"],
  [1.25, "quick"],
] as const;

/** All there is to choose about working hands-free: how she counts goes with the maker, the rest is kept on this device. */
export function HandsSheet({ session, start, end, go, close }: Props) {
  const { spoken, single, chimes, headset, voice, rate } = wishes.value;
  const refused = useSignal("");
  const engine = session?.ear.engine.value;
  const missing = session?.ear.missing.value ?? [];
  const voices = session?.speech.voices.value ?? [];
  return (
    <Sheet title="Hands-free" close={close} walked>
      {session ? (
        <>
          <p class="large">{session.why.value || engine?.say || "Listening begins in a moment."}</p>
          {missing.length > 0 && <p>This engine does not know these words, so they are left out: {missing.join(", ")}.</p>}
        </>
      ) : (
        <p class="large">Talk to the bench, hear what comes, keep the screen on. One touch starts all of it. Sound goes to Hookside in your house and nowhere else, and is never kept.</p>
      )}
      <div class="sheet-answers">
        {session ? (
          <button type="button" class="answer" onClick={end}>
            End hands-free
          </button>
        ) : (
          <button type="button" class="answer main" onClick={start}>
            Start hands-free
          </button>
        )}
        <button type="button" class="answer" onClick={() => go("say")}>
          What you can say
        </button>
        <button type="button" class="answer" onClick={() => go("teach")}>
          Teach keys and pedals
        </button>
      </div>
      <Choices name="spoken" ask="Spoken by itself" of={AMOUNTS} now={spoken} choose={(to) => wish({ spoken: to })} />
      {session && spoken !== "silent" && session.speech.mute.value && (
        <p class="note">This device has no voice of its own in English, so nothing is spoken: it stands on the screen, and the chimes go on. A voice can be added in the device's own settings, under speech or accessibility.</p>
      )}
      {voices.length > 1 && spoken !== "silent" && (
        <p>
          <label class="pick">
            The voice{" "}
            <select value={voice} onChange={(e) => wish({ voice: e.currentTarget.value })}>
              <option value="">the device's own choice</option>
              {voices.map((v) => (
                <option key={v.voiceURI} value={v.name}>
                  {v.name}
                </option>
              ))}
            </select>
          </label>
        </p>
      )}
      {voices.length > 0 && spoken !== "silent" && <Choices name="rate" ask="It speaks" of={RATES} now={rate as 1} choose={(to) => wish({ rate: to })} />}
      <Choices name="counting" ask="You count aloud" of={COUNTS} now={maker.value.counting} open="Not chosen yet: it is asked once, when hands-free begins." choose={(counting) => void changeMaker({ counting }).then(() => (refused.value = ""), () => (refused.value = "That could not be kept: Hookside does not answer. Try again in a moment."))} />
      {refused.value && <p role="alert">{refused.value}</p>}
      <Tick on={chimes} set={(on) => wish({ chimes: on })}>
        soft chimes: heard, not sure, end of a repeat, end of a round, something waits
      </Tick>
      <Tick on={single} set={(on) => wish({ single: on })}>
        single words too ("next", "back"): for a quiet room
      </Tick>
      <Tick on={headset} set={(on) => wish({ headset: on })}>
        the buttons of a headset: next, back, hold. Not every browser hands them on, and music from elsewhere may stop
      </Tick>
      <p>
        {awake.value === "kept"
          ? "The screen is kept on."
          : awake.value === "cannot"
            ? "This browser cannot keep the screen on: set your device to, or touch it now and then."
            : awake.value === "refused"
              ? "The device lets the screen go dark just now. It is asked again at every touch."
              : "While hands-free, the screen is kept on where the device allows it."}
      </p>
      <Models session={session} />
    </Sheet>
  );
}
