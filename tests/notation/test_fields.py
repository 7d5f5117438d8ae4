"""Rounds told as the fields of a form are courses with their counts, whatever the fields are called. All is demo."""

import pytest

from hookside.compile import read

ROWS = [
    ("1", "6 sc in mr", "6", "", "grey"),
    ("2", "inc x 6", "12", "", "grey"),
    ("3", "(sc, inc) x 6", "18", "ears go here", "black"),
    ("4-6", "sc around", "18", "", "black"),
    ("7", "dec x 9", "9", "stuff first", "grey"),
]
FORMS = [
    "Round: {0}\n{1}\nStitches: {2}",
    "Rnd: {0}\n{1}\nSts: {2}\n",
    "Round: {0}\n\n{1}\n\nStitches: {2}\n",
    "Row: {0}\nDo: {1}\nTotal stitches: {2}",
    "Round {0}\nWork: {1}\nTotal: {2}",
    "R{0}\n{1}\nSts: {2}",
    "R{0}: {1}\nSts: {2}",
    "{0}.\n{1}\nSts: {2}",
    "Rnd {0}\n{1}\n(Sts: {2})",
    "Step: {0}\n{1}\nStitches: {2}",
    "Round no.: {0}\n{1}\nNo. of stitches: {2}",
    "Round = {0}\nWork = {1}\nStitches = {2}",
    "**Round:** {0}\n**Work:** {1}\n**Stitches:** {2}\n",
    "- round: {0}\n  work: {1}\n  count: {2}",
    "Round: {0} / {1} / Stitches: {2}",
    "Round: {0}, {1}, Stitches: {2}",
    "| Round: {0} | Work: {1} | Sts: {2} |",
    "ROUND: {0}\nSTITCHES: {2}\n{1}",
    '{{"round": "{0}", "work": "{1}", "count": {2}}}',
]


@pytest.mark.parametrize("form", FORMS)
def test_each_record_is_a_course(form: str) -> None:
    text = "Ball\n" + "\n".join(form.format(*row) for row in ROWS) + "\n"
    pattern = read(text)
    (ball,) = pattern.pieces
    assert [(c.label, c.makes) for c in ball.courses] == [
        ("1", 6), ("2", 12), ("3", 18), ("4", 18), ("5", 18), ("6", 18), ("7", 9),
    ]
    assert [c.declared for c in ball.courses] == [6, 12, 18, 18, 18, 18, 9]
    assert not [f for f in pattern.findings if f.severity != "note"]
    assert not [c for c in ball.cues if c.basis == "written"]


@pytest.mark.parametrize(
    "form",
    [
        "Round: {0}\n{1}\nStitches: {2}\nNotes: {3}\n",
        "Round: {0}\nNotes: {3}\nWork: {1}\nSts: {2}\n",
        "Round: {0} / {1} / Sts: {2} / {3}",
    ],
)
def test_a_field_of_notes_is_told_at_its_round(form: str) -> None:
    (ball,) = read("Ball\n" + "\n".join(form.format(*row) for row in ROWS) + "\n").pieces
    assert [c.makes for c in ball.courses] == [6, 12, 18, 18, 18, 18, 9]
    told = [(c.after, c.text) for c in ball.cues if c.basis == "written"]
    assert told == [("3", "Ears go here"), ("6", "Stuff first")]


@pytest.mark.parametrize(
    "form", ["Round: {0}\nColour: {4}\nWork: {1}\nSts: {2}\n", "Round {0}\n{1}\nSts: {2}\nYarn: {4}\n"]
)
def test_a_field_of_colours_is_that_of_its_round(form: str) -> None:
    (ball,) = read("Ball\n" + "\n".join(form.format(*row) for row in ROWS) + "\n").pieces
    assert [(c.after, c.text.lower().strip(".").split()[-1]) for c in ball.cues if c.kind == "colour"] == [
        ("0", "grey"), ("2", "black"), ("6", "grey"),
    ]


def test_parts_and_their_copies_may_be_fields() -> None:
    text = "Part: Head\nRound: 1\n6 sc in mr\nStitches: 6\nRound: 2\ninc x 6\nStitches: 12\n\n"
    text += "Part: Ear\nMake: 2\nRound: 1\n5 sc in mr\nStitches: 5\nRound: 2\nsc around\nStitches: 5\n"
    pieces = read(text).pieces
    assert [(p.name, p.make) for p in pieces] == [("Head", 1), ("Ear", 2)]
    assert [[c.makes for c in p.courses] for p in pieces] == [[6, 12], [5, 5]]
