"""How a line was read, told in plain words: whole accounts of chosen lines (demo), and what holds for every line."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from hookside.compile import explained
from hookside.notation import read
from hookside.notation.explaining.explanation import MOST_TOLD, Explainer, explain
from hookside.notation.explaining.parts import MOST_PARTS, Part

ROOT = Path(__file__).resolve().parents[2]
TEXTS = sorted([*(ROOT / "patterns").glob("*.txt"), *(Path(__file__).parent / "collection").glob("*.txt")])

BUOY = """Tide buoy

US terms

BASE (make 2)
Ch 9
Row 1: sc in 2nd ch from hook, sc in next 7 ch, turn (8)
Rows 2-3: ch 1, sc in each st across, turn (8)

BODY
Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: sc, inc x 6 (18)
Rnd 4: *sc in next 2 sts, 2 sc in next st; rep from * around,
change to blue in last yo (24)
Rnd 5: work as rnd 4 but with one more sc between increases (30)
Rnd 6: (3 sc, dec) x 5 (24)
Rnd 7: 3 wobblestitch in every other gap
Rnd 8: BLO sc in each st (24)
I love this little float.
Stuff firmly.
sc 12, leave the rest unworked
"""


def told(line: int) -> tuple[str, list[Part], list[str]]:
    (one,) = explain(BUOY, line, line)
    return one.title, one.parts, [*one.says, *one.noticed]


def test_a_round_with_a_double_meaning_tells_both_and_why_one_was_taken() -> None:
    assert told(13) == (
        "Round 3 of Body",
        [
            Part("sc", "1 single crochet"),
            Part("inc x 6", "1 increase, six times in all"),
            Part("(18)", "the printed count, 18"),
        ],
        [
            'Its label is "Rnd 3:".',
            "Round 2 made 12 stitches to work into.",
            "(1 single crochet, 1 increase): uses 2 and makes 3 each time, 6 times: 12 used, 18 made.",
            "It uses 12 and makes 18.",
            "So all 12 are used and none is left over.",
            "The pattern prints 18 as well.",
            "It could be read in two ways; I took it as the whole stretch worked again and again. "
            "As only the last stitch multiplied it would use 7 and make 13, which does not fit.",
            "Noticed: Round 3 can be read in two ways. I took it as the whole stretch worked again and again, because "
            "only so does it use the 12 stitches there and make the 18 that are printed. So I do wherever it is "
            "written like this and both numbers come out.",
        ],
    )


def test_a_round_that_does_not_come_out_tells_what_is_left_and_what_was_meant() -> None:
    title, _, says = told(17)
    assert title == "Round 6 of Body"
    assert says[1:6] == [
        "Round 5 made 30 stitches to work into.",
        "(3 single crochet, 1 decrease): uses 5 and makes 4 each time, 5 times: 25 used, 20 made.",
        "It uses 25 and makes 20.",
        "So five of the 30 are left over.",
        "The pattern prints 24, four more than it makes.",
    ]
    assert says[6].startswith("Can't be followed: Round 6 works 5 stitches five times = 25")
    assert len(says) == 7


def test_a_reference_is_followed_and_its_change_named() -> None:
    title, parts, says = told(16)
    assert title == "Round 5 of Body"
    assert [p.text for p in parts][:3] == ["*", "sc in next 2 sts", "2 sc in next st"]
    assert not any("printed count" in p.sense for p in parts)
    assert says[1] == (
        "Its words point to round 4, with the change that its words ask for: the parts above are read there."
    )
    assert "It uses 24 and makes 30." in says
    assert says[-1] == "The pattern prints 30 as well."


def test_a_wrapped_course_is_one_whichever_of_its_lines_is_asked_about() -> None:
    (first,), (second,) = explain(BUOY, 14, 14), explain(BUOY, 15, 15)
    assert first == second
    assert first.text.endswith("around, change to blue in last yo (24)")
    assert Part("change to blue in last yo", "a change of colour; from here in blue") in first.parts
    assert explain(BUOY, 14, 15) == [first]


def test_rows_that_share_a_line_are_told_together() -> None:
    title, parts, says = told(8)
    assert title == "Rows 2 to 3 of Base"
    assert parts[1] == Part("sc in each st across", "single crochet, in every stitch to the end")
    assert says == [
        'Its label is "Rows 2-3:".',
        "Row 1 made 8 stitches to work into.",
        "It uses 8 and makes 8.",
        "So all 8 are used and none is left over.",
        "The two of them are alike.",
        "The pattern prints 8 as well.",
    ]


@pytest.mark.parametrize(
    ("line", "title", "sentence"),
    [
        (1, "The title", "It stands before anything else and is neither a section nor a course."),
        (5, "The heading of Base", "It names a piece. It asks for 2 of them."),
        (6, "Chains for the first course of Base", "The next course is worked into them."),
        (7, "Row 1 of Base", "It is worked into a chain of 9."),
        (11, "Round 1 of Body", "It starts in a ring, so there is nothing below to use."),
        (18, "Round 7 of Body", "No count is printed."),
        (20, "Story", "It asks the hands for nothing."),
        (
            21,
            "Something to do",
            'It asks for stuffing, due after round 8 of Body (a stop: nothing goes on until it is answered): '
            '"Stuff firmly."',
        ),
    ],
)
def test_every_kind_of_line_says_what_it_is(line: int, title: str, sentence: str) -> None:
    found, _, says = told(line)
    assert found == title
    assert sentence in says


def test_what_is_not_understood_is_shown_as_such() -> None:
    assert told(18)[1] == [Part("3 wobblestitch in every other gap", "words I do not know")]
    title, _, says = told(22)
    assert title == "Left out"
    assert says[0].startswith("Look here: I left this out")


def test_the_words_shown_are_those_of_the_page() -> None:
    text = "BUOY\nRnd 1: 6 sc in MR (6)\nRnd 2: (1 sc, inc) \u00d7 3 (9)\n"
    (one,) = explain(text, 3, 3)
    assert one.parts[-2:] == [
        Part(") \u00d7 3", "from there to here, three times in all"),
        Part("(9)", "the printed count, 9"),
    ]


def test_uk_terms_name_stitches_as_the_text_does() -> None:
    (one,) = explain("UK terms\n\nBUOY\nRnd 1: 6 dc in MR (6)\nRnd 2: miss 1 st, dc in next 5 sts (5)\n", 5, 5)
    assert [p.sense for p in one.parts] == [
        "one stitch is missed",
        "double crochet, in the next five stitches",
        "the printed count, 5",
    ]


@pytest.mark.parametrize("path", TEXTS, ids=lambda p: p.stem)
def test_every_course_has_an_account_that_says_its_sums(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    explainer = Explainer(text)
    assert explainer.pattern == read(text)
    for piece in explainer.pattern.pieces:
        for course in piece.courses:
            one = explainer.course(course.id)
            assert one is not None
            assert one.title.endswith(f" of {piece.name}")
            if course.read:
                assert any(re.search(rf"\buses {course.uses} and makes {course.makes}\.$", s) for s in one.says)
            if course.declared is not None:
                assert any(str(course.declared) in s for s in one.says)
    lines = text.split("\n")
    found = explainer.between(1, len(lines))
    assert len(found) <= MOST_TOLD
    assert all(one.title and (one.says or one.noticed) for one in found)


def test_an_account_is_bounded() -> None:
    text = "ROPE\n" + " ".join(f"Rnd {n}: 6 sc in MR (6)." for n in range(1, 3000))
    assert len(explain(text, 1, 2)) == MOST_TOLD
    long = "ROPE\nRnd 1: 6 sc in MR (6)\nRnd 2: " + ", ".join(["sc"] * 900)
    (one,) = explain(long, 3, 3)
    assert len(one.parts) == MOST_PARTS + 1
    assert one.parts[-1].sense == "and 860 more parts"


def test_lines_that_are_not_there_have_no_account() -> None:
    assert explain(BUOY, 2, 2) == []
    assert explain(BUOY, 99, 120) == []
    assert explain("", 1, 1) == []


def test_a_job_that_is_printed_too_late_is_told_where_it_is_due() -> None:
    text = "Body\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\nRnds 4-10: sc around (18)\n"
    text += "Rnd 11: (sc, dec) x 6 (12)\nRnd 12: dec x 6 (6)\n\nAssembly\nPlace safety eyes between rounds 6 and 7.\n"
    told = explained(text).between(10, 10)
    noticed = [sentence for one in told for sentence in one.noticed]
    assert len(noticed) == 1
    assert "the eyes" in noticed[0]
    assert "earlier than it is printed" in noticed[0]
    assert "of Body" in noticed[0]
