"""A short run of the state machine; tests/long/machine.py lets it go on for ten thousand steps."""

from __future__ import annotations

from hypothesis import HealthCheck, settings
from restless import Restless

TestRestless = Restless.TestCase
TestRestless.settings = settings(
    max_examples=20, stateful_step_count=25, deadline=None, suppress_health_check=list(HealthCheck)
)


def test_a_device_that_learnt_of_another_strand_while_older_moves_waited() -> None:
    """What lies aside of it is told on the strand each move was made on, after a restart too."""
    state = Restless()
    state.begin()
    state.tap(device="tablet", how="waits", kind="next", number=37, run="p3.c1", taps=3, unit="stitch")
    state.the_pattern_is_changed(device="tablet", stay=False, text=2)
    state.settles(device="phone", theirs=True)
    state.joins(device="tablet", put_back=False)
    state.work_on(device="phone", how="comes twice", taps=8, unit="repeat")
    state.joins(device="phone", put_back=False)
    state.work_on(device="phone", how="arrives", taps=8, unit="stitch")
    state.work_on(device="tablet", how="is late", taps=2, unit="repeat")
    state.tap(device="tablet", how="arrives", kind="back", number=24, run="p3.c1", taps=1, unit="repeat")
    state.memory_is_a_replay_of_the_rows()
    state.what_was_acknowledged_is_there()
    state.teardown()
