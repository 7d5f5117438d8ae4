"""Words that speak of several copies of a part that is made once by all that its heading says: "Sew both ears on.",
"Attach the four legs", "one wing on each side", "sew the ears to the head".

A number makes it another number than the one that is counted; a plural alone may mean more than one, and is asked.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from hookside.notation.lines.layout import RawPiece
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import COPIES, number_of
from hookside.stitches import singular

_ATTACH = r"(?:sew|attach|stitch|pin|glue|fasten|fix|tack|place|position|assemble)"
_MANY = (
    rf"(?:both(?: of)?(?: (?:the|your))?|(?:the|your|all)(?: (?:the|your))? {COPIES}|{COPIES}|"
    r"(?:the|your) (?:pair|set) of)"
)
_PLURAL = r"(?P<what>[a-z]{3,20}s|feet|teeth|leaves|wolves)\b(?!['\u2019])"
# "sew both small ears", "attach the legs": a few words lie between the verb and what is attached
_TOLD = re.compile(
    rf"\b{_ATTACH}(?:ing)?(?: (?:on|down|together|up))?(?: [a-z]+,?(?: and)?){{0,3}}? "
    rf"(?:(?P<many>{_MANY})|(?P<some>the|your|all)) (?:[a-z]+ )??{_PLURAL}|"
    rf"\b{_ATTACH} {_PLURAL.replace('what', 'what2')} (?:on|to|in|at|onto)\b|"
    rf"\b(?P<both>both(?: of)?(?: (?:the|your))?) (?:[a-z]+ )??{_PLURAL.replace('what', 'what3')}",
    re.I,
)
# "sew the first ear on the left, the second one on the right"
_SECOND = Sought(
    ("first ", "one ", "1st "),
    rf"\b{_ATTACH} (?P<words>(?:the|your) (?:first|one|1st) (?:[a-z]+ )??(?P<what>[a-z]{{3,20}})\b[^.;\n]{{0,60}}?"
    r"\b(?:the|your) (?:second|other|2nd|next))\b",
    re.I,
)
# "sew both on", "attach the pair to the back": what stands above
_THESE = re.compile(
    rf"\b{_ATTACH} (?P<many>both(?: of (?:them|these))?|the pair|(?:all|the) {COPIES})"
    r"(?= (?:on|to|in|at|onto|down|behind|below|under|beside)\b|[ .!]*$)",
    re.I,
)
# "one wing on each side", "an ear on either side"
_ON_EACH = Sought(
    (" each ", " either ", " both "),
    r"\b(?P<words>(?:an?|one|1) (?:[a-z]+ )??(?P<what>[a-z]{3,20}) (?:on(?:to)?|at|to|in) (?:each|either|both) "
    r"(?:sides?|end|corner|shoulder|foot|hand))\b",
    re.I,
)
_HINT = re.compile(r"[sapgfteb](?<!\w.)(?:(?<=s)(?:ew|titch)|(?<=a)(?:ttach|ssemble)|(?<=p)(?:in|lace|osition)|"
                   r"(?<=g)lue|(?<=f)(?:asten|ix)|(?<=t)ack|(?<=e)(?:ach|ither)|(?<=b)oth)")  # in small letters
# Of these a part may have several of its own
_NO_PARTS = frozenset(["side", "end", "edge", "round", "row", "piece", "part", "corner", "stitch", "loop", "tail"])


class Several(NamedTuple):
    """Where it is told in the line, of which part, and the number (0: a plural alone)."""

    start: int
    end: int
    piece: RawPiece
    n: int


def several_told(line: str, by_name: dict[str, list[RawPiece]], here: RawPiece | None) -> Iterator[Several]:
    """What a line says of parts that are counted once. `here`: the part that the line stands in."""
    if not _HINT.search(line.lower()):
        return
    for told in _TOLD.finditer(line):
        what = next(name for name in ("what", "what2", "what3") if told[name])
        one, number = _made_once(told[what], by_name), told["many"] or told["both"]
        plain = one is not None and not number and singular(one.name.lower()) != one.name.lower()
        if one is None or plain or (many := _number(number) if number else 0) == 1:
            continue
        begins = next((name for name in ("many", "some", "both") if told[name]), what)
        yield Several(told.start(begins), told.end(what), one, many)
        return
    for told in (*_ON_EACH.finditer(line), *_SECOND.finditer(line)):
        one = _made_once(told["what"], by_name)
        if one is not None:
            yield Several(*told.span("words"), one, 2)
            return
    these = _THESE.search(line)
    if these is not None and here is not None and here.make == 1 and here.name and _number(these["many"]) > 1:
        yield Several(*these.span("many"), here, _number(these["many"]))


def _made_once(what: str, by_name: dict[str, list[RawPiece]]) -> RawPiece | None:
    """The one part of that name, where one of it is counted."""
    name = singular(what.lower())
    parts = by_name.get(name, []) if name not in _NO_PARTS else []
    return parts[0] if len(parts) == 1 and parts[0].make == 1 else None


def _number(words: str) -> int:
    last = re.split(r"\W+", words.lower().removesuffix(" of"))[-1]
    return 2 if words.lower().startswith("both") or last == "pair" else number_of(last) if last != "set" else 0
