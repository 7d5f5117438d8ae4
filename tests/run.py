"""One command: everything that must hold before a change is handed in.

    python3 tests/run.py                 lint, types, import table, pytest, vitest, browser tests
    python3 tests/run.py --only NAME     one stage (may be given several times); --list names them
    python3 tests/run.py --long          the scripts in tests/long, which may take hours

Sets up all it needs by itself: the environment with the test libraries, the page's parts and the page, a
Chromium. Goes on after a failure, and ends with one line, `N passed, N failed`. Standard library only.
"""

from __future__ import annotations

import argparse
import importlib.util
import json
import os
import platform
import shutil
import subprocess
import sys
import tempfile
import time
import xml.etree.ElementTree as ElementTree
from concurrent.futures import ThreadPoolExecutor
from datetime import datetime, timezone
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
LIMIT = 20 * 60  # seconds for one stage
# The stage that begins with the first one and is told in its place: it takes one core for a minute, and what comes
# before it in the list takes hardly more than the other.
ASIDE = "types"
BROWSERS = (
    "chromium", "chromium-browser", "google-chrome", "google-chrome-stable",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
)  # fmt: skip


def start_module():
    """`server/start.py`, which makes the environment."""
    spec = importlib.util.spec_from_file_location("hookside_start", ROOT / "server" / "start.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


class Tally:
    """What passed and what failed, over all stages."""

    def __init__(self):
        self.passed = self.failed = 0
        self.lines = []

    def add(self, stage, passed, failed, seconds):
        self.passed += passed
        self.failed += failed
        self.lines.append(f"{stage:<10} {passed:5} passed {failed:4} failed {seconds:7.1f} s")

    def report(self):
        print("\n== summary", *self.lines, f"{self.passed} passed, {self.failed} failed", sep="\n", flush=True)
        return 1 if self.failed or not self.passed else 0


def call(command, env, limit=LIMIT, out=None):
    """Run with the output as it comes, or into `out`. Returns the exit code; 124 when it took too long."""
    errors = None if out is None else subprocess.STDOUT
    try:
        return subprocess.run(
            [str(c) for c in command], cwd=str(ROOT), env=env, stdin=subprocess.DEVNULL, timeout=limit,
            stdout=out, stderr=errors,
        ).returncode  # fmt: skip
    except subprocess.TimeoutExpired:
        print(f"stopped after {limit} s", flush=True)
        return 124


def check(command, env, out=None):
    """A stage that either holds or not: one passed or one failed."""
    good = call(command, env, out=out) == 0
    return int(good), int(not good)


def junit(command, env, option):
    """A stage whose tool writes a JUnit file. Returns (passed, failed); a skipped test counts as failed."""
    with tempfile.TemporaryDirectory() as folder:
        target = Path(folder) / "result.xml"
        code = call([*command, *(part.format(target) for part in option)], env)
        try:
            suites = list(ElementTree.parse(target).getroot().iter("testsuite"))
        except (OSError, ElementTree.ParseError):
            return 0, 1
    number = {k: sum(int(s.get(k) or 0) for s in suites) for k in ("tests", "failures", "errors", "skipped")}
    failed = min(number["tests"], number["failures"] + number["errors"] + number["skipped"])
    passed = number["tests"] - failed
    if not failed and (code or not passed):
        failed = 1
    return passed, failed


def with_a_second_go(command, side_by_side, env, option):
    """As `junit`, for tests that share the machine with a whole browser or two: up to five that fail are run once
    more by themselves, one after another, and that is said. A test that fails twice has failed."""
    passed, failed = junit([*command, *side_by_side], env, option)
    if 0 < failed <= 5 and passed:
        print("\n== once more, by themselves: what failed just now", flush=True)
        mended, _ = junit([*command, "--last-failed", "--last-failed-no-failures", "none"], env, option)
        passed, failed = passed + min(mended, failed), max(0, failed - mended)
        if mended:
            print(f"{mended} needed a second go: look at the first failure above", flush=True)
    return passed, failed


def installed_chromium(env):
    """A Chromium to test in: named by HOOKSIDE_CHROMIUM, the system's, or apt's; None where there is none of them."""
    if env.get("HOOKSIDE_CHROMIUM"):
        return env["HOOKSIDE_CHROMIUM"]
    found = next((p for p in map(shutil.which, BROWSERS) if p), None)
    if not found and hasattr(os, "geteuid") and os.geteuid() == 0 and shutil.which("apt-get"):
        print("Asking Debian for chromium", flush=True)
        subprocess.run(["apt-get", "update", "-qq"], stdin=subprocess.DEVNULL)
        quiet = dict(env, DEBIAN_FRONTEND="noninteractive")
        subprocess.run(
            ["apt-get", "install", "-y", "-qq", "--no-install-recommends", "chromium"],
            env=quiet, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
        )  # fmt: skip
        found = next((p for p in map(shutil.which, BROWSERS) if p), None)
    return found


def fetched_chromium(python, env):
    """Playwright's own Chromium; None where it can't be fetched."""
    print("Asking Playwright for its own Chromium", flush=True)
    if call([python, "-m", "playwright", "install", "chromium"], env, limit=30) != 0:
        return None
    code = "import playwright.sync_api as s\nwith s.sync_playwright() as p: print(p.chromium.executable_path)"
    told = subprocess.run([str(python), "-c", code], env=env, capture_output=True, text=True)
    return told.stdout.strip() or None


def chromium(python, env):
    """A Chromium to test in, wherever it comes from; None where there is none to be had."""
    return installed_chromium(env) or fetched_chromium(python, env)


def set_up():
    """Environment, page and browser. Returns (python, env for the stages)."""
    start = start_module()
    sentence = start.too_old(sys.version_info)
    if sentence:
        sys.exit(sentence)
    # Fetching a browser waits for the net, and installing for the processor: neither waits for the other.
    with ThreadPoolExecutor(1) as beside:
        asked = beside.submit(installed_chromium, dict(os.environ))
        try:
            python = start.prepare(ROOT, {"test", "voice"})
        except start.DeadEnd as e:
            sys.exit(str(e))
    # Hundreds of servers are started by the tests: none works out again what is compiled, and no folder is littered.
    env = dict(os.environ, PYTHONPYCACHEPREFIX=str(ROOT / ".venv" / "pycache"))
    env.pop("PYTHONDONTWRITEBYTECODE", None)
    env.pop("HOOKSIDE_HOME", None)  # no test may touch a real shelf
    if call([python, "frontend/hatch_build.py", "npm", "--version"], env) != 0:
        sys.exit("The page's parts could not be fetched into frontend/node_modules: is this machine offline?")
    browser = asked.result() or fetched_chromium(python, env)
    if browser is None:
        print("No Chromium was found and none could be fetched: install one, or name it in HOOKSIDE_CHROMIUM.")
    else:
        env["HOOKSIDE_CHROMIUM"] = browser
    return python, env


def stages(python):
    """Name -> what runs it. In the order of how soon they tell something."""
    npm = [python, "frontend/hatch_build.py", "npm"]
    pytest = [python, "-m", "pytest", "-q", "--durations=5"]
    cores = min(4, os.cpu_count() or 1)
    # One more than there are cores: a page waits for its keys' pauses half of the time, and other tests for servers
    # to start and stop, for a disk that has to be sure, and for what is installed from the net.
    side_by_side = ["-n", str(cores + 1), "--dist", "worksteal"]
    to_file = ["--junitxml={}"]
    return {
        "lint": lambda env: check([python, "-m", "ruff", "check", "."], env),
        "drift": lambda env: check([python, "frontend/generate.py", "--check"], env),
        "tsc": lambda env: check([*npm, "run", "check"], env),
        "imports": lambda env: junit([*pytest, "tests/ground/test_imports.py"], env, to_file),
        "vitest": lambda env: junit(
            [*npm, "run", "test", "--"], env, ["--reporter=default", "--reporter=junit", "--outputFile.junit={}"]
        ),
        ASIDE: lambda env, out: check([python, "-m", "mypy"], env, out),
        "pytest": lambda env: junit(
            [*pytest, *side_by_side, "--ignore=tests/browser", "--ignore=tests/ground/test_imports.py", "tests"],
            env,
            to_file,
        ),
        "browser": lambda env: with_a_second_go([*pytest, "tests/browser"], side_by_side, env, to_file),
    }


def machine():
    """What the numbers were measured on."""
    name = platform.processor() or platform.machine()
    try:
        told = Path("/proc/cpuinfo").read_text(encoding="utf-8")
        name = next((line.split(":", 1)[1].strip() for line in told.splitlines() if "model name" in line), name)
    except OSError:
        pass
    return {"cpu": name, "cores": os.cpu_count(), "system": platform.platform(), "python": platform.python_version()}


def long_scripts():
    """Name -> script of tests/long."""
    return {script.stem: script for script in sorted((ROOT / "tests" / "long").glob("[!_]*.py"))}


def long_runs(python, env, only):
    """Run the scripts of tests/long; the last line each prints is its result as JSON. Keeps the results beside them."""
    tally = Tally()
    for name, script in long_scripts().items():
        if only and name not in only:
            continue
        print(f"\n== {name}", flush=True)
        begun = time.monotonic()
        done = subprocess.run([str(python), str(script)], cwd=str(ROOT), env=env, stdout=subprocess.PIPE, text=True)
        print(done.stdout, flush=True)
        seconds = time.monotonic() - begun
        try:
            result = json.loads((done.stdout.strip().splitlines() or [""])[-1])
        except ValueError:
            result = None
        good = done.returncode == 0 and result is not None
        tally.add(name, int(good), int(not good), seconds)
        kept = {
            "date": datetime.now(timezone.utc).isoformat(timespec="seconds"),  # noqa: UP017
            "machine": machine(), "seconds": round(seconds, 1), "passed": good, "result": result,
        }  # fmt: skip
        script.with_suffix(".json").write_text(json.dumps(kept, indent=2) + "\n", encoding="utf-8")
    return tally.report()


def timed(stage, *arguments):
    """(passed, failed, seconds) of a stage."""
    begun = time.monotonic()
    return (*stage(*arguments), time.monotonic() - begun)


def main():
    words = argparse.ArgumentParser(description="Runs every test there is.")
    words.add_argument("--long", action="store_true", help="run the scripts in tests/long instead")
    words.add_argument("--only", action="append", default=[], metavar="NAME", help="run this stage, or script, only")
    words.add_argument("--list", action="store_true", help="name the stages")
    asked = words.parse_args()
    if asked.list:
        print(*stages(""), sep="\n")
        return 0
    known = long_scripts() if asked.long else stages("")
    unknown = [name for name in asked.only if name not in known]
    if unknown:
        words.error(f"there is no {unknown[0]} to run; these are: {', '.join(known)}")
    python, env = set_up()
    if asked.long:
        return long_runs(python, env, asked.only)
    tally = Tally()
    chosen = {name: stage for name, stage in stages(python).items() if not asked.only or name in asked.only}
    with ThreadPoolExecutor(1) as beside, tempfile.TemporaryFile("w+", encoding="utf-8", errors="replace") as said:
        aside = beside.submit(timed, chosen[ASIDE], env, said) if ASIDE in chosen else None
        for name, stage in chosen.items():
            print(f"\n== {name}", flush=True)
            result = aside.result() if name == ASIDE else timed(stage, env)
            if name == ASIDE:
                said.seek(0)
                print(said.read(), end="", flush=True)
            tally.add(name, *result)
    return tally.report()


if __name__ == "__main__":
    sys.exit(main())
