import { expect, test } from "vitest";
import { cm, fingers, length, metres, opening, toScale } from "./words";

test("lengths are said in centimetres with their spread", () => {
  expect(length({ value: 100.2, low: 86, high: 114 })).toBe("about 10 cm, between 8.6 and 11.4");
  expect(cm(412)).toBe("41");
  expect(metres({ value: 34.2, low: 23, high: 50.4 })).toBe("about 34 m, between 23 and 50");
  expect(metres({ value: 0.456, low: 0.4, high: 1.25 })).toBe("about 0.46 m, between 0.40 and 1.3");
});

test("an opening is said in fingers", () => {
  // 18 stitches of 5 mm are 28.6 mm, 12 are 19.1, 6 are 9.5 (n w / pi).
  expect([9.5, 19.1, 28.6, 47.7, 57.3, 95].map(fingers)).toEqual([
    "too small for a finger", "room for one finger", "room for one finger", "room for two fingers",
    "room for three fingers", "room for a hand",
  ]);
  expect(opening(47.7)).toBe("open 4.8 cm across, room for two fingers");
});

test("pieces are drawn in one scale, and what is too small for it is said to be larger", () => {
  const tube = (radius: number, high: number) => ({ profile_mm: [[radius, 0], [radius, high]] as const, straight_mm: 0, lies_flat: false });
  // 100 mm high, 36 mm high, 8 mm high; a disc of 80 mm lies as seen from above.
  expect(toScale([tube(30, 100), tube(8, 36), tube(3, 8), tube(40, 5)])).toEqual([
    { share: 1, larger: false }, { share: 0.36, larger: false }, { share: 0.16, larger: true }, { share: 0.8, larger: false },
  ]);
  expect(toScale([{ profile_mm: [], straight_mm: 0, lies_flat: false }])[0]?.larger).toBe(false);
});
