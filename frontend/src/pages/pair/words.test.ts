import { expect, test } from "vitest";
import { called, invitation, tidy } from "./words";

test("only 128 bits behind the # are an invitation", () => {
  expect(invitation("#AbCdEfGhIjKlMnOpQrSt_-")).toBe("AbCdEfGhIjKlMnOpQrSt_-");
  for (const hash of ["", "#", "#/bench/3", "#AbCdEfGhIjKlMnOpQrSt_", "#AbCdEfGhIjKlMnOpQrSt_-x", "#AbCdEfGhIjKlMnOpQrSt<-"])
    expect(invitation(hash)).toBeNull();
});

// Agents as these browsers send them, from memory.
test.each([
  ["Mozilla/5.0 (iPhone; CPU iPhone OS 18_4 like Mac OS X) AppleWebKit/605.1.15 Mobile/15E148 Safari/604.1", 390, true, "iPhone"],
  ["Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 Version/18.4 Safari/605.1.15", 820, true, "iPad"],
  ["Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 Version/18.4 Safari/605.1.15", 900, false, "Mac"],
  ["Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 Chrome/130.0.0.0 Mobile Safari/537.36", 412, true, "Android phone"],
  ["Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 Chrome/130.0.0.0 Safari/537.36", 800, true, "Android tablet"],
  ["Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 Chrome/130.0.0.0 Safari/537.36", 1080, true, "Windows laptop"],
  ["Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0", 800, false, "laptop"],
])("%s", (agent, narrowest, touch, name) => {
  expect(called(agent, narrowest, touch)).toBe(name);
});

test("typed as people type", () => {
  expect(tidy("acd")).toBe("ACD");
  expect(tidy("acde-fh")).toBe("ACDE FH");
  expect(tidy(" acdefhjk34")).toBe("ACDE FHJK");
});
