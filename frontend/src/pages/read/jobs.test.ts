import { expect, test } from "vitest";
import type { Cue } from "../../generated/pattern";
import { jobPlace, jobWords } from "./jobs";

const cue = (short: string, text: string, more: Partial<Cue> = {}): Cue => ({
  address: "b.5/eyes", after: "5", course_id: "b.5", at: null, line: 9, kind: "eyes", text, basis: "written",
  weight: "stop", advice: "", words: { short, full: "", spoken: "" }, ...more,
});  // demo

test("the designer's sentence stands with the short words where it says more", () => {
  expect(jobWords(cue("Eyes in", "Insert eyes between 5th and 6th rounds, 7 sts apart."))).toBe(
    "Eyes in: \u201cInsert eyes between 5th and 6th rounds, 7 sts apart.\u201d",
  );
  expect(jobWords(cue("Sew two legs to front of body at 16th round", "Sew two legs to front of body at 16th round and two to 5th round."))).toBe(
    "Sew two legs to front of body at 16th round and two to 5th round.",
  );
});

test("the same words are not said twice, and what Hookside worked out has no sentence of the designer", () => {
  expect(jobWords(cue("Stuff firmly", "Stuff firmly."))).toBe("Stuff firmly");
  expect(jobWords(cue("Stuff now", "Stuff the body, while fingers still fit.", { basis: "worked out" }))).toBe("Stuff now");
  expect(jobWords(cue("", "Weave in."))).toBe("Weave in.");
});

test("a job inside a round says behind which stitch", () => {
  const round = { kind: "round", label: "4" } as never;
  expect(jobPlace(cue("Take white", "white", { at: 13 }), round)).toBe("In round 4, after 13 stitches: ");
  expect(jobPlace(cue("Take white", "white"), round)).toBe("");
});
