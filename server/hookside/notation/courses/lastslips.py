"""Slip stitches behind the words of a round, or a range, that end the piece: "R4-6: sc around (18), ss in next st, FO".

They are worked once, behind the last round, upon what is finished: no stitch gives its place to them. So is the turn
behind a range of rounds that rows follow: "R4-6: 18 sc. Ch 1, turn." in front of row 7.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from hookside.notation.courses.waiting import Parsed, Waiting, lead_chain
from hookside.notation.lines.layout import RawText
from hookside.notation.trees.asked import every
from hookside.notation.trees.nodes import Mark, Work

_NEAR = 12  # rounds above that tell whether rounds are joined
_TURN_NEAR = 60  # letters at the end of a body in which its turn is looked for
_HINT = re.compile(r"\b(?:sl|ss|slst|slip|s\.s)\b", re.I)
_NTH = r"\d{1,2}|one|two|three|four"
_SLIP = re.compile(
    r"(?:\b(?:and|then|now|finally),? ){0,2}(?P<told>(?P<ends>\b(?:finish|end)(?:ing)? (?:off )?with )?"
    rf"(?:\b(?:an?|{_NTH}) )?\b(?:sl\.? ?sts?|slst|ss|s\.s|slip[ -]?stitch(?:es)?)(?![a-z])\.?"
    rf"(?P<next> (?:in|into|to|through|on|across) (?:the |each of (?:the )?)?(?:very )?"
    rf"(?:(?:next|following)(?: (?:{_NTH}))?|first (?:{_NTH})) (?:st(?:itch)?(?:es)?|sts|[hs]?dc|sc|h?tr)(?![a-z]))?"
    rf"(?: (?:{_NTH})(?![\w.]))?"
    r"(?: to (?:finish|close|end|even (?:it )?(?:out|up)|level (?:it|off|the (?:edge|round)))\b)?)",
    re.I,
)
_JOINS = re.compile(r"\b(?:with|by|using|join\w{0,3}|clos\w{0,3})(?: an?| 1| one)?[ :]{0,2}$", re.I)
_CUT = re.compile(
    r"(?P<and>[,;]? (?:and|then|&|n) |[,;] ?)?[\s,.;:!-]{0,4}"
    r"(?:[(\[]? ?\d{1,4} ?(?:sts?|stitches|sc|dc)?[)\]]?[\s,.;:!-]{1,4})?(?:(?:and|then|&|n)\s){0,2}"
    r"(?:fasten|finish off|f[./]?o\b|cut\b|break|bind off|cast off|end off|tie off)",
    re.I,
)
# nothing but its count, and perhaps a full stop
_ENDED = re.compile(r"[\s,.;:!-]{0,4}(?:[(\[]? ?\d{1,4} ?(?:sts?|stitches|sc|dc)?[)\]]?)?[\s.]{0,4}$", re.I)


_TURN = re.compile(
    r"[\s,.;-]{0,3}(?:[(\[] ?\d{1,4} ?(?:sts?|sc|dc)? ?[)\]][\s,.;-]{0,3})?(?:(?:and|then|now) ){0,2}"
    r"(?P<told>(?:ch(?:ain)? ?1(?: st(?:itch)?)?,? ?(?:(?:and|then|&) )?)?turn(?: (?:(?:the|your) )?work)?)"
    r"[\s.!]{0,3}(?:[(\[] ?\d{1,4} ?(?:sts?|sc|dc)? ?[)\]][\s.]{0,3})?$",
    re.I,
)


class LastSlips(NamedTuple):
    """Where the words of them stand in a body, and that body without them."""

    start: int
    end: int
    body: str


def last_slips(
    body: str, behind: str, above: Sequence[Waiting | RawText], parsed: Parsed, *, many: bool, last: bool
) -> LastSlips | None:
    """Those of a body; `behind` is what the page tells behind it, `many`: it is that of a range, `last`: none is below.

    Where rounds are joined, "sl st" alone is the join of each, as is one "to the first stitch" always.
    """
    if _HINT.search(body) is None or lead_chain(parsed.tree.items):
        return None
    for told in _SLIP.finditer(body):
        alone = not told["next"] and not (many and (told["ends"] or not _joined(above)))
        if alone or not body[: told.start()].strip(" ,.;"):
            continue
        if re.match(r"\W{0,3}(?:in|into|to|through|on|across|around|loops?|tog)\b", body[told.end() :], re.I):
            continue
        if _JOINS.search(body, max(0, told.start() - 30), told.start()) is not None or any(
            cue.start <= told.start("told") < cue.end for cue in parsed.phrases.cues
        ):
            continue  # "join with a sl st" is each round's; in an asking they are told by it
        sure = told["next"] or told["ends"]
        cut = _CUT.match(body[told.end() :] + behind)
        if cut is not None or (last and sure and _ENDED.match(body, told.end()) is not None):
            past = min(told.end() + (cut.end("and") if cut is not None and cut["and"] else 0), len(body))
            blank = " " * (past - told.start())
            return LastSlips(*told.span("told"), f"{body[: told.start()]}{blank}{body[past:]}")
    return None


def last_turn(body: str, above: Sequence[Waiting | RawText], parsed: Parsed) -> LastSlips | None:
    """The turn that a range of rounds ends in where rows come next: those that are not turned turn once, at its end."""
    told = _TURN.search(body, max(0, len(body) - _TURN_NEAR)) if "turn" in body[-_TURN_NEAR:].lower() else None
    if told is None or lead_chain(parsed.tree.items) or not body[: told.start()].strip(" ,.;"):
        return None
    marks = [n.name for n in every(parsed.tree) if isinstance(n, Mark)]
    if "join" in marks or marks.count("turn") != 1 or _joined(above, ("join", "turn")):
        return None
    blank = " " * (told.end("told") - told.start("told"))
    return LastSlips(*told.span("told"), f"{body[: told.start('told')]}{blank}{body[told.end('told') :]}")


def _joined(above: Sequence[Waiting | RawText], marks: tuple[str, ...] = ("join",)) -> bool:
    near = (todo.parsed for todo in above[-_NEAR:] if isinstance(todo, Waiting) and todo.parsed is not None)
    nodes = (node for parsed in near for node in every(parsed.tree))
    return any((isinstance(n, Mark) and n.name in marks) or (isinstance(n, Work) and n.key == "sl st") for n in nodes)
