import { describe, expect, test } from "vitest";
import type { Course, Group, Node } from "../../generated/pattern";
import { layChart, MOST } from "./lay";
import { middleSaid } from "./Start";
import { field, SHAPES, shadesOf } from "./shades";
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

describe("the middle of a chart of rounds", () => {
  const sc = (count: number, where: string | null, uses = 0) => group("sc", count, { uses, into: where });
  const legs = course("7", [group("ch", 2, { uses: 0, makes: 0 }), sc(12, "first leg"), sc(2, "in the ch"), sc(12, "around the second leg"), sc(2, "on the other side of the ch")]);
  test("a body on two legs shows both, the chain between them, and no ring", () => {
    const { middle, stitches } = layChart([legs], "right");
    expect(middle).toMatchObject({ kind: "parts", chains: 2 });
    if (middle?.kind !== "parts") throw new Error("no parts");
    expect(middle.parts.map((p) => p.name)).toEqual(["second leg", "first leg"]); // the round passes the right one first
    const [left, right] = middle.parts;
    expect((left?.at.x ?? 0) + (left?.radius ?? 0)).toBeLessThan((right?.at.x ?? 0) - (right?.radius ?? 0));
    const reach = Math.max(...middle.parts.map((p) => Math.abs(p.at.x) + p.radius));
    for (const s of stitches) for (const foot of s.feet) expect(Math.hypot(foot.x, foot.y)).toBeGreaterThan(reach);
    expect(stitches).toHaveLength(28);
    expect(middleSaid(middle)).toBe("Begun on first leg and second leg, 2 ch between them.");
  });
  test("for a left hand it is the mirror", () => {
    const { middle } = layChart([legs], "left");
    expect(middle?.kind === "parts" && middle.parts.map((p) => p.name)).toEqual(["first leg", "second leg"]);
  });
  test("a ring, chains joined to a ring, a chain worked along both sides, an edge that is there", () => {
    const kind = (...body: Node[]) => layChart([course("1", body)], "right").middle;
    expect(layChart(disc, "right").middle).toEqual({ kind: "ring" });
    expect(kind(group("ch", 2, { uses: 0, makes: 0 }), sc(6, "2nd ch from hook"))).toEqual({ kind: "ring" });
    expect(kind(group("ch", 12, { uses: 0, makes: 0 }), group("join", 1, { uses: 0, makes: 0, into: "ring" }), sc(12, null))).toEqual({ kind: "loop", chains: 12 });
    expect(kind(group("ch", 5, { uses: 0, makes: 0 }), sc(1, "2nd ch from hook"), sc(3, null), sc(1, "last ch"), sc(3, "other side"))).toEqual({ kind: "chain", chains: 4 });
    expect(kind(sc(24, null, 1))).toMatchObject({ kind: "edge" });
  });
});

test("a panel of another colour has a field of its own; the colour that most stitches have has none", () => {
  const panel = [course("1", [group("sc", 12, { colour: "navy" }), group("sc", 8, { colour: "white" }), group("sc", 12, { colour: "navy" })])];
  expect([...shadesOf(panel)]).toEqual([["white", "disc"]]);
  expect(layChart(panel, "right").stitches.filter((s) => s.colour === "white")).toHaveLength(8);
  expect(shadesOf(disc).size).toBe(0);
  expect(new Set(SHAPES.map((shape) => field(shape, 0, 0))).size).toBe(3);
});

test("symbols: a cross has two strokes, a treble two slashes, a slip stitch is solid", () => {
  const at = { feet: [{ x: 0, y: 0 }], tips: [{ x: 0, y: -1 }], loops: null, course: 0, first: 0, end: 1, colour: null };
  expect(strokes({ ...at, symbol: "cross" }).line.match(/M/g)).toHaveLength(2);
  expect(strokes({ ...at, symbol: "tee-2" }).line.match(/M/g)).toHaveLength(4);
  expect(strokes({ ...at, symbol: "dot" })).toMatchObject({ line: "" });
  const two = [{ x: -1, y: -1 }, { x: 1, y: -1 }];
  expect(strokes({ ...at, symbol: "vee", tips: two }).line.match(/M/g)).toHaveLength(2);
  expect(strokes({ ...at, symbol: "cross", loops: "back" }).line.match(/M/g)).toHaveLength(3);
});
