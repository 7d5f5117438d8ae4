"""No line between the first round of a piece and its end goes without a word: it is read, shown, or said."""

import re

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from hookside.notation import read
from hookside.pattern import Pattern

BEFORE = "Buoy\nRnd 1: 6 sc in MR (6)\nRnd 2: inc around (12)\nRnd 3: (sc, inc) x6 (18)\n"
AFTER = "\nRnd 4: sc around (18)\nRnd 5: (sc, dec) x6 (12)"
LINE = BEFORE.count("\n") + 1
# Demo words, in no order that any rule was made for
WORDS = [
    "the", "a", "some", "your", "bell", "magnet", "wire", "fluff", "tail", "keel", "whiskers", "gull", "mast",
    "pink", "black", "tiny", "three", "two", "six", "in", "on", "under", "through", "middle", "goes", "comes",
    "lies", "needs", "is", "was", "loves", "leave", "mind", "before", "after", "stuff", "close", "quietly",
    "slowly", "twice", "again", "same", "rounds", "stitches", "and", "then", "but", "not", "I", "we", "it",
    "nose", "eyes", "cheeks", ":", ",", "-", "(", ")",
]  # fmt: skip
NUMBERS = ["18", "12", "6", "24", "4.", "4-6.", "4+5.", "7)", "(18)", "x3", "3x", "X", "V", "6 X", "=", "-", ",", '"']


def accounted(text: str, line: int) -> bool:
    """Is a line of a text a course's, a piece's or an asking's, in the front matter, or spoken of by a finding?"""
    pattern = read(text)
    words = text.splitlines()[line - 1].strip(" -:,()").lower()
    if any(f.line == line or (f.code == "talk" and f" {line}" in f.message) for f in pattern.findings):
        return True
    kept = [p.name for p in pattern.pieces] + pattern.notes + pattern.materials + [pattern.title]
    kept += [c.text for p in pattern.pieces for c in [*p.courses, *p.cues]]
    kept += [f"{k} {v}" for k, v in pattern.abbreviations.items()]
    lines = {c.line for p in pattern.pieces for c in [*p.courses, *p.cues]} | {p.line for p in pattern.pieces}
    return line in lines or any(words in " ".join(k.lower().split()) for k in kept)


def worked(pattern: Pattern) -> list[tuple[str, str, str, int | None]]:
    """What a pattern shows at the work."""
    return [(p.name, c.label, c.text, c.makes) for p in pattern.pieces for c in p.courses]


@given(st.lists(st.sampled_from(WORDS), min_size=1, max_size=9))
@settings(max_examples=150, deadline=None)
def test_a_line_between_two_rounds_never_vanishes(words: list[str]) -> None:
    sentence = " ".join(words)
    if re.search(r"[a-z]{2}", sentence, re.I):
        assert accounted(f"{BEFORE}{sentence}{AFTER}", LINE), sentence
        assert accounted(f"{BEFORE}{sentence.capitalize()}.{AFTER}", LINE), sentence


@given(st.lists(st.sampled_from(NUMBERS), min_size=1, max_size=5))
@example(["7)", "X"])
@settings(max_examples=150, deadline=None)
def test_a_line_of_numbers_between_two_rounds_never_vanishes(told: list[str]) -> None:
    line = " ".join(told)
    if re.fullmatch(r"- \d+ -", line):
        return  # the number of a page
    if re.search(r"\d(?![.)]$)", line) and line[0] not in ",=":  # what begins so is no line of its own
        for after in (AFTER, ""):
            with_it, without = read(f"{BEFORE}{line}{after}"), read(f"{BEFORE}{after[1:]}")
            told_of = any(f.line == LINE or (f.code == "talk" and f" {LINE}" in f.message) for f in with_it.findings)
            assert told_of or worked(with_it) != worked(without), line


def test_a_thing_named_between_two_rounds_is_shown_there_and_talk_is_not() -> None:
    for line in ("Magnet: pole side down.", "Heart beat box goes in before you shut it.", "Keel weight: on the hull."):
        cues = [(c.kind, c.after) for p in read(f"{BEFORE}{line}{AFTER}").pieces for c in p.cues]
        assert [after for _, after in cues] == ["3"], line
    for line in ("It was raining.", "My kids wanted blue, as always.", "Almost done!", "The gulls were loud that day."):
        pattern = read(f"{BEFORE}{line}{AFTER}")
        assert not [c for p in pattern.pieces for c in p.cues], line
        assert [f.line for f in pattern.findings] == [LINE], line


def test_talk_is_one_finding_with_the_numbers_of_its_lines() -> None:
    text = BEFORE + "The gulls were loud.\nRnd 4: sc around (18)\nIt was raining.\nRnd 5: sc around (18)\nWe had soup."
    found = [f for f in read(text).findings if f.code == "talk"]
    (told,) = [one.message for one in found]
    assert told.startswith("Lines 5, 7 and 9 are talk")


def test_talk_that_may_hold_a_job_or_name_a_part_stands_in_its_own_words() -> None:
    lines = ("By now I had stuffed him nice and full, and so should you.",
             "I thought of you at the last round, and so did she.", "That tail was a bit of a nuisance, I thought.",
             "Once upon a tuft", "Those rounds took me a week.")  # fmt: skip
    for line in lines:
        text = f"{BEFORE}The gulls were loud.\nRnd 4: sc around (18)\n{line}\nRnd 5: sc around (18)\nWe had soup."
        told = [f.message for f in read(text).findings]
        assert any(line in one for one in told), (line, told)
        assert any(one.startswith("Lines 5 and 9 are talk") for one in told), (line, told)


def test_how_often_alone_below_a_counted_round_is_said() -> None:
    for line in ("(x3)", "(3x)", "[x 2]", "(3 times)"):
        found = [f.code for f in read(f"{BEFORE}{line}{AFTER}").findings]
        assert found in (["left-out"], ["unread"]), line


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("Once stuffed, dec x 6.\nFO", "left-out"),
        ("(R4 dec x 6)\nFO", "left-out"),
        ("Eyes, then sc 12\nFO", "left-out"),
        ("FO after two more rounds", "asked-work"),
        ("Stuff after 2 more plain rounds.", "asked-work"),
        ("FO, sc 12", "asked-work"),
    ],
)
def test_a_last_round_without_a_label_is_said(line: str, code: str) -> None:
    pattern = read(f"Body\nR1: 6 sc in mr\nR2: inc x 6 (12)\nR3: sc\n{line}")
    assert [f.code for f in pattern.findings if f.severity == "warning"] == [code]


def test_more_rounds_that_stand_below_are_not_said() -> None:
    rounds = "Body\nR1: 6 sc in mr\nR2: inc x 6 (12)\nR3: sc around\nStuff after two more rounds.\nR4: sc around\n"
    assert not read(f"{rounds}R5: sc around").findings
