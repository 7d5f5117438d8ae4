"""Copies that a title, or a heading with no round of its own, asks for of the parts below it: "BOOTEES (make 2)" above
"Sole" and "Upper"."""

from __future__ import annotations

import itertools
import re
from typing import NamedTuple

from hookside.colours import SHADES
from hookside.notation.askings.colournames import is_colour
from hookside.notation.lines.colours.ownyarns import is_yarn
from hookside.notation.lines.copies.asked import copies, only_how_many
from hookside.notation.lines.copies.partslist import called_so
from hookside.notation.lines.copies.sorts import sorts
from hookside.notation.lines.heads.headings import tidy_name
from hookside.notation.lines.heads.parts import MAIN_PARTS, PARTS
from hookside.notation.lines.layout import Layout, RawCourse, RawPiece, RawText, Under, spans_of_sentences
from hookside.notation.vocabulary import COPIES, SEVERAL, number_of
from hookside.stitches import singular

_EACH = r"each(?: (?:part|piece))?"
_SO_MANY = (
    rf"(?:(?:please |i |you )*(?:make|made|work|crochet|do|need) (?:{COPIES}|a pair|both)(?: of {_EACH})?|"
    rf"(?:a )?set of {COPIES}|{COPIES} of (?:them|these|{_EACH})|"
    rf"{COPIES} (?:pieces|pcs|copies|alike|needed|required|off|times)|"
    rf"{COPIES} ?x|x ?{COPIES}|(?:a |one )?pair|"
    r"(?:make|made|worked) twice)"
)
# "BOOTEES (make 2)", "Bootees x 2", "Bootees, make two", "Wheels: 4", and none of "Posted on Tues, 14"
_ASKS = re.compile(
    rf"[(\[{{]\s*(?:{_SO_MANY}|(?P<bare>{COPIES}))"
    r"(?:\s*[,;][^()\[\]]{1,30}|,? (?:alike|the same|in all|in total))?\s*[)\]}]|"
    rf"(?:[,:.]|\s-+|(?<=[A-Za-z]))\s+{_SO_MANY}[\s.:]*$|:\s*(?P<colon>{COPIES})[\s.]*$",
    re.I,
)
_OF_ROUNDS = re.compile(r"\b(?:rounds?|rnds?|rows?)\b", re.I)  # "work rounds 1-3, do this twice"
_LONGEST = 90  # letters of a heading
_LONGEST_LEAD = 8  # ... of what stands in front of a name: "  - Tire"
_IN_A_LIST = re.compile(r"\s{2,}\S|\s?[-+>\u2022\u00b7]\s|\s?\(?[a-z][.)]\s")
# "Toer 1: 6 vasten in magische ring (6)": a round in a tongue that is not read
_NUMBERED = re.compile(r"[^\W\d_]{1,12}\.? ?\d{1,3}\s*[:.)-]\s*\d")
# "TABLE (4 legs)", "Table with 4 legs"
_MADE_UP = re.compile(
    rf"[a-z]\s*(?:[(\[]\s*|[,:-]\s+|\bwith\s+)(?:with |has )?(?P<n>{COPIES}) (?P<what>[a-z]{{3,}}(?: [a-z]{{3,}})?)"
    r"(?=\s*(?:[)\],.:;]|\band\b|$))",
    re.I,
)
_NAME_IN_BRACKETS = re.compile(rf"[A-Za-z' ]{{3,40}}[(\[]\s*{COPIES} [a-z ]{{3,30}}[)\]]", re.I)
_MAKING = re.compile(
    rf"\b(?:(?:make|work|crochet|you need|you will need) {SEVERAL}|"
    rf"{SEVERAL} (?:the same|alike|identical|of (?:these|them|those))|"
    r"(?:do (?:it|them)|(?:make|work|crochet) (?:it|this|them)) "
    rf"(?:twice|thrice|{SEVERAL} times))\b",
    re.I,
)
_NOTED = re.compile(r"^(?:notes?|nb|remember)\s*[:.-]\s*", re.I)
_ALL_ALIKE = re.compile(r"\b(?:the same|alike|identical|of (?:everything|each|all))\b", re.I)
_EVERYTHING = re.compile(
    rf"\W*(?:(?:please|you|will|so|and) )*(?:need|make|work|crochet|do) (?:(?P<n>{COPIES}) of (?:everything|"
    r"each(?: (?:piece|part))?|all(?: (?:the )?(?:pieces|parts))?)|"
    r"(?:everything|each (?:piece|part)|all (?:the )?(?:pieces|parts)|all of it) "
    rf"(?:twice|(?P<times>{SEVERAL}) times))\W*$|"
    rf"\W*(?:this |the )?(?:pattern |recipe )?makes (?P<makes>{SEVERAL})(?: of (?:them|these)| in all)?\W*$",
    re.I,
)
_HAS = (
    r"(?:now |next |then |here )?(?:there (?:are|will be)|(?:it|he|she|this one|the [a-z]+) has|"
    r"(?:(?:you|we|i)(?:'ll| will)? )?(?:need|make|want|crochet|work)(?: to make)?) "
)
# "There are 3 arms, all the same.", "Two wings are needed.", "All four legs are worked alike."
_SO_MANY_OF = re.compile(
    rf"\W*(?P<lead>{_HAS})?(?:all )?(?:of )?(?:the )?(?P<n>{COPIES}|both) (?P<what>[a-z]{{3,}}(?: [a-z]{{3,}})??)"
    r"(?P<alike>(?:,|\s-)? (?:(?:(?:they|which) )?(?:are|all|both|will be|worked|made|crocheted|needed|wanted|required|"
    r"exactly|in) ?)*(?:(?:the )?same(?: way)?|alike|identical(?:ly)?|like this|(?<=needed)|(?<=wanted)|"
    r"(?<=required)))?\W*",
    re.I,
)
_LEAD_AHEAD = re.compile(rf"\W*{_HAS}(?={COPIES} )", re.I)
_SO_MANY_AHEAD = re.compile(rf"\W*(?:{_HAS})?(?:(?:all|of|the) )*(?:{COPIES}|both) [a-z]", re.I)
_MOST_AHEAD = 40  # sentences ahead of the parts that tell so
_NUMBER_AHEAD = re.compile(rf"\b(?:{COPIES}|both)\b", re.I)
# "This is the ear, do it twice.", "how I did the arms (you need two of them):"
_LAST_CLAUSE = re.compile(r"(?:,|\s-+|:)\s+(?:so |and |but )?(?=[^,:]*$)|\s[(\[](?=[^()\[\]]+[)\]]\W*$)")
_EACH_NUMBER = re.compile(rf"(?<![a-z\d]){COPIES}(?![a-z\d])", re.I)
_PAIR = re.compile(r"\W*(?:an? |one )?pair of\b", re.I)
_BOUGHT = frozenset(["eye", "button", "bell", "ball", "ring", "nose", "light", "cord", "string", "rope"])
_LAYERS = frozenset(["inner", "outer", "inside", "outside", "upper", "lower"])
_SET = re.compile(r"\bset of\b", re.I)
_PLACES = frozenset(
    ["left", "right", "first", "second", "third", "fourth", "one", "two", "three", "four", "1", "2", "3", "4", "a", "b"]
)
# "Jet pack (2 tanks)" tells what it is made up of, or how many are made
_OF_WORK = re.compile(
    r"\b(?:sts?|stitch(?:es)?|rounds?|rnds?|rows?|colou?rs?|shades?|sizes?|pages?|balls?|skeins?|strands?|ply|plies|"
    r"hours?|days?|inch(?:es)?|in|cm|mm|g|grams?|layers?|ch|chs|chains?|[hd]?dc|sc|h?tr|of|to|from|each|per|yarns?|loops?|"
    r"inc|dec|times|more|lines?|points?|parts?|pieces?|sides?|ways?|versions?|hooks?)\b",
    re.I,
)
# "Thumb (2 on each mitten)": of each, whatever stands above
_OF_EACH = re.compile(r"\b(?:each|every|per)\b", re.I)


class Above(NamedTuple):
    """What asks for so many of the parts below it: a piece with no round, or the title, which is none. `plain`: it asks
    for nothing else, and in so many words."""

    name: str
    made: int
    line: str
    piece: RawPiece | None
    plain: bool


def copies_above(text: str, out: Layout) -> None:
    """Gives the parts below such a heading so many, each times its own.

    How far a heading goes is plain by its dress: capitals above small letters, one sign above two, a name above names
    with colons. Where all are dressed alike, it is said."""
    for line in _made_up(text, out):
        _name_parts(line, out.pieces)
    _part_and_no_yarn(text, out)
    _told_ahead(text, out)
    _named_ahead(text, out)
    above = _title(text, out)
    if above is None:
        _title_by_sorts(text, out)
    group: list[RawPiece] = []
    for piece in out.pieces:
        if not any(isinstance(i, RawCourse) for i in piece.items):
            _share(text, above, group)
            above, group = _heading(text, piece), []
        elif above is not None:
            group.append(piece)
    _share(text, above, group)


def _title(text: str, out: Layout) -> Above | None:
    """The title, where it asks for copies: "BOOTEES (make 2)" in the first line, or "Make 2." right below it."""
    at = next((at for at, (_, _, role) in enumerate(out.roles) if role == "title"), None)
    if at is None:
        made = _whole_twice(text, out, "")
        return Above("Pattern", made, "", None, True) if made > 1 else None  # "This pattern makes 4."
    line = text[slice(*out.roles[at][:2])].strip()
    if _NUMBERED.match(line):
        return None
    below = text[slice(*out.roles[at + 1][:2])] if at + 1 < len(out.roles) else ""
    if asks_plainly(line):
        return _told(line, None)
    made = (only_how_many(below) if below.strip() else 0) or _whole_twice(text, out, line)
    return Above(tidy_name(line), made, line, None, True) if made > 1 else None


def _title_by_sorts(text: str, out: Layout) -> None:
    """ "Legs: 2 front, 2 back" in the first line, above "Front leg" and "Back leg"."""
    at = next(((a, b) for a, b, role in out.roles if role == "title"), None)
    worked = [p for p in out.pieces if p.headed and any(isinstance(i, RawCourse) for i in p.items)]
    if at is not None and len(worked) > 1 and sorts(line := text[slice(*at)].strip()) is not None:
        _by_sorts(_told(line, None), worked)


def _whole_twice(text: str, out: Layout, title: str) -> int:
    """ "Work two the same." among the notes ahead of the parts of PLAIN MITTENS: two of each of them."""
    worked = [p for p in out.pieces if any(isinstance(i, RawCourse) for i in p.items)]
    if len(worked) < 2 or any(p.make > 1 or not p.headed for p in worked):
        return 0
    nouns = re.findall(r"[a-z]+", title.lower())
    pair = bool(nouns) and singular(nouns[-1]) != nouns[-1]
    first = worked[0].at
    for start, end, role in out.roles:
        if end > first or role in ("course", "heading") or (role == "title" and not _EVERYTHING.match(text[start:end])):
            continue
        for a, b in spans_of_sentences(text, start, end):
            clause = _NOTED.sub("", text[a:b].strip())
            told = _EVERYTHING.match(clause)
            if told is not None:
                return number_of(told["n"] or told["times"] or told["makes"] or "2")
            asks = _MAKING.match(clause) and (pair or _ALL_ALIKE.search(clause))
            if asks and (made := only_how_many(clause)) > 1:
                return made
    return 0


def _told_ahead(text: str, out: Layout) -> None:
    """ "Notes: ... Make two, they are identical.": copies of the only part there is, told in a sentence ahead of it."""
    worked = [p for p in out.pieces if any(isinstance(i, RawCourse) for i in p.items)]
    if len(worked) != 1 or worked[0].make > 1:
        return
    first = next(i.start for i in worked[0].items if isinstance(i, RawCourse))
    for start, end, role in out.roles:
        if start < first and role not in ("course", "heading") and _MAKING.search(text, start, end):
            sentences = (text[a:b].strip() for a, b in spans_of_sentences(text, start, end))
            clauses = (c for s in sentences for c in (s, *_last_clause(s)))
            told = [n for c in clauses if _MAKING.match(c) and (n := only_how_many(c)) > 1]
            worked[0].make = told[0] if told else worked[0].make
            named = _SO_MANY_OF.fullmatch(text, start, end)
            what = named["what"].lower() if named is not None and named["lead"] and not out.title else ""
            if named is not None and not worked[0].headed and what in PARTS and singular(what) not in _BOUGHT:
                worked[0].name, worked[0].make = tidy_name(named["what"]), number_of(named["n"])


def _named_ahead(text: str, out: Layout) -> None:
    """ "There are 3 arms, all the same." above "Arm"; "You will make 2 long ones and 2 short ones." above "Long leg"
    and "Short leg": parts whose own headings tell no number, told by their names or by their sorts."""
    worked = [(p, next((i.start for i in p.items if isinstance(i, RawCourse)), 0)) for p in out.pieces if p.headed]
    single = [(p, first) for p, first in worked if p.make == 1 and first]
    last = max((first for _, first in single), default=0)
    lines = ((a, b) for a, b, role in out.roles if a < last and role != "course" and _NUMBER_AHEAD.search(text, a, b))
    told_in = (span for line in lines for span in spans_of_sentences(text, *line) if span[1] - span[0] <= _LONGEST)
    telling = ((a, text[a:b].strip()) for a, b in told_in if _SO_MANY_AHEAD.match(text, a, b))
    for at, sentence in itertools.islice(telling, _MOST_AHEAD):
        told = _SO_MANY_OF.fullmatch(sentence)
        if told is not None and (told["lead"] or told["alike"]):
            there = [p for p, first in single if at < first and _words(p.name) == _words(told["what"])]
            if len(there) == 1:
                there[0].make = number_of(told["n"])
        elif (words := _LEAD_AHEAD.match(sentence)) is not None:
            copies_of = _told(f"Copies: {sentence[words.end() :]}", None)
            _by_sorts(copies_of, [p for p, first in single if at < first])


def _last_clause(sentence: str) -> list[str]:
    return [] if _OF_ROUNDS.search(sentence) else _LAST_CLAUSE.split(sentence)[1:]


def _made_up(text: str, out: Layout) -> list[str]:
    """The lines that may tell of how many other parts something is made up."""
    beside = [text[a:b].strip() for a, b, role in out.roles if role != "course" and b - a <= _LONGEST]
    titles = [text[a:b] for a, b, role in out.roles if role in ("title", "heading") and b - a <= _LONGEST]
    return [*titles, *(line for line in beside if line[-1:] in (")", "]") and _NAME_IN_BRACKETS.fullmatch(line))]


def made_up_of(text: str, piece: RawPiece) -> str:
    """ "2 tanks" of "JET PACK (2 tanks)", which may be two of it; "" where its heading tells no such thing."""
    line = _line(text, piece.at).strip()
    told = _MADE_UP.search(line) if piece.make == 1 and len(line) <= _LONGEST else None
    if told is None or number_of(told["n"]) < 2 or not _NAME_IN_BRACKETS.fullmatch(line.rstrip(":")):
        return ""
    return "" if _OF_WORK.search(told["what"]) else line[told.start("n") : told.end()]


def _part_and_no_yarn(text: str, out: Layout) -> None:
    """ "Wheels (4) / Tyre / Rnd 1: ..." above "Hub": a word below a name that was taken for its yarn is a part of it
    where it is no color, no other part has its color told so, and one more part without copies is below."""
    worked = [p for p in out.pieces if p.headed and any(isinstance(i, RawCourse) for i in p.items)]
    dyed = [p for p in worked if _yarn_below(p) is not None]
    for piece, below in itertools.pairwise(worked):
        told = _yarn_below(piece) if piece.make > 1 else None
        if told is None:
            continue
        line = _line(text, piece.at)
        word = text[told.start : told.end].strip(" .:()*_")
        by_sort = sorts(line.strip())
        sort = by_sort is not None and any(_words(word) == _words(name) for _, name in by_sort.each)
        shade = not word.isalpha() or is_colour(word) or SHADES.intersection(_words(word))
        if not sort and (shade or len(dyed) > 1 or is_yarn(word, tuple(out.materials))):
            continue
        if not sort and (not asks_plainly(line) or _words(below.name) & MAIN_PARTS):
            continue
        if not sort and below.make > 1 and word.lower() not in PARTS:
            piece.under = Under(word, piece.make, piece.make, "part-or-yarn")
            continue
        above = RawPiece(piece.name, piece.make, piece.at, [i for i in piece.items if i.start < told.start])
        out.pieces.insert(out.pieces.index(piece), above)
        piece.name, piece.make, piece.at = tidy_name(word), 1, told.start
        piece.items = [i for i in piece.items if i.start > told.start]
        out.roles[:] = [(a, b, "heading" if a <= told.start < b else role) for a, b, role in out.roles]


def _yarn_below(piece: RawPiece) -> RawText | None:
    """What is told of its yarn in front of its first round."""
    first = next((at for at, i in enumerate(piece.items) if isinstance(i, RawCourse)), 0)
    return next((i for i in piece.items[:first] if isinstance(i, RawText) and i.job == "colour"), None)


def _name_parts(line: str, pieces: list[RawPiece]) -> None:
    """ "TABLE (4 legs)" above "Leg": four, where one part alone is called so."""
    told = _MADE_UP.search(line)
    if told is None or number_of(told["n"]) < 2:
        return
    worked = [p for p in pieces if any(isinstance(i, RawCourse) for i in p.items)]
    there = [p for p in worked if _words(p.name) == _words(told["what"])]
    if len(there) == 1 and there[0].make == 1:
        there[0].make = number_of(told["n"])


def _heading(text: str, piece: RawPiece) -> Above | None:
    if piece.make == 1 or not piece.headed or piece.assembly:
        return None
    told = _told(_line(text, piece.at), piece)
    bare = not any(isinstance(i, RawText) and i.job != "colour" for i in piece.items)
    return told._replace(name=piece.name, made=piece.make, plain=told.plain and bare)


def _told(line: str, piece: RawPiece | None) -> Above:
    name, made = copies(line.strip())
    return Above(tidy_name(name.strip(" []{}()")), made, line.strip(), piece, asks_plainly(line))


def asks_plainly(line: str) -> bool:
    """Does a line ask for copies and leave no doubt of it?"""
    told = _ASKS.search(line) if len(line) <= _LONGEST else None
    if told is None and _PAIR.match(line) and copies(line.strip())[1] == 2:
        return True
    if told is None or copies(line.strip())[1] == 1:
        return False
    words = re.findall(r"[a-z]+", line[: told.start()].lower())
    return bool(words) and (told["bare"] is None or words[-1] in PARTS or singular(words[-1]) != words[-1])


def _share(text: str, above: Above | None, group: list[RawPiece]) -> None:
    if above is None or not group:
        return
    if _by_sorts(above, group) or _are_they(above, group) or _lists(above, group):
        return
    within = above.piece is not None and text.count("\n", above.piece.at, group[0].at) == 1  # right above its parts
    called = [p for p in group if called_so(above.name, p)]
    if above.piece is not None and called and not (within and all(_words(p.name) > _words(above.name) for p in called)):
        return  # "Wheels (4)" in a list, and "Wheels" below it with its rounds
    if within:  # what is set off behind them is no part of it
        ends = (at for at, p in enumerate(group) if at and text[text.rfind("\n", 0, p.at) - 1 : p.at].startswith("\n"))
        group = group[: next(ends, len(group))]
    if above.piece is None and not group[0].headed and _is_one_part(above, group):
        group[0].make = above.made  # "Bear leg (make 2)" in the first line, above its rounds and "Body"
        return
    if _one_below_the_other(text, above, group[0]):
        return
    dress = _dress(above.line)
    lower = [_dress(_line(text, p.at)) > dress for p in group]
    sure = lower[0] or (above.piece is None and not (_PAIR.match(above.line) and len(group) == above.made))
    if above.piece is None and len(group) == 1 and not group[0].headed:
        group[0].name, group[0].make = above.name, above.made  # the title names it: "Wing (make 2)", some talk, round 1
        return
    if lower[0]:
        group = group[: lower.index(False)] if False in lower else group
    elif not sure:
        ends = (at for at, p in enumerate(group) if p.make > 1 or not p.headed or _dress(_line(text, p.at)) < dress)
        group = group[: next(ends, len(group))] if above.plain else group[:1]
    if not sure and group and not above.plain:
        group[0].under = Under(above.name, above.made, 1, "copies-above") if group[0].make == 1 else None
        return
    totals = all(p.make % above.made == 0 for p in group)  # each tells how many of it there are in all
    for piece in group:
        own = piece.make
        if totals and own > 1:
            continue
        odd = own > 1 and not _OF_EACH.search(_line(text, piece.at))
        whole = own > above.made and own % above.made == 0
        piece.make = own if odd and whole else own * above.made
        code = "copies-both" if odd else "copies-under" if sure or piece is not group[0] else "copies-far"
        piece.under = Under(above.name, above.made, own, code)


def _is_one_part(above: Above, group: list[RawPiece]) -> bool:
    """Does the title name a part like those below it, and none that they are parts of?"""
    noun = re.findall(r"[a-z]+", above.name.lower())[-1:]
    return called_so(above.name, group[0]) and noun[0] in PARTS and any(_words(p.name) & MAIN_PARTS for p in group[1:])


def _one_below_the_other(text: str, above: Above, piece: RawPiece) -> bool:
    """ "Arms (make 2) / Legs (make 2)" above the rounds of both: two parts with the same rounds."""
    if above.piece is None or above.piece.items or above.made != piece.make or not above.plain:
        return False
    between = text[above.piece.at : piece.at]
    nouns = [re.findall(r"[a-z]+", name.lower())[-1:] for name in (above.name, piece.name)]
    if between.count("\n") != 1 or not all(noun and noun[0] in PARTS for noun in nouns) or nouns[0] == nouns[1]:
        return False
    piece.name, piece.make = f"{above.name} and {piece.name.lower()}", above.made + piece.make
    return True


def _by_sorts(above: Above, group: list[RawPiece]) -> bool:
    """ "Spots: 3 small, 2 large" above "Small spot" and "Large spot": each has the number of its sort."""
    told = sorts(above.line)
    if told is None:
        return False
    noun = {singular(word) for word in re.findall(r"[a-z]+", above.name.lower())}
    found: list[tuple[RawPiece, int]] = []
    for many, sort in told.each:
        words = {singular(word) for word in re.findall(r"[a-z]+", sort.lower())}
        if "one" in words:  # "2 long ones": of whatever the parts below are called
            words.remove("one")
            there = [p for p in group if words and words < _words(p.name)]
        else:
            there = [p for p in group if words <= (name := _words(p.name)) and name <= words | noun]
        if len(there) != 1:
            return False
        found.append((there[0], many))
    for piece, many in found:
        piece.make = many if piece.make == 1 else piece.make
    if above.piece is not None:
        above.piece.items.clear()
    return True


def _are_they(above: Above, group: list[RawPiece]) -> bool:
    """ "Mittens (a pair)" above "Left" and "Right", "Coasters (set of 3)" above three parts: the copies themselves."""
    if any(_goes_on(p) or _LAYERS.intersection(_words(p.name)) for p in group[1:]):
        return False  # "Ears (make 2)" above "Outer ear" and "Inner ear", or above two stretches of each
    placed = all(_PLACES.intersection(re.findall(r"[a-z]+|\d+", p.name.lower())) for p in group)
    if len(group) == 1 and group[0].name.lower().split()[:1] and group[0].name.lower().split()[0] not in _PLACES:
        placed = False  # "Tip first"
    noun = singular(above.name.lower().split()[-1]) if above.name.strip() else ""  # "Make 2 of each" names nothing
    # "Baskets, set of three" above "Small basket", "Medium basket", "Large basket" and "Lid for the small basket"
    called = sum(singular(p.name.lower().split(" for ")[0].split()[-1]) == noun for p in group if p.name.strip())
    if placed or (len(group) != above.made and called == above.made):
        return True
    if len(group) != above.made:
        return False
    return _SET.search(above.line) is not None or all(noun in _words(p.name) for p in group)


def _lists(above: Above, group: list[RawPiece]) -> bool:
    """ "Body, make 1; ears, make 2" above both: a list with a number for each, which `partslist` takes or tells of."""
    if len(_EACH_NUMBER.findall(above.line)) < 2:
        return False
    nouns = {singular(words[-1]) for p in group if (words := re.findall(r"[a-z]+", p.name.lower()))}
    return len(nouns & _words(above.line)) > 1


def _goes_on(piece: RawPiece) -> bool:
    """Do its rounds go on in number from those of the part above?"""
    first = next((i for i in piece.items if isinstance(i, RawCourse)), None)
    return first is not None and first.label is not None and (first.label.numbers or [1])[0] > 1


def _words(name: str) -> set[str]:
    return {singular(word) for word in re.findall(r"[a-z]+", name.lower())}


def _line(text: str, at: int) -> str:
    begins = text.rfind("\n", 0, at) + 1
    end = text.find("\n", at)
    return text[begins if at - begins < _LONGEST_LEAD else at : end if end >= 0 else len(text)]


def _dress(line: str) -> tuple[int, bool, bool, bool, bool]:
    """How far down a heading stands: by its number signs, as one that is not in capitals, not in bold letters, in a
    list, or with a colon."""
    listed = _IN_A_LIST.match(line) is not None
    line = line.strip()
    signs = len(line) - len(line.lstrip("#"))
    name = re.split(r"[(\[]|(?i:\bmake\b|\bx ?\d)", line)[0]
    return signs, not name.isupper(), not line.startswith(("**", "__")), listed, line.endswith(":")
