"""Groups and courses in words: short, full, spoken, in US and UK terms."""

from __future__ import annotations

import re
from collections.abc import Sequence

import pytest
from crochet_drawn import bodies, course, group, times
from hypothesis import given, settings

from hookside.pattern import Course, Group, Node, Pattern, Piece, Repeat, Terms
from hookside.stitches import TABLE
from hookside.words import course_words, dress, group_words

INC, DEC = group("inc"), group("dec")

# What a maker says for each course: the examples of the trade as in the house's plan, the rest by ear (invented data).
SAID: list[tuple[Course, str, str]] = [
    (
        course(times(7, group("sc", 4), INC)),
        "(4 sc, inc) x 7",
        "single crochet in the next four, then two in the next; seven times in all",
    ),
    (
        course(times(7, INC, group("sc", 4))),
        "(inc, 4 sc) x 7",
        "two single crochet in the next, then four; seven times in all",
    ),
    (
        course(times(2, group("sc"), DEC)),
        "(1 sc, dec) x 2",
        "single crochet in the next, then the next two together; twice in all",
    ),
    (course(times(6, INC)), "inc x 6", "two single crochet in each of the next six"),
    (course(group("dec", 6)), "dec x 6", "single crochet two together, six times"),
    (
        course(times(6, group("sc", 3), group("inv dec"))),
        "(3 sc, inv dec) x 6",
        "single crochet in the next three, then an invisible decrease over the next two; six times in all",
    ),
    (
        course(group("ring"), group("sc", 6, uses=0, into="ring")),
        "magic ring, 6 sc in ring",
        "make a magic ring, then six single crochet in the ring",
    ),
    (course(group("sc", 42), plain=True), "42 sc", "single crochet in each stitch around"),
    (
        course(group("sc", 40, loops="back"), group("join"), plain=True),
        "40 sc in back loops, join",
        "single crochet in the back loop of each stitch around, then join with a slip stitch",
    ),
    (
        course(group("ch"), group("sc", 8), group("turn"), kind="row", plain=True),
        "ch 1, 8 sc, turn",
        "chain one, then single crochet in each stitch across, then turn the work",
    ),
    (
        course(group("sc"), INC, times(5, group("sc", 2), INC), group("sc")),
        "1 sc, inc, (2 sc, inc) x 5, 1 sc",
        "single crochet in the next, then two in the next; then five times: single crochet in the next two, then two "
        "in the next; then single crochet in the next",
    ),
    (
        course(times(3, times(2, group("sc"), INC), group("sc", 3))),
        "((1 sc, inc) x 2, 3 sc) x 3",
        "twice: single crochet in the next, then two in the next; then single crochet in the next three; all of that "
        "three times in all",
    ),
    (
        course(group("hdc", 2), group("dc", 2, makes=2, steps=2), group("skip", 2), group("bobble"), kind="row"),
        "2 hdc, 2 dc in each of next 2, skip 2, bo",
        "half double crochet in the next two, two double crochet in each of the next two, skip the next two, then a "
        "bobble in the next",
    ),
    (
        course(group("sc", into="2nd ch from hook"), group("sc", makes=3, steps=3, into="last ch")),
        "1 sc in 2nd ch from hook, 3 sc in last ch",
        "one single crochet in the second chain from the hook, then three single crochet in the last chain",
    ),
    (
        course(
            group("sc", 8, uses=0),
            group("inc3", uses=0, into="last ch"),
            group("sc", 8, uses=0, into="other side"),
            group("inc", uses=0, into="last ch"),
        ),
        "8 sc, 3 sc in last ch, 8 sc along the other side, 2 sc in last ch",
        "eight single crochet, three single crochet in the last chain, eight single crochet along the other side of "
        "the chain, then two single crochet in the last chain",
    ),
    (
        course(group("sc", 2, uses=0, into="same st"), group("inc3", uses=0), group("dc", into="corner space")),
        "2 sc in same st, 3 sc in one place, 1 dc in corner space",
        "two single crochet in the same stitch, three single crochet in one place, then one double crochet in the "
        "corner space",
    ),
    (
        course(group("ch", 1, uses=1, makes=1, steps=3, into="counts as a stitch"), group("dc", 9), kind="row"),
        "ch 3, 9 dc",
        "chain three, which counts as a stitch, then double crochet in the next nine",
    ),
    (
        course(
            group("ch", makes=1, uses=0, into="the 3 skipped ch"),
            group("dc", uses=0, into="4th ch from hook"),
            kind="row",
        ),
        "3 ch count as 1, 1 dc in 4th ch from hook",
        "the three skipped chains count as a stitch, then one double crochet in the fourth chain from the hook",
    ),
    (
        course(group("sc", 9, colour="B"), group("sc", 3, colour="A")),
        "9 sc with B, 3 sc with A",
        "single crochet in the next nine with B, then single crochet in the next three with A",
    ),
    (course(group("shell", makes=7, steps=7)), "sh of 7", "a shell of seven in the next"),
]


@pytest.mark.parametrize(("made", "short", "spoken"), SAID, ids=[short for _, short, _ in SAID])
def test_a_course_on_the_screen_and_by_voice(made: Course, short: str, spoken: str) -> None:
    words = course_words(made, "US")
    assert (words.short, words.spoken) == (short, spoken)


def test_full_words_for_both_sides_of_a_chain() -> None:
    told = course_words(
        course(
            group("sc", 8, uses=0), group("inc3", uses=0, into="last ch"), group("sc", 8, uses=0, into="other side")
        ),
        "US",
    ).full
    assert told == (
        "8 single crochet, 3 single crochet in the last chain, then 8 single crochet along the other side of the chain"
    )


def test_full_words_for_a_beginner() -> None:
    assert group_words(group("sc", 4), "US").full == "4 single crochet, one in each of the next 4 stitches"
    assert group_words(group("dc", 1), "UK").full == "1 treble in the next stitch"
    assert course_words(course(times(7, group("sc", 4), INC)), "US").full == (
        "4 single crochet, one in each of the next 4 stitches, then 2 single crochet in the next stitch; 7 times in all"
    )
    assert group_words(group("sc2tog", 6), "US").full == "6 times: 2 stitches together in one single crochet"
    assert group_words(group("cluster", 2, uses=3), "US").full == "2 clusters, each over 3 stitches"


# US -> UK names: us-uk table of okeydokeys.com, madamestitch.com and others, as in the stitch table's sources.
@pytest.mark.parametrize(
    ("stitch", "short", "spoken"),
    [
        ("sc", "4 dc", "double crochet in the next four"),
        ("hdc", "4 htr", "half treble in the next four"),
        ("dc", "4 tr", "treble in the next four"),
        ("tr", "4 dtr", "double treble in the next four"),
        ("sl st", "4 ss", "slip stitch in the next four"),
        ("sc2tog", "dc2tog x 4", "double crochet two together, four times"),
        ("skip", "miss 4", "miss the next four"),
        ("ch", "ch 4", "chain four"),
    ],
)
def test_uk_terms(stitch: str, short: str, spoken: str) -> None:
    words = group_words(group(stitch, 4), "UK")
    assert (words.short, words.spoken) == (short, spoken)


# "4 double crochet" but "4 trebles", "3 slip stitches": usage of the trade, common practice, no source.
@pytest.mark.parametrize(
    ("stitch", "terms", "full"),
    [
        ("sc", "US", "3 single crochet, one in each of the next 3 stitches"),
        ("dc", "UK", "3 trebles, one in each of the next 3 stitches"),
        ("hdc", "UK", "3 half trebles, one in each of the next 3 stitches"),
        ("sl st", "US", "3 slip stitches, one in each of the next 3 stitches"),
        ("bobble", "US", "3 bobbles, one in each of the next 3 stitches"),
        ("v-st", "US", "3 V stitches, one in each of the next 3 stitches"),
        ("picot", "US", "3 picots"),
        ("fsc", "US", "3 foundation single crochet"),
    ],
)
def test_several_of_a_stitch(stitch: str, terms: Terms, full: str) -> None:
    assert group_words(group(stitch, 3), terms).full == full


def test_an_abbreviation_of_the_texts_own_stands_as_it_is() -> None:
    words = group_words(Group(stitch="lst", count=3), "US", {"lst": "limpet stitch"})
    assert (words.short, words.spoken) == ("3 lst", "three limpet stitches, one in each of the next three")
    told = group_words(Group(stitch="lst", count=3), "US", {"lst": "3 hdc in one st, drawn together at the top"})
    assert told.full == "3 lsts, one in each of the next 3 stitches"


def test_a_course_that_could_not_be_read_keeps_its_words_in_the_makers_terms() -> None:
    words = course_words(course(read=False, text="work sc as you like"), "UK", {}, written="US")
    assert words.short == "work dc as you like"
    assert words.spoken == "work double crochet as you like"


# -- the rule of the short form, written a second time ------------------------


def _page(body: Sequence[Node]) -> str:
    """The rule as the page follows it, from the groups' own short words."""
    parts = []
    for node in body:
        if isinstance(node, Group):
            parts.append(node.words.short)
            continue
        inside = _page(node.body)
        single = len(node.body) == 1 and isinstance(node.body[0], Group) and " " not in inside
        parts.append(f"{inside} x {node.times}" if single else f"({inside}) x {node.times}")
    return ", ".join(parts)


@given(bodies())
@settings(max_examples=60, deadline=None)
def test_the_page_can_set_a_course_from_its_body(body: list[Node]) -> None:
    for terms in ("US", "UK"):
        pattern = Pattern(pieces=[Piece(name="Hull", courses=[course(*body)])])
        (dressed,) = dress(pattern, terms).pieces[0].courses
        assert _page(dressed.body) == dressed.words.short


def _bare(body: Sequence[Node]) -> list[Node]:
    return [
        node.model_copy(update={"words": Group(stitch="sc").words})
        if isinstance(node, Group)
        else Repeat(body=_bare(node.body), times=node.times)
        for node in body
    ]


@given(bodies())
@settings(max_examples=60, deadline=None)
def test_dressing_changes_nothing_but_words(body: list[Node]) -> None:
    pattern = Pattern(pieces=[Piece(name="Hull", courses=[course(*body)])])
    dressed = dress(pattern)
    assert _bare(dressed.pieces[0].courses[0].body) == list(body)
    assert dressed.pieces[0].courses[0].words.short
    assert pattern.pieces[0].courses[0].words.short == "", "the pattern that was handed in is left as it was"


@given(bodies())
@settings(max_examples=60, deadline=None)
def test_what_is_spoken_has_no_symbols_and_no_abbreviations(body: list[Node]) -> None:
    for terms in ("US", "UK"):
        said = course_words(course(*body), terms).spoken
        assert re.fullmatch(r"[A-Za-z ,;:-]+", said), said
        short = {entry.abbreviation(terms).lower() for entry in TABLE.values()} - {
            entry.name(terms).lower() for entry in TABLE.values()
        }
        assert not short & set(re.split(r"[ ,;:]+", said.lower())), said
