import { api, Refused } from "../../api";

const carries = (event: DragEvent) => event.dataTransfer?.types.includes("Files") ?? false;

/** One file's pattern, put on the shelf: what to say of it. */
async function keep(file: File): Promise<string> {
  try {
    const { text, said } = await api.file(file);
    await api.addPattern(text, null);
    return [`${file.name} is on your shelf.`, ...said].join(" ");
  } catch (why) {
    return why instanceof Refused ? why.say : `${file.name} could not be taken in. Try once more.`;
  }
}

/** Files dropped anywhere on the shelf go on it, one after another; the browser opens none of them. Returns the way to end it. */
export function dropping(taking: (say: string) => void, taken: (say: string) => Promise<void>): () => void {
  const over = (event: DragEvent) => {
    if (carries(event)) event.preventDefault();
  };
  const drop = async (event: DragEvent) => {
    if (!carries(event)) return;
    event.preventDefault();
    const files = [...(event.dataTransfer?.files ?? [])];
    taking(files.length === 1 ? "Taking it in." : `Taking ${files.length} files in.`);
    const said: string[] = [];
    for (const file of files) said.push(await keep(file));
    await taken(said.join(" "));
  };
  const dropped = (event: DragEvent) => void drop(event);
  addEventListener("dragover", over);
  addEventListener("drop", dropped);
  return () => {
    removeEventListener("dragover", over);
    removeEventListener("drop", dropped);
  };
}
