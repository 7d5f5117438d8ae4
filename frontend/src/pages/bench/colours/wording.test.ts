import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Strand } from "../../../generated/pattern";
import { calledIn, coloursOf, inHerWords, wording } from "./wording";

const cases = JSON.parse(readFileSync(new URL("../../../../../tests/vectors/colours.json", import.meta.url), "utf8")) as {
  text: string;
  called: Record<string, string>;
  says: string;
}[];

test.each(cases)("$text by $called", ({ text, called, says }) => {
  expect(inHerWords(text, called)).toBe(says);
});

const words = (short: string) => ({ short, full: `${short}.`, spoken: short });
const sc = (colour: string | null) => ({ type: "group" as const, stitch: "sc", count: 6, uses: 1, makes: 1, steps: 1, loops: null, into: null, colour, words: words(colour ? `6 sc in ${colour}` : "6 sc") });
/** Demo: a buoy of six stitches, a change to navy, six more in cream. */
const buoy: Strand = {
  format: 1, id: "buoy", piece: "Buoy", terms: "US", length: 13,
  courses: [
    { id: "b.1", label: "1", kind: "round", first: 0, end: 6, uses: null, makes: 6, declared: null, text: "6 sc", body: [sc(null)], read: true, spiral: true, plain: false, plain_index: null, plain_of: null, plain_from: null, plain_to: null, words: words("6 sc") },
    { id: "b.2", label: "2", kind: "round", first: 7, end: 13, uses: 6, makes: 6, declared: null, text: "6 sc in cream", body: [sc("cream")], read: true, spiral: true, plain: false, plain_index: null, plain_of: null, plain_from: null, plain_to: null, words: words("6 sc in cream") },
  ],
  cues: [{ address: "b.1/colour.1", step: 6, kind: "colour", text: "Change to navy", basis: "written", weight: "pause", words: words("Change to navy") }],
}; // prettier-ignore

test("the colours that the steps name, in their order", () => {
  expect(coloursOf(buoy)).toEqual(["navy", "cream"]);
});

test("what one copy is called goes before what all are", () => {
  const chosen = { colours: { navy: "ink", cream: "wool" }, "colours/p1.c2": { navy: "moss" } };
  expect(calledIn(chosen, "p1.c1")).toEqual({ navy: "ink", cream: "wool" });
  const { strand: worded } = wording(chosen);
  expect(worded(buoy, "p1.c1").cues[0]?.words.full).toBe("Change to ink.");
  const second = worded(buoy, "p1.c2");
  expect(second.cues[0]?.words.short).toBe("Change to moss");
  expect(second.courses[1]?.words.short).toBe("6 sc in wool");
  expect(second.courses[1]?.text).toBe("6 sc in cream"); // the designer's words stay
  expect(worded(buoy, "p1.c2")).toBe(second);
  expect(wording({}).strand(buoy, "p1.c1")).toBe(buoy);
});

test("a sentence about all copies keeps the pattern's name of a colour that one of them has otherwise", () => {
  const { text } = wording({ colours: { navy: "ink", cream: "wool" }, "colours/p1.c2": { navy: "moss" } });
  expect(text("Sew the band on with cream, its edge with navy.")).toBe("Sew the band on with wool, its edge with navy.");
});
