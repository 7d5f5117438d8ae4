"""How many a heading asks for where that is no single number: "4 front legs and 2 back legs", "2 x 5", "a dozen"."""

from __future__ import annotations

import re

from hookside.notation.lines.heads.parts import PARTS
from hookside.notation.vocabulary import COPIES, NUMBER_WORDS, number_of
from hookside.stitches import singular

_N = COPIES
_LONGEST = 90  # characters of a heading
_MOST = 60

# -- dozens and couples -----------------------------------------------------------------------------------------------
_DOZENS = re.compile(
    rf"\b(?:(?P<half>half a |a half[- ])|(?P<baker>a baker'?s )|(?P<n>an? |{_N} ))?dozen(?: of)?\b", re.I
)
_COUPLE = re.compile(r"(?<=make )an? couple(?: of)?\b|(?<=[(,-] )an? couple\b|(?<=[(])an? couple\b", re.I)


def in_numbers(text: str) -> str:
    """ "Petals (make half a dozen)" -> "Petals (make 6)"."""
    low = text.lower()
    if "dozen" in low:
        text = _DOZENS.sub(_dozens, text)
    return _COUPLE.sub("2", text) if "couple" in low else text


def _dozens(match: re.Match[str]) -> str:
    if match["half"]:
        return "6"
    if match["baker"]:
        return "13"
    told = (match["n"] or "a").strip().lower()
    return str(12 * (1 if told in ("a", "an") else number_of(told)))


# -- so many, then so many more ---------------------------------------------------------------------------------------
_THEN_MORE = re.compile(
    rf"\b(?P<make>make|work|crochet) (?P<a>{_N})(?: (?:in|of|with) [a-z]{{3,}})?(?:,? and then|,? then|,? and|,|;) "
    rf"(?:make )?(?P<b>{_N}|another) (?:more|others)\b",
    re.I,
)


def and_then(text: str) -> str:
    """ "Make 2, then 2 more in blue" -> "Make 4 in blue"."""
    told = _THEN_MORE.search(text)
    if told is None:
        return text
    n = number_of(told["a"]) + (1 if told["b"].lower() == "another" else number_of(told["b"]))
    return f"{text[: told.start()]}{told['make']} {n}{text[told.end() :]}" if 1 < n <= _MOST else text


# -- so many times so many --------------------------------------------------------------------------------------------
_TIMES = r"(?:\s?[x*\u00d7]\s?|\s+(?:sets?|groups?|lots?|batches|bunches|pairs?) of\s+)"
_PIECES = r"(?:\s*(?:pieces?|pcs|parts?|copies|petals?|of (?:these|them|each)))?"
_MEASURED = (
    r"(?!\s?(?:(?:mm|cm|m|in|inch(?:es)?|sts?|stitch(?:es)?|sc|dc|rounds?|rnds?|rows?|times)\b|\d|[\"'x*.]))"
)
_PRODUCT = re.compile(
    rf"(?P<lead>[(\[,:-]\s*|\s)(?P<make>(?:make|work|crochet|need)\s+)?(?P<a>{_N}){_TIMES}(?P<b>{_N})\b{_MEASURED}"
    rf"(?P<of>{_PIECES})(?=\s*(?:[)\].:,]|$))",
    re.I,
)
_PLUS = re.compile(
    rf"(?P<lead>[(\[,:-]\s*|\s)(?P<make>(?:make|work|crochet|need)\s+)?(?P<a>{_N})"
    rf"(?:\s?\+\s?|(?<=\w)(?:,? plus | (?:and|&) ))(?P<b>{_N}|an?)\b{_MEASURED}(?P<of>{_PIECES})"
    r"(?P<beside> (?:as )?(?:an? )?(?:spares?|extra|in reserve|mirrored|reversed|flipped))?"
    r"(?=\s*(?:[)\].:,]|$))",
    re.I,
)
_TWICE = re.compile(rf"\b(?P<make>make|work|crochet) (?P<n>{_N}),? twice\b", re.I)
_MANY = re.compile(r"(?:s|feet|teeth|hooves|geese)\s*$", re.I)


def multiplied(text: str) -> str:
    """ "Petals (make 2 x 5)" -> "Petals (make 10)"; "Pocket (5 x 5)" is a size and stays."""
    if "twice" in text:
        text = _TWICE.sub(lambda m: f"{m['make']} {2 * number_of(m['n'])}", text)
    for rule, plus in ((_PRODUCT, False), (_PLUS, True)):
        match = rule.search(text)
        if match is None:
            continue
        name = text[: match.start()].rstrip(" (")
        beside = match.groupdict().get("beside")
        sure = beside or match["make"] or match["of"].strip() or _MANY.search(name)
        a, b = number_of(match["a"]), 1 if match["b"].lower() in ("a", "an") else number_of(match["b"])
        # of "Legs 1 + 2" the numbers are names
        told = match["make"] or match["lead"][:1] in ("(", "[") or (match["lead"].strip() and b != a + 1)
        if not (sure and re.search(r"[a-z]{3}", name, re.I)) or (plus and not told):
            continue
        n = a + b if plus else a * b
        if 1 < n <= _MOST:
            return f"{text[: match.start()]}{match['lead']}{match['make'] or ''}{n}{match['of']}{text[match.end() :]}"
    return text


# -- sets and pairs, so many for each of so many ----------------------------------------------------------------------
_ASIDE = r"(?P<lead>[(\[,:;]\s*|\s-+\s+)(?:make |work |crochet |need )?"
_CLOSED = r"(?=\s*(?:[)\].:]|$))"
# "(set of 4)", "(two pairs)", "(make 2 pairs)"
_SET = re.compile(rf"{_ASIDE}(?:an? )?(?:set of (?P<n>{_N})|(?P<pairs>{_N}) (?:pairs|prs?\.?)){_CLOSED}", re.I)
# "(one per leg, four legs)", "(make 2 for each of the 3 drawers)", "(a pair for each side)", "(2 per side)"
_EACH_OF = r"(?:(?:for|on|at|to|of) (?:each|every|either)|per|each|every)(?: of the (?P<of>{0}))? (?P<what>[a-z]{{3,}})"
_WHERE = r"(?:(?<=side) of (?:the |his |her |its |your )?[a-z]{3,})?"
_PER = re.compile(
    rf"{_ASIDE}(?:(?P<n>{_N}|a pair|a) )?{_EACH_OF.format(_N)}{_WHERE}"
    rf"(?:\s*[,;:(-]+\s*(?P<m>{_N}) (?P<again>[a-z]{{3,}}|of (?:them|these|those)))?{_CLOSED}",
    re.I,
)


def shared_out(text: str) -> str:
    """ "Knobs (two pairs)" -> "Knobs (4)", "Knobs (one per leg, four legs)" -> "Knobs (4)"; a side is one of two."""
    told = _SET.search(text)
    if told is not None:
        n = number_of(told["n"]) if told["n"] else 2 * number_of(told["pairs"])
        return f"{text[: told.start()]}{told['lead']}{n}{text[told.end() :]}" if 1 < n <= _MOST else text
    told = _PER.search(text)
    if told is None or (told["m"] and not _same(told["again"].lower(), told["what"].lower())):
        return text
    if _NO_PIECES.intersection(re.findall(r"[a-z]+", text[: told.start()].lower())):
        return text  # "Eyes in, R29, one on either side": a job, and no name
    many = told["m"] or told["of"] or ("2" if told["what"].lower() == "side" else "")
    each = (told["n"] or "a").lower()
    n = {"a": 1, "a pair": 2}.get(each) or number_of(each)
    n *= number_of(many) if many else 0
    return f"{text[: told.start()]}{told['lead']}{n}{text[told.end() :]}" if 1 < n <= _MOST else text


def _same(again: str, what: str) -> bool:
    return singular(again) == singular(what) or again.startswith("of ")


# -- several names, each with its number ------------------------------------------------------------------------------
_AND = r"\s*(?:,\s*(?:and|&)|,|;|&|\+|/|\band\b|\bplus\b)\s*"
_WHAT = r"[a-z]{3,}(?: [a-z]+){0,2}?"
_ALIKE = (
    r"(?:[,:;]?\s*(?:- |\()?(?:(?:are|all|both|worked|made|done|crocheted) )*"
    r"(?:(?:in )?the same|alike|identical|like (?:this|so)|(?:in )?this)(?: way)?\)?)?"
)
_ALL_ALIKE = re.compile(r"\b(?:alike|identical|the same)\W*$", re.I)
_LED = rf"(?:{_N}|both)(?: ?x)? {_WHAT}"
_NUMBERS_FIRST = re.compile(
    rf"\W*(?:make |crochet |work |(?P<head>[a-z]{{3,}}) ?[:(-] ?)?{_LED}(?:{_AND}(?:make )?{_LED}){{1,5}}"
    rf"{_ALIKE}\s*[).:]*\s*$", re.I
)
_LED_ONE = re.compile(
    rf"(?P<n>{_N}|both)(?: ?x)? (?P<what>{_WHAT})"
    r"(?=\s*(?:[,;&+/:.()]|\b(?:and|plus|are|all|both|worked|made|done|crocheted)\b|$))",
    re.I,
)
_OFTEN = (
    rf"(?:,?\s*[(\[]\s*(?:make |work |crochet )?x?\s?(?:{_N})(?: of (?:these|them))?\s?x?\s*[)\]]|"
    rf"(?:,?\s|\s?[:=]\s|\s-+\s)\s*(?:make )?x?\s?(?:{_N})\s?x?\b)"
)
_NUMBERED = rf"{_WHAT}{_OFTEN}"
_NEXT = rf"(?:{_AND}|\.\s+|(?<=[)\]])\s+)(?:the )?"
_NUMBERS_BEHIND = re.compile(rf"\W*{_NUMBERED}(?:{_NEXT}{_NUMBERED}){{1,5}}{_ALIKE}\s*[:.]?\s*$", re.I)
_NUMBERED_ONE = re.compile(rf"(?P<what>{_WHAT})(?P<often>{_OFTEN})", re.I)
_NUMBER = re.compile(rf"\b(?:x ?)?(?P<n>{_N})(?=\b|x)", re.I)
_OF_EACH = re.compile(
    rf"\W*(?P<names>{_WHAT}(?:{_AND}(?:the )?{_WHAT}){{1,3}})\s*[(\[,:-]\s*(?:make |work |crochet )?(?P<n>{_N}) "
    rf"(?:of )?each\s*[)\]]?{_ALIKE}\s*[:.]?\s*$",
    re.I,
)
_SIDES = frozenset(["inner", "outer", "left", "right", "front", "back", "upper", "lower", "large", "small", "other"])
# What is bought, what is worked, and what a number stands behind as its name does
_NO_PIECES = frozenset(
    [
        "eye", "eyes", "button", "buttons", "bead", "beads", "round", "rounds", "rnd", "rnds", "row", "rows", "sts",
        "stitch", "stitches", "hdc", "inc", "incs", "dec", "decs", "chain", "chains", "times", "make", "step", "steps",
        "size", "sizes", "color", "colour", "colors", "colours", "and", "total",
        "for", "per", "each", "all", "every", "of", "skein", "skeins", "ball", "balls", "mm", "cm",
    ]
)  # fmt: skip


def summed(text: str) -> tuple[str, int] | None:
    """A heading of several names, each with its own number -> (the names, how many all together); None else."""
    if len(text) > _LONGEST or not any(sign in text for sign in _JOINED) or not _many_numbers(text):
        return None
    first = _NUMBERS_FIRST.match(text)
    if first is not None:
        told = [(m["what"], number_of(m["n"])) for m in _LED_ONE.finditer(text)]
        if first["head"]:
            whole = _together(told) if first["head"].lower() in PARTS else None
            return (first["head"], whole[1]) if whole is not None else None
        nouns = [singular(what.split()[-1].lower()) for what, _ in told]
        same = len(set(nouns)) == 1 and len(nouns) > 1  # "2 red scales, 1 blue scale"
        return _together(told) if same or all(what.split()[-1].lower() in PARTS for what, _ in told) else None
    if _NUMBERS_BEHIND.match(text):
        found = [(m["what"].strip(), _NUMBER.search(m["often"])) for m in _NUMBERED_ONE.finditer(text)]
        told = [(re.sub(r"^(?:and|the) ", "", what), number_of(n["n"])) for what, n in found if n is not None]
        lettered = [what.split()[-1].lower() for what, _ in told]
        sides = all(re.search(r"[(\[x*:=-]|make ", m["often"], re.I) for m in _NUMBERED_ONE.finditer(text))
        return _together(told) if lettered and (sides or _ALL_ALIKE.search(text)) else None
    each = _OF_EACH.match(text)
    if each is None or number_of(each["n"]) == 1:
        return None
    names = [n for n in re.split(_AND, each["names"]) if n]
    last = names[-1].split()[-1].lower()
    of_one = len(names) == 3 and last in _SIDES and names[0].split()[-1].lower() in PARTS  # "Ear, inner and outer"
    n = number_of(each["n"]) * (2 if of_one else len(names))
    return (each["names"], n) if len(names) > 1 and (of_one or last in PARTS) and n <= _MOST else None


_JOINED = (" and ", "&", "+", "/", ",", " plus ", ";", ". ", ") ")


def _many_numbers(text: str) -> bool:
    low = text.lower()
    told = re.findall(r"\d+|[a-z]{3,6}", low)
    return "each" in low or sum(w.isdecimal() or w in NUMBER_WORDS or w == "both" for w in told) > 1


def _together(told: list[tuple[str, int]]) -> tuple[str, int] | None:
    n = sum(many for _, many in told)
    if len(told) > 2 and 2 * told[0][1] == n:
        n = told[0][1]  # "Legs (4 pieces, 2 front, 2 back)": all of them first
    if len(told) < 2 or not 1 < n <= _MOST or any(set(what.lower().split()) & _NO_PIECES for what, _ in told):
        return None
    return " and ".join(what for what, _ in told), n
