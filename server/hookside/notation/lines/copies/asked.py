"""How many copies of a piece its heading asks for, and what is left of the heading without that."""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.notation.askings.colournames import is_colour
from hookside.notation.lines.copies.belowname import many_below
from hookside.notation.lines.copies.besidename import THEN_ONE, TWO, counted, told_aside
from hookside.notation.lines.copies.several import named_by_numbers, several
from hookside.notation.lines.copies.sorts import sorts
from hookside.notation.lines.copies.summed import and_then, in_numbers, multiplied, shared_out, summed
from hookside.notation.lines.copies.words import in_our_words
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import COPIES, COUNT_WORDS, REMEMBERED, SEVERAL_WORDS, number_of

# "Snail in 2 pieces": of so many different parts
_COMPOSED = re.compile(
    rf"(?:,? (?:made|worked|crocheted))? ?\(?\bin (?:\d{{1,2}}|{COUNT_WORDS}) (?:separate |different )?"
    r"(?:pieces|parts|sections)\b\)?",
    re.I,
)
_MAKE_NUMBER = rf"(?P<{{0}}>\d{{{{1,3}}}}|{COUNT_WORDS}|both|a pair|pair)"
# "Make 11 ch", "work 6 dc into it": no copies of anything
_NO_COPIES = (
    r"(?!\s*(?:more\b|chs?\b|chains?\b|[hd]?dc\b|d\.\s?c\b|s\.\s?c\b|sc\b|h?tr\b|dtr\b|sl\b|ss\b|slip|single|double|"
    r"half|treble|sts?\b|"
    r"stitch|rounds?\b|rnds?\b|rows?\b|inc|dec|cm\b|mm\b|times\b|loops?\b|picot|x\b))"
)
_NO_SIZE = r"(?!\s?(?:\d+\s?)?(?:cm|mm|in|inch(?:es)?)\b)"  # "Pocket 10 x 10 cm"
# Each with what no line lacks that it fits
_MAKES = [
    Sought(
        ("made", "make", "mkae", "maek", "amke", "work", "crochet", "weave", "need", "knit"),
        r"[(\[{]?\s*\b(?:(?:i )?made|make|mkae|maek|amke|work|crochet|weave|you need|need|knit)\s*(?:x\s*)?"
        + _MAKE_NUMBER.format("n")
        + r"\b"
        + _NO_COPIES
        + r"(?P<rest>[^)\]}]{0,60})[)\]}]?",
        re.I,
    ),
    # "EYE BUMPS do 2"
    Sought(
        ("do ",),
        r"(?<=[a-z)])(?:\s*[(\[,:-])?\s*\bdo\s+" + _MAKE_NUMBER.format("n") + r"(?P<rest>)(?: of (?:them|these|those))?"
        r"\s*(?:[)\]]|(?=[.:]?\s*$))",
        re.I,
    ),
    # "Arm -- build 2", "Leg, build 2 --"
    Sought(
        ("build", "create", "produce", "prepare", "want"),
        r"[(\[{,:-]\s*(?:build|create|produce|prepare|(?:you(?:'ll| will)? |we )?want)\s+"
        + _MAKE_NUMBER.format("n")
        + r"\b(?P<rest>)(?: of (?:them|these|those))?(?=\W*$)[)\]}]?",
        re.I,
    ),
    # "FIN, quantity 4", "Bolt (qty 2)", "Leg, number needed: 3"
    Sought(
        ("quantity", "qty", "number ", "no. "),
        r"[(\[{]?\s*\b(?:quantity|qty\.?|(?:number|no\.) (?:needed|required|to make))\s*[:=]?\s*(?:x\s*)?"
        + _MAKE_NUMBER.format("n")
        + r"\b(?P<rest>)(?: of\b)?\s*[)\]}]?",
        re.I,
    ),
    Sought(
        ("needed", "required", "off"),
        r"[(\[{,-]\s*"
        + _MAKE_NUMBER.format("n")
        + r"\s+(?:are )?(?:needed|required|off)\b(?P<rest>)\s*(?:[)\]}]|[:.]?\s*$)",
        re.I,
    ),
    Sought(
        ("x",),  # not "Base 4 x 4"
        r"(?:(?<!\d)(?<!\d )|(?=x ?\d{1,2} ?[)\]]))[(\[{]?\s*\bx\s*"
        + _MAKE_NUMBER.format("n")
        + rf"\b{_NO_SIZE}\s*(?P<rest>)[)\]}}]?",
        re.I,
    ),
    Sought(("*",), r"(?<=[\]\w ])\*\s*" + _MAKE_NUMBER.format("n") + r"\b(?P<rest>)", re.I),
    Sought(
        ("x",),
        r"[(\[{]?\s*\b"
        + _MAKE_NUMBER.format("n")
        + rf"\s*x(?P<rest>)(?:\b|(?=[)\]])){_NO_SIZE}(?!\s?\d(?!\s?[)\]]))\s*[)\]}}]?",
        re.I,
    ),
    Sought(
        ("(", "[", "{"),
        r"[(\[{]\s*"
        + _MAKE_NUMBER.format("n")
        + r"\s*(?:pieces?|pcs|nos?\.?|sheets|parts?|details?|items?|units?|times|of each|of these|the same|identical|"
        r"copies|equals?|alike|matching)?(?P<rest>(?:(?<=[a-z]) (?:of|in|"
        r"from) [a-z][a-z ]{2,24}| in [A-H]\b)?)(?:(?<=[a-z])\s*,\s*[a-z][a-z ]{2,24})?\s*[)\]}]",
        re.I,
    ),
    Sought(("n =", "n="), r"[(\[]\s*n ?= ?" + _MAKE_NUMBER.format("n") + r"(?P<rest>)\s*[)\]]", re.I),  # "Arms (n = 8)"
    Sought(("(", "["), r"[(\[]\s*" + _MAKE_NUMBER.format("n") + r"\s*,\s*(?P<rest>[a-z][a-z ]{2,30})\s*[)\]]", re.I),
    Sought(
        ("piece", "pcs", "no", "sheets", "part", "detail", "times", "copies", "alike", "identical", "equal"),
        r"(?:[,-]|\s\.+)\s*"
        + _MAKE_NUMBER.format("n")
        + r"\s*(?:pieces?|pcs|nos?\.?|sheets|parts?|details?|times|copies|alike|identical|equal)(?P<rest>)\s*"
        r"(?:[(\[][^()\[\]]{1,30}[)\]]?\s*)?$",
        re.I,
    ),
    Sought(
        ("piece", "pcs", "parts", "details"),
        r"\b" + _MAKE_NUMBER.format("n") + r"\s*(?:pieces?|pcs|parts|details)(?P<rest>)\s*(?=$|[,.(\[])",
        re.I,
    ),
    # not "rounds 1 - 4, then"
    Sought(
        (",", "-"),
        r"(?:,|(?<!\d)\s-)\s*" + _MAKE_NUMBER.format("n") + r"(?P<rest>)\s*(?=[,(\[]|\.?$|\.\s+[A-Z]|- [a-z])",
        re.I,
    ),
    Sought(
        ("s,",),
        rf"(?<=[A-Za-z]s)(?<!nds)(?<!ows),\s*(?P<n>[2-8]|{SEVERAL_WORDS})(?P<rest>)\s*:\s*$",
        re.I,
    ),
    Sought(("*",), r"(?<=\w)\s?\*\s?" + _MAKE_NUMBER.format("n") + r"(?P<rest>)(?=[ (\[]|$)", re.I),
    # "Leg, four of them", "BUTTON / two of them"
    Sought(
        (" of ",),
        r"(?:[,-]|\s/+)\s*" + _MAKE_NUMBER.format("n") + r" of (?:them|these|each|'em)(?P<rest>)\s*(?=[.:,]|$)",
        re.I,
    ),
    Sought(("times",), r",\s*" + _MAKE_NUMBER.format("n") + r"\s*times(?P<rest>)\s*(?=,)", re.I),
    Sought(
        ("two", "three", "four", "five", "six", "eight"),
        r"(?<=[A-Za-z]s)\s+(?P<n>two|three|four|five|six|eight)(?P<rest>)\s*[.:]?$",
        re.I,
    ),
    Sought(
        ("in all", "in total", "altogether", "total", "all told"),
        r"[(\[,:-]\s*(?:make\s+)?" + _MAKE_NUMBER.format("n") + r"\s+(?:in (?:all|total)|altogether|total|all told)\b"
        r"(?P<rest>)[^)\]]{0,40}(?:[)\]]|$)",
        re.I,
    ),
    # "Fingers: 4 for each hand"
    Sought(
        ("each", "every", "per"),
        r"[(\[,:-]\s*(?:make\s+)?" + _MAKE_NUMBER.format("n") + r"\s+(?:(?:for|on|to|of) (?:each|every)|per)\s+"
        r"(?!st\b|stitch|round|rnd|row|side)[a-z]+(?P<rest>)\s*(?:[)\]]|[:.]?\s*$)",
        re.I,
    ),
    Sought(
        ("s.", "feet.", "teeth."),
        r"\.(?:(?<=[a-z]s\.)|(?<=feet\.)|(?<=teeth\.))\s*" + _MAKE_NUMBER.format("n") + r"(?P<rest>)\s*\.?\s*$",
        re.I,
    ),
    Sought((":",), r":\s*" + _MAKE_NUMBER.format("n") + r"(?P<rest>)\s*\.?\s*$", re.I),
    Sought(
        ("s",),
        r"^\s*(?P<led>(?:all|both|our|the|his|her|its|my|your)\s+(?:of (?:the )?)?)?"
        r"(?P<n>two|three|four|five|six|both|[2-6]|12)\s+"
        r"(?:of )?(?:the )?(?P<rest>)"
        r"(?!(?:colou?rs|shades|yarns|strands|threads|ends|plies|layers) (?:held|together|at once|of)\b)"
        r"(?!(?:[a-z]+ ){0,2}(?:rounds|rnds|rds|rows|stitches|sts)\b)(?=(?(led)(?:[a-z]{3,} )?)[a-z]+s\b)",
        re.I,
    ),
]


_NUMBER_ALONE = re.compile(r"[\W\d]+")
_OF_ONE = re.compile(r"\b(?:head|body|torso|trunk|neck|hull)\W*$", re.I)
# Where it may begin that a name is followed by how often it is made
_OFTEN_BEHIND = re.compile(
    r"(?<=[a-z])(?: ?[(\[:,] ?|\. | -+ )(?=(?:[a-z\d]+ ){1,5}(?:twice|thrice|times|over)\b)", re.I
)
_REPEATED = re.compile(r"(?:do|repeat) (?:this|it) (?=twice|thrice|[a-z\d]+ times)", re.I)  # of a name all of it is
_TWICE = re.compile(r"(?<=[,(-])\s*(?:make\s+)?twice\b", re.I)


# "Legs, and you need four", "The ears, of which you need two", "Petal - repeat to make 6", "Leg, make 4 in all"
_AND = re.compile(
    r"(?:[\s,;]+(?:and|so|of (?:which|these|those|them))\b)?"
    r"(?:[\s,;:-]+(?:you(?:'ll| will)?|(?:he|she|it|they|everyone|each|we)(?: (?:needs?|wants?|has|gets?))?|needs?|"
    r"repeat to|to be|to|please))*\s*$",
    re.I,
)
_IN_ALL = re.compile(
    r"\W*(?:(?:of (?:them|these|those)|in (?:all|total)|altogether|total|alike|identical|needed|required)\b\W*)+",
    re.I,
)


# "Leg (make 2-4)", "Petals - make as many as you like": how many is left to whoever makes it
_OPEN = re.compile(
    r"\b(?:make|made|crochet|need|work)\s+(?:(?:x\s*)?(?P<few>\d{1,2}) ?(?:-|to|or|/) ?(?P<many>\d{1,2})"
    r"(?=\W*$|\)|,| of\b| [a-z]+\W*$)"
    r"|(?:as many|however many|several|a few|some|at least \d{1,2}|about \d{1,2})\b[^.()\[\]]{0,40})|"
    r"(?<=[(\[,:-])\s{0,2}(?:as many as you (?:like|want|need)[^.()\[\]]{0,30}|at least \d{1,2}\b)|"
    r"\b(?:you )?(?:could|can|may|might) (?:also |just |as well )?(?:make|work|do|crochet) "
    rf"{COPIES}\b|"
    r"(?:\d{1,2}|one|two|three) (?:of|in|for) (?:each|every) (?:colou?r|shade|yarn|size)\b(?=\W*$)",
    re.I,
)


def left_open(text: str) -> str:
    """The words of a heading that leave open how many copies there are; "" where none do."""
    told = _OPEN.search(text)
    if told is None or (told["few"] and int(told["few"]) >= int(told["many"])):
        return ""
    return told[0].strip(" ([,\n")


_SHARED = ("set of", "pair", " pr", "each", "every", "either", "per ")


@lru_cache(REMEMBERED)
def copies(text: str) -> tuple[str, int]:
    """A heading without its "make 2", and how many copies it asks for."""
    text = in_our_words(text)
    low = text.lower()
    if " in " in low or "(in " in low:
        text = _COMPOSED.sub("", text)
        low = text.lower()
    if "dozen" in low or "couple" in low:
        text = in_numbers(text)
        low = text.lower()
    sorted_out = sorts(text)
    if sorted_out is not None and (each_its_own := summed(text)) is not None and each_its_own[1] > sorted_out.made:
        return each_its_own  # "Ears (2), arms (2) and feet (2)"
    if sorted_out is not None:
        name, n = copies(text[: sorted_out.name])
        return name, max(n, sorted_out.made)
    by_name = named_by_numbers(text) or summed(text)
    if by_name is not None:
        return by_name
    text = multiplied(and_then(text) if "more" in low else text)
    if any(word in low for word in _SHARED):
        text = shared_out(text)
    if ("ice" in low or "times" in low) and (seam := _OFTEN_BEHIND.search(text)) is not None:
        told_often = text[seam.end() :].rstrip(" )]:.")
        often = made_often(_REPEATED.sub("make this ", told_often))
        if often:  # "Wing. Crochet it twice.", "Wing (work this 3 times)"
            return text[: seam.start()], often
    if "twice" in low:
        text = _TWICE.sub(" 2 times", text)
        low = text.lower()
    if (told := counted(text)) is not None:
        return told
    for rule in _MAKES:
        match = rule.pattern.search(text) if rule.may_be_in_small(low) else None
        if match:
            n = number_of(match["n"])
            rest = match["rest"] or ""
            parts = re.findall(r"\b(one|two|three|\d) (?:in|of|with)\b", match["n"] + rest, re.I) or re.findall(
                r"(?:^|\band |[&+,] ?)(one|two|three|\d) (?=[a-z])", match["n"] + rest, re.I
            )
            if len(parts) > 1:
                n = sum(number_of(p) for p in parts)
            if n == 1 and (TWO.search(match[0]) or THEN_ONE.search(match[0])):
                n = 2  # "make one for each side", "make one, then one mirrored"
            if n > 2 and _NUMBER_ALONE.fullmatch(match[0]) and _OF_ONE.search(text[: match.start()]):
                return text[: match.start()], 1  # "Head (12)": its stitches, in all likelihood
            if 1 <= n <= 200:
                behind = _IN_ALL.sub("", text[match.end() :], count=1)
                name = _AND.sub("", text[: match.start()], count=1) + (" " + behind if behind.strip(" :.-*#)]") else "")
                return name, n
    named = several(text)
    return told_aside(text) if named is None else named


# "(12). Make 3.", "(12), make 2", "Fasten off. Make another one.": how many, told behind the last round
_BEHIND = re.compile(
    r"(?:(?:[.;)\]}] ?[,-]?|\b(?:off|fo|tail|yarn|ends),?(?= ))\s*(?P<asks>[(\[]?(?:and |then )?"
    r"(?:make|(?:you(?:'ll| will)? |to )?need(?=[^.!,;)]{0,9} (?:of|in|pieces?|copies|altogether|alike)\b)) "
    rf"(?:(?P<n>\d{{1,2}}|{SEVERAL_WORDS})"
    r"(?: (?:of (?:these|those|them|this)(?: (?!rounds|rows|stitches)[a-z]{3,}s)?|"
    r"in (?:all|total)|pieces?|copies|altogether|alike|the same))*"
    r"(?P<dyed> in (?:the )?(?:[a-z]+ )?[a-z]+(?!,? (?:and |then )*(?:\d|one |two |three |four )))?|"
    r"(?P<more>another(?: one)?|a second(?: one)?|one more)))(?=\s*(?:[.!,;)]|$|and (?:stuff|sew|fasten|leave|weave|"
    r"set|put|keep|join|attach)\b))|"
    # "ch 12 and cut. Two wanted."
    rf"[.;] (?P<asks2>(?P<n2>\d{{1,2}}|{SEVERAL_WORDS})(?: (?:are|of (?:these|them)))? "
    r"(?:wanted|needed|required))(?=\W*$))",
    re.I,
)


# "FO. x4", "Fasten off [4 pieces]", "leave a tail (x2)": ... without a verb
_BEHIND_CUT = re.compile(
    r"\b(?P<cut>(?:f\.?/?o|off|tail|ends|yarn|sewing|close[ds]?)\b[.,;:]?)\s*(?P<told>[(\[]?\s*(?:x ?(?P<n>\d{1,2})|"
    r"(?P<n2>\d{1,2}) ?(?:x|pieces|pcs|copies|of (?:these|them)|in (?:all|total)))\s*[)\]]?)\W*$",
    re.I,
)
_SIGNS_OF_COPIES = ("x", "pieces", "pcs", "copies", "these", "them", "all", "total")


def copies_of_the_cut(text: str) -> re.Match[str] | None:
    """ "FO. x4": so many of the piece that is cut off here."""
    ends = text.rstrip(" .)]!")[-8:].lower()
    if not (ends.endswith(_SIGNS_OF_COPIES) or ("x" in ends and ends[-1:].isdecimal())):
        return None
    return _BEHIND_CUT.search(text, max(0, len(text) - _LONGEST_CUT))


_LONGEST_CUT = 60  # letters of the end of a line


def copies_behind(text: str) -> int:
    """How many of a piece what stands behind its last round asks for; 1 where it tells nothing."""
    if (cut := copies_of_the_cut(text)) is not None:
        return max(1, number_of(cut["n"] or cut["n2"]))
    match = asked_behind(text)
    return 1 if match is None else 2 if match["more"] else max(1, number_of(match["n"] or match["n2"]))


def asked_behind(text: str) -> re.Match[str] | None:
    """The words behind the last round that ask for copies: ". Make 3."; in `asks` or `asks2` but the sign before."""
    low = text.lower()
    match = _BEHIND.search(text) if any(verb in low for verb in _ASKED_WITH) else None
    if match is not None and match["dyed"] and not is_colour(_IN_SHADE.sub("", match["dyed"])):
        return None  # "make 3 in the ring"
    return match


_ASKED_WITH = ("make", "need", "wanted", "required")
_IN_SHADE = re.compile(r" in (?:the )?", re.I)
_THIS = r"(?:this|that|the (?:whole|following))(?: [a-z]{3,9})?|it|them|these|all (?:of )?this"
_OFTEN = re.compile(
    rf"\W*(?:(?:you|we|i)(?:'ll| will)?(?: (?:have|need) to)? |now |please )*"
    rf"(?:(?:(?:make|work|crochet) (?:{_THIS})|do (?:it|them)|"
    r"(?:do|repeat) (?:the whole|all (?:of )?this|this (?:piece|part|pattern))(?: [a-z]{3,9})?) |"
    rf"(?:(?:{_THIS}) )?(?:(?:is|are|gets?|will be|to be) )?(?:made|worked|needed|crocheted|wanted) )"
    rf"(?P<n>twice|thrice|(?:\d{{1,2}}|{SEVERAL_WORDS}) times)"
    r"(?: (?:over|in all|in total|altogether|alike))?\W*$",
    re.I,
)


def made_often(text: str) -> int:
    """ "(work it twice)", "This part is made 3 times." below a name, in front of its rounds; 0 for any other line."""
    low = text.lower()
    match = _OFTEN.match(text) if len(text) <= 60 and ("times" in low or "ice" in low) else None
    if match is None:
        return many_below(text)
    if re.search(r"\b(?:round|rnd|row|line|step)\b", text, re.I):
        return 0
    return {"twice": 2, "thrice": 3}.get(match["n"].lower()) or number_of(match["n"].split()[0])


# "Wing. Two of them.", "Toes. Three for each foot."
_SO_MANY = re.compile(
    rf"\W*(?:(?:(?:you|we|i)(?:'ll| will)? )?(?:make|made|work|crochet|need|want) )?(?:(?P<n>\d{{1,2}}|{SEVERAL_WORDS})"
    r"(?: of (?:them|these|those|each)| alike| pieces| in all|"
    r" (?:for|on|per) (?:each |every )?(?!st\b|stitch|round|rnd|row|side)[a-z]+)?|"
    rf"(?:one|1) (?:for|on|per) (?:each |every )?[a-z]+\W{{1,3}}(?P<n2>\d{{1,2}}|{SEVERAL_WORDS})|"
    r"(?:a|one) pair|both(?: the)? (?:alike|same)|(?:(?:2|two)\W+)?(?:one|1) (?:for|on) (?:each|either) side|"
    r"(?:one|1) for the left(?: [a-z]+)?,? (?:and )?(?:one|1) for the right(?: [a-z]+)?)\W*$",
    re.I,
)


def only_how_many(text: str) -> int:
    """ "two", "Three for each foot.", "Make it twice." behind a name: how many, and nothing else; 0 for other words."""
    many = _SO_MANY.match(text)
    return number_of(many["n"] or many["n2"] or "two") if many is not None else made_often(text.rstrip(".! "))
