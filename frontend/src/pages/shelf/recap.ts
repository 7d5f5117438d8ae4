import type { ShelfMaking, ShelfPattern } from "../../api";
import type { CueKind } from "../../generated/pattern";

const CUES: Record<CueKind, string> = {
  stuff: "Stuffing",
  tail: "A word about the tail",
  close: "Closing up",
  colour: "A change of colour",
  eyes: "The eyes",
  shape: "Shaping",
  weave: "Weaving in",
  sew: "Sewing on",
  turn: "Turning",
  fasten: "Cutting the yarn",
  marker: "The marker",
  hold: "Setting it aside",
  join: "Joining",
  pin: "Pinning",
  embroider: "Embroidery",
  count: "A count",
  other: "A note",
};

const DAY = 86_400_000;

/** "today 21:40", "yesterday 21:40", "on Tuesday 21:40", "on 3 March", by the calendar of this device. */
export function when(iso: string, now: Date): string {
  const then = new Date(iso);
  if (Number.isNaN(then.getTime())) return "";
  const time = then.toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
  const midnight = (d: Date) => new Date(d.getFullYear(), d.getMonth(), d.getDate()).getTime();
  const days = Math.round((midnight(now) - midnight(then)) / DAY);
  if (days === 0) return `today ${time}`;
  if (days === 1) return `yesterday ${time}`;
  if (days > 1 && days < 7) return `on ${then.toLocaleDateString("en-GB", { weekday: "long" })} ${time}`;
  const year = then.getFullYear() === now.getFullYear() ? {} : { year: "numeric" as const };
  return `on ${then.toLocaleDateString("en-GB", { day: "numeric", month: "long", ...year })}`;
}

export const counted = (n: number, one: string, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;

export function copyName(piece: string, copy: number, copies: number): string {
  return copies > 1 ? `${piece}, ${copy} of ${copies}` : piece;
}

/** "Begun today 02:21. ", where it is known. */
export function begunOn({ begun }: ShelfMaking, now: Date): string {
  const on = when(begun, now);
  return on && `Begun ${on}. `;
}

/** What a maker needs to pick up the hook again: when, where, and what comes. */
export function recap(making: ShelfMaking, now: Date): { stopped: string; comes: string } {
  const since = making.worked ? when(making.worked, now) : "";
  if (making.finished) {
    const made = since ? `The last stitch was made ${since}.` : "The last stitch is made.";
    const { to_finish } = making;
    return { stopped: to_finish === 0 ? `Finished. ${made}` : made, comes: to_finish ? `${counted(to_finish, "thing")} left to finish.` : "" };
  }
  const at = making.in_hand;
  if (!at) return { stopped: `${begunOn(making, now)}No stitch worked yet.`, comes: "" };
  const part = at.then?.crocheted ? copyName(at.then.piece, at.then.copy, at.then.copies) : "";
  let place = part ? "after the last stitch of this part" : "after the last stitch, with the finishing to do";
  if (at.label !== null) {
    const course = at.label === "0" ? `the first ${at.kind ?? "round"}` : `${at.kind ?? "round"} ${at.label}`;
    if (at.stitch === 0) place = `at the start of ${course}`;
    else place = at.stitch === null || at.of === null ? `in ${course}` : `in ${course}, ${at.stitch} of ${at.of} made`;
  }
  const stopped = since ? `Stopped ${since} ${place}.` : making.worked === "" ? `You are ${place}.` : `Ready ${place}.`;
  const cue = at.next_cue;
  if (!cue) return { stopped, comes: part && `Next: ${part}.` };
  const unit = at.kind ?? "round";
  const many = cue.kind === "eyes";
  const far = cue.distance_courses;
  const name = cue.kind === "colour" && making.terms === "US" ? "A change of color" : CUES[cue.kind];
  if (cue.waits) return { stopped, comes: `${name} ${many ? "wait" : "waits"} for you there${part && `, then comes ${part}`}.` };
  if (at.label === null) return { stopped, comes: `${name} ${many ? "come" : "comes"} next${part && `, then ${part}`}.` };
  const comes = far <= 0 ? `${name} ${many ? "come" : "comes"} in this ${unit}.` : `${name} ${many ? "are" : "is"} ${counted(far, unit)} away.`;
  return { stopped, comes };
}

/** "3 pieces, 58 rounds and rows" for the shelf. */
export function extent(pattern: ShelfPattern): string {
  const worked = pattern.pieces.filter((p) => p.courses > 0);
  const copies = worked.reduce((sum, p) => sum + p.make, 0);
  const courses = worked.reduce((sum, p) => sum + p.make * p.courses, 0);
  return `${counted(copies, "piece")}, ${counted(courses, "round or row", "rounds and rows")} in all`;
}

/** What reading found, in the words of the read-through; empty when there is nothing to say. */
export function looked({ error, warning }: { error: number; warning: number }): string {
  const parts: string[] = [];
  if (error) parts.push(`${counted(error, "place")} can't be followed`);
  if (warning) parts.push(`${counted(warning, "place")} to look at`);
  return parts.join(", ");
}
