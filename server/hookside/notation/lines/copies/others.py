"""What a sentence behind the rounds says of others like the piece: "Three others like this.", "Now make its twin.",
"FO all 4 knobs"."""

from __future__ import annotations

import re
from typing import NamedTuple

from hookside.notation.askings.colournames import is_colour
from hookside.notation.lines.copies.asked import only_how_many
from hookside.notation.vocabulary import COPIES, NUMBER_WORDS, number_of
from hookside.stitches import singular

_LONGEST = 70  # letters of such a sentence
_MOST = 60
# Such sentences are read by their words: each is known, and numbers mean what stands beside them. All that is made
# (the name of the piece, "piece", "one") stands as "piece".
_ONES = frozenset(["one", "ones", "piece", "pieces", "part", "parts", "copy", "copies", "pcs", "guy", "guys"])
_VERBS = frozenset(["make", "work", "crochet", "do", "repeat", "rep", "need", "use", "follow", "ditto", "likewise"])
_ALIKE = frozenset(
    ["same", "alike", "likewise", "identical", "identically", "mirrored", "mirror", "imaged", "reversed", "reverse",
     "match", "correspond", "corresponding", "like", "as", "following", "ditto"]
)  # fmt: skip
_OF_LIKE = frozenset(
    [
        "other", "others", "remaining", "missing", "rest", "more", "another", "additional", "further", "second",
        "third", "fourth", "fifth", "sixth", "2nd", "3rd", "4th", "5th", "6th", "siblings", "total", "altogether",
        "both",
    ]
)  # fmt: skip
_TWINS = frozenset(["twin", "partner", "pair", "mate", "double", "sister", "brother", "image", "matching"])
_FILL = frozenset(
    [
        "and", "now", "then", "next", "so", "also", "please", "finally", "you", "you'll", "we", "we'll", "i", "will",
        "should", "it", "its", "this", "that", "them", "these", "those", "all", "of", "to", "the", "a", "an", "is",
        "are", "was", "be", "for", "with", "in", "on", "until", "till", "there", "up", "end", "have", "has", "get",
        "want", "making", "makes", "made", "worked", "working", "done", "crocheted", "complete", "completed", "finish",
        "finished", "when", "once", "over", "again", "back", "go", "start", "beginning", "top", "everything", "whole",
        "thing", "exactly", "just", "way", "manner", "fashion", "method", "pattern", "steps", "instructions",
        "directions", "above", "before", "first", "each", "such", "needed", "number", "no", "time", "times", "told",
        "that's", "x", "wanted", "required", "by", "using", "from", "little", "down", "here", "comes", "twice",
        "thrice", "too", "well",
    ]
)  # fmt: skip
_KNOWN = _FILL | _VERBS | _ALIKE | _OF_LIKE | _TWINS | _ONES
_N = rf"(?P<n>{COPIES})\b(?! (?:more|other|others|times|additional|further|remaining|to go|down)\b)"
_MADE = r"(?: of (?:these|those|them))?(?: such)?(?: piece)?"
# "a total of 4", "three in all", "for 3 fins", "until you have three", "make 3 fins", "3 fins"
_TOTALS = (
    re.compile(rf"\b(?:(?:a )?total(?: of)?|in all|altogether) {_N}{_MADE}"),
    re.compile(rf"\b(?P<n>{COPIES}){_MADE}(?: times)? (?:in (?:all|total)|altogether|total|all told)\b"),
    re.compile(
        r"\b(?:to|until|till|for|have|with|get|need|want|making|makes|are)"
        rf"(?: (?:make|have|get|you|we|there|are|all|of|the|a))* {_N}{_MADE}"
    ),
    re.compile(
        rf"\b(?:make|crochet|work|do|complete|finish)(?: (?:all|of|the))* {_N}(?: of (?:these|those|them)| piece)"
    ),
    re.compile(rf"\b(?:(?:and )?all(?: (?:of|the|these))* )(?P<n>{COPIES})\b{_MADE}"),
    re.compile(
        rf"^(?:here are )?{_N}(?: of (?:these|those|them)| piece)(?: are)?(?: (?:needed|wanted|required))?$"
    ),
    re.compile(r"\b(?P<both>both)(?: of (?:these|those|them))?(?: piece)?"),
)
# "three more", "the other two", "another 2 times", "its twin", "a second fin"
_FURTHER = (
    re.compile(rf"\b(?:x )?(?P<n>{COPIES})(?: times)? for (?:the )?(?:others?|remaining)(?: piece)?\b"),
    re.compile(
        rf"\b(?:another|others?|remaining|missing|further|additional|rest)(?: of)?(?: the)? (?P<n>{COPIES})\b"
        r"(?: (?:more|times))*(?: piece)?"
    ),
    re.compile(
        rf"\b(?P<n>{COPIES}) (?:times more|(?:more|others?|additional|further|remaining|siblings|to go)(?: times)?)\b"
        rf"{_MADE}"
    ),
    re.compile(r"\b(?P<twice>twice) more\b"),
    re.compile(
        r"\b(?:another|once more|over again|again|(?:its|the|a) (?:twin|partner|pair|mate|double|sister|brother)|"
        r"(?:its |the |a )?mirror(?:ed)? (?:image|copy)|matching|other)(?: piece)?\b"
    ),
)
# "Do everything again for the second foot."
_WHOLE_AGAIN = re.compile(
    r"(?:(?<=again )|(?<=once more ))for (?:the )?(?P<other>other|second) "
    r"(?!side|edge|half|end\b|row|round)[a-z]{3,}(?=\W*$)"
)
_OF_WORK = re.compile(r"[*+=\[\]{}/]")
_TIMES = re.compile(rf"\b(?P<n>{COPIES}) times\b")
_ORDINAL = re.compile(r"\b(?:number |no |piece )?(?P<nth>second|third|fourth|fifth|sixth|2nd|3rd|4th|5th|6th)\b")
_NUMBERED = re.compile(rf"\b(?:number|no|piece) (?P<first>{COPIES})(?P<rest>(?: (?:and |to )?{COPIES})*)$")
_PLACES = {
    "second": 2, "2nd": 2, "other": 2, "third": 3, "3rd": 3, "fourth": 4, "4th": 4, "fifth": 5, "5th": 5, "sixth": 6,
    "6th": 6,
}  # fmt: skip
_NEEDS = frozenset(["make", "crochet", "need"])
_LED = r"\W{0,3}(?:(?:and|now|then|next|so|also|please|finally|you(?:'ll)?|we)\b,? )*"
_END = r"(?P<please>,? please)?[\s.!)]*"
_CUT_ALL = re.compile(
    r"\W{0,3}(?:fasten off|f\.?o\.?|finish(?: off)?|cut(?: the)?(?: yarns?)?(?: on| of)?|"
    r"break(?: the)?(?: yarns?)?(?: on| of)?|close|stuff) (?=all |both\b)",
    re.I,
)
# "Make 3 of these in red and 2 in white.", "Crochet two in blue, one in green"
_DYED = (
    r"(?: (?:of (?:them|these|those)|more|ones?))? (?:in|with|using) (?:the )?(?!same\b|total\b|all\b)"
    r"[a-z][a-z ]{1,20}?"
)
_BY_SHADE = re.compile(
    rf"{_LED}(?:make|crochet|work|do) (?:{COPIES}(?: of (?:them|these))? ?[-:,;]+ ?)?"
    rf"(?P<a>{COPIES}){_DYED}(?:,? and (?:then )?|, |,? then )(?:make )?"
    rf"(?P<b>{COPIES}){_DYED}(?:(?:,? and |, )(?P<c>{COPIES}){_DYED})?{_END}",
    re.I,
)
# "Fasten off and work three more.": what ends this one, in the same sentence
_CUT_FIRST = re.compile(
    r"\W{0,3}(?:(?:fasten off|f\.?o\.?|finish off|cut(?: the)?(?: yarn)?|break(?: the)?(?: yarn)?|close|"
    r"(?:set|put|lay)(?: it| this)?(?: one)? aside|leave(?: it)?|weave in(?: the)? ends)"
    r"(?:,? (?:leaving|with|leave) (?:an? )?(?:long |short )?(?:tail|end)(?: (?:for|to) sew(?:ing)?)?)?"
    r"(?:,? and(?: then)?|,? then|,|;|\.)\s){1,3}",
    re.I,
)
# "Make a second fin, but end with a long tail.": what is otherwise on those
_OTHERWISE = re.compile(
    r"(?:[,;]| -)? (?:but|except|leaving|without|only|this time|(?:and )?(?:do not|don'?t|leave|keep)|"
    r"and (?:sew|join|hold)|(?:in|with) (?!the\b|total\b|all\b|exactly\b|reverse\b)(?=[a-z]+(?: [a-z]+)?\W*$)|"
    r"in (?:different|various|other|these) colou?rs)\b",
    re.I,
)
# "Repeat this twice more", "Do this three times.": of the piece, or of its last round
_OBJECT = (
    r"(?:it|this|that|them|these|everything|all (?:of )?(?:this|that|it)|all|the (?:whole|same)(?: thing| piece)?|"
    r"from the (?:start|beginning|top))"
)
_AGAIN = re.compile(
    rf"{_LED}(?:(?:do|repeat|rep)(?: {_OBJECT})*|(?:make|work|crochet)(?: {_OBJECT})+) "
    rf"(?:(?P<n>{COPIES}) (?:times(?P<on> more)?|(?P<more>more)(?: times?)?)|(?P<twice>twice|once)(?P<on2> more)?|"
    rf"(?P<again>again)){_END}",
    re.I,
)
# "Fasten off on the first leg only.", "Don't cut the second one.": what tells one from its like
_ENDED = re.compile(r"\b(?:fasten\w*|f\.?o\.?|finish off|cut(?:ting)?|break|snip|yarn|hook)\b", re.I)
_NTH = re.compile(
    r"\b(?:the |your )?(?P<nth>first|second|third|fourth|1st|2nd|3rd|4th|other) (?P<noun>one|[a-z]{3,})\b", re.I
)
# "One more the same.", "Three in total.": or of rounds
_OPEN = re.compile(
    r"\W*(?:(?:and|then|now|just) )*(?:one more|another)\b|"
    rf"\W*(?:total:? {COPIES}|{COPIES} (?:in (?:total|all)|altogether))\W*$",
    re.I,
)
# "Repeat with blue.": another one in that yarn, or the last round
_DYED_AGAIN = re.compile(
    rf"{_LED}(?:(?:repeat|rep|do)(?: {_OBJECT})*(?: again)?|again|(?:the )?same(?: again)?) (?:in|with) (?:the )?"
    rf"(?P<shade>[a-z]{{3,12}}(?: [a-z]{{3,12}})?){_END}",
    re.I,
)
# "Work it twice.", "24 in all": of the round or of its stitches, as likely as of the part
_OF_ROUNDS = re.compile(
    r"\b(?:second|2nd|other)\b|"
    r"^(?!.*\b(?:piece|part|whole)\b).*\b(?:twice|thrice|times|in all|in total|altogether|total)\b|"
    r"^\W*(?:\d{1,3}|[a-z]+)\W*$",
    re.I,
)


def again(sentence: str) -> bool:
    """Does a sentence ask for more, and leave open of what?"""
    told = sentence.strip()
    if len(told) > _LONGEST:
        return False
    if _OPEN.match(told) and _by_words(told, "", cut=True) is not None:
        return True
    dyed = _DYED_AGAIN.fullmatch(told)
    return _AGAIN.fullmatch(told) is not None or (dyed is not None and is_colour(dyed["shade"]))


def told_apart(sentence: str, name: str) -> int:
    """How many there are at least of the piece, by words on how one of them ends; 1 where they tell nothing of it."""
    if len(sentence) > _LONGEST or not _ENDED.search(sentence):
        return 1
    called = {singular(word) for word in re.findall(r"[a-z]+", name.lower())}
    found = [m for m in _NTH.finditer(sentence) if singular(m["noun"].lower()) in called - {"tail"}]
    return max((_PLACES.get(m["nth"].lower(), 2) for m in found), default=1)


def _again(match: re.Match[str]) -> int:
    """How many that makes in all; 0 where it may be one more or less: "repeat 3 times"."""
    n = {"twice": 2, "once": 1}.get((match["twice"] or "").lower()) or number_of(match["n"] or "one")
    if match["again"] or match["on"] or match["more"] or match["on2"]:
        return 1 + n
    return 0 if re.match(r"\W*(?:[a-z]+,? )*?rep", match[0], re.I) else n


class Others(NamedTuple):
    """Of how many the piece is one; `job`: the sentence asks for something besides; `named`: it names the piece."""

    made: int
    job: bool = False
    named: bool = False


def others(sentence: str, name: str, cut: bool) -> Others | None:
    """What a sentence behind the rounds of the piece of that name tells of its like; None where it tells nothing.

    `cut`: stands it behind what ends the piece? In front of that, "three more" may be rounds as well."""
    told = sentence.strip()
    if len(told) > _LONGEST:
        return None
    shades = _BY_SHADE.fullmatch(told)
    if shades is not None:
        return Others(sum(number_of(shades[part]) for part in "abc" if shades[part]), job=True)
    ended = _CUT_FIRST.match(told)
    otherwise = _OTHERWISE.search(told, ended.end() if ended is not None else 0)
    if ended is not None or otherwise is not None:
        here = told[ended.end() if ended is not None else 0 : otherwise.start() if otherwise is not None else None]
        found = _others(here, name, cut or ended is not None)
        return found._replace(job=True) if found is not None else None
    return _others(told, name, cut)


def _others(told: str, name: str, cut: bool) -> Others | None:
    """The same of a sentence that tells nothing besides."""
    match = _AGAIN.fullmatch(told) if cut else None
    if match is not None:
        return Others(n) if (n := _again(match)) > 1 else None
    if not _OF_ROUNDS.search(told) and (many := only_how_many(told)) > 1:
        return Others(many)
    ended = _CUT_ALL.match(told)
    found = _by_words(told[ended.end() if ended is not None else 0 :], name, cut or ended is not None)
    return found._replace(job=True) if found is not None and ended is not None else found


def _by_words(told: str, name: str, cut: bool) -> Others | None:
    """How many, where every word is one of those that tell of copies; the piece is called by its name or by none."""
    words = re.findall(r"[a-z']+|\d+(?:st|nd|rd|th)?", _WHOLE_AGAIN.sub(r"\g<other> one", told.lower()))
    called = {singular(word) for word in re.findall(r"[a-z]+", name.lower())} - _KNOWN
    if not words or _OF_WORK.search(told, len(told) - len(told.lstrip(" -=>"))):
        return None  # "repeat from * 5 more times"
    shades = {word for word in words if word not in _KNOWN and is_colour(word)}
    if any(
        word not in _KNOWN and word not in NUMBER_WORDS and word not in shades and not word.isdecimal()
        and singular(word) not in called for word in words
    ):
        return None
    ones = [i for i, word in enumerate(words) if singular(word) in called or _one(words, i)]
    line = " ".join("piece" if i in ones else word for i, word in enumerate(words) if word not in shades)
    seen = set(words)
    alike = bool(seen & _ALIKE)
    named = bool(ones or seen & {"these", "those", "them"})
    if not (cut or named or alike or seen & _NEEDS or seen & {"please", "other", "others", "remaining", "missing"}):
        return None  # "Two more.": rounds as well
    whole, rest = _counted(line, _TOTALS)
    more, rest = _counted(rest, _FURTHER)
    places = [_PLACES[m["nth"]] for m in _ORDINAL.finditer(rest)]
    if (numbered := _NUMBERED.search(rest)) is not None:
        places += [number_of(n) for n in re.findall(COPIES, numbered[0])]
        rest = rest[: numbered.start()]
    if whole:  # "Repeat 3 times for a total of 4."
        rest = _TIMES.sub(lambda m: "" if number_of(m["n"]) + 1 in whole else m[0], rest)
    left = [n for n in re.findall(rf"\b{COPIES}\b", rest) if number_of(n) > 1]
    if not (named or more - {1} or "all" in seen or seen & (_VERBS | _OF_LIKE | _TWINS)):
        return None  # "You have: 6", "And again."
    if places and not (alike or more or seen & _VERBS):
        return None  # "Fin 2", "The second leg": the name of another part
    if "first" in seen and not (alike or places or whole or more - {1}):
        return None  # "Work the first leg again." below "Second leg"
    if whole and not (more or cut or named or seen & _NEEDS):
        return None  # "Until you have 30."
    if left or len(whole) > 1 or len(more) > 1 or (whole and more and whole != {1 + n for n in more}):
        return None
    sure = cut or "please" in seen or seen & (_VERBS | _TWINS) or words[0] in ("and", "now", "then")
    if more == {1} and not whole and not places and not (sure or (alike and not _OPEN.match(told))):
        return None  # "One more."
    made = max([*whole, *(1 + n for n in more), *places, 1])
    calls = not called.isdisjoint(map(singular, words))
    return Others(made, bool(shades), calls) if 1 < made <= _MOST else None


def _one(words: list[str], at: int) -> bool:
    """Is it what is made, and "one" no number of it?"""
    word, behind = words[at], words[at + 1 : at + 2]
    if word != "one":
        return word in _ONES
    return at > 0 and words[at - 1] in _OF_LIKE | {"first"} and behind != ["more"]


def _counted(line: str, ways: tuple[re.Pattern[str], ...]) -> tuple[set[int], str]:
    """The numbers that are told so, and the line without them."""
    found = set()
    for way in ways:
        while (match := way.search(line)) is not None:
            told = match.groupdict()
            found.add(number_of(told["n"]) if told.get("n") else 2 if told.get("both") or told.get("twice") else 1)
            line = f"{line[: match.start()]}|{line[match.end() :]}"
    return found - {0}, line
