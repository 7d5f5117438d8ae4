import { describe, expect, test } from "vitest";
import type { Group, Node } from "../generated/pattern";
import { coreOf, itemsOf, legsWorked, lengthOf, makesOf, shapeOf } from "./marks";
import { hookAngle, lay, legs, point } from "./ring";
import { across, hookAcross, layRow } from "./row";
import { partedThread, strandPath, through } from "./thread";

const none = { short: "", full: "", spoken: "" };
const group = (stitch: string, count: number, uses = 1, makes = 1, steps = 1): Group => ({
  type: "group",
  stitch,
  count,
  uses,
  makes,
  steps,
  loops: null,
  into: null,
  colour: null,
  words: none,
});
const repeat = (times: number, ...body: Node[]): Node => ({ type: "repeat", times, body });
const sc = (n: number) => group("sc", n);
const inc = () => group("inc", 1, 1, 2, 2);
const dec = () => group("sc2tog", 1, 2, 1, 1);

describe("what is drawn", () => {
  // Round texts and counts of the standard increase rounds: 6, 12, 18, 24, 30, 36, 42 (arithmetic of 6 increases a round).
  test("up to 24 stitches every stitch has its own mark", () => {
    const body = [repeat(6, sc(2), inc())];
    expect(makesOf(body)).toBe(24);
    const items = itemsOf(body, 5);
    expect(items.every((i) => i.type === "mark")).toBe(true);
    expect(items).toHaveLength(18);
  });

  test("above 24 the repeats are stretches and the one in hand is spread out", () => {
    const body = [repeat(7, sc(4), inc())];
    const items = itemsOf(body, 2 * 6 + 3);
    expect(items.filter((i) => i.type === "stretch")).toHaveLength(6);
    expect(items.filter((i) => i.type === "mark")).toHaveLength(5);
    expect(items.findIndex((i) => i.type === "mark")).toBe(2);
  });

  test("a long plain round goes by tens", () => {
    const items = itemsOf([sc(60)], 24);
    expect(items.filter((i) => i.type === "stretch")).toHaveLength(5);
    expect(items.filter((i) => i.type === "mark").map((m) => m.first)).toEqual([20, 21, 22, 23, 24, 25, 26, 27, 28, 29]);
  });

  test.each([
    [[repeat(7, sc(4), inc())]],
    [[sc(60)]],
    [[sc(3), repeat(2, repeat(3, sc(1), inc()), sc(20)), dec()]],
    [[group("ring", 1, 0, 0, 1), sc(6)]],
  ])("items cover every step once, wherever the hook is (%#)", (body) => {
    const length = lengthOf(body);
    for (let at = 0; at <= length; at++) {
      let next = 0;
      for (const item of itemsOf(body, at)) {
        expect(item.first).toBe(next);
        next += item.steps;
      }
      expect(next).toBe(length);
    }
  });

  test("increases fork, decreases meet", () => {
    const [plus] = itemsOf([inc()], 0);
    const [minus] = itemsOf([dec()], 0);
    if (plus?.type !== "mark" || minus?.type !== "mark") throw new Error("two marks were asked for");
    expect(shapeOf(plus)).toBe("fork");
    expect(shapeOf(minus)).toBe("meet");
    const [a, b] = legs(plus, 0, 1);
    expect(a?.foot).toBe(b?.foot);
    expect(a?.tip).not.toBe(b?.tip);
    const [c, d] = legs(minus, 0, 1);
    expect(c?.tip).toBe(d?.tip);
    expect(c?.foot).not.toBe(d?.foot);
    expect(legsWorked(plus, 1)).toBe(1);
    expect(legsWorked(plus, 2)).toBe(2);
    expect(legsWorked(minus, 0)).toBe(0);
    expect(legsWorked(minus, 1)).toBe(2);
  });
});

describe("how a course begins in the middle", () => {
  test("in a ring, round a chain, or on the rounds below", () => {
    expect(coreOf([group("ring", 1, 0, 0, 1), sc(6)])).toEqual({ kind: "ring", steps: 1 });
    expect(coreOf([group("ch", 9, 0, 0, 1), sc(8)])).toEqual({ kind: "chain", steps: 9 });
    expect(coreOf([group("ch", 1, 0, 0, 1), sc(8)]).kind).toBe("rounds");
    expect(coreOf([{ ...sc(1), into: "2nd ch from hook" }, sc(8)])).toEqual({ kind: "chain", steps: 0 });
    expect(coreOf([repeat(6, sc(2), inc())]).kind).toBe("rounds");
  });
});

describe("which way round", () => {
  // Seen from outside, right-handed rounds run anticlockwise; left-handed ones clockwise (chart-reading rule of the trade).
  const turn = (hand: "right" | "left") => {
    const a = point(0.1, 100, hand);
    const b = point(0.2, 100, hand);
    // Cross product with y downwards: negative is anticlockwise to the eye.
    return Math.sign(a.x * b.y - a.y * b.x);
  };
  test("right-handed anticlockwise, left-handed the mirror", () => {
    expect(turn("right")).toBe(-1);
    expect(turn("left")).toBe(1);
    const right = point(1, 50, "right");
    const left = point(1, 50, "left");
    expect(left.x).toBeCloseTo(-right.x);
    expect(left.y).toBeCloseTo(right.y);
  });

  test("rows run right to left for a right-handed maker as they face her", () => {
    expect(across(0, 0, 100, "right")).toBe(100);
    expect(across(1, 0, 100, "right")).toBe(0);
    expect(across(0, 0, 100, "left")).toBe(0);
  });

  test("the round is shared out without gaps and the hook stands where it should", () => {
    const laid = lay(itemsOf([repeat(7, sc(4), inc())], 14));
    expect(laid[0]?.from).toBe(0);
    laid.forEach((l, i) => i > 0 && expect(l.from).toBeCloseTo(laid[i - 1]?.to ?? Number.NaN));
    expect(laid.at(-1)?.to).toBeCloseTo(2 * Math.PI);
    expect(hookAngle(laid, 0)).toBe(0);
    expect(hookAngle(laid, 42)).toBeCloseTo(2 * Math.PI);
    expect(hookAngle(laid, 14)).toBeGreaterThan(hookAngle(laid, 12));
    const row = layRow(itemsOf([sc(60)], 7));
    expect(row.at(-1)?.to).toBeCloseTo(1);
    expect(hookAcross(row, 60)).toBe(1);
  });
});

describe("the thread", () => {
  test("points that lie in a row give a straight line, with handles a third of the way (Catmull-Rom, by its definition)", () => {
    expect(through([[0, 6], [30, 6], [60, 6], [90, 6]])).toBe("M0,6C0,6,20,6,30,6C40,6,50,6,60,6C70,6,90,6,90,6");
    expect(through([[0, 0], [10, 20]])).toBe("M0,0C0,0,10,20,10,20");
  });

  const run = { left: 0, right: 300, y: 50 };
  test("the same words get the same thread", () => {
    expect(strandPath(run, 0, 300, 7)).toBe(strandPath(run, 0, 300, 7));
    expect(strandPath(run, 0, 300, 7)).not.toBe(strandPath(run, 0, 300, 8));
  });
  test("worked and rest part at the hook and together cover every line", () => {
    const parted = partedThread([run, { left: 0, right: 120, y: 110 }], { line: 0, x: 140 }, 3);
    expect(parted.worked.match(/M/g)).toHaveLength(1);
    expect(parted.rest.match(/M/g)).toHaveLength(2);
    expect(partedThread([run], { line: 0, x: 0 }, 3).worked).toBe("");
    expect(partedThread([run], { line: 0, x: 300 }, 3).rest).toBe("");
  });
});
