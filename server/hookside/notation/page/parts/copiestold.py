"""Names whose copies are told with more than a number: "WINGS x2: gold, these are flat, ch 1 and turn each row",
"Make 5 flags in red and 4 in white". What is told behind the first goes on lines of its own, the second becomes
"Flags (5 red, 4 white)", and a color in front, "With white, make 4 legs:", goes behind them.
"""

from __future__ import annotations

import re
from itertools import islice

from hookside.notation.askings.colournames import is_colour
from hookside.notation.labels.patterns import COURSE
from hookside.notation.lines.copies.asked import copies
from hookside.notation.lines.heads.headings import heading
from hookside.notation.lines.heads.narrated import narrated
from hookside.notation.page.edits import Edit, put
from hookside.notation.vocabulary import SEVERAL_WORDS

_N = rf"(?:\d{{1,2}}|{SEVERAL_WORDS})"
_BEGINS = (
    rf"(?=\n+[^\w\n]{{0,6}}(?:{COURSE}\.?[ ]?(?:1|one)\b|1(?:st)?[ ]?[.:)]|ch(?:ain)?[ ]?\d|"
    r"(?:\d{1,2}[ ])?[^\n]{0,30}\b(?:ring|mr|circle)\b))"
)
_TALKED = re.compile(
    r"^(?P<name>[^\w\n]{0,4}[A-Za-z][A-Za-z' ]{1,24}?"
    r"(?:[ ]?[(\[]?(?:x|make|make[ ]x)[ ]?\d{1,2}[)\]]?|[ ]?\d{1,2}[ ]?x|"
    rf",[ ]{_N}(?=[,:])))(?P<seam>[ ]?[:,-][ ])(?:(?P<shade>[a-z]{{3,12}}(?:[ ][a-z]{{3,12}})?)(?P<comma>,[ ]))?"
    rf"(?P<talk>[a-z][^\n:]{{12,120}})$" + _BEGINS,
    re.I | re.M,
)
_STITCHES = re.compile(r"\d[ ]?(?:sc|[hd]?dc|h?tr|inc|dec|x)\b|[*=]|\b(?:ring|magic|mr)\b", re.I)
_SORTED = re.compile(
    rf"^(?P<lead>[^\w\n]{{0,4}})(?:make|crochet|work)[ ](?P<a>{_N})[ ](?P<what>[a-z]{{3,12}}s)[ ](?:in|of)[ ]"
    r"(?:the[ ])?"
    rf"(?P<one>[a-z]{{3,12}}(?:[ ][a-z]{{3,12}})?)(?:,|[ ]and|,[ ]and)[ ](?P<b>{_N})[ ](?:in|of)[ ](?:the[ ])?"
    r"(?P<other>[a-z]{3,12}(?:[ ][a-z]{3,12})?)[ ]?[.:]?$",
    re.I | re.M,
)
# "With white, make 4 legs:", "White: legs (make 4)", "Using white, make 4." below a name
_SHADE_LEADS = re.compile(
    r"^(?P<lead>[^\w\n]{0,4})(?:now[ ])?(?:(?:with|in|using|use|yarn|colou?r)[ ]?:?[ ])?"
    r"(?P<shade>[a-z]{3,12}(?:[ ][a-z]{3,12})?)(?:[ ](?:yarn|wool|cotton))?(?P<seam>[,.:;][ ]|[ ]-+[ ])"
    rf"(?P<rest>(?:(?:make|work|crochet):?[ ](?P<n>{_N})(?:[ ]of[ ](?:them|these))?|[^\n]{{3,40}}?))"
    r"(?P<end>(?:[ ]as[ ]follows)?[ ]?[.:]?)$" + _BEGINS,
    re.I | re.M,
)
# "Legs: six. Chain 8 and slip stitch back."
_NUMBER_TOLD = re.compile(
    rf"^[^\w\n]{{0,4}}[A-Za-z][A-Za-z' ]{{2,20}}(?P<told>:[ ](?P<n>{_N})\.[ ])(?=ch(?:ain)?[ ]?\d|"
    r"(?:make[ ]a[ ])?(?:magic|slip)|(?:work[ ])?\d{1,2}[ ](?:sc|[hd]?dc)?[ ]?in[ ])",
    re.I | re.M,
)
# "Fasten off. Now make 2 fins:", "Set aside and start on the fins (make 2).": what ends a part, and the next one
_CUT_LEADS = re.compile(
    r"^[^\w\n]{0,4}(?:fasten[ ]off|f\.?o\b|finish[ ]off|cut[ ](?:the[ ])?yarn|"
    r"(?:set|put|lay)[ ](?:(?:it|this|the[ ][a-z]+)[ ])?aside)(?P<seam>[.;][ ]|,?[ ]and[ ](?:then[ ])?|,?[ ]then[ ])"
    r"(?P<rest>[^\n]{6,60})$" + _BEGINS,
    re.I | re.M,
)
# "Scale: red, blue and green (one each)"
_ONE_OF_EACH = re.compile(
    r"^[^\w\n]{0,4}[A-Za-z][A-Za-z' ]{2,20}?(?P<told>(?::|[ ]-|,)[ ]"
    r"(?P<shades>[a-z]{3,12}(?:(?:,?[ ]and[ ]|[ ]?[,/&+][ ]?)[a-z]{3,12}){1,5})"
    r"[ ]?[(,-]?[ ]?(?:one|1)[ ](?:of[ ])?each[)]?)[ ]?[.:]?$" + _BEGINS,
    re.I | re.M,
)
_MOST = 60


def told(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with such names by themselves, and the way back."""
    edits: list[Edit] = []
    for match in islice(_TALKED.finditer(text), _MOST):
        shade = match["shade"]
        if heading(match[0], True, True) is not None or copies(match["name"])[1] < 2:
            continue
        if _STITCHES.search(match["talk"]) or (shade and not is_colour(shade)):
            continue
        edits.append((*match.span("seam"), " (" if shade else "\n"))
        if shade:
            edits.append((*match.span("comma"), ")\n"))
    for match in islice(_SORTED.finditer(text), _MOST):
        if is_colour(match["one"]) and is_colour(match["other"]):
            name = match["what"].capitalize()
            sorts = f"{name} ({match['a']} {match['one']}, {match['b']} {match['other']})"
            edits.append((match.end("lead"), match.end(), sorts))
    for match in islice(_ONE_OF_EACH.finditer(text), _MOST):
        shades = re.split(r",?[ ]and[ ]|[ ]?[,/&+][ ]?", match["shades"])
        if all(is_colour(shade) for shade in shades):
            edits.append((*match.span("told"), f" ({', '.join(f'1 {shade}' for shade in shades)})"))
    told_so = islice(_NUMBER_TOLD.finditer(text), _MOST)
    edits += [(*match.span("told"), f" (make {match['n']}): ") for match in told_so]
    for match in islice(_CUT_LEADS.finditer(text), _MOST):
        rest = match["rest"][0].upper() + match["rest"][1:]
        named = narrated(rest) or heading(rest, True, True)
        if named is not None and (named[1] > 1 or narrated(rest)):
            edits.append((*match.span("seam"), ".\n"))
    for match in islice(_SHADE_LEADS.finditer(text), _MOST):
        rest = match["rest"]
        if not is_colour(match["shade"]) or _STITCHES.search(rest):
            continue
        named = None if match["n"] else heading(rest, True, True)
        if match["n"]:
            edits.append((match.end("lead"), match.end(), f"Make {match['n']} in {match['shade']}"))
        elif named is not None and named[1] > 1:
            edits.append((match.end("lead"), match.end(), f"{named[0]} (make {named[1]}) - {match['shade']}"))
    return put(text, offsets, sorted(edits)) if edits else (text, offsets)
