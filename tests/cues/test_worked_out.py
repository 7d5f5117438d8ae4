"""Jobs that need an open piece, printed in time, too late, or not at all. Demo patterns.

Practice of the trade, no source, except where one is named.
"""

from __future__ import annotations

from itertools import pairwise

import pytest

from hookside.compile import read
from hookside.cues import counts
from hookside.pattern import Cue, Pattern
from hookside.shape import Asked

# 5 mm stitches: 18 are 28.6 mm across, 30 are 47.7, 36 are 57.3 (n w / pi).
HEAD = """Harbour Seal
US terms
{materials}
Gauge: 20 sts and 20 rounds = 10 cm

Head
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: (2 sc, inc) x 6 (24)
Rnd 5: (3 sc, inc) x 6 (30)
Rnd 6: (4 sc, inc) x 6 (36)
Rnds 7-14: sc in each st around (36)
{in_time}
Rnd 15: (4 sc, dec) x 6 (30)
Rnd 16: (3 sc, dec) x 6 (24)
{later}
Rnd 17: (2 sc, dec) x 6 (18)
Rnd 18: (sc, dec) x 6 (12)
Rnd 19: dec x 6 (6)
{last}
Fasten off, leaving a 20 cm tail, and close the hole.

{assembly}
"""


def head(**lines: str) -> Pattern:
    given = dict.fromkeys(("materials", "in_time", "later", "last", "assembly"), "") | lines
    return read(HEAD.format(**given))


def ours(pattern: Pattern, kind: str) -> list[Cue]:
    return [c for piece in pattern.pieces for c in piece.cues if c.basis == "worked out" and c.kind == kind]


def theirs(pattern: Pattern, kind: str) -> list[Cue]:
    return [c for piece in pattern.pieces for c in piece.cues if c.basis == "written" and c.kind == kind]


def test_stuffing_that_is_in_time_is_never_doubled() -> None:
    for when in ("in_time", "later"):
        pattern = head(**{when: "Stuff the head firmly."})
        assert ours(pattern, "stuff") == [], when
        assert [c.weight for c in theirs(pattern, "stuff")] == ["stop"], when


def test_stuffing_that_is_printed_when_the_hole_is_nearly_shut_is_asked_for_in_time() -> None:
    pattern = head(last="Stuff the head firmly.")
    (cue,) = ours(pattern, "stuff")
    # The rule of the trade: stuff by 18 stitches, top up at 12.
    assert (cue.after, cue.weight) == ("17", "stop")
    assert cue.text == "Stuff the head firmly."
    assert "Printed in line 21. Worked out, because" in cue.advice
    (late,) = theirs(pattern, "stuff")
    assert late.weight == "whisper"
    assert "it was due at round 17" in late.words.full
    (note,) = [f for f in pattern.findings if f.code == "printed-late"]
    assert note.severity == "note"
    assert "round 17" in note.message


def test_stuffing_under_assembly_belongs_to_the_piece_it_names() -> None:
    pattern = head(assembly="Assembly\nStuff the head. Sew everything together.")
    assert [c.after for c in ours(pattern, "stuff")] == ["17"]


# demo
MOUSE = (
    "Harbour mouse\nUS terms\n\nBody\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\n"
    "Rnd 4: (2 sc, inc) x 6 (24)\nRnds 5-9: sc around (24)\nRnd 10: (2 sc, dec) x 6 (18)\n{within}"
    "Rnd 11: (sc, dec) x 6 (12)\nRnd 12: dec x 6 (6)\nFasten off and close.\n\n{behind}"
)
HAT = "Hat\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: sc around (12)\nFasten off.\n\n"


@pytest.mark.parametrize(
    "line",
    [
        "Put the eyes between rounds 7 and 8 of the body.",
        "Put the eyes between rounds 7 and 8.",
        "Sew the hat on top. Put the eyes between rounds 7 and 8.",
        "Embroider the eyes over round 8.",
    ],
)  # demo
def test_what_stands_behind_the_last_piece_without_a_heading_is_asked_of_the_piece_that_it_means(line: str) -> None:
    pattern = read(MOUSE.format(within="Stuff.\n", behind=HAT + line + "\n"))
    (found,) = [c for c in pattern.pieces[0].cues if c.kind in ("eyes", "embroider")]
    assert found.after in ("9", "10")
    assert [c.weight for c in pattern.pieces[1].cues if c.kind in ("eyes", "embroider")] == ["whisper"]
    assert "printed-late" in [f.code for f in pattern.findings]


def test_a_face_that_names_no_piece_is_of_the_only_one_that_is_made_once() -> None:
    """Behind all parts, with eyes or without: before the stuffing of the body, and not of a fin that is made twice."""
    fins = HAT.replace("Hat", "Fin (make 2)")
    for jobs in ("Embroider a mouth.", "Put the eyes between rounds 7 and 8. Embroider a mouth."):
        pattern = read(MOUSE.format(within="Stuff.\n", behind=f"{fins}To finish\n{jobs}\n"))
        asked = [cue for cue in pattern.pieces[0].cues if cue.kind in ("eyes", "embroider", "stuff")]
        at = {cue.kind: int(cue.after or 0) for cue in asked}
        assert at["embroider"] < at["stuff"] == 10


def test_what_the_last_piece_can_do_stays_with_it() -> None:
    ears = HAT.replace("Hat", "Muzzle") + "Embroider the nose on round 2.\n"
    pattern = read(MOUSE.format(within="Stuff.\n", behind=ears))
    assert [c.kind for c in pattern.pieces[1].cues if c.basis == "written"] == ["fasten", "embroider"]
    assert not [c for c in pattern.pieces[0].cues if c.kind == "embroider"]


@pytest.mark.parametrize("line", ["Stuff the body before closing.", "Stuff it firmly.", "Stuff firmly before closing."])
def test_stuffing_that_names_no_piece_means_the_largest(line: str) -> None:
    text = MOUSE.replace("\nBody\n", "\nMouse\n").format(within="", behind=f"Finishing\n{line} Embroider a nose.\n")
    (stop,) = [c for c in read(text).pieces[0].cues if c.kind == "stuff"]
    assert stop.weight == "stop"
    assert "asks for" not in stop.text


def test_a_text_that_only_lists_stuffing_gets_its_stop() -> None:
    pattern = head(materials="Materials: worsted yarn, polyester stuffing, 3 mm hook")
    (cue,) = ours(pattern, "stuff")
    assert cue.after == "17"
    assert "no line up to here asks for stuffing" in cue.text


def test_a_ball_of_a_text_without_a_word_of_stuffing_is_asked_about() -> None:
    (cue,) = ours(head(), "stuff")
    assert (cue.after, cue.weight) == ("17", "pause")
    assert cue.text.startswith("Is it to be filled? Then stuff it now.")
    assert cue.words.short == "Is it to be filled? Then stuff it now"


@pytest.mark.parametrize(
    "text",
    [
        "Hat\nCh 48, join.\nR1: sc in each ch (48)\nR2-12: sc around (48)\nR13: (sc, dec) x 16 (32)\n"
        "R14: dec x 16 (16)\nR15: dec x 8 (8)\nFasten off and close.",
        "Pouch\nR1: 6 sc in MR (6)\nR2: inc x 6 (12)\nR3: (sc, inc) x 6 (18)\nR4: (2 sc, inc) x 6 (24)\n"
        "R5-9: sc around (24)\nDraw the bag closed with a cord.",
        "Coaster\nR1: 6 sc in MR (6)\nR2: inc x 6 (12)\nR3: (sc, inc) x 6 (18)\nFasten off.",
    ],
)
def test_what_is_open_at_an_end_is_not_asked_about(text: str) -> None:
    assert ours(read(text), "stuff") == []


def test_what_another_part_of_the_text_leaves_empty() -> None:
    pattern = head(materials="Materials: polyester stuffing", assembly="Assembly\nDo not stuff the head.")
    assert ours(pattern, "stuff") == []


@pytest.mark.parametrize(
    "words",
    [
        "Do not stuff.",
        "Leave it unstuffed.",
        "Dont stuff it.",
        "No stuffing is needed here.",
        "Do not fill it.",
        "It is not stuffed.",
        "Press it flat, it is not stuffed, and fold it.",
        "The fins are not filled.",
        "I didn't stuff it.",
        "They aren't stuffed.",
        "It stays empty.",
    ],
)
def test_what_is_not_stuffed_is_left_alone(words: str) -> None:
    pattern = head(materials="Materials: polyester stuffing", later=words)
    assert ours(pattern, "stuff") == []


def test_eyes_in_the_last_paragraph_are_asked_for_two_rounds_past_their_round() -> None:
    pattern = head(assembly="Assembly\nPut the safety eyes in between rounds 9 and 10 of the head, 6 sts apart.")
    (cue,) = ours(pattern, "eyes")
    assert (cue.after, cue.weight) == ("12", "stop")
    assert "between rounds 9 and 10" in cue.text
    (note,) = [f for f in pattern.findings if f.code == "printed-late"]
    assert "You need that at round 12" in note.message
    assert [c.weight for c in theirs(pattern, "eyes")] == ["whisper"]


def test_eyes_low_on_the_head_are_due_while_it_is_still_45_mm_open() -> None:
    """After round 15 (30 stitches, 47.7 mm) it closes: two rounds past round 14 would be too late."""
    pattern = head(assembly="Assembly\nInsert the safety eyes between rounds 14 and 15 of the head.")
    assert [c.after for c in ours(pattern, "eyes")] == ["15"]


def test_eyes_that_are_in_time_are_never_doubled() -> None:
    pattern = head(in_time="Insert the safety eyes between rounds 9 and 10, 6 sts apart.")
    assert ours(pattern, "eyes") == []
    assert [c.weight for c in theirs(pattern, "eyes")] == ["stop"]


def test_a_face_that_is_embroidered_late_is_a_pause_in_time() -> None:
    pattern = head(assembly="Assembly\nEmbroider the nose and mouth on the head, over rounds 10 to 12.")
    found = ours(pattern, "embroider") + ours(pattern, "eyes")
    assert [c.weight for c in found] == ["pause"]
    assert "Look at it from the front" in found[0].words.full


def test_a_narrow_part_is_stuffed_on_the_way() -> None:
    pattern = read(
        "Arm\nUS terms\nGauge: 20 sts and 20 rounds = 10 cm\n\nArm (make 2)\nRnd 1: 6 sc in magic ring (6)\n"
        "Rnd 2: inc x 6 (12)\nRnds 3-24: sc in each st around (12)\nStuff the arm.\n"
        "Fasten off, leaving a 30 cm tail for sewing."
    )
    goes = ours(pattern, "stuff")
    assert [c.weight for c in goes] == ["pause"] * len(goes)
    # Narrow tubes: every 5 to 8 rounds.
    labels = [int(c.after) for c in goes]
    assert len(labels) >= 2
    assert all(5 <= b - a <= 8 for a, b in pairwise(labels))


def test_a_loop_whose_end_is_not_told_is_asked_about_and_never_cut() -> None:
    pattern = read("Float\nUS terms\n\nFloat\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: sc (12)")
    (cue,) = ours(pattern, "other")
    assert (cue.weight, cue.text) == ("stop", "Keep this loop, or cut the yarn?")
    assert "Does the next part start from it?" in cue.words.full
    assert "40 cm to sew this piece on" in cue.words.full
    assert not ours(pattern, "fasten")
    assert ours(head(), "other") == []


def test_a_tail_without_a_length_gets_one() -> None:
    """Three times the seam of 12 stitches of 5 mm and 20 cm are 38 cm, so 40; never under 30; to close, 20 cm."""
    open_ = read(
        "Arm\nUS terms\nGauge: 20 sts and 20 rounds = 10 cm\n\nArm\nRnd 1: 6 sc in magic ring (6)\n"
        "Rnd 2: inc x 6 (12)\nRnds 3-5: sc around (12)\nFasten off, leaving a long tail for sewing."
    )
    (tail,) = [c for p in open_.pieces for c in p.cues if c.kind in ("fasten", "tail")]
    assert "about 40 cm" in tail.words.full
    shut = head().model_dump_json()
    assert "worked out by the rule" not in shut, "the text says 20 cm itself"


@pytest.mark.parametrize(
    "end",
    [
        "Fasten off, leaving a tail for sewing.",
        "Fold flat and work 4 sc through both layers. (4)\nFasten off, leaving a long tail.",
    ],
)
def test_a_tail_for_sewing_is_long_enough_however_small_the_end(end: str) -> None:
    """8 stitches of 5 mm are 12.7 mm across, 7 are 11.1: drawn shut at most ends, but this one is sewn on. Never under
    30 cm: 3 x 35 mm and 20 cm are 31, so 35."""
    arm = read(
        "Arm\nUS terms\nGauge: 20 sts and 20 rounds = 10 cm\n\nArm (make 2)\nRnd 1: 5 sc in magic ring (5)\n"
        f"Rnd 2: inc x 5 (10)\nRnd 3: (3 sc, dec) x 2 (8)\nRnd 4: 6 sc, dec (7)\n{end}"
    )
    (tail,) = [c for p in arm.pieces for c in p.cues if c.kind in ("fasten", "tail")]
    assert "about 35 cm" in tail.words.full
    assert "To close the hole" not in tail.words.full


def test_when_to_count() -> None:
    """Behind the first three rounds and every one that shapes, never behind the last: nothing follows that."""
    found = counts(head().pieces[0])
    assert [c.after for c in found] == ["1", "2", "3", "4", "5", "6", "15", "16", "17", "18"]
    assert {c.weight for c in found} == {"whisper"}
    assert found[2].text == "Count now: 18 in round 3."


def test_the_last_chance_for_the_starting_tail() -> None:
    """Asked with the stuffing, which hides it: on the screen that waits, not after it."""
    asked = "First: is the starting tail inside?"
    (cue,) = ours(head(assembly="Assembly\nStuff the head."), "stuff")
    assert (cue.after, cue.weight) == ("17", "stop")
    assert cue.advice.endswith(asked)
    for when in ("in_time", "later"):
        printed = head(**{when: "Stuff the head."})
        (own,) = theirs(printed, "stuff")
        assert own.advice == f"{asked} Worked out, because stuffing hides it."
        assert not ours(printed, "weave")
    blank = dict.fromkeys(("materials", "in_time", "later", "last", "assembly"), "")
    small = HEAD.format(**blank).replace("20 sts", "24 sts").replace("Rnd 18:", "Stuff the head.\nRnd 18:")
    (own,) = theirs(read(small), "stuff")  # 18 of 100 / 24 mm are 23.9 mm across: no fingers, but a hook
    assert asked in own.advice
    empty = head(in_time="Do not stuff.")
    (alone,) = ours(empty, "weave")
    assert alone.weight == "whisper"
    assert "Worked out, because the hole gets small." in alone.text


@pytest.mark.parametrize(("swatch", "after"), [("", "15"), ("10 sts = 4 cm", "14"), ("10 sts = 8 cm", "15")])
def test_eyes_are_due_by_her_own_gauge(swatch: str, after: str) -> None:
    """While 45 mm stand open, two rounds past their own at most: 30 stitches of 5 mm are 47.7 mm across, 36 of 4 mm
    45.8 (n w / pi)."""
    text = HEAD.format(
        materials="",
        in_time="",
        later="",
        last="",
        assembly="Assembly\nInsert the safety eyes between rounds 12 and 13.",
    )
    (cue,) = ours(read(text, asked=Asked(gauge=swatch)), "eyes")
    assert cue.after == after


def test_a_face_told_of_oneself_behind_the_last_part_is_due_while_the_part_with_the_eyes_is_open() -> None:
    told = "Before I closed her up I stitched a little beak in black between the eyes."
    body = head(in_time="Put in the eyes between rounds 10 and 11.", assembly=f"Assembly\n{told}")
    text = [(cue.text, cue.course_id, cue.weight) for cue in body.pieces[0].cues if cue.kind == "embroider"]
    assert [(words, weight) for words, _, weight in text] == [(told, "pause")]
    printed = [cue for piece in body.pieces[1:] for cue in piece.cues if cue.kind == "embroider"]
    assert [cue.weight for cue in printed] == ["whisper"], "where it is printed the piece is shut"


@pytest.mark.parametrize("words", ["flurb 24 and now stuff it well", "flurb 24, do not stuff it yet"])
def test_stuffing_that_stands_in_a_round_nobody_can_read_is_asked_by_its_own_words(words: str) -> None:
    """Shown as it is written it asks in time: a second word that says no line asks for it would be untrue."""
    text = MOUSE.format(within="", behind="").replace("US terms", "Materials: polyester stuffing")
    pattern = read(text.replace("Rnds 5-9: sc around (24)", f"Rnds 5-8: sc around (24)\nRnd 9: {words}"))
    asked = [cue for cue in pattern.pieces[0].cues if cue.kind == "stuff" and cue.basis == "worked out"]
    assert (asked == []) == ("now stuff" in words)


# demo
TERN = (
    "Tern\nUS terms\nFiberfill\nGauge: 22 sts and 22 rounds = 10 cm\n\nBody\nRnd 1: 6 sc in magic ring (6)\n"
    "Rnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\nRnds 4-8: sc around (18)\nStuff the body.\n"
    "Rnd 9: (sc, dec) x 6 (12)\nRnd 10: dec x 6 (6)\nFasten off and close.\n\n"
    "{name} (make 2)\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n"
    "Rnd 3: (sc, inc) x 6 (18)\nRnds 4-7: sc around (18)\nRnd 8: (sc, dec) x 6 (12)\nRnd 9: (sc, dec) x 4 (8)\n{end}\n"
    "Fasten off.\n"
)
PRESSED = (
    "Fold flat and sc 4 through both sides.", "Flatten and sc 4 through both layers.",
    "Fold in half and work 4 sc through both edges.",
    "Press it together and sc 4 through the two sides.",
)  # fmt: skip


@pytest.mark.parametrize("end", PRESSED)
def test_an_end_that_is_pressed_flat_is_known_however_it_is_said(end: str) -> None:
    pattern = read(TERN.format(name="Wing", end=end))
    wing = next(piece for piece in pattern.pieces if piece.name == "Wing")
    assert [cue for cue in wing.cues if cue.kind == "stuff"] == []  # a wing lies flat
    (shape,) = (cue for cue in wing.cues if "4 sc" in cue.text or "sc 4" in cue.text)
    assert shape.weight == "stop"  # it makes stitches
    assert "8 become 4" in shape.words.full
    (fasten,) = (cue for cue in wing.cues if cue.kind == "fasten")
    assert "For sewing it on" in fasten.advice


def test_an_arm_that_is_pressed_flat_is_asked_about_and_one_that_is_drawn_shut_is_filled() -> None:
    (asked,) = ours(read(TERN.format(name="Arm", end=PRESSED[0])), "stuff")
    assert (asked.after, asked.weight) == ("7", "pause")
    assert asked.text.startswith("Is it to be filled? Then stuff it now: its end will be pressed flat. Worked out")
    (shut,) = ours(read(TERN.format(name="Arm", end="Close the hole.")), "stuff")
    assert (shut.after, shut.weight) == ("7", "stop")
    assert shut.text.startswith("Stuff now, while fingers still fit.")


def test_a_tail_that_closes_and_then_sews_is_as_long_as_both_ask() -> None:
    """Closing 20 cm, sewing never under 30 (common practice, no source)."""
    claw = TERN.format(name="Claw", end="Close the hole.")
    said = {
        piece.name: next(cue.advice for cue in piece.cues if cue.kind == "fasten")
        for piece in read(claw + "\nMaking up\nSew the claws to the body between rounds 4 and 5.\n").pieces
        if piece.courses
    }
    assert "sewing it on leave about 50 cm" in said["Claw"]
    assert said["Body"] == "To close the hole 20 cm are enough, as most makers do it."
    under = read(claw + "\nMaking up\nSew the claws beneath the body at rounds 2 and 3.\n")
    body = next(piece for piece in under.pieces if piece.name == "Body")
    assert "20 cm are enough" in next(cue.advice for cue in body.cues if cue.kind == "fasten")
    alone = next(piece for piece in read(claw).pieces if piece.name == "Claw")
    assert "20 cm are enough" in next(cue.advice for cue in alone.cues if cue.kind == "fasten")


def test_what_ends_narrow_and_is_sewn_on_is_not_said_to_be_shut() -> None:
    late = read(TERN.format(name="Claw", end="") + "\nMaking up\nStuff the claws lightly. Sew the claws to the body.\n")
    (note,) = (found.message for found in late.findings if found.code == "printed-late")
    assert "when Claw is already too narrow for fingers" in note


FIN = "Fin\nRnd 1: 6 sc in magic ring (6)\nRnds 2-4: sc in each st (6)\nFasten off.\n"


def test_what_goes_inside_is_asked_while_fingers_fit() -> None:
    """The head is drawn shut in round 19; 18 stitches of 5 mm, round 17, are the last that two fingers pass."""
    pattern = head(
        last="Stuff.", assembly="Assembly\nAdd the rattle inside the head before you close it. Weave in ends."
    )
    asked = ours(pattern, "other")
    assert [(cue.after, cue.weight) for cue in asked if "rattle" in cue.text] == [("17", "stop")]
    (shown,) = [cue for cue in theirs(pattern, "other") if "rattle" in cue.text]
    assert shown.weight == "whisper"
    assert any("already shut. You need that at round 17" in found.message for found in pattern.findings)


@pytest.mark.parametrize(
    "line", ["Tuck the ends inside the head.", "Put the hat on the head.", "Pin the ears before you close the box."]
)
def test_what_goes_nowhere_inside_stays_where_it_is_printed(line: str) -> None:
    pattern = head(later="Stuff.", assembly=f"Assembly\n{line}")
    assert not any(line[:8] in cue.text for kind in ("other", "pin", "sew", "weave") for cue in ours(pattern, kind))


def test_stuffing_of_another_part_behind_the_last_round_is_that_parts() -> None:
    """Behind the fin it is too late for the head, and no word for the fin; "Stuff the fin." is."""
    astray = head(assembly=f"{FIN}Stuff the head.\n")
    (moved,) = [cue for cue in ours(astray, "stuff") if cue.text == "Stuff the head."]
    assert moved.address.startswith("head.17/")
    assert [cue.weight for cue in theirs(astray, "stuff")] == ["whisper"]
    own = head(later="Stuff.", assembly=f"{FIN}Stuff the fin.\n")
    assert "Stuff the fin." in {cue.text for cue in theirs(own, "stuff")}
    in_time = head(later="Stuff.", assembly=f"{FIN}Stuff the head.\n")
    assert not any(cue.text == "Stuff the head." for cue in ours(in_time, "stuff"))
