import { describe, expect, test } from "vitest";
import type { Course, Group, Node } from "../../generated/pattern";
import { layChart, MOST } from "./lay";
import { strokes } from "./symbols";

const words = { short: "", full: "", spoken: "" };
const group = (stitch: string, count: number, more: Partial<Group> = {}): Group => ({
  type: "group", stitch, count, uses: 1, makes: 1, steps: 1, loops: null, into: null, colour: null, words, ...more,
});
const inc = (count: number) => group("inc", count, { makes: 2, steps: 2 });
const course = (label: string, body: Node[], more: Partial<Course> = {}): Course => ({
  id: `b.${label}`, label, kind: "round", uses: null, makes: null, declared: null, text: "", line: 1, body, read: true, spiral: true, plain: false, words, ...more,
});
const ring = [group("ring", 1, { uses: 0, makes: 0 }), group("sc", 6, { uses: 0, into: "ring" })];
const third: Node[] = [{ type: "repeat", times: 6, body: [group("sc", 1), inc(1)] }];
const disc = [course("1", ring), course("2", [inc(6)]), course("3", third)];

describe("rounds", () => {
  const chart = layChart(disc, "right");
  test("every stitch stands on those it is worked into", () => {
    expect(chart.stitches).toHaveLength(6 + 6 + 12);
    const [first] = chart.stitches.filter((s) => s.course === 1);
    expect(first?.feet).toEqual(chart.stitches[0]?.tips);
    expect(first?.tips).toHaveLength(2);
    for (const s of chart.stitches.filter((s) => s.course === 2)) {
      for (const tip of s.tips) expect(Math.hypot(tip.x, tip.y)).toBeCloseTo(1.1 + 3 * 1.25);
    }
  });
  test("steps tell which are worked", () => {
    const second = chart.stitches.filter((s) => s.course === 1);
    expect(second.map((s) => [s.first, s.end]).slice(0, 2)).toEqual([[0, 2], [2, 4]]);
    expect(chart.stitches[0]?.first).toBe(1); // behind the ring
  });
  test("a left-handed chart is the mirror", () => {
    const left = layChart(disc, "left");
    for (const [i, s] of left.stitches.entries()) {
      for (const [j, tip] of s.tips.entries()) expect(tip.x).toBeCloseTo(-(chart.stitches[i]?.tips[j]?.x ?? 9));
    }
  });
  test("stacked increases stay over one another", () => {
    const side = (s: { x: number; y: number }) => Math.atan2(s.x, s.y);
    const over = chart.stitches.filter((s) => s.course === 2).map((s) => Math.abs(side(s.tips[0]!) - side(s.feet[0]!)));
    expect(Math.max(...over.map((a) => Math.min(a, 2 * Math.PI - a)))).toBeLessThan(Math.PI / 6);
  });
});

test("rows turn: the first stitch stands over the last of the row below", () => {
  const rows = [course("1", [group("sc", 5)], { kind: "row" }), course("2", [group("sc", 5)], { kind: "row" })];
  const chart = layChart(rows, "right");
  expect(chart.kind).toBe("row");
  const second = chart.stitches.filter((s) => s.course === 1);
  expect(second[0]?.feet[0]).toEqual(chart.stitches[4]?.tips[0]);
  expect(second[0]?.tips[0]?.x).toBe(second[0]?.feet[0]?.x);
});

test("too many stitches are left out and said", () => {
  const many = Array.from({ length: 30 }, (_, i) => course(String(i + 1), [group("sc", 60)]));
  const chart = layChart(many, "right");
  expect(chart.stitches.length).toBeLessThanOrEqual(MOST);
  expect(chart.left).toBe(10);
});

test("symbols: a cross has two strokes, a treble two slashes, a slip stitch is solid", () => {
  const at = { feet: [{ x: 0, y: 0 }], tips: [{ x: 0, y: -1 }], loops: null, course: 0, first: 0, end: 1 };
  expect(strokes({ ...at, symbol: "cross" }).line.match(/M/g)).toHaveLength(2);
  expect(strokes({ ...at, symbol: "tee-2" }).line.match(/M/g)).toHaveLength(4);
  expect(strokes({ ...at, symbol: "dot" })).toMatchObject({ line: "" });
  const two = [{ x: -1, y: -1 }, { x: 1, y: -1 }];
  expect(strokes({ ...at, symbol: "vee", tips: two }).line.match(/M/g)).toHaveLength(2);
  expect(strokes({ ...at, symbol: "cross", loops: "back" }).line.match(/M/g)).toHaveLength(3);
});
