"""The list itself: the designer's sentences in their order, and between them what they leave out."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import groupby

from hookside.finish.item import FinishItem
from hookside.finish.parts import Part, parts_of
from hookside.finish.placing import counted
from hookside.pattern import Cue, CueKind, Pattern, Terms
from hookside.words import said_aloud, translate

_FRONT = re.compile(r"\bfrom the front\b|\blook at (?:it|the)\b", re.IGNORECASE)
_BLOCKED = re.compile(r"\b(?:block|damp|steam|wet|to shape|dry)\w*", re.IGNORECASE)
_NO_BLOCKING = re.compile(r"\b(?:do not|don't|never|no need to) (?:block|steam)", re.IGNORECASE)
_DRAWN_IN = re.compile(r"\b(?:indent|dimple|draw|pull)\w*\b|\bthrough\b", re.IGNORECASE)
_ITS_ENDS = re.compile(r"\bends?\b", re.IGNORECASE)
_CARDS: dict[CueKind, str] = {"pin": "sewing-on", "sew": "sewing-on", "close": "closing"}
WORTH_BLOCKING = (
    60  # stitches: a strap of a few rows is drawn straight between two fingers (common practice, no source)
)


def finish_list(pattern: Pattern, terms: Terms) -> list[FinishItem]:
    """What to do when every part is worked, in order, in the maker's terms.

    The order is that of the text. Where the text does not say, the largest part goes first, and that is said. Pinning
    and looking come before the first seam, ends where the text sees to them, else last.
    """
    parts = parts_of(pattern.pieces)
    if not parts:
        return []
    written = [cue for piece in pattern.pieces if not piece.courses for cue in piece.cues if cue.weight != "whisper"]
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
    added = [*([] if pinned or not unsaid else [_pin(), _look()]), *_sew(unsaid, parts, _sews(written))]
    seams = [place for place, item in enumerate(items, start=1) if item.kind in ("pin", "look", "sew")]
    loose = [place for place, item in enumerate(items) if item.id.endswith("/ends")]
    place = seams[-1] if seams else loose[0] if loose else len(items)
    items[place:place] = added
    if not ends:
        items += _ends(parts, None, "", terms)
    if sewing and any(part.stuffed for part in parts):
        items.append(_tug())
    return [item.model_copy(update={"spoken": said_aloud(f"{item.text} {item.more}".strip(), terms)}) for item in items]


def _jobs(cues: list[Cue]) -> Iterator[list[Cue]]:
    """Neighbouring stops of one kind are asked as one on the bench, under the first one's address (compile.py)."""
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


def _sews(written: list[Cue]) -> bool:
    return any(cue.kind == "sew" for cue in written)


def _unsaid(parts: list[Part], written: list[Cue]) -> list[Part]:
    """Parts that have to go somewhere and that no sentence of the making up names, the largest first; the ground that
    they go on is none of them."""
    text = " ".join(cue.text for cue in written if cue.kind in ("sew", "pin", "join", "shape", "other"))
    if len(parts) < 2:
        return []
    ground = max(parts, key=lambda part: part.size)
    left = [p for p in parts if p is not ground and not p.named_in(text) and (p.for_sewing or not _sews(written))]
    return sorted(left, key=lambda part: -part.size)


def _block(parts: list[Part], said: list[str]) -> list[FinishItem]:
    """`said`: every sentence of the text that asks for something."""
    flat = [part for part in parts if part.flat and part.size >= WORTH_BLOCKING]
    if not flat or any(_BLOCKED.search(text) or _NO_BLOCKING.search(text) for text in said):
        return []
    names = _listed([part.called for part in flat])
    stuffed = any(part.stuffed for part in parts)
    only = "Flat parts only: what is stuffed is never blocked." if stuffed else "Flat parts only."
    return [
        FinishItem(
            id="block", kind="block", text=f"Pin {names} out to shape, damp, and let dry before the next step.",
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
        if part.stuffed:
            what = f"Bury the ends of {part.called} through the stuffing."
            card = "ends-stuffed"
        elif soft:
            what = (
                f"Bury the ends of {part.called} in the stuffing of what {'they are' if part.many else 'it is'} "
                "sewn to; one that stays in flat work takes three passes."
            )
            card = "ends-stuffed"
        else:
            what = f"Weave in the ends of {part.called}: three passes{each}, the last one back again."
        more = [f"In the designer's words: {text}"] if text else []
        if part.colours:
            changes = "one change" if part.colours == 1 else f"{part.colours} changes"
            colour = "color" if terms == "US" else "colour"
            more.append(f"There are two more for each {colour} that was cut: it has {changes} of {colour}.")
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
