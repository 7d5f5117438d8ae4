"""A pattern and what it comes to -> the list of what to have at hand."""

from __future__ import annotations

import re
from collections.abc import Mapping

from hookside.gather.cautions import cautions
from hookside.gather.hook import hook
from hookside.gather.listing import Gathered, Item, Wanted
from hookside.gather.materials import Listed, listed
from hookside.gather.notions import NOTIONS, Notion, asks, implied, spiral
from hookside.gather.yarn import in_words, yarn
from hookside.habits import worked
from hookside.pattern import Pattern, Piece
from hookside.shape import Asked, Measures, PieceMeasures, Spread
from hookside.words.eyes import BEADS

_EYE_MM = re.compile(r"(\d+(?:[.,]\d+)?)\s*mm", re.I)
_BEADS = re.compile(r"\b(beads|buttons)\b", re.I)
_WITH = re.compile(r"\b(?:in|with|using)\s+(?:the\s+|some\s+|a bit of\s+)?([a-z]{3,})\b(?!\s+stitch)", re.I)
_EYE = re.compile(r"[^.;]*\beyes?\b[^.;]*", re.I)


def gather(
    pattern: Pattern,
    text: str,
    measures: Measures | None,
    asked: Asked | None = None,
    copies: Mapping[int, int] | None = None,
    as_spiral: bool = False,
) -> Gathered:
    """What is needed for the copies wanted.

    `text` is what `pattern` was read from, `measures` what it comes to; None where it can't be measured: no amounts.
    `copies` by the number of a piece; a piece not named: as printed. `as_spiral`: her joined rounds are worked so.
    """
    own = listed(pattern, text)
    wanted = {n: (copies or {}).get(n, piece.make) for n, piece in enumerate(pattern.pieces, start=1)}
    by_number = _measured(pattern, measures)
    asked = asked or Asked()
    takes = hook(pattern, asked, measures)
    if takes is not None and not own.there:
        takes = takes.model_copy(update={"forgotten": False})
    pieces = [worked(piece, pattern, as_spiral, None) for piece in pattern.pieces]
    items = [
        *([takes] if takes else []),
        *yarn(pattern, measures, by_number, wanted, own, asked.yarn),
        *(item for notion in NOTIONS if (item := _notion(notion, pattern, pieces, own, wanted, by_number))),
        *(Item(id=f"other:{_slug(line)}", kind="notion", name=line, printed=line) for line in own.others),
    ]
    none = "The amounts could not be worked out: there is nothing here to measure."
    said = [*measures.warnings, *measures.basis] if measures else [none]
    if not own.there:
        said.insert(0, "The text has no list of what is needed: this one is made from its rounds.")
    changed = any(wanted[n] != piece.make for n, piece in enumerate(pattern.pieces, start=1))
    if changed and own.there:
        said.insert(0, "What the text prints is for the copies it names; the amounts are for yours.")
    return Gathered(
        title=pattern.title,
        pieces=[
            Wanted(number=n, name=piece.name, copies=wanted[n], printed=piece.make)
            for n, piece in enumerate(pattern.pieces, start=1)
            if piece.courses
        ],
        items=_once(items),
        first=[joining.say for joining in pattern.joinings],
        cautions=cautions(items, own, _apart(pattern, by_number)),
        said=said,
    )


def _apart(pattern: Pattern, by_number: dict[int, PieceMeasures]) -> dict[int, PieceMeasures]:
    """The pieces that are ever a part by themselves: what another one's round works in is never one to swallow."""
    within = {part.number for joining in pattern.joinings for part in joining.parts}
    return {number: piece for number, piece in by_number.items() if number not in within}


def _measured(pattern: Pattern, measures: Measures | None) -> dict[int, PieceMeasures]:
    """The measures by the number of their piece: they come in the pattern's order, some pieces without."""
    found: dict[int, PieceMeasures] = {}
    left = list(measures.pieces) if measures else []
    for number, piece in enumerate(pattern.pieces, start=1):
        if left and left[0].name == piece.name and len(left[0].openings_mm) == len(piece.courses) and piece.courses:
            found[number] = left.pop(0)
    return found


def _notion(
    notion: Notion,
    pattern: Pattern,
    pieces: list[Piece],
    own: Listed,
    wanted: dict[int, int],
    by_number: dict[int, PieceMeasures],
) -> Item | None:
    printed = own.notions.get(notion.id, "")
    asked = asks(notion, pieces)
    why = implied(*asked) if asked else ""
    if notion.id == "marker" and not why and (found := spiral(pieces)):
        why = f"implied by round {found[1]} of {found[0].name or 'the piece'}: a spiral shows no start of its own"
    if not printed and not why:
        return None
    if notion.id == "thread" and not printed and asked and _of_the_list(asked[1].text, own.yarns):
        return None
    amount, name = "", notion.name
    if notion.id == "stuffing":
        amount = _stuffing(wanted, by_number)
    elif notion.id == "eyes":
        name, amount = _eyes(pattern, printed, wanted)
    return Item(
        id=notion.id, kind="notion", name=name, amount=amount, printed=printed,
        why="" if printed else why, forgotten=own.there and not printed,
    )  # fmt: skip


def _of_the_list(job: str, yarns: list[str]) -> bool:
    """Whether what is embroidered with is a yarn of the list: "a mouth in navy" beside "navy 12 g"."""
    found = _WITH.search(job)
    return found is not None and any(re.search(rf"\b{re.escape(found[1])}\b", line, re.I) for line in yarns)


def _stuffing(wanted: dict[int, int], by_number: dict[int, PieceMeasures]) -> str:
    of = [(piece.stuffing_g, wanted[number]) for number, piece in by_number.items()]
    total = Spread(**{k: sum(getattr(s, k) * n for s, n in of) for k in ("value", "low", "high")})
    if not total.value:
        return ""
    return f"{in_words(total, 'g')}, from light to firm" if total.high >= 1 else "less than 1 g"


def _eyes(pattern: Pattern, printed: str, wanted: dict[int, int]) -> tuple[str, str]:
    """Name with the size, and how many for all copies: two for each piece that has some, unless it says one."""
    eyes = next(notion for notion in NOTIONS if notion.id == "eyes")
    told = [printed, *(cue.text for piece in pattern.pieces for cue in piece.cues if eyes.asked_by(cue))]
    sizes = [m[1].replace(",", ".") for line in told for part in _EYE.findall(line) for m in _EYE_MM.finditer(part)]
    each = (
        1 if re.search(r"\b(?:one|an|1)\s+(?:\d+\s*mm\s+)?(?:safety\s+|plastic\s+)?eye\b", " ".join(told), re.I) else 2
    )
    pieces = [n for n, piece in enumerate(pattern.pieces, start=1) if any(eyes.asked_by(cue) for cue in piece.cues)]
    many = sum(wanted[n] for n in pieces) * each
    beads = next((m[1].lower() for line in told if (m := _BEADS.search(line)) and BEADS.match(line)), "")
    name = f"{beads} for eyes" if beads else "eyes"
    return (f"{sizes[0]} mm {name}" if sizes else name), (f"{many}" if many else "")


def _slug(line: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", line.lower()).strip("-")[:80]


def _once(items: list[Item]) -> list[Item]:
    """Each id once: what a list names twice is ticked once."""
    return list({item.id: item for item in reversed(items)}.values())[::-1]
