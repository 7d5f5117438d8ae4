"""Files that mean harm, and files that are something else: a sentence, and nothing lost."""

from __future__ import annotations

import zlib
from typing import Any

import pytest

from hookside.intake import LARGEST_FILE, CannotTake, take
from hookside.intake import child as child_module


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "empty"), (b"  \n\t ", "empty"), (b"PK\x03\x04rest", "office document"), (b"\x89PNG\r\n", "picture"),
        (b"\xff\xd8\xff\xe0", "photo"), (b"\x1f\x8bzip", "packed"), (b"\x00\x01\x02\x03", "no text"),
        (b"%PDF-1.4\nand nothing behind it", "damaged"), (b"%PDF-1.7\n" + b"\xff" * 5000, "damaged"),
        (b"x" * (LARGEST_FILE + 1), "larger than 20 MB"),
    ],
)  # fmt: skip
def test_what_is_no_pattern_is_said_in_one_sentence(data: bytes, says: str) -> None:
    with pytest.raises(CannotTake, match=says) as told:
        take(data, "seal.pdf")
    assert str(told.value).startswith("seal.pdf ")
    assert "\n" not in str(told.value)


def test_a_pdf_cut_short_anywhere_never_falls_over(make: Any, down: Any) -> None:
    whole = make([down(["Buoy", "Rnd 1: 6 sc in magic ring (6)"])])
    for share in (0.3, 0.6, 0.9, 0.97):
        assert "Rnd 1" in text_or_sentence(whole[: int(len(whole) * share)])


def text_or_sentence(data: bytes) -> str:
    """The text of a file; where none comes out, the sentence with "Rnd 1" behind it."""
    try:
        return take(data, "cut.pdf").text
    except CannotTake as e:
        return f"{e} (no Rnd 1)" if str(e).endswith(".") else ""


def test_a_page_that_unpacks_without_end_is_bounded(make: Any, down: Any) -> None:
    bomb = zlib.compress(b"0" * (400 << 20), 9)
    told = b"%PDF-1.4\n1 0 obj\n<< /Type /Catalog /Pages 2 0 R >>\nendobj\n"
    told += b"2 0 obj\n<< /Type /Pages /Kids [3 0 R] /Count 1 >>\nendobj\n"
    told += b"3 0 obj\n<< /Type /Page /Parent 2 0 R /MediaBox [0 0 9 9] /Contents 4 0 R >>\nendobj\n"
    told += b"4 0 obj\n<< /Length %d /Filter /FlateDecode >>\nstream\n%s\nendstream\nendobj\n" % (len(bomb), bomb)
    told += b"trailer\n<< /Root 1 0 R >>\n"
    with pytest.raises(CannotTake):
        take(told, "bomb.pdf")


def test_pages_that_go_round_in_a_circle(make: Any) -> None:
    told = b"%PDF-1.4\n1 0 obj\n<< /Type /Catalog /Pages 2 0 R >>\nendobj\n"
    told += b"2 0 obj\n<< /Type /Pages /Kids [2 0 R] /Count 1 >>\nendobj\ntrailer\n<< /Root 1 0 R >>\n"
    with pytest.raises(CannotTake):
        take(told, "circle.pdf")


@pytest.mark.parametrize(
    "attempt",
    [
        "import socket; socket.create_connection(('127.0.0.1', 9), 1)",
        "import subprocess; subprocess.run(['true'])",
        "import os; os.system('true')",
        "open('/tmp/hookside-was-here', 'w')",
    ],
)
def test_there_is_no_way_out_of_the_process(attempt: str) -> None:
    """Each attempt is made in a process that was shut in as a file's is; it must be refused, not merely fail."""
    import subprocess
    import sys

    script = (
        "from hookside.intake.child import shut_in\nimport socket, subprocess, os\nshut_in()\n"
        f"try:\n    {attempt}\nexcept PermissionError as e:\n    print('refused', 'not for a file' in str(e))\n"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert done.stdout.strip() == "refused True", done.stderr


def test_names_are_said_as_they_are_and_shortened() -> None:
    with pytest.raises(CannotTake) as told:
        take(b"", "a\n" + "b" * 500)
    assert len(str(told.value)) < 200
    assert child_module.SECONDS <= 10
