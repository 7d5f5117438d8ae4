import { expect, test } from "vitest";
import { parse, toBench, toCards, toGather, toRead, toRecord, toShelf, toSize } from "./route";

test.each([
  ["", { page: "shelf" }],
  [toShelf, { page: "shelf" }],
  [toRead(null), { page: "read", id: null }],
  [toRead("a b/c"), { page: "read", id: "a b/c" }],
  [toRead(12), { page: "read", id: "12" }],
  [toBench(3), { page: "bench", id: 3 }],
  [toRecord(7), { page: "record", id: 7 }],
  [toCards(null), { page: "cards", id: null }],
  [toCards("ring"), { page: "cards", id: "ring" }],
  [toGather("a b"), { page: "gather", id: "a b", making: null }],
  [toGather(4, 7), { page: "gather", id: "4", making: 7 }],
  [toSize("a b"), { page: "size", id: "a b", making: null }],
  [toSize(4, 7), { page: "size", id: "4", making: 7 }],
  ["#/gather", { page: "shelf" }],
  ["#/bench/three", { page: "shelf" }],
  ["#/nowhere", { page: "shelf" }],
  ["#/read/%E0%A4%A", { page: "shelf" }],
])("%s", (hash, route) => expect(parse(hash)).toEqual(route));
