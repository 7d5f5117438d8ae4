import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { beforeEach, describe, expect, test, vi } from "vitest";
import { inMemory, type Move, openOutbox, type Outbox, randomId, storageRefused, type Waiting } from "./outbox";
import { PretendJournal } from "./pretend";

const move = (id: string): Move => ({
  id, device: "d", device_seq: 0, making: 1, run: "p1.c1", strand: "s", base: 5, intent: "next", unit: "round",
});
const waiting = (id: string, epoch = "e"): Waiting => ({ epoch, move: move(id) });

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  storageRefused.value = false;
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

  test("forgets what it is told to and nothing else", async () => {
    const box = await open();
    for (const id of ["a", "b", "c"]) await box.add(waiting(id));
    await box.forget(await box.all(1));
    expect((await box.all()).map((e) => e.move.id)).toEqual(["b", "c"]);
  });

  test("readdressed moves are marked as a backlog, the others are left alone", async () => {
    const box = await open();
    await box.add(waiting("a", "old"));
    await box.add(waiting("b", "new"));
    await box.readdress("new");
    const [a, b] = await box.all();
    expect(a).toMatchObject({ epoch: "new", move: { backlog: true } });
    expect(b?.move.backlog).toBeUndefined();
  });

  test("keeps the last snapshot of a making, strands and all", async () => {
    const box = await open();
    const snapshot = new PretendJournal().snapshot();
    expect(await box.snapshot(1)).toBeUndefined();
    await box.keepSnapshot({ ...snapshot, head: 1 });
    await box.keepSnapshot(snapshot);
    expect(await box.snapshot(1)).toEqual(snapshot);
    await box.dropSnapshot(1);
    expect(await box.snapshot(1)).toBeUndefined();
  });
});

test("a reload finds the same device and every waiting move", async () => {
  const before = await openOutbox();
  await before.add(waiting("a"));
  const after = await openOutbox();
  expect(after.device).toBe(before.device);
  expect(after.device).toMatch(/^[0-9a-f]{32}$/);
  expect((await after.all()).map((e) => e.move.id)).toEqual(["a"]);
});

test("a browser without storage still works, and that is said at once", async () => {
  vi.spyOn(globalThis.indexedDB, "open").mockImplementation(() => {
    throw new DOMException("denied", "SecurityError");
  });
  const box = await openOutbox();
  expect(storageRefused.value).toBe(true);
  expect(box.kept).toBe(false);
  await box.add(waiting("a"));
  expect(await box.all()).toHaveLength(1);
});

test("when the disk fills up, later moves go to memory, stay behind the earlier ones, and it is said", async () => {
  const box = await openOutbox();
  await box.add(waiting("a"));
  const add = vi.spyOn(IDBObjectStore.prototype, "add").mockImplementation(() => {
    throw new DOMException("full", "QuotaExceededError");
  });
  await box.add(waiting("b"));
  add.mockRestore();
  await box.add(waiting("c"));
  expect(storageRefused.value).toBe(true);
  expect(box.kept).toBe(false);
  const all = await box.all();
  expect(all.map((e) => e.move.id)).toEqual(["a", "b", "c"]);
  expect(new Set(all.map((e) => e.seq)).size).toBe(3);
  await box.forget(all.slice(0, 2));
  expect((await box.all()).map((e) => e.move.id)).toEqual(["c"]);
});
