"""Sentences that go on as before: "continue increasing in this way until you have 36 sts", "dec 6 sts every other "
"rnd"."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from hookside.notation.labels import references, stretches
from hookside.notation.vocabulary import REMEMBERED, number_of

_GOES_ON = re.compile(
    r"\s*(?:now |then |and |you |from here |from now on,? )*(?:(?:continue|keep|go on|carry on|proceed|work|crochet)\b|"
    r"(?:inc|dec)(?:reas(?:e|ing))?\b|[+-] ?\d{1,2} |repeat(?:ing)? (?:the |these |those )?(?:inc|dec)(?:rease)?s\b|"
    r"add(?:ing)? (?:\d|one|a|an)? ?(?:more |extra )?(?:sc|dc|st|stitch) between (?:the )?(?:inc|dec))",
    re.I,
)
_SIGNED = re.compile(r"\s*(?P<sign>[+-]) ?\d{1,2} ")  # "+6 each round"
_SHAPED = re.compile(r"\b(?P<what>inc|dec)(?:reas(?:e|es|ing|ings))?s?\b", re.I)
_AS_BEFORE = re.compile(
    r"\b(?:(?:in|like)\s+(?:this|that|(?:the\s+)?same(?! ?(?:sts?\b|stitch|sc|[hd]?dc|h?tr|sp|ch|loop|place)))"
    r"(?:\s+(?:way|manner|pattern|fashion|sequence|method))?|"
    r"as\s+(?:established|before|"
    r"set(?:\s+up)?|above|so\s+far|"
    r"(?:you|we)\s+(?:have\s+)?(?:increased|decreased))|"
    r"(?<!all )(?:this|the(?:\s+same)?)\s+(?:pattern|sequence|way)|thus|likewise)\b",
    re.I,
)
_UNTIL = re.compile(
    r"\b(?:until|till|til|to)\s+(?:(?:you|there|it|we|only|have|has|are|is|reach|get|down|back|up|to|a|the|total|of|"
    r"just|"
    r"round|row|rnd|left|with|stitch|st|count|your|work|piece|be|should)\s+|you're\s+|there're\s+)*"
    rf"(?P<n>\d{{1,4}}|one|{references.SMALL})(?![\d-])(?!\s*(?:rows?|rounds?|rnds?|cm|mm|in\b|inch|\"|more))",
    re.I,
)
_STEP = re.compile(
    rf"\b(?P<n>\d{{1,2}}|one|{references.SMALL})\s*(?:sts?|stitch(?:es)?|sc|dc|times|(?:inc|dec)(?:rease)?s?)?\s*"
    r"(?:evenly\s+)?(?:(?:at|on) (?:the )?(?:(?:same|one|other|left|right) (?:edge|side|end)|beginning|start|end)\s+)?"
    r"(?:in\s+|on\s+|at\s+|of\s+)?(?:each|every|per|a)\s+(?:\w+\s+)?(?:rounds?|rnds?|rows?)\b",
    re.I,
)
_OTHER = re.compile(
    r"\b(?:every|each)\s+(?:other|second|2nd|alternate)\s+(?:round|rnd|row)\b|\balternate\s+(?:rounds|rnds|rows)\b",
    re.I,
)
_ROUNDS = re.compile(
    rf"\b(?:for|another)\s+(?:another\s+|the\s+next\s+)?(?P<n>\d{{1,2}}|{references.SMALL})\s+(?:more\s+)?"
    r"(?:rounds?|rnds?|rows?)\b",
    re.I,
)
# "plain but inc 1 at the beginning of every other rnd, starting with rnd 5", "sc across, dec at each end of every row"
_SHAPED_EVERY = re.compile(
    r"\s*(?:(?:ch(?:ain)? ?1|1 ch|turn)[,.;]?\s*(?:and )?)*(?:work )?(?:plain|even|straight|(?:sc|dc) "
    r"(?:a?round|across|to (?:the )?end|in (?:each|every) st(?:itch)?(?: (?:a?round|across))?))"
    r"\s*[,;]?\s*(?:but |and |with )?"
    r"(?P<what>inc|dec)(?:reas(?:e|ing))?(?: (?:1|one)(?: sts?| sc)?| a st(?:itch)?)? "
    r"(?:at|in|on) (?:the )?(?P<where>beginning|start|end|(?:both|each|either)(?: of the)? (?:ends?|sides?)|"
    r"first (?:st )?and (?:the )?last (?:st|stitch|sc)|beginning and (?:the )?end)"
    r",? (?:(?:of|on|in) )?(?:every|each) (?P<other>other |second |2nd |alternate )?(?:round|rnd|row)"
    r"(?:,? (?:starting|beginning) (?:with|at|on|in) (?:round|rnd|row|rd|r) ?(?P<from>\d{1,3}))?",
    re.I,
)
# "Go on in the same way, with 2 sc in the first and the last st of every row", "..., with sc2tog at both ends"
_GOES_ON_SHAPED = re.compile(
    r"\s*(?:now |then )?(?:go on|continue|carry on|keep going|proceed|work)(?: on)? (?:in |like )?"
    r"(?:the same|this|that)(?: way| manner)?,? ?(?:with|working|making|and (?:work|make)|but with)? ?"
    r"(?:(?P<two>(?:2|two) (?:sc|[hd]?dc|h?tr)) (?:in|into)|(?P<shape>(?:an? )?inc(?:rease)?|(?:an? )?dec(?:rease)?|"
    r"(?:sc|[hd]?dc|h?tr)2tog) (?:at|in|on)) "
    r"(?:the first (?:st )?and (?:in )?(?:the )?last (?:st|stitch|sc|dc)|"
    r"(?:both|each|either)(?: of the)? (?:ends?|sides?)|the beginning and (?:the )?end) "
    r"(?:of|on|in) (?:every|each) (?P<other>other |second |2nd |alternate )?"
    r"(?:round|rnd|row)",
    re.I,
)
# ... and a sentence that spells its stitches out: "2 sc in the next stitch. Repeat this all the way around."
_SPELT = re.compile(
    r"\bin(?:to)?\s+(?:(?:each|every|all|the)\s+)*(?:of\s+(?:the\s+)?)?(?:next|first|last|following)\b", re.I
)
# ... and so does one before it: "Work 1 sc, then sc2tog. Go on like this to the end of the round."
_TOLD_IN_FULL = re.compile(
    r"\b(?:(?:\d{1,2}|an?|one|two|three|four|five) (?:sc|[hd]?dc|h?tr)\b(?! (?:each|every|per) r)|"
    r"(?:sc|[hd]?dc|h?tr)2tog\b)[^.;]*[.;] ",
    re.I,
)
# "Continue in sc without increasing for 3 rounds.": the courses to come are plain
_SHAPES_NO_MORE = re.compile(
    r"\b(?:without|no|not|never|stop(?:ping)?)(?: (?:any|more|further|the|making|doing|another))* "
    r"(?:inc|dec)(?:reas|s?\b)",
    re.I,
)
# "Rnds 4-6: inc each round": as the piece widens, and not one in each stitch
_EACH_ROUND = re.compile(
    r"\W*(?:inc|dec)(?:reas(?:e|ing))?s? (?:in |on )?(?:each|every) (?:round|rnd|row)\b(?! st)", re.I
)
_KEEPS = re.compile(r"\s*(?:now |then )?(?:continue|keep|go on|carry on|repeat|add)", re.I)
# "Inc 6 twice more.", "2 more increase rounds (30)", "Repeat the increase round twice more."
_OFTEN = rf"(?:twice|(?:\d|{references.SMALL}) times)"
_TIMES_MORE = re.compile(
    rf"\W*(?:(?P<shape>inc|dec)(?:rease)? (?P<step>\d{{1,2}})(?: (?:sts?|times))? (?P<n>{_OFTEN}) more|"
    rf"(?P<n2>\d|one|{references.SMALL}) more (?P<shape2>inc|dec)(?:reas(?:e|ing))? (?:rounds?|rnds?|rows?)|"
    rf"(?:repeat|rep|work) (?:the |this )?(?P<shape3>inc|dec)(?:reas(?:e|ing))? (?:round|rnd|row) "
    rf"(?P<n3>{_OFTEN}) more)"
    r"\W*(?:\(\d{1,3}(?: sts)?\)\W*)?",
    re.I,
)


def shaped_every(body: str, numbers: list[int]) -> list[str]:
    """The words of each course of "plain but inc 1 at the start of every other rnd"; none for any other body."""
    if len(numbers) < 2:
        return []
    ends = _GOES_ON_SHAPED.match(" ".join(body[:200].split()))
    if ends is not None:
        told = (ends["two"] or ends["shape"]).lower().split(" ")[-1]
        both = (f"2 {told} in first st", f"2 {told} in last st") if ends["two"] else (told, told)
        kept = 1 if ends["two"] or told.startswith("inc") else 2
        plain = told.removesuffix("2tog") if ends["two"] or told.endswith("2tog") else "sc"
        words = f"{both[0]}, {plain} in each st to last {kept} st{'s' * (kept > 1)}, {both[1]}"
        return [words if (n - numbers[0]) % (2 if ends["other"] else 1) == 0 else "sc in each st" for n in numbers]
    match = _SHAPED_EVERY.match(body)
    if match is None:
        return []
    shape, first, where = match["what"].lower(), int(match["from"] or numbers[0]), match["where"].lower()
    kept = 1 if shape == "inc" else 2
    words = f"sc in each st to last {kept} sts, {shape}"
    if where in ("beginning", "start"):
        words = f"{shape}, sc in each st to end"
    elif where != "end":
        words = f"{shape}, {words}"
    every = 2 if match["other"] else 1
    return [words if n >= first and (n - first) % every == 0 else "sc in each st around" for n in numbers]


@dataclass(frozen=True, slots=True)
class Growth:
    """How the courses before go on: `shape` inc, dec or "" (as they did), up to `until` stitches or for `rounds`."""

    shape: str
    until: int | None
    rounds: int | None
    step: int | None  # stitches more or fewer in each of them
    other: bool  # every other course is plain
    mirrored: bool = False  # "decrease as you increased", "... the same way": behind increases, they are turned round


@lru_cache(REMEMBERED)
def growth(body: str, labelled: bool) -> Growth | None:
    """What a sentence says of the courses to come; None where it is no such sentence.

    `labelled`: it stands behind the numbers of its courses, and need not say how far it goes.
    """
    times = _TIMES_MORE.fullmatch(body)
    if times is not None:
        many = references.small((times["n"] or times["n2"] or times["n3"]).split(" ")[0])
        shape = (times["shape"] or times["shape2"] or times["shape3"]).lower()
        return Growth(shape, None, many, int(times["step"]) if times["step"] else None, False)
    if not _GOES_ON.match(body) or len(body) > 240 or _SPELT.search(body):
        return None
    signed = _SIGNED.match(body)
    if signed is not None:
        body = f"{'inc' if signed['sign'] == '+' else 'dec'} {body[signed.end('sign') :].lstrip()}"
        if _STEP.search(body) is None:
            return None
    shaped = _SHAPED.search(body)
    until, rounds, step = _UNTIL.search(body), _ROUNDS.search(body), _STEP.search(body)
    as_before = _AS_BEFORE.search(body)
    if shaped and _SHAPES_NO_MORE.search(body):
        return None
    if as_before and _TOLD_IN_FULL.search(body, 0, as_before.start()):
        return None
    if not (as_before or (shaped and (step or _KEEPS.match(body) or _EACH_ROUND.match(body)))):
        return None
    if not (until or rounds or labelled) or (not shaped and not (until or labelled)):
        return None
    return Growth(
        shaped["what"].lower() if shaped else "",
        number_of(until["n"]) if until else None,
        number_of(rounds["n"]) if rounds else None,
        number_of(step["n"]) if step else None,
        bool(_OTHER.search(body)),
        as_before is not None and shaped is not None and shaped["what"].lower() == "dec",
    )


@lru_cache(REMEMBERED)
def goes_on(text: str) -> bool:
    """Does a line without a label go on with the courses before it, by a sentence of any such kind?"""
    return (
        references.EVEN.match(text) is not None
        or references.REFERENCE.match(text) is not None
        or growth(text, False) is not None
        or ((told := stretches.stretch(text)) is not None and told.shade is None)
    )
