"""The bench in a real browser comes back with ten thousand moves made offline: how long until all are acknowledged.

    python tests/long/sync_page.py [--count 10000] [--out FILE]

The moves lie in the page's own outbox (IndexedDB), as it leaves them there itself; the bench opens, and the page sends,
lets go, remembers and paints as it does for a maker. Measured in the page: from the first batch leaving to the last
answer, and to the outbox being empty. Wants the built page, and a Chromium as the browser tests do. The last line
printed is the result as JSON; exit 1 where it took 2 seconds or more, or where a move was lost or doubled.
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parent))

from _house import asked_of, begin, finish, kept, move, serving

MOST = 2.0  # seconds

WATCH = """
window.sync = { first: 0, last: 0, batches: 0 };
const send = WebSocket.prototype.send;
WebSocket.prototype.send = function (data) {
  if (typeof data === 'string' && data.includes('["moves"')) {
    window.sync.first ||= performance.now();
    window.sync.batches += 1;
    const ours = /^42(\\d+)/.exec(data)[1];
    const heard = (event) => {
      if (!String(event.data).startsWith(`43${ours}[`)) return;
      window.sync.last = performance.now();
      this.removeEventListener('message', heard);
    };
    this.addEventListener('message', heard);
  }
  return send.call(this, data);
};
"""
OPEN = "const db = await new Promise((d, f) => { const r = indexedDB.open('hookside'); r.onsuccess = () => d(r.result);"
FILL = (
    "async (waiting) => {"
    + OPEN
    + """ r.onerror = f; });
  const tx = db.transaction(['moves', 'about'], 'readwrite');
  const device = await new Promise((d) => { const r = tx.objectStore('about').get('device');
    r.onsuccess = () => d(r.result); });
  for (const one of waiting) tx.objectStore('moves').add({ ...one, move: { ...one.move, device } });
  await new Promise((d, f) => { tx.oncomplete = d; tx.onerror = f; });
  db.close();
}"""
)
EMPTY = (
    "async () => {"
    + OPEN
    + """ r.onerror = f; });
  for (;;) {
    const left = await new Promise((d) => { const r = db.transaction('moves').objectStore('moves').count();
      r.onsuccess = () => d(r.result); });
    if (left === 0) break;
    await new Promise((d) => setTimeout(d, 20));
  }
  db.close();
  return { ...window.sync, empty: performance.now() };
}"""
)


def measure(port: int, making: int, epoch: str, head: int, count: int) -> dict[str, float]:
    from playwright.sync_api import sync_playwright

    path = os.environ.get("HOOKSIDE_CHROMIUM") or shutil.which("chromium") or shutil.which("google-chrome")
    home = f"http://127.0.0.1:{port}"
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=path, args=["--no-sandbox"])
        context = browser.new_context(viewport={"width": 820, "height": 1180})
        context.add_init_script(WATCH)
        page = context.new_page()
        page.goto(f"{home}/#/bench/{making}")
        page.wait_for_selector("[data-open]")
        page.goto(f"{home}/hook.svg")  # of the same origin, without the page: nobody else is at the outbox
        waiting = [
            {"epoch": epoch, "move": move(f"{n:032x}", "", 0, making, head, backlog=True)} for n in range(1, count + 1)
        ]
        page.evaluate(FILL, waiting)
        page.goto(f"{home}/#/bench/{making}")
        found: dict[str, float] = page.evaluate(EMPTY)
        browser.close()
    return found


def run(folder: Path, count: int) -> dict[str, Any]:
    (making,) = begin(folder, 1)
    with serving(folder) as house:
        snapshot = house.ask(f"/api/makings/{making}")
        found = measure(house.port, making, snapshot["epoch"], snapshot["head"], count)
        stumbled = house.stumbled()
    return kept(
        folder, making, moves=count, batches=int(found["batches"]), limit=MOST, stumbled=stumbled,
        seconds=round((found["last"] - found["first"]) / 1000, 3),
        seconds_to_the_empty_outbox=round((found["empty"] - found["first"]) / 1000, 3),
    )  # fmt: skip


def main() -> int:
    asked = asked_of(__doc__, 10_000)
    with tempfile.TemporaryDirectory(prefix="hookside-sync-") as room:
        result = run(Path(room) / "house", asked.count)
    whole = result["place"] == result["rows"] == asked.count and not result["wrong"] and not result["stumbled"]
    return finish(result, whole and result["seconds_to_the_empty_outbox"] < MOST, asked.out)


if __name__ == "__main__":
    sys.exit(main())
