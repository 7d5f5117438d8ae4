import { signal } from "@preact/signals";
import { beforeEach, describe, expect, test } from "vitest";
import { begin } from "../../../follow/stepping";
import type { Snapshot } from "../../../api";
import type { Heard, Said } from "../../../hands/ear/events";
import { inc, repeat, sc, strandOf } from "../course.fixture";
import { seeRun } from "../seen";
import type { Mode } from "./expecting";
import type { Hands, Question } from "./hands";
import { obey } from "./obey";
import { farewell } from "./telling";
import { takenBack, taker, tellThere, toldThere } from "../taking";
import type { Road } from "./road";

const strand = strandOf(
  { label: "1", body: [sc(6)] },
  { label: "2", body: [repeat(6, inc())], then: ["stuff", "stop"] },
  { label: "3", body: [repeat(6, sc(1), inc())] },
  { label: "4", text: "Work the ridge as in the photo." },
);
const [one, two, three, four] = strand.courses;
if (!one || !two || !three || !four) throw new Error("four courses were told");
const stop = strand.cues[0]?.step ?? 0;
const ID = "0123456789abcdef0123456789abcdef";

let did: unknown[];
let told: string[];
let chimes: string[];
let asked: Question | null;
let held: string[];

function road(at: number, mode: Mode = "work", more: Partial<Road> = {}): Road {
  const snapshot = { runs: [{ run: "p1.c1", piece: "Buoy", copy: 1, copies: 1, strand: "s" }], strands: { s: strand } } as unknown as Snapshot;
  const state = begin([["p1.c1", "s"]], { s: strand });
  const run = state.runs["p1.c1"];
  if (!run) throw new Error("the run was begun");
  const moved = { ...state, in_hand: "p1.c1", runs: { "p1.c1": { ...run, at, history: at ? [{ row: 7, at: 0, in_hand: "p1.c1" }] : [] } } };
  return {
    making: 1,
    title: "Buoy",
    snapshot,
    state: moved,
    seen: seeRun(snapshot, moved, "p1.c1"),
    mode,
    offered: null,
    offer: null,
    told: [],
    due: null,
    claims: [],
    settle: () => undefined,
    plain: "plain",
    move: (intent, _run, id) => {
      did.push({ ...intent, id });
      return !(mode === "stop" && intent.intent === "next");
    },
    ask: (what) => void did.push(`asks ${what}`),
    take: (id) => did.push({ take: id }),
    stay: () => did.push("stay"),
    tell: () => undefined,
    open: (sheet) => sheet && did.push(`sheet ${sheet}`),
    ...more,
  };
}

function hands(question: Question | null = null): Hands {
  return {
    session: {
      held: signal(null),
      speech: { last: "" },
      stirred() {},
      chime: (which: string) => chimes.push(which),
      hold: (why: string) => held.push(why),
      listen: () => held.push("listen"),
    } as unknown as Hands["session"],
    tell: (text) => told.push(text),
    phrase: (intent) => (intent === "done" ? "all done" : intent),
    ask: (now) => {
      asked = now;
    },
    redo: (heard) => obey(heard, road(three?.first ?? 0), hands(), 10_000),
    question,
    recount: () => did.push("recount"),
    since: 0,
    finish: () => did.push("finish"),
  };
}

const said = (intent: Said, more: Partial<Heard> = {}): Heard => ({ ear: "e", utterance: ID, intent, unit: null, number: null, words: intent, verdict: "act", ms: 100, ...more });

beforeEach(() => {
  did = [];
  told = [];
  chimes = [];
  held = [];
  asked = null;
});

describe("a word becomes a move", () => {
  test("under the utterance's own id, on the road of a touch", () => {
    obey(said("next"), road(three.first), hands(), 10_000);
    obey(said("round"), road(three.first), hands(), 10_000);
    obey(said("back", { unit: "stitch" }), road(three.first), hands(), 10_000);
    obey(said("undo"), road(6), hands(), 10_000);
    expect(did).toEqual([
      { intent: "next", unit: "plain", id: ID },
      { intent: "next", unit: "round", id: ID },
      { intent: "back", unit: "stitch", id: ID },
      { intent: "undo", undoes: 7, id: ID },
    ]);
    expect(chimes).toEqual(["heard", "heard", "heard", "heard"]);
  });

  test("at a stop only done goes on, and it names the cue", () => {
    obey(said("next"), road(stop, "stop"), hands(), 10_000);
    expect(told).toEqual(["This waits for you. Do it first, then say “all done”."]);
    obey(said("done"), road(stop, "stop"), hands(), 10_000);
    expect(did.at(-1)).toEqual({ intent: "done", cue: "buoy.2/stuff.1", id: ID });
  });

  test("what was said before it came up answers nothing", () => {
    obey(said("done", { ms: 300 }), road(stop, "stop"), { ...hands(), since: 9900 }, 10_000);
    expect(did).toEqual([]);
    expect(chimes).toEqual(["unsure"]);
  });

  test("not sure: asked back, and done on yes", () => {
    obey(said("back", { verdict: "ask", words: "go back" }), road(three.first), hands(), 10_000);
    expect(did).toEqual([]);
    expect(asked?.text).toBe("Did you say “go back”?");
    const question = asked;
    obey(said("yes"), road(three.first), hands(question), 10_000);
    expect(did).toEqual([{ intent: "back", unit: "plain", id: ID }]);
  });

  test("taking back much is asked back, and says how much", () => {
    obey(said("undo"), road(three.first), hands(), 10_000);
    expect(did).toEqual([]);
    expect(asked?.text).toBe("Take back the last move, 18 stitches?");
    asked?.yes(ID);
    expect(did).toEqual([{ intent: "undo", undoes: 7, id: ID }]);
  });

  test("at a stop: where it waits, and how many are left behind it", () => {
    obey(said("where"), road(stop, "stop"), hands(), 10_000);
    obey(said("left"), road(stop, "stop"), hands(), 10_000);
    expect(told).toEqual([
      "Round 2 is done. Waiting: stuff now.",
      "18 stitches left in round 3: this repeat and 5 more.",
    ]);
  });

  test("what is no answer to a question does nothing but put it away; what is only told leaves it", () => {
    const question: Question = { text: "Go to round 8?", yes: () => did.push("yes") };
    asked = question;
    obey(said("where"), road(three.first), hands(question), 10_000);
    expect(told).toEqual(["Round 3, repeat 1 of 6, 18 to make"]);
    expect(asked).toBe(question);
    obey(said("round"), road(three.first), hands(question), 10_000);
    expect([did, asked]).toEqual([[], null]);
    expect(told.at(-1)).toBe("That was no yes, so nothing was done. Say it once more.");
  });

  test("where devices disagree: a word that is no answer moves nothing and leaves the question, and yes settles", () => {
    const settled: string[] = [];
    const question = { text: "Is your marker in round 6?", yes: () => settled.push("yes"), no: () => settled.push("no") };
    const disputed = road(three.first, "settle");
    for (const intent of ["round", "next", "done", "back"] as const) {
      asked = question;
      obey(said(intent), disputed, hands(question), 10_000);
      expect(asked).toBe(question);
    }
    obey(said("yes", { verdict: "ask" }), disputed, hands(question), 10_000);
    expect(asked).toBe(question);
    expect([did, settled]).toEqual([[], []]);
    expect(told).toContain("Answer this first: say yes, or no.");
    obey(said("no"), disputed, hands(question), 10_000);
    obey(said("yes"), disputed, hands(question), 10_000);
    expect(settled).toEqual(["no", "yes"]);
    expect(asked).toBeNull();
  });

  test("yes and no without a question do nothing", () => {
    obey(said("yes"), road(three.first), hands(), 10_000);
    obey(said("no"), road(three.first), hands(), 10_000);
    expect([did, chimes]).toEqual([[], []]);
  });

  test("ripping back and going elsewhere are asked back", () => {
    obey(said("rip", { verdict: "ask" }), road(three.first + 4), hands(), 10_000);
    expect(did).toEqual([]);
    expect(asked?.text).toBe("Rip back 1 stitch, to round 3, after stitch 3?");
    asked?.yes(ID);
    expect(did).toEqual([{ intent: "rip", to: three.first + 3, id: ID }]);
    asked?.no?.();
    expect(asked?.text).toBe("Rip back 4 stitches, to the start of round 3?");
    obey(said("rip", { number: 2 }), road(three.first + 4), hands(), 10_000);
    expect(asked?.text).toBe("Rip back 16 stitches, to the start of round 2? One thing will be asked again: stuffing out first.");
    asked?.no?.();
    expect(did.at(-1)).toBe("sheet rip");
    did = [];
    obey(said("goto", { number: 1 }), road(three.first), hands(), 10_000);
    expect(asked?.text).toBe("Go to round 1?");
    obey(said("worked_on", { number: 3 }), road(one.first), hands(), 10_000);
    asked?.yes(ID);
    expect(did.at(-1)).toBe("sheet passed"); // what came on the way is ticked there
    obey(said("worked_on"), road(one.first), hands(), 10_000);
    expect(did.at(-1)).toBe("sheet passed"); // and asked how far
    obey(said("goto", { number: 40 }), road(one.first), hands(), 10_000);
    expect(told).toEqual(["There is no round 40 in this piece."]);
  });

  test("of two numbers that sound alike both are asked about", () => {
    obey(said("goto", { number: 40, verdict: "ask", twin: { number: 4, words: "go to round four" } }), road(one.first), hands(), 10_000);
    expect(asked?.text).toBe("Go to round 4?"); // there is no round 40
    obey(said("goto", { number: 2, verdict: "ask", twin: { number: 3, words: "go to round three" } }), road(one.first), hands(), 10_000);
    expect(asked?.text).toBe("Go to round 2?");
    asked?.no?.();
    expect(asked?.text).toBe("Go to round 3?");
    expect(asked?.no).toBeUndefined();
    obey(said("rip", { number: 4, twin: { number: 2, words: "rip back to round two" } }), road(three.first + 4), hands(), 10_000);
    expect(asked?.text).toContain("to the start of round 2?"); // round 4 is not behind
    obey(said("count", { number: 60, words: "i have sixty", verdict: "ask", twin: { number: 16, words: "i have sixteen" } }), road(three.first + 4), hands(), 10_000);
    expect(asked?.text).toBe("Did you say “i have sixty”?");
    asked?.no?.();
    expect(asked?.text).toBe("Did you say “i have sixteen”?");
    asked?.yes(ID);
    expect(did).toEqual([{ intent: "count", n: 16, id: ID }, "sheet count"]);
  });

  test("a round in words takes a number, asked back", () => {
    obey(said("count", { number: 18 }), road(four.first, "unread"), hands(), 10_000);
    expect(asked?.text).toBe("18 stitches?");
    asked?.yes(ID);
    expect(did).toEqual([{ intent: "done", cue: "buoy.4", count: 18, id: ID }]);
  });

  test("the order's offer is taken by yes, declined by no", () => {
    obey(said("yes"), road(three.first, "offer"), hands(), 10_000);
    obey(said("no"), road(three.first, "offer"), hands(), 10_000);
    obey(said("next"), road(three.first, "offer"), hands(), 10_000);
    expect(did).toEqual([{ take: ID }, "stay"]);
    expect(told).toEqual(["Answer this first: say yes, or no."]);
  });

  test("a count that is another one is looked into, where that can be asked", () => {
    obey(said("count", { number: 3 }), road(three.first + 3, "work"), hands(), 10_000);
    expect(did).toEqual([{ intent: "count", n: 3, id: ID }]);
    did = [];
    obey(said("count", { number: 4 }), road(three.first + 3, "work"), hands(), 10_000);
    expect(did).toEqual([{ intent: "count", n: 4, id: ID }, "sheet count"]);
  });

  test("questions are answered in a sentence, and move nothing", () => {
    for (const intent of ["where", "left", "ahead", "again"] as const) obey(said(intent), road(three.first + 3), hands(), 10_000);
    expect(did).toEqual([]);
    expect(told[0]).toBe("Round 3, repeat 2 of 6, 3 of 18 made");
    expect(told[1]).toContain("15 stitches left");
    expect(told).toHaveLength(4);
    obey(said("lost"), road(three.first + 3, "work", { ask: (what) => did.push(`ask ${what}`) }), hands(), 10_000);
    expect(did).toEqual(["ask lost"]);
    did = [];
    obey(said("recount"), road(three.first), hands(), 10_000);
    obey(said("help"), road(three.first), hands(), 10_000);
    obey(said("finish"), road(three.first), hands(), 10_000);
    expect(did).toEqual(["recount", "sheet say", "finish"]);
  });

  test("holding: nothing is heard but start listening", () => {
    obey(said("hold"), road(three.first), hands(), 10_000);
    expect(held).toEqual(["asked"]);
    const holding = hands();
    (holding.session as { held: unknown }).held = signal("asked");
    obey(said("next"), road(three.first), holding, 10_000);
    expect(did).toEqual([]);
    obey(said("listen"), road(three.first), holding, 10_000);
    expect(held).toEqual(["asked", "listen"]);
  });
});

test("the end of a sitting says where it will go on", () => {
  expect(farewell(road(three.first + 4))).toBe("Buoy: you stop in round 3, after stitch 4. Round 2 made 12. Everything is kept.");
});

describe("an open sheet", () => {
  test("takes its words before the bench does, and gives back the others", () => {
    const words: Said[] = [];
    taker.value = { answers: ["next", "hold"], key: () => undefined, word: ({ intent }) => intent === "next" && words.push(intent) > 0 };
    obey(said("next"), road(0), hands());
    expect([words, did, chimes]).toEqual([["next"], [], ["heard"]]);
    obey(said("hold"), road(0), hands());
    expect(held).toEqual(["asked"]);
    taker.value = null;
  });

  test("stays while it is asked where the work is, and prints the answer", () => {
    taker.value = { answers: ["next", "where", "again", "hold"], key: () => undefined, word: () => false };
    const spoken: string[] = [];
    const over = hands();
    Object.assign(over.session, { read: (text: string) => spoken.push(text), speech: { last: "Round 3." } });
    obey(said("where"), road(three.first + 3), over, 10_000);
    expect(toldThere.value).toBe("Round 3, repeat 2 of 6, 3 of 18 made");
    obey(said("again"), road(three.first + 3), over, 10_000);
    expect([spoken, did, told]).toEqual([["Round 3, repeat 2 of 6, 3 of 18 made", "Round 3."], [], []]);
    obey(said("pause"), road(three.first), over, 10_000);
    expect(held).toEqual(["rest"]);
    expect(toldThere.value).toContain("I do not listen now.");
    obey(said("help"), road(three.first), over, 10_000);
    obey(said("lost"), road(three.first), over, 10_000);
    expect(did).toEqual(["sheet say", "asks lost"]);
    taker.value = null;
    tellThere("");
  });

  test("keeps its own words from the bench, whether or not it can use them", () => {
    taker.value = { answers: ["yes", "no", "count", "back", "done"], key: () => undefined, word: () => false };
    obey(said("back"), road(three.first), hands(), 10_000);
    obey(said("done"), road(stop), hands(), 10_000);
    obey(said("count", { number: 90 }), road(three.first), hands(), 10_000);
    expect([did, chimes]).toEqual([[], ["unsure", "unsure", "unsure"]]);
    taker.value = null;
  });

  test("that has just gone back: the same word once more is asked about before the bench moves", () => {
    taker.value = { answers: ["back"], key: () => undefined, word: () => true };
    obey(said("back"), road(three.first), hands(), 10_000);
    taker.value = null;
    obey(said("back"), road(three.first), hands(), 13_000);
    expect(did).toEqual([]);
    expect(asked?.text).toBe("Go back on the bench as well?");
    asked?.yes(ID);
    expect(did).toEqual([{ intent: "back", unit: "plain", id: ID }]);
    obey(said("back"), road(three.first), hands(), 30_000);
    expect(did).toHaveLength(2);
    takenBack.value = Number.NEGATIVE_INFINITY;
  });

  test("is opened by its own word", () => {
    obey(said("show"), road(0), hands());
    obey(said("parts"), road(0), hands());
    expect(did).toEqual(["sheet show", "sheet parts"]);
  });

  test("or as a key would open it", () => {
    for (const intent of ["pattern", "runs", "check", "recap", "shape", "chart", "notes", "record", "kinds", "lock", "hands", "more"] as const)
      obey(said(intent), road(0), hands());
    expect(did).toEqual(["asks pattern", "asks runs", "asks check", "asks recap", "asks shape", "asks chart", "asks notes", "asks record", "asks kinds", "asks lock", "asks hands", "asks more"]);
  });
});
