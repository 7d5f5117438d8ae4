"""Files over HTTP."""

from __future__ import annotations

import json
from typing import Any

from hookside.intake import LARGEST_FILE


def send(house: Any, data: bytes, name: str) -> tuple[int, dict[str, Any]]:
    status, _, body = house.raw("POST", f"/api/file?name={name}", data, {"Content-Type": "application/octet-stream"})
    return status, json.loads(body)


def test_a_file_becomes_its_text(house: Any) -> None:
    status, found = send(house, "Rnd 1: 6 sc \u2013 ring (6)".encode(), "seal.txt")
    assert (status, found) == (200, {"text": "Rnd 1: 6 sc \u2013 ring (6)", "kind": "text", "said": []})


def test_what_is_no_pattern_is_said(house: Any) -> None:
    status, found = send(house, b"PK\x03\x04", "seal.docx")
    assert status == 422
    assert found["say"].startswith("seal.docx is an office document")


def test_a_file_may_be_large_and_nothing_else_may(house: Any) -> None:
    large = b"a line\n" * (3 << 17)
    status, found = send(house, large, "long.txt")
    assert status == 413
    assert found["say"].startswith("long.txt holds 2,688 kB of text, and Hookside reads up to 256 kB:")
    status, _, _ = house.raw("POST", "/api/read", large, {"Content-Type": "application/json"})
    assert status == 413
    assert LARGEST_FILE == 20 << 20
    status, _, told = house.raw("POST", "/api/file?name=x.pdf", b"", {"Content-Length": str(LARGEST_FILE + 1)})
    assert (status, b"20 MB" in told) == (413, True)
