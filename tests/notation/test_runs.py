"""Courses one after another: references, legs and bridges, spaces, turning chains; what is read and what is said."""

from pathlib import Path

import pytest

from hookside.notation import read
from hookside.pattern import Group, makes, uses


def samples() -> list[tuple[str, str, list[str]]]:
    """(name, text, truth) of runs*.txt: a name after "==", the text, then its truth in lines that begin with ">".

    A sample that is about cues names each, with the label of the course before it.
    """
    out = []
    files = sorted(Path(__file__).parent.glob("runs*.txt"))
    for block in [b for f in files for b in f.read_text(encoding="utf-8").split("\n== ")[1:]]:
        name, *rest = block.splitlines()
        text = [line for line in rest if not line.startswith(">")]
        out.append((name, "\n".join(text).strip("\n"), [line[1:].strip() for line in rest if line.startswith(">")]))
    return out


def made(name: str, copies: int, truth: list[str]) -> str:
    """ " x2" behind a name where the truth tells the copies of this part: "Wings x2: 6 12"."""
    return f" x{copies}" if any(t.startswith(f"{name} x") for t in truth) else ""


@pytest.mark.parametrize(("name", "text", "truth"), samples(), ids=[s[0] for s in samples()])
def test_run(name: str, text: str, truth: list[str]) -> None:
    pattern = read(text)
    told = [
        f"{piece.name}{made(piece.name, piece.make, truth)}: "
        + " ".join("?" if c.makes is None else str(c.makes) for c in piece.courses)
        for piece in pattern.pieces
        if piece.courses
    ]
    said = sorted({f"{f.severity} {f.course}" for f in pattern.findings if f.course})
    cues = [f"cue {cue.kind} {cue.after}" for piece in pattern.pieces for cue in piece.cues]
    assert told == [t for t in truth if not t.startswith(("said ", "cue "))], name
    if any(t.startswith("cue ") for t in truth):
        assert cues == [t for t in truth if t.startswith("cue ")], name
    assert said == sorted(t.removeprefix("said ") for t in truth if t.startswith("said ")), name
    for piece in pattern.pieces:
        for course in piece.courses:
            if course.read:
                assert (uses(course.body), makes(course.body)) == (course.uses, course.makes)


def test_mb_is_single_crochet_in_italian_rounds_and_a_bobble_elsewhere() -> None:
    rounds = ["1: 6 sc in MR (6)", "2: 6 inc (12)", "3: 12 mb (12)"]
    for word, meant in (("Giro", "sc"), ("Rnd", "bobble")):
        pattern = read("\n".join(["Palla", *(f"{word} {line}" for line in rounds)]))
        (last,) = pattern.pieces[0].courses[2].body
        assert isinstance(last, Group)
        assert last.stitch == meant


@pytest.mark.parametrize(
    ("key", "meant"),
    [("mb - mesh low", "sc"), ("mb = knot tall", "mb"), ("mb = make bobble", "bobble"), ("pc - popcorn", "popcorn")],
)
def test_what_the_key_of_a_text_explains_is_not_taken_from_our_own_words(key: str, meant: str) -> None:
    name = key[:2]
    rounds = ["R1: 6 sc in MR (6)", "R2: 6 inc (12)", f"R3: 12 {name} (12)"]
    pattern = read("\n".join([f"Abbreviations: {key}, inc - increase", "", "Ball", *rounds]))
    (last,) = pattern.pieces[0].courses[2].body
    assert isinstance(last, Group)
    assert last.stitch == meant
    assert any(name in f.message for f in pattern.findings) == (meant == "mb")


@pytest.mark.parametrize("words", ["all dc (12)", "dc only", "plain dc", "3 rounds of double crochet", "all in dc"])
def test_plain_rounds_of_a_taller_stitch_are_worked_in_it(words: str) -> None:
    pattern = read(f"Ball\nR1: 6 sc in MR (6)\nR2: 6 inc (12)\nR3: {words}")
    (last,) = pattern.pieces[0].courses[-1].body
    assert isinstance(last, Group)
    assert (last.stitch, pattern.pieces[0].courses[-1].makes) == ("dc", 12)


@pytest.mark.parametrize("key", ["SP = magic loop", "SP stands for magic ring", "lp = adjustable loop"])
def test_a_ring_by_letters_that_mean_something_else_elsewhere_is_a_ring(key: str) -> None:
    pattern = read(f"{key}\nBall\nR1: 6 sc in {key.split()[0]} (6)\nR2: inc x 6 (12)")
    (first,) = [node for node in pattern.pieces[0].courses[0].body if isinstance(node, Group) and node.stitch == "sc"]
    assert first.into == "ring"
