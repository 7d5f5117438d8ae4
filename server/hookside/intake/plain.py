"""Bytes of plain text into text, whatever they were written with."""

from __future__ import annotations

from hookside.intake.taken import CannotTake

LARGEST_TEXT = 256 * 1024  # bytes: what is read at once


def plain(data: bytes, name: str) -> str:
    """UTF-8, UTF-16 with its mark, else Windows-1252. CannotTake for what is no text."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        try:
            return data.decode("utf-16")
        except UnicodeDecodeError:
            pass
    if b"\x00" in data:
        raise CannotTake(f"{name} is no text: save the pattern as plain text or as PDF.")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", "replace")
