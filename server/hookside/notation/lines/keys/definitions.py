"""Abbreviations that a text explains: "X - single crochet", "inv = invisible decrease", one a line or several."""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import is_colour
from hookside.notation.bodies.tongues import key_of
from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.heads.headings import PARTS
from hookside.notation.lines.keys.keyed import pairs, stitch_meant
from hookside.notation.lines.keys.keyline import key_line, signless
from hookside.notation.lines.unlabelled import alone
from hookside.notation.page.words.twofold import TOLD
from hookside.pattern import Terms
from hookside.stitches import named

DEFINES = re.compile(
    r"^\s*[-*+]?\s*[\"']?(?P<name>[A-Za-z][A-Za-z0-9/ .\-]{0,24}?)[\"']?\s*"
    r"(?P<sign>=|:|\s-+\s|\(|\s(?:here |always )?(?:means|stands for|is short for)\s)\s*(?P<what>[^\n=]{2,240}?)\)?\s*$"
)
# "ms = tight stitch = single crochet", "LI: long increase = 3 sc in one st": told twice, the second time in stitches
_TWICE = re.compile(
    r"\s*[-*+]?\s*(?P<name>[A-Za-z][A-Za-z0-9/.\-]{0,11})\s*[=:]\s*(?P<what>[^=,;\n]{2,60}\s=\s[^=,;\n]{2,60}?)\.?\s*$"
)
_STITCH_WORDS = re.compile(
    r"\b(?:single|double|half|treble|triple|crochet|stitch(?:es)?|chains?|slip|increase|decrease|together|loops?|"
    r"skip|miss|"
    r"columns?|addition|augment\w*|diminu\w*|widening|narrowing|reduction|"
    r"magic|rounds?|rows?|yarn over|repeat|sts?|invisible|popcorn|bobble|puff|cluster|front|back|right side|"
    r"wrong side)\b",
    re.I,
)
# What a bracket says outright: "one needle plus one needle (2 single crochet in one stitch)"
_SPELT_OUT = re.compile(
    r"\((?:\d |one |two |three )?(?:single crochet|double crochet|half double|half treble|treble|slip stitch|chain)",
    re.I,
)
_WORKED = re.compile(r"\bworked (?=in|over|around|round|through|on)", re.I)
# "pair - two stitches worked together to make one"
_WORKED_TOGETHER = re.compile(
    r"\b(?P<n>[2-5]|two|three|four) (?:sts?|stitches|singles|single crochets?|sc|dc) (?:are |get )?"
    r"(?:worked|made|crocheted) (?=(?:off )?(?:together|tog|as one|into one)\b)",
    re.I,
)
# "p = points", "inc = 2 points in the same base point": in the words of another tongue
_OF_POINTS = re.compile(
    r"(?:(?:\d|two|three|an?|the) )?(?:points?|mesh(?:es)?|eyes?)(?: (?:in(?:to)?|closed|together)\b.*)?"
)
_NO_MEANING = re.compile(r"\b(?:pattern|toy|amigurumi|hook|yarn (?!over|round)|needle|make \d|worked|you|i|we)\b", re.I)


_COMMA_PAIR = re.compile(r"(?:(?<=^)|(?<=; )|(?<=;\n))(?P<name>[A-Za-z][A-Za-z0-9. ]{0,11}), (?=[a-z])")
_NO_NAMES = frozenset(
    ["start", "begin", "beginning", "foundation", "base", "set", "with", "using", "make", "work", "note", "tip"]
)


# "The stitches used are: sc = single crochet, inc = increase"
_LED = re.compile(r"^[^=:\n]{3,60}:\s*(?=[A-Za-z][\w.\-]{0,11}\s=\s)")
_BEHIND = re.compile(r"(?:^|[,;:]\s?)([A-Za-z][A-Za-z ]{1,24}?) \(([A-Za-z]{1,4})\)(?=\s*(?:[,;.]|$))")
_EQUALLY = re.compile(r"\(\s*=\s*")  # "fM = tight stitch (= single crochet)"
_SHORT = re.compile(r"\b(?:(?:sc|dc|hdc|htr|tr)(?:\d?tog)?|inc|dec)\b")
_SEVERAL = re.compile(
    r"(?:^|[:;,.]\s*|\s/\s)[A-Za-z][\w.\- ]{0,11}\s=\s|(?:^|(?<=[a-z)])\s)[A-Z]{1,3}(?:=| = )(?=[A-Za-z\d])"
)


_HEAD = re.compile(
    r"^\W*(?:legend|key|abbreviations?|abbrev?\.?|terms|codes?|short forms?|glossary|signs|letters)\s*:\s*"
    r"(?=\S+\s*[:=])",
    re.I,
)
# "Bean stitch (bean): draw up a loop three times ...": the short form in a bracket behind the long one
_SHORT_BEHIND = re.compile(
    r"^\s*[-*+]?\s*(?P<full>[A-Za-z][A-Za-z -]{2,28}?)\s*\((?P<short>[A-Za-z][A-Za-z.-]{0,9})\)\s*(?:[:=]|\s-+\s)\s*"
    r"(?P<what>[^\n=]{2,240}?)\s*$"
)
_STOP = r"(?<=[a-z)])\.\s+(?=[\w-]+\s*=|[A-Z]{1,5} - )"  # "PR - increase, two in one. UB - decrease."
_PARTS = re.compile(rf"\s*[;\n|]\s*|{_STOP}")
_PARTED = re.compile(r"[;\n|]|\.\s+(?=[\w-]+\s*=|[A-Z]{1,5} - )")
_PARTS_SLASHED = re.compile(rf"{_PARTS.pattern}|[ ]/[ ]")
_SEVERAL_NAMES = 3  # sure ones found in a line: then it is not asked again
_DASHED_PAIR = re.compile(r",\s*[\w\-]{1,8}\s+-\s+")


def lists_several(text: str) -> bool:
    """ "sc = single crochet, inc = increase, dec = decrease": two definitions or more in one line."""
    if key_line(text):
        return True
    if "=" not in text:
        return bool(said(text) or bracketed(text))
    return len(_SEVERAL.findall(text)) > 1 and len(_STITCH_WORDS.findall(text)) + len(_SHORT.findall(text)) > 1


def definitions(text: str) -> list[tuple[str, str]]:
    """The (name, meaning) pairs of one line."""
    side_by_side = key_line(text)
    found = _parted(text)
    found = side_by_side if len(side_by_side) > len(found) else found
    sure = bool(found) and all(stitch_meant(what) and "  " not in name for name, what in found)
    others = pairs(text) if len(found) < _SEVERAL_NAMES or not sure else ()
    return list(others) if len(others) > len(found) - (not sure) else found


def _parted(text: str) -> list[tuple[str, str]]:
    """Those that have a sign between them, or a line each."""
    found: list[tuple[str, str]] = []
    text = _apart(_EQUALLY.sub("(", text)) if "=" in text else text
    text = _HEAD.sub("", text) if ":" in text else text
    if text.count(" = ") > 1:
        text = _LED.sub("", text)
    if "=" not in text and (told := said(text)):
        return told
    if "=" not in text and (told := bracketed(text)):
        return told
    if "," in text and "=" not in text and ":" not in text and (told := signless(text.rstrip(" .").split(","))):
        return told  # "mr magic ring, s sc, i inc, d dec"
    behind = _BEHIND.findall(text) if "=" not in text and text.count("(") > 1 else []
    if len(behind) > 1:
        return [(name, what.strip()) for what, name in behind]  # "single crochet (X), increase (V)"
    if "=" not in text and ":" not in text and len(_COMMA_PAIR.findall(text)) > 1:
        text = _COMMA_PAIR.sub(lambda m: f"{m['name']} = ", text)  # "ch., chain; d.c., double crochet"
    slashed = text.count(" / ") > 2
    slashed = slashed or (" / " in text and len(re.findall(r"(?:^|/) ?[\w.]{1,8} ?[:=]\s", text)) > 1)
    for part in (_PARTS_SLASHED if slashed else _PARTS).split(text) if slashed or _PARTED.search(text) else [text]:
        many = part.count("=") > 1
        if many:
            pieces = re.split(
                r",\s*(?:and\s+)?(?=[A-Za-z][\w \-/]{0,48}\s*=)|\s+(?:and|&)\s+(?=[A-Za-z]{1,4}\s*=)|"
                r"\s-+\s(?=[A-Za-z][\w.]{0,11}\s*=)",  # "aug = 2 sc in the same stitch - dim = 2 sc closed together"
                part,
            )
        elif part.count(":") > 1:
            pieces = re.split(r",\s*(?=[A-Za-z][\w \-/]{0,20}\s*:)", part)
        elif _DASHED_PAIR.search(part):
            pieces = re.split(r",\s*(?=[\w \-/]{1,12}\s+-\s)", part)
        else:
            pieces = [part]
        for piece in pieces:
            twice = _TWICE.match(piece) if piece.count("=") + piece.count(":") == 2 else None
            if twice:
                found.append((twice["name"].rstrip("."), re.sub(r"\s=\s", " = ", twice["what"])))
                continue
            short = _SHORT_BEHIND.match(piece) if "(" in piece else None
            if short is not None and len(short["full"].split()) <= 4:
                found += [(short["short"].rstrip("."), short["what"]), (short["full"], short["what"])]
                continue
            match = DEFINES.match(piece)
            several = many and (match is None or len(match["name"].split()) > 1)
            led = _led(piece) if several else None
            if led is not None and not (match and any(named(match["name"].strip(), terms) for terms in _BOTH)):
                found.append(led)
                continue
            if match and len(match["name"].split()) <= 4 and not _NUMBERS.search(match["name"]):
                name = match["name"].strip().rstrip(".")
                what = _THROUGHOUT.sub("", match["what"].strip().rstrip(".,"))
                what = _alone(what)
                if match["sign"] == "(":
                    what = _GLOSS.sub(r"\1", what)
                what += ")" * (what.count("(") - what.count(")"))
                found.append((what, name) if turned(name, what) else (name, what))
    return found


# "MB (make bobble): yrh, ...": the name spelled out in brackets, of which only the second one is left
_GLOSS = re.compile(r"^([^()]{2,60})\)(?=\s*[:=-])")
# "... so here it is. In this post X = single crochet, ...", "I use X = sc, V = inc": the first name of several
_LED_BY = re.compile(r"(?:.*[\s:(])?(?P<name>[A-Z][A-Za-z]{0,3}|[a-z]{1,4})\s*=\s*(?P<what>[^=]{2,80})$", re.S)
# "X is single crochet, V stands for an increase", "X sc, V inc, A dec", "X (sc)": letters, each with its stitch
_SAID = re.compile(
    r"(?:(?<![\w-])(?P<name>(?-i:[A-Z]{1,2}|[xvatfmw])) (?:is|means|stands for|for) (?:an? |the )?|"
    r"(?:^|(?<=[,;:] ))(?P<letter>(?-i:[A-Z]{1,2})) \(?)"
    r"(?P<what>[a-z\d][a-z0-9 ]{1,40}?)(?=\s*(?:[,;.()]|\band\b|$))",
    re.I,
)
_MAY_SAY = re.compile(r"[A-Zxvatfmw](?<![\w-].)(?:(?<=[A-Z])[A-Z])? (?:is|means|stands for|for|\(?[a-z]{2})")
_THROUGHOUT = re.compile(r" (?:throughout|here|below|in this (?:pattern|post))$")


def _alone(what: str) -> str:
    """ "dec. Spiral. Hook 2.5": a stitch that we know, or a colour, without the sentences behind it."""
    first = what.split(". ", 1)[0]
    return first if is_colour(first) or any(named(first, terms) for terms in _BOTH) else what


def _led(piece: str) -> tuple[str, str] | None:
    """The name and meaning at the end of a sentence, where the meaning is a stitch that we know."""
    match = _LED_BY.match(piece)
    what = _THROUGHOUT.sub("", match["what"].strip().rstrip(".,")) if match is not None else ""
    first = re.split(r"[,(;]", what)[0].strip()
    if match is None or not (any(named(first, terms) for terms in _BOTH) or key_of(first)):
        return None
    return match["name"], what


def said(text: str) -> list[tuple[str, str]]:
    """Two or more letters whose stitches are told in a sentence: "X is single crochet, V is an increase"."""
    if not _MAY_SAY.search(text):
        return []
    told = [(m["name"] or m["letter"], m["what"].strip()) for m in _SAID.finditer(text)]
    found = {name: what for name, what in told if stitch_meant(what)}  # "V is 2 sc in 1 stitch" too
    return list(found.items()) if len(found) > 1 else []


# "sc, inc (2 sc in one), BLO", "ch (chain), dc (double crochet), dc2tog": no amounts, no count, and what some mean
_BRACKETED = re.compile(
    r"(?:^|[,;] (?:and )?)(?P<name>[A-Za-z]{1,8}(?:\d?tog)?(?: st)?)(?: \((?P<what>[^()\n]{3,40})\))?(?=[,;]|\.?$)"
)


def bracketed(text: str) -> list[tuple[str, str]]:
    """The names of a list in which nothing else stands, that tell in a bracket what they mean; two or more."""
    if "), " not in text and "); " not in text:
        return []
    text = text.strip()
    items = list(_BRACKETED.finditer(text))
    if sum(len(m[0]) for m in items) < len(text.rstrip(".")):
        return []
    found = [(m["name"], m["what"]) for m in items if m["what"] and stitch_meant(m["what"])]
    return found if len(found) > 1 else []


_NUMBERS = re.compile(r"\bnumbers?\b", re.I)  # "a bare number = that many single crochet": no name of a stitch
# "ch = chain dc = double crochet": the next short form, with nothing before it that parts the two
_GLUED = re.compile(r"(?<=[a-z)])\s+(?P<name>[A-Za-z][\w()./-]{0,9})(?=\s*=\s)")
_NAME_OF_TWO = re.compile(r"(?:^|[,;.] ?)[a-z\d]{2,8}$", re.I)  # ... but not "dec" of ", tr dec = 3 sc together"
_LONGEST_WORD = 11
_SHORT_FORM = re.compile(r"(?:sts?|st\(s\)|rnds?|rds?|rep|sk|yo|yoh|yrh|sps?|lps?|beg|mr|mc|tog|cont|rem|pm|fo)$", re.I)
_WHOLE_WORD = re.compile(
    r"(?:chains?|skip|miss|turn|join|shell|puff|picot|cluster|bobble|popcorn|treble|crochet|single|double|half|"
    r"increase|decrease|together|stitch(?:es)?)$",
    re.I,
)


# "A = navy   B = white": wide spaces between them; "X=short needle(sc) V=...": capitals
_SPACED = re.compile(r"(?<=[\w)])[ ]{2,}(?=[A-Za-z][\w./-]{0,9}\s*=\s)|(?<=[a-z)])[ ]+(?=[A-Z]{1,3}=)")


def _apart(text: str) -> str:
    """Definitions that stand one behind the other without a sign get one between them."""
    text = _SPACED.sub("; ", text)
    if text.count("=") < 2:
        return text

    def parted(match: re.Match[str]) -> str:
        name = match["name"]
        if _NAME_OF_TWO.search(text, max(0, match.start() - _LONGEST_WORD), match.start()):
            return match[0]
        known = _SHORT_FORM.match(name) or any(named(name, terms) is not None for terms in _BOTH)
        return f"; {name}" if known and not _WHOLE_WORD.match(name) else match[0]

    return _GLUED.sub(parted, text)


def turned(name: str, what: str) -> bool:
    """ "Magic circle = MC": is the short form behind?"""
    if not re.fullmatch(r"[A-Za-z][A-Za-z0-9.]{0,6}", what) or len(what) >= len(name):
        return False
    return len(name) > 4 and any(named(name, terms) is not None for terms in _BOTH)


_BOTH: tuple[Terms, Terms] = ("US", "UK")


def names_one(text: str, terms: Terms) -> bool:
    """ "Increase (inc): work 3 sc into one stitch": the long form and the short one in its bracket are one stitch."""
    behind = _SHORT_BEHIND.match(text) if "(" in text else None
    if behind is None:
        return False
    full, short = named(behind["full"].strip(), terms), named(behind["short"].rstrip("."), terms)
    return full is not None and short is not None and full.key == short.key


_DYED_COURSE = re.compile(rf"\W*(?:[A-H]|MC|CC ?\d?)\W+(?:{COURSE}|R)\.? ?\d", re.I)  # "A: R1: 6 sc", by its yarn


_LONG_CHAIN = re.compile(
    r"\s*(?:make a )?ch(?:ain)?(?: of)? ?\d{2,3}(?: ch(?:ain)?s?)?(?: (?:with|in|using) [a-z ]{3,20})?"
    r"(?:,? (?:and )?(?:fasten off|fo|cut)\b[^.]{0,20})?\W*",
    re.I,
)


def is_definition(text: str, terms: Terms) -> bool:
    """Does a line outside of any list explain an abbreviation? "Seal - a crochet toy" does not."""
    if names_one(text, terms):
        return True
    if _DYED_COURSE.match(text):
        return False
    match = DEFINES.match(_EQUALLY.sub("(", text) if "=" in text else text)
    if TOLD.match(text):
        return True  # "2dc" means two dc in the same stitch
    if not match:
        twice = _TWICE.match(text) if ":" in text and "=" in text else None
        return twice is not None and len(twice["name"]) <= 8 and bool(_STITCH_WORDS.search(twice["what"]))
    name, what = match["name"].strip(), match["what"]
    words = name.lower().split()
    chain = match["sign"] == ":" and _LONG_CHAIN.fullmatch(what) is not None
    if alone.ring(what) or chain or (is_colour(name.lower()) and alone.begins_ring(what)):
        return False  # "First: 6 sc in a magic ring", "Strings: chain 30 with black", "black: magic ring, 6 sc (6)"
    if match["sign"] in "=:" and turned(name, what.strip().rstrip(".,")):
        return True
    names_part = any(w in PARTS or w.rstrip("s") in PARTS for w in words)
    if words[0] in _NO_NAMES or len(words) > 3 or len(name) > 14 or names_part:
        return False
    first = re.split(r"[,(;]", what)[0].strip().rstrip(".")
    if named(first, terms) is not None or key_of(first) is not None:
        return match["sign"] != "(" or named(name, terms) is not None
    if match["sign"] in "=:" and len(name) <= 4 and _OF_POINTS.fullmatch(what.rstrip(" .").lower()):
        return True
    if match["sign"] != "(" and len(name) <= 8 and _SPELT_OUT.search(what):
        return True
    if match["sign"] == "=" and len(name) <= 8:
        what = _WORKED.sub(" ", what)  # "Sp st = spike stitch worked into the row below"
    if len(name) <= 8:
        what = _WORKED_TOGETHER.sub(r"\g<n> stitches ", what)
    if _NO_MEANING.search(what) or match["sign"] == "(":
        return False
    return len(name) <= 8 and bool(_STITCH_WORDS.search(what))
