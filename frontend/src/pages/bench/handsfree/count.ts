import type { Heard } from "../../../hands/ear/events";
import { begun } from "../mend/talk";
import type { Seen } from "../seen";
import type { Hands } from "./hands";
import type { Road } from "./road";
import { countRight, countSaid } from "./spoken";

/** "Let me count": the numbers that follow are a count and no moves. */
export function recount(hands: Hands): void {
  hands.tell("Count aloud from the marker. Your last number is the count, and nothing moves.");
  hands.recount();
}

export function counted(heard: Heard, road: Road, hands: Hands): void {
  const { seen, mode } = road;
  const n = heard.number;
  if (!seen || n === null) {
    hands.tell("Say the number again, please.");
    return;
  }
  if (mode === "unread" && seen.course) {
    const { id } = seen.course;
    // A number that was misheard here would be believed for ever: so it is asked back.
    hands.ask({ text: `${n} ${n === 1 ? "stitch" : "stitches"}?`, yes: (by) => void road.move({ intent: "done", cue: id, count: n }, undefined, by) });
    return;
  }
  if (road.move({ intent: "count", n }, undefined, heard.utterance)) countHeard(n, seen, road, hands);
}

/** A count that is another one is looked into, where that can be asked; else it is told. */
export function countHeard(n: number, seen: Seen, road: Road, { tell }: Pick<Hands, "tell">): void {
  if (road.due?.n === n && !road.due.here) {
    tell(`${n}: that is right for ${road.due.name}.`);
    return;
  }
  if (countRight(seen, n)) {
    tell(countSaid(seen, n));
    return;
  }
  begun.value = { answers: { n }, course: null };
  road.open("count");
}
