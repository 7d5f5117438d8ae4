"""Parts that join later: which courses work other pieces in, and what must be ready before them.

"Rnd 5: sc around first leg, ch 3, sc around second leg" wants both legs worked, and a yarn to go on with. What the text
does not say of that yarn is never worked out: a cut may ruin the work, so the maker is told and decides. What a joined
course comes to is the reading's own arithmetic; here it is only repeated.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache

from hookside.pattern import Course, Cue, Group, Joining, JoinPart, Pattern, Piece
from hookside.stitches import plural, singular

_NUMBERS = {
    "first": 1, "second": 2, "third": 3, "fourth": 4, "1st": 1, "2nd": 2, "3rd": 3, "4th": 4,
    "one": 1, "two": 2, "three": 3, "four": 4, "1": 1, "2": 2, "3": 3, "4": 4, "a": 1, "b": 2,
}  # fmt: skip
_SIDES = frozenset({"left", "right", "front", "back", "upper", "lower", "top", "bottom", "inner", "outer"})
_ALL = frozenset({"both", "all", "each", "every"})
_WORD = re.compile(r"\d+(?:st|nd|rd|th)?|[a-z]+")
_LETTERS = re.compile(r"[a-z]+")
# Before the name of a part, where stitches go into it or it is joined; "for", "where" and the like only speak of it.
_LEADS = (
    r"(?:around|round|across|over|along|on|onto|into|in|of|to|from|through|join(?:ing|ed)?|attach(?:ing|ed)?|"
    r"connect(?:ing|ed)?|and|with)"
)
_WHICH = (
    r"(?:first|second|third|fourth|1st|2nd|3rd|4th|other|next|left|right|front|back|upper|lower|both|all|each|every|"
    r"two|three|four|[2-4])"
)
# What a text says of a part without working it in.
_ONLY_SPOKEN_OF = re.compile(
    r"\b(?:same as|as for|as (?:the )?(?:first|other)|like|repeat|rep|mark(?:er)?s?|place|position|where|until|later|"
    r"sew|will be|instead of|compare|pin)\b[^.;]*$"
)
_WORKED_IN = re.compile(
    r"\b(?:around|round|across|over|along|on|onto|through|join\w*|attach\w*|connect\w*|\d+ ?(?:sc|[hd]?dc|h?tr) with)\b"
)
# "in each of the 12 sts of the first leg", "12 sc in leg two"
_STITCHES_OF = re.compile(
    r"\b(?:sts?|stitch(?:es)?)\s+(?:of|on|in|from)\b[^.;]*$|\b(?:sc|dc|hdc|htr|tr|single crochets?|double crochets?)\s+"
    r"(?:in|into|on)\s+[^,.;]*$"
)
_OTHER_SIDE = re.compile(r"\b(?:other|opposite|second|free|unused)\s+(?:sides?|edges?|loops?)\b", re.IGNORECASE)
_SIDES_OF_CHAIN = ("in the ch", "on the other side of the ch")
_NEW_YARN = re.compile(
    r"\b(?:join|attach|rejoin)\w*\b[^.;]{0,24}\b(?:yarn|colou?r|thread)\b|\bnew yarn\b|\brejoin\b", re.IGNORECASE
)
TO_SEW_ON = "For sewing it on"  # how advice on the length of a tail begins (cues/tails.py)
_KEPT = re.compile(
    r"\b(?:do not|don't|without|not) (?:fasten|cut|break|fastening|cutting)|\bonly\b|\bfirst\b|\bloop (?:live|open)\b",
    re.IGNORECASE,
)


def with_joinings(pattern: Pattern) -> Pattern:
    """The pattern with its joinings, and before each joined course a stop that says what must be ready."""
    found = list(_joinings(pattern))
    if not found:
        return pattern
    pieces = list(pattern.pieces)
    for joining, before in found:
        piece = pieces[joining.piece - 1]
        cues = list(piece.cues)
        cues.insert(len(cues) if before is None else cues.index(before), _stop(pattern, joining, before))
        pieces[joining.piece - 1] = piece.model_copy(update={"cues": cues})
        pieces[joining.piece - 1] = _with_sides(pieces[joining.piece - 1], joining)
    for joining, _ in found:
        for part in joining.parts:
            pieces[part.number - 1] = _mind_the_yarn(pieces[part.number - 1], pattern, joining)
    return pattern.model_copy(update={"pieces": pieces, "joinings": [joining for joining, _ in found]})


def _with_sides(piece: Piece, joining: Joining) -> Piece:
    """The joined course with the two sides of its chain told apart: reading counts them as one place."""

    def told(course: Course) -> Course:
        along = [node for node in course.body if isinstance(node, Group) and node.into == "chain"]
        if course.id != joining.course_id or len(along) != 2 or not _OTHER_SIDE.search(course.text):
            return course
        first, second = (
            one.model_copy(update={"into": side}) for one, side in zip(along, _SIDES_OF_CHAIN, strict=True)
        )
        body = [first if node is along[0] else second if node is along[1] else node for node in course.body]
        return course.model_copy(update={"body": body})

    return piece.model_copy(update={"courses": [told(course) for course in piece.courses]})


def parts_first(pattern: Pattern) -> list[int]:
    """The numbers of all pieces in the order of work: the pattern's own, but a part before the piece it joins."""
    wanted: dict[int, list[int]] = {}
    for joining in pattern.joinings:
        wanted.setdefault(joining.piece, []).extend(part.number for part in joining.parts)
    order: list[int] = []

    def put(number: int, above: frozenset[int]) -> None:
        if number in order or number in above:  # two pieces that name each other stay as they are printed
            return
        for part in wanted.get(number, []):
            put(part, above | {number})
        order.append(number)

    for number in range(1, len(pattern.pieces) + 1):
        put(number, frozenset())
    return order


# -- finding them -----------------------------------------------------------


def _joinings(pattern: Pattern) -> Iterator[tuple[Joining, Cue | None]]:
    """Each joining, and the cue of the text itself before which its parts must be ready; None: before its course."""
    parts_of = Parts(pattern)
    for number, piece in enumerate(pattern.pieces, start=1):
        asked: dict[int, int] = {}
        joins: dict[str | None, list[Cue]] = {}
        for one in piece.cues:
            if one.kind == "join" and one.basis == "written":
                joins.setdefault(one.course_id, []).append(one)
        for index, course in enumerate(piece.courses):
            for cue, text in _told(piece, index, joins):
                parts = parts_of.worked_in(text, number)
                if all(asked.get(n, 0) >= many for n, many in parts.items()):
                    continue
                asked |= {n: max(many, asked.get(n, 0)) for n, many in parts.items()}
                yield _joining(pattern, number, index, course, parts), cue


def _told(piece: Piece, index: int, joins: dict[str | None, list[Cue]]) -> Iterator[tuple[Cue | None, str]]:
    """What is said before and in a course: the text's own words about joining, then the course."""
    before = piece.courses[index - 1].id if index else None
    for cue in joins.get(before, ()):
        yield cue, cue.text
    yield None, piece.courses[index].text


class Parts:
    """The pieces of a pattern by what they are. A text may have a thousand of them and as many rounds that name none:
    a sentence is asked for its words, never for every piece."""

    def __init__(self, pattern: Pattern) -> None:
        self.pieces = pattern.pieces
        self.by_noun: dict[str, list[tuple[int, Piece]]] = {}
        for number, piece in enumerate(pattern.pieces, start=1):
            if piece.courses and (name := noun(piece.name)):
                self.by_noun.setdefault(name, []).append((number, piece))
        self.by_word: dict[str, set[str]] = {}
        for name in self.by_noun:
            for way in _spoken(name)[0]:
                self.by_word.setdefault(way, set()).add(name)

    def worked_in(self, text: str, own: int) -> dict[int, int]:
        """The pieces that a sentence of piece `own` works in, by number, and how many copies of each."""
        low = " ".join(text.lower().split())
        names = {name for word in _LETTERS.findall(low) for name in self.by_word.get(word, ())}
        told = []
        for name in names:
            mentions = list(_mentions(low, name))
            others = [of for of in self.by_noun[name] if of[0] != own] if mentions else []
            if others:
                told.append((others[0][0], name, mentions, others))
        found: dict[int, int] = {}
        for _, name, mentions, others in sorted(told, key=lambda of: of[0]):
            piece = self.pieces[own - 1]
            found |= _counted(mentions, others, piece if noun(piece.name) == name else None)
        return found


def _mentions(low: str, name: str) -> Iterator[set[str]]:
    """For each time a part is worked in: the words that say which of them, "s" for more than one."""
    for match in _spoken(name)[1].finditer(low):
        clause = re.split(r"[.;]", low[: match.start()])[-1]
        told = low[: match.end()]
        if _ONLY_SPOKEN_OF.search(clause) or not (_WORKED_IN.search(told) or _STITCHES_OF.search(told)):
            continue
        which = set(_WORD.findall(match["which"])) - {"of", "the"}
        which |= {match["no"]} if match["no"] else set()
        yield which | ({"s"} if match["name"] != name else set())


@lru_cache(maxsize=256)
def _spoken(name: str) -> tuple[list[str], re.Pattern[str]]:
    """How a part is called, and the words that work it in."""
    ways = sorted({name, plural(name)}, key=len, reverse=True)
    return ways, re.compile(
        rf"\b{_LEADS}\s+(?:(?:each|all|every)\s+)?(?:(?:of\s+)?(?:the\s+)?(?:\d+\s+)?(?:sts?|stitch(?:es)?)\s+"
        rf"(?:of|on|around|from|in)\s+)?(?:the |your |of the |of )*(?P<which>(?:{_WHICH}\s+(?:of\s+)?(?:the\s+)?)*)"
        rf"(?P<name>{'|'.join(ways)})\b(?:\s+(?P<no>[1-4]|one|two|three|four|a|b)\b)?"
    )


def _counted(mentions: list[set[str]], pieces: list[tuple[int, Piece]], own: Piece | None) -> dict[int, int]:
    """Which pieces of one noun are meant, and how many copies. `own`: the piece itself bears that noun too."""
    if not mentions:
        return {}
    sides = {word for which in mentions for word in which & _SIDES}
    numbers = {_NUMBERS[word] for which in mentions for word in which if word in _NUMBERS}
    every = any(which & _ALL or "s" in which for which in mentions)
    if own is not None and not (numbers | sides) and not every:
        return {}  # "sc around the leg" within a leg is the leg itself
    if len(pieces) == 1:
        ((number, piece),) = pieces
        if own is not None and _called(own.name) & _called(piece.name):
            return {}
        several = max(numbers, default=0) or (piece.make if every else len(mentions))
        return {number: max(1, min(several, piece.make))}
    named = [(n, p) for n, p in pieces if _called(p.name) & {*map(str, numbers), *sides}]
    if every or not named:
        wanted = max(numbers, default=0)
        named = pieces if every or not wanted else pieces[:wanted]
    return {number: piece.make for number, piece in named}


@lru_cache(maxsize=1024)
def noun(name: str) -> str:
    """What a piece is: "leg" of "Legs", "Leg 1", "Right leg (make 2)"."""
    bare = re.sub(r"\([^)]*\)", " ", name.lower())
    words = [w for w in re.findall(r"[a-z]+", bare) if len(w) > 1 and w not in _NUMBERS and w not in _SIDES]
    if not words:
        return ""
    return singular(words[-1])


@lru_cache(maxsize=2048)
def _called(name: str) -> frozenset[str]:
    """What tells a piece from its like: "1" of "Leg 1" and "First leg", "left" of "Left leg"."""
    words = _WORD.findall(name.lower())
    return frozenset(str(_NUMBERS[w]) for w in words if w in _NUMBERS) | _SIDES.intersection(words)


# -- saying it --------------------------------------------------------------


def _joining(pattern: Pattern, number: int, index: int, course: Course, parts: dict[int, int]) -> Joining:
    piece = pattern.pieces[number - 1]
    needed = [
        JoinPart(number=n, name=part.name, copies=many, stitches=part.courses[-1].makes)
        for n, many in parts.items()
        if (part := pattern.pieces[n - 1])
    ]
    where = f"{course.kind} {course.label}" if course.label != "0" else f"the first {course.kind}"
    first = all(not before.makes for before in piece.courses[:index])
    yarn = _yarn(pattern, piece, course, needed, where) if first else ""
    many = sum(part.copies for part in needed) > 1
    say = (
        f"{where[:1].upper()}{where[1:]} of {piece.name or 'the piece'} goes into {called(needed)}: "
        f"work {'them' if many else 'it'} first, to {'their' if many else 'its'} last {_last(pattern, needed)}."
    )
    return Joining(
        piece=number, course_id=course.id, label=course.label, kind=course.kind, parts=needed,
        makes=course.makes, yarn=yarn, say=f"{say} {yarn}".strip(),
    )  # fmt: skip


def _last(pattern: Pattern, parts: list[JoinPart]) -> str:
    kinds = {pattern.pieces[part.number - 1].courses[-1].kind for part in parts}
    return kinds.pop() if len(kinds) == 1 else "round or row"


def called(parts: Iterable[JoinPart]) -> str:
    """ "both legs", "leg 1 and leg 2", "3 arms", "the arm" """
    names = []
    for part in parts:
        name = part.name.strip() or "piece"
        name = name if name.isupper() and len(name) < 3 else f"{name[:1].lower()}{name[1:]}"
        if part.copies == 1:
            names.append(name if re.search(r"\d", name) else f"the {name}")
        else:
            single = noun(part.name) if len(name.split()) == 1 else name
            names.append(f"both {plural(single)}" if part.copies == 2 else f"{part.copies} {plural(single)}")
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _yarn(pattern: Pattern, piece: Piece, course: Course, parts: list[JoinPart], where: str) -> str:
    """What becomes of the parts' yarn, where the joined course is the first that makes stitches."""
    begun = [cue.text for cue in piece.cues if cue.course_id is None]
    if any(_NEW_YARN.search(text) for text in (course.text, *begun)):
        return "Yarn is joined for it anew: the parts may be cut off as their text says."
    ends = [cue for part in parts for cue in _endings(pattern.pieces[part.number - 1])]
    if any(cue.kind == "hold" or _KEPT.search(cue.text) for cue in ends):
        return f"Make the one whose yarn stays uncut last: {where} goes on from its loop."
    one = sum(part.copies for part in parts) == 1
    if len(ends) >= len(parts):
        return (
            f"The text cuts {'it' if one else 'each of them'} off and does not say what {where} is worked with: "
            f"{'leave its yarn' if one else 'leave the yarn of the last one'} uncut, or join yarn there."
        )
    return f"Leave the yarn of {'it' if one else 'the last one'} uncut: {where} goes on from its loop."


def _endings(piece: Piece) -> Iterator[Cue]:
    """What the text says becomes of a piece's yarn at its end."""
    last = piece.courses[-1].id
    for cue in piece.cues:
        if cue.course_id == last and cue.basis == "written" and cue.kind in ("fasten", "hold", "tail"):
            yield cue


def _stop(pattern: Pattern, joining: Joining, before: Cue | None) -> Cue:
    """The stop before the joined course. Its address names pieces and copies, as runs do: the bench looks for those."""
    piece = pattern.pieces[joining.piece - 1]
    index = next(i for i, course in enumerate(piece.courses) if course.id == joining.course_id)
    course = piece.courses[index]
    last = piece.courses[index - 1] if index else None
    counted = {part.stitches for part in joining.parts}
    each = f", {counted.copy().pop()} stitches {'each' if sum(p.copies for p in joining.parts) > 1 else ''}".rstrip()
    works = f"Worked out, because {course.kind} {course.label} works into {'them' if _many(joining) else 'it'}"
    told = each if len(counted) == 1 and None not in counted else ""
    comes = f", and comes to {course.makes}" if course.makes else ""
    needs = ".".join(f"p{part.number}x{part.copies}" for part in joining.parts)
    return Cue(
        address=f"{course.id}/ready-{needs}",
        after=last.label if last else "0",
        course_id=last.id if last else None,
        at=before.at if before else None,
        kind="join",
        text=f"Have {called(joining.parts)} ready",
        advice=f"{works}{told}{comes}. {joining.yarn}".strip(),
        basis="worked out",
        weight="stop",
        line=before.line if before else course.line,
    )


def _many(joining: Joining) -> bool:
    return sum(part.copies for part in joining.parts) > 1


def _mind_the_yarn(piece: Piece, pattern: Pattern, joining: Joining) -> Piece:
    """The end of a part that is worked in: no tail to sew it on with is told, and where the text cuts it off and the
    joined course begins with nothing, the cut itself says to look there first. Where the text says nothing of its loop
    and it is asked for, that says where the part goes.
    """
    joins = pattern.pieces[joining.piece - 1].name or "the next piece"
    goes = f"Worked out, because the text does not say. It goes into {joining.kind} {joining.label} of {joins}."
    own = f"{joins} is worked on with its own yarn there: nothing starts from this loop."
    mind = ""
    if "does not say what" in joining.yarn:
        mind = f"{joins} goes on from here: see that there is yarn to go on with before you cut the last one."
    ends = {cue.address for cue in _endings(piece)}

    def told(cue: Cue) -> str:
        advice = "" if cue.advice.startswith(TO_SEW_ON) else cue.advice
        return advice if mind in advice else f"{advice} {mind}".strip()

    def said(cue: Cue) -> Cue:
        if cue.address == f"{piece.courses[-1].id}/loop.0":
            return cue.model_copy(update={"advice": f"{goes} {joining.yarn or own}"})
        return cue.model_copy(update={"advice": told(cue)}) if cue.address in ends else cue

    cues = [said(cue) for cue in piece.cues]
    return piece.model_copy(update={"cues": cues})
