"""Ways of saying what is said more shortly elsewhere: a machine's, a scan's or a talker's words -> ours.

Each is a line of a table: words of which one is there wherever the pattern is, the pattern, and what is put in its
place, in as many letters. They are taken in the order of the table: one may go on with what was put there by those
above it.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from hookside.notation.askings.colournames import SHADE
from hookside.notation.bodies.besidecounts import without_words_beside
from hookside.notation.bodies.explained import without_explanations
from hookside.notation.bodies.shapedby import numbered
from hookside.notation.bodies.turnchains import summed
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import COUNT_WORDS

Put = str | Callable[[re.Match[str]], str]


class Rewording(Sought):
    """What is found becomes `put`, a template or a function of what was found, filled up with blanks: every letter of a
    body knows its place on the page by its number, so that the length stays."""

    __slots__ = ("put",)

    def __init__(self, hint: tuple[str, ...], pattern: str, put: Put) -> None:
        super().__init__(hint, pattern, re.I)
        self.put = put

    def __call__(self, body: str) -> str:
        return self.pattern.sub(self._in_place, body)

    def _in_place(self, match: re.Match[str]) -> str:
        told = match.expand(self.put) if isinstance(self.put, str) else self.put(match)
        return told.ljust(len(match[0])) if len(told) <= len(match[0]) else match[0]


def reworded(body: str, table: list[Rewording]) -> str:
    """The body with what such a table finds in it put as others print it, row by row."""
    low = body.lower()
    for rewording in table:
        for word in rewording.words:  # `may_be_in_small`, asked so often that even a call is dear
            if word in low:
                told = rewording(body)
                if told is not body:
                    body, low = told, told.lower()
                break
    return body


def _hook(match: re.Match[str]) -> str:
    words = re.sub(r"^count(?:ed|ing) ", lambda m: " " * len(m[0]), match[0], flags=re.I)
    return words[: match.start("needle") - match.start()] + "hook".ljust(len(match["needle"]))


def _along(match: re.Match[str]) -> str:
    return "across" if match[0][:3].lower() == "all" else "and in ea"


def _short(match: re.Match[str]) -> str:
    if _PLURAL.search(match.string) is None:
        return match[0]
    name = {"double": "dc", "treble": "tr", "single": "sc"}[match["name"].lower()]
    return f"{match['n']} {'h' if match['half'] else ''}{name}"


def _nth(match: re.Match[str]) -> str:
    return {2: "2nd", 3: "3rd"}.get(int(match["n"]), match["n"] + "th")


def _undotted(match: re.Match[str]) -> str:
    return re.sub(r"[. ]", "", match[0]).rjust(len(match[0]))


_PLURAL = re.compile(r"\b(?:doubles|trebles|singles)\b", re.I)
_FIRST = [
    # "widen in next", "narrow 6 times": what some call an increase and a decrease
    Rewording(("widen",), r"\bwiden(?:ing)?s?\b(?=[ ](?:in\b|once|twice|x|\d|[a-z]+ times))", "inc"),
    Rewording(("narrow",), r"\bnarrow(?:ing)?s?\b(?=[ ](?:in\b|once|twice|x|\d|[a-z]+ times))", "dec"),
    # "18 pcs.", "6 pcs of stitches": a count in a noun that fits all that is counted
    Rewording(
        (" pc", " pieces"),
        r"(?<=\d )(?:pcs|pieces|pc\.?) ?(?:of (?:sts|stitches))?(?=\s*[)\]]?[.!\s]*$)",
        "sts",
    ),
    # "in every 3rd stitch an increase": the place in front of its shaping
    Rewording(
        ("every ", "each "),
        r"\A(?P<gap>\s*)(?P<place>(?:in(?:to)?|on) (?:every|each) (?:(?:[2-9](?:nd|rd|th)|second|third|fourth|fifth|"
        r"sixth|other) )?(?:st|stitch|loop)),? (?P<how>(?:an?|one|1) (?:inc|dec)(?:rease)?)"
        r"(?=\s*(?:[.,;(\[=]|- ?\d|$))",
        r"\g<gap>\g<how> \g<place>",
    ),
    # "2-in-1 x6", "2in1": two in one stitch
    Rewording(("in1", "in-1", "in-one"), r"\b(?:2|two)-?in-?(?:1|one)\b(?!-)", "inc"),
    # "finish with 3 sc", "..., last 3 sc": those that are left
    Rewording(
        ("last ",),
        r"(?<=[,;)\]}*+/.-])(?P<gap> )last (?P<work>\d{1,2} (?:sc|[hd]?dc|h?tr|s\.c\.))(?=\s*(?:[.,;(\[{=]|$))",
        r"\g<gap>\g<work>",
    ),
    # "sc across 3, inc": so many of them
    Rewording(
        (" across ",),
        r"(?<!\d )\b(?P<st>sc|[hd]?dc|h?tr) across (?P<n>\d{1,2})"
        r"(?=(?: sts)?(?:,| then\b|;|\)|\]|\}| \+| and\b|\s*(?:[.(\[{=]|$)))",
        r"\g<n> \g<st>",
    ),
    # "6 times sc": so many of them
    Rewording(
        (" times ",),
        r"(?:\A\s*|(?<=[,;(\[{*+/:] )|(?<=[,;(\[{*+/:]))(?P<n>\d{1,3}) times (?P<st>sc|[hd]?dc|h?tr|s\.c\.)"
        r"(?=\s*(?:[.,;()\[\]{}=*+/]|$))",
        lambda m: f"{m[0][: m.start('n') - m.start()]}{m['n']} {m['st']}",
    ),
    # "sc for 6 sts, inc": so many of them
    Rewording(
        (" for ",),
        r"(?<!\d )\b(?P<st>sc|[hd]?dc|h?tr|s\.c\.) for (?:the next )?(?P<n>\d{1,3})(?: sts?| stitches)?"
        r"(?=\s*(?:[,;)\]}*]|$))",
        r"\g<n> \g<st>",
    ),
    # "sc each in next 5"
    Rewording(
        (" each in ",),
        r"\b(?P<st>sc|[hd]?dc|h?tr|s\.c\.) each (?P<far>in (?:the )?next \d)",
        r"\g<st> \g<far>",
    ),
    # "6-times"
    Rewording(("-times",), r"(?<=\d)-times\b", " times"),
    # "crochet 10 rounds over all sts", "sc over all sts": one in each
    Rewording(
        ("over all", "over every"),
        r"\bover (?:all|every)(?: the)?(?= (?:sts|stitches|st|stitch)\b)",
        "in each",
    ),
    # "the second chain counted from the needle": a machine's word for the hook
    Rewording(
        ("needle", "from the crochet", "from crochet", "from your crochet"),
        r"(?:\bcount(?:ed|ing) )?\bfrom (?:the |your )?(?P<needle>needle|crochet)\b(?! hook)",
        _hook,
    ),
    # "in the back half-loop"
    Rewording(("half-l", "half-m"), r"(?<=\bhalf)-(?=loops?\b|mesh(?:es)?\b|members?\b)", ""),
    # "18 all": as many as there are, and no eighteen in each
    Rewording((" all", " each", " around"), r"\A(?P<n>\s*(?:[4-9]|\d{2,3})) (?:all|each|around)\W{0,8}$", r"\g<n>"),
    # "9-16: each st", "back loops: every stitch around": one in each, where a stitch is told for all of the text or
    # none
    Rewording(
        ("each", "every", "ea st", "all st"),
        r"\A(?P<lead>\s*(?:(?:in )?(?:the )?(?:back|front|both) loops?(?: only)?[:,] ?|[bf]lo[:,]? )?)"
        r"(?:in )?(?:(?P<each>each|every|ea)|all) (?:sts?|stitch(?:es)?)"
        r"(?=(?: all)?(?: (?:the way )?(?:around|across|round))?\s*(?:[(\[{=.,;]|- ?\d|$))",
        lambda m: f"{m['lead']}1 {m['each'] or 'ea'}",
    ),
    # "2, tog. x6", "tog x6": two together, where nothing says how many
    Rewording(
        ("tog",),
        r"(?:(?<=[,(*\[])|(?<=[,(*\[] )|(?<=\A)|(?<=\A ))tog\b(?= ?(?:[.,;)\]*]|x ?\d|\Z| (?:twice|[a-z]+ times)\b))",
        "dec",
    ),
    # "tog all"
    Rewording(("tog all", "tog each"), r"\A(?P<gap>\s*)tog (?P<each>all|each)\b(?! of)", r"\g<gap>dec \g<each>"),
    # "every stitch gets one dc"
    Rewording(
        (" gets ",),
        r"\b(?:each|every) (?:st|stitch) gets (?P<n>\d|an?|one|two|three) (?P<what>[hd]?dc|sc|h?tr|inc)\b(?: in it)?",
        lambda m: f"{m['n']} {m['what']} in each st",
    ),
    # "squash two together"
    Rewording(
        (" together",),
        r"\b(?:squash|squeeze|squish|smoosh|pinch|merge|glue|stick|push) (?:the )?(?:next )?(?:two|2)"
        r"(?: (?:sts|stitches))? together\b",
        "dec",
    ),
    # "nothing fancy, one in each", "take two together clear around"
    Rewording(
        ("nothing ", "clear "),
        r"\A\s*nothing (?:fancy|special|extra|new|clever|to it)[,:;] (?=(?:just |only )?(?:one|1|sc|dc)\b)|"
        r"\bclear (?=a?round\b)",
        "",
    ),
    # "1 + inc, all round": a plain one, its stitch not named
    Rewording(("+inc", "+dec", " + inc", " + dec"), r"\A(?P<lead>\W*\d{1,2}) ?\+(?= ?(?:inc|dec)\b)", r"\g<lead>,"),
    # "sc 3, double every 4th st", "4 sc, dec every 5th and 6th": those in front are told twice
    Rewording(
        (" every ",),
        r"(?<![^\s(\[*])(?P<before>sc (?P<n>\d{1,2})|(?P<m>\d{1,2})(?: sc)?)(?P<gap>, (?:and |then )*)"
        r"(?=(?:(?:inc(?:rease)?|double|dec(?:rease)?) (?:in )?|2 (?:sc )?in )every (?P<nth>\d{1,2})th\b)",
        lambda m: "" if int(m["nth"]) == int(m["n"] or m["m"]) + 1 else m[0],
    ),
    # "inc in each so it's 12", "do 2 in every one so now its 12"
    Rewording(
        (" so ",),
        r",? so (?:now )?(?:(?:it|that)(?:'?s| is| makes| gives(?: you| us)?)|"
        r"(?:you|we)(?:'ve| have)?(?: got)?|there are)"
        r"(?: now| still)? (?=\d{1,4}(?: (?:sts|stitches))?[ .!]*$)",
        lambda m: "= ".rjust(len(m[0])),
    ),
    # "inc, all rd": the round
    Rewording(("all rd", "all rnd"), r"\ball rn?d\b(?!\.? ?\d)", "around"),
]
_THEN = [
    # "in 2nd ch and all along"
    Rewording(("all along", "and along"), r"\b(?:all|and) along\b(?=\s*(?:[,.;(\[|=]|-|turn|$))", _along),
    # "in each st - picot is ch 3, sl st in the first ch": told again what it is
    Rewording(
        (" is", " are", " ="),
        r"\s[-:] ?(?:the |a )?(?:picot|bobble|popcorn|puff|shell|cluster)s? (?:is|are|=)\b[^()\[\]=]*(?=$|[(\[=])",
        "",
    ),
    # "ch 3, sl st in 3rd ch from hook to form a picot", "(1 picot made)": what has just been worked out in full
    Rewording(
        ("picot",),
        r",?\s*(?:\b(?:to|and) (?:form|make|complete|create|finish|close)s? (?:an? |the |one |1 |your )?picot\b(?! of)|"
        r"\bfor (?:an? |the |one |1 )?picot\b|(?<=\))?[(\[](?:an? |one |1 )?picot (?:made|formed|completed?|"
        r"done)[)\]])",
        "",
    ),
    # "1 sc double", "1 M doubled": a translation's increase
    Rewording(
        (" double",),
        r"(?<=\d )(?:sc|[hd]?dc|h?tr|sts?|stitch(?:es)?|m|mesh(?:es)?) doubled?(?=\s*(?:[,;.*(\[\])]|$))",
        "inc",
    ),
    # "dec until nothing is left over", "sc2tog until no sts are left": to the end of the round
    Rewording(
        ("until nothing", "until no ", "till nothing", "till no ", "until they", "until you run", "till you run"),
        r"(?P<st>\b(?:dec|inc|sc2tog|sc|[hd]?dc))(?:reas(?:e|ing))? (?:until|till) "
        r"(?:nothing(?: is| remains)?(?: left)?(?: over)?|"
        r"no (?:more )?(?:sts|stitches)(?: are)?(?: left(?: over)?| remain(?:ing)?)?|they are all gone|"
        r"you run out(?: of (?:sts|stitches))?)(?=\s*(?:[.,;(\[=]|$))",
        r"\g<st> around",
    ),
    # "1 sc, 1 doubled": a stitch that is doubled
    Rewording(
        (" doubled",),
        r"(?P<lead>\A\s*|[,(\[*;:&+] ?|\band |\bthen )(?:1|one|(?:the )?next(?: st(?:itch)?)?) (?:is )?doubled"
        r"(?=\s*(?:[,;.*()\[\]=]|-|$))",
        r"\g<lead>inc",
    ),
    # "in each st aro und": a word that a scan broke
    Rewording(
        ("aroun d", "arou nd", "aro und", "ar ound", "a round"),
        r"\b(?:aroun d|arou nd|aro und|ar ound|a round(?=\s*(?:[.,;(\[=]|$)))",
        "around",
    ),
    # "3 sc, take 1 st off", "take off one stitch"
    Rewording(
        (" off",),
        r"\btake (?:(?P<n>[12]|one|two) (?:sts?|stitch(?:es)?) off|off (?P<n2>[12]|one|two) (?:sts?|stitch(?:es)?))\b"
        r"(?! (?:the |your )?hook)",
        r"\g<n>\g<n2> dec",
    ),
    # "work off 2 sts as 1", "crochet off two stitches as one"
    Rewording(
        (" off",),
        r"\b(?:(?:work|crochet|take|knit)(?:ed|ing)? )off (?:the next |next )?(?:2|two) "
        r"(?:sts|stitches|s ?c|d ?c|h ?d ?c) as "
        r"(?:1|one)\b",
        "dec",
    ),
    # "*1 dc in next 3 dc, 2 dc in next dc*, work * to * 8 times"
    Rewording(
        ("* to *",),
        r"(?<=\*),? (?:then )?(?:work|rep\.?|repeat|do|make) (?:from )?\* to \*"
        r"(?= \d| (?:twice|three|four|five|six|seven|eight|nine|ten)\b)",
        "",
    ),
    # "You are down to 5 sc."
    Rewording((" down to ",), r"\byou(?: are|'re)(?: now)? down to (?=\d)", "you have"),
    # "sc2tog over first 2 sts": over the two that it takes
    Rewording(
        (" over ",),
        r"(?P<dec>\b(?:sc|[hd]?dc|h?tr)2tog) over (?:the )?(?:first|next|last) (?:2|two) (?:sts|stitches|sc|[hd]?dc)\b",
        r"\g<dec>",
    ),
    # "work every two stitches as one"
    Rewording(
        ("two st", "2 st"),
        r"\b(?:(?:work|take|crochet|knit) )?(?:every|each|all) (?:two|2) (?:sts|stitches) (?:as one|as 1|together)\b",
        "dec around",
    ),
    # "12 sc, total 5 circles": how many rounds, which the label counts
    Rewording(
        ("circle", "total"),
        r",? ?\b(?:(?:a )?total (?:of )?\d{1,2} (?:circles?|rounds?|laps?)|"
        r"\d{1,2} (?:circles?|rounds?|laps?) (?:in )?total)\b",
        "",
    ),
    # "6sc ring, 6"
    Rewording(
        (" ring", " mr", " circle", " loop"),
        r"\A(?P<lead>\W*)(?P<work>\d{1,2} ?(?:sc|dc|sts?)) (?P<ring>(?:magic )?(?:ring|circle|loop)|mr)\b(?=\W)",
        r"\g<lead>\g<ring> \g<work>",
    ),
    # "2 dc ea. 12": its point ends the round, and a count stands behind it
    Rewording((" ea. ",), r"(?<= )ea\. (?=\d{1,3}\W*$)", "ea ="),
    # "dc, 12  - that's the neck": talk behind a count
    Rewording(
        (" - ",),
        r"(?P<n>, \d{1,3}) +- (?![^\n]*\b(?:sc|[hd]?dc|h?tr|inc|dec|ch|rep|sts?|stuff|eyes?|change|fasten|join|sew|cut|"
        r"turn|colou?r|with|in|marker|\d)\b)[a-z' ]{3,40}$",
        r"\g<n>",
    ),
    # "4, miss 1 [I think she means every fifth one]": a word of whoever copied it
    Rewording(("[i ", "[she ", "[he ", "[sic"), r"\[(?:I|she|he|sic)\b[^\[\]\d]{0,120}\]", ""),
    # "6 x work 2 st together"
    Rewording(("x work ",), r"(?<=\d )x work (?=(?:2|two) )", "x"),
    # "work the stitches together two at a time all the way round"
    Rewording(
        (" together",),
        r"\b(?:(?:work|crochet|take|join) )?(?:all )?the (?:sts|stitches) together,? (?:two|2) (?:at a time|by "
        r"(?:two|2))"
        r"(?:,? (?:all )?(?:the way )?(?:a?round|to the end))?",
        "dec around",
    ),
    # "2 M together": its decrease
    Rewording(
        ("together",),
        r"\b(?:2|two) (?:m|ms|mesh(?:es)?) (?:(?:closed|crochet(?:ed)?|worked|knit(?:ted)?|taken) )?together\b",
        "dec",
    ),
    # "(24?)", "(24!)": a count all the same
    Rewording(("?", "!"), r"(?<=\d)[?!]{1,3}(?=[)\]}]|\W{0,8}$)", ""),
    # "join the next two stitches into one", "turn every two stitches into one", "crochet 2 sts into 1"
    Rewording(
        ("to one", "to 1", "to a single"),
        r"\b(?:join|turn|make|merge|draw|work|crochet|take|pull|bring)(?:ing)? (?:(?:the )?(?:next|following)|"
        r"(?P<all>every|each)(?: of the)?) ?(?:2|two) (?:sts?|stitch(?:es)?|sc|dc)(?: together)? (?:in)?to "
        r"(?:a single|1|one)(?: (?:st(?:itch)?|sc|dc))?\b|"
        r"\b(?:join|merge|draw|pull)(?:ing)? (?:2|two) (?:sts|stitches) (?:in)?to (?:a single|1|one)(?: "
        r"st(?:itch)?)?\b",
        lambda m: "dec around" if m["all"] else "dec",
    ),
    # "6 sets of (2 sc, inc)", "6 repeats of 2 sc, inc": so often
    Rewording(
        (" of ", "sets of", "set of", "lots of", "lot of", "groups of", "group of"),
        r"(?P<n>(?:^|(?<=[,.;:*(\[] ))(?:\d{1,2}|two|three|four|five|six|seven|eight|nine|ten|twelve) )"
        r"(?P<sets>(?:sets?|lots?|groups?|repeats?|repetitions?) of)(?= )",
        r"\g<n>times:",
    ),
    # "double up every one", "then double the next", "(1, 2 in one)": a plain word for an increase
    Rewording(
        ("double ",),
        r"\bdouble (?:up )?(?:every|each) (?:one|st(?:itch)?)(?=\s*(?:[,;.(\[=]|- ?\d|$))",
        "inc in each",
    ),
    # ... of one stitch
    Rewording(
        ("double ", " in 1", " in one"),
        r"\b(?:double (?:up )?(?:in )?(?:the )?next(?: one| st(?:itch)?)?|(?:2|two) in (?:1|one))"
        r"(?=\s*(?:[*;,.()\[\]=]|- ?\d|$))",
        "inc",
    ),
    # "(1, 2 tog)"
    Rewording((" tog",), r"(?<=\d, )(?:2|two) tog(?:ether)?(?=\s*[*;.()\[\]=])", "dec"),
    # "only 2 sc in same st": two in each of them
    Rewording(
        ("only ", "just ", "nothing but "),
        r"\A(?P<gap>\s*)(?:only|just|nothing but) 2 ?(?:sts|sc|[hd]?dc|h?tr|(?:single|double) crochet) (?:in|into) "
        r"(?:the )?(?:same|next|one|1|following) (?:st|stitch)(?=\s*(?:[.,;(\[{=|]|- ?\d|$))",
        r"\g<gap>inc around",
    ),
    # ... and "(12) (slip stitch and fasten off)": a bracket of jobs that ends the part
    Rewording(
        ("fasten off)", "fasten off.)", "fasten off]", "fo)"),
        r"\s*[(\[](?:sl(?:ip)? ?st(?:itch)?|ss)(?: in (?:the )?next st(?:itch)?)?(?:,| and|;| &)? "
        r"(?P<job>fasten off|fo)\.?[)\]]\W*$",
        r". \g<job>",
    ),
    # "all incs", "only decreases (12)"
    Rewording(
        ("all inc", "all dec", "only inc", "only dec", "just inc", "just dec", "but inc", "but dec"),
        r"\A\s*(?:all|only|just|nothing but) (?P<how>inc|dec)(?:s|reases?|reasing|)(?=\s*(?:[.;(\[=]|- ?\d|$))",
        r"\g<how> all",
    ),
    # "(1sc-1inc) x 6": each with its amount
    Rewording(
        ("c-", "r-"),
        r"(?P<first>\b\d{1,2} ?(?:sc|[hd]?dc|h?tr))-(?=\d{1,2} ?(?:inc|dec|sc|[hd]?dc|h?tr)\b)",
        r"\g<first>,",
    ),
    # "increase every 2 (18)": every 2 stitches
    Rewording(
        ("rease every",),
        r"\b(?P<how>inc|dec)rease every (?P<n>\d)(?=\s*(?:\.(?! ?[a-z/&])|[,;(\[=]|- ?\d|$))",
        r"\g<how> every \g<n> sts",
    ),
    # "sc with 1 dec in the round": in as many letters "sc around with 1 dec"
    Rewording(
        (" with ",),
        r"^(?P<st>\s*(?:sc|[hd]?dc)) (?P<rest>with (?:\d|one|two|three) (?:inc|dec)(?:s|reases?)?) "
        r"in (?:the|each|every|this) (?:round|rnd|row)(?=\W*$|\s*[(\[=])",
        r"\g<st> around \g<rest>",
    ),
    # "6 doubles into a ring", "1 double, 2 doubles into the next": stitches by the first half of their names
    Rewording(
        ("double", "treble", "single"),
        r"(?<![a-z])(?P<n>\d{1,3}|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
        r" (?P<half>half[ -])?(?P<name>double|treble|single)s?\b(?! ?cro)",
        _short,
    ),
    # "jump 9 m": its skip
    Rewording(("jump",), r"\bjump(?:ing)?(?: over)?(?= (?:the )?(?:next )?(?:\d|one|two|three|a) ?)", "skip"),
    # "into the front loop of the one after that": the next one
    Rewording(
        ("of the one",),
        r"\bof the one (?:right )?(?:after|behind|following)(?: (?:that|this|it))?\b",
        "of the next st",
    ),
    # "from the 2. chain stitch on": an ordinal as it is printed in other tongues
    Rewording(("the ",), r"\bthe (?P<n>[2-9])\. (?=(?:ch|chain|loop|st|stitch|air)\b)", _nth),
    # "we gather 31 ch", "strike 6 ch": a machine's words for making them
    Rewording(
        ("gather", "dial", "recruit", "strike", "mount", "cast on", "stroke on", "hit on", "beat on", "pick up"),
        r"^\W{0,3}(?:(?:we|you|now|then|first) )*(?:gather|dial|recruit|strike|mount|cast on|(?:stroke|hit|beat) on|"
        r"pick up)(?= \d{1,3} ?ch)",
        "",
    ),
    # "close to a circle with 1 ss": the one slip stitch that closes it, as "with a ss"
    Rewording(("with 1 ",), r"\bwith 1(?= (?:s\.? ?s\b|slst\b|sl\b|slip\b))", "with a"),
    # "3 ch, 1 sl st in first ch": a picot is closed by one slip stitch, whether that is said or not
    Rewording(
        ("ch, 1 s",),
        r"(?<=ch, )1 (?=(?:sl ?st|ss|slip ?st(?:itch)?) (?:in|into) (?:the )?(?:same |first|1st|second|2nd|"
        r"third|3rd|4th))",
        "",
    ),
    # "to repeat 10 times": its repeat
    Rewording(("to repeat",), r"\bto (?=repeat\b)", ""),
    # "one sc into every stitch for both rounds": the rounds that stand in front of it
    Rewording(
        (" rounds", " rows", " rnds"),
        r" (?:for|in|on) (?:both|each|all)(?: of)?(?: (?:the|these|those))? (?:rounds|rows|rnds)\b"
        r"(?=\s*(?:[.,;(\[=]|- ?\d|$))",
        "",
    ),
    # "double 1 M", "6x decrease 1 st": one shaping, where a translation counts the stitch that it is made in
    Rewording(
        ("double ", "crease "),
        r"(?<![a-z])(?P<how>double|increase|decrease) (?:1|one) (?:(?:sts?|stitch|m|mesh|loop)(?=\s*(?:[*)\](,;.=]|$))|"
        # "decrease 1 sc over next 2 sc"
        r"(?:sc|[hd]?dc|sts?|stitch)(?= (?:over|in|into) (?:the )?next ))",
        lambda m: "dec" if m["how"].lower() == "decrease" else "inc",
    ),
    # "sc, * sc, inc; from * to * 6 times": and another
    Rewording(("from * to *",), r"(?<=[*,;.)\]] )from \* to \*(?= ?(?:\d|[a-z]+ times|twice))", "rep *"),
    # "repeat what is in brackets", "work the instructions between [ ]": of what they hold
    Rewording(
        ("bracket", "parenthes", "stars", "asterisks", "[ ]", "[]", "( )", "()"),
        r"\b(?:rep(?:eat)?|work|do|make) (?:(?:what(?:ever)?(?:'s| is)?|is|the|all|everything|instructions?|part|bit|"
        r"section|steps?|sts|stitches) ){0,4}(?:inside|within|between|betw?|btwn?|in) "
        r"(?:the |these |those )?"
        r"(?=(?:round |square )?(?:brackets?|parenthes[ei]s|stars|asterisks)\b|\[ ?\]|\( ?\))",
        "rep",
    ),
    # "6 stitches of single crochet", "1 turning chain": words that say what is said anyway
    Rewording(
        (" of ", "turning ", "sts of", "stitches of"),
        r"(?<=\d )(?:st(?:itche)?s of (?=(?:half |single |double )?(?:crochet|[hd]?dc|sc|h?tr)\b)|"
        r"turning (?=ch(?:ain)?s?\b))",
        "",
    ),
    # "1 loose sl st in each st": how it is made, in front of its name
    Rewording(
        ("loose ", "firm ", "neat "),
        r"\b(?:loose|firm|neat) (?=(?:sl\.? ?sts?|slip[ -]?st(?:itch)?(?:es)?|ss|sc|[hd]?dc|h?tr|single crochets?|"
        r"double crochets?|trebles?)\b)",
        "",
    ),
    # "ch 12 chains": told by both
    Rewording(
        ("ch",),
        r"^(?P<told>ch(?:ain)? \d{1,3}) (?:chs?|chains?)\b(?![ -]?(?:sts?|sps?|spaces?|loops?|\d))",
        r"\g<told>",
    ),
    # "join with a s.s. to first d.c.", "join by sl. st. into 3rd ch": no sentence ends within it
    Rewording(
        ("s. ", "st. "),
        r"(?P<lead>\bjoin(?:ed|ing)?,? (?:with|by|using) (?:an? |1 |one )?|(?:[,;:.)]|\band|\bthen) )"
        r"(?P<slip>s\. ?s\.|ss\.|sl\.? ?st\.)(?= (?:to|in|into|on) (?:the )?(?:top|first|1st|3rd|third)\b)",
        r"\g<lead>ss",
    ),
    # "d.c.2tog.": dots within the name of a decrease
    # "Work the last 2 of these rounds in red.", "The last 2 rounds in red."
    Rewording(
        (" last ",),
        rf"(?<=[.,;(-] )(?:(?:work|make) )?the last (?P<n>\d|{COUNT_WORDS})(?: of (?:these|those))? "
        rf"(?:rounds|rnds|rows) (?:are )?(?:worked )?(?:in|with) (?={SHADE})",
        lambda m: f"work the last {m['n']}".ljust(len(m[0]) - len("in ")) + "in ",
    ),
    Rewording(
        ("tog",),
        r"(?<![A-Za-z.])(?:[a-z] ?\. ?){1,2}[a-z] ?\.(?=\d ?tog)|"
        r"(?:(?<=[,;(*\[] )|(?<=[,;(*\[])|^)(?:[a-z] ?\. ?){2,3}(?=\d ?tog)",
        _undotted,
    ),
]


def respelt(body: str) -> str:
    """The body in words that are ours, of the same length."""
    if "\u2020" in body or "\u2021" in body:
        body = _daggered(body)
    if "creas" in body or "inc" in body or "dec" in body:
        body = numbered(body)
    if "+" in body or "turn" in body or "plus" in body:
        body = summed(body)
    # between the two go words beside a count, and what a body explains of itself
    return reworded(without_explanations(without_words_beside(reworded(body, _FIRST))), _THEN)


def _daggered(body: str) -> str:
    """ "\u2020 sc, inc; rep from \u2020 around": a dagger where others print a star, and no star beside it."""
    told = [sign for sign in "*\u2020\u2021" if sign in body]
    return body.replace(told[0], "*") if len(told) == 1 else body


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
