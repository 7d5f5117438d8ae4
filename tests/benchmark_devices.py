"""Figures of several devices and of a time without the server; `tests/benchmark.py` prints them with the others."""

from __future__ import annotations

import json
import re
import statistics
import time
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

Line = tuple[str, str, str]  # what, wanted, measured
Running = Callable[[Path], AbstractContextManager[Any]]

PHONE, TABLET, LAPTOP = (390, 844), (820, 1180), (1180, 820)
PAINTED = """() => new Promise((done) => new PerformanceObserver((list) => {
  const last = list.getEntries().at(-1);
  if (last) done(last.startTime);
}).observe({ type: 'largest-contentful-paint', buffered: true }))"""
# Notes when a place was shown, by the clock that all pages of this machine share.
SHOWN = """() => {
  window.shown = {};
  const look = () => {
    const place = document.querySelector('.place')?.textContent ?? '';
    window.shown[place] ??= performance.timeOrigin + performance.now();
  };
  new MutationObserver(look).observe(document.body, { subtree: true, childList: true, characterData: true });
}"""
# As many moves as the page would have written while it was away.
LAY_IN = """async ([making, many]) => {
  const db = await new Promise((done) => {
    const opening = indexedDB.open('hookside');
    opening.onsuccess = () => done(opening.result);
  });
  const got = (store, key) => new Promise((done) => {
    const asked = db.transaction(store).objectStore(store).get(key);
    asked.onsuccess = () => done(asked.result);
  });
  const snapshot = await got('snapshots', making);
  const device = await got('about', 'device');
  const { run, strand } = snapshot.runs[0];
  const tx = db.transaction('moves', 'readwrite');
  for (let n = 0; n < many; n++) {
    const id = Array.from(crypto.getRandomValues(new Uint8Array(16)), (b) => b.toString(16).padStart(2, '0')).join('');
    const intent = n % 4 ? 'next' : 'back';
    const base = snapshot.head;
    const move = { intent, unit: 'stitch', id, device, device_seq: 0, making, run, strand, base, backlog: true };
    tx.objectStore('moves').add({ epoch: snapshot.epoch, move });
  }
  await new Promise((done) => { tx.oncomplete = done; });
  db.close();
}"""


def opened(browser: Browser, address: str, size: tuple[int, int]) -> Page:
    page = browser.new_context(viewport={"width": size[0], "height": size[1]}).new_page()
    page.goto(address)
    page.wait_for_selector("[data-open]")
    return page


def in_step(running: Running, folder: Path, browser: Browser, text: str, moves: int = 60) -> Iterator[Line]:
    """Three devices on one making: from a stitch on the phone until the others show it."""
    with running(folder) as server:
        pattern = server.api("POST", "/api/patterns", {"text": text, "terms": None})[1]["id"]
        making = server.api("POST", "/api/makings", {"pattern": pattern, "order": {"kind": "one"}})[1]["id"]
        phone, *others = (opened(browser, f"{server.url}/#/bench/{making}", size) for size in (PHONE, TABLET, LAPTOP))
        phone.keyboard.press("r")
        for page in (phone, *others):
            page.wait_for_timeout(400)
            page.evaluate(SHOWN)
        for _ in range(moves):
            phone.keyboard.press("s")
            phone.wait_for_timeout(220)
        phone.wait_for_timeout(1000)
        first, *later = (page.evaluate("window.shown") for page in (phone, *others))
        taken = sorted(shown[place] - at for place, at in first.items() for shown in later if place in shown)
        for page in (phone, *others):
            page.context.close()
    far = taken[min(len(taken) - 1, int(0.99 * len(taken)))]
    measured = f"p50 {statistics.median(taken):.0f} ms, p99 {far:.0f} ms"
    yield f"a stitch on one device, seen on two others, loopback, {len(taken)} times", "100 ms", measured


def away(running: Running, folder: Path, browser: Browser, text: str, many: int = 10_000) -> Iterator[Line]:
    """The bench opened without its server, and what waited going out once it is back."""
    with running(folder) as server:
        pattern = server.api("POST", "/api/patterns", {"text": text, "terms": None})[1]["id"]
        making = server.api("POST", "/api/makings", {"pattern": pattern, "order": {"kind": "one"}})[1]["id"]
        address = f"{server.url}/#/bench/{making}"
        page = opened(browser, address, PHONE)
        page.evaluate("navigator.serviceWorker.ready.then(() => true)")
        page.wait_for_timeout(500)
        server.stop()
        first = []
        for _ in range(5):
            cold = page.context.new_page()
            cold.goto(address)
            cold.wait_for_selector("[data-open]")
            cold.wait_for_timeout(300)
            first.append(cold.evaluate(PAINTED))
            cold.close()
        page.evaluate(LAY_IN, [making, many])
        sent: list[float] = []
        answered: list[float] = []

        def watch(line: Any) -> None:
            line.on("framesent", lambda frame: sent.append(time.perf_counter()) if '["moves"' in frame else None)
            line.on(
                "framereceived", lambda frame: answered.append(time.perf_counter()) if '"answers"' in frame else None
            )

        page.on("websocket", watch)
        page.reload()
        page.get_by_text(f"{many} moves wait").wait_for()
        server.start()
        page.get_by_text(re.compile("moves? waits?")).wait_for(state="hidden", timeout=60_000)
        seen = time.perf_counter()
        there = json.dumps(server.api("GET", f"/api/makings/{making}")[1]["head"])
        page.context.close()
    assert int(there) >= many, there
    assert len(sent) == len(answered) == -(-many // 500)
    yield "bench painted without its server, cold, median of 5", "1 s", f"{statistics.median(first):.0f} ms"
    measured = f"{answered[-1] - sent[0]:.2f} s, and shown so after {seen - sent[0]:.2f} s"
    yield f"{many:,} moves made while away, on disk", "2 s", measured
