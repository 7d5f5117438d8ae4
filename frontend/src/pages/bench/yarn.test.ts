import { expect, test } from "vitest";
import { group, repeat, sc, strandOf, words } from "./course.fixture";
import { yarnInHand, yarnNamed } from "./yarn";

// Askings as patterns print them (demo).
test.each([
  ["Change to color B", "color B"],
  ["Change to cream for the gunwale", "cream"],
  ["With brown", "brown"],
  ["With light green, make a magic ring", "light green"],
  ["Change back to the dark blue yarn in the last st of round 9.", "dark blue"],
])("%s", (text, yarn) => expect(yarnNamed(text)).toBe(yarn));

test("what names no yarn", () => {
  expect(yarnNamed("Stuff firmly")).toBeNull();
  expect(yarnNamed("Weave in the ends")).toBeNull();
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
  expect(yarnInHand(strandOf({ label: "1", body: [sc(6)] }), 3)).toBeNull();
});
