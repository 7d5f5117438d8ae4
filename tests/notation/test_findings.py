"""Every mistake of the table is brought out by its samples, where it stands, and its suggestions mend it."""

import re

import pytest

from hookside.notation import read
from hookside.notation.arithmetic import summing
from hookside.notation.arithmetic.ground import Reading
from hookside.notation.arithmetic.summing import Sum
from hookside.notation.findings.folding import MOST_ALIKE
from hookside.notation.findings.table import table
from hookside.pattern import Finding

SAMPLES = [(code, sample) for code, mistake in table().items() for sample in mistake.samples]


@pytest.mark.parametrize(("code", "sample"), SAMPLES)
def test_sample(code: str, sample: str) -> None:
    found = [f for f in read(sample).findings if f.code == code]
    assert found
    assert all(f.severity == table()[code].severity for f in found)
    assert all(("{" not in f.message and f.message[0].isupper()) or f.message[0] == '"' for f in found)


def same(a: Finding, b: Finding) -> bool:
    return (a.code, a.piece, a.course_id) == (b.code, b.piece, b.course_id)


@pytest.mark.parametrize(
    "text",
    [sample for _, sample in SAMPLES]
    + [
        "Rnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\nRnd 4: (2 sc, inc) x 5 (24)\n",
        "<p>Rnd&nbsp;1: 6 sc in MR (6)</p><p>Rnd 2: inc \u00d7 6 (13)</p>",
        "Row 1: Ch 11, sc in 2nd ch from hook and in each ch across (10)\nRow 2: ch 1, turn, sc in next 8 sts, sc2tog (9)\nRow 3: ch 1, turn, sc in next 10 sts (10)",  # noqa: E501
    ],
)
def test_a_suggestion_once_taken_makes_its_finding_vanish(text: str) -> None:
    for finding in read(text).findings:
        for suggestion in finding.suggestions:
            mended = text[: suggestion.start] + suggestion.replacement + text[suggestion.end :]
            assert not any(same(finding, f) for f in read(mended).findings), suggestion.label


def test_left_over_reads_like_a_friend() -> None:
    text = "\n".join(
        ["Rnd 1: 6 sc in MR (6)", "Rnd 2: inc x 6 (12)"]
        + [f"Rnd {n}: (sc in next {n - 2}, inc) x 6 ({6 * n})" for n in range(3, 8)]
        + ["Rnd 8: (sc in next 5, inc) x 6"]
    )
    (finding,) = read(text).findings
    assert finding.message.startswith(
        "Round 8 works 6 stitches six times = 36, but round 7 made 42: six are left over."
    )
    assert '"(sc in next 6, inc) x 6" uses all 42 and makes 48' in finding.message
    assert '"(sc in next 5, inc) x 7" uses all 42 and makes 49' in finding.message
    assert (finding.line, finding.column, finding.expected, finding.found) == (8, 8, 42, 36)
    # Each way out says what it comes to, also those of which no sentence speaks.
    assert "Round 8: (sc in next 6, inc) x 6, makes 48" in [one.label for one in finding.suggestions]
    assert all(re.search(r", makes \d+$", one.label) for one in finding.suggestions)


def test_positions_in_a_text_with_foreign_characters() -> None:
    text = "\ufeffRnd 1: 6 s\u200bc in MR (6)\r\nRnd 2: inc \u00d7 6 (13)\r\n"
    (finding,) = read(text).findings
    assert finding.code == "count"
    start = text.index("13")
    assert (finding.line, finding.span) == (2, 2)
    assert [(s.start, s.end) for s in finding.suggestions][0] == (start, start + 2)  # noqa: RUF015


def test_errors_do_not_cascade() -> None:
    text = "Rnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 5 (18)\nRnd 4: (2 sc, inc) x 6 (24)\nRnd 5: sc around (24)"  # noqa: E501
    assert [(f.code, f.course) for f in read(text).findings] == [("left-over", "3")]


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("FIN\nRang 1: 5 sc in MR (5)\nRang 2: 5 sc (5)\n\nHEAD\nRnd 1: 6 sc in MR (6)", 2),
        ("Fin\n1. 6 sc in MR (6)\n2. inc x 6 (12)\n3 FLO 12 (12)\n4. sc around", 4),
        ("Fin\n4) 6 sc in MR = 6\n5) inc x 6 = 12\nHere comes 6) *4 sc, dec* 2 times = 10\nCut yarn.", 4),
        ("head\n6 - 12 - 18 - 24\n5 rnds 24\nthen 18 - 12, eyes in\n\nBODY\nRnd 1: 6 sc in MR (6)", 2),
        ("Rnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\n\nCarefully 12 dc through the rim of the buoy.", 4),
    ],
)
def test_no_line_of_work_is_left_out_in_silence(text: str, line: int) -> None:
    assert [f.line for f in read(text).findings if f.code == "left-out"] == [line]


def test_story_and_materials_are_left_out_without_a_word() -> None:
    text = (
        "Harbour buoy\n\nMaterials:\n40 g of DK yarn, 3 mm hook\n\nI made 12 of these for the pier.\n\nBUOY\n"
        "Rnd 1: 6 sc in MR (6)\nRound 2 is where it begins to curl.\nRnd 2: inc x 6 (12)\nThe gulls took the 2nd one.\n"
    )
    assert not [f.message for f in read(text).findings if f.code == "left-out"]


def test_thousands_alike_are_told_in_one() -> None:
    wild = "".join(f"Rnd {n}: wobble {n} gulls in the {n}th gap\n" for n in range(2, 2001))
    pattern = read("Rnd 1: 6 sc in MR (6)\n" + wild)
    unread = [f for f in pattern.findings if f.code == "unread"]
    (rest,) = [f for f in pattern.findings if f.code == "more-alike"]
    assert len(unread) == MOST_ALIKE - 1
    assert (rest.severity, rest.line, rest.found) == ("warning", MOST_ALIKE + 1, 1999 - len(unread))
    assert rest.message.startswith("And 1,900 more like it. The first of them: I could not read round 101:")


def test_errors_stay_errors_however_many_there_are() -> None:
    wrong = "".join(f"Rnd {n}: (sc, inc) x {5 + n % 2}\nRnd {n + 1}: 6 sc in MR (6)\n" for n in range(2, 900, 2))
    pattern = read("Rnd 1: 6 sc in MR (6)\n" + wrong)
    assert "error" in {f.severity for f in pattern.findings if f.code == "more-alike"}
    assert not pattern.can_be_followed


def test_a_hundred_alike_stand_as_they_are() -> None:
    text = "Rnd 1: 6 sc in MR (6)\n" + "".join(f"Rnd {n}: wobble the {n} gulls\n" for n in range(2, MOST_ALIKE + 2))
    assert [f.code for f in read(text).findings].count("unread") == MOST_ALIKE


@pytest.mark.parametrize(
    "body",
    [
        "*1, 2* (18)",
        "sc 2, dec (1 decrease made) 17",
        "sc 3, attach the flag with 2 sc, sc 4, insert 2 sc later an eye",
        "dec (2 sts), sc 10",
        "a: sc 6, turn",
    ],
)
def test_no_mend_is_offered_where_a_number_was_not_read(body: str) -> None:
    pattern = read(f"Rnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\nRnd 3: {body}\n")
    found = [f for f in pattern.findings if f.course == "3"]
    assert found
    assert not any(f.suggestions for f in found)


def test_a_list_that_was_meant_to_go_round_is_offered_so() -> None:
    (found,) = read("Rnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\nRnd 3: 1 sc, 1 inc\n").findings
    assert [one.label for one in found.suggestions] == ["Round 3: (1 sc, 1 inc) x 6, makes 18"]


def test_ranges_that_cross_are_offered_one_behind_the_other() -> None:
    text = "Rnd 1: 6 sc in MR (6)\nRnds 2-4: sc around\nRnds 4-6: sc around\n"
    (found,) = read(text).findings
    (offered,) = found.suggestions
    mended = text[: offered.start] + offered.replacement + text[offered.end :]
    assert "Rnds 5-6: sc around" in mended
    assert not read(mended).findings


def test_a_line_that_may_change_the_yarn_is_said_and_one_that_only_chats_is_not() -> None:
    text = "Pennant\nYarn: yellow, blue\nR1: 6 sc in MR (6)\nR2: inc x 6 (12)\n{}\nR3: sc around (12)\n"
    for line in ("I thought yellow would be nice here.", "My kids wanted blue, as always.", "Bye blue!", "Seafoam"):
        assert [f.line for f in read(text.format(line)).findings] == [5], line
    for line in ("I love this part :)", "It was raining.", "Almost done!"):
        assert [f.code for f in read(text.format(line)).findings] == ["talk"], line


@pytest.mark.parametrize(
    "line",
    ["<p>Rnd 3: <b>(1 sc, inc)</b> x 5 (18)</p>", "| 3 | (1 sc, inc) x 5 | 18 |", "Rnd 3: (1 sc,\ninc) x 5 = 18"],
)
def test_an_offer_is_told_in_plain_words_whatever_the_page_is_made_of(line: str) -> None:
    head = ["| Rnd | Work | Sts |", "| 1 | 6 sc in MR | 6 |", "| 2 | inc x 6 | 12 |"]
    if line[0] != "|":
        head = ["Rnd 1: 6 sc in MR (6)", "Rnd 2: inc x 6 (12)"]
    text = "\n".join(["Buoy", *head, line])
    (finding,) = read(text).findings
    assert finding.suggestions[0].label == "Round 3: (1 sc, inc) x 6, makes 18"
    assert text[finding.suggestions[0].start : finding.suggestions[0].end] == "5"


def test_what_is_a_round_or_a_piece_by_its_looks_is_said_wherever_it_was_lost() -> None:
    ahead = "Bat\n{}\n\nWing\nRnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\n"
    for line in ("body: MR 6, inc 12, (1,inc) 18, 6 rnds of 18", "2 in each: 12", "1, 2 in next: 18"):
        assert ("left-out", 2) in [(f.code, f.line) for f in read(ahead.format(line)).findings], line
    counts = "Hippo\n\nHead\n6\n12\n18\n18\nstuff\n12\n\nears x2\n5\n10\n\nSnout\n6\n12\n"
    found = read(counts).findings
    assert ("left-out", 9) in [(f.code, f.line) for f in found]
    assert not any(f.code == "talk" for f in found)


def test_steps_that_do_not_come_to_their_count_are_never_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    """A slip in the arithmetic, made up here: its course is shown as words, said, and the next one goes on."""

    class Slipped(Sum):
        def run(self) -> Reading:
            reading = super().run()
            reading.makes += reading.makes == 18
            return reading

    monkeypatch.setattr(summing, "Sum", Slipped)
    text = "Rnd 1: 6 sc in MR (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6\nRnd 4: 24 sc (24)\nRnd 5: sc around (24)"
    pattern = read(text)
    assert [(f.code, f.course) for f in pattern.findings if f.severity != "note"] == [("own-steps", "3")]
    assert [(c.read, c.makes) for c in pattern.pieces[0].courses] == [
        (True, 6), (True, 12), (False, None), (True, 24), (True, 24),
    ]  # fmt: skip
