"""A piece that narrows at a neck and widens again: stuffing in goes, faces while their part is in reach. Demo patterns.

Practice of the trade, no source: stuff while two fingers fit (18 stitches of 5 mm, 28.6 mm), top up at 15 mm.
"""

from __future__ import annotations

from itertools import pairwise

from hookside.compile import Choices, lay, read
from hookside.cues import counts
from hookside.pattern import Cue, Pattern
from hookside.shape import Asked

# Stitches of 100 / 24 = 4.17 mm: 18 are 23.9 mm across, 24 are 31.8, 30 are 39.8, 36 are 47.7 (n w / pi).
PILOT = """Harbour Pilot
US terms
Gauge: 24 sts and 25 rounds = 10 cm

{name}
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: inc x 6. (12)
Rnd 3: (sc, inc) x 6. (18)
Rnd 4: (2 sc, inc) x 6. (24)
Rnd 5: (3 sc, inc) x 6. (30)
Rnds 6-10: sc around. (30)
Rnd 11: (3 sc, dec) x 6. (24)
{before_neck}
Rnd 12: (2 sc, dec) x 6. (18)
Change to navy.
Rnd 13: sc around. (18)
Rnd 14: (2 sc, inc) x 6. (24)
{behind_neck}
Rnd 15: (3 sc, inc) x 6. (30)
Rnd 16: (4 sc, inc) x 6. (36)
Rnds 17-21: sc around. (36)
Rnd 22: (4 sc, dec) x 6. (30)
Rnd 23: (3 sc, dec) x 6. (24)
{late}
{end}

{assembly}
"""
SHUT = """Rnd 24: (2 sc, dec) x 6. (18)
Rnd 25: (sc, dec) x 6. (12)
Rnd 26: dec x 6. (6)
Fasten off, leaving a 25 cm tail."""
OPEN = "Fasten off, leaving a 50 cm tail."


def pilot(name: str = "Head and Body", end: str = SHUT, **lines: str) -> Pattern:
    given = dict.fromkeys(("before_neck", "behind_neck", "late", "assembly"), "") | lines
    return read(PILOT.format(name=name, end=end, **given))


def found(pattern: Pattern, kind: str, basis: str = "worked out") -> list[Cue]:
    return [c for c in pattern.pieces[0].cues if c.basis == basis and c.kind == kind]


def test_a_head_is_stuffed_before_its_neck_and_the_body_before_it_closes() -> None:
    pattern = pilot(assembly="Assembly\nStuff the head and the body firmly.")
    head, body = found(pattern, "stuff")
    assert [(c.after, c.weight) for c in (head, body)] == [("11", "stop"), ("23", "stop")]
    assert (head.words.short, body.words.short) == ("Stuff the head now", "Stuff the body now")
    assert "Worked out, because it narrows to 24 mm at round 12" in head.text
    assert '"Stuff the head and the body firmly"' in head.text
    (note,) = [f for f in pattern.findings if f.code == "printed-late"]
    assert "at round 11 and round 23" in note.message
    assert "round 11 and round 23" in pattern.pieces[1].cues[0].words.full


def test_parts_that_the_name_does_not_tell() -> None:
    head, body = found(pilot(name="Pilot", assembly="Assembly\nStuff the pilot."), "stuff")
    assert (head.words.short, body.words.short) == (
        "Stuff what is made so far",
        "Stuff the rest now",
    )


def test_a_head_named_alone_under_assembly_is_found_in_a_piece_named_for_two() -> None:
    assert [c.after for c in found(pilot(assembly="Assembly\nStuff the head."), "stuff")] == ["11", "23"]


def test_a_line_in_time_for_the_body_is_no_word_for_the_head() -> None:
    pattern = pilot(late="Stuff the head and the body firmly.")
    assert [c.after for c in found(pattern, "stuff")] == ["11"]
    assert [(c.after, c.weight) for c in found(pattern, "stuff", "written")] == [("23", "stop")]
    (note,) = [f for f in pattern.findings if f.code == "printed-late"]
    assert "Hookside asks for the first of it at round 11" in note.message


def test_a_line_in_time_for_the_head_is_no_word_for_the_body() -> None:
    for where in ("before_neck", "behind_neck"):
        pattern = pilot(**{where: "Stuff the head firmly."})
        assert [c.after for c in found(pattern, "stuff")] == ["23"], where
        assert "no line up to here asks for the rest of the stuffing" in found(pattern, "stuff")[0].text


def test_lines_in_time_for_both_are_never_doubled() -> None:
    for where in ("before_neck", "behind_neck"):
        assert found(pilot(**{where: "Stuff the head firmly.", "late": "Stuff the body."}), "stuff") == [], where
    assert found(pilot(before_neck="Stuff firmly, and keep stuffing as you go."), "stuff") == []


def test_a_body_that_stays_open_still_needs_its_head_filled_before_the_neck() -> None:
    pattern = pilot(end=OPEN, late="Stuff the head and the body.")
    assert [c.after for c in found(pattern, "stuff")] == ["11"]


def test_no_neck_where_it_hardly_narrows() -> None:
    """20 stitches of 4.17 mm are 26.5 mm: fingers do not fit, but it is no neck between 24 and 24."""
    text = """Float
US terms
Gauge: 24 sts and 25 rounds = 10 cm

Float
Rnd 1: 6 sc in magic ring. (6)
Rnd 2: inc x 6. (12)
Rnd 3: inc x 12. (24)
Rnd 4: (4 sc, dec) x 4. (20)
Rnd 5: (4 sc, inc) x 4. (24)
Rnds 6-9: sc around. (24)
Rnd 10: dec x 12. (12)
Rnd 11: dec x 6. (6)
Fasten off and close the hole.

Assembly
Stuff the float.
"""
    assert [c.after for c in found(read(text), "stuff")] == ["9"]


def test_a_mouth_is_stitched_a_round_past_its_own_before_the_colour_changes() -> None:
    (mouth,) = found(pilot(assembly="Assembly\nEmbroider the mouth between rounds 9 and 10."), "embroider")
    assert (mouth.after, mouth.weight) == ("11", "pause")


def test_eyes_low_in_the_head_are_never_asked_for_from_behind_the_neck() -> None:
    """Before the neck it is never 45 mm open: the widest of the head counts, not that of the body."""
    (eyes,) = found(pilot(assembly="Assembly\nPut the safety eyes in between rounds 9 and 10."), "eyes")
    assert (eyes.after, eyes.weight) == ("10", "stop")


def test_eyes_printed_beside_the_body_are_too_late_for_the_head() -> None:
    pattern = pilot(late="Insert the safety eyes between rounds 7 and 8.")
    assert [c.after for c in found(pattern, "eyes")] == ["10"]
    assert any("a neck lies between" in f.message for f in pattern.findings)


def test_eyes_without_a_round_go_into_the_head() -> None:
    (eyes,) = found(pilot(assembly="Assembly\nPut the safety eyes into the head."), "eyes")
    assert eyes.after == "10"


def test_what_needs_it_hollow_comes_before_the_stuffing() -> None:
    text = "Assembly\nEmbroider the mouth between rounds 9 and 10.\nPut the safety eyes in between rounds 8 and 9."
    for lines in ({"assembly": f"{text}\nStuff the head."}, {"assembly": text, "before_neck": "Stuff the head."}):
        pattern = pilot(**lines)
        kinds = [
            c.kind for c in lay(pattern, "", Choices())[0].strand.cues if c.weight == "stop" or c.kind == "embroider"
        ]
        assert kinds[:3] == ["eyes", "embroider", "stuff"]
        tail = [c for piece in pattern.pieces for c in piece.cues if c.kind == "stuff" and "starting tail" in c.advice]
        assert [c.after for c in tail] == ["11"], "the starting tail lies behind the neck too"


def test_stuffing_on_the_way_never_comes_before_the_eyes() -> None:
    """Stitches of 100 / 34 mm: 36 are 33.7 mm across, the whole piece is narrow; 30 are 28.1, so fingers fit by
    round 10 and not behind."""
    text = PILOT.format(
        name="Head and Body", end=SHUT, before_neck="", behind_neck="", late="",
        assembly="Assembly\nPut the eyes between rounds 7 and 8.\nStuff the head and the body firmly.",
    )  # fmt: skip
    pattern = read(text, asked=Asked(gauge="34 sts = 10 cm"))
    order = [(c.kind, c.after) for c in pattern.pieces[0].cues if c.kind in ("eyes", "stuff")]
    assert order == [("eyes", "10"), ("stuff", "10"), ("stuff", "22")]


def test_a_long_narrow_part_with_eyes_in_time_is_stuffed_behind_them() -> None:
    pattern = read(
        "Eel\nUS terms\nGauge: 20 sts and 20 rounds = 10 cm\n\nEel\nRnd 1: 6 sc in magic ring (6)\n"
        "Rnd 2: inc x 6 (12)\nRnds 3-11: sc around (12)\nPut the eyes between rounds 8 and 9.\n"
        "Rnds 12-30: sc around (12)\nStuff the eel.\nFasten off, leaving a 30 cm tail for sewing."
    )
    labels = [int(c.after) for c in found(pattern, "stuff")]
    assert labels[0] >= 11
    assert all(5 <= b - a <= 8 for a, b in pairwise(labels))


def test_counted_at_first_where_it_shapes_and_before_it_is_stuffed() -> None:
    piece = pilot(assembly="Assembly\nStuff the head and the body firmly.").pieces[0]
    # The first three, and each that shapes; the plain ones between them keep their count.
    after = [int(c.after) for c in counts(piece)]
    assert after == [1, 2, 3, 4, 5, 11, 12, 14, 15, 16, 22, 23, 24, 25]


def test_the_advice_of_a_change_speaks_her_terms() -> None:
    pattern = pilot()
    for terms, word in (("US", "the new color's"), ("UK", "the new colour's")):
        strand = lay(pattern, "", Choices(terms=terms))[0].strand
        (change,) = [c for c in strand.cues if c.text == "Change to navy."]
        assert change.words.full.endswith(f"so it is {word}."), terms
