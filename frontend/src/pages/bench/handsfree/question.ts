import type { StrandCue } from "../../../generated/pattern";
import type { Heard, Said } from "../../../hands/ear/events";
import { stillToWork } from "../ready";
import { copyName } from "../seen";
import type { Hands } from "./hands";
import type { Road } from "./road";
import { answerTo } from "./telling";

/** What moves at once, where nothing is asked. */
export const MOVES: ReadonlySet<Said> = new Set<Said>(["next", "stitch", "group", "repeat", "round", "back", "done"]);

/** Yes and no belong to what is asked: a question of ours, the order's offer, or two devices that disagree. */
export function answered(heard: Heard, road: Road, hands: Hands): void {
  const asked = hands.question;
  const yes = heard.intent === "yes";
  if (asked) {
    hands.ask(null);
    if (yes) asked.yes(heard.utterance);
    else asked.no?.();
  } else if (road.mode === "offer") {
    if (yes) road.take(heard.utterance);
    else road.stay();
  } else return;
  hands.session.chime("heard");
}

/**
 * Something else than yes or no was said to a question. It was listened for with little doubt, so it moves nothing: what
 * is only told is told, a move closes the question and has to be said again.
 */
export function besideQuestion(heard: Heard, road: Road, hands: Hands): boolean {
  const told = answerTo(heard.intent, road, hands.session);
  if (told !== null) hands.tell(told);
  else if (MOVES.has(heard.intent) && road.mode !== "settle") {
    hands.ask(null);
    hands.session.chime("unsure");
    hands.tell("That was no yes, so nothing was done. Say it once more.");
  } else return false;
  return true;
}

/** Before a course that works other pieces in, one that is not worked yet is asked about. */
export function partsFirst(cue: Pick<StrandCue, "address">, road: Road, hands: Hands): boolean {
  const [first] = road.snapshot && road.state ? stillToWork(cue, road.snapshot, road.state) : [];
  if (!first) return false;
  hands.ask({
    text: `${copyName(first)} is not worked yet. Work it now?`,
    yes: (by) => void road.move({ intent: "take" }, first.run, by),
    no: () => void road.move({ intent: "done", cue: cue.address }),
    words: ["Work it", "It is ready"],
  });
  return true;
}
