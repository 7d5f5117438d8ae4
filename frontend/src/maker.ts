import { effect, signal } from "@preact/signals";
import { api, type Maker } from "./api";

const FIRST: Maker = {
  hand: "right", decreases: "plain", terms: null, words: "short", counting: null,
  plain: "plain", plain_keys: "same", plain_voice: "same", light: "auto", breaks: 0, quiet: [],
};
const KEY = "hookside.light";

function remembered(): Maker["light"] {
  try {
    const light = localStorage.getItem(KEY);
    return light === "daylight" || light === "lamplight" ? light : "auto";
  } catch {
    return "auto";
  }
}

/** How this maker likes it. The light is also remembered here, so that the first paint is already right. */
export const maker = signal<Maker>({ ...FIRST, light: remembered() });

/** What a bare "next" goes on by: of a touch, of a key or pedal, said. */
export function plainNext({ plain, plain_keys, plain_voice }: Maker): Record<"touch" | "key" | "voice", Maker["plain"]> {
  return { touch: plain, key: plain_keys === "same" ? plain : plain_keys, voice: plain_voice === "same" ? plain : plain_voice };
}

/** Keeps the page in the light that was chosen, or in that of the device. */
export function keepLight(): void {
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const device = signal(dark.matches);
  dark.addEventListener("change", () => {
    device.value = dark.matches;
  });
  effect(() => {
    const { light } = maker.value;
    document.documentElement.dataset.light = light === "auto" ? (device.value ? "lamplight" : "daylight") : light;
    try {
      localStorage.setItem(KEY, light);
    } catch {
      // A browser that keeps nothing shows the device's light first; no harm.
    }
  });
}

let changes = 0;

/** How this maker likes it, as an answer from the server tells it. What was chosen here since it was asked for is newer
 * than the answer, which then changes nothing: `asked` is what `choices` gave as it was asked for. */
export function told(likes: Maker, asked: number): void {
  if (asked === changes) maker.value = likes;
}

export const choices = () => changes;

/** Asks how this maker likes it. Without an answer the page goes on with what it has. */
export async function meetMaker(): Promise<void> {
  const asked = choices();
  try {
    told(await api.maker(), asked);
  } catch {
    // The shelf and the bench ask again, and the shelf says so when there is no answer.
  }
}

export async function changeMaker(change: Partial<Maker>): Promise<void> {
  const before = maker.value;
  changes += 1;
  maker.value = { ...before, ...change };
  try {
    await api.setMaker(change);
  } catch (refused) {
    const back = Object.fromEntries(Object.keys(change).map((key) => [key, before[key as keyof Maker]]));
    maker.value = { ...maker.value, ...back }; // what was chosen meanwhile stays
    throw refused;
  } finally {
    changes += 1; // an answer that was asked for before this one was written is older, too
  }
}
