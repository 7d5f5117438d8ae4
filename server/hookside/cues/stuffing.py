"""Stuffing: in as many goes as the piece needs, each while fingers still reach what is to be filled.

Where a piece narrows at a neck and widens again, what lies before the neck is filled before it, and the rest before
its own closing (common practice, no source). A printed line that is in time for one of these is no word for the others.
"""

from __future__ import annotations

import re

from hookside.cues.filling import PARTS, Filling
from hookside.cues.openings import FINGERS, HAND, TOP_UP, Neck, Opened
from hookside.cues.worked import Worked, course_name, open_after
from hookside.layers import flat
from hookside.notation.askings.when import due_at, when
from hookside.pattern import Cue, Piece
from hookside.stitches import plural
from hookside.unstuffed import ASKED, NOT_STUFFED

LONG = 8  # rounds of a narrow part before it is stuffed on the way
EVERY = 6  # rounds between two goes of it, and how far back fingertips reach: every 5 to 8 (common practice, no source)

NEAR = 2  # rounds: two goes no further apart are one
_FLAT_PART = re.compile(r"\b(?:wing|fin|flipper|ear|fluke|leaf|leaves|petal|flap|feather)s?\b", re.IGNORECASE)
_STUFF = re.compile(r"\bstuff(?:ing)?\b", re.IGNORECASE)
_FROM_HERE_ON = re.compile(
    r"\bas you (?:go|work)\b|\bfrom (?:here|now|this point) on|\b(?:keep|continue|start|begin) (?:to stuff|stuffing)",
    re.IGNORECASE,
)


def stuffing(filling: Filling, number: int, piece: Opened, worked: Worked) -> None:
    """Puts the goes of one piece into `worked`, where the text prints them too late or not at all."""
    own = [cue for cue in piece.piece.cues if cue.kind == "stuff" or NOT_STUFFED.search(cue.text)]
    own = [cue for cue in own if cue not in filling.astray]
    if any(NOT_STUFFED.search(cue.text) for cue in own) or filling.left_empty(piece.piece):
        return
    elsewhere = filling.elsewhere(piece.piece)
    if not own and not elsewhere and (not piece.shuts or _lies_flat(piece)):
        return
    if not own and not elsewhere and not filling.printed:
        _asked(worked, number, piece)
        return
    necks = piece.necks(EVERY)
    spots = [(at, cue) for cue in own if (at := piece.index(cue)) is not None]
    empty, spots = _not_in_time(piece, necks, spots)
    parts = [f"the {name}" if name else "" for name in named_parts(piece.piece, len(necks) + 1)]
    here = [cue for _, cue in spots] or elsewhere
    along = _joined_to(filling, piece.piece, here)
    for place in empty:
        part = f"{along} and {parts[place]}" if along and place == 0 and parts[place] else parts[place]
        _before_neck(worked, number, piece, necks[place], part, here)
    _rest(worked, number, piece, spots, elsewhere, [course_name(piece, necks[place].before) for place in empty], parts)


def _asked(worked: Worked, number: int, piece: Opened) -> None:
    """A piece that is shut, of a text without a word of stuffing: nobody says whether it is filled."""
    last = piece.last_open(FINGERS)
    due = max(last, piece.widest) if last is not None else piece.widest
    ends = [piece.across[0], piece.across[-1]]
    if due >= len(piece.across) - 1 or any(end is None or end > TOP_UP for end in ends):
        return  # a hat that begins at its brim, a bag that is drawn shut
    if _as_written(piece) is not None:
        return
    why = f"the text tells no stuffing, and after {course_name(piece, due)} fingers hardly fit any more"
    text = f"{ASKED} Then stuff it now. Worked out, because {why}."
    worked.put(number, piece, due, "stuff", "pause", text)


def _lies_flat(piece: Opened) -> bool:
    """A wing or a fin whose end is pressed flat: most makers leave it empty (common practice, no source)."""
    return _FLAT_PART.search(piece.piece.name) is not None and _pressed(piece)


def _pressed(piece: Opened) -> bool:
    """Whether its end is pressed flat, or worked through both sides at once."""
    last = piece.piece.courses[-1].id
    return any(flat(cue.text) for cue in piece.piece.cues if cue.course_id == last)


def _not_in_time(
    piece: Opened, necks: list[Neck], spots: list[tuple[int, Cue]]
) -> tuple[list[int], list[tuple[int, Cue]]]:
    """The numbers of the necks before which nothing in time is printed; and the printed lines that are left for the
    last part of the piece."""
    empty: list[int] = []
    left = spots
    for place, neck in enumerate(necks):
        before = [(at, cue) for at, cue in left if at <= neck.after]
        left = [spot for spot in left if spot not in before]
        good = [spot for spot in before if spot[0] >= 0 and open_after(piece, spot[0]) >= TOP_UP]
        if any(_FROM_HERE_ON.search(cue.text) for _, cue in good):
            return empty, [*good, *left]
        if good:
            continue
        just_past = [
            spot for spot in left if spot[0] - neck.before <= EVERY and spot[0] < _full(piece, necks, place + 1)
        ]
        if just_past and neck.mm >= TOP_UP:
            left = [spot for spot in left if spot not in just_past]  # nothing is there to be filled yet but this part
        else:
            empty.append(place)
            left = [*before, *left]  # too late for this part: shown, and said with the rest
    return empty, left


def _full(piece: Opened, necks: list[Neck], place: int) -> int:
    """The first course at which a part of the piece is as wide as it gets."""
    first = necks[place - 1].after + 1 if place else 0
    last = necks[place].before if place < len(necks) else len(piece.across) - 1
    widths = [piece.across[i] or 0.0 for i in range(first, last + 1)]
    return first + widths.index(max(widths)) if widths else first


def _before_neck(worked: Worked, number: int, piece: Opened, neck: Neck, part: str, printed: list[Cue]) -> None:
    what = f"Stuff {part} now" if part else "Stuff what is made so far"
    line = printed[0] if printed else None
    said = f'"{line.text.strip().rstrip(".")}" (line {line.line}) takes more than one go. ' if line else ""
    narrow = course_name(piece, neck.narrowest)
    why = f"it narrows to {neck.mm:.0f} mm at {narrow}, and fingers do not reach back through that"
    worked.put(number, piece, neck.before, "stuff", "stop", f"{what}. {said}Worked out, because {why}.")


def _joined_to(filling: Filling, own: Piece, printed: list[Cue]) -> str:
    """The parts that this piece works in and that the same line has stuffed: they are filled through its opening."""
    first = own.courses[0]
    if first.uses or not printed:
        return ""
    names = [
        plural(piece.name.lower()) if piece.make > 1 else piece.name.lower()
        for piece in filling.named_in(first.text.lower(), printed[0].text.lower())
        if piece is not own
    ]
    return f"the {' and the '.join(names)}" if names else ""


def _rest(
    worked: Worked,
    number: int,
    piece: Opened,
    spots: list[tuple[int, Cue]],
    elsewhere: list[Cue],
    goes: list[str],
    parts: list[str],
) -> None:
    """What lies behind the last neck, or the whole piece. `goes`: where something was asked for already."""
    last = piece.last_open(FINGERS)
    due = max(last, piece.widest) if last is not None else piece.widest
    if due >= len(piece.across) - 1 and not piece.shuts:
        due = len(piece.across) - 1  # it stays open: any time will do
    in_time = [at for at, _ in spots if open_after(piece, at) >= TOP_UP]
    if in_time or (not piece.shuts and spots):
        _on_the_way(number, piece, min(in_time, default=due), worked)
        for _, cue in spots[:1] if goes else []:
            all_of = f"all of {piece.piece.name or 'the piece'}"
            message = (
                f"The stuffing is printed here, when fingers no longer reach {all_of}. Hookside asks for the first "
            )
            worked.note(cue, piece, f"{message}of it at {' and '.join(goes)}.")
        return
    if not piece.shuts:
        return
    late = [cue for _, cue in spots] or elsewhere
    where = course_name(piece, due)
    if late and goes:
        what = f"Stuff {parts[-1]} now" if parts[-1] else "Stuff the rest now"
        said = f'"{late[0].text.strip().rstrip(".")}" is printed in line {late[0].line}'
        text = f"{what}, and the neck with it. {said}. Worked out, because after {where} fingers hardly fit any more."
        worked.put(number, piece, due, "stuff", "stop", text)
    elif late:
        due = _named(piece, late[0], due)
        where = course_name(piece, due)
        worked.move(number, piece, due, late[0], "stop")
    else:
        if (told := _as_written(piece)) is not None and told <= due + 1:
            return  # what could not be read there is shown as it stands, and asks for it
        more = bool(goes) or any(cue.kind == "stuff" for cue in piece.piece.cues)
        rest = "the rest of the " if more else ""
        why = f"no line up to here asks for {rest}stuffing, and after {where} fingers hardly fit any more"
        if _pressed(piece) and not more:  # an arm, a foot: some are filled and some are not
            text = f"{ASKED} Then stuff it now: its end will be pressed flat. Worked out, because {why}."
            worked.put(number, piece, due, "stuff", "pause", text)
        else:
            text = f"Stuff now, while fingers still fit. Worked out, because {why}."
            worked.put(number, piece, due, "stuff", "stop", text)
    _on_the_way(number, piece, due, worked)
    drawn_shut = any(cue.kind == "close" for cue in piece.piece.cues)
    why = "" if drawn_shut else f"when {piece.piece.name or 'the piece'} is already too narrow for fingers"
    for cue in late:
        worked.came_late(cue, piece, " and ".join([*goes, where]), "The stuffing is printed", why=why)


def _named(piece: Opened, cue: Cue, due: int) -> int:
    """The round that a line printed too late names itself, where it still takes stuffing; else where it is due."""
    told = [due_at(piece.piece, told) for told in when(cue.text, cue.kind)]
    named = next((at for at in told if at is not None and at >= 0), due)
    return named if open_after(piece, named) >= TOP_UP else due


def _as_written(piece: Opened) -> int | None:
    """The first round that could not be read and whose words ask for stuffing; None where there is none."""
    rounds = enumerate(piece.piece.courses)
    told = (i for i, of in rounds if not of.read and _STUFF.search(of.text) and not NOT_STUFFED.search(of.text))
    return next(told, None)


def _on_the_way(number: int, piece: Opened, due: int, worked: Worked) -> None:
    """Goes of stuffing in a long, narrow part: fingers do not reach to its tip from the far end.

    The first one only when the part has its width, as stuffing falls out of a bowl; none before an eye or a face that
    is still to come into the same stretch: those need it hollow.
    """
    if any(a is None or a >= HAND for a in piece.across) or due <= LONG:
        return
    necks = piece.necks(EVERY)
    cues = [
        (at, cue) for cue in [*piece.piece.cues, *worked.cues.get(number, [])] if (at := piece.index(cue)) is not None
    ]
    asked = sorted(at for at, cue in cues if cue.kind == "stuff")
    faces = [at for at, cue in cues if cue.kind in ("eyes", "embroider") and cue.address not in worked.late]
    base = _full(piece, necks, 0)
    while (at := base + EVERY) < due - 2:
        there = next((spot for spot in asked if abs(spot - at) <= NEAR), None)
        at = max([at, *(face for face in faces if at <= face <= piece.reach(at)[1])])
        if there is None and at < due - 2:
            text = "Stuff this stretch now. Worked out, because fingers do not reach the tip of a narrow part later."
            worked.put(number, piece, at, "stuff", "pause", text)
        passed = [place for place, neck in enumerate(necks) if neck.before <= (at if there is None else there)]
        base = max(at if there is None else there, _full(piece, necks, passed[-1] + 1) if passed else 0)


def named_parts(piece: Piece, many: int) -> list[str]:
    """What the parts of a piece are called, in the order they are worked: "Head and Body" -> head, body. Empty words
    where its name does not name as many."""
    names = [part.lower() for part in PARTS.split(piece.name.strip()) if part]
    return names if len(names) == many > 1 else [""] * many
