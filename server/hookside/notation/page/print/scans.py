"""What a scan does to a page: 1 read as l, 0 as O, a word cut in two by the end of a line.

Only labels and numbers are touched, one character for one; a word is put together again only when the whole of it is
a word that patterns use, since "ch-" at a line's end may be just that.
"""

from __future__ import annotations

import re

from hookside.notation.sought import Sought

_ONE = re.compile(r"[lI](?:(?<![A-Za-z].)(?=\d)|(?<=\d.)(?![A-Za-z]))")
_NAUGHT = re.compile(r"(?P<n>\d)[oO](?![A-Za-z])")
# The text's own letters and words: a stitch named O, one named lo
_OWN_O = re.compile(r"O(?<![A-Za-z\d].)[ ]?[:=][ ]?[A-Za-z]")
_OWN_L = re.compile(r"[lI](?<![A-Za-z\d].)[ ]?[:=][ ]?[A-Za-z]")
# "I = inc", "I: inc", "I for increase": then "6I" is no 61
_OWN_I = re.compile(
    r"I(?<![A-Za-z\d].)(?: ?= ?[a-z]{2}|(?: ?[:(] ?| - | (?:(?:for|is|means) )?(?:an? )?)(?:inc|aug|two |2 ))"
)
_OWN_LO = re.compile(r" lo(?<=\d...)(?![A-Za-z])")
_HURT = "(?:[0-9lIoO]{1,3}|(?<=[ ])S)"  # "Rnd S:", but not "RS:"
# "Rnd l:", "Rnds ll-12:", "Row lO)": a number behind a course's name, though no digit of it may be left; it begins
# with no naught: "2. Ro.:" has its number before
_LABEL = re.compile(
    rf"""
    (?P<kind>[Rr](?<!\w.)(?i:ounds?|nds?|ows?|ds?|)\.?[ ]{{0,3}})
    (?i:(?P<first>(?![oO]){_HURT})
    (?P<rest>(?:(?:[ ]?(?:-|&|,|,[ ]and)|[ ](?:to|and|through|thru))[ ]?{_HURT}){{0,6}})
    (?=[ ]*[:.)\-=]|[ ](?:of|for|on)[ ])(?![A-Za-z0-9]))
    """,
    re.X,
)
# Where the rounds are counted in Roman figures, II is 2 and no damaged 11
_ROMAN = re.compile(
    r"[Rr](?<!\w.)(?:ounds?|nds?|ows?|(?<=R)(?:NDS?|OUNDS?|OWS?)?)\.?[ ]{0,3}(?:III|IV|VI{0,3}|IX)(?![A-Za-z])"
)
# "Rnd s 26-27."
_PARTED = Sought(
    ("nd s", "row s"), r"^(?P<kind>[ ]{0,8}(?:Rnd|Round|Row))(?P<gap>[ ])s(?=[ ]?\d)", re.I | re.M
)
_LINE_NUMBER = re.compile(r"^(?P<lead>[ ]{0,8}[(\[]?)(?P<n>l[lO]?|I[IO]|lo)(?=[.)\]:][ ])", re.M)
_COUNT = re.compile(
    r"(?P<n>[lI](?<=[(\[].)[lIO0-9]{1,2})(?=(?:\s?(?:sts?|stitch(?:es)?|sc|dc|hdc|htr|tr|chs?)\b)?"
    r"[^()\[\]\n]{0,24}[)\]])"
)
# "sc around (2 4)": one number that the scan cut in two, where a line ends as it does in a count
_PARTED_COUNT = re.compile(
    r"[1-9](?<=[A-Za-z\d)\]*.,] [(\[{].)(?:\d? \d|(?<=1) \d\d)"
    r"(?=(?: (?:sts?|stitches|sc))?[ ]?[)\]}][ ]*(?:\.|$))",
    re.M,
)
_FIVE_FOR_S = Sought(("5c",), r"5(?<![\w.].)(?=c (?:in|around|across|each|even|\d)\b)", re.I)  # "5c around"
# "Ch l, turn.", "in next lO sc"
_CHAINED = re.compile(r"[lI](?<=\b[Cc]h[ -].)[lIO0]?(?![A-Za-z0-9'])")
_AMOUNT = Sought(
    r"[lIO](?:(?<![A-Za-z0-9'.].)[lIO0-9]{1,2}|(?<=[0-9].)[lIO0-9]?) (?:st|sc|dc|hdc|htr|tr|ch|dec|inc)",
    r"(?<![A-Za-z0-9'.])(?!II)(?=[lIO0-9]{0,2}[lIO])[lI1-9][lIO0-9]{1,2}(?=[ ](?:sts?|sc|dc|hdc|htr|tr|chs?|dec|inc)\b)"
)
_LOOK_LIKE_DIGITS = frozenset("lIoOS")
_DIGITS = str.maketrans("lIoOS", "11005")
_CUT = Sought(
    ("-\n", "- \n", "-  "), r"(?<![A-Za-z])([A-Za-z][a-z]{0,8})-[ ]*\n[ ]{0,12}([a-z]{1,9})(?![A-Za-z])"
)
# "lst round", "llth", "lOth": a number with its ending, though no digit of it may be left
_ORDINAL = Sought(
    r"[lIO][lIO0-9]{0,2}(?:st|nd|rd|th)\b",
    r"(?<![A-Za-z0-9])(?=[0-9]{0,2}[lIO])(?!II?[snrt])[lIO0-9]{1,3}(?=(?:st|nd|rd|th)\b)",
)
# "*l d.c., 2 d.c. into next st.": one, where an amount of stitches stands
_LONE_ONE = re.compile(
    r"[lI](?<![A-Za-z0-9'.].)(?=[ ]?(?:(?:[hd]?\.?[dt]\.?[cr]|s\.?c|h\.?t\.?r|tr|d\.?tr|ss|ch|inc|dec|sts?|stitch)\b|"
    r"(?:single|double|half|treble)\b))"
)
# "1 d.o. in each d.c.", "s.e.": the c of a stitch's letters, where the page has them whole as well
_DAMAGED_C = re.compile(r"(?<![A-Za-z.])(?P<lead>(?:h\.)?(?P<letter>[ds])\.)[oe0](?=\.(?:[ ,;:)]|$))", re.I | re.M)
# "* se in next 6 sc", "2 de in each st", "(56 se)": the same without dots. "de" is a word of other tongues, and "so" of
# this one, so that these want more about them
_DAMAGED_BARE = Sought(
    tuple(f"{word}{sign}" for word in ("se", "de", "so") for sign in " ,;.)]\n"),
    r"(?<![A-Za-z.'-])(?:(?P<s>[Ss])e(?=[ ](?:in|into|around|across|over|each|even|evenly|next)\b|[,;.)\]]|[ ]?\n)|"
    r"(?P<d>[Dd])e(?=[ ](?:in|into)[ ](?:each|every|next|same|first|last|the|\d)\b)|"
    r"(?:(?<=[*(\d][ ])|(?<=[*(]))(?P<o>[Ss])o(?=[ ](?:in|into)[ ](?:each|every|next|same|first|last)\b))",
)
_WHOLE_BARE = {"s": re.compile(r"\bsc(?: in\b|[,)]| around)"), "d": re.compile(r"\bdc(?: in\b|[,)]| around)")}
_FEW = 3  # times that the letters are whole on the page, at the least
# "(3 d,c., dec.)": its dot, read as a comma
_COMMA_IN = re.compile(r"[ds](?<![A-Za-z.].),(?=c\b)", re.I)
_WORDS = frozenset(
    [
        "close", "closed", "closing", "place", "placed", "leave", "long", "tail", "small", "firm", "middle",
        "colored", "black", "yellow", "gold", "blue", "whole", "while", "lightly", "flat", "fold", "pull",
        "sole", "hole", "body", "wool", "soles", "legs", "ears", "wheel", "wheels", "nose", "below", "follow", "along",
        "attach", "embroider", "needle", "position", "safety", "thread",
        "across", "again", "another", "around", "back", "beginning", "between", "both", "chain", "chains",
        "changing", "colour", "color", "crochet", "crocheting", "decrease", "decreases", "double", "each", "edge",
        "evenly", "fasten", "fastening", "finish", "firmly", "following", "front", "half", "increase", "increases",
        "increasing", "decreasing", "inside", "invisible", "join", "joining", "last", "leaving", "loop", "loops",
        "magic", "marker", "next", "only", "opening", "piece", "pieces", "remaining", "repeat", "repeating",
        "repeats", "right", "ring", "round", "rounds", "same", "second", "sewing", "single", "skip", "slip",
        "space", "spaces", "starting", "stitch", "stitches", "stuff", "stuffing", "times", "together", "treble",
        "turn", "turning", "until", "using", "weave", "working", "wrong", "yarn",
    ]
)


# "Ronud 4:", "Rnf 5.": a label with a slip of the hand in its word
_SLIPPED = re.compile(
    r"^(?P<lead>[ *#>\-]{0,8})(?P<word>[Rr][a-z]{2,6})(?=[ ]\d{1,3}(?:[ ]?-[ ]?\d{1,3})?[ ]?[:.)])", re.M
)
_COURSES = ("round", "rounds", "rnd", "rnds", "row", "rows")
_NO_SLIP = frozenset(
    ["ring", "rib", "roll", "rope", "red", "rod", "rim", "run", "rig", "road", "roof", "rook", "room", "root", "rose",
     "raw", "rocks", "rock", "rods", "ropes", "rolls", "rings", "robe", "rung", "rd", "rds", "wound"]
)  # fmt: skip


def _slipped(match: re.Match[str]) -> str:
    word = match["word"].lower()
    if word in _NO_SLIP or word in _COURSES:
        return match[0]
    near = [c for c in _COURSES if c[0] == word[0] and _near(word, c)]
    if not near:
        return match[0]
    right = min((c for c in near if len(c) <= len(word)), key=lambda c: -len(c), default="rnd")
    return match["lead"] + right.capitalize().ljust(len(word))


def _near(word: str, other: str) -> bool:
    """Two neighbours swapped, one letter changed, doubled or left out."""
    if len(word) == len(other):
        apart = [i for i in range(len(word)) if word[i] != other[i]]
        return len(apart) == 1 or (
            len(apart) == 2 and word[apart[0]] == other[apart[1]] and word[apart[1]] == other[apart[0]]
        )
    short, long = sorted((word, other), key=len)
    return len(long) == len(short) + 1 and any(long[:i] + long[i + 1 :] == short for i in range(1, len(long)))


def _label(match: re.Match[str]) -> str:
    if match["first"].isdecimal() and not match["rest"]:
        return match[0]
    rest = match["rest"]
    if not _LOOK_LIKE_DIGITS.isdisjoint(rest):
        rest = re.sub(rf"(?<![A-Za-z]){_HURT}(?![A-Za-z])", lambda m: m[0].translate(_DIGITS), rest)
    return match["kind"] + match["first"].translate(_DIGITS) + rest


# A scan's asterisks: "Sc in next st, inc". Repeat from " around.
_STARS = re.compile(
    r"(?P<a>[\"\u201c\u201d])(?P<list>[^\"\u201c\u201d\n]{3,160})(?:(?P<b>[\"\u201c\u201d])(?P<gap>[.,;]?\s*))?"
    r"(?P<rep>\brep(?:eat)?\s+(?:from\s+)?)[\"\u201c\u201d](?=\s)",
    re.I,
)


# '"* 3 d.c., inc.; rep. from *" to end': quotes that stray to their asterisks
_QUOTED_STAR = re.compile(r"[\"\u201c\u201d](?:(?=\*)|(?<=\*.))")


# '"Sc in next sc, 2 sc in next sc" twice': quotes in the place of brackets (old leaflets)
_QUOTED_GROUP = re.compile(
    r"[\"\u201c](?P<group>(?:[^\"\u201c\u201d\n]|\n(?!\n)){2,160})[\"\u201d]"
    r"(?=,?\s(?:twice|x ?\d|(?:\d{1,2}|two|three|four|five|six|seven|eight|nine|ten) (?:more )?times)\b)"
)
_QUOTED_WORK = re.compile(r"\b(?:[sdh]{0,2}[ct]r?|[ds]\.c|inc|dec|ch)\b", re.I)


# "* Sc in next 4 sc, dec; repeat from " around": only the second of two asterisks is hurt
_HALF_STARRED = Sought(
    r"[\"\u201c\u201d'](?<=\s.)(?=\s)",
    r"(?P<list>\*[^*\"\u201c\u201d]{3,160}\brep(?:eat)?\.?\s+from\s+)[\"\u201c\u201d'](?=\s)", re.I
)


def _starred(match: re.Match[str]) -> str:
    close = f"*{match['gap']}" if match["b"] else ""
    return f"*{match['list']}{close}{match['rep']}*"


def _bracketed(match: re.Match[str]) -> str:
    return f"({match['group']})" if _QUOTED_WORK.search(match["group"]) else match[0]


# "ar0und", "on1y": figures inside a word that patterns use
_FIGURED = Sought(
    r"[01](?:(?=[A-Za-z])|(?<=[A-Za-z].))",  # a figure beside a letter
    r"(?<![A-Za-z0-9])(?=[A-Za-z01]{0,14}[01][A-Za-z01]{0,14})[A-Za-z01]{4,14}(?![A-Za-z0-9])",
)
_LETTERS = str.maketrans("01", "ol")


def _figured(match: re.Match[str]) -> str:
    word = match[0].translate(_LETTERS)
    return word if word.lower() in _WORDS else match[0]


# "Rncl 5:", "Rouncl 2:", "11th rouncl.-": a d in two pieces
_SPLIT_D = Sought(("ncl",), r"(?<![a-z])(?P<lead>r(?:ou)?n)cl(?P<s>s?)(?![a-z])", re.I)
# "Rnd G:" behind 5, "Rnds 7-B:": a figure that the scan took for a letter, told by the labels before it
_LETTERED = re.compile(
    r"[GBZqS](?:(?<=[dswDSW] .)|(?<=\d-.)|(?<=\d- .)|(?<=\d -.)|(?<=\d - .))(?=[ ]?[:.)])"
)
_FIGURE = re.compile(
    r"^[ ]{0,8}(?:rounds?|rnds?|rows?|rds?)\.?[ ]{1,2}(?:(?P<first>\d{1,3})[ ]?-[ ]?)?"
    r"(?P<n>\d{1,3}|[GBZqS])(?=[ ]?[:.)])",
    re.I | re.M,
)
_LOOKS = {"g": "6", "b": "8", "z": "2", "q": "9", "s": "5"}


def _figures_back(text: str) -> str:
    """Labels whose only figure became a letter, where the label before bears the figure out."""
    if not _LETTERED.search(text):
        return text
    out: list[str] = []
    at = last = 0
    for match in _FIGURE.finditer(text):
        n = _LOOKS.get(match["n"].lower(), match["n"])
        if n != match["n"] and (int(match["first"]) < int(n) if match["first"] else last == int(n) - 1):
            out += [text[at : match.start("n")], n]
            at = match.end("n")
        last = int(n)
    return "".join([*out, text[at:]])


def digits(text: str) -> str:
    """Letters that stand for digits, and quotes that stand for asterisks, become them; the length stays."""
    text = _SPLIT_D.sub(lambda m: f"{m['lead']}d{m['s']} ", text)
    if '"' in text or "\u201c" in text or "\u201d" in text:
        text = _STARS.sub(_starred, _QUOTED_STAR.sub(" ", text))
        text = _QUOTED_GROUP.sub(_bracketed, text)
    text = _PARTED.sub(lambda m: f"{m['kind']}s{m['gap']}", text)
    text = _HALF_STARRED.sub(lambda m: f"{m['list']}*", text)
    text = _FIGURED.sub(_figured, text)
    whole = {letter for letter in "ds" if f"{letter}.c." in text.lower()}
    if whole:
        text = _DAMAGED_C.sub(lambda m: f"{m['lead']}c" if m["letter"].lower() in whole else m[0], text)
        text = _COMMA_IN.sub(lambda m: f"{m[0][0]}." if m[0][0].lower() in whole else m[0], text)
    if _DAMAGED_BARE.may_be_in(text):
        bare = {at for at, name in _WHOLE_BARE.items() if len(name.findall(text)) >= _FEW}
        text = _DAMAGED_BARE.pattern.sub(lambda m: _whole_again(m, bare), text)
    own_i = _OWN_I.search(text) is not None
    text = _ONE.sub(lambda m: m[0] if own_i and m[0] == "I" else "1", text)
    if not _OWN_O.search(text):
        text = _NAUGHT.sub(r"\g<n>0", text)
    if not _ROMAN.search(text):
        text = _figures_back(_LABEL.sub(_label, text))
    text = _SLIPPED.sub(_slipped, text)
    text = _FIVE_FOR_S.sub("s", text)
    text = _PARTED_COUNT.sub(lambda m: m[0].replace(" ", "") + " ", text)
    text = _ORDINAL.sub(lambda m: m[0].translate(_DIGITS), text)
    if not _OWN_L.search(text):
        text = _LONE_ONE.sub("1", text)
        text = _CHAINED.sub(lambda m: m[0].translate(_DIGITS), text)
        text = _AMOUNT.sub(lambda m: m[0].translate(_DIGITS), text)
    if _OWN_LO.search(text):
        return text
    text = _LINE_NUMBER.sub(lambda m: m["lead"] + m["n"].translate(_DIGITS), text)
    return _COUNT.sub(lambda m: m["n"].translate(_DIGITS), text)


def _whole_again(match: re.Match[str], whole: set[str]) -> str:
    letter = match["s"] or match["d"] or match["o"]
    return f"{letter}c" if letter.lower() in whole else match[0]


def cut_words(text: str) -> list[tuple[int, int]]:
    """Spans (hyphen, line end and indent) that stand inside a word: without them the word is whole again."""
    found = []
    for match in _CUT.finditer(text):
        if match[1].lower() + match[2] in _WORDS:
            found.append((match.end(1), match.start(2)))
    return found
