import { describe, expect, test } from "vitest";
import type { Node } from "../../generated/pattern";
import { lengthOf } from "../../drawings/marks";
import { dec, group, inc, repeat, sc, strandOf, words } from "./course.fixture";
import { anchorsOf, chunksOf, heldAt, hookChar, openedOut, spelledOut, parted, sentenceOf } from "./sentence";

const body = [repeat(7, sc(4), inc())];
const course = strandOf({ label: "11", body }).courses[0];
if (!course) throw new Error("a strand has its courses");
const SENTENCE = "Round 11: (4 sc, inc) x 7, 42 stitches";

describe("the round as one sentence", () => {
  test("it reads as people print it", () => {
    expect(sentenceOf(course, "short")).toBe(SENTENCE);
    const row = { ...course, kind: "row" as const, label: "2" };
    expect(sentenceOf(row, "short")).toBe("Row 2: (4 sc, inc) x 7, 42 stitches");
    expect(sentenceOf({ ...course, makes: null }, "short")).toBe("Round 11: (4 sc, inc) x 7");
    const one = strandOf({ label: "1", body: [inc(), dec()] }).courses[0];
    expect(one && sentenceOf(one, "short")).toBe("Round 1: inc, dec, 3 stitches");
  });

  test("no line breaks an amount from its stitch", () => {
    const chunks = chunksOf(SENTENCE);
    expect(chunks).toEqual(["Round 11:", "(4 sc,", "inc)", "x 7,", "42 stitches"]);
    expect(chunks.join(" ")).toBe(SENTENCE);
  });

  test("the words of each group are found, and not inside others", () => {
    const anchors = anchorsOf(SENTENCE, body, "short");
    expect(anchors.map((a) => SENTENCE.slice(a.from, a.to))).toEqual(["4 sc", "inc"]);
    const twelve = [sc(12), sc(2), dec(), group("sc2tog", 2, { words: words("sc2tog x 2") })];
    const text = "Round 3: 12 sc, 2 sc, dec, sc2tog x 2, 17 stitches";
    const found = anchorsOf(text, twelve, "short");
    expect(found.map((a) => a.from)).toEqual([9, 16, 22, 27]);
  });
});

describe("the thread under the words", () => {
  const at = (done: number) => hookChar(SENTENCE, course, done, "short");
  const four = SENTENCE.indexOf("4 sc");
  const plus = SENTENCE.indexOf("inc");

  test("begins at the first stitch and ends at the last word", () => {
    expect(at(0)).toBe(four);
    expect(at(42)).toBe(SENTENCE.length);
  });

  test("runs along the repeat's words once for each time they are worked", () => {
    for (let i = 0; i < 7; i++) {
      expect(at(6 * i)).toBe(four);
      expect(at(6 * i + 2)).toBe(four + 2);
      expect(at(6 * i + 4)).toBe(plus);
      expect(at(6 * i + 5)).toBe(plus + 1.5);
    }
  });

  test("where the sentence says it otherwise, it goes by the share that is worked", () => {
    const other = "Round 11: as the round before, with care";
    const total = lengthOf(body);
    expect(hookChar(other, course, 0, "short")).toBe(10);
    expect(hookChar(other, course, total / 2, "short")).toBeCloseTo(10 + (other.length - 10) / 2);
  });
});

describe("the repeat in hand, opened out", () => {
  test("its parts in order, one of them in hand", () => {
    expect(openedOut(course, 14, "short").map((p) => [p.head, p.state])).toEqual([
      ["4 sc", "hand"],
      ["inc", "ahead"],
    ]);
    expect(openedOut(course, 17, "short").map((p) => p.state)).toEqual(["worked", "hand"]);
    expect(openedOut(course, 42, "short").map((p) => p.state)).toEqual(["worked", "worked"]);
  });

  test("of nested repeats the innermost; the others in brackets beside it", () => {
    const nested = [repeat(2, repeat(3, sc(2), inc()), sc(4), dec()), sc(7)];
    expect(openedOut({ ...course, body: nested }, 1, "short").map((p) => p.head)).toEqual(["2 sc", "inc"]);
    expect(openedOut({ ...course, body: nested }, 13, "short").map((p) => p.head)).toEqual(["(2 sc, inc) x 3", "4 sc", "dec"]);
    expect(heldAt(nested, 13)?.group.count).toBe(4);
  });

  test("never more than three, the one in hand among them", () => {
    const long = Array.from({ length: 9 }, (_, i) => sc(i + 1));
    for (let at = 0; at < lengthOf(long); at++) {
      const parts = openedOut({ ...course, body: long }, at, "short");
      expect(parts.length).toBeLessThanOrEqual(3);
      expect(parts.filter((p) => p.state === "hand")).toHaveLength(1);
    }
  });

  test("a starting chain and a join stand small beside the stitches they go with", () => {
    const ch = group("ch", 1, { uses: 0, makes: 0, words: words("ch 1") });
    const join = group("join", 1, { uses: 0, makes: 0, words: words("join") });
    const plain = { ...course, uses: 24, makes: 24, body: [ch, sc(24), join] };
    const said = (at: number) => openedOut(plain, at, "short").map((p) => [p.lead, p.head, p.then, p.state]);
    expect(said(0)).toEqual([["ch 1 first", "24 sc", "then join", "hand"]]);
    expect(said(2)).toEqual([["", "24 sc", "then join", "hand"]]);
    expect(said(25)).toEqual([["", "join", "", "hand"]]);
    const shaped = { ...course, uses: 12, makes: 18, body: [ch, repeat(6, sc(1), inc()), join] };
    expect(openedOut(shaped, 0, "short").map((p) => [p.lead, p.head, p.then])).toEqual([
      ["ch 1 first", "1 sc", ""],
      ["", "inc", ""],
    ]);
    expect(openedOut(shaped, 16, "short").map((p) => p.then)).toEqual(["", "then join"]);
  });

  test("what is passed over at either end of a round is there, also before a join", () => {
    const miss = group("skip", 1, { makes: 0, steps: 0, words: words("miss 1") });
    const ch = group("ch", 1, { uses: 0, makes: 0, words: words("ch 1") });
    const join = group("join", 1, { uses: 0, makes: 0, words: words("join") });
    const heads = (body: Node[], at: number) =>
      openedOut({ ...course, uses: 20, makes: 15, body }, at, "short").map((p) => [p.head, p.then, p.state]);
    const last = [ch, repeat(5, sc(3), miss), join];
    expect(heads(last, 2)).toEqual([["3 sc", "", "hand"], ["miss 1", "", "ahead"]]);
    expect(heads(last, 14)).toEqual([["3 sc", "", "hand"], ["miss 1", "then join", "ahead"]]);
    expect(heads([repeat(5, sc(3), miss)], 14)).toEqual([["3 sc", "", "hand"], ["miss 1", "", "ahead"]]);
    expect(heads([ch, repeat(5, miss, sc(3)), join], 0)[0]).toEqual(["miss 1", "", "worked"]);
  });

  test("full words stand below the short ones, which can be large", () => {
    const full = [group("sc", 4, { words: words("4 sc", "4 single crochet, one in each of the next 4 stitches") }), inc()];
    expect(openedOut({ ...course, body: full }, 0, "full").map((p) => [p.head, p.tail])).toEqual([
      ["4 sc", "4 single crochet, one in each of the next 4 stitches"],
      ["inc", ""],
    ]);
  });

  test("where a stitch goes stands apart from amount and stitch", () => {
    expect(parted("6 sc in ring")).toEqual({ head: "6 sc", tail: "in ring" });
    expect(parted("2 dc in next")).toEqual({ head: "2 dc", tail: "in next" });
    expect(parted("4 single crochet, one in each of the next 4 stitches")).toEqual({
      head: "4 single crochet",
      tail: "one in each of the next 4 stitches",
    });
    expect(parted("magic ring")).toEqual({ head: "magic ring", tail: "" });
    expect(parted("inc")).toEqual({ head: "inc", tail: "" });
  });
});

describe("increases and decreases spelled out", () => {
  const words = (short: string, full: string) => ({ short, full, spoken: full });
  const plain = { type: "group", stitch: "sc", count: 4, uses: 1, makes: 1, steps: 1, loops: null, into: null, colour: null, words: words("4 sc", "4 single crochet") } as const;
  const inc = { ...plain, stitch: "inc", count: 1, makes: 2, steps: 2, words: words("inc", "2 single crochet in the next stitch") } as const;
  const of = (body: unknown) => ({ body }) as Parameters<typeof spelledOut>[0];
  test("once, for the whole course", () => {
    const course = of([{ type: "repeat", times: 6, body: [plain, inc] }, inc]);
    expect(spelledOut(course)).toEqual(["inc: 2 single crochet in the next stitch"]);
  });
  test("not where nothing else is worked, nor where nothing shapes", () => {
    expect(spelledOut(of([{ ...inc, count: 6 }]))).toEqual([]);
    expect(spelledOut(of([plain]))).toEqual([]);
  });
});
