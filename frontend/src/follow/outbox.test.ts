import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { beforeEach, describe, expect, test, vi } from "vitest";
import { openBasket } from "./basket";
import { inMemory } from "./memory";
import { type Answer, type Entry, type Move, randomId, renewed, stretches, type Waiting } from "./moves";
import { openOutbox as opened, type Outbox } from "./outbox";
import { PretendJournal } from "./pretend";
import { keeping } from "./store";

/** Until it holds; a loaded machine may take its time. */
const soon = <T>(check: () => T | Promise<T>) => vi.waitFor(check, { timeout: 20_000 });

const move = (id: string): Move => ({
  id, device: "d", device_seq: 0, making: 1, run: "p1.c1", strand: "s", base: 5, intent: "next", unit: "round",
});
const openOutbox = async () => (await opened()).outbox;
const taken = (entries: readonly Entry[]): Answer[] => entries.map((e, i) => ({ ok: true, id: e.move.id, kind: "move", row: 100 + i }));
const DAY = 86_400_000;
const waiting = (id: string, epoch = "e"): Waiting => ({ epoch, move: move(id) });

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  keeping.value = "opening";
});

test("an id is 128 random bits in hex, and no two are alike", () => {
  const ids = Array.from({ length: 500 }, randomId);
  expect(new Set(ids).size).toBe(500);
  for (const id of ids) expect(id).toMatch(/^[0-9a-f]{32}$/);
});

describe.each([
  ["on disk", openOutbox],
  ["in memory", async () => inMemory()],
])("an outbox %s", (_where, open: () => Promise<Outbox>) => {
  test("gives back moves in the order they came, the oldest first", async () => {
    const box = await open();
    await Promise.all(["a", "b", "c"].map((id) => box.add(waiting(id))));
    expect((await box.all()).map((e) => e.move.id)).toEqual(["a", "b", "c"]);
    expect((await box.all(2)).map((e) => e.move.id)).toEqual(["a", "b"]);
    const seqs = (await box.all()).map((e) => e.seq);
    expect(seqs).toEqual([...seqs].sort((x, y) => x - y));
  });

  test("lets go of what was answered and nothing else, and remembers what the journal took", async () => {
    const box = await open();
    for (const id of ["a", "b", "c", "d"]) await box.add(waiting(id));
    const first = (await box.all()).slice(0, 3);
    const answers: Answer[] = [...taken(first.slice(0, 1)), { ok: true, kind: "refused", code: "stop", row: 101 }, ...taken(first.slice(2))];
    await box.answered(first, answers);
    expect((await box.all()).map((e) => e.move.id)).toEqual(["d"]);
    expect((await box.remembered(1, "e")).map((r) => r.move.id)).toEqual(["a", "c"]);
    expect(await box.remembered(2, "e")).toEqual([]);
    expect(await box.remembered(1, "other")).toEqual([]);
  });

  test("holds what the journal cannot take, until it can", async () => {
    const box = await open();
    for (const id of ["a", "b", "c"]) await box.add(waiting(id));
    const all = await box.all();
    await box.answered(all, [
      { ok: true, kind: "refused", code: "gone", row: 7 },
      { ok: false, code: "damaged", say: "One of its rows is not what was written." },
      { ok: false, code: "malformed", say: "This is no move." },
    ]);
    expect(await box.all()).toEqual([]);
    expect((await box.held()).map((h) => h.code)).toEqual(["gone", "damaged", "malformed"]);
    expect(await box.takeUp(2)).toBe(0);
    expect(await box.takeUp(1)).toBe(2);
    const [a, b] = await box.all();
    // The journal knows the old id as refused.
    expect(a?.move.id).toMatch(/^[0-9a-f]{32}$/);
    expect(b?.move.id).toBe("b");
    expect((await box.held()).map((h) => h.code)).toEqual(["malformed"]);
  });

  test("puts moves on another journal in place of those that waited, and of one making only", async () => {
    const box = await open();
    await box.add(waiting("a", "old"));
    await box.add({ epoch: "old", move: { ...move("x"), making: 2 } });
    await box.add({ epoch: "old", move: { ...move("late"), base: 9 } });
    await box.putBack(1, "new", [move("r"), move("a")]);
    expect((await box.all()).map((e) => [e.epoch, e.move.id])).toEqual([
      ["old", "x"],
      ["new", "r"],
      ["new", "a"],
      ["new", "late"],
    ]);
    expect((await box.all()).at(-1)?.move).toMatchObject({ base: 5, backlog: true });
  });

  test("moves that are laid by do not go out, and are remembered", async () => {
    const box = await open();
    for (const id of ["a", "b"]) await box.add(waiting(id));
    await box.layBy(1);
    expect(await box.all()).toEqual([]);
    expect((await box.remembered(1, "e")).map((r) => r.move.id)).toEqual(["a", "b"]);
  });

  test("moves of a making that is not there are held", async () => {
    const box = await open();
    await box.add(waiting("a"));
    await box.hold(1, "gone", "It is gone.");
    expect(await box.all()).toEqual([]);
    expect(await box.held()).toMatchObject([{ code: "gone", say: "It is gone.", move: { id: "a" } }]);
  });
});

test("a basket keeps the last snapshot of a making, strands and all, and what the server answered", async () => {
  const basket = openBasket((await opened()).store);
  const snapshot = new PretendJournal().snapshot();
  expect(await basket.snapshot(1)).toBeUndefined();
  await basket.keepSnapshot({ ...snapshot, head: 1 });
  await basket.keepSnapshot(snapshot);
  expect(await basket.snapshot(1)).toEqual(snapshot);
  expect((await basket.heads()).get(1)).toEqual({ epoch: "first", head: 10 });
  await basket.keepAnswer("/api/maker", { hand: "left" });
  expect(await basket.answer("/api/maker")).toEqual({ hand: "left" });
  for (let i = 0; i < 150; i++) await basket.keepAnswer(`/api/patterns/${i}`, i);
  const left = await Promise.all(Array.from({ length: 150 }, (_, i) => basket.answer(`/api/patterns/${i}`)));
  expect(left.filter((a) => a !== undefined).length).toBeLessThanOrEqual(100);
  expect(left.at(-1)).toBe(149);
  await basket.dropSnapshot(1);
  expect(await basket.snapshot(1)).toBeUndefined();
  await basket.keepSnapshot(snapshot);
  expect(await basket.snapshot(1)).toEqual(snapshot);
});

test("what was acknowledged is remembered for thirty days and then let go of", async () => {
  let now = 0;
  const { outbox } = await opened(() => now);
  const ids: string[] = [];
  for (let day = 0; day < 34; day++) {
    now = day * DAY;
    ids.push(`day ${day}`);
    await outbox.add(waiting(`day ${day}`));
    const all = await outbox.all();
    await outbox.answered(all, taken(all));
  }
  const left = (await outbox.remembered(1, "e")).map((r) => r.move.id);
  expect(left).toEqual(ids.slice(-left.length));
  expect(left).toHaveLength(30);
});

test("no number is let go of that was not answered", () => {
  const at = (...seqs: number[]) => seqs.map((seq) => ({ seq }) as Entry);
  expect(stretches(at(3, 4, 5, 9, 11, 12))).toEqual([
    [3, 5],
    [9, 9],
    [11, 12],
  ]);
});

test("moves that are sent anew undo what they undid", () => {
  const held = ["a", "b"].map((id) => ({ epoch: "e", move: move(id), code: "gone", say: "" }));
  const undo = { epoch: "e", move: { ...move("u"), intent: "undo", undoes: "b" }, code: "gone", say: "" };
  const [, b, u] = renewed([...held, undo]);
  expect(b?.move.id).not.toBe("b");
  expect(u?.move.undoes).toBe(b?.move.id);
});

test("a reload finds the same device and every waiting move", async () => {
  const before = await openOutbox();
  await before.add(waiting("a"));
  const after = await openOutbox();
  expect(after.device).toBe(before.device);
  expect(after.device).toMatch(/^[0-9a-f]{32}$/);
  expect((await after.all()).map((e) => e.move.id)).toEqual(["a"]);
});

/** The store as the page had it before, with a move that waits. */
async function olderStore(): Promise<IDBDatabase> {
  const old = indexedDB.open("hookside", 1);
  old.onupgradeneeded = () => {
    const db = old.result;
    db.createObjectStore("moves", { autoIncrement: true }).add(waiting("a"));
    db.createObjectStore("about").put("0123456789abcdef0123456789abcdef", "device");
    db.createObjectStore("snapshots");
    db.createObjectStore("strands");
  };
  await new Promise((done) => {
    old.onsuccess = done;
  });
  return old.result;
}

test("a store from before is taken over as it is", async () => {
  (await olderStore()).close();
  const box = await openOutbox();
  expect(box.device).toBe("0123456789abcdef0123456789abcdef");
  expect((await box.all()).map((e) => e.move.id)).toEqual(["a"]);
});

test("an older page in another tab holds the store: that is said, and this one goes on once it is closed", async () => {
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
  const old = await olderStore();
  const opening = openOutbox();
  await soon(async () => {
    vi.advanceTimersByTime(2000);
    expect(keeping.value).toBe("held up");
  });
  vi.useRealTimers();
  old.close();
  await opening;
  await soon(() => expect(keeping.value).toBe("kept"));
});

test("a newer page in another tab gets the store; this one says so and keeps what comes in memory", async () => {
  const box = await openOutbox();
  await box.add(waiting("a"));
  const newer = indexedDB.open("hookside", 99);
  await new Promise((done) => {
    newer.onsuccess = done;
  });
  expect(keeping.value).toBe("left");
  await box.add(waiting("b"));
  expect(keeping.value).toBe("left");
  expect(box.kept).toBe(false);
  expect((await box.all()).map((e) => e.move.id)).toEqual(["b"]);
  newer.result.close();
});

test("a browser without storage still works, and that is said at once", async () => {
  vi.spyOn(globalThis.indexedDB, "open").mockImplementation(() => {
    throw new DOMException("denied", "SecurityError");
  });
  const box = await openOutbox();
  expect(keeping.value).toBe("refused");
  expect(box.kept).toBe(false);
  await box.add(waiting("a"));
  expect(await box.all()).toHaveLength(1);
});

const full = () => {
  throw new DOMException("full", "QuotaExceededError");
};

test("a full disk is said before anything was to be kept on it", async () => {
  const put = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation((value: unknown) => {
    if (value instanceof Uint8Array) full();
    return put.getMockImplementation() as never;
  });
  await openOutbox();
  await soon(() => expect(keeping.value).toBe("full"));
  put.mockRestore();
});

test("what is remembered makes room for what waits", async () => {
  const box = await openOutbox();
  await box.add(waiting("a"));
  const all = await box.all();
  await box.answered(all, taken(all));
  const add = vi.spyOn(IDBObjectStore.prototype, "add").mockImplementationOnce(full);
  await box.add(waiting("b"));
  add.mockRestore();
  expect(box.kept).toBe(true);
  expect((await box.all()).map((e) => e.move.id)).toEqual(["b"]);
  expect(await box.remembered(1, "e")).toEqual([]);
});

test("when the disk fills up, later moves go to memory, stay behind the earlier ones, and it is said", async () => {
  const box = await openOutbox();
  await box.add(waiting("a"));
  const add = vi.spyOn(IDBObjectStore.prototype, "add").mockImplementation(full);
  await box.add(waiting("b"));
  add.mockRestore();
  await box.add(waiting("c"));
  expect(keeping.value).toBe("full");
  expect(box.kept).toBe(false);
  const all = await box.all();
  expect(all.map((e) => e.move.id)).toEqual(["a", "b", "c"]);
  expect(new Set(all.map((e) => e.seq)).size).toBe(3);
  await box.answered(all.slice(0, 2), taken(all.slice(0, 2)));
  expect((await box.all()).map((e) => e.move.id)).toEqual(["c"]);
});

test("the browser is asked to keep what waits: once, with the first move, and not before there is one", async () => {
  let granted = false;
  const persist = vi.fn(async () => (granted = true));
  vi.stubGlobal("navigator", { storage: { persist, persisted: async () => granted, estimate: async () => ({}) } });
  const box = await openOutbox();
  await soon(() => expect(keeping.value).toBe("kept"));
  expect(persist).not.toHaveBeenCalled();
  await box.add(waiting("a"));
  await box.add(waiting("b"));
  expect(persist).toHaveBeenCalledTimes(1);
  await soon(() => expect(keeping.value).toBe("lasting"));
  vi.unstubAllGlobals();
});
