"""`hookside mend`: what can be done about a stitch too many or too few, for a shell."""

from __future__ import annotations

import json

import click

from hookside.cli.files import put, stop, text_of
from hookside.cli.reading import TermsName
from hookside.follow import Strand
from hookside.mend.counting import LARGEST, ways_out
from hookside.mend.ground import cap, name
from hookside.mend.offering import MOST
from hookside.mend.talk import Offer
from hookside.pattern import Terms


@click.command("mend", short_help="Say what can be done about a stitch too many or too few.")
@click.argument("file", metavar="FILE")
@click.argument("label", metavar="ROUND")
@click.argument("counted", metavar="COUNT", type=click.IntRange(0, LARGEST))
@click.option("--piece", default="", metavar="NAME", help="The piece, where the pattern has several.")
@click.option("--json", "as_json", is_flag=True, help="Print the offers for programs.")
@click.option("--terms", type=TermsName(), metavar="US|UK", help="The terms the pattern is written in.")
def mend_(file: str, label: str, counted: int, piece: str, as_json: bool, terms: Terms | None) -> None:
    """Say what can be done when COUNT stitches stand at the end of round or row ROUND of the pattern in FILE.

    "-" reads standard input. The smallest mend comes first, with the altered round spelled out.
    Ends with 2 when there is no such piece or round.
    """
    strand = _strand(text_of(file), piece, terms)
    index = next((i for i, course in enumerate(strand.courses) if course.label == label), None)
    if index is None:
        known = ", ".join(course.label for course in strand.courses)
        stop(f"{strand.piece or 'This piece'} has no round or row {label}; it has {known}.")
    course = strand.courses[index]
    if not course.makes:
        stop(f"How many stitches {name(course)} has is not known, so no count can be held against it.")
    found = ways_out(strand, index, counted)
    if as_json:
        form = {
            "piece": strand.piece, "course": course.label, "expected": course.makes, "counted": counted,
            "offers": [offer.model_dump(mode="json", exclude={"mend", "to"}) for offer in found],
        }  # fmt: skip
        put(json.dumps(form, ensure_ascii=False, indent=1) + "\n", None)
        return
    lines = [f"{cap(name(course))} of {strand.piece or 'the piece'}: {course.makes} as written, {counted} counted."]
    if counted == course.makes:
        lines.append("That is right.")
    elif abs(counted - course.makes) > MOST:
        lines.append("So many are more than a mend can hide: count once more, or pull it out.")
    put("\n".join([*lines, *(line for offer in found for line in _told(offer))]) + "\n", None)


def _told(offer: Offer) -> list[str]:
    title = f"{offer.title}: not here" if offer.kind == "refused" else offer.title
    return ["", title, f"  {offer.say}"]


def _strand(text: str, piece: str, terms: Terms | None) -> Strand:
    from hookside.compile import Choices, lay, read

    laid = lay(read(text, terms), text, Choices(anyway=True))
    strands = [one.strand for one in laid if one.copy == 1 and one.strand.courses]
    if not strands:
        stop("There is no round and no row in this pattern.")
    wanted = [one for one in strands if one.piece.casefold() == piece.casefold()] if piece else strands
    names = ", ".join(one.piece for one in strands)
    if not wanted:
        stop(f"There is no piece called {piece}; there are {names}.")
    if len(wanted) > 1:
        stop(f"Name the piece with --piece: {names}.")
    return wanted[0]
