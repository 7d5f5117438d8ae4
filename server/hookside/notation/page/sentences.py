"""A pattern told in whole sentences: "In the third round work ...", "Rounds 7 to 12 are plain", several in a line.

Such a round gets a label where its sentence begins, and a line of its own; the counts that are told behind it in words
get figures. The length stays.
"""

from __future__ import annotations

import re

from hookside.notation.vocabulary import NUMBER_WORDS, ORDINAL_WORDS, TENS

_ONES = "|".join(list(NUMBER_WORDS)[:9])
_WORD = rf"(?:(?:{'|'.join(TENS)})(?:[ -](?:{_ONES}))?|{'|'.join(reversed(NUMBER_WORDS))})"
_N = rf"(?:\d{{1,3}}|{_WORD})"
_NTH = (
    rf"(?:\d{{1,3}}(?:st|nd|rd|th)|(?:(?:{'|'.join(TENS)})[ -])?(?:{'|'.join(ORDINAL_WORDS)})|"
    rf"{'|'.join(ten[:-1] + 'ieth' for ten in TENS)})"
)
_COURSE = r"(?P<{}>rounds?|rows?|rnds?)"
_TO = r"(?:to|through|until|and|till)"
_TOLD = re.compile(
    r"(?:^[ ]*|(?<=[.!?;:])(?P<gap>[ ]+))(?:(?:and|now|then|next|so|again|finally),? )*(?:"
    rf"(?:in|on|for|with) (?:the )?{_COURSE.format('kind')} (?P<n>{_N})(?: {_TO} (?P<last>{_N}))?|"
    rf"(?:in|on|for|with) the (?P<nth>{_NTH})(?: {_TO} (?:the )?(?P<lastth>{_NTH}))? {_COURSE.format('kind2')}|"
    rf"(?:in|on|for|with) the next {_COURSE.format('next')}|"
    rf"(?:the )?{_COURSE.format('kind3')} (?P<n3>{_N})(?: {_TO} (?P<last3>{_N}))?"
    r" (?:is|are|goes?(?: like this| as follows| so)?)|"
    rf"the (?P<nth4>{_NTH})(?: {_TO} (?:the )?(?P<lastth4>{_NTH}))? {_COURSE.format('kind4')}"
    r" (?:is|are|goes?(?: like this| as follows| so)?))"
    r"[,:]? (?:(?:you|we|again|worked|simply|just),? )*(?=(?P<body>[^.;\n]{0,200}))",
    re.M | re.I,
)  # fmt: skip
# A hint of them: a round or row by its number, with work right behind it
_MAY_TELL = re.compile(
    rf"(?:[rR]ound|[rR]ow|[rR]nd)s? (?:{_N}(?: {_TO} {_N})? |[a-z])|{_NTH} (?:rounds?|rows?|rnds?) [a-z]", re.I
)
_WORK = re.compile(
    rf"(?:work|crochet|make|put|do|inc|dec|increase|decrease|single|double|half|treble|slip|sc|[hd]?dc|h?tr|plain|even|"
    rf"straight|chain|ch|skip|miss|all|each|every|\(|\[|\*|{_N})\b",
    re.I,
)
_STITCH = re.compile(
    r"\b(?:sts?|stitch(?:es)?|crochets?|sc|[hd]?dc|h?tr|inc|dec|increases?|decreases?|plain|even|straight|trebles?)\b",
    re.I,
)
_LABELLED = re.compile(r"^[^\w\n]{0,6}(?:(?:r|rd|rnd|round|row)s?\.? ?\d{1,3}\s?[-:.)(]|\d{1,3}\s?[.:)])", re.M | re.I)
_FEWEST = 3  # such sentences in a text
# "..., which gives you eighteen stitches.", "leaving twenty-four", "so that twenty-one stitches remain"
_NOUN = r"(?: (?:stitches|sts|single crochets?))?"
_COUNT = re.compile(
    r"(?P<lead>(?:[,;] |\b)(?:(?:and|so|or) )*(?:(?:which|that|this|it) (?:now )?(?:makes?|gives?|leaves?|is|are)"
    r"(?: you)?(?: with)?|(?:so )?that (?:you )?(?:now |should |will |still )*(?:have|are)|so that|"
    r"leaving(?: you)?(?: with)?|making|giving(?: you)?|for|keeping|you (?:now |should |will |still )*have)"
    r"(?: still| now| again)? )"
    rf"(?P<n>{_WORD})(?P<noun>{_NOUN})"
    r"(?P<left>(?: (?:remain|are left|left|in all|in total|altogether|in every round))?)"
    r"(?P<end>\s*(?=[.;,\n]|\Z))",
    re.I,
)


def _value(word: str) -> int:
    """ "twenty-one", "third", "thirtieth", "12th" -> its number."""
    if (figures := re.match(r"\d+", word)) is not None:
        return int(figures[0])
    tens, _, ones = word.lower().replace("-", " ").partition(" ")
    if tens.endswith("ieth") and tens not in ORDINAL_WORDS:
        return TENS[tens[:-4] + "y"]
    value = TENS.get(tens) or NUMBER_WORDS.get(tens) or ORDINAL_WORDS[tens]
    return value + (NUMBER_WORDS.get(ones) or ORDINAL_WORDS.get(ones) or 0)


def _labels(text: str) -> list[tuple[int, int, str]]:
    """(start, end, what to put there) for every round that a sentence begins."""
    found: list[tuple[int, int, str]] = []
    before = 0
    for match in _TOLD.finditer(text):
        if not _WORK.match(match["body"]) or not _STITCH.search(match["body"]):
            continue
        kind = match["kind"] or match["kind2"] or match["kind3"] or match["kind4"] or match["next"]
        name = "Row" if kind.lower().startswith("row") else "Rnd"
        start, room = match.start(), match.end() - match.start()
        line = "\n" if match["gap"] else ""
        if match["next"]:
            label = f"{line}Next {name.lower()}:"
        else:
            n = _value(match["n"] or match["nth"] or match["n3"] or match["nth4"])
            upto = match["last"] or match["lastth"] or match["last3"] or match["lastth4"]
            last = _value(upto) if upto else n
            if last < n or n > before + 40 or (n != before + 1 and n > 2 and before >= n):
                continue
            before = last
            label = f"{line}{name} {n}-{last}:" if upto else f"{line}{name} {n}:"
        if len(label) < room:
            found.append((start, match.end(), label.ljust(room)))
    return found


def narrated(text: str) -> str:
    """The page with the rounds of its sentences labelled, and their counts in figures."""
    if not _MAY_TELL.search(text):
        return text
    labels = _labels(text)
    if len(labels) < _FEWEST or 2 * len(_LABELLED.findall(text)) > len(labels):
        return text
    out, at = [], 0
    for start, end, told in labels:
        out += [text[at:start], told]
        at = end
    return _COUNT.sub(_figured, "".join([*out, text[at:]]))


def _figured(match: re.Match[str]) -> str:
    """The count in figures; the room it leaves goes behind it."""
    told = f"{match['lead']}{_value(match['n'])}{match['noun']}{match['left']}"
    return told.ljust(len(match[0]) - len(match["end"])) + match["end"]
