import "./fields.css";
import "./who.css";
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, Refused, type Who as Known } from "../../api";
import { maker } from "../../maker";

/** Who works at this device: what she likes follows her from one device to the other. */
export function Who({ refused }: { refused: (say: string) => void }) {
  const known = useSignal<Known | null>(null);
  const name = useSignal("");
  useEffect(() => {
    // Away from the server this stays out of sight: it is asked there.
    api.who().then((who) => (known.value = who), () => undefined);
  }, []);
  const now = known.value;
  if (!now) return null;

  async function is(who: string): Promise<void> {
    try {
      known.value = await api.setWho(who);
      maker.value = await api.maker();
      name.value = "";
      refused("");
    } catch (why) {
      refused(why instanceof Refused ? why.say : String(why));
    }
  }

  return (
    <form
      class="who"
      onSubmit={(event) => {
        event.preventDefault();
        if (name.value.trim()) void is(name.value);
      }}
    >
      {now.makers.length > 0 && (
        <fieldset class="choices">
          <legend>At this device works</legend>
          {[...now.makers, ""].map((one) => (
            <label class="choice" key={one}>
              <input type="radio" name="who" checked={now.name === one} onChange={() => void is(one)} />
              <span>{one || "whoever is here"}</span>
            </label>
          ))}
        </fieldset>
      )}
      <label class="named">
        <span>{now.makers.length > 0 ? "Somebody else" : "Your name, if others work with Hookside too"}</span>
        <input value={name.value} maxLength={40} autocomplete="off" onInput={(event) => (name.value = event.currentTarget.value)} />
      </label>
      {name.value.trim() && (
        <button type="submit" class="word">
          That is me
        </button>
      )}
    </form>
  );
}
