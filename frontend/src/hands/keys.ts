import { bounceGuard, KEY_GAP } from "./bounce";
import { wish, wishes } from "./wishes";

/** Everything a key can ask of the bench. */
export type Ask =
  | "next"
  | "back"
  | "stitch"
  | "group"
  | "repeat"
  | "round"
  | "undo"
  | "done"
  | "where"
  | "pattern"
  | "goto"
  | "rip"
  | "runs"
  | "lock"
  | "help"
  | "left"
  | "ahead"
  | "again"
  | "lost"
  | "check"
  | "recap"
  | "recount"
  | "listen"
  | "finish"
  | "show"
  | "gather"
  | "habits"
  | "parts"
  | "more"
  | "shape"
  | "chart"
  | "notes"
  | "record"
  | "kinds"
  | "passed"
  | "hands";

export interface KeyRow {
  ask: Ask;
  /** Values of KeyboardEvent.key. Pedals, presenters and page-turners send the named ones. */
  keys: readonly string[];
  /** What it does, in words, for the help sheet. */
  says: string;
}

export const KEYS: readonly KeyRow[] = [
  {
    ask: "next",
    keys: ["PageDown", "ArrowRight", "ArrowDown", " ", "Enter", "MediaTrackNext"],
    says: "next: the repeat, the round where it is plain, else the group",
  },
  { ask: "back", keys: ["PageUp", "ArrowLeft", "ArrowUp", "Backspace", "MediaTrackPrevious"], says: "back by as much" },
  { ask: "stitch", keys: ["s"], says: "one stitch" },
  { ask: "group", keys: ["g"], says: "to the end of the group" },
  { ask: "repeat", keys: ["p"], says: "to the end of the repeat" },
  { ask: "round", keys: ["r"], says: "to the end of the round or row" },
  { ask: "undo", keys: ["u"], says: "take back the last move" },
  { ask: "done", keys: ["d"], says: "done, where something waits: the one key for it; a count that waits is right" },
  { ask: "where", keys: ["w"], says: "say where I am" },
  { ask: "left", keys: ["e"], says: "say how many are left" },
  { ask: "ahead", keys: ["a"], says: "say what comes next" },
  { ask: "again", keys: ["y"], says: "say that again" },
  { ask: "lost", keys: ["q"], says: "I am lost: the fabric is asked, one question at a time" },
  { ask: "check", keys: ["k"], says: "count check: a stitch too many or too few" },
  { ask: "recap", keys: ["b"], says: "where I was: hook, yarn, side, and the count to expect" },
  { ask: "listen", keys: ["m"], says: "hands-free: start, hold, listen again" },
  { ask: "recount", keys: ["8"], says: "let me count" },
  { ask: "finish", keys: ["9"], says: "finish the sitting" },
  { ask: "show", keys: ["v"], says: "show me how what is in hand is done" },
  { ask: "parts", keys: ["f"], says: "the finish list: pin, sew, ends" },
  { ask: "gather", keys: ["t"], says: "things to have at hand: hook, yarn, all else" },
  { ask: "habits", keys: ["i"], says: "words and habits: US or UK, decreases, spiral" },
  { ask: "pattern", keys: ["n"], says: "the pattern: hook, materials, notes, abbreviations" },
  { ask: "goto", keys: ["o"], says: "go to a round" },
  { ask: "rip", keys: ["x"], says: "rip back" },
  { ask: "runs", keys: ["c"], says: "pieces and copies" },
  { ask: "shape", keys: ["1"], says: "shape so far" },
  { ask: "chart", keys: ["2"], says: "chart" },
  { ask: "notes", keys: ["3"], says: "notes at this place" },
  { ask: "record", keys: ["4"], says: "record: sittings, pace, what is left" },
  { ask: "kinds", keys: ["5"], says: "what to tell you of" },
  { ask: "passed", keys: ["6"], says: "I worked on, to a later round" },
  { ask: "hands", keys: ["7"], says: "hands-free and what belongs to it" },
  { ask: "more", keys: ["0", "j"], says: "everything there is, as one list" },
  { ask: "lock", keys: ["l"], says: "lock or unlock touch" },
  { ask: "help", keys: ["?", "h"], says: "this list" },
];

const BY_KEY = new Map(KEYS.flatMap((row) => row.keys.map((key) => [key, row.ask] as const)));

/** A key as people call it. */
export function keyName(key: string): string {
  const names: Record<string, string> = {
    " ": "Space",
    PageDown: "Page Down",
    PageUp: "Page Up",
    ArrowRight: "Right",
    ArrowDown: "Down",
    ArrowLeft: "Left",
    ArrowUp: "Up",
    MediaTrackNext: "Next track",
    MediaTrackPrevious: "Previous track",
  };
  return names[key] ?? (key.length === 1 ? key.toUpperCase() : key);
}

type Taught = Readonly<Record<string, Ask | null>>;

/** Keys that must go on meaning what they mean everywhere: they put a sheet away, or walk the page. */
const NOT_TAUGHT = ["Tab", "Escape", "Shift", "Control", "Alt", "Meta", "AltGraph", "CapsLock", "Dead", "Process", "Unidentified"];

export const teachable = (key: string): boolean => key !== "" && !NOT_TAUGHT.includes(key);

/** A key by one name, whatever the shift key does. */
export const nameOf = (key: string): string => (key.length === 1 ? key.toLowerCase() : key);

/** What a key means now, on this device. */
export const meaning = (key: string, taught: Taught = wishes.value.keys): Ask | null => {
  const name = nameOf(key);
  return Object.hasOwn(taught, name) ? (taught[name] ?? null) : (BY_KEY.get(name) ?? null);
};

/** The keys that ask for something now, those that were taught among them. */
export function keysOf(ask: Ask, taught: Taught = wishes.value.keys): string[] {
  const own = KEYS.find((row) => row.ask === ask)?.keys ?? [];
  const more = Object.keys(taught).filter((key) => taught[key] === ask && !own.includes(key));
  return [...own.filter((key) => meaning(key, taught) === ask), ...more];
}

/**
 * The key to print beside a button; "" where none asks for it. Of several the one that every keyboard has: an arrow or
 * Space before Page Up. What the arrows mean stays what pedals send them for, so that Up is back and no round.
 */
export function keyShown(ask: Ask, letters = wishes.value.letters, taught: Taught = wishes.value.keys): string {
  const keys = keysOf(ask, taught).filter((key) => letters || key.length !== 1 || key === " " || Object.hasOwn(taught, key));
  const key = keys.find((one) => one === "ArrowLeft" || one === " ") ?? keys[0];
  return key === undefined ? "" : keyName(key);
}

/** From now on this key asks for that, and for nothing else. */
export const teach = (key: string, ask: Ask): void => wish({ keys: { ...wishes.value.keys, [nameOf(key)]: ask } });

/** All keys as they come. */
export const unteach = (): void => wish({ keys: {} });

export interface Pressed {
  key: string;
  repeat: boolean;
  ctrlKey: boolean;
  altKey: boolean;
  metaKey: boolean;
  isComposing: boolean;
}

/**
 * What a key asks, or null. Held keys, chords and keys of a text in the making ask nothing. A letter that was taught
 * is meant, and works even where the others are turned off.
 */
export function askOf(pressed: Pressed, letters: boolean, taught: Taught = wishes.value.keys): Ask | null {
  if (pressed.repeat || pressed.isComposing || pressed.ctrlKey || pressed.altKey || pressed.metaKey) return null;
  const single = pressed.key.length === 1 && pressed.key !== " ";
  if (single && !letters && !Object.hasOwn(taught, nameOf(pressed.key))) return null;
  return meaning(pressed.key, taught);
}

type Focus = "open" | "button" | "writing";

/** A box to tick is pressed like a button, whatever else it is. */
const TICKS = "input:is([type=checkbox], [type=radio])";

function focusOf(target: EventTarget | null): Focus {
  if (!(target instanceof Element)) return "open";
  if (target.closest(TICKS)) return "button";
  if (target.closest("input, textarea, select, [contenteditable]")) return "writing";
  // The open part of the bench is a button too, but one that means "next": the keys may have it.
  if (target.closest("button:not([data-open]), a[href], summary")) return "button";
  return "open";
}

/** Listens to the whole window, so that a pedal works wherever the focus is. Returns the way to stop. */
export function listenKeys(heard: (ask: Ask) => void, listening: () => boolean = () => true): () => void {
  const clean = bounceGuard(KEY_GAP);
  const down = (event: KeyboardEvent) => {
    if (!listening()) return;
    const ask = askOf(event, wishes.value.letters);
    const focus = focusOf(event.target);
    if (focus === "writing" || (event.key.startsWith("Arrow") && event.target instanceof Element && event.target.matches("[type=radio]"))) return;
    const presses = event.key === " " || event.key === "Enter";
    if (focus === "button" && presses) return;
    // A held key, or Page Down at rest, must not scroll the bench away either.
    if (ask !== null || (event.repeat && meaning(event.key) !== null)) event.preventDefault();
    if (ask !== null && clean(event.key, event.timeStamp)) heard(ask);
  };
  // A button is pressed by the lifting of Space: on the open part that would count twice.
  const up = (event: KeyboardEvent) => {
    if (event.key === " " && focusOf(event.target) === "open" && listening()) event.preventDefault();
  };
  addEventListener("keydown", down);
  addEventListener("keyup", up);
  return () => {
    removeEventListener("keydown", down);
    removeEventListener("keyup", up);
  };
}
