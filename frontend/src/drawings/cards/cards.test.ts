import { describe, expect, it } from "vitest";
import { CARDS } from "../../generated/cards";
import { DRAWINGS } from ".";

describe("the drawings of the cards", () => {
  it("are there for every card, and for nothing else", () => {
    expect(Object.keys(DRAWINGS).sort()).toEqual(CARDS.map((card) => card.key).sort());
  });

  it("show every step of a card once, in order", () => {
    for (const card of CARDS) {
      const shown = DRAWINGS[card.key]?.flatMap((frame) => frame.steps);
      expect([card.key, shown]).toEqual([card.key, card.steps.map((_, i) => i)]);
    }
  });
});
