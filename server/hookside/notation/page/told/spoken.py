"""A pattern said into a telephone: "round twenty one eighteen single crochet uh that is eighteen", hardly a sign in it.

Rounds that are called in words and count up get figures and a colon, counts at the end of a line an equals sign.
"""

from __future__ import annotations

import re

from hookside.notation.page.inwords import N
from hookside.notation.vocabulary import NUMBER_WORDS, TENS

_SIGNS = "[:.,)=-]"
_LABEL = re.compile(
    rf"(?P<gap>^[ ]*(?:(?:okay|ok|so|and|then|now|next)[ ]+){{0,3}}|[ ,.]+)(?P<kind>(?:round|row|rnd)s?)[ ]"
    rf"(?P<first>{N})(?:[ ](?P<join>to|through|and|until|till)[ ](?:(?:rounds?|rows?|rnds?)[ ])?(?P<last>{N}))?"
    r"[ ](?=[a-z\d])(?!(?:to|thru|through|and|until|till?|is|are|was|will|should|of|from|or|has|have|may|can)[ ])",
    re.M | re.I,
)
# "rounds five six and seven": one after the other, and no sign between them
_NEXT = re.compile(rf"[ ,]+(?P<and>and[ ])?(?:(?:rounds?|rows?|rnds?)[ ])?(?P<n>{N})(?=[ ])", re.I)
_STITCHES = re.compile(
    r"[ ]+(?!(?:sc|[hd]?dc|(?:single|double) crochet) (?:in (?:each|every)|a?round|all)\b)"
    r"(?:sts?|stitch\w*|sc|[hd]?dc|h?tr|singles?|doubles?|half|trebles?|inc\w*|dec\w*|times|in)\b",
    re.I,
)
# "we're gonna increase single crochet in the next three and an increase": what the round is for, and no stitch
_MEANS_TO = re.compile(
    r"(?<=: )[ ]*(?:(?:so|and|now|okay|here|this time) )*(?:(?:we|you|I)(?:'re|'m| are| am)? )?"
    r"(?:gonna|going to|start(?:ing)? to|want to|have to) (?:increase|decrease)(?: again| now)?"
    rf"(?=,? (?:single crochet|singles?|sc|{N} (?:singles?|sc|and)) "
    rf"[^\n]{{0,120}}(?:increase|decrease|two in|together))",
    re.I,
)
# "put six single crochets in there pull it tight"
_PULLED = re.compile(
    r"(?P<there>\b(?:in|into|inside) (?:there|it|the (?:ring|loop|circle)))(?: and)? pull (?:it|her|him|them|that)"
    r" (?:tight|closed|shut|up)(?= *$)",
    re.I | re.M,
)
# "... twenty four you can speed me up here": talk behind the count of a line
_TALKS_ON = re.compile(
    rf"(?P<n>{N})(?: stitches)?(?P<seam> )"
    rf"(?=(?:you can|you guys|y'all|I know|I like|I always|I usually|feel free|go ahead and)\b"
    rf"(?=[^\n]{{0,80}}$)(?![^\n]{{0,80}}\b(?:{N}|sts?|stitch\w*|inc\w*|dec\w*|sc|single|rounds?|rows?)\b))",
    re.I | re.M,
)
_NAMED = frozenset(  # a round named and not begun: "between round 14 and 15", "repeat round two"
    ["of", "in", "at", "to", "from", "repeat", "as", "like", "until", "after", "before", "with", "for", "the", "on",
     "between", "behind", "into", "since", "by", "through", "every", "each", "last", "same", "till"]
)  # fmt: skip
_FEWEST = 3
_WRITTEN = re.compile(r"[.,:;()\[\]*]")
_MOST_SIGNS = 0.01  # of the letters of what is said
_CALLED = re.compile(rf"[Rr](?<!\w.)(?i:(?:ound|ow|nd)s? {N} [a-z\d])")
_FIGURE = re.compile(r"\d")
_UM = re.compile(r"(?<![a-z-])(?:u+h+|u+m+|er+m*|hm+|you know|i mean|let me see)(?![a-z-])[ ,]*", re.I)
_POINTS = re.compile(r"[ ](?P<sign>comma|full stop|period|semicolon|colon|new line)(?![a-z-])", re.I)
_POINT = {"comma": ",", "full stop": ".", "period": ".", "semicolon": ";", "colon": ":", "new line": "\n"}
_TOLD = (
    r"(?:(?:so |and |now )?(?:that is|that's|that makes|that gives(?: you| us)?|which is|which makes|"
    r"makes|making|"
    r"gives(?: you| us)?|giving(?: you| us)?|you have|you should have|you now have|you(?:'ve)? got|"
    r"you(?:'re| are| should be)(?: now)? (?:back |down |up )?(?:to|at)|(?:back|down|up) to|you end up with|"
    r"for a total of|total|still|equals|"
    r"there are)(?: still| now| again)? )"
)
_BEHIND = "".join(
    f"|(?<={word} )"
    for word in (
        "times", "stitch", "stitches", "ring", "circle", "around", "across", "increases", "decreases", "rest", "each",
        "shaping", "even", "twice",
    )
)  # fmt: skip
_IN_ALL = r"(?:left|in total|altogether|in all|total|now)"
_COUNT = re.compile(
    rf"(?P<seam>[ ,.]+)(?:(?P<told>{_TOLD}(?:a total of )?){_BEHIND})(?P<n>{N})"
    rf"(?P<noun>[ ](?:stitches|single crochets?|sts?)?(?:[ ]?{_IN_ALL})?)?[ .]*$",
    re.M | re.I,
)
_LEFT = re.compile(
    rf"(?P<seam>[ ,.]+)(?P<n>{N})(?P<noun>[ ](?:stitches )?(?:left|in total|altogether|remain(?:ing)?))[ .]*$",
    re.M | re.I,
)
# "increase single crochet increase single crochet six stitches": what comes last in a round of several words is counted
_SUM = re.compile(rf"(?P<seam>[ ,.]+)(?P<n>{N})(?P<noun>[ ](?:stitches|sts))[ .]*$", re.M | re.I)
_FEWEST_WORDS = 4


def _values(word: str) -> list[int]:
    """ "twenty one" -> 21, or 20 where "one" begins what is worked."""
    if word.isdecimal():
        return [int(word)]
    parts = re.split("[ -]", word.lower())
    tens = TENS.get(parts[0])
    if tens is None or len(parts) == 1:
        return [tens or NUMBER_WORDS[parts[0]]]
    return [tens + NUMBER_WORDS[parts[1]], tens]


def _labels(text: str) -> list[tuple[int, int, str]]:
    """(start, end, what to put there) for every round that is called."""
    found: list[tuple[int, int, str]] = []
    last, begun = 0, False
    for match in _LABEL.finditer(text):
        at_start = match["gap"].strip(" ,.") != "" or match.start() == 0 or text[match.start() - 1] == "\n"
        if not at_start:
            before = re.search(r"([a-z]+|\S)[ ,.]*$", text[max(0, match.start() - 24) : match.start()], re.I)
            if before is None or before[1].lower() in _NAMED:
                continue
        values = _values(match["first"])
        fits = [v for v in values if v == last + 1 or (v == 1 and at_start)]
        if not fits and not (at_start and begun and values[0] > last):
            continue
        first = (fits or values)[0]
        end = match.end()
        if match["last"]:
            upto = _values(match["last"])
            after = next((v for v in upto if v > first), 0)
            if not after:
                continue
            if after != upto[0]:
                end = text.rindex(" ", match.start(), match.end() - 1) + 1
            told, last = (f"{first},{after}:" if match["join"].lower() == "and" else f"{first}-{after}:"), after
        else:
            listed = _run(text, match, first) if match["kind"][-1] in "sS" else None
            if listed is not None:
                last, end = listed
                told = f"{first}-{last}:"
            elif first != values[0]:  # "round twenty one single crochet": twenty, and one single crochet
                end = match.end("first") - len(match["first"].split(" ")[-1])
                told, last = f"{first}:", first
            else:
                told, last = f"{first}:", first
        begun = True
        gap = match["gap"]
        start = match.start() + len(gap) - len(gap.lstrip(" ")) if at_start else match.start("kind")
        row = match["kind"].lower().startswith("row")
        lead = "" if at_start else "\n"
        room = end - start
        label = next((k + told for k in (("Row ", "Row") if row else ("Rnd ", "R")) if len(k + told) <= room), None)
        if label is None:
            continue
        found.append((start - len(lead), end, lead + label.ljust(room)))
    return found


def _run(text: str, match: re.Match[str], first: int) -> tuple[int, int] | None:
    """The last of several rounds that are called one after the other, and where its work begins."""
    at, last, joined = match.end("first"), first, False
    while not joined and (more := _NEXT.match(text, at)) is not None:
        n = next((v for v in _values(more["n"]) if v == last + 1), 0)
        if not n or n != _values(more["n"])[0]:
            break
        at, last, joined = more.end(), n, more["and"] is not None
    if last == first or (not joined and _STITCHES.match(text, at)):
        return None
    return last, at + 1


def spoken(text: str) -> str:
    """The page with its spoken rounds written; the length stays."""
    if not _CALLED.search(text):
        return text
    labels = _labels(text)
    in_words = sum(not _FIGURE.search(text, start, end) for start, end, _ in labels)
    if len(labels) < _FEWEST or (in_words < _FEWEST and len(_WRITTEN.findall(text)) > _MOST_SIGNS * len(text)):
        return text
    out, at = [], 0
    for start, end, told in labels:
        out += [text[at:start], told]
        at = end
    text = "".join([*out, text[at:]])
    text = _UM.sub(lambda m: " " * len(m[0]), text)
    text = _MEANS_TO.sub(lambda m: " " * len(m[0]), text)
    text = _TALKS_ON.sub(lambda m: m[0][:-1] + "\n", text)
    text = _PULLED.sub(lambda m: m["there"].replace("there", "it").ljust(len(m[0])), text)
    text = _POINTS.sub(lambda m: _POINT[m["sign"].lower()].ljust(len(m[0])), text)
    return "\n".join(
        _counted(line) if re.match(r"[ ]*(?:Rnd |R|Row ?)\d[\d,-]*:", line) else line for line in text.split("\n")
    )


def _counted(line: str) -> str:
    """A line of a round with its count behind an equals sign."""
    match = _COUNT.search(line) or _LEFT.search(line)
    if match is None:
        match = _SUM.search(line)
        if match is None or len(line[: match.start()].split()) < _FEWEST_WORDS:
            return line
    before = line[: match.start()]
    if re.search(r"(?:^|[ :])(?:next|chain|last|first|of)$", before) or not re.search(
        "[a-z]", before.split(":", 1)[-1]
    ):
        return line
    value = _values(match["n"].replace("  ", " "))[0]
    room = len(line) - len(before)
    return before + (f"= {value}" if room > len(str(value)) + 1 else f"={value}").rjust(room)
