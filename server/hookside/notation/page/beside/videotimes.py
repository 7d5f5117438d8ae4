"""Where a page tells at what time of a video something is shown: "BODY [01:10]". They are taken out; the length stays.

Left in, "MUZZLE [23:15]" would be twenty-three muzzles, and "[14:20] Fill the body" would ask for nothing.
"""

from __future__ import annotations

import itertools
import re

from hookside.notation.sought import Sought

_CLOCK = r"(?:\d{1,2}:)?\d{1,2}:[0-5]\d"
_LEAD = r"(?:(?:at|from|see|video|time|min(?:ute)?\.?|t ?=)[ :]*|@ ?|\u25b6\ufe0f? ?|\u23f1\ufe0f? ?)"
_BRACKETED = Sought(
    r"[\[(][^\d\[\]()\n]{0,12}\d{1,2}:\d\d",
    rf"[\[(] ?{_LEAD}?(?P<at>{_CLOCK})(?: ?(?:-|\u2013|to) ?{_CLOCK})?"
    r"(?: ?(?:min(?:ute)?s?|in the video|on video))? ?[\])]",
    re.I,
)
_LED = Sought(
    r"[@tT\u25b6\u23f1][\ufe0f ]{0,2}\d{1,2}:\d\d",
    rf"(?:(?<![A-Za-z])at |@ ?|[\u25b6\u23f1]\ufe0f? ?)(?P<at>{_CLOCK})(?! ?[:\d])(?: (?:in|of|on) the video)?",
    re.I,
)
# "0:30 BODY", "ARMS - 12:20": ahead of a name or behind it, and no label with its stitches ("12:20 sc")
_BARE = re.compile(
    rf"^(?P<at>{_CLOCK})[ :|\u2013-]{{1,4}}(?=[A-Za-z][A-Za-z ,]{{2,40}}(?:\d{{1,2}})?$)"
    r"(?!(?:sc|[hd]?dc|h?tr|inc|dec|ch)\b)|"
    rf"(?:(?<=[A-Za-z])|(?<=\d)(?=[ ][|\u2013-]))[ :|\u2013-]{{1,4}}(?P<behind>{_CLOCK})$",
    re.M,
)
_SHOWN = ("video", "timestamp", "time stamp", "youtube", "film", "recording", "minutes in", "reel", "clip")
_MAYBE = re.compile(r":(?<=\d:)[0-5]\d")
_FEWEST = 3  # times that rise down the page, where no word tells what they are


def without(text: str) -> str:
    """The page without such times, where a word of it or their rising tells that they are no numbers of the work."""
    if ":" not in text or not _MAYBE.search(text):
        return text
    low = text.lower()
    clocks = [m["at"] for m in _BRACKETED.finditer(text) if not _sized(m)]
    told = any(word in low for word in _SHOWN) or any(at[0] == "0" for at in clocks)
    times = [_seconds(at) for at in clocks]
    rising = all(a <= b for a, b in itertools.pairwise(times))
    if not (rising and (told or len(times) >= _FEWEST)):
        return text
    text = _BRACKETED.sub(lambda m: m[0] if _sized(m) else " " * len(m[0]), text)
    if not told:
        return text
    bare = [_seconds(m["at"] or m["behind"]) for m in _BARE.finditer(text)]
    if len(bare) > 1 and all(a <= b for a, b in itertools.pairwise(bare)):
        text = _BARE.sub(lambda m: " " * len(m[0]), text)
    return _LED.sub(lambda m: " " * len(m[0]), text)


def _sized(match: re.Match[str]) -> bool:
    """ "10 (12:14) sc": a number for each of three sizes, which never gets less."""
    first, _, last = match["at"].rpartition(":")
    before = match.string[: match.start()].rstrip(" ")[-1:]
    return match[0][0] == "(" and before.isdigit() and first.isdigit() and first[0] != "0" and int(first) <= int(last)


def _seconds(clock: str) -> int:
    whole = 0
    for part in clock.split(":"):
        whole = 60 * whole + int(part)
    return whole
