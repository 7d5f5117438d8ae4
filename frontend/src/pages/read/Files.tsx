import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { api, Refused } from "../../api";
import { toRead } from "../../route";
import type { Desk } from "./desk";

/** What this page can take: the rest is told by what is in a file. */
const KINDS = ".pdf,.txt,.md,.markdown,.html,.htm,text/plain,text/html,text/markdown,application/pdf";

export interface Added {
  id: string | number;
  name: string;
}

/**
 * A pattern from a file, chosen or dropped anywhere on the page. The first goes on an empty desk; every other one goes
 * on the shelf, so that nothing that lies here is written over. What was put there and what could not be taken in is said
 * beside the rounds: on a phone the text lies behind them.
 */
export function Files({ desk, taken, also }: { desk: Desk; taken: (notes: string[]) => void; also: (line: string, added?: Added) => void }) {
  const say = useSignal<string[]>([]);
  const busy = useSignal(false);
  const over = useSignal(false);
  const field = useRef<HTMLInputElement>(null);
  const empty = desk.editable.value && !desk.text.value.trim();

  async function take(files: readonly File[]): Promise<void> {
    if (busy.value || files.length === 0) return;
    busy.value = true;
    say.value = [];
    for (const file of files) {
      try {
        const found = await api.file(file);
        const notes = found.said.map((line) => `${file.name}: ${line}`);
        if (desk.editable.value && !desk.text.value.trim()) {
          desk.write(found.text);
          taken(notes);
        } else {
          const { id, known } = await api.addFile(found.text);
          also([...(known ? [`${file.name} was on your shelf already.`] : []), ...notes].join(" "), { id, name: file.name });
        }
      } catch (why) {
        const refused = why instanceof Refused ? why.say : "could not be taken in. Try once more.";
        const line = refused.includes(file.name) ? refused : `${file.name}: ${refused}`;
        if (desk.text.value.trim()) also(line);
        else say.value = [...say.value, line];
      }
    }
    busy.value = false;
  }

  useEffect(() => {
    const carries = (event: DragEvent) => event.dataTransfer?.types.includes("Files") ?? false;
    const drag = (event: DragEvent) => {
      if (!carries(event)) return;
      event.preventDefault();
      over.value = event.type === "dragover";
    };
    const drop = (event: DragEvent) => {
      if (!carries(event)) return;
      event.preventDefault();
      over.value = false;
      void take([...(event.dataTransfer?.files ?? [])]);
    };
    addEventListener("dragover", drag);
    addEventListener("dragleave", drag);
    addEventListener("drop", drop);
    return () => {
      removeEventListener("dragover", drag);
      removeEventListener("dragleave", drag);
      removeEventListener("drop", drop);
    };
  }, [desk]);

  return (
    <div class={`files${over.value ? " over" : ""}`}>
      {empty && (
        <p>
          <button type="button" class="label" disabled={busy.value} onClick={() => field.current?.click()}>
            Choose a file
          </button>{" "}
          <span class="soft">PDF with text, web page, Markdown or plain text; or drop it here.</span>
          <input
            ref={field}
            type="file"
            accept={KINDS}
            multiple
            hidden
            aria-label="A file with a pattern"
            onChange={(event) => {
              const { files } = event.currentTarget;
              void take([...(files ?? [])]);
              event.currentTarget.value = "";
            }}
          />
        </p>
      )}
      {over.value && <p role="status">Let go, and its text comes here.</p>}
      {busy.value && <p role="status">Taking it in.</p>}
      {say.value.map((line) => (
        <p key={line} role="alert">
          {line}
        </p>
      ))}
    </div>
  );
}

/** What was put on the shelf beside the text that lies here. */
export const OnTheShelf = ({ added }: { added: readonly Added[] }) =>
  added.length > 0 && (
    <p role="status">
      Put on the shelf:{" "}
      {added.map(({ id, name }) => (
        <a key={id} class="word" href={toRead(id)}>
          {name}
        </a>
      ))}
    </p>
  );
