import { describe, expect, test } from "vitest";
import type { ShelfMaking } from "../../api";
import { copyName, extent, looked, recap, when } from "./recap";

const now = new Date(2026, 10, 25, 15, 0);
const at = (...d: [number, number, number, number, number]) => new Date(...d).toISOString();

describe("when", () => {
  test.each([
    [at(2026, 10, 25, 9, 5), "today 09:05"],
    [at(2026, 10, 24, 21, 40), "yesterday 21:40"],
    [at(2026, 10, 20, 21, 40), "on Friday 21:40"],
    [at(2026, 10, 3, 21, 40), "on 3 November"],
    [at(2024, 0, 3, 21, 40), "on 3 January 2024"],
    ["nonsense", ""],
  ])("%s", (iso, words) => expect(when(iso, now)).toBe(words));

  test("yesterday is a matter of the calendar, not of 24 hours", () => {
    expect(when(at(2026, 10, 24, 23, 59), new Date(2026, 10, 25, 0, 1))).toBe("yesterday 23:59");
  });
});

const making: ShelfMaking = {
  id: 1, pattern: 1, title: "Harbour buoy", begun: at(2026, 10, 1, 8, 0), worked: at(2026, 10, 24, 21, 40), terms: "UK",
  in_hand: {
    run: "p1.c2", piece: "Buoy", copy: 2, copies: 3, label: "23", kind: "round", stitch: 31, of: 48,
    next_cue: { kind: "stuff", text: "Stuff", distance_courses: 4, waits: false },
  },
  finished: false, asides: 0,
};
const hand = (more: Partial<NonNullable<ShelfMaking["in_hand"]>>): ShelfMaking => ({
  ...making, in_hand: { ...(making.in_hand as NonNullable<ShelfMaking["in_hand"]>), ...more },
});

describe("a recap", () => {
  test("says when, where and what comes", () => {
    expect(recap(making, now)).toEqual({
      stopped: "Stopped yesterday 21:40 in round 23, 31 of 48 made.",
      comes: "Stuffing is 4 rounds away.",
    });
  });
  test("one round, and this round", () => {
    expect(recap(hand({ next_cue: { kind: "eyes", text: "", distance_courses: 1, waits: false } }), now).comes).toBe("The eyes are 1 round away.");
    expect(recap(hand({ next_cue: { kind: "colour", text: "", distance_courses: 0, waits: false } }), now).comes).toBe(
      "A change of colour comes in this round.",
    );
  });
  test("colour is spelled as the making's terms have it", () => {
    const next_cue = { kind: "colour", text: "", distance_courses: 2, waits: false } as const;
    expect(recap(hand({ next_cue }), now).comes).toBe("A change of colour is 2 rounds away.");
    expect(recap({ ...hand({ next_cue }), terms: "US" }, now).comes).toBe("A change of color is 2 rounds away.");
  });
  test("what waits is not still to come", () => {
    const cue = { kind: "fasten", text: "", distance_courses: 0, waits: true } as const;
    expect(recap(hand({ next_cue: cue }), now).comes).toBe("Cutting the yarn waits for you there.");
  });
  test("between two rounds it is the start of the next, and no stitch nought", () => {
    expect(recap(hand({ stitch: 0 }), now).stopped).toBe("Stopped yesterday 21:40 at the start of round 23.");
    expect(recap(hand({ label: "0", kind: "row", stitch: 0 }), now).stopped).toBe(
      "Stopped yesterday 21:40 at the start of the first row.",
    );
    expect(recap(hand({ of: null, stitch: null }), now).stopped).toBe("Stopped yesterday 21:40 in round 23.");
  });
  test("what comes behind the last round comes next", () => {
    const last = { label: null, kind: null, stitch: null, of: null };
    expect(recap(hand({ ...last, next_cue: { kind: "sew", text: "", distance_courses: 0, waits: false } }), now).comes).toBe(
      "Sewing on comes next.",
    );
  });
  test("behind the last round", () => {
    expect(recap(hand({ label: null, kind: null, stitch: null, of: null, next_cue: null }), now)).toEqual({
      stopped: "Stopped yesterday 21:40 after the last stitch, with the finishing to do.",
      comes: "",
    });
  });
  test("behind the last round of a part, and others are still to be crocheted", () => {
    const last = { label: null, kind: null, stitch: null, of: null };
    const then = { piece: "Ears", copy: 1, copies: 2, crocheted: true };
    expect(recap(hand({ ...last, next_cue: null, then }), now)).toEqual({
      stopped: "Stopped yesterday 21:40 after the last stitch of this part.",
      comes: "Next: Ears, 1 of 2.",
    });
    const cue = { kind: "fasten", text: "", distance_courses: 0, waits: true } as const;
    expect(recap(hand({ ...last, next_cue: cue, then }), now).comes).toBe("Cutting the yarn waits for you there, then comes Ears, 1 of 2.");
    expect(recap(hand({ ...last, next_cue: { ...cue, waits: false }, then }), now).comes).toBe("Cutting the yarn comes next, then Ears, 1 of 2.");
    const sewn = { piece: "Making up", copy: 1, copies: 1, crocheted: false };
    expect(recap(hand({ ...last, next_cue: null, then: sewn }), now).stopped).toContain("with the finishing to do");
  });
  test("finished, and not begun", () => {
    expect(recap({ ...making, finished: true }, now).stopped).toBe("The last stitch was made yesterday 21:40.");
    expect(recap({ ...making, in_hand: null, worked: null }, now).stopped).toBe("Begun on 1 November. No stitch worked yet.");
    expect(recap({ ...making, in_hand: null, begun: "" }, now).stopped).toBe("No stitch worked yet.");
  });
  test("worked is not finished", () => {
    expect(recap({ ...making, finished: true, to_finish: 10 }, now).comes).toBe("10 things left to finish.");
    expect(recap({ ...making, finished: true, to_finish: 1 }, now).comes).toBe("1 thing left to finish.");
    expect(recap({ ...making, finished: true, to_finish: 0 }, now)).toEqual({
      stopped: "Finished. The last stitch was made yesterday 21:40.", comes: "",
    });
  });
});

test("a copy is named only where there are several", () => {
  expect(copyName("Buoy", 2, 3)).toBe("Buoy, 2 of 3");
  expect(copyName("Hull", 1, 1)).toBe("Hull");
});

test("a pattern's extent counts every copy, and leaves out sewing up", () => {
  const pieces = [
    { name: "Buoy", make: 3, courses: 10 },
    { name: "Assembly", make: 1, courses: 0 },
  ];
  const findings = { error: 0, warning: 0, note: 3 };
  expect(extent({ id: 1, title: "", hook: "", source: "own", pieces, findings, can_be_followed: true })).toBe(
    "3 pieces, 30 rounds and rows in all",
  );
});

test("what reading found, in plain words", () => {
  expect(looked({ error: 1, warning: 2 })).toBe("1 place can't be followed, 2 places to look at");
  expect(looked({ error: 0, warning: 0 })).toBe("");
});
