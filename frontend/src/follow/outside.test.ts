import { beforeEach, expect, test, vi } from "vitest";
import { atTheDoor, shownOut, watchDoor } from "./outside";

function wire() {
  const heard = new Map<string, ((data?: unknown) => void)[]>();
  return {
    on: (event: string, what: (...args: never[]) => void) => heard.set(event, [...(heard.get(event) ?? []), what as () => void]),
    says: (event: string, data?: unknown) => heard.get(event)?.forEach((what) => what(data)),
  };
}

beforeEach(() => {
  shownOut.value = false;
  atTheDoor.value = [];
});

test("a device that is refused was shown out, until there is a line again", async () => {
  const line = wire();
  let clock = 0;
  const ask = vi.fn(async () => true);
  watchDoor(line, ask, () => clock);
  line.says("connect_error");
  line.says("connect_error");
  await vi.waitFor(() => expect(shownOut.value).toBe(true));
  expect(ask).toHaveBeenCalledTimes(1);
  clock = 5000;
  line.says("connect_error");
  expect(ask).toHaveBeenCalledTimes(2);
  line.says("connect");
  expect(shownOut.value).toBe(false);
});

test("a server that is away shows nobody out", async () => {
  const line = wire();
  const ask = vi.fn(async () => Promise.reject(new TypeError("no network")));
  watchDoor(line, ask);
  line.says("connect_error");
  await vi.waitFor(() => expect(ask).toHaveBeenCalled());
  expect(shownOut.value).toBe(false);
});

test("who asks to come in is told while the line is there", () => {
  const line = wire();
  watchDoor(line, async () => false);
  line.says("knocks", { names: ["Seal's phone"] });
  expect(atTheDoor.value).toEqual(["Seal's phone"]);
  line.says("knocks", { names: [] });
  expect(atTheDoor.value).toEqual([]);
  line.says("knocks", { names: ["gull"] });
  line.says("disconnect");
  expect(atTheDoor.value).toEqual([]);
});
