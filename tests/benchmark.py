"""The figures of the README, measured on this machine, as a Markdown table.

    python3 tests/run.py --only lint     once, for the environment
    .venv/bin/python tests/benchmark.py

A figure is a figure of the machine it was taken on: the table names it. Nothing here passes or fails.
"""

from __future__ import annotations

import importlib.util
import os
import secrets
import statistics
import sys
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from types import ModuleType
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT / "server"), str(ROOT)]

Line = tuple[str, str, str]  # what, wanted, measured


def module(name: str, path: Path) -> ModuleType:
    spec = importlib.util.spec_from_file_location(name, path)
    assert spec is not None
    assert spec.loader is not None
    made = importlib.util.module_from_spec(spec)
    sys.modules[name] = made
    spec.loader.exec_module(made)
    return made


shared = module("hookside_conftest", ROOT / "tests" / "conftest.py")
runner = module("hookside_run", ROOT / "tests" / "run.py")
scales = module("hookside_weighing", ROOT / "tests" / "weighing.py")
devices = module("hookside_benchmark_devices", ROOT / "tests" / "benchmark_devices.py")


def percentile(values: list[float], share: float) -> float:
    """The value that `share` of all do not exceed."""
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))]


def rope(rounds: int) -> str:
    """demo: a long striped rope of growing, plain and shrinking rounds, written out."""
    lines = ["Mooring rope", "", "ROPE", "Round 1: 6 sc in magic ring (6)"]
    for n in range(2, rounds + 1):
        k = (n - 2) % 12
        if k < 4:
            before = 6 * (k + 1)
            body = "inc x 6" if k == 0 else f"(sc in next {k}, inc) x 6"
            lines.append(f"Round {n}: {body} ({before + 6})")
        elif k < 8:
            lines.append(f"Round {n}: sc in each st around (30)")
        else:
            left = 30 - 6 * (k - 8)
            stay = left // 6 - 2
            body = f"(sc in next {stay}, dec) x 6" if stay else "dec x 6"
            lines.append(f"Round {n}: {body} ({left - 6})")
    return "\n".join(lines) + "\n"


def drum(rounds: int) -> str:
    """demo: a drum of many alike rounds of repeats without a stop, to tap along."""
    lines = ["Fog drum", "", "DRUM", "Row 1: ch 43, sc in 2nd ch from hook, sc in next 41 ch, turn (42)"]
    lines += [f"Row {n}: ch 1, sc in each st across, turn (42)" for n in range(2, rounds + 1)]
    return "\n".join(lines) + "\n"


def best(work: Callable[[], Any], times: int = 5) -> float:
    """The shortest of several runs, in seconds: the one least disturbed."""
    taken = []
    for _ in range(times):
        begun = time.perf_counter()
        work()
        taken.append(time.perf_counter() - begun)
    return min(taken)


def reading() -> Iterator[Line]:
    from hookside.compile import read

    short, long = rope(300), rope(2400)
    pattern = read(short)
    assert sum(len(p.courses) for p in pattern.pieces) == 300
    assert pattern.can_be_followed, pattern.findings[:3]
    yield "reading, courses a second, of one text of 2,400", "5,000", f"{2400 / best(lambda: read(long), 3):,.0f}"
    yield "reading 300 courses", "100 ms", f"{best(lambda: read(short)) * 1000:.0f} ms"


def unpacking() -> Iterator[Line]:
    """From the bytes of a PDF of twenty pages in two columns to its rounds, with the start of the bounded process."""
    from hookside.compile import read
    from hookside.intake import take

    os.environ["PYTHONPATH"] = str(ROOT / "server")  # the process it is taken apart in has no other
    pdf = module("hookside_pdf", ROOT / "tests" / "intake" / "conftest.py")
    told = iter(rope(1400).splitlines())
    pages = [
        [*pdf.column([next(told) for _ in range(34)], 50.0), *pdf.column([next(told) for _ in range(34)], 320.0)]
        for _ in range(20)
    ]
    data = pdf.sheets(pages, size=9.0)
    seconds = best(lambda: read(take(data, "rope.pdf").text), 3)
    yield "a PDF of 20 pages, two columns, 1,357 rounds, taken in and read", "3 s", f"{seconds:.1f} s"


def shaping() -> Iterator[Line]:
    """A ball of 100 rounds, stuffed: nothing of it is remembered from one time to the next."""
    import numpy as np

    from hookside.shape.stuffed import stuffed

    radii = 100 / np.pi * np.sin(np.arange(101) * np.pi / 100) * 5
    assert stuffed(radii, np.full(100, 5.0)).settled
    yield "stuffed outline of 100 rounds", "1 s", f"{best(lambda: stuffed(radii, np.full(100, 5.0))) * 1000:.0f} ms"


@contextmanager
def running(folder: Path) -> Iterator[Any]:
    server = shared.LiveServer(folder)
    server.start()
    try:
        yield server
    finally:
        if server.process is not None:
            server.stop()


def starting(folder: Path) -> Iterator[Line]:
    with running(folder) as server:
        taken = []
        for _ in range(7):
            server.stop()
            begun = time.perf_counter()
            server.start()
            server.api("GET", "/api/maker")
            taken.append(time.perf_counter() - begun)
    yield "start to first answer, median of 7", "1.5 s", f"{statistics.median(taken):.2f} s"


def resident(pid: int) -> tuple[float, float] | None:
    """Megabytes of memory a process holds, and its children hold, where the system tells."""
    found = {}
    for status in Path("/proc").glob("[0-9]*/status"):
        with suppress(OSError):
            about = dict(line.split(":", 1) for line in status.read_text(encoding="utf-8").splitlines())
            found[int(about["Pid"])] = (int(about["PPid"]), int(about.get("VmRSS", "0 kB").split()[0]) / 1024)
    if pid not in found:
        return None
    return found[pid][1], sum(megabytes for parent, megabytes in found.values() if parent == pid)


def moving(folder: Path, moves: int = 2000) -> Iterator[Line]:
    import socketio

    with running(folder) as server:
        pattern = server.api("POST", "/api/patterns", {"text": drum(40), "terms": None})[1]["id"]
        making = server.api("POST", "/api/makings", {"pattern": pattern, "order": {"kind": "one"}})[1]["id"]
        line = socketio.Client(reconnection=False)
        line.connect(server.url, transports=["websocket"])
        about = {"making": making, "device": "benchmark", "device_name": "benchmark", "epoch": "", "head": 0}
        snapshot = line.call("join", about)["snapshot"]
        run, head, taken = snapshot["runs"][0], snapshot["head"], []
        pasting = threading.Event()

        def paste() -> None:
            for n in range(10**6):
                if pasting.is_set():
                    return
                server.api("POST", "/api/read", {"text": f"{rope(300)}{n}", "terms": None})

        for n in range(2 * moves):
            if n == moves:  # the same once more while somebody pastes one pattern after another
                somebody = threading.Thread(target=paste)
                somebody.start()
            move = {
                "id": secrets.token_hex(16), "device": "benchmark", "device_seq": n + 1, "making": making,
                "run": run["run"], "strand": run["strand"], "base": head, "intent": "next" if n % 4 else "back",
                "unit": "stitch",
            }  # fmt: skip
            begun = time.perf_counter()
            (answer,) = line.call("moves", {"epoch": snapshot["epoch"], "moves": [move]})["answers"]
            taken.append((time.perf_counter() - begun) * 1000)
            head = answer["head"]
        pasting.set()
        somebody.join()
        line.disconnect()
        held = resident(server.process.pid)
    for when, part in (("", taken[:moves]), (" while patterns are pasted", taken[moves:])):
        middle, far = percentile(part, 0.5), percentile(part, 0.99)
        what = f"move to acknowledgement, loopback, {moves} moves{when}"
        yield what, "p99 12 ms", f"p50 {middle:.1f} ms, p99 {far:.1f} ms"
    if held is not None:
        yield "resident memory after that", "120 MB", f"{held[0]:.0f} MB, and {held[1]:.0f} MB to read in"


def weighing() -> Iterator[Line]:
    static = ROOT / "server" / "hookside" / "static"
    weight = scales.squeezed(scales.at_first(static, "bench"))
    yield "script and style of shelf, read-through and bench, gzipped", "90 kB", f"{weight / 1000:.1f} kB"


# Notes when each finger lifted and when the frame after it was painted.
WATCH = """
window.taps = [];
addEventListener('pointerup', (e) => {
  if (!e.target.closest('[data-open]')) return;
  requestAnimationFrame(() => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => window.taps.push(performance.now() - e.timeStamp);
    port2.postMessage(0);
  });
}, true);
"""
PAINTED = """() => new Promise((done) => new PerformanceObserver((list) => {
  const last = list.getEntries().at(-1);
  if (last) done(last.startTime);
}).observe({ type: 'largest-contentful-paint', buffered: true }))"""


def painting(folder: Path, taps: int = 300) -> Iterator[Line]:
    from playwright.sync_api import sync_playwright

    path = os.environ.get("HOOKSIDE_CHROMIUM") or runner.chromium(sys.executable, dict(os.environ))
    with running(folder) as server, sync_playwright() as play:
        pattern = server.api("POST", "/api/patterns", {"text": drum(taps + 20), "terms": None})[1]["id"]
        making = server.api("POST", "/api/makings", {"pattern": pattern, "order": {"kind": "one"}})[1]["id"]
        browser = play.chromium.launch(executable_path=path, args=shared.CHROMIUM)
        first = []
        for _ in range(5):
            context = browser.new_context(viewport={"width": 390, "height": 844})
            page = context.new_page()
            page.goto(f"{server.url}/#/bench/{making}")
            page.wait_for_selector("[data-open]")
            page.wait_for_timeout(300)
            first.append(page.evaluate(PAINTED))
            context.close()
        context = browser.new_context(viewport={"width": 390, "height": 844})
        page = context.new_page()
        page.add_init_script(WATCH)
        page.goto(f"{server.url}/#/bench/{making}")
        box = page.wait_for_selector("[data-open]").bounding_box()
        for _ in range(taps):
            page.mouse.click(box["x"] + box["width"] / 2, box["y"] + box["height"] * 0.7)
            page.wait_for_timeout(70)
        taken = page.evaluate("window.taps")
        browser.close()
    yield "bench painted, cold, median of 5 (Chromium, 390 x 844)", "1 s", f"{statistics.median(first):.0f} ms"
    far = percentile(taken, 0.99)
    yield f"tap to paint, {len(taken)} taps", "p99 32 ms", f"p50 {percentile(taken, 0.5):.1f} ms, p99 {far:.1f} ms"


# Notes when news of a step came in, when the frame with the outline after it was painted, and for which beat of the
# screen that frame was: the next one lies no more than a sixtieth of a second behind the news.
OUTLINED = """
const Line = window.WebSocket;
window.frames = [];
let news = 0;
window.WebSocket = class extends Line {
  constructor(...of) { super(...of); super.addEventListener('message', () => { news = performance.now(); }); }
};
window.watchOutline = () => new MutationObserver(() => {
  const since = news;
  requestAnimationFrame((beat) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => window.frames.push([performance.now() - since, beat - since]);
    port2.postMessage(0);
  });
}).observe(document.querySelector('.sheet svg.outline'), { subtree: true, attributes: true, childList: true });
"""


def outlining(folder: Path, steps: int = 100) -> Iterator[Line]:
    """The shape so far lies open on a tablet while the maker steps on her phone."""
    from playwright.sync_api import sync_playwright

    path = os.environ.get("HOOKSIDE_CHROMIUM") or runner.chromium(sys.executable, dict(os.environ))
    with running(folder) as server, sync_playwright() as play:
        pattern = server.api("POST", "/api/patterns", {"text": drum(40), "terms": None})[1]["id"]
        making = server.api("POST", "/api/makings", {"pattern": pattern, "order": {"kind": "one"}})[1]["id"]
        browser = play.chromium.launch(executable_path=path, args=shared.CHROMIUM)
        tablet = browser.new_context(viewport={"width": 820, "height": 1180}).new_page()
        tablet.add_init_script(OUTLINED)
        phone = browser.new_context(viewport={"width": 390, "height": 844}).new_page()
        for page in (tablet, phone):
            page.goto(f"{server.url}/#/bench/{making}")
            page.wait_for_selector("[data-open]")
        tablet.get_by_role("button", name="more").click()
        tablet.get_by_role("button", name="Shape so far").click()
        tablet.wait_for_selector(".sheet svg.outline")
        tablet.evaluate("window.watchOutline()")
        for _ in range(steps):
            phone.keyboard.press("s")
            phone.wait_for_timeout(230)
        frames = tablet.evaluate("window.frames")
        browser.close()
    taken, beats = [painted for painted, _ in frames], [beat for _, beat in frames]
    soon = sum(beat <= 1000 / 60 for beat in beats)
    figure = f"{soon} in the next frame; p50 {percentile(taken, 0.5):.1f} ms, p99 {percentile(taken, 0.99):.1f} ms"
    yield f"outline of the piece redrawn after a step elsewhere, {len(taken)} steps", "the next frame", figure


def several(folder: Path) -> Iterator[Line]:
    from playwright.sync_api import sync_playwright

    path = os.environ.get("HOOKSIDE_CHROMIUM") or runner.chromium(sys.executable, dict(os.environ))
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=path, args=shared.CHROMIUM)
        yield from devices.in_step(running, folder / "in step", browser, drum(40))
        yield from devices.away(running, folder / "away", browser, drum(40))
        browser.close()


def main() -> None:
    here = runner.machine()
    lines: list[Line] = [*reading(), *unpacking(), *shaping()]
    with tempfile.TemporaryDirectory() as folder:
        for n, part in enumerate((starting, moving, lambda _: weighing(), painting, outlining, several)):
            lines += part(Path(folder) / str(n))
    print(f"Measured on {here['cpu']}, {here['cores']} cores, Python {here['python']}, {here['system']}.\n")
    print("| what | to reach | measured |\n| --- | --- | --- |")
    for what, wanted, measured in lines:
        print(f"| {what} | {wanted} | {measured} |")


if __name__ == "__main__":
    main()
