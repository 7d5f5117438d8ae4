import { beforeEach, describe, expect, test } from "vitest";
import { chosen, type Chosen, type Counted } from "../../follow/choices";
import { locate } from "../../follow/place";
import type { Strand } from "../../generated/pattern";
import { agreed, answered, countDue, isWanted, matters, noted } from "./countdue";
import { inc, repeat, sc, strandOf } from "./course.fixture";
import type { Seen } from "./seen";

// Demo: five rounds that shape, one that does not; a count is asked for behind each that shapes.
const told = strandOf(
  { label: "1", body: [sc(6)], then: ["count", "whisper"] },
  { label: "2", body: [repeat(6, inc())], then: ["count", "whisper"] },
  { label: "3", body: [repeat(6, sc(1), inc())], then: ["count", "whisper"] },
  { label: "4", body: [repeat(6, sc(2), inc())], then: ["count", "whisper"] },
  { label: "5", body: [repeat(6, sc(3), inc())], then: ["count", "whisper"] },
  { label: "6", body: [sc(30)] },
);
const USES = [0, 6, 12, 18, 24, 30];
const strand: Strand = {
  ...told,
  courses: told.courses.map((course, i) => ({ ...course, uses: USES[i] ?? null })),
  cues: told.cues.map((cue) => ({ ...cue, basis: "worked out" })),
};
const course = (n: number) => {
  const found = strand.courses[n - 1];
  if (!found) throw new Error(`no round ${n}`);
  return found;
};
/** The hook with so many stitches of a round made; the cue behind the round before is passed. */
const seen = (round: number, made: number): Seen => {
  const at = course(round).first + made;
  const spot = locate(strand, at);
  return { run: "p1.c1", piece: "Buoy", copy: 1, copies: 1, strand, at, spot, course: course(round), done: made, counts: {}, last: null };
};
const given = (round: number, n: number | null, right = true): Counted => ({ run: "p1.c1", course: course(round).id, n, right, on: true });
let counted: Counted[] = [];
beforeEach(() => {
  counted = [];
});

describe("a count that is asked for", () => {
  test("waits until it is given, and follows the hook", () => {
    expect(countDue(seen(2, 0), [])).toEqual({ course: "buoy.1", name: "round 1", n: 6, here: true, given: null });
    expect(countDue(seen(2, 5), [])).toMatchObject({ name: "round 1", n: 6, here: false });
    expect(countDue(seen(6, 12), [])).toMatchObject({ name: "round 5", n: 30, here: false });
    expect(countDue(seen(2, 5), [given(1, 6)])).toBeNull();
    expect(countDue(seen(3, 0), [given(1, 6)])).toMatchObject({ name: "round 2", n: 12 });
  });

  test("is there where the work halts for it: what halts has its answer on it", () => {
    const cues = strand.cues.map((cue) => ({ ...cue, weight: "pause" as const }));
    const halted = cues.find(({ address }) => address.startsWith("buoy.2/"))!;
    const at = halted.step;
    const there: Seen = { ...seen(3, 0), at, strand: { ...strand, cues }, spot: { ...locate({ ...strand, cues }, at), cue: halted } };
    expect(countDue(there, [given(1, 6)])).toMatchObject({ name: "round 2", n: 12, here: true });
    expect(countDue({ ...there, strand }, [given(1, 6)])).toBeNull();
  });

  test("is over when it was turned down, for that round", () => {
    expect(countDue(seen(2, 3), [given(1, null, false)])).toBeNull();
    expect(countDue(seen(3, 0), [given(1, null, false)])).toMatchObject({ name: "round 2" });
  });

  test("is asked after every round that shapes until three agree, then where it matters", () => {
    const cue = (n: number) => strand.cues.find(({ address }) => address.startsWith(`buoy.${n}/`))!;
    counted = [given(1, 6), given(2, 12)];
    expect([agreed(counted), isWanted(strand, cue(3), counted)]).toEqual([false, true]);
    counted.push(given(3, 18));
    expect([agreed(counted), isWanted(strand, cue(4), counted)]).toEqual([true, false]);
    expect(isWanted(strand, cue(5), counted)).toBe(true); // the shaping ends there
    expect(countDue(seen(5, 4), counted)).toBeNull();
    counted.push(given(5, 29, false));
    expect(isWanted(strand, cue(4), counted)).toBe(true); // one that does not agree, and it begins anew
  });

  test("of a run that turned out otherwise it waits for its mend, in whichever round the hook is", () => {
    const wrong = [given(3, 17, false)];
    expect(countDue(seen(4, 0), wrong)).toMatchObject({ name: "round 3", n: 18, given: 17 });
    expect(countDue(seen(5, 0), wrong)).toMatchObject({ name: "round 4", n: 24, given: null });
    const mended = { ...strand, courses: strand.courses.map((one) => (one.label === "3" ? { ...one, makes: 17 } : one)) };
    expect(countDue({ ...seen(4, 0), strand: mended }, wrong)).toBeNull();
  });
});

describe("what a move says of counts", () => {
  const back = { intent: "back", unit: "round" } as const;
  test("a count at the end of a round is of that round; amid the next it is only where it is what was asked", () => {
    const end = seen(4, 0);
    expect(noted(end, countDue(end, []), { intent: "count", n: 17 }, end.at, [])).toEqual([given(3, 17, false)]);
    const amid = seen(4, 5);
    expect(noted(amid, countDue(amid, []), { intent: "count", n: 18 }, amid.at, [])).toEqual([given(3, 18)]);
    expect(noted(amid, countDue(amid, []), { intent: "count", n: 5 }, amid.at, [])).toEqual([]);
  });

  test("back behind a round its count is forgotten, and asked anew", () => {
    const all = [given(1, 6), given(2, 12), given(3, 18)];
    expect(noted(seen(4, 3), null, back, course(2).first, all)).toEqual([
      { ...given(2, 12), on: false },
      { ...given(3, 18), on: false },
    ]);
    expect(noted(seen(4, 3), null, { intent: "next", unit: "plain" }, course(4).end, all)).toEqual([]);
  });

  test("where going back is taken back, the counts it forgot stand again", () => {
    const back = noted(seen(3, 5), null, { intent: "back", unit: "repeat" }, course(2).first + 3, [given(1, 6), given(2, 12)]);
    expect(back).toEqual([{ ...given(2, 12), on: false }]);
    const here = seen(2, 3);
    const undo = { intent: "undo", undoes: 9 } as const;
    expect(noted(here, null, undo, seen(3, 5).at, [given(1, 6)])).toEqual([given(2, 12)]);
    expect(noted(here, null, undo, seen(3, 5).at, [given(1, 6), given(2, 11, false)])).toEqual([]);
    expect(noted(here, null, { intent: "next", unit: "round" }, seen(3, 5).at, [])).toEqual([]);
  });

  test("behind a rip the round that stands is counted, even one that was given; the undo of it asks nothing", () => {
    const all = [given(1, 6), given(2, 12), given(3, 18), given(4, 24)];
    const to = course(4).first;
    const said = noted(seen(5, 3), null, { intent: "rip", to }, to, all);
    expect(said).toEqual([{ ...given(4, 24), on: false }, given(3, null, true)]);
    const after = said.reduce((now, value) => chosen(now, { choice: "count", value }), { counted: all } as Chosen).counted ?? [];
    expect(countDue(seen(4, 0), after)).toMatchObject({ name: "round 3", n: 18, here: true, given: null });
    expect(countDue(seen(4, 6), after)).toMatchObject({ name: "round 3", n: 18, here: false }); // it waits, as every count does
    expect(countDue(seen(4, 6), [...after.slice(0, 2), given(3, 18)])).toBeNull();
    expect(countDue(seen(4, 6), [...after.slice(0, 2), given(3, null, false)])).toBeNull(); // not now
    expect(noted(seen(4, 0), null, { intent: "undo", undoes: 9 }, course(5).first, after)).toEqual([{ ...given(3, null, true), on: false }]);
    // Amid a round the hands count from the marker to the hook, and that is no round's count.
    expect(noted(seen(5, 3), null, { intent: "rip", to: to + 4 }, to + 4, all)).toEqual([{ ...given(4, 24), on: false }]);
  });
});

describe("a count that is asked for no more", () => {
  const cue = (n: number) => strand.cues.find(({ address }) => address.startsWith(`buoy.${n}/`))!;

  test("is one that was given or turned down", () => {
    expect(answered(seen(2, 0), cue(1), [])).toBe(false);
    expect(answered(seen(2, 0), cue(1), [given(1, 6)])).toBe(true);
    expect(answered(seen(2, 0), cue(1), [given(1, null, false)])).toBe(true);
    expect(answered(seen(3, 0), cue(2), [given(1, 6)])).toBe(false);
  });

  test("is one behind which the hole was shut", () => {
    const shut = strandOf({ label: "1", body: [sc(6)], then: ["count", "whisper"] }, { label: "2", body: [sc(6)], then: ["close", "stop"] }, { label: "3", body: [sc(1)] });
    const at = shut.courses[2]!.first;
    const there: Seen = { ...seen(2, 0), strand: shut, at, spot: locate(shut, at), course: shut.courses[2]! };
    expect(countDue(there, [])).toBeNull();
    expect(countDue({ ...there, at: at - 1, spot: locate(shut, at - 1) }, [])).toMatchObject({ name: "round 2", n: 6 });
  });

  test("is one whose stitches lie under an edge that is worked flat", () => {
    const told = strandOf({ label: "1", body: [sc(8)], then: ["count", "whisper"] }, { label: "2", body: [sc(8)], then: ["shape", "stop"] }, { label: "3", body: [sc(1)] });
    const at = told.courses[2]!.first;
    const behind = (text: string): Seen => {
      const flat = { ...told, cues: told.cues.map((cue) => (cue.kind === "shape" ? { ...cue, text } : cue)) };
      return { ...seen(2, 0), strand: flat, at, spot: locate(flat, at), course: flat.courses[2]! };
    };
    for (const text of ["Flatten the top and sc through both layers (4).", "Fold it and work 4 sc through both sides.", "Press flat, 4 sc through two layers."])
      expect(countDue(behind(text), []), text).toBeNull();
    for (const text of ["Flatten the top.", "Fold it to look at both of them."]) expect(countDue(behind(text), []), text).toMatchObject({ name: "round 2", n: 8 });
  });
});

test("where parts are joined it is always asked for", () => {
  const joined = strandOf({ label: "7", body: [sc(6)], then: ["count", "whisper"] }, { label: "8", body: [sc(6)] });
  const [count] = joined.cues.map((one) => ({ ...one, basis: "worked out" as const }));
  expect(matters(joined, count!)).toBe(false);
  const ready = { ...count!, address: "buoy.7/ready-p1x2", step: 0, kind: "join" as const, weight: "stop" as const };
  expect(matters({ ...joined, cues: [ready, count!] }, count!)).toBe(true);
});
