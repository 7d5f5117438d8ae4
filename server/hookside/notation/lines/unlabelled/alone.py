"""Lines that are whole by themselves where nothing is labelled: a ring, a round all the way, a job in a word."""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.colours import COLOURS
from hookside.notation.vocabulary import COUNT_WORDS, NUMBER_WORDS, REMEMBERED, SEVERAL, SEVERAL_WORDS, number_of
from hookside.pattern import CueKind

_COUNT = re.compile(
    r"\s*(?:[(\[{]\s*\d{1,4}[^()\[\]{}\d]{0,20}[)\]}]|[-=:]\s*\d{1,4}(?:\s*(?:sts?|sc))?|"
    r"[.;]\s*\d{1,4}\s*(?:sts?|stitches))\s*\.?\s*$",
    re.I,
)
# "inc all 12", "1 sc inc x6 18", "sc all round, 12": notes that put the count behind the round without a bracket
_BARE_COUNT = re.compile(
    r"(?:\b(?:all|a?round|across|each|every|times|sts?|(?:inc|dec)(?=,))|[x*] ?\d{1,2}|[)\]}*]),?\s+(?:for )?"
    r"(?P<n>\d{1,3})\s*\.?\s*$|"
    # "(sc 2, inc) x6, you end with 24": in so many words
    r"(?:[,;]\s|\s(?=so\s|which\s|that'?s\s))(?:(?:so|and|which|that|now|then)\s)?"
    r"(?:so|you(?:'ll|\swill|\sshould|'?ve)?\s(?:now\s)?(?:have|end(?:\sup)?\swith|got|get)|is|that'?s|makes|"
    r"giv(?:es|ing)(?:\syou|\sus)?|mak(?:es|ing)|still|always|ending\swith|for)\s(?P<told>\d{1,3})(?:\s(?:sts?|sc))?\s*\.?\s*$",
    re.I,
)
_LEFT = re.compile(r"(?<=\d) left(?=\s*\.?\s*$)")  # "dec 6 times, 6 left"
_ENDS_COUNT = frozenset(")]}tscTSC")  # with what a count ends that does not end in its digits
_COUNTED = 60  # characters of a line's end that may hold its count
_RING_WORDS = frozenset(
    [
        "magic", "adjustable", "amigurumi", "sliding", "slip", "knot", "ring", "circle", "loop", "mr", "mc", "make",
        "making", "form", "work", "working", "begin", "beginning", "start", "starting", "crochet", "crocheting",
        "single", "double", "half", "treble", "crochets", "sc", "dc", "hdc", "hdcs", "st", "sts", "stitch", "stitches",
        "with", "by", "in", "into", "on", "inside", "a", "an", "the", "your", "of", "to", "it", "and", "x", "using",
        "off", "from", "first", "then", "round", "piece", "put", "them", "commence", "wrap", "yarn", "around",
        "open", "opening", "cast", "mag", "wind", "winding", "wound", "wool", "thread", "cotton",
        "finger", "fingers", "twice", "this", "now", "pull", "draw", "tight", "tightly", "closed", "shut", "up",
    ]
)  # fmt: skip
_RING = re.compile(r"\b(?:ring|circle|loop|m\.?[rc]\.?)(?![a-z])", re.I)
_DOTTED = re.compile(r"\b(?:[a-z]\.){2,3}")  # "m.r.", "d.c."
_RING_HINTS = ("ring", "mr", "mc", "m.", "loop", "circle")
_SECOND_CHAIN = re.compile(
    r"\W*(?:first,? |now )?(?:(?:commenc|begin|start|mak)\w* (?:with |by )?)?"
    r"(?:(?:an? )?ch(?:ain)?s? ?(?:of )?(?:2|two)|(?:2|two) ch(?:ain)?s?)\W+"
    r"(?:and |then |work |make |now |put |crochet )*(?P<n>\d{1,2}|five|six|seven|eight|nine|ten|twelve) "
    r"(?:sc|dc|[ds]\.c\.|single crochets?|double crochets?) (?:in|into) "
    r"(?:the )?(?:2nd|second|first|1st)(?: (?:ch|chain|st|stitch|of (?:these|them|the chains?)))?"
    r"(?: from (?:the |your )?hook)?\W*",
    re.I,
)
_INTO_CHAIN = re.compile(
    r"\W*(?:(?:now|then|and) )?(?:work|make|put|crochet) (?:(?P<n>\d{1,2}|five|six|seven|eight|nine|ten|twelve) )?"
    r"(?:sc|[hd]?dc|h?tr|[ds]\.c\.|single crochets?|double crochets?) (?:in|into) (?:the )?"
    r"(?:2nd|second|3rd|third|4th|fourth) (?:ch(?:ain)?|st(?:itch)?)(?: from (?:the |your )?hook)?"
    r"(?P<along>,? (?:and |then )+[^.;:()]{4,60})?(?:[-=:., ]{1,4}\d{1,3} (?:sc|sts?))?(?:[.,;] (?:ch 1, )?turn)?\W*",
    re.I,
)
_GOES_ROUND = re.compile(
    r"(?:\b(?:around|across|to (?:the )?end|(?:in|into) (?:each|every|all)(?: sts?| stitch(?:es)?)?|times|"
    r"twice|thrice|repeat|rep|\d{1,3} (?:rounds?|rnds?|rows?)|"
    r"(?:sc|[hd]?dc|h?tr|inc|dec|invdec) (?:all|each|every|all (?:the )?(?:way )?round))|"
    r"[x*] ?\d{1,3}|\b\d{1,3} ?x|\*)\W*$",
    re.I,
)
# "18 sc", "sc 18", "inc to 18"
_PLAIN_ROUND = re.compile(
    r"\W*(?:\d{1,3} ?(?:[hd]?dc|sc|h?tr|inc|dec)s?|(?:[hd]?dc|sc|h?tr) \d{1,3}|"
    r"(?:inc|dec)(?:rease)?(?: (?:all )?a?round)? (?:(?:back|up|down) )?to \d{1,3})\W*$",
    re.I,
)
_SHAPED = r"(?:increas|decreas|shap)\w+"
_A_ROUND = r"(?:one |a |another |1 |one more |once more |again,? )?"
# A plain round as a whole line. Three places know one in words, for three questions, and none can take another's
# grammar: this one asks of a line without a label whether it is a round at all, so that it takes one round, nothing
# behind it, and no verb ("work even" alone may be talk); `references.EVEN` asks of a body how many rounds it stands
# for, whatever leads to them, and leaves what is behind them; `bodies/oldwords` keeps the stitch that is named ("a
# plain round of dc"), and puts the rest into the words of EVEN.
_PLAIN = re.compile(
    rf"\W*(?:(?:and|now|then) )?(?:{_A_ROUND}(?:plain|even|straight)(?: (?:round|rnd|row))?(?: of)?(?: sc)?"
    r"(?: again| once more| (?:all )?(?:the way )?round| this time)*|"
    rf"{_A_ROUND}(?:round|rnd|row) (?:plain|even|straight|of (?:plain )?sc|(?:without|with no) (?:any )?{_SHAPED})"
    r"(?: again)?|"
    rf"no {_SHAPED}(?: (?:in|on) (?:this|the next) (?:round|rnd|row|one))?)\W*",
    re.I,
)
# "around .......... 10": a plain round where no round has a label; else it is the end of the line above
_AROUND = re.compile(r"\W*(?:just |all )?(?:the way )?(?:around|round and round)\W*", re.I)
_AT_END = 90  # letters of a body, more than its last words and the signs behind them: it may be a very long one
_TURNED = re.compile(r"\bturn(?:ing)?(?: (?:the )?work)?\W*$", re.I)
_TURNS_FIRST = re.compile(r"\W*(?:ch(?:ain)? ?\d,?(?: and)? turn\b|turn,?(?: and)? ch(?:ain)? ?\d)(?=.*[a-z])", re.I)
_ROUND_BEHIND = re.compile(r"\s*[(\[]\s*\d{1,3} (?:rounds?|rnds?|rows?)\s*[)\]]\W*$", re.I)
_HOW = r"(?: (?:it|now|here|firmly|lightly|well|a (?:little|bit)|the (?:piece|ball|body|head)))*"
_JOBS: list[tuple[CueKind, re.Pattern[str]]] = [
    ("stuff", re.compile(rf"\W*(?:now |lightly |firmly |start )*(?:stuff(?:ing)?|fill(?:ing)?){_HOW}\W*", re.I)),
    (
        "eyes",
        re.compile(r"\W*(?:now )?(?:the )?(?:safety )?(?:eyes|nose and eyes|eyes and nose)(?: now| here)?\W*", re.I),
    ),
    ("eyes", re.compile(r"\W*(?:now )?(?:the )?safety nose(?: now| here)?\W*", re.I)),
    ("stuff", re.compile(r"\W*(?:light|firm|some|more|a (?:bit|little)(?: of)?) (?:stuffing|filling)\W*", re.I)),
    ("eyes", re.compile(r"\W*(?:now )?(?:the )?(?:safety )?eyes (?:in|on)\W*", re.I)),
    (
        "sew",
        re.compile(
            r"\W*(?:now )?(?:the )?(?:ears?|wings?|nose|tail|head|legs?|arms?|feet|fins?|lid|beak|horns?|mane|hair) "
            r"on\W*",
            re.I,
        ),
    ),
    (
        "other",
        re.compile(
            r"\W*(?:now )?(?:(?:fit|blush|glue|dress) (?:the |his |her |its )?[a-z]+|(?:right|wrong) side out|"
            r"(?:the )?(?:bell|rattle|squeaker|wire|lid|base|card|magnet|weight)s? in|"
            r"(?:the )?(?:ribbon|bow|collar|label|patch|cord|string|elastic|lace|bead|button|zip)s? "
            r"(?:on|in|through))\W*",
            re.I,
        ),
    ),
]
# "eyes: 12 | 13, 5 stitches apart", "eyes - between R6 and R7": the job first, and then where
# "tail", "fo", "tail again": the yarn is cut, where nothing but this stands below a round
_CUT = re.compile(
    r"(?:(?P<fo>fo|f/o|f\.o\.?)\b(?: and| n| &)? ?)?(?:(?:leave |long |a |the |same )*tail"
    r"(?: (?:again|too|as well|also|here|now|(?:as|like)(?: (?:before|the [a-z ]{2,20}|last time))?))*)?\W*"
)
_JOBS_WHERE = re.compile(
    r"\W*(?:safety )?(?:eyes|nose)\s*(?:[:,-]|=|(?=\s\d{1,2}/\d{1,2}\s*$))\s*"
    r"(?:place |put |insert |add |embroider\w*,? )?(?:them )?"
    r"(?:(?:at|on|in|into|between|after|over)\b[^\n]{0,30}\d|"
    r"\d{1,3}\s*(?:\||/|-|and|&)\s*\d{1,3}\b(?!\s*(?:sc|dc|hdc|sts?\b)))",
    re.I,
)
_LEAD = re.compile(r"(?:and |now )?(?:next|then|after that|now)(?:\s*[:,-]\s*|\s+)", re.I)
_SHORT_FORM = re.compile(r"\s*(?:\d{1,3} ?)?(?:inc|dec|invdec|sc|dc|hdc|sc2tog)\s*(?:x|\*)\s*\d{1,3}\W*$", re.I)
_LONGEST_JOB = 90
_CLOSES = re.compile(r"\W*(?:and |then )*(?:join|sl\b|ss\b|slip|close|pull|turn|do not|don't|tighten)", re.I)


@lru_cache(REMEMBERED)
def without_count(text: str) -> str:
    """A body without what is printed behind it: "(12)", "= 12", "(4 rounds)"."""
    if ")" in text or "]" in text:
        text = _without(_ROUND_BEHIND, text)
    if " left" in text[-12:]:
        text = _LEFT.sub("", text)
    last = _last(text)
    if last.isdecimal() or last in _ENDS_COUNT:
        text = _without(_COUNT, text)
        last = _last(text)
    may = last.isdecimal() or (last in _ENDS_COUNT and last.isalpha())
    bare = _BARE_COUNT.search(text, max(0, len(text) - _COUNTED)) if may else None
    if bare is not None and bare["told"]:
        return text[: bare.start()]
    return text[: bare.start("n")].strip(" ,") if bare is not None else text.strip()


def _without(behind: re.Pattern[str], text: str) -> str:
    match = behind.search(text, max(0, len(text) - _COUNTED))
    return text[: match.start()] if match is not None else text


def _last(text: str) -> str:
    """The last sign of a line, but for the full stop behind it."""
    return text.rstrip().removesuffix(".").rstrip()[-1:]


def counted(text: str) -> bool:
    """Does a count, or for how many rounds it goes on, close this line?"""
    return without_count(text) != text.strip()


def ring(text: str) -> bool:
    """ "MR with 5 sc", "6 sc in a magic ring (6)", "mr 6": a first round and nothing else, but talk in a bracket."""
    if text.rstrip(" .!")[-1:] == ")":
        text = _ASIDE.sub("", text)
    if text.lstrip()[:1] in ("S", "s", "B", "b") and (where := _WHERE.match(text)) is not None:
        text = text[where.end() :]
    return len(text) <= 110 and _ring(text)


# "Start at the nose: magic ring with 6 sc."
_WHERE = re.compile(r"\s*(?:start|begin)(?:ning|ing)? (?:at|from) (?:the )?[a-z]{3,12}(?: [a-z]{2,12}){0,3}[:,] ", re.I)
# "... into it (this is all English crochet, so that is the short stitch)."
_ASIDE = re.compile(r"\s?\((?=[^()\s]+ [^()\s]+ [^()\s]+)[^()\d]{12,160}\)[\s.!]{0,3}$")


# "Using a 2 mm hook and blue cotton, make a magic ring ...": with what, in front of a first round
_WITH_WHAT = re.compile(r"\W*(?:with|using|in) [^.;:()\n]{2,60}?(?:,|:| -+) (?:(?:first|now|then) )?", re.I)
# ... and what is told behind the ring: "4 sc in a magic circle. Leave a tail for sewing.", "..., pull tight and sew on"
_DONE_BEHIND = re.compile(
    r"\.(?=\s+[A-Z])|(?:[,;]| and| then)+ (?=(?:fasten|finish|cut|close|leave|sew|mark|place|pull|stuff|weave|break|"
    r"f\.?o\b|don't|do not)\b)"
)
# ... and within it: "make a magic ring with blue cotton and work 5 sc into it"
_AND_WHAT = re.compile(
    r"\b(?P<ring>ring|circle|loop) (?:with|in|using) (?:the |your )?(?:[a-z]+ ){1,2}?"
    r"(?:cotton|yarn|wool|thread)(?= and )",
    re.I,
)


def into_chain(text: str) -> int:
    """ "Work 7 sc in 2nd chain from hook." below "Chain 2." -> 7, a first round; 3 for one that goes on along its
    chain; 0 for any other words."""
    told = _INTO_CHAIN.fullmatch(without_count(text)) if len(text) <= 140 and "ch" in text else None
    if told is None:
        return 0
    return number_of(told["n"]) if told["n"] and not told["along"] else 3 if told["along"] else 0


def ring_led(text: str) -> bool:
    """ "Using blue cotton, make a magic ring and work 5 sc into it.": a first round behind the yarn or hook for it."""
    low = text.lower()
    if not any(hint in low for hint in _RING_HINTS):
        return False
    text = _DONE_BEHIND.split(text, maxsplit=1)[0]
    if len(text) > 160:
        return False
    led = _WITH_WHAT.match(text)
    return ring(_AND_WHAT.sub(r"\g<ring>", text[led.end() if led is not None else 0 :]))


def hook_ahead(text: str) -> int:
    """The letters of "Using a 2 mm hook, " in front of a first round; 0 where no hook is told there."""
    led = _WITH_WHAT.match(text)
    return led.end() if led is not None and "hook" in led[0].lower() and ring(text[led.end() :]) else 0


@lru_cache(REMEMBERED)
def _ring(text: str) -> bool:
    low = text.lower()
    named = any(hint in low for hint in _RING_HINTS) and _RING.search(text) is not None
    if not named and not ("ch" in low and _SECOND_CHAIN.match(text)):
        return False
    text = without_count(text)
    if _SECOND_CHAIN.fullmatch(text):
        return True
    words = re.findall(r"[a-z]+", _DOTTED.sub(lambda m: m[0].replace(".", ""), text.lower()))
    amounts = len(re.findall(r"\d+", text)) + sum(w in NUMBER_WORDS for w in words)
    known = all(w in _RING_WORDS or w in COLOURS or w in NUMBER_WORDS for w in words)
    return amounts == 1 and known and _RING.search(text) is not None


_IN_DIGITS = re.compile(rf"\W*(?:\d{{1,2}}|{COUNT_WORDS})[^\w-]", re.I)
_DIGIT_WORDS = frozenset(
    [
        "in", "the", "each", "every", "next", "other", "st", "sts", "stitch", "around", "all", "x", "times", "repeat",
        "round", "way", "then", "and", "second", "third", "fourth", "fifth", "dec", "inc",
    ]
)  # fmt: skip


def in_digits(text: str) -> bool:
    """ "2 in each (12)", "(1, 2 in next) x 6 (18)", "1, 2 around (18)": a round whose stitches are not named, with its
    count."""
    if len(text) > 90 or not _IN_DIGITS.match(text) or not counted(text):
        return False
    bare = without_count(text).lower()
    words = re.findall(r"[a-z]+|\d+", bare)
    amounts = sum(w.isdecimal() or w in NUMBER_WORDS for w in words)
    if not all(w in _DIGIT_WORDS or w in NUMBER_WORDS or w.isdecimal() for w in words):
        return False
    if "in" in words:
        return bool({"each", "every", "next"} & set(words))
    return amounts > 1 and bare.startswith(("around", "round", "all"), bare.rfind(" ") + 1)


def plain(text: str) -> bool:
    """ "plain", "plain round (24)", "even": a round in a word."""
    return len(text) <= _COUNTED and _PLAIN.fullmatch(without_count(text)) is not None


def around(text: str) -> bool:
    """ "around (24)": a plain round in a word, where none has a label."""
    return len(text) <= _COUNTED and _AROUND.fullmatch(without_count(text)) is not None


# Words that tell a round without a stitch: by its loops, as one more, as one like those before it
_TELLS_ROUND = frozenset(
    [
        "blo", "flo", "loop", "loops", "lps", "round", "rounds", "rnd", "rnds", "row", "rows", "same", "again",
        "another", "more", "plain", "even", "straight", "alike", "unchanged", "likewise", "ditto",
    ]
)  # fmt: skip
_AROUND_IT = frozenset(
    [
        "back", "front", "in", "into", "through", "the", "of", "all", "only", "this", "that", "next", "one", "last",
        "first", "time", "and", "then", "now", "a", "an", "for", "on", "work", "worked", "working", "do", "go", "it",
        "is", "once", "twice", "as", "before", "like", "just", "exactly", "around", "each", "every", "st", "sts", "sc",
        "stitch", "stitches", "both", "these", "those", "with", "here", "also", "too", "still", "your", "previous",
        "above",
    ]
)  # fmt: skip


def round_in_words(text: str) -> bool:
    """ "next round BLO (12)", "another one the same (12)", "plain rounds, three (12)": nothing but words that tell a
    round, and its count; never twelve copies of anything."""
    if len(text) > 90 or not counted(text):
        return False
    words = re.findall(r"[a-z]+|\d+", without_count(text).lower())
    told = all(w in _TELLS_ROUND or w in _AROUND_IT or w in NUMBER_WORDS or w.isdecimal() for w in words)
    return told and not _TELLS_ROUND.isdisjoint(words)


def begins_ring(text: str) -> bool:
    """ "Begin with a magic ring and put six single crochet into it, pull tight": a first round."""
    return _RING.search(text) is not None or _SECOND_CHAIN.match(text) is not None


@lru_cache(REMEMBERED)
def all_round(text: str) -> bool:
    """ "inc around (10)", "(sc, inc) x 6": is the round at its end where this line ends?"""
    bare = text.strip()
    if counted(text) or _GOES_ROUND.search(bare, max(0, len(bare) - _AT_END)) or _PLAIN_ROUND.match(text):
        return True
    return _turns(text)


def _turns(text: str) -> bool:
    first = max(0, len(text) - _AT_END)
    return "turn" in text[first:].lower() and _TURNED.search(text, first) is not None


def turned(text: str, after: str) -> bool:
    """ "5 sc, turn" and then "ch 1, dec, sc, dec"; "... in next 4" and then "ch 1, turn, 5 sc": two rows."""
    if _turns(text) or (len(after) > 9 and _TURNS_FIRST.match(after)):
        return True
    return bool(_TURNS_FIRST.match(text) and re.match(r"\W*ch(?:ain)? ?[1-3]\b", after, re.I))


def closing(text: str) -> bool:
    """ "join with sl st", "pull tight": what belongs to the round before it."""
    return _CLOSES.match(text) is not None


def lead(text: str) -> int:
    """How long the "Next:" or "Then," in front of a line is."""
    match = _LEAD.match(text)
    return match.end() if match else 0


def short_form(text: str) -> bool:
    """ "inc x 6": a round, never six copies of a piece called Inc."""
    return _SHORT_FORM.match(text) is not None


def cuts(text: str) -> bool:
    """ "tail", "fo", "fo long tail" in small letters and nothing else."""
    return len(text) <= 40 and text.strip() != "" and _CUT.fullmatch(text.strip()) is not None


def job(text: str) -> CueKind | None:
    """What a line of a word or two asks for: "stuff", "Stuff firmly", "Safety eyes"; None for any other line."""
    if _JOBS_WHERE.match(text) and len(text) <= _LONGEST_JOB:
        return "embroider" if re.search("embroider", text, re.I) else "eyes"
    if len(text) > 40:
        return None
    if cuts(text):
        return "fasten" if text.strip()[:1] == "f" else "tail"
    return next((kind for kind, words in _JOBS if words.fullmatch(text)), None)


_RINGED = re.compile(rf"\d{{1,2}}|\b(?:{SEVERAL_WORDS})\b", re.I)  # how many stitches a ring is told to have


def stitches_in_ring(text: str) -> int:
    """ "Begin with 6 stitches in the ring.", "a ring of 6" -> 6; 0 for any other words."""
    chained = _SECOND_CHAIN.fullmatch(without_count(text)) if "ch" in text.lower() else None
    if chained is not None:
        return number_of(chained["n"])
    amount = _RINGED.search(without_count(text)) if ring(text) else None
    return number_of(amount[0]) if amount else 0


_SO_MANY = re.compile(
    rf"\W*(?:now |you )?(?:make|work|crochet|need)\s+(?P<n>{SEVERAL})"
    r"(?:\s+(?:of\s+(?:these|them|those)|pieces?|in\s+all|in\s+total|alike|the\s+same))?\W*$",
    re.I,
)


def copies(text: str) -> int:
    """ "Make 2.", "make two of these" below the rounds of a piece -> 2; 0 for any other line."""
    match = _SO_MANY.match(text) if len(text) <= 40 else None
    return number_of(match["n"]) if match else 0
