"""Several threads at one journal, as the web's connections are; and what a start loads."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
from pathlib import Path
from typing import Any

SERVER = Path(__file__).resolve().parents[2] / "server"


def test_threads_take_turns(desk: Any) -> None:
    """Four devices, each on a run of its own making, and readers between them: nothing is lost, nothing breaks."""
    makings = [desk.making, *(desk.begin() for _ in range(3))]
    troubles: list[BaseException] = []
    answers: list[dict[str, Any]] = []

    def work(making: int) -> None:
        try:
            for n in range(1, 41):
                move = {"id": f"{making:016x}{n:016x}", "device": f"device-{making}", "device_seq": n,
                        "making": making, "run": "p3.c1", "strand": "buoy", "base": 0, "intent": "next",
                        "unit": "stitch"}  # fmt: skip
                answers.extend(desk.journal.moves([move], 0.0))
                desk.journal.snapshot(making)
                desk.journal.makings()
        except BaseException as error:
            troubles.append(error)

    threads = [threading.Thread(target=work, args=(making,)) for making in makings]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert troubles == []
    assert len({answer["row"] for answer in answers}) == 160
    # 40 single stitches from the ring's step 0, three whispers slid past on the way.
    assert {s["state"]["runs"]["p3.c1"]["at"] for m in makings if (s := desk.journal.snapshot(m))} == {43}
    assert desk.journal.check() == []


def test_a_start_with_a_journal_of_this_version_loads_no_migrations(desk: Any, folder: Path) -> None:
    desk.journal.close()
    program = (
        "import sys; from pathlib import Path; from hookside.journal import Journal;"
        "journal = Journal.open(Path(sys.argv[1])); assert len(journal.makings()) == 1;"
        "print([name for name in ('alembic', 'mako', 'lark', 'scipy', 'numpy') if name in sys.modules])"
    )
    environment = {**os.environ, "PYTHONPATH": str(SERVER)}
    done = subprocess.run(
        [sys.executable, "-c", program, str(folder)], env=environment, capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"
