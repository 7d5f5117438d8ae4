"""A change of colour told by where it happens: "finish the very last stitch with black", "black on the last pull".

No word of changing stands in it: the last stitch or its last pull is named, and a colour. Whoever takes it for a remark
works on in the old yarn.
"""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.colours import COLOURS, SHADES
from hookside.notation.vocabulary import REMEMBERED

_STITCH = r"(?:st|stitch|sc|dc|hdc|htr|tr|single(?: crochet)?|double(?: crochet)?|increase|inc|decrease|dec|one)"
_PULL = r"(?:yo|yoh|yrh|yarn[- ]?over|yarn round (?:the )?hook|pull(?:[- ]?through)?|loops?|lps?|draw|step)"
_MANY = r"(?:(?:very|two|2|three|3|remaining|few) )*"
_TIP = re.compile(rf"\b(?:last|final) {_MANY}(?:{_STITCH}|{_PULL})\b(?! (?:rounds?|rnds?|rows?|sts|of each)\b)")
_BY_PULL = re.compile(rf"\b{_PULL}\b|\b(?:pull|draw)(?:n|ed|s|ing)?\b[a-z0-9 -]* through\b")
_ENDS = re.compile(r"\b(?:finish|complet|end|clos|pull|draw|bring|brought|tak|pick|add|introduc|chang|switch|swap)")
# "ending with black", "finishing in the white yarn", "finish in grey"
_ENDING = re.compile(r"(?:(?:and|but|then) )*(?:end|finish)(?:ing)?(?: off)? (?:with|in|using) (?:the |an? )?")
# "finish the last stitch with kelp": a yarn by whatever name
_BY_NAME = re.compile(
    rf"(?:(?:and|but|then) )*(?:finish|complet|clos|end)\w* (?:off )?(?:the |your )?(?:very )?(?:last|final) {_STITCH}"
    r" (?:of (?:the |this )?(?:round|rnd|row) )?(?:with|in|using) (?:the )?"
    r"(?!.*\b(?:an?|hook|needle|slip|sl|ss|sts?|stitch\w*|round|row|join|turn|care|way|loops?|both|first|next|same|top|"
    r"side|ch|chain|invisible|tail|end|place)\b)[a-z]{3,14}(?: [a-z]{3,14})?"
)
# "Back to fern in the last st", "Pick clay up again in the last st", "take clay for the last pull-through"
_NO_NAME = (
    r"(?!(?:the|a|an|up|in|on|it|this|that|them|you|your|front|back|start|beginning|end|side|top|work|working|normal|"
    r"both|one|two|loops?|lps?|sts?|stitch\w*|sc|dc|hdc|yarn|hook|row|rounds?|rnd|ring|first|last|next|same|"
    r"marker|tail|ends?|care|each|every|another|new|other|size|length|turn|chain|ch|slip|sl|single|double|plain)\b)"
)
_SWAPPED_BY_NAME = re.compile(
    r"(?:(?:and|but|then|now|drop(?:ping)? [a-z]{3,14},?(?: and)?) )*"
    r"(?:(?:(?:go|going|switch\w*|chang\w+|swap\w*|return\w*|come|coming) )?(?:back |over |again )*to|"
    r"(?:pick|tak|bring|join|add|pull|draw)\w*(?: (?:up|in|back))*(?: the)?) "
    rf"{_NO_NAME}[a-z]{{3,14}}(?: (?:yarn|wool|up|in|back|again|through|now)\b)*,? "
    rf"(?:in|on|with|for|at|to (?:finish|complete|end)) (?:the |your )?(?:very )?(?:last|final) (?:{_STITCH}|{_PULL})"
    r"(?: of (?:the |this )?(?:round|rnd|row))?(?: again)?"
)
# "and go back to dove at the end", "pick fern up again at the end of the round"
_AT_THE_END = re.compile(
    r"(?:(?:and|but|then|now) )*"
    r"(?:(?:(?:go|going|switch\w*|chang\w+|swap\w*|return\w*|come|coming) )?(?:back |over |again )*(?:in)?to (?:the )?|"
    r"(?:(?:go|going) )?back in |pick(?:ing)? (?:up )?(?:the )?(?=[a-z]+ (?:back|up|again)\b))"
    rf"{_NO_NAME}(?!(?:h?tr|treble|[bf]lo|increas|decreas|stuff|eyes?\b|small|larg|bigg|normal|left|right|wrong)\w*)"
    r"[a-z]{3,14}(?: (?:yarn|wool|up|back|again|now)\b)*,? "
    r"at the (?:very )?end(?: of (?:the |this )?(?:round|rnd|row))?"
)
# "change back at the end", "switch colors in the last stitch": to the other one, whichever that is
_SWAPPED = re.compile(
    r"(?:(?:and|but|then|now) )*(?:chang|switch|swap|go)\w*(?: (?:back|over|again|colou?rs?|yarns?)){1,3},? "
    rf"(?:at the (?:very )?end(?: of (?:the |this )?(?:round|rnd|row))?|"
    rf"(?:in|on|with|at) (?:the )?(?:very )?(?:last|final) (?:{_STITCH}|{_PULL})"
    r"(?: of (?:the |this )?(?:round|rnd|row))?)"
)
# "last stitch: finish in ice", "last st: grey"
_TIP_HEADS = re.compile(
    rf"(?:in |on )?(?:the |your )?(?:very )?(?:last|final) {_STITCH}(?: of (?:the |this )?(?:round|rnd|row))? ?[:,-] ?"
    rf"(?:(?:(?:finish|end|complet|clos)\w*(?: it| off)? (?:with|in|using|on)|"
    rf"(?:chang\w+|switch\w*|swap\w*|go|return\w*)(?: back| over)* (?:in)?to) (?:the )?{_NO_NAME}[a-z]{{3,14}}"
    r"(?: (?:yarn|wool))?|(?P<alone>[a-z]{3,14}(?: [a-z]{3,14})?))"
)
_YARN = r"(?:colou?r|yarn|shade|wool|thread)"
_OTHER = re.compile(rf"\b(?:new|next|other|second|main|contrast(?:ing)?|following) {_YARN}\b")
_LETTER = re.compile(rf"\b(?:{_YARN} [a-h]|(?:with|in|to|using|through) [b-h])\b")
_AROUND = frozenset(
    re.findall(
        r"\S+",
        """and but then so also now already just always only very please
    finish finished finishing finishes complete completed completing end ended ending ends close closed closing work
    worked working do doing make made making pull pulled pulling draw drawn drawing bring bringing brought use used
    using take taken taking add added adding join joining introduce introducing pick picking picked put putting change
    changed changing switch switched switching swap swapping come comes coming go goes going do done have
    up in with on at to into through thru over off of for from by during when while
    the a an you your we i it this that its is are be being should must will
    yarn colour color shade wool thread strand new next other second main contrast contrasting following
    last final stitch st sc dc hdc htr tr single double crochet inc dec increase decrease round rnd row
    loop loops lp lps pull-through draw step yo yoh yrh yarn-over hook two 2 three 3 remaining both few one""",
    )
)


@lru_cache(REMEMBERED)
def last_pull(clause: str) -> bool:
    """Does a clause in small letters say that the last stitch before it ends in another colour?"""
    text = " ".join(clause.strip(" -*:,;.!()[]\"'").split())
    if len(text) > 120:
        return False
    ending = _ENDING.match(text)
    if ending is not None and _a_colour(text[ending.end() :]):
        return True
    if text.endswith((" end", " round", " rnd", " row")) and _AT_THE_END.fullmatch(text):
        return True
    if _SWAPPED.fullmatch(text):
        return True
    if not ("last" in text or "final" in text) or _TIP.search(text) is None:
        return False
    headed = _TIP_HEADS.fullmatch(text)
    if headed is not None and (headed["alone"] is None or _a_colour(headed["alone"])):
        return True
    if _BY_NAME.fullmatch(text) or _SWAPPED_BY_NAME.fullmatch(text):
        return True
    if _BY_PULL.search(text) is None and _ENDS.search(text) is None:
        return False
    otherwise = _OTHER.search(text) is not None or _LETTER.search(text) is not None
    return _a_yarn(re.findall(r"[a-z0-9-]+", text), otherwise, _AROUND)


def _a_colour(text: str) -> bool:
    text = re.sub(r" (?:yarn[ -]over|yo|yrh|loop|pull|yarn|wool|cotton|thread)$", "", text)
    letter = re.fullmatch(rf"{_YARN} [a-h]|[b-h]", text) is not None
    return _a_yarn(text.split(), letter, frozenset(("colour", "color", "yarn")))


def _a_yarn(words: list[str], otherwise: bool, around: frozenset[str]) -> bool:
    """Whether they name a colour, or a yarn `otherwise`, and hold no word besides that is not `around` one."""
    named = otherwise or any(word in COLOURS for word in words)
    return named and all(word in around or word in COLOURS or word in SHADES or len(word) == 1 for word in words)


_NAMES = re.compile(rf"(?:(?:{'|'.join(sorted(SHADES))}) )*(?:{'|'.join(sorted(COLOURS, key=len, reverse=True))})\b")


def tip_colour(clause: str) -> str | None:
    """The everyday colour that such a clause in small letters names; None where it calls it otherwise."""
    found = re.search(rf"\b{_NAMES.pattern}", clause)
    return found[0] if found is not None else None


# Where such a clause ends within a course; a hyphen is part of "pull-through", a colon of "last st: finish in ice"
_CLAUSE = re.compile(
    r"(?:[^,.;:!()\[\]{}*=-]|(?<=[a-z])-(?=[a-z])|(?<=last st):|(?<=last stitch):|(?<=last sc):|(?<=final stitch):)+"
)
_MAY = re.compile(r"\b(?:last|final)\b|\b(?:end|finish)(?:ing)? (?:off )?(?:with|in|using)\b|\bat the (?:very )?end\b")
_LONGEST_LEAD = 90


def last_pull_at(low: str, start: int) -> int | None:
    """Where the clause that begins at `start` of a course ends, if it is one; `low` is the course in small letters."""
    found = _CLAUSE.match(low, start, start + _LONGEST_LEAD + 2)
    if found is None or found.end() - start > _LONGEST_LEAD or not _MAY.search(found[0]):
        return None
    clause = found[0].rstrip()
    return start + len(clause) if last_pull(clause) else None
