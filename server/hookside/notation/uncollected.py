"""Work during which the garbage collector of Python rests."""

from __future__ import annotations

import gc
import threading
from collections.abc import Iterator
from contextlib import contextmanager

_lock = threading.Lock()
_resting = 0  # how many are at it, in all threads: the last to leave turns the collector on again
_was_on = False


@contextmanager
def uncollected() -> Iterator[None]:
    """Reading makes a great many small things and next to no circles of them: what nobody holds any more goes at once.
    The collector would walk all that is held over and over for nothing, for a fifth of the time and more.

    May stand within another and in several threads; what goes wrong within leaves the collector on as well.
    """
    global _resting, _was_on
    with _lock:
        if not _resting:
            _was_on = gc.isenabled()
            gc.disable()
        _resting += 1
    try:
        yield
    finally:
        with _lock:
            _resting -= 1
            if not _resting and _was_on:
                if not gc.get_freeze_count():  # what was made counts as old: no walk over all of it at once
                    gc.freeze()
                    gc.unfreeze()
                gc.enable()
