"""The state machine of tests/journal/restless.py for ten thousand steps and more.

    python tests/long/machine.py [--steps 10000] [--seed 1] [--out FILE]

Two devices with outboxes at one journal; messages are dropped, doubled and come out of turn, the journal is restarted,
its pattern changed, a backup made and put back, in any order that hypothesis thinks of. The last line printed is the
result as JSON: how many steps were done, of which kinds; exit 1 where anything that must hold did not.
"""

from __future__ import annotations

import argparse
import sys
import traceback
from pathlib import Path
from typing import Any

HERE = Path(__file__).resolve().parent
sys.path[:0] = [str(HERE), str(HERE.parent / "journal")]

from _house import finish, now  # noqa: E402
from hypothesis import HealthCheck, Phase, settings  # noqa: E402
from hypothesis.stateful import run_state_machine_as_test  # noqa: E402
from restless import Restless  # noqa: E402

STEPS_EACH = 40  # at most, in one run from a fresh journal on


def run(steps: int, seed: int) -> dict[str, Any]:
    started = now()
    wrong, rounds = "", 0

    class Machine(Restless):
        done = 0

        def check_invariants(self, *values: Any, **named: Any) -> None:
            Machine.done += 1
            super().check_invariants(*values, **named)

    ways = settings(
        max_examples=25, stateful_step_count=STEPS_EACH, deadline=None, database=None,
        phases=[Phase.generate, Phase.shrink], suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    while Machine.done < steps and not wrong:
        Machine._hypothesis_internal_use_seed = seed + rounds  # what hypothesis.seed sets: other steps each round
        rounds += 1
        try:
            run_state_machine_as_test(Machine, settings=ways)
        except Exception:
            wrong = traceback.format_exc(limit=-6)
            print(wrong, flush=True)
    return {
        "steps": Machine.done,
        "seed": seed,
        "done": dict(sorted(Restless.deeds.items())),
        "wrong": wrong[-2000:],
        "seconds": round(now() - started, 1),
    }


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--steps", type=int, default=10_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--out", type=Path)
    asked = parser.parse_args()
    result = run(asked.steps, asked.seed)
    return finish(result, not result["wrong"] and result["steps"] >= asked.steps, asked.out)


if __name__ == "__main__":
    sys.exit(main())
