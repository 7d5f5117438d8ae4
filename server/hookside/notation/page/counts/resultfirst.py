"""Rounds that say first what they come to and how in brackets: "2: 12 sc (2 per st)", "9. 12 (decrease twelve times)",
or behind a comma: "Second: 12, by working 2 sc in each", "Fourth: 24, plain sc".

The bracket becomes the work and the number its count, "2: 2 per st (12)", where it grows or shrinks the round before.
Behind a comma a number may be stitches ("12, inc, 5"): such rounds are told where several come to more than the round
before had to work into.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE

_LABEL = (
    rf"^[^\w\n]{{0,6}}(?:{COURSE}\.?[ ]?#?)?\d{{1,3}}(?:[ ]?(?:-|to|and|&)[ ]?\d{{1,3}})?"
    r"[ ]?[:.)=-]{1,2}[ ]{1,4}"
)
_LINE = re.compile(rf"{_LABEL}(?P<body>\S[^\n]{{0,200}})", re.M | re.I)
_BODY = re.compile(
    r"(?P<n>\d{1,3})(?:[ ](?P<st>sc|[hd]?dc|h?tr|sts?|single crochets?|stitches))?,?[ ]"
    r"[(\[](?P<how>[^()\n=]{3,60})[)\]](?=[ ]?(?:[.;,!][ ]|[.;,!]?$))|"
    # "24 stitches: increase 6 (2 sc, inc)"
    r"(?P<to>\d{1,3})[ ](?:sts?|stitches)[ ]?[:,;-][ ](?P<by>(?:\d{1,2}[ ])?(?:inc|dec)[a-z]*(?:[ ](?:by[ ])?\d{1,2})?)"
    r"[ ]\((?P<so>[^()\n=]{3,60})\)(?=[ ]?(?:[.;,!][ ]|[.;,!]?$))",
    re.I,
)
# "12, by working 2 sc in each", "18: (sc, inc) around", "back to 12, with (sc, dec) six times", "24, plain sc"
_LED = re.compile(
    r"(?:(?:(?:up|back|down) )?to |stay(?:s|ing)? (?:at )?|still |makes )?(?P<n>\d{1,3})(?:[,:;] ?(?:still )?| (?=by ))"
    r"(?:(?:(?:made |got )?(?:by|with|from) )(?:working |making |doing |crocheting |putting )?|just |that is )?"
    r"(?P<how>(?:[(\[*]|\d{1,2} (?:sc|[hd]?dc|h?tr)\b|sc|[hd]?dc|h?tr|inc|dec|plain|even|two|one|doubl|tak|"
    r"in(?:to)? an? )[^\n=]{0,120}?)(?=[ ]?(?:[.;!][ ]|[.;,!]?$))",
    re.I,
)
_GERUND = re.compile(r"(increas|decreas|doubl|tak|crochet)ing\b", re.I)
_INTO_RING = re.compile(r"in(?:to)? an? .{0,20}(?:ring|circle|loop)$", re.I)
_GOES_ROUND = re.compile(r",? (?:all )?(?:a?round|across|the way round|to (?:the )?end)$", re.I)
_HINT = re.compile(
    r"\d(?:, (?:by |(?:plain|even|inc|dec)|2 (?:sc|dc|in)\b|[(*])|: ?\([^()\n]{3,40}\) (?:around|x)| by [a-z]{3,9}ing)|"
    r"\d(?:[a-z ]{0,16},?|[ ]st[a-z]{0,6}[ ]?[:,;-][ ][a-z0-9 ]{3,24})[ ][(\[][^()\n]{0,40}"
    r"(?:\binc|\bdec|together|\btog|\bper |2 in |\beach\b)",
    re.I,
)
_GROWS = re.compile(r"\binc|\b(?:2|two)(?: [a-z]+)? (?:in|into|per)\b|doubl", re.I)
_SHRINKS = re.compile(r"\bdec|together|\btog\b|2tog\b", re.I)
_NONE = re.compile(r"\b(?:no|not|without|plain|even)\b", re.I)
_COUNT = re.compile(r"[(\[=]\s?(?P<n>\d{1,3})(?:\s(?:sts?|sc))?\s?[)\]]?\W*$")
_SO_MANY = re.compile(r"\d{1,2} (?:inc|dec)[a-z]*")
_EACH_TIME = re.compile(r"(?<=dec |inc )each time|(?<=decrease |increase )each time", re.I)
_EXPLAINED = re.compile(r"(?:inc|dec)[a-z]* [a-z0-9 ]{3,30}: (?=[^:]*(?:\binc|\bdec))", re.I)
# "increase 7: 2 sc in each stitch", "6 decreases - 1 sc, 2 together", "+6: 2 sc, inc": by how many, and then how
_BY = re.compile(
    r"(?:by )?(?:(?P<ahead>\d{1,2}) (?P<word>inc|dec|more|fewer|less)[a-z]*|(?P<sign>[+-]) ?(?P<signed>\d{1,2})|"
    r"(?P<way>inc|dec)[a-z]*\.?(?: by)?(?: (?P<n>\d{1,2}))?)(?: (?:sts?|stitches|times))?"
    r" ?[:=;-] (?=[^:]*(?:\d|\binc|\bdec|\btog|\bone\b|\btwo\b))",
    re.I,
)
_MORE = ("inc", "more", "+")
_OFTEN = re.compile(r"\brep|\*|\btimes\b|\bx ?\d|\d ?x\b", re.I)
_FEWEST = 2  # such rounds; a lone one may be a remark


def _before(body: str) -> int | None:
    """What a round comes to, as far as its line says it."""
    told = _COUNT.search(body) or re.search(r"(?P<n>\d{1,3})", body)
    return int(told["n"]) if told is not None else None


def _work(how: str) -> str:
    """The words of a bracket as a round is told."""
    how = _EXPLAINED.sub("", how)
    if by := _BY.match(how):
        how = how[by.end() :]
        if by["way"] and how.lower().startswith(("every", "in every")):
            how = f"{by['way']} {how}"
    how = _EACH_TIME.sub("all", how)
    if "," in how and not _OFTEN.search(how) and not (how[0] in "([" and _GOES_ROUND.search(how)):
        return f"({_GOES_ROUND.sub('', how)}) around"
    return f"{how} evenly" if _SO_MANY.fullmatch(how) else how


def _by_as_many(how: str, change: int) -> bool:
    """Does a bracket say by how many the round changes, and does it?"""
    by = _BY.match(how)
    told = by and (by["ahead"] or by["signed"] or by["n"])
    if by is None or not told:
        return False
    return int(told) == abs(change) and ((by["word"] or by["sign"] or by["way"]).lower() in _MORE) == (change > 0)


def _led(text: str) -> list[tuple[int, int, str]]:
    """Rounds that tell their number before a comma, where they bear each other out: each by its change."""
    found: list[tuple[int, int, str]] = []
    last: int | None = None
    more = 0  # rounds that come to more than there was to work into
    for line in _LINE.finditer(text):
        told = _LED.match(line["body"])
        if told is None:
            last = _before(line["body"])
            continue
        n, how = int(told["n"]), _GERUND.sub(lambda m: m[1] + ("" if m[1][-1] == "t" else "e"), told["how"].strip())
        at = line.start("body")
        grows, shrinks = _GROWS.search(how) is not None, _SHRINKS.search(how) is not None
        if last is None and _INTO_RING.match(how):
            found.append((at, at + told.end(), f"{n} sc {how}" if how[0] in "iI" else how))
        elif last is None or grows == shrinks:
            if last is not None and n == last and not grows:
                found.append((at, at + told.end(), f"{how} ({n})"))
        elif (last < n <= 3 * last) if grows else (last / 3 <= n < last):
            more += grows
            found.append((at, at + told.end(), f"{_work(how)} ({n})"))
        else:
            return []
        last = n
    return found if more >= _FEWEST else []


def _told(match: re.Match[str]) -> tuple[int, str]:
    """The number of such a round, and how it is come to: "increase 6: 2 sc, inc"."""
    if match["n"]:
        return int(match["n"]), match["how"].strip()
    return int(match["to"]), f"{match['by']}: {match['so'].strip()}"


def put_behind(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such rounds the usual way round, and the way back."""
    if not _HINT.search(text):
        return text, offsets
    found: list[tuple[int, int, str]] = []
    last: int | None = None
    sure = False  # a round told so is twice or half of the one before: no remark, even by itself
    for line in _LINE.finditer(text):
        told = _BODY.match(line["body"])
        n, how = _told(told) if told is not None else (None, "")
        if told is not None and n is not None and last is not None and not _NONE.search(how):
            grows, shrinks = _GROWS.search(how), _SHRINKS.search(how)
            by = _by_as_many(how, n - last)
            more, fewer = last < n <= 3 * last, last / 3 <= n < last
            if (more and (by or (grows and not shrinks))) or (fewer and (by or (shrinks and not grows))):
                at = line.start("body")
                sure = sure or n == 2 * last or 2 * n == last or by
                found.append((at, at + told.end(), f"{_work(how)} ({n})"))
        last = n if n is not None else _before(line["body"])
    if len(found) < _FEWEST and not sure:
        found = []
    found = found or _led(text)
    if not found:
        return text, offsets
    way = list(range(len(text))) if offsets is None else offsets
    parts: list[str] = []
    back: list[int] = []
    at = 0
    for start, end, new in found:
        parts += [text[at:start], new]
        back += way[at:start]
        back += [way[min(start + i, end - 1)] for i in range(len(new))]
        at = end
    parts.append(text[at:])
    back += way[at:]
    return "".join(parts), back
