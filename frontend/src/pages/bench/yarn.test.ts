import { expect, test } from "vitest";
import { group, repeat, sc, strandOf, words } from "./course.fixture";
import { endingIn, endings, yarnInHand, yarnNamed, yarnToBegin } from "./yarn";

// Askings as patterns print them (demo).
test.each([
  ["Change to color B", "color B"],
  ["Change to cream for the gunwale", "cream"],
  ["Swap to grey and carry on", "grey"],
  ["With brown", "brown"],
  ["Back to black", "black"],
  ["Start with rust again.", "rust"],
  ["Use yellow for this.", "yellow"],
  ["Now change to brown.", "brown"],
  ["Grab the rust yarn for his boots.", "rust"],
  ["With light green, make a magic ring", "light green"],
  ["Change back to the dark blue yarn in the last st of round 9.", "dark blue"],
])("%s", (text, yarn) => expect(yarnNamed(text)).toBe(yarn));

test("what names no yarn", () => {
  expect(yarnNamed("Stuff firmly")).toBeNull();
  expect(yarnNamed("Weave in the ends")).toBeNull();
  expect(yarnNamed("Use the smaller hook for this.")).toBeNull();
  expect(yarnNamed("Take the marker out.")).toBeNull();
  expect(yarnNamed("Use the tail to close the gap.")).toBeNull();
});

test("the yarn in hand is the one that was named last", () => {
  const strand = strandOf(
    { label: "1", body: [group("ch", 5, { uses: 0, makes: 0, colour: "brown" }), sc(4)] },
    { label: "2", body: [sc(4)], then: ["colour", "pause"] },
    { label: "3", body: [repeat(2, sc(2))] },
  );
  const [pause] = strand.cues;
  if (!pause) throw new Error("a pause was told");
  pause.words = words("Change to cream");
  expect(yarnInHand(strand, 0)).toBe("brown");
  expect(yarnInHand(strand, pause.step)).toBe("brown");
  expect(yarnInHand(strand, pause.step + 1)).toBe("cream");
  pause.words = words("Cream now"); // put in no way that is known: brown was laid down all the same
  expect(yarnInHand(strand, pause.step + 1)).toBeNull();
  expect(yarnInHand(strandOf({ label: "1", body: [sc(6)] }), 3)).toBeNull();
});

test("a round in colours gives way to the change that is told before its last stitch", () => {
  const strand = strandOf(
    { label: "1", body: [group("sc", 3, { colour: "navy" }), group("sc", 3, { colour: "white" }), group("sc", 3, { colour: "navy" })] },
    { label: "2", body: [repeat(3, sc(3))] },
    { label: "3", body: [repeat(2, group("sc", 1, { colour: "navy" }), group("sc", 1, { colour: "white" })), sc(5)] },
  );
  const [one, two, three] = strand.courses;
  if (!one || !two || !three) throw new Error("three rounds were told");
  const pause = { address: "buoy.1/colour.1", step: one.first + 8, kind: "colour" as const, text: "Change to sand", basis: "written" as const, weight: "pause" as const, words: words("Change to sand") };
  strand.cues.push(pause); // before the last stitch of round 1: all behind it moves on by one
  one.end += 1;
  for (const course of [two, three]) {
    course.first += 1;
    course.end += 1;
  }
  expect([0, 3, 6].map((made) => yarnInHand(strand, one.first + made))).toEqual(["navy", "white", "navy"]);
  expect(yarnInHand(strand, pause.step)).toBe("navy");
  expect(yarnInHand(strand, pause.step + 1)).toBe("sand");
  expect(yarnInHand(strand, two.first + 4)).toBe("sand");
  // The last stitch of three with navy is closed with sand: that one is left, and said so.
  expect([6, 7, 8].map((made) => endingIn(strand, one, one.first + made, made))).toEqual([null, null, null]);
  expect(endingIn(strand, one, pause.step + 1, 8)).toBe("1 left, end in sand");
  // So it is where the stitches name no colour of their own; but not where the stitch is a word by itself.
  const bare = strandOf({ label: "1", body: [sc(8), sc(1)] });
  const [round] = bare.courses;
  if (!round) throw new Error("a round was told");
  bare.cues.push({ ...pause, step: 7 });
  expect(endingIn(bare, round, 7, 7)).toBeNull();
  expect(endingIn(bare, round, 8, 7)).toBe("1 left, end in sand");
  expect(endingIn(bare, round, 9, 8)).toBeNull();
  // The bench keeps room for these words from the round's first stitch on.
  expect(endings(bare, round)).toEqual([[7, "1 left, end in sand"]]);
  expect(endings(strand, one)).toContainEqual([8, "1 left, end in sand"]);
  expect(endingIn(strand, three, three.first + 1, 1)).toBeNull();
  expect([0, 1, 2, 3, 5].map((made) => yarnInHand(strand, three.first + made))).toEqual(["navy", "white", "navy", "white", "white"]);
});

// As the names of first colours are printed (demo).
test.each([
  ["White", "white"],
  ["In grey", "grey"],
  ["Begin with dark blue yarn", "dark blue"],
  ["With color A", "color A"],
  ["MC", "MC"],
])("begun with: %s", (text, yarn) => {
  const strand = strandOf({ label: "1", body: [sc(6)] });
  expect(yarnToBegin(strand, { kind: "colour", step: 0, text, words: words(text) })).toBe(yarn);
});

test("a change of colour is said as it is written, and so is what does more than name a yarn", () => {
  const strand = strandOf({ label: "1", body: [sc(6)] });
  const cue = (text: string, step = 0) => ({ kind: "colour" as const, step, text, words: words(text) });
  expect(yarnToBegin(strand, cue("White", 6))).toBeNull();
  expect(yarnToBegin(strand, cue("Change to white"))).toBeNull();
  expect(yarnToBegin(strand, cue("Join white with a slip stitch in any stitch, leaving a tail"))).toBeNull();
  expect(yarnToBegin(strand, { ...cue("White"), kind: "other" })).toBeNull();
});

test("a repeat that names its colour at the end goes on in what was changed to before it begins again", () => {
  const strand = strandOf({ label: "1", body: [repeat(2, sc(3), group("sc", 2, { colour: "navy" }))] });
  const [one] = strand.courses;
  if (!one) throw new Error("a round was told");
  const back = { address: "wing.1/colour.4", step: one.first + 4, kind: "colour" as const, text: "Change to cream", basis: "worked out" as const, weight: "pause" as const, words: words("Change to cream") };
  strand.cues.push(back); // before the last navy stitch of the first repeat: all behind it moves on by one
  one.end += 1;
  expect(yarnInHand(strand, one.first + 3)).toBe("navy");
  expect([5, 6, 7, 8].map((step) => yarnInHand(strand, one.first + step))).toEqual(["cream", "cream", "cream", "cream"]);
  expect(yarnInHand(strand, one.first + 9)).toBe("navy");
});
