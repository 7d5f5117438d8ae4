import { api, Refused } from "../../api";

const carries = (event: DragEvent) => event.dataTransfer?.types.includes("Files") ?? false;

/** One file's pattern, put on the shelf: what to say of it. */
async function keep(file: File): Promise<string> {
  try {
    const { text, said } = await api.file(file);
    const { known } = await api.addFile(text);
    return [`${file.name} is on your shelf${known ? " already" : ""}.`, ...said].join(" ");
  } catch (why) {
    if (!(why instanceof Refused)) return `${file.name} could not be taken in. Try once more.`;
    return why.say.includes(file.name) ? why.say : `${file.name}: ${why.say}`;
  }
}

/**
 * Files dropped anywhere on the shelf go on it, one after another; the browser opens none of them. Each is said when it
 * is there, and which is being taken in. Returns the way to end it.
 */
export function dropping(tell: (say: string, done: boolean) => Promise<void>): () => void {
  let before: Promise<void> = Promise.resolve();
  const over = (event: DragEvent) => {
    if (carries(event)) event.preventDefault();
  };
  const take = async (files: File[]) => {
    const said: string[] = [];
    for (const [i, file] of files.entries()) {
      const which = files.length > 1 ? ` ${i + 1} of ${files.length}` : "";
      void tell([...said, `Taking in${which}: ${file.name}.`].join(" "), false);
      said.push(await keep(file));
    }
    await tell(said.join(" "), true);
  };
  const drop = (event: DragEvent) => {
    if (!carries(event)) return;
    event.preventDefault();
    const files = [...(event.dataTransfer?.files ?? [])];
    before = before.then(() => take(files));
  };
  addEventListener("dragover", over);
  addEventListener("drop", drop);
  return () => {
    removeEventListener("dragover", over);
    removeEventListener("drop", drop);
  };
}
