"""Reading, for the rooms behind the door: in a process of its own, one text at a time, and never without an end."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import threading
from collections import OrderedDict
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import hookside
from hookside.finish import FinishItem
from hookside.follow import Order, Strand
from hookside.pattern import Terms
from hookside.web.said import Said

PATIENCE = 20.0  # seconds by the clock; the process itself is bounded in seconds of the processor
WAKING = 60.0  # seconds more for the first answer of a process: on a busy machine it takes ten to come up
WAITING = 16  # texts: more are turned away at once
IDLED = getattr(signal, "SIGALRM", 0)  # how the reading process ends that nobody asks
SPINES = 500  # of the shelf's patterns
FINISHES = 50  # finish lists of the shelf's makings
READER = (sys.executable, "-P", "-m", "hookside.web.reader")
SLOW = "it takes longer than Hookside reads. Leave away what is not pattern, or paste it in parts"
BROKE = "Hookside stumbled over it. Look for a line that is unlike the others, or paste the pattern in parts"


class CannotRead(Said):
    """A text that reading does not get through."""

    def __init__(self, why: str) -> None:
        super().__init__(422, "unread", f"This one cannot be read: {why}.")


@dataclass(frozen=True)
class Run:
    """One run as it was laid."""

    run: str
    piece: str
    copy: int
    copies: int
    strand: Strand


@dataclass(frozen=True)
class Chosen:
    """What was chosen when beginning, and in which words the pattern is written."""

    terms: Terms
    hand: str
    order: Order


class Readings:
    """Asks the reading process, which is started when first wanted and again whenever it was ended."""

    def __init__(self, reader: Sequence[str] = READER, patience: float = PATIENCE) -> None:
        self.reader = reader
        self.patience = patience
        self.turn = threading.Lock()  # one text at a time
        self.places = threading.BoundedSemaphore(WAITING)
        self.process: subprocess.Popen[bytes] | None = None
        self.over = False
        self.awake = False  # the process has answered once
        self.spines: OrderedDict[tuple[str, Terms | None], dict[str, Any]] = OrderedDict()
        self.finishes: OrderedDict[tuple[object, ...], list[FinishItem]] = OrderedDict()

    def whole(self, text: str, terms: Terms | None, words: Terms | None = None) -> bytes:
        """The public form of a pattern, as JSON; `words`: the terms its sentences are in. Raises Said."""
        return self.ask("whole", text, terms, *([words] if words else []))

    def explain(self, text: str, terms: Terms | None, course: str) -> bytes:
        """How one course was read, as JSON; null where there is none of that id. Raises Said."""
        return self.ask("explain", text, terms, course)

    def size(self, text: str, terms: Terms | None, asked: dict[str, str]) -> bytes:
        """What a pattern's stitches come to, as JSON; {"cannot": sentence} for a gauge that can't be. Raises Said."""
        return self.ask("size", text, terms, asked)

    def gathered(
        self, text: str, terms: Terms | None, asked: dict[str, str], copies: Mapping[int, int], times: int,
        spiral: bool,
    ) -> bytes:  # fmt: skip
        """What to have at hand, as JSON; {"cannot": sentence} for a gauge that can't be. Raises Said."""
        return self.ask("gathered", text, terms, asked, {str(n): many for n, many in copies.items()}, times, spiral)

    def allowed(self, text: str, terms: Terms | None) -> bytes:
        """Which habits a pattern allows, and why not the others, as JSON. Raises Said."""
        return self.ask("allowed", text, terms)

    def finish(
        self, text: str, terms: Terms | None, words: Terms, copies: Mapping[str, int], spiral: bool = False
    ) -> bytes:
        """What is left when every part is worked, as a JSON list, in the terms `words`; `copies`: how many of a piece,
        by its number. Raises Said."""
        return self.ask("finish", text, terms, words, dict(copies), spiral)

    def finishing(
        self, text: str, terms: Terms | None, words: Terms, copies: Mapping[str, int], spiral: bool
    ) -> list[FinishItem]:
        """As `finish`, for the shelf, which asks for the same again and again. Raises Said."""
        key = (text, terms, words, tuple(copies.items()), spiral)
        kept = self.finishes.get(key)
        if kept is None:
            told = json.loads(self.finish(text, terms, words, copies, spiral))
            kept = self.finishes[key] = [FinishItem.model_validate(one) for one in told]
            if len(self.finishes) > FINISHES:
                self.finishes.popitem(last=False)
        return kept

    def mended(self, text: str, terms: Terms | None) -> bytes:
        """The text with the mended lines taken that are offered, and each change, as JSON. Raises Said."""
        return self.ask("mended", text, terms)

    def spine(self, text: str, terms: Terms | None) -> dict[str, Any]:
        """What the shelf shows of a pattern; where it cannot be read, why stands in "cannot_read"."""
        key = (text, terms)
        kept = self.spines.get(key)
        if kept is None:
            try:
                kept = json.loads(self.ask("spine", text, terms))
            except CannotRead as e:  # kept as well: one bad text does not hold up every look at the shelf
                kept = unread(text, e.say)
            self.spines[key] = kept
            if len(self.spines) > SPINES:
                self.spines.popitem(last=False)
        return kept

    def runs(
        self, text: str, terms: Terms | None, order: Order, hand: str, copies: dict[int, int], anyway: bool,
        chosen: Mapping[str, Any] | None = None,
    ) -> tuple[str, list[Run], Chosen]:  # fmt: skip
        """Title and runs of a making, and what was chosen. `chosen`: of journal/choices.py. Raises Said."""
        choices = {"hand": hand, "order": order.model_dump(mode="json"), "copies": copies, "anyway": anyway}
        choices = {**(chosen or {}), **choices}
        laid = json.loads(self.ask("runs", text, terms, choices))
        if "cannot" in laid:
            raise Said(409, "cannot-follow", laid["cannot"])
        strands = {id: Strand.model_validate(strand) for id, strand in laid["strands"].items()}
        found = [Run(run, piece, copy, of, strands[id]) for run, piece, copy, of, id in laid["runs"]]
        return laid["title"], found, Chosen(laid["terms"], hand, order)

    # -- the process --------------------------------------------------------

    def wake(self) -> None:
        """Let the reading process come up while somebody finds the field to paste into: it takes a second or two, on a
        small machine ten. Never waits; where a text is being read, it is up."""
        if self.turn.acquire(blocking=False):
            try:
                with suppress(OSError, Said):
                    self.started()
            finally:
                self.turn.release()

    def ask(self, work: str, *of: Any) -> bytes:
        """One answer of the reading process. Raises CannotRead, and Said where too many wait."""
        if not self.places.acquire(blocking=False):
            raise Said(503, "busy", "Hookside is still reading other texts. Try once more in a moment.")
        try:
            with self.turn:
                return self.answer(json.dumps({"work": work, "of": of}).encode() + b"\n")
        finally:
            self.places.release()

    def answer(self, question: bytes, again: bool = True) -> bytes:
        process = self.started()
        assert process.stdin is not None
        assert process.stdout is not None
        late = threading.Timer(self.patience if self.awake else self.patience + WAKING, process.kill)
        late.daemon = True
        late.start()
        try:
            process.stdin.write(question)
            process.stdin.flush()
            head = json.loads(process.stdout.readline())
            body = process.stdout.read(head["bytes"])
            if len(body) != head["bytes"]:
                raise EOFError
            self.awake = True
        except (OSError, ValueError, EOFError) as e:
            self.drop()
            self.still_open()  # ended under a question: the house is being closed, and nothing is wrong with the text
            if process.returncode == -IDLED and again:  # it had nothing to do and went, just then
                return self.answer(question, again=False)
            raise CannotRead(SLOW) from e
        finally:
            late.cancel()
        if not head["ok"]:
            raise CannotRead(BROKE)
        return body

    def still_open(self) -> None:
        if self.over:
            raise Said(503, "over", "Hookside is being stopped.")

    def started(self) -> subprocess.Popen[bytes]:
        self.still_open()
        if self.process is None or self.process.poll() is not None:
            self.drop()
            self.awake = False
            here = str(Path(hookside.__file__).resolve().parents[1])
            paths = os.pathsep.join(p for p in (here, os.environ.get("PYTHONPATH", "")) if p)
            self.process = subprocess.Popen(
                self.reader, stdin=subprocess.PIPE, stdout=subprocess.PIPE, env={**os.environ, "PYTHONPATH": paths},
                start_new_session=True,  # a Ctrl+C in the terminal is for the server, which then ends this one
            )  # fmt: skip
        return self.process

    def close(self) -> None:
        """End it for good: who goes through a whole shelf starts no other one meanwhile."""
        self.over = True
        self.drop()

    def drop(self) -> None:
        """End the reading process."""
        process, self.process = self.process, None
        if process is None:
            return
        if process.poll() is None:
            process.kill()
        for pipe in (process.stdin, process.stdout):
            try:
                if pipe is not None:
                    pipe.close()
            except OSError:
                continue  # it was in the middle of a question
        process.wait()


def unread(text: str, why: str) -> dict[str, Any]:
    """A pattern that cannot be read, as the shelf shows it: by its first line."""
    title = next((line.strip() for line in text.splitlines() if line.strip()), "")[:80]
    return {
        "title": title,
        "hook": "",
        "pieces": [],
        "findings": {"error": 1, "warning": 0, "note": 0},
        "can_be_followed": False,
        "cannot_read": why,
    }
