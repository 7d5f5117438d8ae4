"""Lines that a page sets in below their first: the blanks go, so that words stand one blank apart."""

from __future__ import annotations

import re

# "Rnd 3: sc in next 3 sts, sc two" and, set in, "    sts together"
_SET_IN = re.compile(r"(?<=\S\n)[ ]{2,12}(?=[^\s|])")


def hung(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page without the blanks before such lines -> (text, the way back)."""
    cuts = [m.span() for m in _SET_IN.finditer(text)]
    if not cuts:
        return text, offsets
    kept: list[str] = []
    way: list[int] = []
    at = 0
    for start, end in [*cuts, (len(text), len(text))]:
        kept.append(text[at:start])
        way.extend(range(at, start))
        at = end
    return "".join(kept), way if offsets is None else [offsets[i] for i in way]
