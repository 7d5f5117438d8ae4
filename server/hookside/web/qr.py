"""An address as a QR code, for a terminal and for a page."""

from __future__ import annotations

import io

import segno


def drawn(url: str) -> str:
    """An SVG of its own, dark on light whatever the page's light is: cameras want it so."""
    out = io.BytesIO()
    segno.make(url, micro=False, error="m").save(
        out, kind="svg", scale=4, border=4, dark="#2b1f16", light="#fbf7ee", xmldecl=False, nl=False
    )
    return out.getvalue().decode()


def printed(url: str) -> str:
    """The same in half blocks, for a terminal."""
    out = io.StringIO()
    segno.make(url, micro=False, error="l").terminal(out, border=2, compact=True)
    return out.getvalue()
