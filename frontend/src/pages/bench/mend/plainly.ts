import { coursesDone } from "../../../follow/place";
import type { CountDue } from "../counts";
import { placeBrief } from "../place";
import type { Seen } from "../seen";
import { courseName } from "../sentence";
import { stepAtStitch } from "../ways";
import { yarnInHand } from "../yarn";
import type { Answers, Offer, RecapLine, Talk, TalkQuestion } from "./talk";

const LARGEST = 2000; // stitches in a course; the limit of reading too

const YES_NO = [
  { value: "yes", text: "Yes" },
  { value: "no", text: "No" },
];

const told = (said: string, more: Partial<Talk> = {}): Talk => ({ said, ask: null, to: null, offers: [], ...more });
const asks = (ask: Pick<TalkQuestion, "key" | "text"> & Partial<TalkQuestion>, said = ""): Talk =>
  told(said, { ask: { more: "", kind: "choice", choices: YES_NO, least: 0, most: 0, ...ask } });
const stitches = (n: number) => `${n} ${n === 1 ? "stitch" : "stitches"}`;

/** What is counted from the marker to the hook, and what it should come to; null before the first stitch. */
export function counting({ spot, course, strand, at, counts }: Seen): { name: string; n: number; whole: boolean } | null {
  if (course && spot.stitch > 0) return { name: courseName(course).toLowerCase(), n: spot.stitch, whole: false };
  const last = strand.courses[coursesDone(strand, at) - 1];
  const n = last && (counts[last.id] ?? last.makes);
  return last && n ? { name: courseName(last).toLowerCase(), n, whole: true } : null;
}

/** The round below is asked for while the next one is on the hook. */
export const askedBelow = ({ name, n }: CountDue): Talk =>
  asks({ key: "due", text: `Count ${name}, the one below. Is it ${n}?`, more: "Count the Vs all the way.", choices: [...YES_NO, { value: "unsure", text: "Not now" }] });

const asksNumber = (key: string, text: string, more: string, likely: number, most: number): Talk =>
  asks({
    key, text, more, kind: "number", most,
    choices: [-2, -1, 0, 1, 2].map((d) => likely + d).filter((n) => n >= 0 && n <= most).map((n) => ({ value: n, text: String(n) })),
  }); // prettier-ignore

/** The count check while the server is away: whether the count is right. What can be done about it needs the server. */
export function countPlainly(seen: Seen, answers: Answers): Talk {
  const asked = counting(seen);
  if (!asked) return told("Nothing is there to count yet: the first stitches come next.");
  const { n } = answers;
  const where = asked.whole ? `in ${asked.name}` : "from the marker to the hook";
  if (typeof n !== "number") return asksNumber("n", `How many stitches do you count ${where}?`, `Count the Vs, not the loop on the hook. I have ${asked.n}.`, asked.n, LARGEST);
  if (n === asked.n) return told(`${n} is right: ${asked.whole ? `${asked.name} has ${n}` : `${n} of ${asked.name} are made`}.`);
  return told(
    `You count ${n}, I have ${asked.n} in ${asked.name}. Look at the last repeat first. If it is so: a thread into the last stitch, ` +
      "and go on. Your place is kept, and how to mend it is asked when the link is back.",
  );
}

const BY_HAND: Offer[] = [
  { key: "goto", kind: "go", title: "Go to a round", say: "Choose the round and the stitch where the hook is.", line: "", to: null },
  { key: "rip", kind: "rip", title: "Rip back", say: "To a round you are sure of.", line: "", to: null },
];

/** Lost while the server is away: the round on the hook is counted, or the place is chosen by hand. */
export function lostPlainly(seen: Seen, answers: Answers): Talk {
  const { course, strand, spot } = seen;
  if (!course?.read || !course.makes) return told(`I have you ${placeBrief(spot, course)}.`, { offers: BY_HAND });
  const name = courseName(course).toLowerCase();
  const below = strand.courses[(spot.course ?? 0) - 1];
  const has = below && (seen.counts[below.id] ?? below.makes);
  if (answers.same === undefined) return asks({ key: "same", text: `Is ${name} on the hook?`, more: has ? `The one below it has ${has}.` : "" });
  if (answers.same !== "yes") return told("Count the whole rounds from the start, along a column. Then choose:", { offers: BY_HAND });
  const { n } = answers;
  const start = course.kind === "row" ? "the start of the row" : "the marker";
  if (typeof n !== "number") return asksNumber("n", `How many stitches from ${start} to the hook?`, "The marked stitch is the first.", spot.stitch, course.makes);
  const to = stepAtStitch(strand, course, n);
  return told(n === 0 ? `You are at the start of ${name}.` : `You are in ${name}, and ${stitches(n)} of ${course.makes} are made.`, { to });
}

/** What this device knows by itself of where she was. */
export function recapPlainly(seen: Seen, counted: { name: string; n: number } | null): RecapLine[] {
  const asked = counting(seen);
  const yarn = yarnInHand(seen.strand, seen.at);
  const way = asked?.whole ? `Count ${asked.name} all the way` : "Count from the marker to the hook";
  return [
    ...(yarn ? [{ what: "yarn" as const, text: `Yarn in hand: ${yarn}.` }] : []),
    ...(counted ? [{ what: "count" as const, text: `Last count you gave: ${counted.n}, in ${counted.name}.` }] : []),
    { what: "expect", text: asked ? `${way}: I expect ${asked.n}.` : "Nothing is worked yet that could be counted." },
  ];
}
