import type { Told, ToldNote } from "../../api";
import type { Spread } from "../../generated/pattern";

/** "25 min", "2 h", "2 h 5 min". */
export function duration(minutes: number): string {
  const whole = Math.round(minutes);
  const hours = Math.floor(whole / 60);
  const rest = whole % 60;
  return hours === 0 ? `${rest} min` : rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}

/** To five minutes, or to a quarter of an hour from two hours on: nobody's pace is known closer. */
export function about(minutes: number): string {
  const to = minutes >= 120 ? 15 : minutes >= 15 ? 5 : 1;
  return duration(Math.max(1, Math.round(minutes / to) * to));
}

export const stitches = (n: number) => `${n} ${n === 1 ? "stitch" : "stitches"}`;

/** How long it still takes, and whose pace that is. */
export function timeLeft({ left }: Told): { say: string; basis: string } {
  if (left.stitches === 0) return { say: "Every stitch is made.", basis: "" };
  const { value, low, high, sittings } = left.minutes;
  const from = sittings === 1 ? "your one sitting that was long enough to tell" : `your last ${sittings} sittings`;
  return {
    say: `About ${about(value)} at the hook, between ${about(low)} and ${about(high)}.`,
    basis: sittings
      ? `By your own pace, from ${from}. Stuffing, sewing and ends come on top.`
      : "By what is common, 6 to 45 stitches a minute: you have not worked on this long enough to know your own pace. Stuffing, sewing and ends come on top.",
  };
}

/** What is left, in stitches, rounds and metres. */
export function workLeft({ left }: Told): string {
  const rounds = `${left.courses} of ${left.courses_of} rounds and rows`;
  const yarn = left.metres ? `, about ${metres(left.metres)} of yarn` : "";
  const unread = left.unread ? ` ${left.unread} could not be read and ${left.unread === 1 ? "comes" : "come"} on top.` : "";
  return `${stitches(left.stitches)} of ${left.stitches_of}, ${rounds}${yarn}.${unread}`;
}

const metres = (m: Spread) => `${m.value < 10 ? m.value.toFixed(1) : m.value.toFixed(0)} m`;

/** "Wed 25 November, 21:40". */
export function instant(seconds: number): string {
  const then = new Date(seconds * 1000);
  const day = then.toLocaleDateString("en-GB", { weekday: "short", day: "numeric", month: "long" });
  return `${day}, ${then.toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" })}`;
}

/** The notes in the order they were written. */
export const byTime = (notes: ToldNote[]): ToldNote[] => [...notes].sort((a, b) => a.when.localeCompare(b.when));
