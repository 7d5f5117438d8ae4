"""Words of the trade that are misspelt, read badly by a scan or wrongly chosen by a machine -> the word that was meant.

Only a word nobody knows is touched, and only where one word of the trade is within a slip of the hand of it: two
letters swapped, one doubled or left out, "rn" read for "m". A letter changed for another is taken in long words alone:
"wing" is no "ring".
"""

from __future__ import annotations

import re
from functools import cache, lru_cache

from hookside.colours import COLOURS, SHADES
from hookside.notation.bodies.besidecounts import without_words_beside
from hookside.notation.bodies.explained import without_explanations
from hookside.notation.bodies.shapedby import numbered
from hookside.notation.bodies.turnchains import summed
from hookside.notation.vocabulary import (
    ARTICLES,
    COURSE_WORDS,
    EACH,
    HARMLESS,
    NEXT,
    NOUNS,
    NUMBER_WORDS,
    ORDINAL_WORDS,
    PREPOSITIONS,
    REMEMBERED,
    RING_WORDS,
    TURNS_MEANING,
)
from hookside.stitches import by_name

_TRADE = (
    "stitch stitches next each every around across repeat times magic ring round rounds single double treble half "
    "crochet chain chains skip slip join turn back front loop loops only both together increase increases decrease "
    "decreases first last same from hook into with work space spaces previous remaining until twice starting "
    "beginning through post invisible again more below foundation"
)
_KNOWN_BESIDES = (
    "count counts row rows end side sides other second leg legs body piece pieces total stay star form fasten leave "
    "sew stuff marker mark place top bottom edge corner color colour yarn thread tail long firm tight pull close "
    "center centre middle even evenly straight work works worked made make makes here there where then than that "
    "this these those them they their have head hold hole whole once one ones ace bach bead lock bloc leap lop loo "
    "timers tines tomes skips slips joins turns tune bank pack lack rack rock hock look book cook took nook wring "
    "bring string sound found wound mound pound bound ground sting king wing sing rings rang rung angle tingle "
    "trouble reap beat teach reach beach peach earth search lest list lost fist firs form farm worth wish wood word "
    "pacing tempo gain main rain grain dain simple signal simples couple fabric wither width wit"
)
# What a scan reads for another letter, each way
_LOOKS_LIKE = frozenset(["ec", "ce", "hb", "bh", "tl", "lt", "li", "il", "un", "nu", "eo", "oe", "co", "oc"])
_LONG = 7  # letters; from here on a changed letter is taken for a slip


# "the second chain counted from the needle": a machine's word for the hook
_NEEDLE = re.compile(r"(?:\bcount(?:ed|ing) )?\bfrom (?:the |your )?(?P<needle>needle|crochet)\b(?! hook)", re.I)


# "d.c.2tog.": dots within the name of a decrease
_DOTTED = re.compile(
    r"(?<![A-Za-z.])(?:[a-z] ?\. ?){1,2}[a-z] ?\.(?=\d ?tog)|"
    r"(?:(?<=[,;(*\[] )|(?<=[,;(*\[])|^)(?:[a-z] ?\. ?){2,3}(?=\d ?tog)",
    re.I,
)


# "join with a s.s. to first d.c.", "join by sl. st. into 3rd ch": no sentence ends within it
_JOINED = re.compile(
    r"(?P<lead>\bjoin(?:ed|ing)?,? (?:with|by|using) (?:an? |1 |one )?|(?:[,;:.)]|\band|\bthen) )"
    r"(?P<slip>s\. ?s\.|ss\.|sl\.? ?st\.)(?= (?:to|in|into|on) (?:the )?(?:top|first|1st|3rd|third)\b)",
    re.I,
)
# "6 (8, 10) sc", "4 (5, 6) times": a number for each size, of which the first is read
_SIZES = re.compile(
    r"(?<![\d/])(?P<first>\d{1,3})(?P<others> ?[(\[]\d{1,3}(?:[,:;/|] ?\d{1,3}){1,6}[)\]]|(?:/\d{1,3}){2,6}(?![\d/]))"
    r"(?:(?P<noun>(?= ?(?:sc|dc|hdc|htr|tr|sts?|times|chs?|stitches|inc|dec|rounds|rnds|rows)\b))|"
    r"(?=\s*(?:[.,;)\]]|$)))",
    re.I,
)


def sized(body: str) -> str:
    """The body with its first size alone; of the same length. Numbers that stand alone, as a count does ("12 (14, 16)",
    "(12 (14, 16))"), are those of sizes where none is less than the one before."""
    if "/" not in body and (("(" not in body and "[" not in body) or not _LISTED.search(body)):
        return body
    return _SIZES.sub(_first_size, body)


_LISTED = re.compile(r"\d[,:;|] ?\d")


def _first_size(match: re.Match[str]) -> str:
    numbers = [int(n) for n in re.findall(r"\d+", match[0])]
    if match["noun"] is None and numbers != sorted(numbers):
        return match[0]
    return match["first"] + " " * len(match["others"])


_HALF_LOOP = re.compile(r"(?<=\bhalf)-(?=loops?\b|mesh(?:es)?\b|members?\b)", re.I)  # "in the back half-loop"
# "6 stitches of single crochet", "1 turning chain": words that say what is said anyway
_SAID_TWICE = re.compile(
    r"(?<=\d )(?:st(?:itche)?s of (?=(?:half |single |double )?(?:crochet|[hd]?dc|sc|h?tr)\b)|"
    r"turning (?=ch(?:ain)?s?\b))",
    re.I,
)


# "1 loose sl st in each st": how it is made, in front of its name
_MANNERLY = re.compile(
    r"\b(?:loose|firm|neat) (?=(?:sl\.? ?sts?|slip[ -]?st(?:itch)?(?:es)?|ss|sc|[hd]?dc|h?tr|single crochets?|"
    r"double crochets?|trebles?)\b)"
)


_CHAIN_CHAINS = re.compile(
    r"^(?P<told>ch(?:ain)? \d{1,3}) (?:chs?|chains?)\b(?![ -]?(?:sts?|sps?|spaces?|loops?|\d))", re.I
)


# "1 sc double", "1 M doubled": a translation's increase; "from * to * 6 times": its repeat
_DOUBLE = re.compile(
    r"(?<=\d )(?:sc|[hd]?dc|h?tr|sts?|stitch(?:es)?|m|mesh(?:es)?) doubled?(?=\s*(?:[,;.*(\[\])]|$))", re.I
)
# "2 M together", "jump 9 m", "to repeat 10 times": what a machine makes of a decrease, of a skip, of a repeat
_M_TOGETHER = re.compile(
    r"\b(?:2|two) (?:m|ms|mesh(?:es)?) (?:(?:closed|crochet(?:ed)?|worked|knit(?:ted)?|taken) )?together\b", re.I
)
# "work the stitches together two at a time all the way round"
_TWO_AT_A_TIME = re.compile(
    r"\b(?:(?:work|crochet|take|join) )?(?:all )?the (?:sts|stitches) together,? (?:two|2) (?:at a time|by (?:two|2))"
    r"(?:,? (?:all )?(?:the way )?(?:a?round|to the end))?",
    re.I,
)
_AROUND_CUT = re.compile(r"\b(?:aroun d|arou nd|aro und|ar ound|a round(?=\s*(?:[.,;(\[=]|$)))", re.I)  # a scan's
# "(24?)", "(24!)": a count all the same
_COUNT_ASKED = re.compile(r"(?<=\d)[?!]{1,3}(?=[)\]}]|\W{0,8}$)")
# "join the next two stitches into one", "turn every two stitches into one", "crochet 2 sts into 1"
_TWO_INTO_ONE = re.compile(
    r"\b(?:join|turn|make|merge|draw|work|crochet|take|pull|bring)(?:ing)? (?:(?:the )?(?:next|following)|"
    r"(?P<all>every|each)(?: of the)?) ?(?:2|two) (?:sts?|stitch(?:es)?|sc|dc)(?: together)? (?:in)?to "
    r"(?:a single|1|one)(?: (?:st(?:itch)?|sc|dc))?\b|"
    r"\b(?:join|merge|draw|pull)(?:ing)? (?:2|two) (?:sts|stitches) (?:in)?to (?:a single|1|one)(?: st(?:itch)?)?\b",
    re.I,
)
_JUMP = re.compile(r"\bjump(?:ing)?(?: over)?(?= (?:the )?(?:next )?(?:\d|one|two|three|a) ?)", re.I)
_TO_REPEAT = re.compile(r"\bto (?=repeat\b)", re.I)
# "3 ch, 1 sl st in first ch": a picot is closed by one slip stitch, whether that is said or not
_ONE_SLIP = re.compile(
    r"(?<=ch, )1 (?=(?:sl ?st|ss|slip ?st(?:itch)?) (?:in|into) (?:the )?(?:same |first|1st|second|2nd|third|3rd|4th))",
    re.I,
)
# "close to a circle with 1 ss": the one slip stitch that closes it, as "with a ss"
_WITH_ONE = re.compile(r"\bwith 1(?= (?:s\.? ?s\b|slst\b|sl\b|slip\b))", re.I)
# "we gather 31 ch", "strike 6 ch": a machine's words for making them
_CASTS_ON = re.compile(
    r"^\W{0,3}(?:(?:we|you|now|then|first) )*(?:gather|dial|recruit|strike|mount|cast on|(?:stroke|hit|beat) on|"
    r"pick up)(?= \d{1,3} ?ch)",
    re.I,
)
# "into the front loop of the one after that": the next one
_ONE_AFTER = re.compile(r"\bof the one (?:right )?(?:after|behind|following)(?: (?:that|this|it))?\b", re.I)
# "from the 2. chain stitch on": an ordinal as it is printed in other tongues
_MANIETH = re.compile(r"\bthe (?P<n>[2-9])\. (?=(?:ch|chain|loop|st|stitch|air)\b)", re.I)
_NTHS = {2: "2nd", 3: "3rd"}
_FROM_STAR = re.compile(r"(?<=[*,;.)\]] )from \* to \*(?= ?(?:\d|[a-z]+ times|twice))", re.I)


# "double 1 M", "6x decrease 1 st": one shaping, where a translation counts the stitch that it is made in
_ONE_SHAPED = re.compile(
    r"(?<![a-z])(?P<how>double|increase|decrease) (?:1|one) (?:sts?|stitch|m|mesh|loop)(?=\s*(?:[*)\](,;.=]|$))", re.I
)
# "one sc into every stitch for both rounds": the rounds that stand in front of it
_FOR_BOTH = re.compile(
    r" (?:for|in|on) (?:both|each|all)(?: of)?(?: (?:the|these|those))? (?:rounds|rows|rnds)\b"
    r"(?=\s*(?:[.,;(\[=]|- ?\d|$))",
    re.I,
)
# "6 sets of (2 sc, inc)", "6 repeats of 2 sc, inc": so often
_SETS_OF = re.compile(
    r"(?P<n>(?:^|(?<=[,.;:*(\[] ))(?:\d{1,2}|two|three|four|five|six|seven|eight|nine|ten|twelve) )"
    r"(?P<sets>(?:sets?|lots?|groups?|repeats?|repetitions?) of)(?= )",
    re.I,
)
# "double up every one", "then double the next", "(1, 2 in one)": a plain word for an increase
_DOUBLED_UP = re.compile(r"\bdouble (?:up )?(?:every|each) (?:one|st(?:itch)?)(?=\s*(?:[,;.(\[=]|- ?\d|$))", re.I)
_DOUBLED = re.compile(
    r"\b(?:double (?:up )?(?:in )?(?:the )?next(?: one| st(?:itch)?)?|(?:2|two) in (?:1|one))"
    r"(?=\s*(?:[*;,.()\[\]=]|- ?\d|$))",
    re.I,
)
# "6 doubles into a ring", "1 double, 2 doubles into the next": stitches by the first half of their names
_DOUBLES = re.compile(
    r"(?<![a-z])(?P<n>\d{1,3}|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
    r" (?P<half>half[ -])?(?P<name>double|treble|single)s?\b(?! ?cro)",
    re.I,
)
_PLURAL = re.compile(r"\b(?:doubles|trebles|singles)\b", re.I)
# "sc with 1 dec in the round": in as many letters "sc around with 1 dec"
_WITH_SHAPING = re.compile(
    r"^(?P<st>\s*(?:sc|[hd]?dc)) (?P<rest>with (?:\d|one|two|three) (?:inc|dec)(?:s|reases?)?) "
    r"in (?:the|each|every|this) (?:round|rnd|row)(?=\W*$|\s*[(\[=])",
    re.I,
)
# "all incs", "only decreases (12)"
_ONLY_SHAPED = re.compile(
    r"\s*(?:all|only|just|nothing but) (?P<how>inc|dec)(?:s|reases?|reasing|)(?=\s*(?:[.;(\[=]|- ?\d|$))", re.I
)
# "3 sc, take 1 st off", "take off one stitch"
_TAKEN_OFF = re.compile(
    r"\btake (?:(?P<n>[12]|one|two) (?:sts?|stitch(?:es)?) off|off (?P<n2>[12]|one|two) (?:sts?|stitch(?:es)?))\b"
    r"(?! (?:the |your )?hook)",
    re.I,
)
# "work off 2 sts as 1", "crochet off two stitches as one"
_OFF_AS_ONE = re.compile(
    r"\b(?:(?:work|crochet|take|knit)(?:ed|ing)? )off (?:the next |next )?(?:2|two) (?:sts|stitches) as (?:1|one)\b",
    re.I,
)
# "*1 dc in next 3 dc, 2 dc in next dc*, work * to * 8 times"
_STAR_TO_STAR = re.compile(
    r"(?<=\*),? (?:then )?(?:work|rep\.?|repeat|do|make) (?:from )?\* to \*"
    r"(?= \d| (?:twice|three|four|five|six|seven|eight|nine|ten)\b)",
    re.I,
)
# "sc2tog over first 2 sts": over the two that it takes
_OVER_TWO = re.compile(
    r"(?P<dec>\b(?:sc|[hd]?dc|h?tr)2tog) over (?:the )?(?:first|next|last) (?:2|two) (?:sts|stitches|sc|[hd]?dc)\b",
    re.I,
)
_DOWN_TO = re.compile(r"\byou(?: are|'re)(?: now)? down to (?=\d)", re.I)  # "You are down to 5 sc."
_X_WORK = re.compile(r"(?<=\d )x work (?=(?:2|two) )", re.I)  # "6 x work 2 st together"
# "(1sc-1inc) x 6": each with its amount
_DASH_BETWEEN = re.compile(
    r"(?P<first>\b\d{1,2} ?(?:sc|[hd]?dc|h?tr))-(?=\d{1,2} ?(?:inc|dec|sc|[hd]?dc|h?tr)\b)", re.I
)
# "increase every 2 (18)": every 2 stitches
_EVERY_FEW = re.compile(r"\b(?P<how>inc|dec)rease every (?P<n>\d)(?=\s*(?:\.(?! ?[a-z/&])|[,;(\[=]|- ?\d|$))", re.I)
_ALL_ALONG = re.compile(r"\b(?:all|and) along\b(?=\s*(?:[,.;(\[|=]|-|turn|$))", re.I)  # "in 2nd ch and all along"
# "in each st - picot is ch 3, sl st in the first ch": told again what it is
_TOLD_AGAIN = re.compile(
    r"\s[-:] ?(?:the |a )?(?:picot|bobble|popcorn|puff|shell|cluster)s? (?:is|are|=)\b[^()\[\]=]*(?=$|[(\[=])", re.I
)
# "ch 3, sl st in 3rd ch from hook to form a picot", "(1 picot made)": what has just been worked out in full
_MAKES_PICOT = re.compile(
    r",?\s*(?:\b(?:to|and) (?:form|make|complete|create|finish|close)s? (?:an? |the |one |1 |your )?picot\b(?! of)|"
    r"\bfor (?:an? |the |one |1 )?picot\b|(?<=\))?[(\[](?:an? |one |1 )?picot (?:made|formed|completed?|done)[)\]])",
    re.I,
)
# "18 all": as many as there are, and no eighteen in each
_ALL = re.compile(r"\s*(?:[4-9]|\d{2,3})(?P<all> (?:all|each|around))\W*$", re.I)

# "9-16: each st", "back loops: every stitch around": one in each, where a stitch is told for all of the text or none
_EACH_ALONE = re.compile(
    r"\s*(?:(?:in )?(?:the )?(?:back|front|both) loops?(?: only)?[:,] ?|[bf]lo[:,]? )?"
    r"(?P<told>(?:in )?(?P<each>each|every) (?:sts?|stitch))"
    r"(?=(?: all)?(?: (?:the way )?(?:around|across|round))?\s*(?:[(\[{=.,;]|- ?\d|$))",
    re.I,
)


# "repeat what is in brackets", "work the instructions between [ ]": of what they hold
_WHAT_IS_IN = re.compile(
    r"\b(?:rep(?:eat)?|work|do|make) (?:(?:what(?:ever)?(?:'s| is)?|is|the|all|everything|instructions?|part|bit|"
    r"section|steps?|sts|stitches) ){0,4}(?:inside|within|between|betw?|btwn?|in) "
    r"(?:the |these |those )?"
    r"(?=(?:round |square )?(?:brackets?|parenthes[ei]s|stars|asterisks)\b|\[ ?\]|\( ?\))",
    re.I,
)


def respelt(body: str) -> str:
    """The body with a machine's needle as the hook it is, no dots in "d.c.2tog"; of the same length."""
    if "\u2020" in body or "\u2021" in body:
        body = _daggered(body)
    if "creas" in body or "inc" in body or "dec" in body:
        body = numbered(body)
    if "+" in body or "turn" in body or "plus" in body:
        body = summed(body)
    if "needle" in body or "from the crochet" in body:
        body = _NEEDLE.sub(_hook, body)
    if "half-l" in body or "half-m" in body:
        body = _HALF_LOOP.sub(" ", body)
    if len(body) < 16 and (alone := _ALL.match(body)):
        body = body[: alone.start("all")] + " " * (len(body) - alone.start("all"))
    if (each := _EACH_ALONE.match(body)) is not None:
        start, end = each.span("told")
        body = body[:start] + f"1 {each['each']}".ljust(end - start) + body[end:]
    body = without_explanations(without_words_beside(body))
    if "all along" in body or "and along" in body:
        body = _ALL_ALONG.sub(lambda m: "across   " if m[0][:3].lower() == "all" else "and in ea", body)
    if " is " in body or " are " in body:
        body = _TOLD_AGAIN.sub(lambda m: " " * len(m[0]), body)
    if "picot" in body:
        body = _MAKES_PICOT.sub(lambda m: " " * len(m[0]), body)
    if " double" in body:
        body = _DOUBLE.sub(lambda m: "inc".ljust(len(m[0])), body)
    if "aro" in body or " round" in body:
        body = _AROUND_CUT.sub("around ", body)
    if " off" in body:
        body = _TAKEN_OFF.sub(lambda m: f"{m['n'] or m['n2']} dec".ljust(len(m[0])), body)
        body = _OFF_AS_ONE.sub(lambda m: "dec".ljust(len(m[0])), body)
    if "* to *" in body:
        body = _STAR_TO_STAR.sub(lambda m: " " * len(m[0]), body)
    if " down to " in body:
        body = _DOWN_TO.sub(lambda m: "you have".ljust(len(m[0])), body)
    if " over " in body:
        body = _OVER_TWO.sub(lambda m: m["dec"].ljust(len(m[0])), body)
    if " together" in body:
        body = _X_WORK.sub(lambda m: m[0][:2].ljust(len(m[0])), body)
        body = _TWO_AT_A_TIME.sub(lambda m: "dec around".ljust(len(m[0])), body)
        body = _M_TOGETHER.sub(lambda m: "dec".ljust(len(m[0])), body)
    if "?" in body or "!" in body:
        body = _COUNT_ASKED.sub(lambda m: " " * len(m[0]), body)
    if "to one" in body or "to 1" in body or "to a single" in body:
        body = _TWO_INTO_ONE.sub(lambda m: ("dec around" if m["all"] else "dec").ljust(len(m[0])), body)
    if " of " in body:
        body = _SETS_OF.sub(lambda m: m["n"] + "times:".ljust(len(m["sets"])), body)
    if "ouble " in body or " in 1" in body or " in one" in body:
        body = _DOUBLED_UP.sub(lambda m: "inc in each".ljust(len(m[0])), body)
        body = _DOUBLED.sub(lambda m: "inc".ljust(len(m[0])), body)
    if (shaped := _ONLY_SHAPED.match(body)) is not None:
        body = f"{shaped['how']} all".ljust(shaped.end()) + body[shaped.end() :]
    if "c-" in body or "r-" in body:
        body = _DASH_BETWEEN.sub(lambda m: f"{m['first']},", body)
    if "rease every" in body:
        body = _EVERY_FEW.sub(lambda m: f"{m['how']} every {m['n']} sts".ljust(len(m[0])), body)
    if " with " in body:
        body = _WITH_SHAPING.sub(lambda m: f"{m['st']} around {m['rest']}".ljust(len(m[0])), body)
    if _PLURAL.search(body) is not None:
        body = _DOUBLES.sub(_short, body)
    if "jump" in body or "Jump" in body:
        body = _JUMP.sub(lambda m: "skip".ljust(len(m[0])), body)
    if "of the one" in body:
        body = _ONE_AFTER.sub(lambda m: "of the next st".ljust(len(m[0])), body)
    if "he " in body and ". " in body:
        body = _MANIETH.sub(lambda m: _NTHS.get(int(m["n"]), m["n"] + "th").ljust(len(m[0])), body)
    if (casts := _CASTS_ON.match(body)) is not None:
        body = " " * casts.end() + body[casts.end() :]
    if "with 1 s" in body:
        body = _WITH_ONE.sub("with a", body)
    if "ch, 1 s" in body:
        body = _ONE_SLIP.sub("  ", body)
    if "to repeat" in body:
        body = _TO_REPEAT.sub(lambda m: " " * len(m[0]), body)
    if "both r" in body or " all " in body or "of the" in body:
        body = _FOR_BOTH.sub(lambda m: " " * len(m[0]), body)
    if "ouble " in body or "crease " in body:
        body = _ONE_SHAPED.sub(_shaping, body)
    if "from * to *" in body:
        body = _FROM_STAR.sub(lambda m: "rep *".ljust(len(m[0])), body)
    if any(sign in body for sign in ("bracket", "parenthes", "stars", "asterisks", "[ ]", "[]", "( )", "()")):
        body = _WHAT_IS_IN.sub(lambda m: "rep".ljust(len(m[0])), body)
    if " of " in body or "turning " in body:
        body = _SAID_TWICE.sub(lambda m: " " * len(m[0]), body)
    if "loose " in body or "firm " in body or "neat " in body:
        body = _MANNERLY.sub(lambda m: " " * len(m[0]), body)
    if body[:2] in ("ch", "Ch", "CH"):
        body = _CHAIN_CHAINS.sub(lambda m: m["told"] + " " * (len(m[0]) - len(m["told"])), body)
    if "." in body and ("s. " in body or "st. " in body or "S. " in body):
        body = _JOINED.sub(lambda m: m["lead"] + "ss".ljust(len(m["slip"])), body)
    if "tog" in body and "." in body:
        body = _DOTTED.sub(lambda m: re.sub(r"[. ]", "", m[0]).rjust(len(m[0])), body)
    return body


def _shaping(match: re.Match[str]) -> str:
    return ("dec" if match["how"].lower() == "decrease" else "inc").ljust(len(match[0]))


def _short(match: re.Match[str]) -> str:
    name = {"double": "dc", "treble": "tr", "single": "sc"}[match["name"].lower()]
    return f"{match['n']} {'h' if match['half'] else ''}{name}".ljust(len(match[0]))


def _daggered(body: str) -> str:
    """ "\u2020 sc, inc; rep from \u2020 around": a dagger where others print a star, and no star beside it."""
    told = [sign for sign in "*\u2020\u2021" if sign in body]
    return body.replace(told[0], "*") if len(told) == 1 else body


def _hook(match: re.Match[str]) -> str:
    words = re.sub(r"^count(?:ed|ing) ", lambda m: " " * len(m[0]), match[0], flags=re.I)
    return words[: match.start("needle") - match.start()] + "hook".ljust(len(match["needle"]))


@cache
def _trade() -> frozenset[str]:
    return frozenset(_TRADE.split())


def of_trade(word: str) -> bool:
    """Is it a word of the trade, or a slip of one?"""
    return word in _trade() or meant(word) is not None


@cache
def _known() -> frozenset[str]:
    printed = [name.lower().replace("-", " ") for terms in ("US", "UK") for name in by_name(terms)]
    names = {part for name in printed for part in name.split()}
    groups = (
        ARTICLES,
        COLOURS,
        COURSE_WORDS,
        EACH,
        HARMLESS,
        NEXT,
        NOUNS,
        NUMBER_WORDS,
        ORDINAL_WORDS,
        PREPOSITIONS,
        RING_WORDS,
        SHADES,
        TURNS_MEANING,
    )
    return frozenset(names | _trade() | set(_KNOWN_BESIDES.split())).union(*groups)


@lru_cache(REMEMBERED)
def meant(word: str) -> str | None:
    """The word of the trade that a word is a slip of; None where it is a word, or no single one is near."""
    known = _known()
    if len(word) < 4 or any(word.removesuffix(end) in known for end in ("", "s", "d", "ed", "r", "er", "ing", "ly")):
        return None
    near = {other for other in _near(word) if slip(word, other)}
    stems = {other.removesuffix("es").removesuffix("s") for other in near}
    return min(near, key=len) if len(stems) == 1 else None


@cache
def _shortened() -> dict[str, list[str]]:
    """The words of the trade by what is left of them without any one letter."""
    found: dict[str, list[str]] = {}
    for word in _trade():
        for short in _less(word):
            found.setdefault(short, []).append(word)
    return found


def _less(word: str) -> set[str]:
    return {word[:at] + word[at + 1 :] for at in range(len(word))}


def _near(word: str) -> frozenset[str]:
    """The words of the trade of which a word may be a slip: with a letter less or more, changed, or swapped."""
    trade, shortened = _trade(), _shortened()
    less = _less(word)
    near = [w for s in (word, *less) if s in shortened for w in shortened[s]]
    return (trade & less.union(_read_so(word))).union(near)


def _read_so(word: str) -> tuple[str, ...]:
    """The same with what a scan reads for one letter put right."""
    return word.replace("rn", "m"), word.replace("cl", "d"), word.replace("vv", "w")


def slip(word: str, other: str) -> bool:
    """Is `word` a slip of the hand or of a scan for `other`?"""
    if word == other:
        return True
    if ("rn" in word or "cl" in word or "vv" in word) and other in _read_so(word):
        return True
    at = next((i for i, (a, b) in enumerate(zip(word, other, strict=False)) if a != b), min(len(word), len(other)))
    if len(word) == len(other):
        if word[at + 1 :] == other[at + 1 :]:  # a letter changed for another
            scanned = word[at] + other[at] in _LOOKS_LIKE  # "eaeh", "stitcb"
            return scanned or (len(word) >= _LONG and 0 < at < len(word))
        swapped = word[at] == other[at + 1] and word[at + 1] == other[at]
        return swapped and word[at + 2 :] == other[at + 2 :]
    if len(other) < 5 or at == 0 or abs(len(word) - len(other)) != 1:
        return False
    short, long = sorted((word, other), key=len)
    return long[at + 1 :] == short[at:]  # doubled or left out
