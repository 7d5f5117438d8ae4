"""The words of the trade that are not stitches: what a token may mean inside a course."""

from __future__ import annotations

NUMBER_WORDS: dict[str, int] = {
    word: n
    for n, word in enumerate(
        [
            "one",
            "two",
            "three",
            "four",
            "five",
            "six",
            "seven",
            "eight",
            "nine",
            "ten",
            "eleven",
            "twelve",
            "thirteen",
            "fourteen",
            "fifteen",
            "sixteen",
            "seventeen",
            "eighteen",
            "nineteen",
            "twenty",
        ],
        1,
    )
}
COUNT_WORDS = "|".join(NUMBER_WORDS)
# A number of copies, in figures or in a word, as the patterns of several rooms ask for it
COPIES = rf"(?:\d{{1,2}}|{COUNT_WORDS})"
# ... and of anything else: stitches, rounds
AMOUNT = rf"(?:\d{{1,3}}|{COUNT_WORDS})"
# ... of two and more: "make 1" asks for nothing
SEVERAL_WORDS = "|".join(list(NUMBER_WORDS)[1:])
SEVERAL = rf"(?:[2-9]|1\d|{SEVERAL_WORDS})"
TENS = {"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}
ORDINAL_WORDS: dict[str, int] = {
    word: n
    for n, word in enumerate(
        [
            "first",
            "second",
            "third",
            "fourth",
            "fifth",
            "sixth",
            "seventh",
            "eighth",
            "ninth",
            "tenth",
            "eleventh",
            "twelfth",
            "thirteenth",
            "fourteenth",
            "fifteenth",
            "sixteenth",
            "seventeenth",
            "eighteenth",
            "nineteenth",
            "twentieth",
        ],
        1,
    )
}
ORDINAL_ENDS = frozenset({"st", "nd", "rd", "th"})
TIMES_WORDS: dict[str, int] = {"once": 1, "twice": 2, "thrice": 3}

NOUNS = frozenset(
    [
        "st",
        "sts",
        "stitch",
        "stitches",
        "stich",
        "stiches",
        "stitchs",
        "sp",
        "sps",
        "space",
        "spaces",
        "loop",
        "loops",
        "lp",
        "lps",
        "v",
        "vs",
        "edge",
        "corner",
        "ones",
    ]
)
EACH = frozenset({"each", "every", "ea", "all", "ev", "evry"})
NEXT = frozenset({"next", "nxt", "following", "foll", "follow", "remaining", "rem", "subsequent", "nex"})
PREPOSITIONS = frozenset({"in", "into", "on", "over", "across", "along", "to", "through", "inside", "onto"})
SHORTENED = {
    "arnd": "around", "acr": "across", "bet": "between", "betw": "between", "btw": "between", "btwn": "between",
}  # fmt: skip
ARTICLES = frozenset({"the", "a", "an", "of", "that", "this", "your", "its"})
COURSE_WORDS = frozenset(
    {"round", "rounds", "rnd", "rnds", "row", "rows", "rd", "rds", "rn", "rns", "rw", "rws", "r"}
).union(["lap", "laps", "tier", "tiers", "tours"])
ROW_ENDS = "row ends"  # the edge of a piece in rows, as a place for stitches
RING_WORDS = frozenset({"ring", "mr", "mc", "loop", "circle", "centre", "center", "hole", "ar", "it"})

# Words that change nothing in the count of a course.
HARMLESS = frozenset(
    [
        "work",
        "working",
        "worked",
        "make",
        "making",
        "do",
        "crochet",
        "crocheting",
        "collect",
        "strike",
        "mount",
        "dial",
        "recruit",
        "evenly",
        "loosely",
        "tightly",
        "now",
        "just",
        "simply",
        "then",
        "and",
        "with",
        "also",
        "carefully",
        "continue",
        "continuing",
        "only",
        "again",
        "so",
        "st's",
        "as",
        "usual",
        "normal",
        "normally",
        "please",
        "regular",
        "place",
        "another",
        "the",
        "a",
        "an",
        "of",
        "you",
        "your",
        "will",
        "should",
        "be",
        "is",
        "are",
        "it",
        "this",
        "that",
        "we",
        "i'll",
        "let's",
        "start",
        "starting",
        "begin",
        "beginning",
        "by",
        "using",
        "all",
        "now.",
        "way",
        "both",
        "through",
        "first",
        "last",
        "more",
        "here",
        "have",
        "has",
        "hook",
        "yarn",
        "same",
        "total",
        "plain",
        "even",
        "straight",
        "along",
        "alone",
        "weave",
        "knit",
        "complete",
        "completing",
        "one",
    ]
)
# Words that turn a sentence of a course into something else: such a sentence is not read as stitches.
TURNS_MEANING = frozenset(
    [
        "not",
        "without",
        "except",
        "unless",
        "instead",
        "alternate",
        "alternating",
        "alternately",
        "other",
        "or",
        "until",
        "if",
    ]
)

COLOUR_WORDS = frozenset({"colour", "color", "yarn", "col", "shade"})

# A page says the same lines again and again, and each is asked about more than once
REMEMBERED = 4096


def number_of(word: str) -> int:
    """ "two" or "2" -> 2."""
    low = word.lower()
    if low.isdecimal():
        return int(low[:4])
    return NUMBER_WORDS.get(low, 2)
