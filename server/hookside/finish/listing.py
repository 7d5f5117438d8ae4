"""The list itself: the designer's sentences in their order, and between them what they leave out."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping
from itertools import groupby

from hookside.finish.item import FinishItem
from hookside.finish.parts import Part, parts_of
from hookside.finish.placing import counted
from hookside.pattern import Cue, CueKind, Pattern, Piece, Terms
from hookside.stitches import plural
from hookside.words import said_aloud, translate

_FRONT = re.compile(r"\bfrom the front\b|\blook at (?:it|the)\b", re.IGNORECASE)
_BLOCKED = re.compile(r"\b(?:block|damp|steam|wet|to shape|dry)\w*", re.IGNORECASE)
_NO_BLOCKING = re.compile(r"\b(?:do not|don't|never|no need to) (?:block|steam)", re.IGNORECASE)
_DRAWN_IN = re.compile(r"\b(?:indent|dimple|draw|pull)\w*\b|\bthrough\b", re.IGNORECASE)
_ITS_ENDS = re.compile(r"\bends?\b", re.IGNORECASE)
_CARDS: dict[CueKind, str] = {"pin": "sewing-on", "sew": "sewing-on", "close": "closing"}
_SEAM = re.compile(r"\bseams?\b|\bjoining line\b|\bwhere the rounds? (?:is|are) joined\b", re.IGNORECASE)
_NTH = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")


def finish_list(
    pattern: Pattern, terms: Terms, printed: Mapping[int, int] | None = None, spirals: Collection[int] = ()
) -> list[FinishItem]:
    """What to do when every part is worked, in order, in the maker's terms.

    printed  how many of a piece the text makes, by its number, where the maker makes another number
    spirals  numbers of pieces whose joined rounds she works as a spiral

    The order is that of the text. Where the text does not say, the largest part goes first, and that is said. Pinning
    and looking come before the first seam, ends where the text sees to them, else last.
    """
    parts = parts_of(pattern.pieces, {part.number for joining in pattern.joinings for part in joining.parts})
    if not parts:
        return []
    written = _making_up(parts, pattern.pieces)
    items = _block(parts, [cue.text for piece in pattern.pieces for cue in piece.cues])
    unsaid = _unsaid(parts, written)
    sewing = _sews(written) or bool(unsaid)
    pinned = looked = not (sewing and len(parts) + parts[0].piece.make > 2)
    ends = False
    for cues in _jobs(written):
        kind = cues[0].kind
        text = " ".join(_sentence(translate(cue.text, pattern.terms, terms)) for cue in cues)
        if kind == "weave" and not _of_one_part(text, parts):
            items += _ends(parts, cues[0], text, terms)
            ends = True
            continue
        blocked = kind == "pin" and _BLOCKED.search(text) is not None
        if kind == "pin" and not blocked:
            pinned, looked = True, looked or bool(_FRONT.search(text))
        if kind == "sew" and not pinned:
            items += [_pin(), _look()]
            pinned = looked = True
        elif kind == "sew" and not looked:
            items.append(_look())
            looked = True
        more = " ".join(counted(" ".join(cue.text for cue in cues), parts, terms, pattern.terms))
        at = cues[0].address
        items.append(
            FinishItem(
                id=at, kind="block" if blocked else kind, text=text, more=more, cue=at,
                card=None if blocked else _card(kind, text, parts),
            )
        )  # fmt: skip
    items = _without_seam(items, [part for part in parts if part.number in spirals], parts)
    items = _with_more(items, _beyond(parts, printed or {}))
    added = [*([] if pinned or not unsaid else [_pin(), _look()]), *_sew(unsaid, parts, _sews(written))]
    seams = [place for place, item in enumerate(items, start=1) if item.kind in ("pin", "look", "sew")]
    loose = [place for place, item in enumerate(items) if item.id.endswith("/ends")]
    place = seams[-1] if seams else loose[0] if loose else len(items)
    items[place:place] = added
    if not ends:
        items += _ends(parts, None, "", terms)
    if sewing and any(part.stuffed for part in parts):
        items.append(_tug())
    items = _for_each(items, _toys(parts, printed or {}))
    return [item.model_copy(update={"spoken": said_aloud(f"{item.text} {item.more}".strip(), terms)}) for item in items]


def _jobs(cues: list[Cue]) -> Iterator[list[Cue]]:
    """Neighbouring stops of one kind: one job, as the bench has it under the first's address (compile/numbering.py)."""
    for (_, weight, kind), together in groupby(cues, key=lambda cue: (cue.address.split("/")[0], cue.weight, cue.kind)):
        alike = list(together)
        if weight == "stop" and kind != "other":
            yield alike
        else:
            yield from ([cue] for cue in alike)


def _card(kind: CueKind, text: str, parts: list[Part]) -> str | None:
    """The card that shows a designer's job."""
    if kind == "weave":
        return "ends-stuffed" if any(part.stuffed and part.named_in(text) for part in parts) else "ends-flat"
    if kind == "shape":
        return "shaping" if _DRAWN_IN.search(text) else None
    return _CARDS.get(kind)


def _sentence(text: str) -> str:
    text = re.sub(r"[,;]?\s+(?:and then|and|then)$", "", " ".join(text.split()))
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "!", "?")) else f"{text}."


def _of_one_part(text: str, parts: list[Part]) -> bool:
    """Whether a sentence about ends speaks of one of several parts only."""
    return len(parts) > 1 and sum(part.named_in(text) for part in parts) == 1


def _making_up(parts: list[Part], pieces: list[Piece]) -> list[Cue]:
    """The designer's jobs of making up: its own section, and what is sewn behind the last round of the last part."""
    last = parts[-1].piece
    behind = [cue for cue in last.cues if cue.course_id == last.courses[-1].id and cue.kind in ("pin", "sew")]
    told = [cue for cue in behind if cue.basis == "written" and any(part.spoken_of(cue.text) for part in parts)]
    section = [cue for piece in pieces if not piece.courses for cue in piece.cues]
    return [cue for cue in [*told, *section] if cue.weight != "whisper"]


def _sews(written: list[Cue]) -> bool:
    return any(cue.kind == "sew" for cue in written)


def _unsaid(parts: list[Part], written: list[Cue]) -> list[Part]:
    """Parts that have to go somewhere and that no sentence of the making up names, the largest first; the ground that
    they go on is none of them."""
    text = " ".join(cue.text for cue in written if cue.kind in ("sew", "pin", "join", "shape", "other"))
    if len(parts) < 2:
        return []
    ground = max(parts, key=lambda part: part.size)
    loose = [part for part in parts if part is not ground and not part.joined and not part.spoken_of(text)]
    left = [part for part in loose if part.for_sewing or not _sews(written)]
    return sorted(left, key=lambda part: -part.size)


def _without_seam(items: list[FinishItem], spirals: list[Part], parts: list[Part]) -> list[FinishItem]:
    """A place at the seam is none any more where the rounds are not joined."""

    def told(item: FinishItem) -> FinishItem:
        of = [part for part in spirals if len(parts) == 1 or part.named_in(item.text)]
        if not of or not _SEAM.search(item.text):
            return item
        names = _listed([part.called for part in of])
        has = "have" if len(of) > 1 or of[0].many else "has"
        mind = f"Worked as a spiral {names} {has} no seam: choose the place from the front, and count it in stitches."
        return item.model_copy(update={"more": f"{item.more} {mind}".strip()})

    return [told(item) for item in items]


def _toys(parts: list[Part], printed: Mapping[int, int]) -> int:
    """How many whole ones are made: as many as there are of what all else goes on."""
    ground = max(parts, key=lambda part: part.size)
    return max(1, ground.piece.make // printed.get(ground.number, ground.piece.make))


def _for_each(items: list[FinishItem], toys: int) -> list[FinishItem]:
    """What the text says once is done on every one of them."""
    if toys == 1:
        return items
    once = {"block", "weave", "tug"}  # these speak of all parts that lie there

    def told(item: FinishItem) -> FinishItem:
        each = item.kind not in once and not item.id.endswith("/more")
        return item.model_copy(update={"more": f"{item.more} For each of the {toys}.".strip()}) if each else item

    return [told(item) for item in items]


def _beyond(parts: list[Part], printed: Mapping[int, int]) -> list[tuple[Part, int, int]]:
    """Parts of which more are made than whole toys need: with how many the text has for them, and how many are more."""
    ground = max(parts, key=lambda part: part.size)
    toys = _toys(parts, printed)
    having = [(part, printed.get(part.number, part.piece.make) * toys) for part in parts if part is not ground]
    return [(part, had, part.piece.make - had) for part, had in having if part.piece.make > had]


def _with_more(items: list[FinishItem], beyond: list[tuple[Part, int, int]]) -> list[FinishItem]:
    """A third arm has its place behind the two that the text sews on."""
    for part, had, more in beyond:
        sewn = [place for place, item in enumerate(items, 1) if item.kind == "sew" and part.named_in(item.text)]
        if not sewn:
            continue  # it is asked for as one that the text leaves lying, all of them together
        nth = _NTH[had] if more == 1 and had < len(_NTH) else ""
        name = plural(part.name) if more > 1 else part.name
        items.insert(
            sewn[0],
            FinishItem(
                id=f"p{part.number}/more", kind="sew",
                text=f"Sew the {nth} {name} on." if nth else f"Sew the {more} other {name} on.",
                more=f"The pattern has {had} and no place for {'one' if more == 1 else more} more: pin it, look at it "
                "from the front, then sew.",
                basis="worked out", card="sewing-on",
            ),
        )  # fmt: skip
    return items


def _block(parts: list[Part], said: list[str]) -> list[FinishItem]:
    """`said`: every sentence of the text that asks for something."""
    flat = [part for part in parts if part.flat and len(part.piece.courses) > 1]  # a cord lies as it likes
    if not flat or any(_BLOCKED.search(text) or _NO_BLOCKING.search(text) for text in said):
        return []
    shaped, straps = [[p.called for p in flat if p.strap is strap] for strap in (False, True)]
    how = [
        *([f"{_listed(shaped)} out to shape"] if shaped else []),
        *([f"{_listed(straps)} straight"] if straps else []),
    ]
    stuffed = any(part.stuffed for part in parts)
    only = "Flat parts only: what is stuffed is never blocked." if stuffed else "Flat parts only."
    return [
        FinishItem(
            id="block", kind="block", text=f"Pin {' and '.join(how)}, damp, and let dry before the next step.",
            more=f"{only} Leave it out where the edges lie flat already.",
            basis="worked out",
        )
    ]  # fmt: skip


def _pin() -> FinishItem:
    return FinishItem(
        id="pin", kind="pin", text="Pin every part where it goes, before the first stitch of sewing.",
        more="A part that is pinned can still be moved.", basis="worked out",
        card="sewing-on",
    )  # fmt: skip


def _look() -> FinishItem:
    return FinishItem(
        id="look", kind="look", text="Hold it at arm's length and look at it from the front.",
        more="Is everything in its place, and level? What is pinned can still be moved.", basis="worked out",
    )  # fmt: skip


def _sew(unsaid: list[Part], parts: list[Part], some: bool) -> list[FinishItem]:
    """Parts that the text leaves lying: asked, with the order said."""
    if not unsaid:
        return []
    ground = max(parts, key=lambda part: part.size)
    first = "The pattern does not say in which order: the largest first."
    return [
        FinishItem(
            id=f"p{part.number}/sew", kind="sew", text=f"Sew {part.called} on.",
            more=" ".join(
                [
                    f"Where it goes the pattern does not say{' here' if some else ''}: look at its picture."
                    if not part.many else
                    f"Where they go the pattern does not say{' here' if some else ''}: look at its picture.",
                    *([first] if place == 0 and len(unsaid) > 1 else []),
                    *([f"{ground.called.capitalize()} is the largest part, so the others most likely go on it."]
                      if place == 0 else []),
                ]
            ),
            basis="worked out", card="sewing-on",
        )
        for place, part in enumerate(unsaid)
    ]  # fmt: skip


def _ends(parts: list[Part], cue: Cue | None, text: str, terms: Terms) -> list[FinishItem]:
    """The ends of each part by its own way: through the stuffing, or in three passes (common practice, no source)."""
    items: list[FinishItem] = []
    soft = any(part.stuffed for part in parts)
    for part in [part for part in parts if not _seen_to(part)] or parts:
        each = " each" if part.many else ""
        card = "ends-flat"
        of = f" of {part.called}" if len(parts) > 1 else ""
        if part.stuffed or (part.joined and soft):
            # What is worked into a stuffed piece is filled with it.
            what = f"Bury the ends{of} through the stuffing."
            card = "ends-stuffed"
        elif soft:
            what = (
                f"Bury the ends of {part.called} in the stuffing of what {'they are' if part.many else 'it is'} "
                "sewn to; one that stays in flat work takes three passes."
            )
            card = "ends-stuffed"
        else:
            what = f"Weave in the ends{of}: three passes{each}, the last one back again."
        more = [f"In the designer's words: {text}"] if text else []
        if part.cut:
            colour = "color" if terms == "US" else "colour"
            count = "one change" if part.cut == 1 else f"{part.cut} changes"
            if part.cut < part.changes:
                count = f"{part.cut} of its {part.changes} changes are to a yarn that was not carried along"
            else:
                count = f"it has {count} of {colour}"
            more.append(f"There are two more for each {colour} that was cut: {count}.")
        items.append(
            FinishItem(
                id=f"p{part.number}/ends", kind="weave", text=what, more=" ".join(more),
                basis="written" if text else "worked out", cue=cue.address if cue else None, card=card,
            )
        )  # fmt: skip
    return items


def _seen_to(part: Part) -> bool:
    """Its own text has asked for its ends already."""
    return any(c.kind == "weave" and c.basis == "written" and _ITS_ENDS.search(c.text) for c in part.piece.cues)


def _tug() -> FinishItem:
    return FinishItem(
        id="tug", kind="tug", text="Pull at every part that was sewn on: none may move.",
        more="A soft toy may come into the hands of a baby.", basis="worked out",
    )  # fmt: skip


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
