"""What sentences of their own tell behind the name of a part, in the line that names it: "Legs. 4 pieces. Begin with
brown", "Head, grey. Begin at the nose.", "Body with neck. Yellow".

The line is then read as its name and its copies; what is told of colors and of how the part is begun names nothing.
"""

from __future__ import annotations

import re

from hookside.colours import COLOURS
from hookside.notation.askings.colournames import is_colour
from hookside.notation.lines.copies.asked import copies
from hookside.notation.lines.heads.parts import PARTS

_ENDS = re.compile(
    r"(?<=[A-Za-z\d)])(?<!\b[Nn]o)(?<!\b[Nn]r)(?<!\b[Qq]ty)(?<!\b[Cc]ol)(?<!\b[Pp]t)(?<!\b[Pp])"
    r"\.\s+(?=[A-Za-z\d])"
)  # not "Leg no. 2", "Snout (col. 2)"
_BEGUN = re.compile(
    r"(?:(?:begin|start|work|made|crochet)(?:ing|ning|ed|s)? "
    r"(?:at|from|with|in|flat|sideways|top|bottom)\b|(?:begun|started) (?:at|with|in)\b|(?:all )?in one piece$)"
    r"[^\d,;:.]{0,40}$",
    re.I,
)
_SHADE = re.compile(r"(?:(?:in|with|use|using|colou?r) )?(?P<shade>[A-Za-z]+(?: [A-Za-z]+)?)(?: yarn)?", re.I)
_MOST_WORDS = 5  # of a name
_MOST_OF_COPIES = 3  # "Make two of", "2 pieces alike"
_LONGEST = 90  # letters of such a line


def _shade(chunk: str) -> bool:
    told = _SHADE.fullmatch(chunk)
    return told is not None and (is_colour(told["shade"]) or told["shade"].lower().split()[-1] in COLOURS)


def told_behind(text: str) -> str | None:
    """The name with what is told of its copies behind a comma; None for any other line."""
    if ". " not in text or len(text) > _LONGEST:
        return None
    name, *told = _ENDS.split(text.strip(" .*_"))
    words = re.findall(r"[a-z]+", name.lower().split(",")[0])  # "Fasten off, leave a tail. Make four." is a job
    if not told or not 0 < len(words) <= _MOST_WORDS or not (PARTS.intersection(words) or words[0] + "s" in PARTS):
        return None
    if words[0] not in PARTS and words[0] != "the" and len(words) > 1 and not name[0].isupper():
        return None
    kept = [name]
    for chunk in told:
        if copies(f"{name}, {chunk}")[1] > 1 and len(chunk.split()) <= _MOST_OF_COPIES:
            kept.append(chunk)
        elif not (_shade(chunk) or _BEGUN.match(chunk)):
            return None
    return ", ".join(kept)


def before_how(text: str) -> str:
    """The line without a last sentence of how the part is begun, where that names no color: "Head, grey"."""
    if ". " not in text or told_behind(text) is None:
        return text
    last = max(m.start() for m in _ENDS.finditer(text.rstrip(" .*_")))
    behind = text[last + 1 :].strip(" .*_")
    dyed = any(word in COLOURS for word in re.findall(r"[a-z]+", behind.lower()))
    return text[:last] if _BEGUN.match(behind) and not dyed else text
