import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { beforeEach, describe, expect, test, vi } from "vitest";
import type { Device } from "./device";
import { cut, Link } from "./link";
import { type Making, openMaking } from "./making";
import type { Entry } from "./moves";
import { openOutbox } from "./outbox";
import { openBasket } from "./basket";
import { keeping } from "./store";
import { Tabs } from "./tabs";
import { PretendJournal, PretendWire } from "./pretend";

/** Until it holds; a loaded machine may take its time. */
const soon = <T>(check: () => T | Promise<T>) => vi.waitFor(check, { timeout: 20_000 });

const tick = () => new Promise<void>((done) => setTimeout(done, 0));
/** Retries do not wait in tests; they only let everything else go first. */
const pause = () => tick();

interface House {
  journal: PretendJournal;
  wire: PretendWire;
  device: Device;
  making: Making;
}

/** Tabs of one test are of one device, and of no other. */
let device = "";
let devices = 0;

async function deviceOn(wire: PretendWire): Promise<Device> {
  const { outbox, store } = await openOutbox();
  return { outbox, store, wire, basket: openBasket(store), link: new Link(outbox, wire, "phone", pause, (heard) => new Tabs(heard, device)) };
}

async function house(journal = new PretendJournal(), connected = true): Promise<House> {
  const wire = new PretendWire(journal);
  const device = await deviceOn(wire);
  const making = openMaking(1, Promise.resolve(device));
  if (connected) {
    wire.mend();
    await soon(() => expect(making.link.value).toBe("live"));
  }
  return { journal, wire, device, making };
}

const at = (making: Making, run = "p1.c1") => making.visible.value?.runs[run]?.at;
const settled = (h: House) =>
  soon(async () => {
    expect(h.making.pending.value).toBe(0);
    expect(await h.device.outbox.all()).toEqual([]);
  });

beforeEach(() => {
  globalThis.indexedDB = new IDBFactory();
  keeping.value = "opening";
  device = `device ${++devices}`;
});

describe("a move", () => {
  test("changes what is seen in the same breath, before anything is stored or sent", async () => {
    const h = await house();
    const before = h.wire.asked.length;
    const done = h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    expect(done).toMatchObject({ run: "p1.c1", from: 0, to: 1 });
    expect(at(h.making)).toBe(1);
    expect(h.making.visible.value?.in_hand).toBe("p1.c1");
    expect(h.making.pending.value).toBe(1);
    expect(h.wire.asked.length).toBe(before);
    await settled(h);
    expect(h.journal.state.runs["p1.c1"]?.at).toBe(1);
    expect(at(h.making)).toBe(1);
  });

  test("goes to the run in hand where none is named, and a refusal leaves no trace", async () => {
    const h = await house();
    expect(h.making.move({ intent: "next", unit: "stitch" })).toEqual({ code: "no-run" });
    h.making.move({ intent: "take" }, "p1.c2");
    h.making.move({ intent: "next", unit: "stitch" });
    expect(at(h.making, "p1.c2")).toBe(1);
    expect(h.making.move({ intent: "goto", to: 99999 })).toEqual({ code: "range" });
    await settled(h);
    expect(h.journal.applied).toHaveLength(2);
  });

  test("can be undone before the journal has heard of it", async () => {
    const h = await house();
    h.wire.cut();
    h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    h.making.move({ intent: "next", unit: "stitch" });
    const row = h.making.visible.value?.runs["p1.c1"]?.history.at(-1)?.row ?? 0;
    expect(row).toBeLessThan(0);
    h.making.move({ intent: "undo", undoes: row });
    expect(at(h.making)).toBe(1);
    h.wire.mend();
    await settled(h);
    expect(h.journal.state.runs["p1.c1"]?.at).toBe(1);
    expect(h.journal.applied).toHaveLength(3);
  });

  test("can be undone after a reload that came before the journal had heard of it", async () => {
    const h = await house();
    h.wire.cut();
    h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    await soon(async () => expect(await h.device.outbox.all()).toHaveLength(1));
    h.making.close();
    const again = await house(h.journal, false);
    await soon(() => expect(at(again.making)).toBe(1));
    const row = again.making.visible.value?.runs["p1.c1"]?.history.at(-1)?.row ?? 0;
    again.making.move({ intent: "undo", undoes: row });
    expect(at(again.making)).toBe(0);
    again.wire.mend();
    await settled(again);
    expect(h.journal.state.runs["p1.c1"]?.at).toBe(0);
  });
});

describe("the link", () => {
  test("sends nothing again that was acknowledged, and everything that was not", async () => {
    const h = await house();
    let n = 0;
    h.wire.fate = (event) => (event === "moves" ? (["lost", "answer lost", "through"] as const)[n++ % 3] : undefined) ?? "through";
    for (let i = 0; i < 12; i++) {
      h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
      if (i % 3 === 0) await tick();
    }
    const seen = at(h.making);
    await settled(h);
    expect(h.journal.state.runs["p1.c1"]?.at).toBe(seen);
    expect(at(h.making)).toBe(seen);
    expect(h.journal.received).toBeGreaterThan(h.journal.applied.length);
    expect(new Set(h.journal.applied).size).toBe(h.journal.applied.length);
  });

  test("keeps the order over cuts at any moment", async () => {
    const h = await house();
    const units = ["stitch", "group", "repeat"] as const;
    for (let i = 0; i < 60; i++) {
      if (i % 7 === 3) h.wire.cut();
      if (i % 7 === 6) h.wire.mend();
      const state = h.making.visible.value?.runs["p1.c1"];
      const cue = h.journal.strands[state?.strand ?? ""]?.cues.find((c) => c.step === state?.at && c.weight === "stop");
      if (cue) h.making.move({ intent: "done", cue: cue.address }, "p1.c1");
      else if (i % 5 === 4) h.making.move({ intent: "back", unit: "stitch" }, "p1.c1");
      else h.making.move({ intent: "next", unit: units[i % 3] ?? "stitch" }, "p1.c1");
      if (i % 4 === 0) await tick();
    }
    const seen = at(h.making);
    h.wire.mend();
    await settled(h);
    expect(h.journal.state.runs["p1.c1"]?.at).toBe(seen);
    expect(at(h.making)).toBe(seen);
    expect(h.making.snapshot.value?.head).toBe(h.journal.head);
  });

  test("sends what an earlier visit left behind, whichever page is open", async () => {
    const h = await house();
    h.wire.cut();
    h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    await soon(async () => expect(await h.device.outbox.all()).toHaveLength(1));
    const wire = new PretendWire(h.journal);
    const { outbox } = await deviceOn(wire);
    wire.mend();
    await soon(async () => expect(await outbox.all()).toEqual([]));
    expect(h.journal.state.runs["p1.c1"]?.at).toBe(1);
  });

  test("a move the journal can't understand is kept apart, and does not hold up the rest", async () => {
    const h = await house();
    await h.device.outbox.add({
      epoch: "first",
      move: { id: "x", device: "d", device_seq: 0, making: 1, run: "malformed", strand: "", base: 0, intent: "next" },
    });
    h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    await settled(h);
    expect(await h.device.outbox.held()).toMatchObject([{ move: { id: "x" }, say: "This move cannot be understood." }]);
    expect(h.device.link.heldSince.value).toBe(1);
    expect(h.journal.state.runs["p1.c1"]?.at).toBe(1);
  });

  test("a making that is not there any more is gone", async () => {
    const journal = new PretendJournal();
    const wire = new PretendWire(journal);
    const making = openMaking(99, deviceOn(wire));
    wire.mend();
    await soon(() => expect(making.link.value).toBe("gone"));
  });
});

describe("a copy was put back", () => {
  /** Two moves the copy has, two acknowledged ones it has not, two that wait. */
  async function restored(): Promise<House> {
    const h = await house();
    for (let i = 0; i < 2; i++) h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    await settled(h);
    const copied = h.journal.head;
    for (let i = 0; i < 2; i++) h.making.move({ intent: "next", unit: "stitch" });
    await settled(h);
    h.wire.cut();
    for (let i = 0; i < 2; i++) h.making.move({ intent: "next", unit: "stitch" });
    await soon(async () => expect(await h.device.outbox.all()).toHaveLength(2));
    h.journal.restore(copied);
    h.journal.received = 0;
    h.wire.mend();
    await soon(() => expect(h.making.link.value).toBe("restored"));
    return h;
  }

  test("it gets nothing before the maker is asked, and both places are there to be shown", async () => {
    const h = await restored();
    const question = h.making.question.value;
    expect(question?.moves).toHaveLength(4);
    expect(question?.snapshot.state.runs["p1.c1"]?.at).toBe(2);
    expect(at(h.making)).toBe(6);
    await tick();
    expect(h.journal.received).toBe(0);
    expect(await h.device.outbox.all()).toHaveLength(2);
    expect(h.making.move({ intent: "next", unit: "stitch" })).toEqual({ code: "stop" });
  });

  test("moves of other makings go out meanwhile, those of the one in question do not", async () => {
    const h = await restored();
    const other = { id: "other-1", device: "d", device_seq: 0, making: 2, run: "malformed", strand: "", base: 0, intent: "next" };
    await h.device.outbox.add({ epoch: "second", move: other });
    await h.device.link.send();
    expect(h.journal.received).toBe(1);
    expect((await h.device.outbox.all()).every((e) => e.move.making === 1)).toBe(true);
  });

  test("put back, all of them are there, in their order and once", async () => {
    const h = await restored();
    h.making.resolve("put back");
    await soon(() => expect(h.making.link.value).toBe("live"));
    await settled(h);
    expect(h.journal.state.runs["p1.c1"]?.at).toBe(6);
    expect(at(h.making)).toBe(6);
    expect(new Set(h.journal.applied).size).toBe(6);
    expect(h.making.snapshot.value?.epoch).toBe("second");
    expect(h.making.question.value).toBe(null);
  });

  test("left as it is, nothing is sent, and what this device had stays on it", async () => {
    const h = await restored();
    h.making.resolve("go on");
    await soon(() => expect(h.making.link.value).toBe("live"));
    await settled(h);
    expect(h.journal.received).toBe(0);
    expect(at(h.making)).toBe(2);
    expect(await h.device.outbox.remembered(1, "first")).toHaveLength(6);
    h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    await settled(h);
    expect(h.journal.state.runs["p1.c1"]?.at).toBe(3);
  });

  test("where another device went on meanwhile, putting back does not overrule it: the maker is asked again", async () => {
    const h = await restored();
    h.journal.other({ intent: "next", unit: "stitch" });
    h.journal.other({ intent: "next", unit: "stitch" });
    h.making.resolve("put back");
    await soon(() => expect(h.making.asides.value.length).toBeGreaterThan(0));
    expect(h.journal.state.runs["p1.c1"]?.at).toBe(4);
  });

  test("a device that knows nothing more is not asked", async () => {
    const h = await house();
    h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    await settled(h);
    h.wire.cut();
    h.journal.restore(h.journal.head);
    h.wire.mend();
    await soon(() => expect(h.making.snapshot.value?.epoch).toBe("second"));
    expect(h.making.question.value).toBe(null);
    expect(h.making.link.value).toBe("live");
  });

  test("an older file in the journal's place is asked about too, though it has the same epoch", async () => {
    const h = await house();
    h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    await settled(h);
    const copied = h.journal.head;
    h.making.move({ intent: "next", unit: "stitch" });
    await settled(h);
    h.wire.cut();
    h.making.move({ intent: "next", unit: "stitch" });
    await soon(async () => expect(await h.device.outbox.all()).toHaveLength(1));
    h.journal.restore(copied, "first");
    h.journal.received = 0;
    h.wire.mend();
    await soon(() => expect(h.making.link.value).toBe("restored"));
    expect(h.making.question.value).toMatchObject({ known: "behind", shared: copied });
    expect(h.journal.received).toBe(0);
    h.making.resolve("put back");
    await soon(() => expect(h.making.link.value).toBe("live"));
    await settled(h);
    expect(h.journal.state.runs["p1.c1"]?.at).toBe(3);
    expect(at(h.making)).toBe(3);
  });

  test("an undo of a row that is gone names the move it was", async () => {
    const h = await house();
    const copied = h.journal.head;
    h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    await settled(h);
    const row = h.making.visible.value?.runs["p1.c1"]?.history.at(-1)?.row ?? 0;
    h.making.move({ intent: "undo", undoes: row });
    h.making.move({ intent: "next", unit: "group" }, "p1.c1");
    await settled(h);
    const seen = at(h.making);
    h.wire.cut();
    h.journal.restore(copied);
    h.wire.mend();
    await soon(() => expect(h.making.link.value).toBe("restored"));
    h.making.resolve("put back");
    await soon(() => expect(h.making.link.value).toBe("live"));
    await settled(h);
    expect(h.journal.state.runs["p1.c1"]?.at).toBe(seen);
  });
});

describe("a making that cannot take moves just now", () => {
  test.each(["gone", "damaged"] as const)("%s: they are kept, and go once it can again", async (why) => {
    const h = await house();
    h.journal.unable = why;
    h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    h.making.move({ intent: "next", unit: "stitch" });
    await settled(h);
    expect(await h.device.outbox.held()).toHaveLength(2);
    h.making.close();
    h.journal.unable = null;
    const again = await house(h.journal);
    await soon(() => expect(h.journal.state.runs["p1.c1"]?.at).toBe(2));
    expect(await again.device.outbox.held()).toEqual([]);
    await soon(() => expect(at(again.making)).toBe(2));
  });
});

describe("other devices", () => {
  test("are followed row by row, under the moves that wait here", async () => {
    const h = await house();
    h.journal.other({ intent: "next", unit: "stitch" });
    await soon(() => expect(at(h.making)).toBe(1));
    h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    expect(at(h.making)).toBe(2);
    await settled(h);
    expect(h.making.snapshot.value?.state.runs["p1.c1"]?.at).toBe(2);
  });

  test("lie under the moves that wait here after a reload without a line too", async () => {
    const h = await house();
    h.journal.other({ intent: "next", unit: "stitch" });
    h.wire.cut();
    h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    expect(at(h.making)).toBe(2);
    await soon(async () => expect(await h.device.outbox.all()).toHaveLength(1));
    // No move is on disk before the copy it was made on.
    expect((await h.device.basket.snapshot(1))?.head).toBe(h.journal.head);
    h.making.close();
    const again = await house(h.journal, false);
    await soon(() => expect(at(again.making)).toBe(2));
  });

  test("a row that says more than a place brings a fresh snapshot", async () => {
    const h = await house();
    h.journal.other({ intent: "next", unit: "round" });
    const { row } = h.journal.other({ intent: "next", unit: "stitch" });
    h.journal.other({ intent: "undo", undoes: row ?? 0 });
    await soon(() => expect(h.making.snapshot.value?.head).toBe(h.journal.head));
    expect(h.making.snapshot.value?.state).toEqual(h.journal.state);
  });

  test("rows missed behind a cut are made good on the way back", async () => {
    const h = await house();
    h.wire.cut();
    h.journal.other({ intent: "next", unit: "stitch" });
    h.journal.other({ intent: "next", unit: "stitch" });
    h.wire.mend();
    await soon(() => expect(at(h.making)).toBe(2));
  });

  test("a conflict is put aside, shown, and ends with the maker's word", async () => {
    const h = await house();
    h.wire.cut();
    h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    h.journal.other({ intent: "next", unit: "stitch" });
    h.journal.other({ intent: "next", unit: "stitch" });
    h.wire.mend();
    await soon(() => expect(h.making.asides.value).toHaveLength(1));
    expect(at(h.making)).toBe(2);
    h.making.settle("p1.c1", 1);
    expect(h.making.asides.value).toHaveLength(0);
    expect(at(h.making)).toBe(1);
  });
});

test("a page opened without its server shows the last known place and goes on", async () => {
  const h = await house();
  h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
  await settled(h);
  h.making.close();
  h.wire.cut();
  const again = await house(h.journal, false);
  await soon(() => expect(at(again.making)).toBe(1));
  again.making.move({ intent: "next", unit: "stitch" });
  expect(at(again.making)).toBe(2);
  expect(again.making.link.value).toBe("waiting");
});

test("two tabs of one device see each other's moves in the same order while nothing can be sent", async () => {
  const one = await house();
  const two = await house(one.journal);
  one.wire.cut();
  two.wire.cut();
  one.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
  await soon(() => expect(at(two.making)).toBe(1));
  two.making.move({ intent: "next", unit: "stitch" });
  await soon(() => expect(at(one.making)).toBe(2));
  expect([one.making.pending.value, two.making.pending.value]).toEqual([2, 2]);
  two.wire.mend();
  await settled(one);
  await settled(two);
  expect(one.journal.state.runs["p1.c1"]?.at).toBe(2);
  expect([at(one.making), at(two.making)]).toEqual([2, 2]);
});

test("two tabs of one device see each other's moves", async () => {
  const one = await house();
  const two = await house(one.journal);
  one.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
  await settled(one);
  await soon(() => expect(at(two.making)).toBe(1));
});

test("a batch is of one journal", () => {
  const entry = (seq: number, epoch: string) => ({ seq, epoch, move: {} }) as Entry;
  expect(cut([])).toEqual([]);
  expect(cut([entry(1, "e"), entry(2, "e")])).toHaveLength(2);
  expect(cut([entry(1, "e"), entry(2, "f"), entry(3, "e")])).toHaveLength(1);
});

test("moves made while away go in batches of at most 500, each one transaction", async () => {
  const h = await house();
  h.wire.cut();
  for (let i = 0; i < 700; i++) h.making.move({ intent: "count", n: i }, "p1.c1");
  await soon(async () => expect(await h.device.outbox.all()).toHaveLength(700));
  const before = h.wire.asked.length;
  h.wire.mend();
  await settled(h);
  expect(h.wire.asked.slice(before)).toEqual(["moves", "moves", "join"]);
  expect(h.journal.applied).toHaveLength(700);
});

test("of several batches each is let go of by its own answer: one that got none goes out once more, alone", async () => {
  const h = await house();
  h.wire.cut();
  for (let i = 0; i < 1200; i++) h.making.move({ intent: "count", n: i }, "p1.c1");
  await soon(async () => expect(await h.device.outbox.all()).toHaveLength(1200));
  let sent = 0;
  h.wire.fate = (event) => (event === "moves" && ++sent === 2 ? "answer lost" : "through");
  const received = h.journal.received;
  h.wire.mend();
  await settled(h);
  expect(h.journal.applied).toHaveLength(1200);
  expect(h.journal.received - received).toBe(1700);
});

test("what was written before a move of its own, and told after it, is fetched all the same", async () => {
  const h = await house();
  const row = h.journal.head + 3;
  h.journal.head = row;
  h.journal.asides.push({ row, device: "other", device_name: "tablet", run: "p1.c1", to: 3 });
  h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
  await settled(h);
  expect(h.making.snapshot.value?.head).toBe(h.journal.head);
  const told = { row, kind: "choice", device: "", run: "", intent: "choice", from: 0, to: 0, passed: [], in_hand: null };
  h.wire.hear("rows", { making: 1, head: row, rows: [told] });
  await soon(() => expect(h.making.asides.value).toHaveLength(1));
});

describe("a choice", () => {
  test("is seen at once, waits without a link, and goes out like a move", async () => {
    const h = await house();
    h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    await settled(h);
    h.wire.cut();
    expect(h.making.choose([{ choice: "yarn", value: "red cotton" }])).toBe(true);
    h.making.move({ intent: "next", unit: "stitch" });
    h.making.choose([{ choice: "tick", value: { list: "gather", item: "hook", on: true } }]);
    expect(h.making.chosen.value).toEqual({ yarn: "red cotton", ticks: { gather: ["hook"] } });
    expect([at(h.making), h.making.pending.value]).toEqual([2, 3]);
    await soon(async () => expect(await h.device.outbox.all()).toHaveLength(3));
    h.making.close();
    const again = await house(h.journal, false); // after a reload
    await soon(() => expect(again.making.chosen.value).toMatchObject({ yarn: "red cotton", ticks: { gather: ["hook"] } }));
    again.wire.mend();
    await settled(again);
    expect(h.journal.choices).toEqual({ yarn: "red cotton", ticks: { gather: ["hook"] } });
    expect(again.making.chosen.value).toEqual(h.journal.choices);
    expect(at(again.making)).toBe(2);
  });

  test("of another device is told without asking for the making anew", async () => {
    const h = await house();
    const joins = h.wire.asked.length;
    h.journal.other({ intent: "choose", run: "", choices: [{ choice: "yarn", value: "grey" }] });
    await soon(() => expect(h.making.chosen.value).toEqual({ yarn: "grey" }));
    expect(h.wire.asked.length).toBe(joins);
    h.making.move({ intent: "next", unit: "stitch" }, "p1.c1");
    await settled(h);
    expect(h.journal.state.runs["p1.c1"]?.at).toBe(1);
  });

  test("that changes the steps has the making asked for anew: its question is in it", async () => {
    const h = await house();
    const joins = () => h.wire.asked.filter((event) => event === "join").length;
    const before = joins();
    h.making.choose([{ choice: "spiral", value: true }]);
    await soon(() => expect(joins()).toBe(before + 1));
    await settled(h);
    expect(h.making.chosen.value).toEqual({ spiral: true });
    h.journal.other({ intent: "choose", run: "", choices: [{ choice: "spiral", value: false }] });
    await soon(() => expect(h.making.chosen.value).toEqual({ spiral: false }));
    expect(joins()).toBe(before + 2);
  });
});
