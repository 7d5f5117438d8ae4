"""A PDF at the command line."""

from __future__ import annotations

import importlib.util
from pathlib import Path

from click.testing import CliRunner

from hookside.cli import main

SHEETS = Path(__file__).resolve().parents[1] / "intake" / "conftest.py"


def test_a_pdf_is_read_like_its_text(tmp_path: Path) -> None:
    spec = importlib.util.spec_from_file_location("sheets", SHEETS)
    assert spec is not None
    assert spec.loader is not None
    sheets = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(sheets)
    lines = ["Float", "US terms", "", "Float", "Rnd 1: 6 sc in magic ring (6)", "Rnd 2: inc x 6 (12)", "Fasten off."]
    file = tmp_path / "float.pdf"
    file.write_bytes(sheets.sheets([sheets.column(lines), []]))
    done = CliRunner().invoke(main, ["compile", str(file)])
    assert done.exit_code == 0, done.output
    assert "round 2        6    12      12   inc x 6" in done.output
    assert "No text was found on page 2" in done.stderr
    file.write_bytes(b"%PDF-1.4 and no more")
    done = CliRunner().invoke(main, ["compile", str(file)])
    assert done.exit_code == 2
    assert "damaged PDF" in done.output
