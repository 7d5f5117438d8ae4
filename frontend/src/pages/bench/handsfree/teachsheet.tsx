import { useSignal } from "@preact/signals";
import { useLayoutEffect } from "preact/hooks";
import { type Ask, keyName, KEYS, keysOf, meaning, nameOf, teach, teachable, unteach } from "../../../hands/keys";
import { wishes } from "../../../hands/wishes";
import { Sheet } from "../sheet";

const says = (ask: Ask): string => KEYS.find((row) => row.ask === ask)?.says ?? ask;

/** Any key, pedal or presenter button for anything the bench can do. */
export function TeachSheet({ close }: { close: () => void }) {
  const wanted = useSignal<Ask | null>(null);
  /** A key that means something else already: asked before it changes. */
  const taken = useSignal<string | null>(null);
  const say = useSignal("");
  const give = (key: string, ask: Ask) => {
    teach(key, ask);
    say.value = `${keyName(nameOf(key))} now means: ${says(ask)}.`;
    wanted.value = null;
    taken.value = null;
  };
  const asks = wanted.value;
  const free = taken.value === null;
  useLayoutEffect(() => {
    if (asks === null || !free) return;
    const down = (event: KeyboardEvent) => {
      if (event.key === "Escape") {
        event.preventDefault();
        event.stopPropagation();
        wanted.value = null;
        return;
      }
      if (!teachable(event.key) || event.repeat) return;
      event.preventDefault();
      event.stopPropagation();
      const now = meaning(event.key);
      if (now === null || now === asks) give(event.key, asks);
      else taken.value = event.key;
    };
    // A button that has the focus is pressed by the lifting of Space.
    const up = (event: KeyboardEvent) => event.key === " " && event.preventDefault();
    addEventListener("keydown", down, true);
    addEventListener("keyup", up, true);
    return () => {
      removeEventListener("keydown", down, true);
      removeEventListener("keyup", up, true);
    };
  }, [asks, free]);

  if (asks !== null) {
    const key = taken.value;
    const now = key === null ? null : meaning(key);
    return (
      <Sheet title={says(asks)} close={close}>
        {key !== null && now !== null ? (
          <>
            <p class="large" role="alert">
              {keyName(nameOf(key))} means “{says(now)}” now. Shall it mean “{says(asks)}” instead?
            </p>
            <div class="sheet-answers">
              <button type="button" class="answer main" onClick={() => give(key, asks)}>
                Yes, change it
              </button>
              <button type="button" class="answer" onClick={() => (taken.value = null)}>
                Another key
              </button>
            </div>
          </>
        ) : (
          <>
            <p class="large" role="alert">
              Press the key, the pedal or the button now.
            </p>
            <p>Nothing comes? Some pedals have to be set to send keys first. Tab and Escape keep what they mean.</p>
            <div class="sheet-answers">
              <button type="button" class="answer" onClick={() => (wanted.value = null)}>
                None
              </button>
            </div>
          </>
        )}
      </Sheet>
    );
  }
  return (
    <Sheet title="Keys and pedals" close={close}>
      <p>Touch what you want, then press the key or the pedal for it. It is kept on this device.</p>
      <p role="status">{say.value}</p>
      <ul class="ways">
        {KEYS.map((row) => (
          <li key={row.ask}>
            <button type="button" class="way" onClick={() => (wanted.value = row.ask)}>
              <b>{row.says}</b>
              <span>{keysOf(row.ask).map(keyName).join(", ") || "no key"}</span>
            </button>
          </li>
        ))}
      </ul>
      {Object.keys(wishes.value.keys).length > 0 && (
        <div class="sheet-answers">
          <button
            type="button"
            class="answer"
            onClick={() => {
              unteach();
              say.value = "All keys are as they came.";
            }}
          >
            All keys as they came
          </button>
        </div>
      )}
    </Sheet>
  );
}
