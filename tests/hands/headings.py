"""What stands over a piece: its name, its colour, how many of it."""

from __future__ import annotations

from dialects.amounts import in_words
from dialects.dialect import Dialect
from dialects.made import Piece

DRESS = (
    "Head", "HEAD", "Head:", "**Head**", "== Head ==", "## Head", "1. Head", "1) Head", "For the head",
    "For the head:",
    "The Head", "--- Head ---", "[Head]", "~ Head ~", "Head -", "Part 1: Head", "Part 1 - Head", "* Head *", "_Head_",
    "Head.", "head", "Head\n----", "Head\n====", "HEAD:", "<Head>", "Step 1: Head", "\u2022Head\u2022",
    "A. Head", "-Head-", "Head\u2026",
    "Now the head:", "First, the head.", "Making the head", "How to make the head:", "\u2665 Head \u2665",
    "*~Head~*", "## 1. Head",
    "| Head |", "Head pattern:", "Head (worked from the top)", "#1 - Head", "I. Head", ">> Head", "=Head=", "(Head)",
    "THE HEAD", "Head part", "to make the head", "The head is first.", "Piece 1 (Head)", "Head!", "+ Head +",
    "Head >>>",
)  # fmt: skip
COPIES = (
    "N (make 2)", "N (x2)", "N x2", "N x 2", "N - make two", "N (2)", "N, make 2", "N 2x", "N (2x)",
    "N [make 2]", "2 N",
    "N - x2", "N (make two)", "N: make 2", "N - 2 pieces", "N (2 pcs)", "N x2 pieces", "N (make 2 of these)",
    "N \u00d72",
    "N / make 2", "N (2 pieces)", "N, 2x", "N *2", "N (need 2)", "N (do 2)", "N {2}", "N \u2013 2",
    "N (2 alike)", "N, x2",
    "N (work 2)", "N (do this 2 times)", "below make 2", "below (make 2)", "below Make two of these.", "below x2",
    "below You need 2.", "below You will need to make 2", "below Do this 2 times.", "N (repeat for 2)",
    "N, two of them",
)  # fmt: skip
COLOURS = (
    "N - white", "N (white)", "N, white", "N in white", "N: white", "N (in white)", "N [white]", "N - in white",
    "White N",
    "N (with white yarn)", "N / white", "below In white.", "below white yarn", "below Use white.",
    "below With white:",
    "below (white)", "below Colour: white", "below Yarn: white", "N \u2013 white yarn", "N (using white)",
    "below white",
    "below Work in white yarn.", "N, in white yarn", "below Start with white.", "below Yarn colour - white",
)  # fmt: skip


def heading(d: Dialect, piece: Piece, at: int, colour: str) -> list[str]:
    """Rule: a name with more behind it is in no dress that closes or speaks a sentence."""
    name, below = piece.name, []
    if colour and d.has("hand.colours told", 0.25):
        form = d.pick("hand.heading colour", COLOURS).replace("white", colour).replace("White", colour.capitalize())
        if form.startswith("below "):
            below.append(form.removeprefix("below "))
        else:
            name = form.replace("N", name)
    if piece.make > 1:
        form = d.pick("hand.heading copies", COPIES)
        many = "s" if d.has("hand.heading plural", 0.5) else ""
        if many and name.endswith("y"):
            many = ""
        form = form.replace("two", in_words(piece.make)).replace("2", str(piece.make))
        if form.startswith("below "):
            below.append(form.removeprefix("below "))
            name += many if name == piece.name else ""
        else:
            name = form.replace("N", name + (many if name == piece.name else ""), 1)
    dress = d.pick("hand.heading", DRESS)
    spoken = "ead (" in dress or "is first" in dress or "pattern" in dress or "part" in dress
    if name != piece.name and spoken:
        dress = "Head"
    if "HEAD" in dress:
        cut = len(piece.name)
        name = name[:cut].upper() + name[cut:] if name.startswith(piece.name) else name
        text = dress.replace("HEAD", name)
    elif "head" in dress and "Head" not in dress:
        text = dress.replace("head", name.lower())
    else:
        text = dress.replace("Head", name)
    text = text.replace("1", str(at)).replace("A. ", "ABCDEFG"[at - 1] + ". ")
    text = text.replace("I. ", ("I", "II", "III", "IV", "V")[at - 1] + ". ") if text.startswith("I. ") else text
    if at > 1:
        text = text.replace("First, the", "Then the").replace("is first", "is next")
    return [*text.split("\n"), *below]
