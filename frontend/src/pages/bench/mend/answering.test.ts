import { describe, expect, test } from "vitest";
import { keyMeans, type Understood, wordMeans } from "./answering";

let did: string[] = [];

/** A sheet that takes what it is told to take, and notes it. */
function sheet(...takes: string[]): Understood {
  const one = (name: string) => {
    did.push(name);
    return takes.includes(name);
  };
  did = [];
  return { yes: () => one("yes"), no: () => one("no"), back: () => one("back"), number: (n) => one(`number ${n}`) };
}

describe("a sheet that asks", () => {
  test("takes yes, no, numbers and back as words", () => {
    const asks = sheet("yes", "no", "back", "number 35");
    expect(wordMeans({ intent: "yes", number: null }, asks)).toBe(true);
    expect(wordMeans({ intent: "done", number: null }, asks)).toBe(true);
    expect(wordMeans({ intent: "no", number: null }, asks)).toBe(true);
    expect(wordMeans({ intent: "count", number: 35 }, asks)).toBe(true);
    expect(wordMeans({ intent: "back", number: null }, asks)).toBe(true);
    expect(did).toEqual(["yes", "yes", "no", "number 35", "back"]);
  });

  test("leaves to the bench what it does not understand", () => {
    const asks = sheet();
    expect(wordMeans({ intent: "count", number: null }, asks)).toBe(false);
    expect(wordMeans({ intent: "where", number: null }, asks)).toBe(false);
    expect(did).toEqual([]);
  });

  test("next and done on a pedal say yes; back says no, or goes one question back", () => {
    expect(keyMeans("next", sheet("yes"))).toBe(true);
    expect(keyMeans("back", sheet("no", "back"))).toBe(true);
    expect(did).toEqual(["no"]);
    expect(keyMeans("back", sheet("back"))).toBe(true);
    expect(did).toEqual(["no", "back"]);
    expect(keyMeans("rip", sheet("yes", "no", "back"))).toBe(false);
    expect(did).toEqual([]);
  });
});
