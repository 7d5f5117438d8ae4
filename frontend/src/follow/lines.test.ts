import type { Socket } from "socket.io-client";
import { expect, test } from "vitest";
import { Lines } from "./lines";

const HOME = "https://hookside-a1b2.local:8443";
const NUMBERS = "https://192.168.7.20:8443"; // demo

/** Sockets that only note where they were dialled; `fail` is what the library says when nobody answers. */
class Dialled {
  heard = new Map<string, ((...args: unknown[]) => void)[]>();
  connected = false;
  closed = false;
  constructor(
    readonly address: string,
    readonly protocols: readonly string[],
  ) {}
  on(event: string, heard: (...args: unknown[]) => void) {
    this.heard.set(event, [...(this.heard.get(event) ?? []), heard]);
  }
  say(event: string, ...args: unknown[]) {
    for (const heard of this.heard.get(event) ?? []) heard(...args);
  }
  fail(times: number) {
    for (let n = 0; n < times; n++) this.say("connect_error", new Error("nobody"));
  }
  removeAllListeners() {
    this.heard.clear();
  }
  disconnect() {
    this.closed = true;
    if (this.connected) this.say("disconnect", "io client disconnect");
    this.connected = false;
  }
  timeout() {
    return { emitWithAck: () => this.answer };
  }
  answer: Promise<unknown> = Promise.resolve("told");
  connect() {}
}

function house(others: string[] = []) {
  const dialled: Dialled[] = [];
  const lines = new Lines(HOME, { addresses: others, protocols: ["pass.demo"] }, (address, protocols) => {
    const socket = new Dialled(address, protocols);
    dialled.push(socket);
    return socket as unknown as Socket;
  });
  return { lines, dialled, last: () => dialled.at(-1) as Dialled };
}

test("where nobody answers at home, the other addresses are tried, and home again", () => {
  const { lines, dialled, last } = house([NUMBERS]);
  expect(lines.address).toBe(HOME);
  last().fail(3);
  expect(lines.address).toBe(NUMBERS);
  expect(dialled[0]?.closed).toBe(true);
  last().fail(3);
  expect(lines.address).toBe(HOME);
});

test("what was listened for is heard on the new line, and not on the old one", () => {
  const { lines, dialled, last } = house([NUMBERS]);
  const heard: unknown[] = [];
  lines.on("rows", ((what: unknown) => heard.push(what)) as never);
  last().fail(3);
  dialled[0]?.say("rows", "old");
  last().say("rows", "new");
  expect(heard).toEqual(["new"]);
});

test("the pass is shown elsewhere only: at home the cookie speaks", () => {
  const { dialled, last } = house([NUMBERS]);
  last().fail(3);
  expect(dialled.map((d) => d.protocols)).toEqual([[], ["pass.demo"]]);
});

test("an answer in between begins the count anew, and alone at home nothing changes", () => {
  const { lines, dialled, last } = house([NUMBERS]);
  last().fail(2);
  last().say("connect");
  last().fail(2);
  expect(lines.address).toBe(HOME);
  const alone = house();
  alone.last().fail(20);
  expect(alone.dialled).toHaveLength(1);
  expect(dialled).toHaveLength(1);
});

test("what is no address of the same kind is never dialled", () => {
  const { lines, last } = house(["http://192.168.7.20:8080", "javascript:alert(1)", "https://a@b", "https://x/y", ""]);
  last().fail(9);
  expect(lines.address).toBe(HOME);
});

test("addresses learnt later count, and where it is connected does not change", () => {
  const { lines, dialled, last } = house();
  lines.know({ addresses: [NUMBERS], protocols: [] });
  expect(dialled).toHaveLength(1);
  last().fail(3);
  expect(lines.address).toBe(NUMBERS);
  lines.know({ addresses: ["https://192.168.7.21:8443", NUMBERS], protocols: [] });
  expect(lines.address).toBe(NUMBERS);
});

test("a line that stands and does not answer is given up, said to be, and dialled anew", async () => {
  const { lines, dialled, last } = house();
  const over: unknown[] = [];
  lines.on("disconnect", ((why: unknown) => over.push(why)) as never);
  last().connected = true;
  expect(await lines.ask("moves", {})).toBe("told");
  expect(dialled).toHaveLength(1);
  last().answer = Promise.reject(new Error("operation has timed out"));
  await expect(lines.ask("moves", {})).rejects.toThrow("timed out");
  expect(dialled).toHaveLength(2);
  expect(dialled[0]?.closed).toBe(true);
  expect(over).toHaveLength(1);
});

test("where the line has ended already, an answer that did not come dials nothing: the library does", async () => {
  const { lines, dialled, last } = house();
  last().answer = Promise.reject(new Error("socket has been disconnected"));
  await expect(lines.ask("moves", {})).rejects.toThrow("disconnected");
  expect(dialled).toHaveLength(1);
});
