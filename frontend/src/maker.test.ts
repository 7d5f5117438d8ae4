import { afterEach, expect, test, vi } from "vitest";
import { api, Refused } from "./api";
import { changeMaker, choices, maker, plainNext, told } from "./maker";

afterEach(() => vi.restoreAllMocks());

test("keys and words go on as a touch does, unless the maker likes it otherwise", () => {
  const ways = { ...maker.value, plain: "group" as const };
  expect(plainNext(ways)).toEqual({ touch: "group", key: "group", voice: "group" });
  const other = { ...ways, plain_keys: "stitch" as const, plain_voice: "plain" as const };
  expect(plainNext(other)).toEqual({ touch: "group", key: "stitch", voice: "plain" });
});

test("an answer that was on its way while something was chosen does not take the choice back", async () => {
  const old = { ...maker.value, light: "auto" as const };
  let written = () => {};
  vi.spyOn(api, "setMaker").mockReturnValue(new Promise((done) => (written = () => done(old))));
  const before = choices();
  const change = changeMaker({ light: "lamplight" });
  told(old, before);
  expect(maker.value.light).toBe("lamplight");
  const between = choices();
  written();
  await change;
  told(old, between);
  expect(maker.value.light).toBe("lamplight");
  told(old, choices());
  expect(maker.value.light).toBe("auto");
});

test("a choice that is refused goes back alone", async () => {
  let refuse = () => {};
  vi.spyOn(api, "setMaker")
    .mockReturnValueOnce(new Promise((_, no) => (refuse = () => no(new Refused("No room.", "full")))))
    .mockResolvedValueOnce(maker.value);
  const first = changeMaker({ hand: "left" });
  await changeMaker({ words: "full" });
  refuse();
  await expect(first).rejects.toMatchObject({ code: "full" });
  expect(maker.value).toMatchObject({ hand: "right", words: "full" });
});
