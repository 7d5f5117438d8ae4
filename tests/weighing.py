"""What a page weighs that is opened for the first time."""

from __future__ import annotations

import gzip
import re
from pathlib import Path

# How a built script names the scripts and styles it cannot do without; what it asks for later stands in import(...).
_NEEDS = re.compile(r"""(?:from|import)\s*["']\./([\w.-]+\.js)["']""")
_LINKED = re.compile(r"""(?:src|href)=["'](?:\./|/)?assets/([\w.-]+\.(?:js|css))["']""")


def at_first(static: Path, *rooms: str) -> list[Path]:
    """Scripts and styles that shelf, read-through and the rooms named ("bench") load before anything is asked for.

    What is fetched later counts apart: hands-free, pairing, size, charts, the worker.
    """
    assets = static / "assets"
    wanted = _LINKED.findall((static / "index.html").read_text(encoding="utf-8"))
    wanted += [p.name for room in rooms for p in assets.glob(f"{room}-*") if p.suffix in (".js", ".css")]
    found: dict[str, Path] = {}
    while wanted:
        name = wanted.pop()
        if name in found:
            continue
        found[name] = assets / name
        if name.endswith(".js"):
            wanted += _NEEDS.findall(found[name].read_text(encoding="utf-8"))
    return sorted(found.values())


def squeezed(paths: list[Path]) -> int:
    """Bytes of these files as they travel, gzipped."""
    return sum(len(gzip.compress(path.read_bytes(), mtime=0)) for path in paths)
