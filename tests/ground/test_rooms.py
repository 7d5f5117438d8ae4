"""The map of the reader is the first line of each file: every file has one, and every folder is in the guide."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
NOTATION = ROOT / "server" / "hookside" / "notation"
FILES = sorted(NOTATION.rglob("*.py"))
_FEWEST = 5  # words that say anything


@pytest.mark.parametrize("file", FILES, ids=[str(file.relative_to(NOTATION)) for file in FILES])
def test_a_file_says_what_it_reads(file: Path) -> None:
    told = ast.get_docstring(ast.parse(file.read_text(encoding="utf-8"))) or ""
    assert len(told.split("\n\n")[0].split()) >= _FEWEST, f"{file.name} does not say what it reads"


def test_every_folder_is_in_the_guide() -> None:
    guide = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    folders = {file.parent.relative_to(NOTATION) for file in FILES} - {Path()}
    missing = [str(folder) for folder in sorted(folders) if f"{folder}/" not in guide]
    assert not missing, f"DEVELOPERS.md does not name {', '.join(missing)}"
