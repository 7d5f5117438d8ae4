"""A text for which "2dc" is two in the same stitch, as it says outright: each of them is printed so from then on."""

from __future__ import annotations

import re

from hookside.notation.page.edits import Edit, put

_STITCH = r"(?:(?:single|half double|double|half treble|treble) crochets?|sc|[hd]?dc|h?tr)"
TOLD = re.compile(
    rf"(?:where it says )?(?<![\w(*\[#.-])[\"']?(?P<name>2 ?(?:{_STITCH}|in1?(?! \d)|sts?|x))\b\.?[\"']?"
    r"(?P<sign>\s*(?:=|:|-+|\(|(?:i )?means?\b|stands for\b|is(?: short for)?\b)\s*|[ ]{1,4}(?=two\b|increase\b))"
    r"(?:work |make |always )*"
    rf"(?:(?:2|two) (?P<of>{_STITCH}) ?(?:sts? |stitches )?(?:both |all )?(?:worked )?"
    r"(?:in|into) (?:the )?(?:(?:same|one|1|a single|next)(?! \d)|each|st|stitch)\b"
    rf"|(?:an? )?(?:(?P<how>{_STITCH}) )?inc(?:rease)?\b(?! in)|(?:2|two) in (?:the )?(?:same|one|1)\b)",
    re.I,
)
_MAY = re.compile(r"\b(?:same|one|1|single|each|next|the) (?:st|place|loop)|\binc|\btwo in", re.I)
_TIMES = re.compile(r" ?(?:x ?\d|\d{1,2} ?(?:x|times)\b|[a-z]{3,6} times\b|twice\b)", re.I)
_TIMES_AHEAD = re.compile(r"\d ?(?:x|times) ?$", re.I)
_LABEL = re.compile(r"[^\w\n]{0,6}(?:r|rnds?|rounds?|rows?|rds?)?\.? ?\d{1,3}[ .:)-]", re.I)
_APART = re.compile(r"(?:^|[,;:/|]|  |\b(?:key|legend|abbreviations?|terms|words))\s*\Z", re.I | re.M)
_LISTED = re.compile(r"(?:[,;|]|  ) *\Z")
_WITHIN_WORDS = frozenset(["2in", "2in1", "2x"])
_OFTEN = r"(?! ?[\d(\[*]| (?:sc|[hd]?dc|h?tr|inc|dec)\b)"  # "2x (sc, inc)" tells how often
# "-1 = two stitches into one", "+1 means an increase"
_BY_ONE = re.compile(
    r"(?<![\w-])[\"']?(?P<sign>[+-])1[\"']? ?(?:=|means|is|:) ?(?:an? )?"
    r"(?:(?:2|two) (?:sts |stitches |sc |dc )?(?:in(?:to)? (?:one|the same|a)|tog(?:ether)?)|inc|dec)",
    re.I,
)
_AHEAD = 8  # signs in front of a stitch that may say how often


def by_one(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The text with "-1" as "dec" where it stands as a stitch and its key says so: "(6, -1) 6 times"."""
    told = {m["sign"]: m for m in _BY_ONE.finditer(text)} if "-1" in text or "+1" in text else {}
    edits: list[Edit] = []
    for sign, match in told.items():
        how = "dec" if sign == "-" else "inc"
        stands = rf"(?:(?<=[,(\[*])|(?<=[,(\[*:] )){re.escape(sign)}1"
        rule = re.compile(rf"{stands}(?=[ ]?[,)\]*]| (?:in|all|x|\d|around|rep))")
        edits += [(*m.span(), how) for m in rule.finditer(text) if not match.start() <= m.start() < match.end()]
    return put(text, offsets, edits) if edits else (text, offsets)


def twofold(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The text with "2dc" as "2dc in next st", wherever it does not say itself what it goes into, and the way back."""
    told = next((m for m in TOLD.finditer(text) if _tells(m, text)), None) if _MAY.search(text) else None
    if told is None:
        return text, offsets
    name = told["name"].replace(" ", "").lower()
    stitch = told["of"] or told["how"] or (name[1:] if name not in _WITHIN_WORDS else "")
    if not stitch or name.startswith("2st"):
        stitch = stitch or "sc"
    often = _OFTEN if name == "2x" else ""
    two = rf"2 ?{re.escape(name[1:])}" if " " in told["name"] else f"2{re.escape(name[1:])}"
    rule = re.compile(rf"(?<![\w\"'/.]){two}(?![\w\"']){often}(?P<own> (?:in|into|on)\b)?", re.I)
    way = list(range(len(text))) if offsets is None else offsets
    if _LISTED.search(text, max(0, told.start() - _AHEAD), told.start()):  # no part of what the name before it means
        text = text[: told.start()] + " " * (told.end() - told.start()) + text[told.end() :]
    parts: list[str] = []
    back: list[int] = []
    at = 0
    for match in rule.finditer(text):
        start, end = match.span()
        if told.start() <= start < told.end() or (match["own"] and name[1:] == stitch):
            continue
        end = match.start("own") if match["own"] else end
        words = f"2 {stitch}" if name[1:] != stitch else match[0]
        if not match["own"]:
            words = f"{words} in next st"
            times = _TIMES.match(text, end) or _TIMES_AHEAD.search(text, max(0, start - _AHEAD), start)
            words = f"({words})" if times else words
        parts.append(text[at:start] + words)
        back.extend(way[at:start])
        back.extend(way[min(start + i, end - 1)] for i in range(len(words)))
        at = end
    parts.append(text[at:])
    back.extend(way[at:])
    return "".join(parts), back


def _tells(told: re.Match[str], text: str) -> bool:
    """Does it stand as a meaning does, and in no round?"""
    begins = text.rfind("\n", 0, told.start()) + 1
    if _LABEL.match(text, begins, told.start()):
        return False
    apart = bool(told["sign"].strip()) and not (" " in told["name"] and told["sign"].strip() == "(")
    return apart or _APART.search(text, begins, told.start()) is not None
