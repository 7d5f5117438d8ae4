"""Rounds told behind a change of yarn or a job in one line, or in front of it: "Change back to A, 6 rows the same.",
"Stuff, then two more rounds.", "Then two rounds, then fasten off." They get a line of their own, unless the labels
that follow leave no room for them: then the words say how long the yarn lasts.
"""

from __future__ import annotations

import re
from itertools import islice

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import Edit, put
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import ORDINAL_WORDS, SEVERAL_WORDS, number_of

_N = rf"(?:\d{{1,2}}|{SEVERAL_WORDS})"
_TOLD = Sought(
    (" rows", " rounds", " rnds"),
    r"^(?P<lead>[^\w\n]{0,4}(?:(?:then|now|next|and) )?(?:chang(?:e|ing)|switch|swap|join|with|using|in|go back|back|"
    r"stuff|put|add|insert|attach|place|fill|(?:[a-z]{3,12} )?(?:eyes?|nose|stuffing|marker)(?= now| in\b|,))\b"
    r"[^.,;:()\d\n]{0,40}?)"
    r"(?P<seam>[,;:.] (?:and |then |and then )?|,? and (?:then )?)"
    rf"(?P<rounds>(?:work |crochet |make |do )?(?:another )?(?P<n>{_N}) "
    r"(?P<more>more |(?:plain|even|straight) )?(?P<noun>rounds|rnds|rows)"
    r"(?P<how>(?: (?:more|plain|even|straight|the same|as before|like (?:that|this)|of (?:sc|dc)|in (?:sc|dc)|"
    r"(?:without|no) (?:increases|shaping)|again))*)(?: in [a-z]{3,12})?)(?=[ ]?[.!]?[ ]*$)",
    re.I | re.M,
)
# "Change to red, next round: sc.", "Now in black: next round, dec (6).", "Change to blue and work one round (12)."
_ONE_BEHIND = Sought(
    (" round", " rnd", " row", " and dec", " and inc"),
    r"^(?P<lead>[^\w\n]{0,4}(?:(?:then|now|next|and) )?(?:chang(?:e|ing)|switch|swap|join|with|using|in|go back|back)\b"
    r"[^.,;:()\d\n]{0,40}?)(?P<seam>[,;:.] (?:and |then |and then )?|,? and (?:then )?)"
    r"(?:(?P<next>(?:for |in )?(?:the )?next (?P<noun>round|rnd|row)\b[,:]? ?)(?=[a-z(*\[\d])|"
    # "Change to white and decrease every third and fourth stitch."
    r"(?P<shape>(?=(?:dec|inc)(?:rease)? (?:every|each|in|all|around|to the end|\d|four|six)\b))|"
    r"(?P<one>(?:work |crochet |make |do )(?:one|1|a) (?:more |plain )?(?P<noun2>round|rnd|row)"
    r"(?: (?:plain|even|straight|of (?:sc|dc)))?)(?=[ ]?(?:[(\[]\d{1,3}[)\]])?[ ]?[.!]?[ ]*$))",
    re.I | re.M,
)
# "In the next round decrease every second stitch (8), fill it, and in the last round decrease four times."; by its
# number, and where it begins with a change of yarn, only with its count: "In the fourth round decrease four times (8)"
_WITH_COUNT = r"(?=[^.;\n]{3,90}?\.? ?[(\[]\d{1,3}[)\]])"
_IN_NEXT = Sought(
    tuple(f"n the {which} " for which in ("next", "following", "last", "final", *ORDINAL_WORDS)),
    r"(?:^|(?P<seam>(?<=[.!;)\]])[ ]|,[ ](?=and (?:then )?in the)))(?:(?:and|then|now) ){0,2}[io]n the "
    rf"(?:next|following|last|final|(?P<nth>{'|'.join(ORDINAL_WORDS)})) "
    r"(?P<noun>round|rnd|row),? (?:you |we |just |simply )?"
    r"(?=(?:(?:work|crochet|make) (?:only |just )?(?:\d|[(*]|one|two|an? |sc|[hd]?dc|inc|dec|in )|"
    rf"(?:dec|inc)(?:rease)?\b|sc\b|dc\b|change to [a-z]{{3,12}} and (?:work|sc){_WITH_COUNT})"
    rf"(?![^.\n]{{0,40}}:[ ]*$))(?(nth){_WITH_COUNT})",
    re.I | re.M,
)
_JOB = (
    r"(?:fasten|f\.?/?o\b|cut|close|stuff|fill|finish|break|draw|pull|sew|put|add|attach|insert|change|switch|swap|join|"
    r"leav(?:e|ing)|tie|(?:no|do not|don't|without|not) (?:stuff|fill))"
)
# "Then two rounds, then fasten off.", "After this work 4 plain rounds, then close up.", "8 rounds, no stuffing.",
# "8 rounds." alone
_AHEAD = Sought(
    (" rows", " rounds", " rnds"),
    r"^[^\w\n]{0,4}(?:(?:after (?:this|that)|then|now|next|and),? )?"
    r"(?P<do>(?:work|crochet|make|do|(?:keep|carry|go|continue)(?: on)?(?: going)?"
    rf"(?: (?:like this|as before|straight))?(?: for)?) )?(?:another )?(?P<n>{_N}) (?:(?:more|plain|even|straight) )*"
    r"(?P<noun>rounds|rnds|rows)(?P<how>(?: (?:more|plain|even|straight|the same|of (?:sc|dc)|in (?:sc|dc)))*)"
    rf"(?P<seam>(?:[,;.] (?:(?:and )?then )?|,? and (?:then )?)(?={_JOB})|[.]?(?=[ ]*$)|"
    r" after (?P<job>stuffing|filling|the (?:eyes|stuffing|nose))(?=[ ]?[.!]?[ ]*$))",
    re.I | re.M,
)
_SHAPES = re.compile(r"[ ]?[.!]?[ ]*(?:\s*\Z|\n\s*\n|\n(?:then )?(?:[(\[*].{0,20})?(?:dec|inc|sc2tog)\b)", re.I)
_LABEL = re.compile(
    rf"^[^\w\n]{{0,6}}(?:{COURSE}\.? ?#?)?(?P<n>\d{{1,3}})(?:st|nd|rd|th)?(?: ?(?:-|to) ?(?P<last>\d{{1,3}}))?"
    rf"(?: {COURSE})?[ ]?[:.)=-]",
    re.I | re.M,
)
_END = ".\n"
_MOST = 100
_NEAR = 400  # letters on either side in which a label tells


def parted(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such rounds on lines of their own, and the way back."""
    edits: list[Edit] = []
    for told in islice(_TOLD.finditer(text), _MOST):
        sure = told["more"] or told["how"] or told["rounds"][:1].lower() in "wcmd" or ":" in told["seam"]
        if not (sure or _SHAPES.match(text, told.end())) or not _room(told, number_of(told["n"])):
            continue
        edits.append((*told.span("seam"), ".\n"))
        if not (told["more"] or told["how"]):
            edits.append((*told.span("rounds"), f"work {told['n']} more {told['noun']}"))  # "work 3 rows"
    for told in islice(_ONE_BEHIND.finditer(text), _MOST):
        if not _room(told, 1):
            continue
        edits.append((*told.span("seam"), ".\n" if told["shape"] is None else ".\nNext round: "))
        if told["next"]:
            edits.append((*told.span("next"), f"Next {told['noun']}: "))
        elif told["one"]:
            edits.append((*told.span("one"), f"Next {told['noun2']}: sc around"))
    for told in islice(_IN_NEXT.finditer(text), _MOST):
        if _room(told, 1):
            label = f"{told['noun']} {ORDINAL_WORDS[told['nth'].lower()]}" if told["nth"] else f"Next {told['noun']}"
            ends = "" if not told["seam"] else "\n" if text[told.start() - 1] in ".!;" else _END
            edits.append((told.start(), told.end(), f"{ends}{label}: "))
    for told in islice(_AHEAD.finditer(text), _MOST):
        alone = not told["job"] and told["seam"] in ("", ".")
        again = any(word in told[0].lower() for word in ("more", "another", "same", "like", "as before"))
        if alone and (told["do"] or again or told["how"]):
            continue  # "Work 4 rounds even.": read as it stands
        if not _room(told, number_of(told["n"])):
            if alone and _told_of_range(told):
                edits.append((told.start() - 1, told.end(), f" ({told['n']} {told['noun']})"))
            continue
        rounds = f"Work {told['n']} {'more' if again else 'plain'} {told['noun']}"  # a bare "4" is a label
        if told["job"]:
            edits.append((told.start(), told.end(), f"{told['job'].capitalize()}.\n{rounds}"))
        else:
            edits.append((told.start(), told.end(), f"{rounds}.\n"))
    return put(text, offsets, sorted(edits)) if edits else (text, offsets)


def _told_of_range(told: re.Match[str]) -> bool:
    """ "5 rounds." right below "R3-7: sc around": how many those are."""
    above = told.string.rfind("\n", 0, max(0, told.start() - 1)) + 1
    label = _LABEL.match(told.string, above, told.start())
    if label is None or not label["last"]:
        return False
    return int(label["last"]) - int(label["n"]) + 1 == number_of(told["n"])


def _room(told: re.Match[str], n: int) -> bool:
    """Do the labels around leave room for so many rounds between them?"""
    text = told.string
    before = list(_LABEL.finditer(text, max(0, text.rfind("\n", 0, max(0, told.start() - _NEAR))), told.start()))
    after = _LABEL.search(text, told.end(), told.end() + _NEAR)
    if not before or after is None:
        return True
    last, first = int(before[-1]["last"] or before[-1]["n"]), int(after["n"])
    return not last < first < last + n + 1
