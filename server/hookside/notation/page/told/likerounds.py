"""Rounds of another part told behind a name, with a span and no label: "Pot: same as cactus Rd. 1 - 4, then in brown:".

They get a line with the label they lack, "Rd. 1-4: same as cactus", and what is told of the yarn behind it one too.
A line that lacks the noun or the verb, "Repeat 1st-4th of head.", "First four rounds as head.", gets the one it lacks.
"""

from __future__ import annotations

import re
from itertools import islice

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import Edit, put
from hookside.notation.page.inwords import NTH, N, value
from hookside.notation.sought import Sought

_SPAN = Sought(
    ("same as ", "like ", ": as ", "\nas "),
    r"^(?P<name>[^\W\d_][A-Za-z' ]{1,24})(?P<copies>(?:[ ]?[(][^()\n]{1,16}[)])?)(?P<seam>:[ ]|:?\n)"
    r"(?P<like>(?:(?:work|make|made|worked|exactly|just|the) )?(?:same as|like|as)(?: for| in)?(?: the)?) "
    r"(?P<other>[a-z]{3,15}(?: (?!r(?:oun|n)?ds?\b|rows?\b)[a-z]{3,12})?)(?:'s)?,? "
    rf"(?P<course>{COURSE})\.? ?(?P<first>\d{{1,2}}) ?(?:-|\u2013|to) ?(?P<last>\d{{1,2}})"
    r"[,;.]?(?: and| but)?(?: then| now)?(?:,? (?:in|with) (?P<shade>[a-z]{3,12}(?: [a-z]{3,12})?))?"
    r" ?[:.,]?[ ]?$",
    re.I | re.M,
)
_LIKE = r"(?:exactly |just )?(?:the same as|same as|as|like)(?: for| in| on)?"
_VERB = r"(?:repeat|rep\.?|work|make|do|crochet|begin|start)"
_ROUNDS = (
    rf"(?:the )?(?:"
    rf"(?P<first>{NTH})(?: ?(?:-|\u2013|to|through|thru|and|&) ?(?:the )?(?P<last>{NTH}))?|"
    rf"(?:same )?first (?P<many>{N})|{COURSE}\.? (?P<from>\d{{1,3}}) ?(?:-|\u2013|to) ?(?P<to>\d{{1,3}}))(?: {COURSE})?"
)
_OTHER = (
    r"(?:the )?(?P<other>[^\W\d_][a-z]{2,14}"
    r"(?: (?!first|for|but|and|then|only|up|to|until|rounds|rnds|rows)[a-z]{2,12})?)"
)
_END = r"(?: again)?(?=[ ]?(?:[.,;:!(]|$|(?:but|then|and)\b))"
# "THE LID. With black make 2 ch. and work 1st to 3rd rounds as for the pot.": the part and its yarn on the line
_LEAD = (
    r"^(?P<lead>[^\w\n]{0,6})"
    rf"(?:(?P<part>(?!then\b|now\b|next\b|start\b|begin\b|(?:the )?{COURSE}\b)"
    r"[^\W\d_][A-Za-z' ]{1,24}(?:[ ]?[(][^()\n]{1,16}[)])?)"
    r"(?:(?:[.:]|[ ]-{1,2})[ ]{1,2}|[.:]?[ ]?--[ ]?|[.:] -[ ]{1,2}))?"
    r"(?:(?:in|with|using) (?P<shade>(?!the )[a-z]{3,12}(?: (?!rep|work|make|comm|begin|start)[a-z]{3,12})?),? )?"
    r"(?:(?:make|commence with|begin with|start with|ch\.?) (?:2|two)(?: ch(?:ain)?\.?)?,?(?: and| then)? )?"
    r"(?:(?:now|then|just|simply),? )?"
)
_NO_PART = re.compile(
    r"(?:fasten|finish|cut|stuff|fill|turn|close|change|join|sew|repeat|rep|work|make|continue|carry|note|tip|nb|do|"
    r"leave|insert|attach|add|place|put|begin|start|then|now|next|last|using|with|in|end|draw|pull|break|as|like)\b",
    re.I,
)
_HINT = ("1st", "2nd", "3rd", "th", "first ", "second ", "in ", "with ", "using ")
_SPOKEN = (
    # "Repeat 1st-4th of head", "The first three of head", "1st & 2nd as head", "First 4 rounds are like the head"
    Sought(
        _HINT,
        rf"{_LEAD}(?P<verb>{_VERB}(?: with| as)? |(?:same )?as )?{_ROUNDS} "
        rf"(?:(?:are |is )?(?:worked |made |done )?(?P<like>{_LIKE})|of|from) {_OTHER}{_END}",
        re.I | re.M,
    ),
    # "As head for the 1st to 4th", "Like head but only the first 4"
    Sought(
        _HINT,
        rf"{_LEAD}(?:{_VERB} )?(?P<like>{_LIKE}) {_OTHER},? (?P<verb>but )?(?:only )?"
        rf"(?:(?:for )?{_ROUNDS}|(?:up )?(?:to|until|through) (?:the end of )?{COURSE} (?P<until>\d{{1,3}})){_END}",
        re.I | re.M,
    ),
)
# "Worked like the centre, but in cream.": a part told by what is done to it, as "Make as the centre" tells it
_DONE_LIKE = Sought(
    ("made ", "worked ", "done ", "crocheted "),
    r"^[^\w\n]{0,6}(?P<told>(?:(?:is|are) )?(?:made|worked|done|crocheted) (?:exactly |just )?(?:in )?"
    r"(?:the same(?: way)? )?(?:as|like)(?: for)?) (?:the )?(?P<other>[^\W\d_][a-z]{2,14})"
    r"(?=[ ]?(?:[.,;!]|$|(?:but|except|only|with|in)\b))",
    re.I | re.M,
)
# "Ear 2 as ear 1 but in black", "Second wing is the same as the first": a name that lacks its sign
_SIGNLESS = Sought(
    (" as ", " like ", " see ", "ditto"),
    r"^[^\w\n]{0,6}(?P<name>(?:the )?(?:left|right|second|2nd|third|3rd|other|back) (?P<noun>[a-z]{3,12})|"
    r"[a-z]{3,12} (?:[2-9]|[b-d](?![a-z])|two|three|four))(?P<verb>:?)"
    r"(?P<gap>[ ](?:(?:is|are|goes) )?(?:(?:worked|made|done) )?)"
    r"(?P<like>(?:exactly |just )?(?:the same as|same as|as|like|see)(?: for)? (?:the )?"
    r"(?P<other>(?:left|right|first|1st|front) [a-z]{3,12}|(?:first|1st|left|right)(?: one)?\b(?! [a-z]{3,12}[ ]?$)|"
    r"[a-z]{3,12} (?:1|a(?![a-z])|one))|ditto)(?=[ ]?(?:[.,;!(]|$|(?:but|except|only|with|in|and|without)\b))",
    re.I | re.M,
)
# "Like leg 1, but in blue and don't fasten off": two things that are otherwise, each told by itself
_AND_OTHERWISE = Sought(
    (" and don't", " and do not", " and use", " and stuff", " and leave", " and cut", " and fasten", " and keep"),
    r"(?P<like>^[^\w\n]{0,6}(?:[^\W\d_][A-Za-z0-9 ]{1,24}(?::| is|) )?(?:(?:make|work|worked|made) )?"
    r"(?:the same as|same as|as|like) (?:the )?[a-z]{3,15} ?[a-z\d]{0,10}(?:,? but|,)[ ][^.;:()\n]{3,60}?),?"
    r"(?P<and> and)"
    r"(?= (?:don't|do not|use|stuff|leave|cut|fasten|keep)\b)",
    re.I | re.M,
)
# "as 2nd row - 3 dc remain at the end": the count behind a dash, which parts no number from its row
_LEFT_BEHIND = Sought(
    ("remain", " left"),
    rf"\b(?:as|like|repeat|rep)(?: for| in)?(?: the)? (?:\d{{1,3}}(?:st|nd|rd|th) {COURSE}|{COURSE}\.? ?\d{{1,3}})"
    r"(?P<told>(?: -+|,) (?P<n>\d{1,3}) [a-z]{2,8} (?:remain(?:ing)?|(?:are |is )?left)(?: (?:at|in) the end)?)"
    r"(?=[ ]?(?:[.;]|$))",
    re.I | re.M,
)
# "same as row 2, cut thread", "as R2, then put the eyes in": a job behind what a round is like is its own sentence
_JOBS = r"(?:stuff(?:ing)?|put|add|insert|cut|break|fasten|fo|place|sew|attach|close|leave|weave|embroider|finish)"
_JOB_BEHIND = Sought(
    (
        ", stuff", ", put", ", add", ", insert", ", cut", ", fasten", ", fo", ", place", ", sew", ", attach", ", close",
        ", leave", ", weave", ", embroider", ", finish", ", then ", ", and ", ", break",
    ),
    r"\b(?:same as|as|like|repeat|rep)(?: for| in)?(?: the)? "
    rf"(?:\d{{1,3}}(?:st|nd|rd|th) {COURSE}|{COURSE}\.? ?\d{{1,3}})(?P<seam>,(?: and then| then| and)?)"
    rf"(?= {_JOBS}\b(?! (?:\d|(?:the )?(?:last|rest|next|first|remaining|one|two)\b|(?:an? )?(?:sc|dc|st)\b)))",
    re.I,
)  # fmt: skip
_THEN = re.compile(r",? (?:and )?(?=then [a-z])|[,;] (?=change to |switch to |join )", re.I)  # behind the last of them
# "Rnds 1 to 4: Work as for the belly: 36 dc": the count behind a colon
_COUNTED = Sought(
    ("as for ", " as ", " like "),
    rf"(?P<like>^[^\w\n]{{0,6}}{COURSE}\.? ?\d{{1,2}} ?(?:-|\u2013|to) ?\d{{1,2}}[:.] (?:worked |work )?"
    r"(?:(?:the )?same as|as|like)(?: for)?(?: the)? [a-z]{3,15}):"
    r"(?= \d{1,3} (?:sc|[hd]?dc|h?tr|sts?|stitches)\.?\s*$)",
    re.I | re.M,
)
# "Rnds 1 to 3: as the hull, rounds 1 to 3 = 42": which of them, told twice
_TWICE = Sought(
    (" as ", ":as ", " like "),
    rf"^[^\w\n]{{0,6}}{COURSE}\.? ?(?P<a>\d{{1,2}}) ?(?:-|\u2013|to) ?(?P<b>\d{{1,2}})[:.] ?(?:worked |work )?"
    r"(?:(?:the )?same as|as|like)(?: for)?(?: the)? (?!given|told|above|before|directed)"
    r"[a-z]{3,15}(?P<again>,? (?:for )?"
    rf"{COURSE}\.? ?(?P=a) ?(?:-|\u2013|to) ?(?P=b))(?!\d)",
    re.I | re.M,
)
# "and then you just keep doing that right up to row 12": what is repeated is the row above
_KEEP = Sought(
    ("keep ", "carry on ", "go on ", "continue "),
    r"^(?P<lead>[^\w\n]{0,6})(?:(?:and|then|now|you|just|we|simply|so),? ){0,5}"
    r"(?:keep(?: on)?|carry on|go on|continue) (?:doing|repeating|working|with) (?:that|this|it|the same|like that|so)"
    rf"(?: (?:right|all the way))?,? (?:up )?(?:to|until|till|through)(?: the end of)? {COURSE} (?P<n>\d{{1,3}})(?!\d)",
    re.I | re.M,
)
_LONGEST_HEAD = 40
_MOST = 40  # of them in a text, each of which looks through what stands in front
_NEXT = re.compile(rf"\n[^\w\n]{{0,6}}(?:{COURSE}\.?[ ]?)?(?P<n>\d{{1,3}})(?!\d)", re.I)


def _headed(name: str, front: str) -> bool:
    """Does a short line in front begin or end with that name: "Sleepy Cactus"?"""
    lines = (line.strip(" :.*#").lower() for line in front.split("\n") if len(line) <= _LONGEST_HEAD)
    return any(line.removeprefix("the ").startswith(name.lower()) or line.endswith(name.lower()) for line in lines)


def labelled(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such rounds on a labelled line, where the part stands above and the round behind them goes on."""
    edits = []
    for match in islice(_SPAN.finditer(text), _MOST):
        behind = _NEXT.match(text, match.end())
        if behind is None or int(behind["n"]) != int(match["last"]) + 1:
            continue
        if not _headed(match["other"], text[: match.start()]):
            continue
        rounds = f":\n{match['course']} {match['first']}-{match['last']}: same as {match['other']}"
        dyed = f"\nin {match['shade']}:" if match["shade"] else ""
        edits.append((match.start("seam"), match.end(), rounds + dyed))
    for match in islice(_SIGNLESS.finditer(text), _MOST):
        other, noun, front = match["other"], match["noun"], text[: match.start()]
        if other is None:
            edits.append((match.end("name"), match.end(), ": the same"))  # "Ear 2: ditto"
            continue
        alone = noun and " " not in other.removesuffix(" one")  # "... the same as the first"
        if _headed(other, front) or (alone and _headed(f"{other.split()[0]} {noun}", front)):
            edits.append((match.end("name"), match.end("gap"), ": "))
    edits += [(*m.span("told"), f" ({m['n']})") for m in islice(_LEFT_BEHIND.finditer(text), _MOST)]
    edits += [(*m.span("seam"), ".") for m in islice(_JOB_BEHIND.finditer(text), _MOST)]
    edits += [(*m.span("and"), ",") for m in islice(_AND_OTHERWISE.finditer(text), _MOST)]
    edits += _spoken(text)
    for match in islice(_KEEP.finditer(text), _MOST):
        noun = "row" if "row" in match[0].lower() else "round"
        edits.append((match.end("lead"), match.end(), f"Rep last {noun} until {noun} {match['n']}"))
    edits += [(*m.span("again"), "") for m in islice(_TWICE.finditer(text), _MOST)]
    edits += [(m.end("like"), m.end("like") + 1, " =") for m in islice(_COUNTED.finditer(text), _MOST)]
    for match in islice(_DONE_LIKE.finditer(text), _MOST):
        if _headed(match["other"], text[: match.start()]):
            edits.append((*match.span("told"), "Make as"))
    return put(text, offsets, edits) if edits else (text, offsets)


def _spoken(text: str) -> list[Edit]:
    """Lines that name rounds of a part above by ordinals or by how many, in the words of other references."""
    edits: list[Edit] = []
    for match in [found for told in _SPOKEN for found in islice(told.finditer(text), _MOST)]:
        if not (match["verb"] or match["like"] or match["many"] or match["last"]):
            continue  # "First of June"
        then = _THEN.match(text, match.end())
        until = match.groupdict().get("until")
        part = match["part"]
        if part and _NO_PART.match(part):
            continue
        if (match["from"] or until) and not (match["shade"] or part) and then is None:
            continue  # read as it stands
        if not _headed(match["other"], text[: match.start()]):
            continue
        first = int(match["from"]) if match["from"] else value(match["first"]) if match["first"] else 1
        told_last = until or match["to"] or match["last"] or match["many"]
        last = value(told_last) if told_last else first
        shade = f", but in {match['shade']}" if match["shade"] else ""
        if first <= last:
            noun = "row" if "row" in match[0].lower() else "round"
            span = f"{noun}s {first}-{last}" if first < last else f"{noun} {first}"
            taken = f"Repeat {span} of {match['other']}{shade}{'.' + chr(10) if then else ''}"
            head = f"\n{part}\n" if part else ""
            edits.append((match.end("lead"), then.end() if then else match.end(), head + taken))
    return edits
