"""What stands beside the work of a round and is none: what a stitch is ("inc (2 sc in one st) 6 times"), how many go to
a row end, how the ring below is closed, that only one chain turns.
"""

from __future__ import annotations

import re

_STITCH = r"(?:sc|[hd]?dc|h?tr|s\.c\.|d\.c\.|single crochets?|double crochets?)"
_IN_ONE = r"in(?:to)? (?:the )?(?:one|1|same|next|each)(?: one)?(?: st(?:itch)?\.?| sc| dc)?"
_IS = (
    rf"(?:(?P<up>inc(?:rease)?s?)|dec(?:rease)?s?|inv ?dec)(?P<told>{{}}(?:2|two) {_STITCH}"
    rf" ?(?(up){_IN_ONE}|(?:tog(?:ether)?|into one|as one)\b){{}})"
)
# "inc (2 sc in one st) 6 times", "dec (2 sc together) x 6"
_BRACKETED = re.compile(_IS.format(r" ?[(\[](?:= ?|i\.?e\.?,? |that is,? )?", r"\.?[)\]]"), re.I)
# "[sc 5, dec] x6, dec = 2 sc together (36)"
_BEHIND = re.compile(
    rf"[,;] ?(?:with |where )?(?:{_IS.format(r' ?(?:=|is|means|being) ?', '')})(?=\s*(?:[(\[{{.,=]|$))", re.I
)
# "sc 30 around the row ends of the cuff, one st per row"
_PER_ROW = re.compile(
    rf",? ?(?:(?:with|working|placing|making|that is|about) )?(?:one|1|a) (?:st(?:itch)?\.?|{_STITCH})?"
    r" ?(?:per|to|for|in|into|on)(?: (?:a|the|each|every|one))? rows?(?:[ -]ends?)?(?=\s*(?:[.,;(\[=]|$))",
    re.I,
)
_ROW_ENDS = re.compile(r"row[ -]?ends|ends? of (?:the |each |every )?rows?|\b(?:edge|side|cuff)\b", re.I)
# "7 s.c. in a ring of ch. 4, the ring being closed with a slip stitch"
_RING_CLOSED = re.compile(
    r",? (?:the (?:ring|chain|ch\.?)(?: being| is| was)?|which is|(?<=\d, )|(?<=ring, ))(?: ?(?:closed|joined))"
    r" (?:with|by) (?:an? |1 )?(?:sl(?:ip)?[ .-]*st(?:itch)?\b\.?|s\.? ?s\b\.?)",
    re.I,
)
# "7 s.c. in a ring of ch. 4": so many chains
_RING_OF = re.compile(r"(?<=ring of )ch(?:ains?)?\.? ?(?P<n>\d{1,2})(?!\d)", re.I)
# "..., but ch. 1 only before you turn", "then only ch 1 and turn"
_TURNS_SHORT = re.compile(
    r"[,;]? (?:but|then|and)(?: then| with| this time)? (?:(?P<only>only |just )?ch(?:ain)?\.? ?(?P<n>1|one|2|two)"
    r"(?(only)|,? only)|(?:1|one) ch(?:ain)? only),? "
    r"(?:before (?:you |the )?turn(?:ing)?|and turn|to turn|for the turn)\b",
    re.I,
)


def without_explanations(body: str) -> str:
    """The body with blanks in the place of such words; of the same length."""
    low = body.lower()
    if ("2 " in low or "two " in low) and ("inc" in low or "dec" in low):
        body = _BEHIND.sub(_blank, _BRACKETED.sub(_name_alone, body))
    if " row" in low and (per := _PER_ROW.search(body)) is not None and _ROW_ENDS.search(body, 0, per.start()):
        body = body[: per.start()] + " " * len(per[0]) + body[per.end() :]
    if "ring of ch" in low:
        body = _RING_OF.sub(lambda m: f"{m['n']} ch".ljust(len(m[0])), body)
    if " ring" in low and ("closed" in low or "joined" in low):
        body = _RING_CLOSED.sub(_blank, body)
    if " turn" in low and ("only" in low or "just" in low):
        body = _TURNS_SHORT.sub(_turns, body)
    return body


def _blank(told: re.Match[str]) -> str:
    return " " * len(told[0])


def _name_alone(told: re.Match[str]) -> str:
    return told[0][: told.start("told") - told.start()] + " " * len(told["told"])


def _turns(told: re.Match[str]) -> str:
    chains = 2 if (told["n"] or "1").lower() in ("2", "two") else 1
    return f", ch {chains}, turn".ljust(len(told[0]))
