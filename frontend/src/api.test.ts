import { afterEach, expect, test, vi } from "vitest";
import { api, AWAY, Refused } from "./api";
import { shownOut } from "./follow/outside";

const answers = (status: number, body: string) =>
  vi.stubGlobal("fetch", vi.fn(async () => new Response(body, { status })));
const refusal = (work: Promise<unknown>) => work.then(() => null, (why: unknown) => why as Refused);

afterEach(() => vi.unstubAllGlobals());

test("sends JSON and gives back JSON", async () => {
  answers(200, '{"id": 7}');
  expect(await api.addPattern("Rnd 1", null)).toEqual({ id: 7 });
  const [address, request] = vi.mocked(fetch).mock.calls[0] ?? [];
  expect(address).toBe("/api/patterns");
  expect(request).toMatchObject({ method: "POST", body: '{"text":"Rnd 1","terms":null}' });
});

test("an id is only ever one part of an address", async () => {
  answers(200, "{}");
  await api.pattern("../makings/1");
  expect(vi.mocked(fetch).mock.calls[0]?.[0]).toBe("/api/patterns/..%2Fmakings%2F1");
});

test("a refusal is the server's own sentence", async () => {
  answers(409, '{"say": "Round 11 can\'t be followed.", "code": "cannot-follow"}');
  const why = await refusal(api.begin(1, { kind: "one" }, {}, false));
  expect(why).toBeInstanceOf(Refused);
  expect(why).toMatchObject({ say: "Round 11 can't be followed.", code: "cannot-follow" });
});

test("a device that is none of this house any more learns it from whatever it asks first", async () => {
  shownOut.value = false;
  answers(401, '{"say": "Pair this device first.", "code": "unpaired"}');
  expect(await refusal(api.shelf())).toMatchObject({ code: "unpaired" });
  expect(shownOut.value).toBe(true);
  shownOut.value = false;
});

test("nobody there, and nonsense from there, are sentences too", async () => {
  vi.stubGlobal("fetch", vi.fn(async () => Promise.reject(new TypeError("failed"))));
  expect(await refusal(api.shelf())).toMatchObject({ code: AWAY });
  answers(200, "<html>");
  expect(await refusal(api.shelf())).toMatchObject({ code: "unreadable" });
  answers(500, "");
  expect((await refusal(api.shelf()))?.say).toContain("500");
});
