import { expect, test } from "vitest";
import { maker, plainNext } from "./maker";

test("keys and words go on as a touch does, unless the maker likes it otherwise", () => {
  const ways = { ...maker.value, plain: "group" as const };
  expect(plainNext(ways)).toEqual({ touch: "group", key: "group", voice: "group" });
  const other = { ...ways, plain_keys: "stitch" as const, plain_voice: "plain" as const };
  expect(plainNext(other)).toEqual({ touch: "group", key: "stitch", voice: "plain" });
});
