"""PDF files made by hand: the least that a reader of PDF takes (ISO 32000-1, 7.5)."""

from __future__ import annotations

import zlib
from collections.abc import Callable, Sequence

import pytest

A4 = (595.0, 842.0)
Line = tuple[float, float, str] | tuple[float, float, str, float]  # from the left, from the top, in points; own size


def sheets(pages: Sequence[Sequence[Line]], size: float = 11.0, packed: bool = True, mark: str = "") -> bytes:
    """A PDF with these lines on its pages, in Helvetica; `mark` stands aslant across each."""
    objects: list[bytes] = [b"<< /Type /Catalog /Pages 2 0 R >>", b""]
    objects.append(b"<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>")
    kids = []
    for lines in pages:
        told = "".join(
            f"BT /F1 {own[0] if own else size} Tf 1 0 0 1 {x} {A4[1] - y} Tm ({_escaped(text)}) Tj ET\n"
            for x, y, text, *own in lines
        )
        if mark:
            told = f"BT /F1 40 Tf 0.77 0.64 -0.64 0.77 100 300 Tm ({_escaped(mark)}) Tj ET\n" + told
        body = zlib.compress(told.encode("cp1252")) if packed else told.encode("cp1252")
        how = b" /Filter /FlateDecode" if packed else b""
        objects.append(b"<< /Length %d%s >>\nstream\n%s\nendstream" % (len(body), how, body))
        objects.append(
            b"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 %d %d] /Contents %d 0 R "
            b"/Resources << /Font << /F1 3 0 R >> >> >>" % (*A4, len(objects))
        )
        kids.append(b"%d 0 R" % len(objects))
    objects[1] = b"<< /Type /Pages /Kids [%s] /Count %d >>" % (b" ".join(kids), len(kids))
    out = b"%PDF-1.4\n"
    places = []
    for number, body in enumerate(objects, start=1):
        places.append(len(out))
        out += b"%d 0 obj\n%s\nendobj\n" % (number, body)
    table = b"".join(b"%010d 00000 n \n" % place for place in places)
    start = len(out)
    out += b"xref\n0 %d\n0000000000 65535 f \n%s" % (len(objects) + 1, table)
    return out + b"trailer\n<< /Size %d /Root 1 0 R >>\nstartxref\n%d\n%%%%EOF\n" % (len(objects) + 1, start)


def _escaped(text: str) -> str:
    return text.replace("\\", "\\\\").replace("(", "\\(").replace(")", "\\)")


def column(lines: Sequence[str], x: float = 60.0, y: float = 80.0, step: float = 15.0) -> list[Line]:
    return [(x, y + i * step, text) for i, text in enumerate(lines) if text]


@pytest.fixture
def make() -> Callable[..., bytes]:
    return sheets


@pytest.fixture
def down() -> Callable[..., list[Line]]:
    return column
