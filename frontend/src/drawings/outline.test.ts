import { expect, test } from "vitest";
import { hoopsMade, outline } from "./outline";

// A drum of radius 10 and height 20, between two poles.
const drum = [[0, 0], [10, 0], [10, 20], [0, 20]] as const;

test("a solid is drawn from the side, its start at the top", () => {
  const found = outline(drum, 0, 0);
  expect(found.view).toBe("side");
  expect([found.width, found.height]).toEqual([20, 20]);
  expect(found.whole).toBe("M10,0Q20,0 20,10Q20,20 15,20L10,20L10,20Q0,20 0,10Q0,0 5,0L10,0Z");
  expect(found.worked).toBe("");
  expect(found.hook).toBeNull();
});

test("what is worked ends where the hook is", () => {
  const found = outline(drum, 0, 1.5);
  expect(found.hook).toEqual({ y: 10, half: 10 });
  expect(found.worked).toBe("M10,0Q20,0 20,5L20,10L0,10Q0,0 5,0L10,0Z");
  expect(outline(drum, 0, 3).worked).toBe(outline(drum, 0, 0).whole);
});

test("what stays open stands on its start", () => {
  expect(outline([[0, 0], [10, 0], [10, 20]], 0, 1).hook).toEqual({ y: 20, half: 10 });
  expect(outline([[0, 0], [10, 0], [10, 20]], 0, 1.5).hook).toEqual({ y: 10, half: 10 });
});

test("what goes on from legs stands on them", () => {
  const bottle = [[12, 0], [12, 20], [4, 30], [0, 30]] as const;
  expect(outline(bottle, 0, 1, 0, false, true).hook).toEqual({ y: 10, half: 12 });
  expect(outline(bottle, 0, 1).hook).toEqual({ y: 20, half: 12 });
  expect(outline(bottle, 0, 0).whole).not.toBe(outline(bottle, 0, 0, 0, false, true).whole);
});

test("a disc is drawn from above, an oval with its straight sides", () => {
  const disc = outline([[0, 0], [5, 0], [10, 0.5]], 0, 1);
  expect(disc.view).toBe("above");
  expect(disc.hook?.half).toBe(5);
  const oval = outline([[2, 0], [5, 0]], 20, 1);
  expect([oval.width, oval.height]).toEqual([30, 10]);
  expect(oval.whole).toContain("L25,0");
});

test("courses without a hoop are not counted", () => {
  const openings = [null, 10, 20, 20];
  expect(hoopsMade(openings, 0, 0.5, false)).toBe(0);
  expect(hoopsMade(openings, 1, 0.5, false)).toBe(0.5);
  expect(hoopsMade(openings, 3, 0, false)).toBe(2);
  expect(hoopsMade(openings, null, 0, true)).toBe(3);
  expect(hoopsMade(openings, null, 0, false)).toBe(0);
});

test("a disc whose increases stand above one another has corners, and the edge of the round", () => {
  const profile = [[0, 0], [10, 0], [20, 0], [30, 0]] as const;
  const { whole, view } = outline(profile, 0, 0, 6);
  expect(view).toBe("above");
  const points = whole.slice(1, -1).split("L").map((point) => point.split(",").map(Number) as [number, number]);
  expect(points).toHaveLength(6);
  const sides = points.map(([x, y], i) => Math.hypot(x - points[(i + 1) % 6]![0], y - points[(i + 1) % 6]![1]));
  expect(sides.reduce((a, b) => a + b, 0)).toBeCloseTo(2 * Math.PI * 30, 0);
  expect(outline(profile, 0, 0).whole).toContain("A");
});

test("a square and a rectangle are drawn from above with their sides", () => {
  const square = outline([[0, 0], [10, 0], [20, 0]], 0, 1, 4);
  expect([square.width, square.height]).toEqual([40, 40]);
  expect(square.whole).toBe("M0,0L40,0L40,40L0,40Z");
  expect(square.hook?.half).toBe(10);
  const oblong = outline([[0, 0], [20, 0]], 30, 0, 4);
  expect([oblong.width, oblong.height]).toEqual([70, 40]);
  expect(oblong.whole).toBe("M0,0L70,0L70,40L0,40Z");
  const standing = outline([[0, 0], [20, 0], [20, 40]], 0, 0, 4);
  expect(standing.view).toBe("side");
  expect(standing.width).toBe(40);
});

test("a strip worked flat is drawn as one, however short it is", () => {
  const strip = outline([[27.5, 0], [27.5, 4]], 0, 0, 0, true);
  expect(strip.view).toBe("side");
  expect([strip.width, strip.height]).toEqual([55, 4]);
  expect(outline([[27.5, 0], [27.5, 4]], 0, 0).view).toBe("above");
});
