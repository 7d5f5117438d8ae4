import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";

// Contrast as WCAG 2.2 defines it (relative luminance of sRGB); 7:1 is success criterion 1.4.6, 3:1 is 1.4.11.
// The black and white, and the grey #767676 known as the lightest to reach 4.5:1 on white, check the formula itself.
function luminance(hex: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((i) => {
    const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

const css = readFileSync(new URL("./tokens.css", import.meta.url), "utf8");
const block = (selector: string) => {
  const at = css.indexOf(`${selector} {`);
  return Object.fromEntries(
    [...css.slice(at, css.indexOf("}", at)).matchAll(/--([a-z-]+):\s*(#[0-9a-f]{6})/g)].map((m) => [m[1], m[2] ?? ""]),
  ) as Record<string, string>;
};

test("the formula agrees with known values", () => {
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 5);
  expect(contrast("#767676", "#ffffff")).toBeGreaterThanOrEqual(4.5);
  expect(contrast("#777777", "#ffffff")).toBeLessThan(4.5);
});

describe.each([
  ["daylight", ":root"],
  ["lamplight", ':root[data-light="lamplight"]'],
])("%s", (_light, selector) => {
  const dye = block(selector);
  const colour = (name: string) => dye[name] ?? "";
  const papers = ["paper", "paper-deep", "paper-lift"];

  test.each(["ink", "ink-soft", "hand", "comes", "waits"])("%s is text on every paper", (name) => {
    for (const paper of papers) expect(contrast(colour(name), colour(paper))).toBeGreaterThanOrEqual(7);
  });
  test.each(["hand", "comes", "waits"])("%s is text on its own wash, and so is ink", (name) => {
    expect(contrast(colour(name), colour(`${name}-wash`))).toBeGreaterThanOrEqual(7);
    expect(contrast(colour("ink"), colour(`${name}-wash`))).toBeGreaterThanOrEqual(7);
  });
  test.each(["hand-mark", "comes-mark", "waits-mark", "thread"])("%s is a mark on every paper", (name) => {
    for (const paper of papers) expect(contrast(colour(name), colour(paper))).toBeGreaterThanOrEqual(3);
  });
  test("the tape's own words can be read", () => {
    expect(contrast(colour("hand"), colour(_light === "daylight" ? "paper-lift" : "paper"))).toBeGreaterThanOrEqual(7);
  });
});
