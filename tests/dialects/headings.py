"""What stands over a piece: its name in a dress, and of how many copies."""

from __future__ import annotations

from .amounts import in_words
from .dialect import Dialect
from .made import Piece

DRESS = {
    "Body": 3, "BODY": 3, "Body:": 3, "**Body**": 1, "## Body": 0.8, "--- Body ---": 0.5, "~ Body ~": 0.4,
    "[Body]": 0.3, "The Body": 0.3, "* Body *": 0.2, "Body\n====": 0.5, "Part 1: Body": 0.4, "= Body =": 0.3,
    "BODY:": 0.7, "Body -": 0.2, "1. Body": 0.0, "<Body>": 0.1, "__Body__": 0.3, "BODY\n----": 0.3, "### BODY": 0.3,
    "For the body:": 0.3, "Body.": 0.2, "\u2022 Body": 0.1, "body": 0.3, ":: Body ::": 0.1, "PART 1 - BODY": 0.2,
    "Now the body": 0.1, "Body =": 0.0, "\u2605 Body": 0.1, "_Body_": 0.2, "\u201cBody\u201d": 0.0, "#1 Body": 0.0,
    "Step 1 - Body": 0.2,
}  # fmt: skip
COPIES = {
    "Arm (make 2)": 5, "Arm (x2)": 1, "Arm x2": 1.2, "Arm - make two": 1, "Arm (2)": 0.7, "2 Arm": 0.0,
    "Arm, make 2": 1, "Make 2: Arm": 0.2, "Arm (make 2 the same)": 0.4, "Arm 2x": 0.4, "Arm (make two)": 1,
    "Arm x 2": 0.7, "Arm (2 pieces)": 0.3, "Arm (2x)": 0.5, "Arm [make 2]": 0.4, "Arm - 2 pcs": 0.2,
    "Arm (both alike)": 0.0, "Arm: make 2": 0.5, "Arm (work 2)": 0.3, "below": 0.6, "Arm (you need 2)": 0.2,
}  # fmt: skip


def heading(d: Dialect, piece: Piece, at: int) -> list[str]:
    """The lines over a piece; `at` counts pieces from 1."""
    name = piece.name
    if piece.make > 1 and d.has("heading.plural", 0.6):
        name = {"Leg": "Legs", "Wing": "Wings"}.get(name, name + ("es" if name.endswith("y") else "s")).replace(
            "yes", "ies"
        )
    dress = d.pick("heading.dress", DRESS)
    below: list[str] = []
    if piece.make > 1:
        form = d.pick("heading.copies", COPIES)
        if form == "below":
            below = [d.pick("heading.copies below", ["Make 2", "Make 2.", "(make 2)", "Make two of these."])]
            below = [b.replace("2", str(piece.make)).replace("two", in_words(piece.make)) for b in below]
        else:
            # of the copies' words only the number is the pattern's, the name is put in last
            name = form.replace("two", in_words(piece.make)).replace("2", str(piece.make)).replace("Arm", name)
    if "BODY" in dress:
        name = name.upper() if piece.make == 1 else name.split(" ")[0].upper() + name[len(name.split(" ")[0]) :]
    if "body" in dress:
        name = name.lower()
    text = dress.replace("1", str(at)).replace("Body", name).replace("BODY", name).replace("body", name)
    if "\n" in text:
        top, rule = text.split("\n")
        return [top, rule[0] * len(top), *below]
    return [text, *below]
