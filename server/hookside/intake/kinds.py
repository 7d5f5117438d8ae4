"""What a file is, by its first bytes; its name is only a hint."""

from __future__ import annotations

import re

from hookside.intake.taken import CannotTake

# First bytes of what people hand over by mistake, and what to do instead.
_OTHERS: tuple[tuple[bytes, str], ...] = (
    (b"PK\x03\x04", "an office document or a zip archive: save it as PDF or as plain text"),
    (b"\xd0\xcf\x11\xe0", "an old office document: save it as PDF or as plain text"),
    (b"{\\rtf", "a rich text document: save it as PDF or as plain text"),
    (b"\x89PNG", "a picture, and Hookside reads no pictures: type the rounds, or find the pattern as text"),
    (b"\xff\xd8\xff", "a photo, and Hookside reads no pictures: type the rounds, or find the pattern as text"),
    (b"GIF8", "a picture, and Hookside reads no pictures: type the rounds, or find the pattern as text"),
    (b"\x1f\x8b", "a packed file: unpack it first"),
    (b"Rar!", "a packed file: unpack it first"),
    (b"7z\xbc\xaf", "a packed file: unpack it first"),
)
_MARKUP = re.compile(rb"<(?:!doctype\s+html|html|head|body|article|div|table)\b", re.IGNORECASE)

# A piece of a page, saved without its head: "<p>Rnd 1: ..."
_BEGINS_MARKED = re.compile(
    rb"(?:\xef\xbb\xbf)?\s*<(?:p|h[1-6]|ul|ol|section|main|header|pre)(?:\s[^<>]*)?>", re.IGNORECASE
)


def kind(data: bytes, name: str) -> str:
    """ "pdf", "html" or "text". CannotTake, with a sentence, for anything else."""
    if not data.strip():
        raise CannotTake(f"{name} is empty: choose the file with the pattern in it.")
    if b"%PDF-" in data[:1024]:
        return "pdf"
    for first, what in _OTHERS:
        if data.startswith(first):
            raise CannotTake(f"{name} is {what}.")
    if _MARKUP.search(data[:4096]) or _BEGINS_MARKED.match(data[:4096]):
        return "html"
    return "text"
