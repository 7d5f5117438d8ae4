"""A small part told in one line, its rounds behind its ring: "Tail: mr 6, sc 6, sc 6, FO", "6 sc in mr. 3 rounds sc."

Each round gets a line and a label of its own, where all of them fit: each uses what the one before it made. Where one
of them does not, the line stays, and the course says that all of it goes into the ring (`courses/doubting`). Where the
ring and what follows print their counts, "6sc into a magic loop (6). Inc in each (12). *1sc, inc* (18).", each count
ends a round, whatever its words are.
"""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.edits import Edit, put
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import NUMBER_WORDS

_N = rf"(?:\d{{1,3}}|{'|'.join(list(NUMBER_WORDS)[:12])})"
_ST = r"(?:sc|[hd]dc|hdc|dc|h?tr|(?:single|double)[ ]crochets?|sts?|stitches)"
_RING = (
    r"(?:(?:in|into|inside)[ ]|(?=m[rc]\b))(?:an?[ ]|the[ ])?(?:(?:magic|adjustable)[ ])?"
    r"(?:ring|circle|loop|mr|mc|amr)\b"
)
_BEGINS = re.compile(
    r"(?:(?:(?:with|in)[ ][a-z]{3,12},?|start(?:ing)?|begin(?:ning)?|make|work|crochet)[ ]){0,2}(?:with[ ])?(?:"
    rf"(?P<a>{_N})[ ]?(?:(?P<a_st>{_ST})[ ])?{_RING}|"
    rf"(?P<b_st>{_ST})[ ](?P<b>{_N})[ ]{_RING}|"
    rf"(?:ch(?:ain)?[ ]2,[ ])(?P<e>{_N})[ ](?P<e_st>{_ST})[ ]in(?:to)?[ ](?:the[ ])?(?:2nd|second)[ ]ch"
    r"(?:ain)?(?:[ ]from[ ](?:the[ ])?hook)?|"
    r"(?:an?[ ])?(?:magic[ ]ring|magic[ ]circle|magic[ ]loop|(?:mr|mc|amr)(?=[\d,: ]))(?:,|:)?[ ]?"
    r"(?:ch[ ]1,[ ])?(?:of[ ]|with[ ])?"
    rf"(?:(?P<c>{_N})(?:[ ](?P<c_st>{_ST}))?|(?P<d_st>{_ST})[ ](?P<d>{_N}))(?![ \w]{{0,12}}[ ](?:ring|mr)\b))"
    r"(?P<dyed>[ ](?:in|with)[ ](?P<shade>(?!an?\b|the\b)[a-z]{3,12}(?:[ ][a-z]{3,12})?)(?=[ ]?[(\[]\d))?"
    r"(?:[ ]?[(\[=][ ]?(?P<printed>\d{1,3})(?:[ ]?sts?)?[)\]]?)?(?![\w-])",
    re.I,
)
# What stands in front of the ring: nothing, its label, or the name of the part
_LEAD = re.compile(
    rf"[^\w\n]{{0,6}}(?:(?P<label>(?:{COURSE}\.?[ ]?#?(?:1|one)|(?:first|1st)[ ]{COURSE})[ ]?[:.)-]+[ ]?)|"
    # "Hi Mo, the finger mouse goes like this: "
    r"(?P<told>[A-Z][^:\n]{2,80}?[ ](?:(?:goes|go|is[ ]made|works)[ ](?:like[ ](?:this|so)|so|as[ ]follows)|"
    r"here(?:'s|[ ]is)[ ]how(?:[ ](?:I|you)[ ][a-z ]{2,16})?):[ ])|"
    rf"(?P<name>(?!(?:[a-z]+[ ])?{COURSE}\b)[A-Z][A-Za-z' ]{{1,30}}(?:[ ][1-9](?=:))?"
    rf"(?:[ ]?[(\[][^()\[\]\n]{{1,30}}[)\]]|,[ ](?:make[ ])?{_N}(?:[ ]of[ ](?:them|these))?(?=:))?"
    r"[ ]?(?:[:.]|[ ]-)[ ]))?",
    re.I,
)
_SEAM = re.compile(
    r"[ ]?(?:[.;,/>|=-]{1,2}[ ]|[,;]\n|(?=[ ](?:and|then)[ ]))[ ]?(?:(?:and|then|now|next|after[ ]that)[ ,:]){0,2}[ ]?",
    re.I,
)
_AROUND = (
    r"(?:[ ](?:all[ ](?:the[ ]way[ ])?)?(?:around|round)(?:[ ](?:once|one[ ]more[ ]time|again)(?:[ ]more)?)?|"
    r"[ ]in(?:to)?[ ](?:each|every)(?:[ ](?:st|stitch|sc))?(?:[ ]a?round)?)"
)
_SHAPING = r"(?:inc|increases?|dec|decreases?|invdec|inv[ ]dec|sc2tog)"
# "so you get 12", "and you should be back to 6", ", 6"
_COMES_TO = (
    r"(?:,?[ ](?:(?:so|and|which|that)[ ])?"
    r"(?:(?:you(?:[ ]now)?[ ](?:get|have|should[ ](?:have|be))|gives(?:[ ]you)?|makes|for|you're)"
    r"(?:[ ](?:back[ ]to|down[ ]to|left[ ]with))?|(?:back|down)[ ]to)[ ](?P<comes2>\d{1,3})(?:[ ]left)?|"
    r",[ ](?P<comes3>\d{1,3})(?![ ]?\w))"
)
_STEP = re.compile(
    r"(?:(?:work|do|crochet|make|sc(?=[ ](?:one|1|another)[ ]))[ ])?(?:"
    # "grey for five more", "five more in grey"
    rf"(?P<shade>(?!for\b|even|plain|straight|work|sc\b)[a-z]{{3,12}}(?:[ ][a-z]{{3,12}})?)[ ]for[ ](?P<in_shade>{_N})"
    r"(?:[ ]more|[ ]rounds?|[ ]rnds?){1,2}|"
    rf"(?P<in_shade2>{_N})(?:[ ]more|[ ]rounds?|[ ]rnds?){{1,2}}[ ](?:in|with)[ ]"
    r"(?P<shade2>(?!an?\b|the\b|each|sc\b|[bf]lo\b)[a-z]{3,12})|"
    rf"(?P<rounds>{_N})[ ](?:more[ ])?(?:(?:plain|even|straight)[ ])?"
    rf"(?:rounds?|rnds?|rows?)(?:[ ](?:of|in|with))?(?:[ ]plain)?(?:[ ](?P<each>{_N}))?"
    rf"(?:[ ](?:{_ST}|plain|even|straight))?{_AROUND}?(?:[ ](?:at|on|of)[ ](?P<at>\d{{1,3}}))?"
    r"(?:[ ](?:without|with[ ]no)[ ](?:any[ ])?(?:inc|dec|shap)[a-z]*)?|"
    # "then 2 in each so you get 12", "take two together all the way round, back to 6"
    rf"(?:(?:(?P<each2>(?:2|two)[ ]in(?:to)?[ ](?:each|every|all)(?:[ ](?:st|stitch|one|of[ ]them|of[ ]those))?)|"
    r"(?P<tog>(?:take[ ]|work[ ]|crochet[ ]|sc[ ]|dc[ ])?(?:2|two)[ ](?:sts?[ ]|stitches[ ])?(?:together|tog\b)))"
    rf"{_AROUND}?{_COMES_TO}?)|"
    rf"(?P<shape5>{_SHAPING}|increase|decrease){_AROUND}?[ ](?:up[ ]|down[ ])?to[ ](?P<to>\d{{1,3}})|"
    rf"(?:(?P<n>{_N})[ ](?P<st>{_ST}){_AROUND}?|(?P<st2>{_ST})[ ](?:x[ ]?)?(?P<n2>\d{{1,3}}){_AROUND}?|"
    rf"(?P<st3>{_ST}){_AROUND}|"
    r"(?P<once>(?:go[ ])?once(?:[ ]more)?[ ](?:all[ ])?(?:around|round)(?:[ ](?:plain|even|sc))?)|"
    r"(?P<even>(?:even|straight|plain|sc)(?=[ ]for[ ])))"
    rf"(?P<often>(?:,?[ ]for|,)?[ ](?P<often_n>{_N})[ ](?:rounds?|rnds?|rows?|times)|"
    r",?[ ]x[ ]?(?P<often_x>\d{1,2}))?|"
    rf"(?:(?P<m>{_N})(?:[ ]?x)?[ ](?P<shape>{_SHAPING})|"
    rf"[(\[]?(?P<shape2>{_SHAPING})[)\]]?[ ](?:x[ ]?)?(?P<m2>\d{{1,3}})|"
    rf"(?P<shape3>{_SHAPING}){_AROUND})|"
    rf"[(\[*](?P<plain>(?:\d{{1,2}}[ ]{_ST}|{_ST}(?:[ ]\d{{1,2}})?),[ ])(?P<shape4>{_SHAPING})[)\]*][ ]?"
    r"(?:(?:x[ ]?)?(?P<times>\d{1,2})(?:[ ]?x|[ ]times)?|(?:repeat[ ])?around|"
    r"(?:up[ ]|down[ ])?to[ ](?P<comes>\d{1,3}))|"
    r"(?P<count>\d{1,3})(?:[ ]sts?)?)(?:[ ]?(?:[(\[]|=[ ]?)(?P<printed>\d{1,3})(?:[ ]?sts?)?[)\]]?)?(?![\w-])",
    re.I,
)
# ... where each of them prints its count: in any words
_OWN = re.compile(
    rf"(?![^.;\n]{{0,90}}\b{COURSE}\.?[ ]?#?\d)(?!(?:sl[ ]?st|ss|slip|join|close|turn|place|ch[ ]?1)\b)"
    r"(?=[^.;\n(\[*]{0,30}[(\[*]?[^.;\n]{0,30}\b(?:\d{0,2}(?:sc|[hd]?dc|h?tr|inc|dec|sts?|tog)|increas|decreas|two|stitch))"
    r"[^.;\n]{2,90}?[ ]?(?:[(\[]|=[ ]?)(?P<makes>\d{1,3})(?:[ ]?sts?|[ ]stitches)?[)\]]?(?=[ ]?(?:[.;,/>|\n]|$))",
    re.I,
)
_LONG = re.compile(rf"(?:[ ](?:for|over)|,)?[ ](?:the[ ]next[ ])?(?P<n>{_N})[ ](?:rounds?|rnds?|rows?)\b", re.I)
# What is done between two of them
_JOB = re.compile(
    r"(?:(?:and|then|now)[ ])?(?:stuff|fill|(?:add|insert|place|put[ ]in|attach)[ ](?:the[ ])?(?:safety[ ])?eyes|"
    r"(?:change|switch)[ ]to)\b[^.,;:()\n\d]{0,50}?(?=[.,;][ ]|[ ](?:and|then)[ ])|"
    r"(?=[^.;\n]{0,60}\b(?:eyes?|stuff|fill|markers?|yarn|colou?r)\b)(?![^.;\n]*\b(?:inc|dec|sc|dc|hdc|tog)\b)"
    r"[a-z][^.;()\n]{2,90}(?=\.[ ])",
    re.I,
)
# What may follow the rounds in their line
_ENDS = re.compile(
    r"[ .;,!/>|=-]*(?:$|(?:(?:and|then)[ ])?(?:sl[ ]?st|slip|join|(?P<job>f\.?[ /]?o\b|fasten|finish|cut|leave|leaving|"
    r"stuff|sew|close|pull|flatten|fold|do[ ]not|don't|no[ ]stuffing|bind|break|weave|attach)))",
    re.I | re.M,
)
_WORK = re.compile(rf"\b(?:\d{{1,3}}[ ](?:sc|[hd]?dc|h?tr)|{_SHAPING})\b", re.I)  # a round that would be lost behind it
_PRINTED = re.compile(r"[(\[]\d{1,3}(?:[ ]?sts?)?[)\]](?=[ ]?(?:[.;,/>\n]|$))", re.M)
_FEWEST = 3  # counts of a line that begins in no ring: "Head: (1 sc, inc) x 6 (18), (2 sc, inc) x 6 (24), ..."
_RING_TOLD = Sought(
    ("ring", "circle", "loop", "mr", "mc", "nd ch"),
    r"[rclma2sRCLMAS](?<!\w.)(?i:(?:(?<=r)ing|(?<=c)ircle|(?<=l)oop|(?<=m)[rc]|(?<=a)mr|(?<=2)nd ch(?:ain)?|"
    r"(?<=s)econd ch(?:ain)?)\b|(?:(?<=m)[rc]|(?<=a)mr)(?=\d))",
)
_THREE_BRACKETS = Sought((": ",), r"^[^\W\d][^:\n]{1,60}:[ ](?=(?:[^()\[\]\n]*[(\[][^()\[\]\n]*[)\]]){3})", re.M)
_NEXT_LABEL = re.compile(
    rf"\s*[^\w\n]{{0,6}}(?:{COURSE}\.?[ ]?(?:#?\d|two\b)|\d{{1,2}}(?:[ ]?[:.)]|nd[ ]|rd[ ])|"
    rf"(?:next|second)[ ]{COURSE}\b)",
    re.I,
)
_STEEP = 3  # times as many stitches, or as few, as a round may come to
_SECOND = re.compile(rf"[,;.][ ]?{COURSE}\.?[ ]?2(?!\d)", re.I)
_LONGEST = 600  # characters of such a line
_MOST = 40  # rounds of such a part


def _value(word: str) -> int:
    return int(word) if word.isdecimal() else NUMBER_WORDS.get(word.lower(), 0)


def _made(step: re.Match[str], there: int, ring: str, first: bool) -> tuple[int, int] | None:
    """(the stitches then, the rounds that it is) of a step on so many stitches; None where it does not fit them."""
    told = step.groupdict()
    rounds = 1
    makes = 0
    if told["rounds"]:
        rounds, makes = _value(told["rounds"]), there if not told["each"] else _value(told["each"])
        makes = makes if makes == there == int(told["at"] or there) else 0
    elif told["shade"] or told["shade2"]:
        rounds, makes = _value(told["in_shade"] or told["in_shade2"]), there
    elif told["each2"] or told["tog"]:
        makes = 2 * there if told["each2"] else there // 2 if there % 2 == 0 else 0
        makes = makes if makes == int(told["comes2"] or told["comes3"] or makes) else 0
    elif told["to"]:
        makes = int(told["to"])
        grows = told["shape5"].lower().startswith("inc")
        makes = makes if (there < makes <= 2 * there if grows else there <= 2 * makes < 2 * there) else 0
    elif any(told[kind] for kind in ("n", "n2", "st3", "even", "once")):
        stitch = (told["st"] or told["st2"] or told["st3"] or ring).lower()
        rounds = _value(told["often_n"] or told["often_x"] or "1")
        worked = there if not (told["n"] or told["n2"]) else _value(told["n"] or told["n2"])
        # "6 sc in mr, 6 hdc": a ring of two heights as well
        makes = there if worked == there and not (first and ring and stitch != ring) else 0
    elif told["plain"]:
        plain = int(re.search(r"\d+|$", told["plain"])[0] or 1)  # type: ignore[index]
        uses = plain + (1 if told["shape4"].lower().startswith("inc") else 2)
        times = int(told["times"] or there // uses)
        makes = times * (plain + (2 if uses == plain + 1 else 1)) if times * uses == there else 0
        makes = makes if makes == int(told["comes"] or makes) else 0
    elif told["count"]:
        count = int(told["count"])
        makes = count if (there + 1) // 2 <= count <= 2 * there else 0
    else:
        grows = (told["shape"] or told["shape2"] or told["shape3"]).lower().startswith("inc")
        often = there if told["shape3"] else _value(told["m"] or told["m2"])
        makes = 2 * there if grows else there // 2 if there % 2 == 0 else 0
        fits = often == (there if grows or told["shape3"] else makes) or (told["m2"] and often == makes)  # "inc 12"
        makes = makes if fits else 0
    if not makes or not rounds or (told["printed"] and int(told["printed"]) != makes):
        return None
    return makes, rounds


def _edits(text: str, start: int, end: int) -> list[Edit]:
    """The labels of the rounds of one line; none where they are no rounds, or do not fit."""
    lead = _LEAD.match(text, start, end)
    if lead is None or _NEXT_LABEL.match(text, end):
        return []
    begins = _BEGINS.match(text, lead.end(), end)
    line = "\n" if lead["name"] or lead["told"] else ""
    if begins is None:
        first = _OWN.match(text, lead.end(), end) if lead["name"] and _several(text, lead.end(), end) else None
        if first is None:
            return []
        edits = [(first.start(), first.start(), f"{line}R1: ")]
        return _behind(text, first.end(), end, edits, int(first["makes"]), "", printed=True)
    if _SECOND.match(text, begins.end(), end) and not lead["label"]:
        return [(begins.start(), begins.start(), f"{line}R1: ")]  # "Foot: MR 6, R2 6 sc": it alone lacks its label
    kind = next(k for k in "abcde" if begins[k])
    there, ring = _value(begins[kind]), (begins[f"{kind}_st"] or "").lower()
    if there < 3 or (begins["printed"] and int(begins["printed"]) != there):
        return []
    edits = [] if lead["label"] else [(begins.start(), begins.start(), f"{line}R1: ")]
    if begins["dyed"]:
        edits += [(begins.start(), begins.start(), f"With {begins['shade']}, "), (*begins.span("dyed"), "")]
    return _behind(text, begins.end(), end, edits, there, ring, printed=bool(begins["printed"]))


def _several(text: str, start: int, end: int) -> bool:
    """Do several rounds print their counts there?"""
    return len(_PRINTED.findall(text, start, end)) >= _FEWEST


def _behind(text: str, at: int, end: int, edits: list[Edit], there: int, ring: str, printed: bool) -> list[Edit]:
    """... with those of the rounds behind the first one, which ends at `at` and is on `there` stitches."""
    label, alone, counted = 2, False, False
    worked = False  # the round before this one names its stitches
    while (seam := _SEAM.match(text, at, end)) is not None:
        job = _JOB.match(text, seam.end(), end)
        behind = _SEAM.match(text, job.end(), end) if job is not None and label > 2 else None
        if job and behind and any(what.match(text, behind.end(), end) for what in (_STEP, _OWN, _JOB)):
            edits.append((*seam.span(), "\n"))
            at = job.end()
            continue
        step = _STEP.match(text, seam.end(), end)
        own = _OWN.match(text, seam.end(), end) if printed else None
        if own is not None and (step is None or _made(step, there, ring, label == 2) is None):
            long = _LONG.search(text, own.start(), own.start("makes"))
            rounds, makes = _value(long["n"]) if long else 1, int(own["makes"])
            if not there // _STEEP <= makes <= there * _STEEP or not rounds or label > _MOST:
                return []
            there, worked, last = makes, False, label + rounds - 1
            edits.append((*seam.span(), f"\nR{label}{f'-{last}' if rounds > 1 else ''}: "))
            edits += [(*long.span(), "")] if long else []
            at, label = own.end(), last + 1
            continue
        if step is None:
            break
        if step["count"] == str(there) and label == 2 and "then" not in seam[0]:
            if alone:
                return []
            at, alone = step.end(), True  # "6 sc in mr - 6.": its printed count
            continue
        if step["count"] and alone:
            return []
        if step["count"] == str(there) and worked and "then" not in seam[0]:
            edits.append((*seam.span(), " = "))  # "inc around, 12, sc around, 12": what is there now, and no round more
            at, worked = step.end(), False
            continue
        made = _made(step, there, ring, label == 2)
        if made is None or label > _MOST:
            return []
        there, rounds = made
        worked = not step["count"]
        counted = label == 2 and rounds == 1 and bool(step["n"])  # "6 sc in mr. 6 sc", and no more: its count
        last = label + rounds - 1
        edits.append((seam.start(), seam.end(), f"\nR{label}{f'-{last}' if rounds > 1 else ''}: "))
        if step["shade"] or step["shade2"]:
            edits[-1] = (*seam.span(), f"\nChange to {step['shade'] or step['shade2']}.\n{edits[-1][2][1:]}")
            edits.append((*step.span(), f"{ring or 'sc'} in each st"))
        if step["often"]:  # the label says it
            edits.append((*step.span("often"), " around" if step["even"] else " "))
        if step["once"]:
            edits.append((*step.span("once"), "1 round even"))
        at, label = step.end(), last + 1
    ends = _ENDS.match(text, at, end)
    if label == 2 or ends is None or counted or (ends["job"] and _WORK.search(text, ends.end(), end)):
        return []
    return [*edits, (at, ends.start("job"), "\n")] if ends["job"] else edits


def parted(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The page with the rounds of such lines a line each, and the way back."""
    edits: list[Edit] = []
    done = -1
    hints = sorted([*_RING_TOLD.finditer(text), *_THREE_BRACKETS.finditer(text)], key=re.Match.start)
    for hint in hints:
        if hint.start() < done:
            continue
        start, done = text.rfind("\n", 0, hint.start()) + 1, text.find("\n", hint.end())
        done = len(text) if done < 0 else done
        while text[done - 1] in ",;" and done < len(text) and done - start <= _LONGEST:
            below = text.find("\n", done + 1)  # "6 sc in mr," above "inc around,"
            done = below if below >= 0 else len(text)
        if done - start <= _LONGEST:
            edits += _edits(text, start, done)
    return put(text, offsets, edits) if edits else (text, offsets)
