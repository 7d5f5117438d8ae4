import { expect, test } from "vitest";
import { deviceName } from "./device";

test.each([
  ["Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) Mobile/15E148", 390, true, "phone"],
  ["Mozilla/5.0 (Linux; Android 15; Pixel 9) Chrome/130 Mobile Safari/537.36", 412, true, "phone"],
  ["Mozilla/5.0 (Linux; Android 15; Tab) Chrome/130 Safari/537.36", 800, true, "tablet"],
  ["Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) Version/18.0 Safari/605.1.15", 820, true, "tablet"],
  ["Mozilla/5.0 (X11; Linux x86_64) Chrome/130 Safari/537.36", 800, false, "laptop"],
])("%s", (agent, narrowest, touch, name) => expect(deviceName(agent, narrowest, touch)).toBe(name));
