import { describe, expect, it } from "vitest";
import type { Group, StrandCourse } from "../../generated/pattern";
import { CARDS } from "../../generated/cards";
import { cardCalled, inTerms, keyOfCue, keysOfCourse, keysOfGroup, stuffed } from "./which";

const group = (more: Partial<Group>): Group => ({
  type: "group", stitch: "sc", count: 1, uses: 1, makes: 1, steps: 1, loops: null, into: null, colour: null,
  words: { short: "", full: "", spoken: "" }, ...more,
}); // prettier-ignore

describe("which card", () => {
  it("is the stitch's own, behind where the hook goes", () => {
    expect(keysOfGroup(group({}))).toEqual(["single"]);
    expect(keysOfGroup(group({ stitch: "inv dec" }))).toEqual(["invisible-decrease"]);
    expect(keysOfGroup(group({ loops: "back" }))).toEqual(["loops", "single"]);
    expect(keysOfGroup(group({ into: "ring", count: 6 }))).toEqual(["ring", "single"]);
    expect(keysOfGroup(group({ into: "other side", count: 8 }))).toEqual(["chain-sides", "single"]);
  });

  it("is the beginning without a ring only where several stitches go into one chain", () => {
    expect(keysOfGroup(group({ into: "2nd ch from hook", count: 6 }))).toEqual(["chain-start", "single"]);
    expect(keysOfGroup(group({ into: "2nd ch from hook" }))).toEqual(["single"]);
  });

  it("is none for a stitch of the text's own", () => {
    expect(keysOfGroup(group({ stitch: "wave" }))).toEqual([]);
  });

  it("is found in repeats too", () => {
    const body = [{ type: "repeat", times: 6, body: [group({}), group({ stitch: "inc" })] }];
    expect([...keysOfCourse({ body } as unknown as StrandCourse)]).toEqual(["single", "two-in-one"]);
  });

  it("tells ends in a stuffed piece from those in a flat one", () => {
    const weave = { kind: "weave" as const, text: "Weave in the ends" };
    const stuff = { kind: "stuff" as const, text: "Stuff firmly." };
    const dry = { kind: "stuff" as const, text: "Do not stuff." };
    expect([stuffed([weave]), stuffed([stuff]), stuffed([dry])]).toEqual([null, true, false]);
    expect(keyOfCue(weave, [weave, stuff])).toBe("ends-stuffed");
    expect(keyOfCue(weave, [weave, dry])).toBe("ends-flat");
    expect(keyOfCue({ kind: "weave", text: "Bury the ends through the stuffing." }, [])).toBe("ends-stuffed");
    expect(keyOfCue(dry, [dry])).toBeNull();
    expect(keyOfCue({ kind: "colour", text: "Change to red" }, [])).toBe("colour");
    expect(keyOfCue({ kind: "hold", text: "Set aside" }, [])).toBeNull();
  });

  it("speaks in the maker's terms", () => {
    const titles = (["US", "UK"] as const).map((terms) => inTerms(cardCalled("half-double")?.title ?? "", terms));
    expect(titles).toEqual(["Half double crochet", "Half treble"]);
    expect(CARDS.every((card) => cardCalled(card.key) === card)).toBe(true);
  });
});
