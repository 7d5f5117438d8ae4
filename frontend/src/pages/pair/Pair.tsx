import "./pair.css";
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { called, tidy } from "./words";

const AGAIN_MS = 1000;

interface Said {
  say?: string;
  code?: string;
}

/** One question to the server. A refusal comes back as its sentence. */
async function post<T>(address: string, body: unknown): Promise<T | { refused: Said }> {
  try {
    const answer = await fetch(address, {
      method: "POST",
      cache: "no-store",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify(body),
    });
    const data = (await answer.json()) as T & Said;
    return answer.ok ? data : { refused: data };
  } catch {
    return { refused: { say: "Hookside does not answer. Is the laptop awake, and is it still shared there?", code: "away" } };
  }
}

/** A device at the door. `link`: the invitation it came with. */
export function Pair({ link }: { link: string | null }) {
  const typed = useSignal("");
  const say = useSignal("");
  const busy = useSignal(link !== null);
  const figures = useSignal<string | null>(null);

  async function knock(shown: string): Promise<void> {
    busy.value = true;
    say.value = "";
    const touch = navigator.maxTouchPoints > 0;
    const name = called(navigator.userAgent, Math.min(screen.width, screen.height), touch);
    const answer = await post<{ knock: string; figures: string }>("/api/pair/knock", { shown, name });
    busy.value = false;
    if ("refused" in answer) {
      say.value = answer.refused.say ?? "That was refused.";
      return;
    }
    typed.value = "";
    figures.value = answer.figures;
    await wait(answer.knock);
  }

  /** Until somebody beside the laptop has answered. */
  async function wait(secret: string): Promise<void> {
    for (;;) {
      await new Promise((done) => setTimeout(done, AGAIN_MS));
      const answer = await post<{ paired: boolean }>("/api/pair/ask", { knock: secret });
      if ("refused" in answer) {
        if (answer.refused.code === "away" || answer.refused.code === "fast") {
          say.value = answer.refused.say ?? "";
          continue;
        }
        figures.value = null;
        say.value = answer.refused.say ?? "That was refused.";
        return;
      }
      say.value = "";
      if (answer.paired) {
        location.replace("/");
        return;
      }
    }
  }

  useEffect(() => {
    if (link) void knock(link);
  }, []);

  return (
    <main class="page pair">
      <h1>{figures.value ? "Now let it in on the laptop" : "Pair this device with Hookside"}</h1>
      {figures.value && (
        <>
          <p>The laptop asks about this device. Both must show the same two figures:</p>
          <p class="figures">{figures.value}</p>
          <p>If the laptop shows others, turn away what asks there: it is not this device.</p>
        </>
      )}
      {!figures.value && !busy.value && (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            void knock(typed.value);
          }}
        >
          <p>
            On the laptop's shelf, under <b>Use a phone or tablet</b>, choose <b>Invite a device</b>. Point this
            device's camera at the picture there, or type the eight letters and figures:
          </p>
          <label class="typed">
            <span class="said">The eight letters and figures that the laptop shows</span>
            <input
              value={typed.value}
              onInput={(event) => {
                typed.value = tidy(event.currentTarget.value);
                event.currentTarget.value = typed.value;
              }}
              autocomplete="off"
              autocapitalize="characters"
              autocorrect="off"
              spellcheck={false}
              enterkeyhint="go"
              inputMode="text"
            />
          </label>
          <button type="submit" class="tape" disabled={typed.value.length < 9}>
            Ask to come in
          </button>
        </form>
      )}
      <p role="status" class={say.value ? "note" : "said"}>
        {say.value || (busy.value ? "Asking the laptop" : "")}
      </p>
    </main>
  );
}
