"""Strands: the numbering holds, nothing is lost, and one id stands for one line of steps."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from crochet_drawn import bodies, group, times
from hypothesis import given, settings
from hypothesis import strategies as st

from hookside.compile import CannotBeFollowed, Choices, lay, step_after
from hookside.follow import Strand, flaws, locate, stitches_before
from hookside.pattern import Course, Cue, Finding, Group, Node, Pattern, Piece, Repeat, length, makes, uses
from hookside.words.names import manner

ROOT = Path(__file__).resolve().parents[2]
TEXT = "Buoy\nRnd 1: 6 sc in a magic ring (6)"


def course(label: str, body: list[Node], **more: Any) -> Course:
    numbers = {"uses": uses(body), "makes": makes(body), "text": "as drawn", "line": 3, "body": body}
    return Course.model_validate({"id": f"buoy.{label}", "label": label, "kind": "round", **numbers, **more})


def cue(number: int, after: str, at: int | None = None, **more: Any) -> Cue:
    home = None if after == "0" else f"buoy.{after}"
    given = {"address": f"buoy.{after}/stuff.{number}", "after": after, "course_id": home, "at": at}
    given |= {"kind": "stuff", "text": "Stuff.", "weight": "stop"}
    return Cue.model_validate(given | more)


@st.composite
def patterns(draw: st.DrawFn) -> Pattern:
    """One to three pieces of up to six courses, some of them not readable, with cues anywhere."""
    pieces = []
    for number in range(draw(st.integers(1, 3))):
        courses = []
        for label in range(1, draw(st.integers(0, 6)) + 1):
            read = draw(st.integers(0, 9)) > 0
            body = draw(bodies(1)) if read else []
            lost = {} if read else {"uses": None, "makes": None}
            courses.append(course(str(label), body, read=read, spiral=draw(st.booleans()), **lost))
        where = st.tuples(st.integers(0, len(courses) + 1), st.one_of(st.none(), st.integers(0, 40)))
        cues = [
            cue(n, str(after), at, weight=draw(st.sampled_from(["stop", "pause", "whisper"])))
            for n, (after, at) in enumerate(draw(st.lists(where, max_size=6)))
        ]
        pieces.append(Piece(name=f"Piece {number}", make=draw(st.integers(1, 4)), courses=courses, cues=cues))
    return Pattern(pieces=pieces)


def strands(pattern: Pattern, **choices: Any) -> list[Strand]:
    return [one.strand for one in lay(pattern, TEXT, Choices(**choices))]


@given(patterns())
@settings(max_examples=30, deadline=None)
def test_every_step_is_in_exactly_one_course_or_is_one_cue(pattern: Pattern) -> None:
    for strand in strands(pattern):
        assert flaws(strand) == []
        owners: list[list[str]] = [[] for _ in range(strand.length)]
        for one in strand.cues:
            owners[one.step].append(one.address)
        for made in strand.courses:
            own = length(made.body) if made.read else 1
            mine = [s for s in range(made.first, made.end) if not owners[s]]
            assert len(mine) == own
            for step in mine:
                owners[step].append(made.id)
        assert all(len(who) == 1 for who in owners)


@given(patterns())
@settings(max_examples=30, deadline=None)
def test_lengths_add_up_and_no_course_and_no_cue_is_lost(pattern: Pattern) -> None:
    laid = {one.run: one.strand for one in lay(pattern, TEXT, Choices())}
    for number, piece in enumerate(pattern.pieces, start=1):
        if not piece.courses and not piece.cues:
            assert f"p{number}.c1" not in laid
            continue
        strand = laid[f"p{number}.c1"]
        worked = sum(length(c.body) if c.read else 1 for c in piece.courses)
        assert strand.length == worked + len(strand.cues)
        assert [c.id for c in strand.courses] == [c.id for c in piece.courses]
        lying = [c for c in strand.cues if c.basis == "written"]
        assert {c.address for c in lying} <= {c.address for c in piece.cues}
        said = " ".join(c.text for c in lying).split(".")
        assert sorted(said) == sorted(" ".join(c.text for c in piece.cues).split("."))
        assert strand.length == 0 or strand.made_before[-1] == sum(c.makes or 0 for c in piece.courses)


@given(patterns())
@settings(max_examples=30, deadline=None)
def test_a_cue_inside_a_course_stands_where_its_stitch_is_made(pattern: Pattern) -> None:
    for one in lay(pattern, TEXT, Choices()):
        piece = pattern.pieces[int(one.run[1:].split(".")[0]) - 1]
        by_id = {c.id: c for c in one.strand.courses}
        for written in piece.cues:
            home = by_id.get(written.course_id or "")
            if written.at is None or home is None or not home.read:
                continue
            (lying,) = [c for c in one.strand.cues if c.address == written.address]
            assert home.first <= lying.step <= home.end
            start = stitches_before(one.strand, home.first)
            made = stitches_before(one.strand, lying.step) - start
            assert made == min(written.at, home.makes or 0)


def _unrolled(body: list[Node]) -> list[Group]:
    """Every stitch of a body by itself: the slow way the counting is checked against."""
    out: list[Group] = []
    for node in body:
        if isinstance(node, Repeat):
            out += _unrolled(node.body) * node.times
        else:
            out += [node.model_copy(update={"count": 1})] * node.count
    return out


@given(bodies(2), st.integers(0, 60))
@settings(max_examples=80, deadline=None)
def test_counting_through_repeats_is_counting_one_by_one(body: list[Node], stitches: int) -> None:
    steps = made = 0
    for single in _unrolled(body):
        for step in range(single.steps):
            if made >= stitches:
                break
            steps += 1
            made += step < single.makes
    assert step_after(body, stitches) == steps


def test_a_stitch_with_a_chain_in_it_is_finished_first() -> None:
    assert manner(group("v-st")) == "special"
    assert step_after([group("v-st", 2)], 2) == 3


# -- what the bench reads off a strand ---------------------------------------


def buoy(**more: Any) -> Pattern:
    """A ball of n = 3 (everyday ball 6 12 18 18 18 18 12 6: arithmetic of the trade), cut short after round 7."""
    courses = [
        course("1", [group("ring"), group("sc", 6, uses=0, into="ring")], spiral=True),
        course("2", [group("inc", 6)], spiral=True),
        course("3", [times(6, group("sc"), group("inc"))], spiral=True),
        *(course(str(n), [group("sc", 18)], spiral=True, plain=True) for n in (4, 5, 6)),
        course("7", [times(6, group("sc"), group("dec"))]),
    ]
    cues = [cue(1, "6"), cue(2, "3", at=17, kind="colour", weight="pause", text="Change to color B in the last st.")]
    return Pattern(pieces=[Piece(name="Buoy", make=2, courses=courses, cues=cues)], **more)


def test_the_numbers_of_a_small_buoy() -> None:
    first, second = lay(buoy(), TEXT, Choices())
    strand = first.strand
    assert (first.run, first.piece, first.copy, first.copies, second.run) == ("p1.c1", "Buoy", 1, 2, "p1.c2")
    assert second.strand is strand
    # ring 0, word 1, six 2-7 | count 8, marker 9, word 10 | 11-22 | 23-25 | 26-42, colour 43, 44 | 45-47 | 48-65 | ...
    assert [(c.first, c.end) for c in strand.courses][:4] == [(0, 8), (11, 23), (26, 45), (48, 66)]
    assert [c.step for c in strand.cues][:11] == [1, 8, 9, 10, 23, 24, 25, 43, 45, 46, 47]
    kinds = ["other", "count", "marker", "other", "count", "marker", "other", "colour", "count", "marker", "other"]
    assert [c.kind for c in strand.cues][:11] == kinds
    written = [c.kind for c in strand.cues if c.step >= 66]
    assert written.index("stuff") < written.index("marker", written.index("stuff")), "the text comes before the marker"
    spot = locate(strand, 43)
    assert (spot.stitch, spot.of, spot.cue and spot.cue.kind) == (17, 18, "colour")


def test_stops_of_one_kind_behind_one_another_are_one_job() -> None:
    def stop(number: int, text: str, **more: Any) -> Cue:
        return cue(number, "6", text=text, **more)

    def lying(*cues: Cue) -> list[tuple[str, str, str]]:
        pattern = buoy()
        pattern.pieces[0].cues = list(cues)
        found = [c for c in strands(pattern)[0].cues if c.basis == "written"]
        return [(c.address, c.text, c.words.short) for c in found]

    body, neck = stop(1, "Stuff the body now."), stop(2, "Fill the neck well, so that the head does not nod.")
    assert lying(body, neck) == [
        (
            "buoy.6/stuff.1",
            "Stuff the body now. Fill the neck well, so that the head does not nod.",
            "Stuff the body now. Fill the neck well",
        )
    ]
    close = stop(3, "Pull the hole shut.", kind="close")
    assert [address for address, *_ in lying(body, close, neck)] == [c.address for c in (body, close, neck)]
    assert len(lying(body, neck.model_copy(update={"weight": "pause"}))) == 2
    pattern = buoy()
    pattern.pieces[0].cues = [body, neck]
    full = next(c.words.full for c in strands(pattern)[0].cues if c.kind == "stuff")
    assert full.startswith("Stuff the body now. Fill the neck well")
    assert full.count("harder to reach") == 1
    assert [c.text for c in pattern.pieces[0].cues] == [body.text, neck.text], "the compiled form keeps both"


def test_plain_rounds_know_their_run() -> None:
    strand = strands(buoy())[0]
    runs = [(c.label, c.plain_index, c.plain_of, c.plain_from, c.plain_to) for c in strand.courses]
    assert runs[2:] == [
        ("3", None, None, None, None),
        ("4", 1, 3, "4", "6"),
        ("5", 2, 3, "4", "6"),
        ("6", 3, 3, "4", "6"),
        ("7", None, None, None, None),
    ]


def test_a_change_of_colour_ends_a_run_of_plain_rounds() -> None:
    def runs(*colours: Cue) -> list[tuple[int | None, int | None]]:
        courses = [course(str(n), [group("sc", 18)], plain=True) for n in range(1, 7)]
        strand = strands(Pattern(pieces=[Piece(name="Buoy", courses=courses, cues=list(colours))]))[0]
        return [(c.plain_index, c.plain_of) for c in strand.courses]

    def colour(after: str, at: int | None = None) -> Cue:
        return cue(1, after, at, kind="colour", weight="pause", text="Change to color B.")

    assert runs() == [(1, 6), (2, 6), (3, 6), (4, 6), (5, 6), (6, 6)]
    assert runs(colour("3")) == [(1, 3), (2, 3), (3, 3), (1, 3), (2, 3), (3, 3)]
    assert runs(colour("3", at=17)) == runs(colour("3"))
    assert runs(colour("3", at=9)) == [(1, 2), (2, 2), (None, None), (1, 3), (2, 3), (3, 3)]
    assert runs(colour("0")) == runs()


def test_a_round_in_back_loops_is_not_the_same_plain_round() -> None:
    pattern = buoy()
    pattern.pieces[0].courses[4] = course("5", [group("sc", 18, loops="back")], spiral=True, plain=True)
    assert [c.plain_of for c in strands(pattern)[0].courses] == [None] * 7


def test_words_are_in_the_makers_terms() -> None:
    us, uk = strands(buoy(), terms="US")[0], strands(buoy(), terms="UK")[0]
    assert (us.courses[2].words.short, uk.courses[2].words.short) == ("(1 sc, inc) x 6", "(1 dc, inc) x 6")
    assert uk.terms == "UK"
    assert us.id != uk.id
    assert [c.words.short for c in us.cues if c.kind == "marker"] == ["Marker into the first stitch"] * 6


def test_a_course_that_could_not_be_read_is_one_step() -> None:
    lost = course("2", [], read=False, uses=None, makes=None, text="work it as you like")
    pattern = Pattern(pieces=[Piece(name="Buoy", courses=[course("1", [group("sc", 6)]), lost])])
    (strand,) = strands(pattern)
    assert (strand.length, strand.unread_at[7].id) == (8, "buoy.2"), "six stitches, the count of them, one step"


# -- ids ---------------------------------------------------------------------


def test_an_id_is_the_same_for_the_same_and_another_for_another() -> None:
    one = lay(buoy(), TEXT, Choices())[0].strand.id
    assert len(one) == 32
    assert set(one) <= set("0123456789abcdef")
    assert one == lay(buoy(), TEXT, Choices(hand="left"))[0].strand.id, "the hand changes the drawing, not the steps"
    assert one == lay(buoy(), TEXT, Choices(terms="US"))[0].strand.id
    assert one != lay(buoy(), TEXT + "\n", Choices())[0].strand.id
    assert one != lay(buoy(terms="UK"), TEXT, Choices(terms="US"))[0].strand.id
    two_alike = buoy()
    two_alike.pieces.append(two_alike.pieces[0])
    assert len({o.strand.id for o in lay(two_alike, TEXT, Choices())}) == 2


_ID_IN_A_NEW_PROCESS = """
import sys
sys.path[:0] = sys.argv[1:]
import test_strands
print(test_strands.lay(test_strands.buoy(), test_strands.TEXT, test_strands.Choices())[0].strand.id)
"""


def test_the_id_is_the_same_in_every_process() -> None:
    paths = [str(ROOT / "server"), str(ROOT / "tests" / "words"), str(ROOT / "tests" / "compile")]
    ids = {lay(buoy(), TEXT, Choices())[0].strand.id}
    for seed in ("1", "2"):
        ran = subprocess.run(
            [sys.executable, "-c", _ID_IN_A_NEW_PROCESS, *paths],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        )
        ids.add(ran.stdout.strip())
    assert len(ids) == 1


# -- what is refused -----------------------------------------------------------


def test_a_pattern_with_a_mistake_is_worked_only_when_asked() -> None:
    pattern = buoy(findings=[Finding(severity="error", code="left-over", line=12, message="Round 7 leaves six over.")])
    with pytest.raises(CannotBeFollowed, match=r"^Line 12 can't be followed yet\. Round 7 leaves six over\.$"):
        lay(pattern, TEXT, Choices())
    assert lay(pattern, TEXT, Choices(anyway=True))


def test_too_many_copies_are_refused() -> None:
    pattern = Pattern(pieces=[Piece(name="Float", make=5000, line=7, courses=[course("1", [group("sc", 6)])])])
    with pytest.raises(CannotBeFollowed, match="Line 7 says to make 5000 of Float"):
        lay(pattern, TEXT, Choices())
