"""What stands on the page and is not to be followed: struck out, hidden, or a footnote's raised mark."""

from __future__ import annotations

import re

# (start, end, how it stands there), offsets of the original
Struck = tuple[int, int, str]

_STRUCK = re.compile(r"(?<![\w~])~~(?=[^\s~])[^~\n]{1,400}?(?<=[^\s~])~~(?!~)")
_OPENS = re.compile(
    r"<(?:(?P<out>del|s|strike)|(?P<kept>template)|(?P<raised>sup)|(?P<name>[a-z][a-z0-9]{0,15})(?=\s[^<>]{0,500}?"
    r"(?:(?<=\s)hidden(?=[\s=>/])|display\s{0,3}:\s{0,3}none|visibility\s{0,3}:\s{0,3}hidden)))(?:\s[^<>]{0,1000})?>",
    re.I,
)
# Elements that end where the next of them begins, closed or not (HTML, "optional tags")
_ENDED = {
    "p": r"</?p\b|<(?:div|h[1-6]|ul|ol|table|hr|section|article)\b|</(?:div|body|td|section|article)\b",
    "li": r"</?li\b|</(?:ul|ol|body)\b",
    "tr": r"</?tr\b|</(?:table|tbody|body)\b",
    "td": r"</?td\b|</?tr\b|</(?:table|tbody|body)\b",
}
_MARK = re.compile(r"\s*[\[(]?\s*(?:\d{1,2}|\*{1,3}|[a-z]|[\u2020\u2021])\s*[\])]?\s*", re.I)
_ANY_TAG = re.compile(r"<[^<>\n]{0,1000}>")
_MOST_QUOTED = 60


def without(text: str) -> tuple[str, list[Struck]]:
    """Such words become spaces, so that the length stays -> (text, what was taken away)."""
    found: list[Struck] = []
    if "~~" in text:
        found += [(*m.span(), "struck out") for m in _STRUCK.finditer(text)]
    if "</" in text:
        found += _tagged(text)
    out, at = [], 0
    for start, end, _ in sorted(found):
        if start >= at:
            out += [text[at:start], "".join("\n" if c == "\n" else " " for c in text[start:end])]
            at = end
    return "".join([*out, text[at:]]), sorted(found)


def quoted(text: str, start: int, end: int) -> str:
    """The struck words themselves, without their signs, as far as a sentence can hold them."""
    words = " ".join(_ANY_TAG.sub(" ", text[start:end]).replace("~~", " ").split())
    return words if len(words) <= _MOST_QUOTED else words[:_MOST_QUOTED].rsplit(" ", 1)[0] + " ..."


def _tagged(text: str) -> list[Struck]:
    """Elements that strike their words out or hide them. A name that is never closed is looked for once."""
    found: list[Struck] = []
    never: set[str] = set()
    at = 0
    while (match := _OPENS.search(text, at)) is not None:
        name = (match["out"] or match["kept"] or match["raised"] or match["name"]).lower()
        at = match.end()
        end = None if name in never else _closed(text, name, at)
        if end is None:
            never.add(name)
        elif match["raised"] is None:
            found.append((match.start(), end, "struck out" if match["out"] else "hidden"))
            at = end
        elif _MARK.fullmatch(text, at, text.rindex("<", at, end)):
            found.append((match.start(), end, "raised, as the mark of a footnote is"))
            at = end
    return found


def _closed(text: str, name: str, at: int) -> int | None:
    """Where the element that is open at `at` ends, others of its name inside it counted."""
    ends = re.compile(_ENDED[name], re.I).search(text, at) if name == "p" else None
    if ends is not None:
        return text.find(">", ends.start()) + 1 if ends[0].lower() == "</p" else ends.start()
    deep = 1
    for tag in re.compile(rf"<(?P<end>/?){name}\b[^<>]{{0,1000}}>", re.I).finditer(text, at):
        deep += -1 if tag["end"] else 1
        if not deep:
            return tag.end()
    ends = re.compile(_ENDED[name], re.I).search(text, at) if name in _ENDED else None
    return ends.start() if ends is not None else None
