import { api, Refused } from "../../api";

const carries = (event: DragEvent) => event.dataTransfer?.types.includes("Files") ?? false;

/** Of the files dropped since the last report was read. */
export interface Tally {
  /** How many were dropped, how many of them are on the shelf now, how many were there before. */
  all: number;
  taken: number;
  known: number;
  /** The one file, where there is one only. */
  name: string;
  /** Why a file could not be taken in, in words that name it; each once. */
  lost: string[];
  /** What is to be known of files that were. */
  notes: string[];
  done: boolean;
  /** How many were left where they are because she said stop. */
  left: number;
}

export interface Dropping {
  end: () => void;
  /** The file in hand is still taken in, the others are not. */
  stop: () => void;
  /** The report was read: the next drop begins another. */
  read: () => void;
}

const none = (): Tally => ({ all: 0, taken: 0, known: 0, name: "", lost: [], notes: [], done: false, left: 0 });

/** With one more file of it dealt with. */
async function keep(file: File, tally: Tally): Promise<Tally> {
  try {
    const { text, said } = await api.file(file);
    const { known } = await api.addFile(text);
    const notes = said.length ? [...tally.notes, `${file.name}: ${said.join(" ")}`] : tally.notes;
    return { ...tally, taken: tally.taken + 1, known: tally.known + (known ? 1 : 0), notes };
  } catch (why) {
    let say = `${file.name} could not be taken in. Try once more.`;
    if (why instanceof Refused) say = why.say.includes(file.name) ? why.say : `${file.name}: ${why.say}`;
    return { ...tally, lost: [...new Set([...tally.lost, say])] };
  }
}

/** Files dropped anywhere on the shelf go on it, one after another; the browser opens none of them. */
export function dropping(tell: (tally: Tally) => Promise<void>): Dropping {
  let tally = none();
  let waiting: File[] = [];
  let busy = false;
  const over = (event: DragEvent) => {
    if (carries(event)) event.preventDefault();
  };
  const takeAll = async () => {
    if (busy) return;
    busy = true;
    for (let file = waiting.shift(); file; file = waiting.shift()) {
      void tell(tally);
      // What was dropped or stopped meanwhile is in the tally; only the file's own part is added.
      const { taken, known, lost, notes } = await keep(file, tally);
      tally = { ...tally, taken, known, lost, notes };
    }
    busy = false;
    tally = { ...tally, done: true };
    await tell(tally);
  };
  const drop = (event: DragEvent) => {
    if (!carries(event)) return;
    event.preventDefault();
    const files = [...(event.dataTransfer?.files ?? [])];
    if (!files.length) return;
    waiting.push(...files);
    tally = { ...tally, all: tally.all + files.length, name: files[0]?.name ?? "", done: false };
    void takeAll();
  };
  addEventListener("dragover", over);
  addEventListener("drop", drop);
  return {
    end: () => {
      removeEventListener("dragover", over);
      removeEventListener("drop", drop);
    },
    stop: () => {
      tally = { ...tally, left: tally.left + waiting.length };
      waiting = [];
    },
    read: () => {
      if (!busy) tally = none();
    },
  };
}

/** How far it is, in one line. */
export function told({ all, taken, known, name, lost, done, left }: Tally): string {
  if (!done) return all === 1 ? `Taking in: ${name}.` : `${taken} of ${all} taken in.`;
  if (all === 1 && taken) return `${name} is on your shelf${known ? " already" : ""}.`;
  const line = all === 1 && lost.length ? "" : `${taken} of ${all} taken in.`;
  const before = known ? ` ${known} of them ${known === 1 ? "was" : "were"} there already.` : "";
  return `${line}${before}${left ? ` You stopped it: ${left} ${left === 1 ? "was" : "were"} left.` : ""}`;
}
