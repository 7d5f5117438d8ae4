import { expect, test } from "vitest";
import { asPrinted, forWhat, herColour, itemSaid, stillToFind } from "./words";

const ITEMS = [
  { id: "hook", name: "3 mm hook" },
  { id: "yarn:red", name: "DK yarn, red" },
  { id: "pins", name: "pins" },
];

test("what is left to find, by name", () => {
  expect(stillToFind(ITEMS, [])).toBe("3 things to find.");
  expect(stillToFind(ITEMS, ["hook"])).toBe("Still to find: DK yarn, red; and pins.");
  expect(stillToFind(ITEMS, ["hook", "pins"])).toBe("Still to find: DK yarn, red.");
  expect(stillToFind(ITEMS, ["pins", "hook", "yarn:red", "something that is no longer listed"])).toBe("All of it is at hand.");
  expect(stillToFind([], [])).toBe("");
});

test("a colour by her own words", () => {
  const pieces = [{ number: 1, name: "Buoy", copies: 3, printed: 1 }];
  expect(herColour({ id: "yarn:color a" }, { colours: { "Colour A": "madder from the market" } }, pieces)).toBe("madder from the market");
  expect(herColour({ id: "yarn:color b" }, { colours: { "Colour A": "madder" } }, pieces)).toBe("");
  expect(herColour({ id: "hook" }, {}, pieces)).toBe("");
  const chosen = { colours: { "Colour A": "madder" }, "colours/p1.c2": { "Colour A": "moss" }, "colours/p1.c3": { "Colour B": "wool" } };
  expect(herColour({ id: "yarn:color a" }, chosen, pieces)).toBe("madder; Buoy 2: moss");
  expect(herColour({ id: "yarn:color b" }, chosen, pieces)).toBe("Buoy 3: wool");
});

test("what is printed is for the copies that are printed", () => {
  const piece = { number: 1, name: "Buoy", copies: 3, printed: 1 };
  expect(asPrinted({ pieces: [piece] })).toBe("The pattern, for as many as it prints");
  expect(asPrinted({ pieces: [{ ...piece, copies: 1 }] })).toBe("The pattern");
});

test("one thing, said", () => {
  expect(itemSaid({ name: "3 mm hook", amount: "" }, false)).toBe("3 mm hook.");
  expect(itemSaid({ name: "8 mm eyes", amount: "4" }, true)).toBe("8 mm eyes, 4: at hand.");
});

test("for how many of what", () => {
  const pieces = [
    { number: 1, name: "Buoy", copies: 5, printed: 5 },
    { number: 2, name: "", copies: 1, printed: 1 },
  ];
  expect(forWhat({ pieces })).toBe("5 × Buoy, 1 × the piece");
});
