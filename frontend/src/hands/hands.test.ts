import { describe, expect, test } from "vitest";
import { bounceGuard } from "./bounce";
import { gestureOf } from "./gestures";
import { quietSound } from "./headset";
import { askOf, KEYS, keyShown, keysOf, meaning, type Pressed, teachable } from "./keys";
import { askToOpen, lock, lockTouch, openTouch, touchedElsewhere } from "./lock";

const press = (key: string, more: Partial<Pressed> = {}): Pressed => ({
  key,
  repeat: false,
  ctrlKey: false,
  altKey: false,
  metaKey: false,
  isComposing: false,
  ...more,
});

describe("keys", () => {
  test("no key asks for two things", () => {
    const all = KEYS.flatMap((row) => row.keys);
    expect(new Set(all).size).toBe(all.length);
  });

  test("pedals and page-turners: the keys that such devices are known to send", () => {
    for (const key of ["PageDown", "ArrowRight", "ArrowDown", " ", "Enter"]) expect(askOf(press(key), true)).toBe("next");
    for (const key of ["PageUp", "ArrowLeft", "ArrowUp", "Backspace"]) expect(askOf(press(key), true)).toBe("back");
  });

  test("a held key, a chord and a text in the making ask nothing", () => {
    expect(askOf(press("PageDown", { repeat: true }), true)).toBeNull();
    expect(askOf(press("r", { ctrlKey: true }), true)).toBeNull();
    expect(askOf(press("Enter", { isComposing: true }), true)).toBeNull();
  });

  test("the key that is printed beside a button is one that asks for it, and that every keyboard has", () => {
    const shown = (letters: boolean) => (["next", "back", "round", "stitch"] as const).map((ask) => keyShown(ask, letters, {}));
    expect(shown(true)).toEqual(["Space", "Left", "R", "S"]);
    expect(shown(false)).toEqual(["Space", "Left", "", ""]);
    expect(keyShown("stitch", false, { z: "stitch" })).toBe("Z");
    expect(keyShown("back", true, { ArrowLeft: "undo" })).toBe("Page Up");
  });

  test("single letters can be turned off, named keys stay (WCAG 2.2, 2.1.4)", () => {
    expect(askOf(press("R"), true)).toBe("round");
    expect(askOf(press("r"), false)).toBeNull();
    expect(askOf(press("?"), false)).toBeNull();
    expect(askOf(press(" "), false)).toBe("next");
  });
});

describe("taught keys", () => {
  const taught = { F5: "done", PageUp: "stitch", b: "undo", w: null } as const;

  test("a key that was taught asks for that and for nothing else", () => {
    expect(askOf(press("F5"), true, taught)).toBe("done");
    expect(askOf(press("PageUp"), true, taught)).toBe("stitch");
    expect(keysOf("back", taught)).not.toContain("PageUp");
    expect(keysOf("done", taught)).toEqual(["d", "F5"]);
    expect(meaning("w", taught)).toBeNull();
    expect(meaning("PageUp", {})).toBe("back");
  });

  test("a taught letter works where the other letters are turned off", () => {
    expect(askOf(press("B"), false, taught)).toBe("undo");
    expect(askOf(press("s"), false, taught)).toBeNull();
  });

  test("keys that walk the page or put a sheet away cannot be taught", () => {
    expect(teachable("Escape")).toBe(false);
    expect(teachable("Tab")).toBe(false);
    expect(teachable("AudioVolumeUp")).toBe(true);
  });
});

describe("gestures", () => {
  test("a shaking finger still taps", () => {
    expect(gestureOf({ dx: 12, dy: -14, time: 300 })).toBe("tap");
    expect(gestureOf({ dx: 0, dy: 0, time: 4000 })).toBe("tap");
  });

  test("strokes have four directions", () => {
    expect(gestureOf({ dx: -80, dy: 20, time: 150 })).toBe("left");
    expect(gestureOf({ dx: 90, dy: -30, time: 150 })).toBe("right");
    expect(gestureOf({ dx: 10, dy: -70, time: 150 })).toBe("up");
    expect(gestureOf({ dx: 0, dy: 60, time: 150 })).toBe("down");
  });

  test("slanted or half-hearted strokes mean nothing", () => {
    expect(gestureOf({ dx: 60, dy: 55, time: 150 })).toBeNull();
    expect(gestureOf({ dx: 35, dy: 0, time: 150 })).toBeNull();
  });
});

describe("bounce", () => {
  test("the same contact twice within the gap is one", () => {
    const clean = bounceGuard(60);
    expect(clean("tap", 1000)).toBe(true);
    expect(clean("tap", 1030)).toBe(false);
    expect(clean("tap", 1055)).toBe(false);
  });

  test("fast fingers lose nothing: eleven taps a second", () => {
    const clean = bounceGuard(60);
    const kept = Array.from({ length: 11 }, (_, i) => clean("tap", 1000 + i * 90)).filter(Boolean);
    expect(kept).toHaveLength(11);
  });

  test("what bounced does not hold off what comes after it", () => {
    const clean = bounceGuard(60);
    const kept = Array.from({ length: 30 }, (_, i) => clean("tap", 1000 + i * 27)).filter(Boolean);
    expect(kept).toHaveLength(10); // every third of them is 81 ms after the last that counted
  });

  test("a different contact is no bounce", () => {
    const clean = bounceGuard(60);
    expect(clean("PageDown", 1000)).toBe(true);
    expect(clean("PageUp", 1010)).toBe(true);
  });
});

test("the touch lock opens by two touches in two places", () => {
  lockTouch();
  openTouch();
  expect(lock.value).toBe("locked");
  askToOpen();
  touchedElsewhere();
  expect(lock.value).toBe("locked");
  askToOpen();
  openTouch();
  expect(lock.value).toBe("open");
});

test("the sound that goes round for a headset is a WAV file (RIFF: sizes and rates as its header has them)", async () => {
  const bytes = new DataView(await quietSound().arrayBuffer());
  const text = (at: number) => String.fromCharCode(...[0, 1, 2, 3].map((i) => bytes.getUint8(at + i)));
  expect([text(0), text(8), text(12), text(36)]).toEqual(["RIFF", "WAVE", "fmt ", "data"]);
  expect(bytes.getUint32(4, true)).toBe(bytes.byteLength - 8);
  expect(bytes.getUint32(40, true)).toBe(bytes.byteLength - 44);
  expect([bytes.getUint16(20, true), bytes.getUint16(22, true), bytes.getUint32(24, true), bytes.getUint16(34, true)]).toEqual([1, 1, 8000, 8]);
  expect(bytes.getUint32(28, true)).toBe(8000);
});
