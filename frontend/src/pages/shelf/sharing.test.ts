import { expect, test } from "vitest";
import { drawn, lines, seen } from "./sharing";

test("a fingerprint in four lines", () => {
  const print = Array.from({ length: 32 }, (_, n) => n.toString(16).padStart(2, "0").toUpperCase()).join(":");
  expect(lines(print)).toHaveLength(4);
  expect(lines(print)[1]).toBe("08 09 0A 0B 0C 0D 0E 0F");
});

test("when a device was here", () => {
  expect(seen({ here: true, seen: "2026-11-20" }, "2026-11-25")).toBe("here now");
  expect(seen({ here: false, seen: "2026-11-25" }, "2026-11-25")).toBe("here today");
  expect(seen({ here: false, seen: "2026-11-20" }, "2026-11-25")).toBe("last here on 2026-11-20");
});

test("a drawing goes into an address whole", () => {
  expect(drawn('<svg fill="#fff"/>')).toBe("data:image/svg+xml,%3Csvg%20fill%3D%22%23fff%22%2F%3E");
});
