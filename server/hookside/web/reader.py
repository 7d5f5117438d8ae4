"""The reading process: takes a text, answers what was read in it. `readings.py` starts it and asks.

One question is one line of JSON on standard input; the answer is a line {"ok", "bytes"} and then so many bytes, JSON
again. Reading takes the processor for as long as it lasts, and a text can be made to last: here it keeps nobody
waiting who is working, and the system ends it when it takes too much.
"""

from __future__ import annotations

import json
import os
import signal
import sys
import traceback
from collections.abc import Callable
from dataclasses import asdict
from functools import lru_cache
from typing import IO, Any, Final, get_args

from hookside.compile import CannotBeFollowed, Choices, explained, in_terms, lay, measured, read
from hookside.finish import finish_list
from hookside.gather import gather
from hookside.habits import habits, worked
from hookside.notation.explaining.explanation import Explainer
from hookside.notation.mended import mend
from hookside.pattern import Finding, Pattern, Severity, Terms
from hookside.shape import Asked, CannotBeMeasured

SECONDS: Final = 5  # of the processor, for one text: the longest that is allowed takes about one
MEMORY: Final = 1 << 30  # bytes of addresses: such a text takes about a fifth of it
IDLE: Final = 60  # seconds without a question, after which it is started anew
FIRST: Final = "Rnd 1: 6 sc in a magic ring (6)\nRnd 2: (sc, inc) x 3 (9)\nStuff.\n"
KEPT: Final = 4  # a text that was just read is the one to be begun


@lru_cache(KEPT)
def reading(text: str, terms: Terms | None, asked: Asked | None = None) -> Pattern:
    return read(text, terms, asked)


def whole(text: str, terms: Terms | None, words: Terms | None = None) -> Any:
    """The public form of a pattern. `words`: the terms its sentences are in, where they are not the text's own."""
    pattern = reading(text, terms)
    shown = in_terms(pattern, words) if words not in (None, pattern.terms) else pattern
    return shown.model_dump(mode="json")


@lru_cache(1)
def explainer(text: str, terms: Terms | None) -> Explainer:
    return explained(text, terms)


def explain(text: str, terms: Terms | None, course: str) -> Any:
    """How one course was read, by its id, or null. Bounded: one course has so many parts and sentences at most."""
    told = explainer(text, terms).course(course)
    return None if told is None else asdict(told)


def mended(text: str, terms: Terms | None) -> Any:
    """The text with the mended lines taken that are offered, and each change."""
    done = mend(text, terms)
    stops = [asdict(stop) for stop in done.stops]
    return {"text": done.text, "changes": [asdict(c) for c in done.changes], "more": done.more, "stops": stops}


def gravity(finding: Finding) -> Severity:
    """How grave a finding is to the maker. Where only the printed count is off, the stitches can be followed."""
    return "warning" if finding.code == "count" else finding.severity


def spine(text: str, terms: Terms | None) -> Any:
    """What the shelf shows of a pattern."""
    pattern = reading(text, terms)
    found = [gravity(finding) for finding in pattern.findings]
    return {
        "title": pattern.title,
        "hook": pattern.hook,
        "pieces": [{"name": p.name, "make": p.make, "courses": len(p.courses)} for p in pattern.pieces],
        "findings": {severity: found.count(severity) for severity in get_args(Severity)},
        "can_be_followed": pattern.can_be_followed,
    }


def runs(text: str, terms: Terms | None, choices: dict[str, Any]) -> Any:
    """A making's runs and their strands, or {"cannot": sentence}."""
    asked = {name: value for name, value in choices.items() if name in Choices.model_fields}
    chosen = Choices.model_validate(asked)
    pattern = reading(text, terms, chosen.gauge)
    chosen = chosen.model_copy(update={"terms": chosen.terms or pattern.terms})
    try:
        laid = lay(pattern, text, chosen)
    except CannotBeFollowed as e:
        return {"cannot": str(e)}
    return {
        "title": pattern.title,
        "terms": pattern.terms,
        "runs": [[one.run, one.piece, one.copy, one.copies, one.strand.id] for one in laid],
        "strands": {one.strand.id: one.strand.model_dump(mode="json") for one in laid},
    }


def finish(text: str, terms: Terms | None, words: Terms, copies: dict[str, int], spiral: bool) -> Any:
    """What is left to do when every part is worked, in the terms `words`, for so many of each piece by its number."""
    pattern = reading(text, terms)
    made, spirals = [], []
    for number, piece in enumerate(pattern.pieces, start=1):
        hers = worked(piece, pattern, spiral, None)
        if hers.courses != piece.courses:
            spirals.append(number)
        made.append(hers.model_copy(update={"make": copies.get(str(number), piece.make)}))
    printed = {number: piece.make for number, piece in enumerate(pattern.pieces, start=1)}
    listed = finish_list(pattern.model_copy(update={"pieces": made}), words, printed, spirals)
    return [item.model_dump(mode="json") for item in listed]


def size(text: str, terms: Terms | None, asked: dict[str, str]) -> Any:
    """What a pattern's stitches come to, or {"cannot": sentence}."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # each thread would take its own piece of what memory there is

    try:
        return measured(reading(text, terms), Asked(**asked)).model_dump(mode="json")
    except CannotBeMeasured as e:
        return {"cannot": str(e)}


def gathered(
    text: str, terms: Terms | None, asked: dict[str, str], copies: dict[str, int], times: int, spiral: bool
) -> Any:
    """What to have at hand, for so many of each piece by its number, or {"cannot": sentence}."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    fabric = Asked(**asked)
    pattern = reading(text, terms)
    try:
        measures = measured(pattern, fabric)
    except CannotBeMeasured as e:
        return {"cannot": str(e)}
    wanted = {number: piece.make * times for number, piece in enumerate(pattern.pieces, start=1)}
    wanted |= {int(number): n for number, n in copies.items()}
    return gather(pattern, text, measures, fabric, wanted, spiral).model_dump(mode="json")


def allowed(text: str, terms: Terms | None) -> Any:
    """Which of the maker's habits a pattern allows, and why not the others."""
    return habits(reading(text, terms)).model_dump(mode="json")


WORK: dict[str, Callable[..., Any]] = {
    "whole": whole, "spine": spine, "runs": runs, "explain": explain, "mended": mended, "size": size, "finish": finish,
    "gathered": gathered, "allowed": allowed,
}  # fmt: skip


def bound() -> Callable[[int], None]:
    """Bounds what this process may take; what it returns gives the next text its time, 0 none. Not on Windows."""
    try:
        import resource
    except ImportError:
        return lambda seconds: None
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    os.nice(5)  # after whoever is working
    return lambda seconds: (signal.setitimer(signal.ITIMER_PROF, seconds), None)[1]


def make_ready() -> None:
    """Makes what is made once, the grammar above all, while nobody waits: a third of a second of the first text."""
    read(FIRST)


def serve(questions: IO[bytes], answers: IO[bytes]) -> None:
    """Answer until nobody asks any more."""
    give = bound()
    make_ready()
    rest(IDLE)
    for line in questions:
        rest(0)
        asked = json.loads(line)
        give(SECONDS)
        try:
            answer, ok = WORK[asked["work"]](*asked["of"]), True
        except Exception as e:
            traceback.print_exception(e)
            answer, ok = type(e).__name__, False
        body = json.dumps(answer, separators=(",", ":")).encode()
        give(0)
        answers.write(json.dumps({"ok": ok, "bytes": len(body)}).encode() + b"\n" + body)
        answers.flush()
        rest(IDLE)


def rest(seconds: int) -> None:
    """Let the system end this process after so many seconds, so that memory is given back; 0: not. Not on Windows."""
    if sys.platform != "win32":
        signal.alarm(seconds)


if __name__ == "__main__":
    answers = os.fdopen(os.dup(1), "wb")
    os.dup2(2, 1)  # whatever else is printed does not get between the answers
    try:
        serve(sys.stdin.buffer, answers)
    except BrokenPipeError:  # the server ended in the midst of a question
        os._exit(0)  # without looking at what is left to be said to nobody
