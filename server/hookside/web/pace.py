"""How much, how fast: a bucket that fills at a steady rate and is emptied by what is done."""

from __future__ import annotations

import threading
import time
from collections import OrderedDict
from collections.abc import Callable

Clock = Callable[[], float]


class Bucket:
    """Holds up to `most`, refilled by `rate` a second. Not for two threads at once."""

    def __init__(self, rate: float, most: float, clock: Clock = time.monotonic) -> None:
        self.rate, self.most, self.clock = rate, most, clock
        self.held, self.at = most, clock()

    def take(self, amount: float = 1.0) -> float:
        """Take it, and tell how many seconds it is until that much was there: 0 where it was there already."""
        now = self.clock()
        self.held = min(self.most, self.held + (now - self.at) * self.rate)
        self.at = now
        self.held -= amount
        return max(0.0, -self.held / self.rate)


class Paces:
    """A bucket for each name, the `names` used last; what is too fast is refused and costs nothing."""

    def __init__(self, rate: float, most: float, names: int = 1024, clock: Clock = time.monotonic) -> None:
        self.rate, self.most, self.names, self.clock = rate, most, names, clock
        self.buckets: OrderedDict[str, Bucket] = OrderedDict()
        self.lock = threading.Lock()

    def allows(self, name: str) -> bool:
        with self.lock:
            bucket = self.buckets.setdefault(name, Bucket(self.rate, self.most, self.clock))
            self.buckets.move_to_end(name)
            while len(self.buckets) > self.names:
                self.buckets.popitem(last=False)
            if bucket.take() > 0:
                bucket.held += 1.0
                return False
            return True
