import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { allChosen, type Choice, type Chosen, tooMany } from "./choices";

const CASES = JSON.parse(readFileSync(new URL("../../../tests/vectors/choices.json", import.meta.url), "utf8")) as {
  says: string;
  before: Chosen;
  choices: Choice[];
  after: Chosen;
}[];

test.each(CASES)("$says", ({ before, choices, after }) => {
  const was = structuredClone(before);
  expect(allChosen(before, choices)).toEqual(after);
  expect(before).toEqual(was);
});

test("a list has an end", () => {
  const note = (n: number): Choice => ({ choice: "note", value: { note: `n${n}`, run: "", step: 0, text: "tight here", when: "" } });
  const full = allChosen({}, Array.from({ length: 500 }, (_, n) => note(n)));
  expect(tooMany(full)).toBe(false);
  expect(tooMany(allChosen(full, [note(0)]))).toBe(false);
  expect(tooMany(allChosen(full, [note(500)]))).toBe(true);
});
