"""A short run of the state machine; tests/long/machine.py lets it go on for ten thousand steps."""

from __future__ import annotations

from hypothesis import HealthCheck, settings
from restless import Restless

TestRestless = Restless.TestCase
TestRestless.settings = settings(
    max_examples=20, stateful_step_count=25, deadline=None, suppress_health_check=list(HealthCheck)
)
