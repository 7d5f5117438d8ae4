"""A pattern told in whole sentences: "In the third round work ...", "Rounds 7 to 12 are plain", several in a line.

Such a round gets a label where its sentence begins, and a line of its own; the counts that are told behind it in words
get figures. The length stays.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from hookside.notation.page.inwords import COURSE, NTH, TO, WORD, N, value
from hookside.notation.page.told.onwards import ONWARDS, may_go_on, onward
from hookside.notation.page.told.ushered import MAY_USHER, USHERED

# What a round does: "is", "goes like this"; or its work follows at once, "doubles them", "with four in between"
_GOES = (
    r"(?: is where (?:we|you|I) [^:.\n]{3,40}:| (?:is|are|has|have|brings|goes?(?: like this| as follows| so)?|"
    r"(?:starts?|begins?)(?= with \S+ (?:sc|dc|single|double))(?: with)?|"
    r"(?:starts?|begins?|shapes?|makes?|forms?|closes?) (?:the|our|your|his|her|its) [a-z ]{2,24}(?=:))|"
    r"(?= (?:(?:again|likewise|also|then|too|follows the same way|the same),? )?"
    rf"(?:doubles|takes|gets|stays?|repeats|works|puts|increases|decreases|(?:you|we|I)|with {N}(?: \w+)? (?:in )?"
    r"between)\b))"
)
_TOLD = re.compile(
    rf"(?:^[ ]*|(?:(?<=[.!?;:])|(?<=[.!?\d]\)))(?P<gap>[ ]+))(?:(?:and|now|then|next|so|again|finally),? )*"
    r"(?P<turn>turn(?: the work| your work| it| again)?(?:,? and|, (?:now|then)|,) )?(?:"
    rf"(?:in|on|for|with) (?:the )?{COURSE.format('kind')} (?P<n>{N})(?: {TO} (?P<last>{N}))?|"
    rf"(?:in|on|for|with) the (?P<nth>{NTH})(?: {TO} (?:the )?(?P<lastth>{NTH}))? {COURSE.format('kind2')}|"
    rf"(?:in|on|for|with) the next {COURSE.format('next')}|(?:in|for) the (?:very )?last {COURSE.format('last_one')}|"
    rf"(?:(?:you|we) )?(?:do|work|crochet|make) {COURSE.format('kind5')} (?P<n5>{N}) {TO} (?P<last5>{N})"
    r"(?= (?:plain|even|straight|without (?:any )?(?:shaping|increas|decreas)))|"
    rf"(?:make|work|do|finish with|end with|close with|go on (?:to|with)) {COURSE.format('kind6')} (?P<n6>{N})"
    r"(?: of|,)|"
    rf"(?:the )?{COURSE.format('kind3')} (?P<n3>{N})(?:(?P<more3>(?:, {N}){{0,6}}),? {TO} (?P<last3>{N}))?"
    rf"(?:{_GOES}|(?=, (?:plain|fold|{N}(?! ?[-:.,)&]))\b))|"
    rf"the (?P<nth4>{NTH})(?:(?P<more4>(?:, (?:the )?{NTH}){{0,6}}),? {TO} (?:the )?(?P<lastth4>{NTH}))? "
    rf"{COURSE.format('kind4')}(?:{_GOES}|(?=: )))"
    r"[,:]? (?:(?:it is|it's|that is|that's|there (?:is|are)|(?:you|we) (?:have|do|get|need)|comes?|you|we|I|"
    r"likewise|also|then|too|follows the same way|"
    r"again|worked|simply|just|go(?: a?round)?(?= plain)|(?:all|both)(?= (?:plain|even|straight)\b)),? )*"
    r"(?=(?P<body>[^.;\n]{0,200}))",
    re.M | re.I,
)  # fmt: skip
# A hint of them: a round or row by its number, with work right behind it
# "rounds four", "round 3 is", "the third round is": asked of every page, so that it begins with one letter
_MAY_TELL = re.compile(r"[rR](?i:ound|ow|nd)[sS]? (?:[a-zA-Z]|\d{1,3}[ ,])")
_WORK = re.compile(
    rf"(?:work|crochet|make|put|do|inc|dec|increase|decrease|single|double|half|treble|slip|sc|[hd]?dc|h?tr|plain(?:ly)?|"
    r"even|fold|"
    rf"straight|chain|ch|skip|miss|all|each|every|(?:double|take|get|stay|repeat|work|put|increase|decrease)s?|"
    rf"the same|nothing changes|(?:like|as) the {NTH}|"
    rf"with (?={N}\b)|(?:the )?first (?:two|2|three|3) (?:sts |stitches )?together|\(|\[|\*|{N})\b",
    re.I,
)
_STITCH = re.compile(
    rf"\b(?:sts?|stitch(?:es)?|crochets?|sc|[hd]?dc|h?tr|inc|dec|increases?|decreases?|plain(?:ly)?|even|straight|trebles?|"
    r"doubles? (?:them|each|every)|together|(?:two|2) in(?:to)? (?:the (?:next|same)|each|every)|between|the same|"
    rf"repeats? (?:round|row)|nothing changes|(?:like|as) the {NTH}|(?:in|de)creasing|shaping)\b",
    re.I,
)
_LABELLED = re.compile(
    r"^[^\w\n]{0,6}(?:(?:r|rd|rnd|round|row)s?\.? ?(?P<n>\d{1,3})\s?(?:-\s?(?P<last>\d{1,3})|[-:.)(])|\d{1,3}\s?[.:)])|"
    r"(?<=[.!;] )(?:rnd|round|row) (?P<within>\d{1,3}):",
    re.M | re.I,
)
_FIRSTS = ("n5", "n6", "n", "nth", "n3", "nth4")  # the number of such a round, or of the first of several
_FEWEST = 3  # such sentences in a text
# "..., which gives you eighteen stitches.", "leaving twenty-four", "so that twenty-one stitches remain"
_NOUN = r"(?: (?:stitches|sts|single crochets?))?"
_COUNT = re.compile(
    r"(?P<lead>(?:[,;] |\b)(?:(?:and|so|or) )*"
    r"(?:(?:which|that|this|it)(?:'s| (?:now )?(?:makes?|gives?|leaves?|is|are))"
    r"(?: you| us)?(?: with)?|(?:so )?that (?:you )?(?:now |should |will |still )*(?:have|are)|so that|"
    r"leaving(?: you)?(?: with)?|making|giving(?: you)?|for|keeping|so|you (?:now |should |will |still )*have)"
    r"(?: still| now| again)? )"
    rf"(?P<n>{WORD})(?P<noun>{_NOUN})"
    r"(?P<left>(?: (?:remain|are left|left|in all|in total|altogether|in every round))?)"
    r"(?P<end>\s*(?=[.;,\n]|\Z))",
    re.I,
)
# "... in every stitch. Eighteen every time.": a sentence of its own
_ALONE = re.compile(
    rf"(?<=[.!] )(?P<n>{WORD})(?P<rest>{_NOUN} (?:(?:every|each) (?:time|round|row|one)|each|again))"
    r"(?=\s*[.!]?\s*(?:\n|\Z))",
    re.I,
)


def _begun(text: str) -> dict[int, re.Match[str]]:
    """Where sentences begin that may begin a round by its number."""
    told = {match.start(): match for match in _TOLD.finditer(text)}
    if MAY_USHER.search(text):
        told |= {match.start(): match for match in USHERED.finditer(text)}
    return told


def _labels(
    text: str, told: dict[int, re.Match[str]], plain: Sequence[re.Match[str]] = ()
) -> list[tuple[int, int, str]]:
    """(start, end, what to put there) for every round that a sentence begins, `told` or by no number.

    Among `plain` labels only those are taken that go on by their number from the one before, and that none behind
    them repeats: "11-16: sc around, for the next 6 rounds" is one label.
    """
    found: list[tuple[int, int, str]] = []
    before = passed = 0
    if not plain and may_go_on(text):
        found = [_goes_on(match) for match in ONWARDS.finditer(text) if match.start() not in told]
        found = [label for label in found if label[2]]
    for _, match in sorted(told.items()):
        if not _WORK.match(match["body"]) or not _STITCH.search(match["body"]):
            continue
        onward = match.groupdict().get("next") or match.groupdict().get("last_one")
        told_so = match.groupdict()  # "do rounds 7 and 8 plain"
        kind = match["kind"] or match["kind2"] or match["kind3"] or match["kind4"] or told_so.get("kind5")
        kind = kind or told_so.get("kind6") or onward
        kind = kind or ""
        name = "Row" if kind.lower().startswith("row") else "Rnd"
        start, room = match.start(), match.end() - match.start()
        line = "\n" if match["gap"] else ""
        line = f"{' ' if line else ''}turn.\n" if told_so.get("turn") else line
        if onward and plain:
            continue
        if onward:
            label = f"{line}Next {name.lower()}:"
        else:
            n = value(next(at for name in _FIRSTS if (at := told_so.get(name))))
            upto = told_so.get("last5") or match["last"] or match["lastth"] or match["last3"] or match["lastth4"]
            last = value(upto) if upto else n
            more = told_so.get("more3") or told_so.get("more4") or ""
            if more and more.count(",") + 2 != last - n + 1:
                continue  # "the second, fourth and sixth rows"
            while passed < len(plain) and plain[passed].start() < start:
                before = int(plain[passed]["last"] or plain[passed]["n"] or plain[passed]["within"])
                passed += 1
            behind = int(plain[passed]["n"] or plain[passed]["within"]) if passed < len(plain) else 0
            if last < n or n > before + 40 or (n != before + 1 and n > 2 and before >= n):
                continue
            if plain and (n != before + 1 or n <= behind <= last):
                continue
            before = last
            label = f"{line}{name} {n}-{last}:" if upto else f"{line}{name} {n}:"
        if len(label) < room:
            found.append((start, match.end(), label.ljust(room)))
    return sorted(found)


def _goes_on(match: re.Match[str]) -> tuple[int, int, str]:
    """Such a round that its sentence does not number; no label where no work stands behind it."""
    first, label = onward(match)
    room = match.end() - match.start()
    label = ("\n" if match["gap"] else "") + first + label
    plain = label.rstrip(",").endswith(("plain", "even", "straight"))
    works = plain or (_WORK.match(match["body"]) and _STITCH.search(match["body"]))
    return match.start(), match.end(), label.ljust(room) if works and len(label) < room else ""


def narrated(text: str) -> str:
    """The page with the rounds of its sentences labelled, and their counts in figures."""
    if not (_MAY_TELL.search(text) or MAY_USHER.search(text)):
        return text
    told = _begun(text)
    labels = _labels(text, told)
    labelled = list(_LABELLED.finditer(text)) if len(labels) >= _FEWEST or len(told) >= _FEWEST else []
    if len(labels) < _FEWEST or 2 * len(labelled) > len(labels):
        plain = [m for m in labelled if m["n"] or m["within"]]
        labels = _labels(text, told, plain) if plain else []
        if len(labels) < _FEWEST:
            return text
    out, at = [], 0
    for start, end, label in labels:
        out += [text[at:start], label]
        at = end
    return figured("".join([*out, text[at:]]))


def figured(text: str) -> str:
    """The counts of its sentences in figures; the length stays."""
    if "each" in text or "every" in text or "again" in text:
        text = _ALONE.sub(lambda m: f"{value(m['n'])}{m['rest']}".ljust(len(m[0])), text)
    return _COUNT.sub(_figured, text)


def _figured(match: re.Match[str]) -> str:
    """The count in figures; the room it leaves goes behind it."""
    told = f"{match['lead']}{value(match['n'])}{match['noun']}{match['left']}"
    return told.ljust(len(match[0]) - len(match["end"])) + match["end"]
