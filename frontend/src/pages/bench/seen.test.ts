import { expect, test } from "vitest";
import { onTo } from "./seen";

test("a section called by what is to be done takes no second 'to'", () => {
  expect(onTo("Finishing")).toBe("on to finishing");
  expect(onTo("To make up")).toBe("on to make up");
  expect(onTo("Toes")).toBe("on to toes");
});
