"""A whole piece told by its counts in one line: "Body: ring 6 / 12 / 18 / 18 / 12 / 6." Each count gets its own line.

Blanks and signs become ends of lines; the length stays.
"""

from __future__ import annotations

import re

_SEAM = r"[ ]?[/>,-]{1,2}[ ]"
_RUN = re.compile(
    r"^(?P<name>[ ]{0,8}[A-Z][A-Za-z' ]{2,30}[:.-](?=[ ]))?[ ]*"
    r"(?P<run>(?:start(?:ing)? with |begin with )?(?:a )?(?:magic )?(?:ring|mr|loop|circle)(?: of)?[ ]\d{1,3}"
    rf"(?:{_SEAM}\d{{1,3}}(?![\d%]| ?(?:sc|[hd]?dc|h?tr|mm|cm|inc|dec)\b)){{3,60}})(?P<stop>[.]?)(?P<end>[ ]|$)",
    re.M | re.I,
)
_SIGN = re.compile(r"[ ]?[/>,-]{1,2}[ ]")


def parted(text: str) -> str:
    """The page with such runs a count a line."""

    def lines(match: re.Match[str]) -> str:
        run = _SIGN.sub(lambda m: "\n".rjust(len(m[0])), match["run"])
        head = match[0][: match.start("run") - match.start()]
        head = head[:-1] + "\n" if match["name"] else head
        return head + run + " " * len(match["stop"]) + ("\n" if match["end"] else "")

    return _RUN.sub(lines, text) if "ing " in text or "mr " in text.lower() else text
