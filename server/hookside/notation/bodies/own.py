"""Stitches and abbreviations that a text defines itself: they win over ours."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass, field

from hookside.notation.askings.colournames import is_colour
from hookside.notation.bodies.lettered import glued
from hookside.notation.bodies.tokens import Dictionary
from hookside.notation.bodies.tongues import key_of
from hookside.notation.bodies.unlisted import dresses, unlisted
from hookside.notation.bodies.written import told_in, turn_written_out
from hookside.notation.findings.table import finding
from hookside.notation.lines.layout import short_name
from hookside.notation.page.cleaning import Page
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import COURSE_WORDS, NOUNS, NUMBER_WORDS, number_of
from hookside.pattern import Finding, Terms
from hookside.stitches import Stitch, named

# The shorthand of charts in letters, where the text does not say what they mean: "(X, V) x 6", "6V", "V6".
_LETTERS = Sought(
    r"[vVxX](?:(?<=[(\[\d].)|(?<=[(\[\d] .)|(?<=[vV]) ?[xX*)\]\d]|(?<=[xX])\d{0,2}[vVaA])",
    r"(?<![A-Za-z_-])(?:\d{1,3}V|V[1-9]\d{0,2}(?!\.\d)|V ?[x*] ?\d{1,3}|(?-i:\d{1,3} V(?=\s*(?:[,.;(\[=-]|$)))|"
    r"(?-i:(?<=[.:] )\d{1,3} X(?=[ ]*(?:[(\[=]\s*\d|$)))|"  # a whole body: "5-8. 24 X"
    # "(2x, A)" in two headings are copies in yarn A
    r"[(\[](?:(?=[^)\]\n]*V)|(?-i:(?![^)\]\n]*x)))\d* ?X\d*(?:[\s,+]*\d* ?[XVA]\d*)+[)\]]|"
    r"\d{0,2} ?sc(?: \d{1,2})?,? ?\d{0,2}V[)\]]|"  # "(2sc, v)6"
    r"\d{0,2}X\d{0,2}[VA](?=\s?[*x]\s?\d))(?!(?<![VA)\]])[\w-])", re.I | re.M
)
_CHART = {"X": "sc", "V": "inc", "A": "dec"}
_LETTER_SLIP = re.compile(r"\b\d{1,3} ?SL\b(?! ?st)")  # "35SL"
# "Giro 2: 12 mb": maglia bassa, and no bobble
_ITALIAN = Sought(("mb",), r"^[^\w\n]{0,6}(?:giro|giri|g)\.? ?\d{1,2}\b", re.I | re.M)
_RARER = {"W": ("inc3", "three in one"), "M": ("sc3tog", "three together"), "T": ("hdc", "a half double crochet"),
          "F": ("dc", "a double crochet")}
# "W = white": the letter of a colour
_LETTER_COLOUR = re.compile(r"(?P<letter>[A-Z])(?<![A-Za-z\d].)\s?[=:]\s?(?P<what>[A-Za-z]{3,12}(?: [a-z]{3,12})?)\b")
# "Colors are given by letters: N navy, W white, F fox orange"
_NAMED_LETTER = r"[A-Z](?: is| for)? [a-z]{3,12}(?: [a-z]{3,12})?"
_LETTER_ITEM = re.compile(r"(?P<letter>[A-Z])(?: is| for)? (?P<what>[a-z]{3,12}(?: [a-z]{3,12})?)")
_LETTER_LIST = re.compile(
    rf"[LlCcYy](?<!\w.)(?:(?<=[Ll])etters?|(?<=[Cc])olou?rs?|(?<=[Yy])arns?)\b[^.:=\n]{{0,40}}[:=]\s*"
    rf"(?P<list>{_NAMED_LETTER}(?:[,;](?: and)? {_NAMED_LETTER}){{1,12}})"
)
# An amount and the name behind it: a word, or a name with signs in it
_AMOUNT = re.compile(r"\d(?<![\w.].)\d? ?(?=(?P<all>[^\s\d,;:()]{1,4})?)(?P<word>[a-z]{1,4})?(?![a-z])(?! ?:)")
# In a text's own words: "growth, 2 low loops in one", "shrink, 2 low loops closed together"
_TOLD_ALIKE = re.compile(
    r"(?:^|[,:;(] ?|\b(?:put|work|make|knit|crochet) )(?P<n>\d|two|three) (?:[a-z]+ ){1,3}?"
    r"(?:(?P<into>(?:in(?:to)?|to(?= (?:one|1|the same) (?:st|stitch|place)\b)|from|out of) "
    r"(?:one|1|the same|a single))(?: [a-z]{2,10})?|"
    r"(?:(?:closed|worked|crocheted?|made|knit(?:ted)?|folded|taken|joined) )?(?:together|tog|as one))\)?\.?$"
)
_NO_STITCH = re.compile(
    r"(?:sts?|stitch|rnds?|rounds?|rows?|rep|beg|lps?|sps?|cont|foll|prev|rem|alt|approx|tog|rs|ws|mc|cc|[bf]lo?|yo|"
    r"yrh|"
    r"t-?ch|nxt|ea|sm|pm|fo|col|all|each|every|around|even|next)\b",
    re.I,
)
_SAME_NOUN = re.compile(r"\b(?:in|into|on) (?:the )?(?:same|one|1) ([a-z]{4,10})\b")
# "low point (single crochet)", "fixed stick = double crochet": what stitches are called there
_KIND_OF = re.compile(
    r"(?:[a-z]+ ){1,3}?([a-z]{4,10}) (?:\(|= )(?:half )?(?:single|double|treble|slip|half|sc|dc|hdc|us|uk)\b"
)
_COUNTED_NOUN = re.compile(r"(?:[(\[=] ?|total:? )\d{1,3} ([a-z]{4,10})(?= ?[)\]\n.])")
# "double every M", "2 sc in the next M": a letter that can only be a stitch
_LETTER_NOUN = re.compile(
    r"([A-Z])(?:(?<=\beach .)|(?<=\bevery .)|(?<=\bin (?:next|same|last) .)|(?<=\bin the (?:next|same|last) .))"
    r"(?=\s*(?:[(\[,.;:=-]|$))",
    re.M,
)
# "1 fm in each mask (30)", "inc in all masks", "1 mb in the next 4 knots": where a stitch would stand
_INTO_NOUN = Sought(
    ("in each ", "in every ", "in all ", "in next ", "in the next ", "into each ", "into every ", "into all ",
     "into next ", "into the next "),
    r"[iI](?<!\w.)n(?:to)? (?i:each|every|all|(?:the )?next(?: \d{1,2})?) (?:of )?(?:the )?(?P<noun>[A-Za-z]{3,10})"
    r"(?=\s*(?:[(\[=,.;:)\]*-]|$))(?P<count>\s*(?:=|[(\[]) ?(?P<n>\d{1,3})(?!\d))?",
    re.M,
)
_PRINTED = re.compile(r"[(\[=] ?(\d{1,3})(?= ?(?:[a-z]{1,10})?\.? ?(?:[)\]]|$))", re.M | re.I)
_SO_OFTEN = 4  # times that a noun which nothing explains stands there
_SHORT_NAME = 4
_OFTEN = 3  # brackets that count something by a word: then it is the text's word for a stitch
_NO_NOUN = frozenset(
    [
        "stitch", "stitche", "loop", "space", "place", "round", "rnd", "row", "tour", "time", "total", "ring", "chain",
        "piece", "hole", "corner", "color", "colour", "yarn", "side", "going", "petal", "repeat", "more", "inche",
        "part", "crochet", "increase", "decrease",
    ]
)
# ... nor are these, which stitches go into as well
_PARTS = frozenset(
    [
        "leg", "arm", "ear", "wing", "fin", "foot", "tip", "end", "edge", "finger", "toe", "section", "panel",
        "gap", "bump", "rib", "ridge", "strand", "layer", "set", "direction", "one", "other", "post", "seam",
        "scallop", "spoke", "ray", "leaf", "half", "quarter", "line", "marker", "bar", "group", "fan",
        "block", "square", "motif", "arch", "them", "way", "case", "third", "second", "fourth", "fifth",
        "sixth", "lap", "tier", "tour", "turn", "around", "across", "back", "front", "remaining", "following",
        "next", "same", "new", "size", "segment", "gusset", "stripe", "picot",
    ]
)  # fmt: skip
# "together = crochet two stitches off together": said of the stitch before it, and no stitch by itself
_MODIFIES = frozenset(["double", "doubled", "together", "tog"])
# "(1 sc, double) x 6", "double x 6" and never "sc double": a stitch by itself
_DOUBLE_ALONE = re.compile(
    r"\A(?!.*\b(?:sc|[hd]?dc|h?tr|sts?|stitch|crochet) double)"
    r"(?=.*(?:[,:(-] ?double(?: ?[x*]| ?\d|\)|,|$| up| all| in)))", re.S | re.M
)
# Stitches that stay what they are, however a text words them
_FIXED = frozenset(["ch", "sl st", "ring", "join", "turn", "skip", "cluster", "bobble", "popcorn", "puff", "picot"])
_RAISED = frozenset(["cluster", "bobble", "popcorn", "puff", "picot"])
# "A = 2 stitches into one": two of them there, or two of them taken together?
_EITHER_WAY = re.compile(
    r"(?:(?:work|make|crochet|turn|put) )?(?P<n>[2-5]|two|three|four) (?:(?:sts?|stitches|loops|points) )?"
    r"(?:(?:made|turned|worked|put) )?in(?:to)? (?:one|1)(?: st(?:itch)?)?\.?"
)
# "down = two places into one sc", "sc two stitches into one sc": taken together, for they are told before the one made
_PLACES_INTO_ONE = re.compile(
    r"(?:(?:work|make|crochet|turn|put|sc|dc) )?(?P<n>[2-5]|two|three|four) (?:places?|sts?|stitches|spots|holes) "
    r"(?:(?:made|turned|worked|put) )?in(?:to)? (?:one|1|a single) (?:sc|[hd]?dc|h?tr|single crochet|double crochet)\b"
)
# "add needle (increase)": what it does is told, whatever it is called
_GROWS = re.compile(
    r"\b(?:increas|widen|augment|enlarg|expand|expansion|grow|addition|adding|"
    r"doubl(?:e|ing) (?:the |a |one )?st)"
)
_SHRINKS = re.compile(
    r"\b(?:decreas|reduc|dimin|narrow|shrink|lessen|subtract|tak(?:e|ing) (?:in|off)\b|"
    r"(?:merg|gather|clos|draw|join|melt)\w* (?:in|into|to) (?:one|a single)\b)"
)
_ANOTHER = re.compile(r"\.\s+(?=[A-Za-z][\w.]{0,11}\s*[-=:]\s)")  # the next definition of one line
_FIRST_PART = re.compile(r"[.;,(]")
# "FR = thread ring"
_RING = re.compile(r"(?:an? |the )?(?:[a-z]{3,12} )?(?:ring|circle)(?: of (?:yarn|thread)| amigurumi| magic)?\.?")
# "a plain single crochet", "work one double crochet": what may stand before the name of a stitch
_LEADS_TO_NAME = re.compile(
    r"^(?:(?:an?|the|one|1|plain|ordinary|regular|normal|basic|simple|usual|standard|work|make) )+", re.I
)
_IN_BRACKET = re.compile(r"\(([^()]{2,20})\)?")
_STITCH = re.compile(r"(?:an? |the |one |1 )?(?:sts?|stitch(?:es)?)\.?")  # "M = stitch"
# "F = front loop only": how a loop is called there
_LOOP_NAME = re.compile(r"(?:work(?:ed)? )?(?:in |through )?(?:the )?(back|front) loops?(?: only)?\.?$")
_STITCHLIKE = re.compile(r"\b(?:stitch|st\b|crochet|bobble|loop stitch|worked)")
# "mb - knot tall": a name and no telling how it is worked
_FEW_WORDS = re.compile(r"[a-z]{3,12}(?: [a-z]{3,12}){0,2}\.?")
_NOT_WORKED = re.compile(
    r"(?:sts?|stitch(?:es)?|rounds?|rows?|repeat|beginning|loops?|spaces?|chain spaces?|.{0,12}side|yarn over.*|yarn.*|"
    r"stitch ?markers?|hooks?|foll.*|next stitch|.*loop only.*|back loops?|front loops?|marker.*|place .*)"
)
_INTO_ONE = re.compile(
    r"(?:work |make )?(\d|two|three|four|five)\s+([a-z ]+?)s?\s+(?:in|into)\s+(?:the\s+)?"
    r"(?:1|one|same|next|a|a single|single|each)\b"
)
_TOGETHER = re.compile(
    r"(?:(?:work|make|crochet|take|join|pull|bring) )?(?:the )?(?:next )?(\d|two|three|four)\s*"
    r"(?:sts?|stitches|[a-z]{2,3}|(?:half )?(?:single|double|treble) crochets?|(?:half )?(?:double|treble)s?)?\s*"
    r"(?:worked\s+)?"
    r"tog(?:ether)?\b"
)
_STITCH_TOGETHER = re.compile(
    r"(?:[a-z]+ )*?(?:sc|dc|hdc|tr|htr|single crochet|double crochet)\s*(?:next )?(\d|two|three)\s*"
    r"(?:sts? |stitches )?tog"
)


# "All decreases are invisible decreases", "Please use the invisible decrease throughout"
_ALL_INVISIBLE = Sought(
    ("invisibl",),
    r"\b(?:all|every) (?:of )?(?:the )?(?:dec(?:rease)?s?\.?|dec sts) (?:in this pattern )?(?:are|is|should be|must be)"
    r"(?: (?:made|worked|done|meant))?(?: (?:as|to be|with))?(?: (?:the|an))? invisible\b|"
    r"\b(?:use|work|make) (?:the |an )?invisible dec(?:rease)?s? (?:throughout|for (?:all|every)|everywhere)|"
    r"\b(?:work|make|do) all (?:of the )?dec(?:rease)?s? (?:invisibly|as invisible)\b|"
    r"\binvisible decreases (?:are used )?throughout\b",
    re.I,
)
_DECREASES = ("dec", "decs", "decrease", "decreases")
_DRESSES = {"inc": ("inc", "incs", "increase", "increases"), "dec": _DECREASES}  # one word, however it is written
# "sc3 = sc in the next 3 stitches": an amount, shown at one number, and no stitch of that name
_AMOUNT_OF = re.compile(r"(?P<name>[A-Za-z ]{1,12}?)[. ]?(?P<n>[1-9]\d?)")
_SHAPED = re.compile(r"\b(?:same|(?:in|into|as|to) (?:the )?(?:one|1|a single)|tog(?:ether)?|over)\b")


@dataclass(slots=True)
class Own:
    """What a text defines: stitches of its own, the names in which it prints stitches, and what is said of them."""

    stitches: dict[str, Stitch]
    names: Dictionary
    findings: list[Finding]
    open: list[str] = field(default_factory=list)  # stitches whose words do not say what they use and make

_CONTRAST = re.compile(r"\bCC\d?\b")


def own_stitches(
    page: Page, abbreviations: dict[str, str], terms: Terms, supposed: dict[str, tuple[int, int]] | None = None
) -> Own:
    """An abbreviation the text defines itself wins; where it only spells out a stitch we know, ours is kept.

    `supposed`: stitches used and made of names whose words do not say so.
    """
    supposed = supposed or {}
    unsaid: list[str] = []
    stitches: dict[str, Stitch] = {}
    names: dict[str, str] = {}
    findings: list[Finding] = []
    low_page = page.text.lower()
    listed = {name.lower() for name in abbreviations}
    counted = _counted(low_page) if abbreviations else frozenset()
    for name, words in abbreviations.items():
        what = _ANOTHER.split(words)[0]
        told = _meanings(what)
        modifies = name.lower() in _MODIFIES and _sums(what.lower(), terms, names) is not None
        modifies = modifies and not (name.lower() == "double" and _DOUBLE_ALONE.search(low_page))
        if modifies or not short_name(name) or (_NO_STITCH.match(name) and not _renamed(name, told, terms)):
            continue
        if _shows_amount(name, what.lower(), terms):
            continue
        if len(name) == 1 and is_colour(what):
            continue  # "A = navy"
        known = named(name, terms)
        meant = next((m for t in told if (m := named(t, terms)) is not None), None)
        if meant is not None and meant.key in ("turn", "join"):
            meant = None
        low = what.lower()
        sums = next((n for t in reversed(told) if (n := _sums(t.lower(), terms, names)) is not None), None)
        either = _EITHER_WAY.fullmatch(told[0].lower())
        if either is not None:
            sums = _either_way(name, number_of(either["n"]), _known_sums(abbreviations, name, terms, names), terms)
        other = known is not None and meant is None and sums is None and _means_other(name, known, low)
        if other:
            known = None  # "p = the knotted stitch": whatever it is, no picot
        if known is not None:
            if sums is not None and sums != (known.uses, known.makes) and known.key not in _FIXED:
                stitches[name] = _stitch(name, what, sums, known)
                names.update((n, name) for n in _DRESSES.get(known.key, ()) if n not in listed)
                names[name] = name
            elif (
                meant is not None
                and meant.key != known.key
                and (_made_invisible(known, meant) or _sums_of(meant) != _sums_of(known))
                and (known.of != meant.of or _both_shape(known, meant))
            ):
                names.update((n, meant.key) for n in _DRESSES.get(known.key, ()) if n not in listed)
                names[name] = meant.key
                at = low_page.find(name.lower())
                if known.key in _FIXED and at >= 0:
                    findings.append(finding(page, "other-meaning", at, at + len(name), name=name, what=what))
        elif meant is not None:
            names[name] = meant.key
            names.update((phrase, meant.key) for phrase in _in_full(name, what) if named(phrase, terms) is None)
        elif _RING.fullmatch(low):
            names[name] = "ring"
        elif (abroad := next((key for t in told if (key := key_of(t))), None)) is not None:
            names[name] = abroad
        elif (sums or other or _STITCHLIKE.search(low) or name.lower() in counted or _shapes(name, low)) and not (
            _NOT_WORKED.fullmatch(low.split(". ")[0]) or _is_stitch(low)
        ):
            sums = _by_word(f"{name.lower()} {low}", sums)
            stitches[name] = _stitch(name, what, sums or supposed.get(name, (1, 1)), None)
            names[name] = name
            at = low_page.find(name.lower()) if sums is None else -1
            if at >= 0:
                unsaid.append(name)
                findings.append(_told_open(page, name, supposed.get(name), at, at + len(name)))
    names.update(_plurals(stitches, names, terms))
    lowered = {n.lower() for n in names}
    for kind, start, end in unlisted(page.text):
        told = [name for name in dresses(kind) if name not in lowered]
        if len(told) == len(dresses(kind)):
            stitches[told[0]] = _stitch(told[0], told[0], supposed.get(told[0], (1, 1)), None)
            names.update(dict.fromkeys(told, told[0]))
            lowered.update(n.lower() for n in told)
            unsaid.append(told[0])
            findings.append(_told_open(page, told[0], supposed.get(told[0]), start, end))
    letters = _LETTERS.search(page.text)
    known_letters = {n.upper(): key for n, key in names.items() if n.upper() in _CHART}
    agree = all(_CHART[n] == key for n, key in known_letters.items()) and len(known_letters) < len(_CHART)
    if letters and _LETTERS.count(page.text) > 1 and agree:
        names.update({n: key for n, key in _CHART.items() if n not in known_letters})
        if _LETTER_SLIP.search(page.text) and not {"sl", "ss"} & {n.lower() for n in names}:
            names["SL"] = "sl st"
        printed = [n for n in _RARER if re.search(rf"(?:\d|, ?){n}\d?(?=[\s,)\]]|$)", page.text)]
        rarer = [n for n in printed if n not in abbreviations]
        names.update({n: _RARER[n][0] for n in rarer})
        more = "".join(f", {n} as {_RARER[n][1]}" for n in rarer)
        findings.append(finding(page, "letters", letters.start(), letters.end(), more=more))
    throughout = _ALL_INVISIBLE.search(page.text)
    if throughout is not None and not any(key.endswith("dec") for key in names.values()):
        names.update(dict.fromkeys(_DECREASES, "inv dec"))
        findings.append(finding(page, "invisible", *throughout.span()))
    if _ITALIAN.count(page.original) > 1 and "mb" not in {n.lower() for n in abbreviations}:
        names["mb"] = "sc"
    nouns = _nouns(page.text, abbreviations, terms)
    for noun, at in _worked_into(page.text, nouns, terms).items():
        nouns |= {noun, noun + "s"}
        findings.append(finding(page, "own-noun", at, at + len(noun), name=noun))
    given = (m for m in _LETTER_COLOUR.finditer(page.text) if is_colour(m["what"]) and m["letter"] not in names)
    lettered = glued(page.text) | _listed_letters(page.text)
    colours = frozenset(m["letter"].lower() for m in given) | lettered
    if "MC" not in names and "MC" in page.text and _CONTRAST.search(page.text):
        colours |= {"mc"}  # beside CC it is the main colour, and no magic circle
    turns = {name: turn for name, what in abbreviations.items() if (turn := turn_written_out(_ANOTHER.split(what)[0]))}
    names.update({name: name for name in turns})
    written = told_in(page.text)
    for name, body in written.items():
        names[name] = names[f"{name}s"] = name
        stitches[name] = _stitch(name, body, (1, _made(body)), None)
        findings = [f for f in findings if f.message[: len(name) + 2] != f'"{name}"']
        unsaid = [n for n in unsaid if n != name]
    for name in [n for n in names if len(n) > _SHORT_NAME and n[-1].isalpha() and not n.lower().endswith("s")]:
        if named(f"{name}s", terms) is None:
            names.setdefault(f"{name}s", names[name])  # "6 double columns"
    printed_so = {n.lower(): k for n, k in names.items()}
    known_names = Dictionary(terms, printed_so, nouns, colours, written | turns, lettered, _loops(abbreviations))
    return Own(stitches, known_names, findings, unsaid)


def _shows_amount(name: str, low: str, terms: Terms) -> bool:
    """ "sc3 = sc in the next 3 stitches", "ch 2 = two chains": what a number behind a stitch says there."""
    told = _AMOUNT_OF.fullmatch(name) if name[-1].isdecimal() else None
    known = named(told["name"], terms) if told is not None and named(name, terms) is None else None
    if told is None or known is None or known.uses != known.makes or _SHAPED.search(low):
        return False
    words = re.findall(r"\d+|[a-z]+", low)
    return any(number_of(word) == int(told["n"]) for word in words if word.isdecimal() or word in NUMBER_WORDS)


def _known_sums(
    abbreviations: dict[str, str], name: str, terms: Terms, names: dict[str, str]
) -> set[tuple[int, int]]:
    """Stitches used and made of the others in a list whose words leave no doubt of them."""
    told = [_meanings(what)[0].lower() for other, what in abbreviations.items() if other != name]
    known = {_sums_of(k) for t in told if (k := named(t, terms)) is not None}
    return known | {n for t in told if not _EITHER_WAY.fullmatch(t) and (n := _sums(t, terms, names)) is not None}


def _either_way(name: str, n: int, others: set[tuple[int, int]], terms: Terms) -> tuple[int, int]:
    """What "2 stitches into one" does: as its name says, or what no other one of the list does; it widens else."""
    known = named(name, terms)
    called = name.upper() == "A" or name.lower().startswith(("down", "less", "fewer", "minus", "narrow"))
    shrinks = known.uses > known.makes if known is not None and known.uses != known.makes else called
    if known is None or known.uses == known.makes:
        shrinks = (shrinks or (1, n) in others) and (n, 1) not in others
    return (n, 1) if shrinks else (1, n)


def _loops(abbreviations: dict[str, str]) -> dict[str, str]:
    """ "F = front loop only" -> {"f": "flo"}."""
    told = ((name.lower(), _LOOP_NAME.match(what.lower())) for name, what in abbreviations.items())
    return {name: f"{match[1][0]}lo" for name, match in told if match is not None}


def _plurals(stitches: dict[str, Stitch], names: dict[str, str], terms: Terms) -> dict[str, str]:
    """ "Six pairs", where a text has "pair" for a stitch of its own."""
    words = [name for name in stitches if len(name) > 2 and name.isalpha() and name[-1] not in "sS"]
    return {f"{w}s": w for w in words if f"{w}s" not in names and named(f"{w}s", terms) is None}


def _is_stitch(low: str) -> bool:
    """ "stitch (the loops on top)", "mesh (stitch)": what is worked into, and none that is worked."""
    inside = _IN_BRACKET.search(low)
    told = [_FIRST_PART.split(low)[0].strip(), *([inside[1].strip()] if inside else [])]
    return any(_STITCH.fullmatch(part) for part in told)


def _means_other(name: str, known: Stitch, low: str) -> bool:
    """Is a letter or two that we know by another name explained in words in which that name does not stand?"""
    words = {word for names in (known.us, known.uk) for n in names for word in n.lower().split() if len(word) > 2}
    told = _STITCHLIKE.search(low) is not None or _FEW_WORDS.fullmatch(low) is not None
    return told and not any(word in low for word in words) and len(name) < 3 and known.key in _RAISED


def _sums_of(stitch: Stitch) -> tuple[int, int]:
    """Stitches used and made."""
    return stitch.uses, stitch.makes


def _both_shape(known: Stitch, meant: Stitch) -> bool:
    """ "dec = sc3tog": another decrease than ours, where "dec = sc, two together" only begins with the plain one."""
    shrink = known.uses > known.makes and meant.uses > meant.makes
    return shrink or (known.uses < known.makes and meant.uses < meant.makes)


def _made_invisible(known: Stitch, meant: Stitch) -> bool:
    """ "dec = invisible decrease": the sums stay, the hand does not."""
    return known.key == "dec" and meant.key == "inv dec"


def _made(body: str) -> int:
    """Stitches in a list that is written out, chains apart."""
    told = re.findall(r"(\d*) ?(?!ch)(?:sc|hdc|dc|htr|tr|dtr|sl st|ss)\b", body.lower())
    return max(1, sum(int(n or 1) for n in told))


def _told_open(page: Page, name: str, supposed: tuple[int, int] | None, at: int, end: int) -> Finding:
    if supposed is None or supposed == (1, 1):
        return finding(page, "own-stitch", at, end, name=name)
    return finding(page, "supposed-stitch", at, end, name=name, uses=supposed[0], makes=supposed[1])


def _in_full(name: str, what: str) -> list[str]:
    """The words that a text has for a stitch: "low point (single crochet)", "fine knitting" and "fine stitches"."""
    told = _FIRST_PART.split(what.lower().split(" = ")[0])[0].strip() if _KIND_OF.match(what.lower()) else name.lower()
    first, *rest = told.split()
    if len(rest) != 1 or not (first + rest[0]).isalpha():
        return []
    return [told, f"{told}s", f"{first} stitch", f"{first} stitches"]


def _by_word(low: str, sums: tuple[int, int] | None) -> tuple[int, int] | None:
    """ "reduce, two noses into one": what is called a decrease takes them together, however the words stand."""
    grows, shrinks = _GROWS.search(low) is not None, _SHRINKS.search(low) is not None
    if grows == shrinks:
        return sums
    if sums is None:
        return (1, 2) if grows else (2, 1)
    fewer, more = min(sums), max(sums)
    return (fewer, more) if grows else (more, fewer)


def _shapes(name: str, low: str) -> bool:
    """ "A = reduce the nose (2 noses to one)": a letter that is told to shape, though nothing says "stitch"."""
    return len(name) < _SHORT_NAME and _by_word(low, None) is not None


def _counted(low_page: str) -> frozenset[str]:
    """Short names that are printed with amounts, as stitches are: "9T", "3 kp, rk"? Rounds and colours are not."""
    return frozenset(name for m in _AMOUNT.finditer(low_page) for name in (m["word"], m["all"]) if name)


def _renamed(name: str, meanings: list[str], terms: Terms) -> bool:
    """ "mc = slip stitch", "SP = magic loop": letters that mean a colour, a circle or a space elsewhere, and here a
    stitch or the ring, told by its name."""
    if any((meant := named(told, terms)) is not None and meant.key == "ring" for told in meanings):
        return True
    if name.lower() == "lp":
        return "loop st" in meanings[0].lower()
    ours = named(name, terms)
    return name.lower() in ("mc", "cc") and any((named(told, terms) or ours) is not ours for told in meanings)


def _listed_letters(text: str) -> frozenset[str]:
    """The letters of a list of yarns in a sentence: "Colors are given by letters: N navy, W white"."""
    told: set[str] = set()
    for match in _LETTER_LIST.finditer(text):
        items = list(_LETTER_ITEM.finditer(match["list"]))
        shades = sum(is_colour(m["what"]) or is_colour(m["what"].split()[-1]) for m in items)
        if shades * 2 > len(items):
            told.update(m["letter"].lower() for m in items)
    return frozenset(told)


def _nouns(text: str, abbreviations: dict[str, str], terms: Terms) -> frozenset[str]:
    """What the text calls a stitch of the course below: "increase, 2 pb in the same point", "(36 points)"."""
    told = Counter(m[1] for m in _COUNTED_NOUN.finditer(text.lower()))
    words = {word for word, n in told.items() if n >= _OFTEN}
    letters = Counter(m[1] for m in _LETTER_NOUN.finditer(text))
    words.update(letter.lower() for letter, n in letters.items() if n > 1 and letter not in abbreviations)
    for name, what in abbreviations.items():
        words.update(m[1] for m in _SAME_NOUN.finditer(what.lower()))
        if _is_stitch(what.lower()) and name.isalpha():
            words.add(name.lower())
    kinds = Counter(m[1] for what in abbreviations.values() if (m := _KIND_OF.match(what.lower())))
    words.update(word for word, n in kinds.items() if n > 1)
    words = {w.rstrip("s") for w in words}
    words = {w for w in words if w not in _NO_NOUN and named(w, terms) is None and named(w + "s", terms) is None}
    return frozenset(words | {w + "s" for w in words})


def _worked_into(text: str, known: frozenset[str], terms: Terms) -> dict[str, int]:
    """Nouns that nothing explains, again and again where a stitch would stand, and where each stands first.

    Where counts are printed they bear it out: one or two into each of what is there makes once or twice as many.
    """
    found = list(_INTO_NOUN.finditer(text))
    if len(found) < _SO_OFTEN:
        return {}
    often = Counter(m["noun"].lower().rstrip("s") for m in found)
    out: dict[str, int] = {}
    for noun, times in often.items():
        no = noun in known or noun in _NO_NOUN or noun in _PARTS or noun in NOUNS or noun in COURSE_WORDS
        if times < _SO_OFTEN or no or is_colour(noun) or named(noun, terms) or named(noun + "s", terms):
            continue
        told = [m for m in found if m["noun"].lower().rstrip("s") == noun]
        borne = [_borne_out(text, m) for m in told if m["n"]]
        if 4 * sum(borne) >= 3 * len(borne):
            out[noun] = told[0].start("noun")
    return out


def _borne_out(text: str, told: re.Match[str]) -> bool:
    """Is the count behind it once or twice the one that is printed before?"""
    before = list(_PRINTED.finditer(text, max(0, told.start() - 200), told.start()))
    return not before or int(told["n"]) in (int(before[-1][1]), 2 * int(before[-1][1]))


def _stitch(name: str, what: str, sums: tuple[int, int], known: Stitch | None) -> Stitch:
    """A stitch of the text's own; where it changes one we know, its look and its yarn are kept."""
    uses, makes = sums
    height, yarn, symbol, of = 1.0, 13.0, "cross", "sc"
    if known is not None:
        height, yarn, symbol, of = known.height, known.yarn, known.symbol, known.of
    both = (name, what)
    return Stitch(name, uses, makes, max(1, makes), height, yarn, both, both, symbol, of, ("the text",))


def _meanings(what: str) -> list[str]:
    """A meaning, its first words, and what its bracket says: "two needles in one (2 single crochet together)"."""
    if " = " in what:  # "cast stitch = slip stitch": the later words are the surer ones
        return [*(_meanings(part)[0] for part in reversed(what.split(" = "))), what]
    inside = re.search(r"\(([^()]{3,80})\)?", what)
    first = re.split(r"[,(;]", what)[0].strip()
    plain = _LEADS_TO_NAME.sub("", first)
    return [first, what, *([inside[1].strip()] if inside else []), *([plain] if plain != first else [])]


def _sums(what: str, terms: Terms, names: dict[str, str]) -> tuple[int, int] | None:
    """ "2 sc in same st" -> uses 1, makes 2; None where the words do not say. `names`: what the text has defined."""
    if (places := _PLACES_INTO_ONE.match(what)) is not None:
        return number_of(places["n"]), 1
    told = _TOLD_ALIKE.search(what)
    if told:
        n = number_of(told["n"])
        return (1, n) if told["into"] and not _SHRINKS.search(what) else (n, 1)
    match = _INTO_ONE.search(what)
    if match and (named(match[2].strip(), terms) or match[2].strip() in {n.lower() for n in names}):
        return 1, number_of(match[1])
    match = _TOGETHER.match(what) or _STITCH_TOGETHER.match(what)
    return (number_of(match[1]), 1) if match else None
