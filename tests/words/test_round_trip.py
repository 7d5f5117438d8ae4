"""What the bench shows can be read again: the short words of a course, printed as a round, give the same stitches."""

from __future__ import annotations

import pytest
from crochet_drawn import bodies, course, group, times
from hypothesis import given, settings

from hookside.notation import read
from hookside.pattern import Node, Terms, length, makes, uses
from hookside.words import course_words


def again(body: list[Node], terms: Terms) -> tuple[int | None, int | None, int]:
    """Used, made and steps of a course after its short words were printed and read."""
    below = uses(body)
    sc = "sc" if terms == "US" else "dc"
    words = course_words(course(*body), terms).short
    text = f"HULL\n\nRnd 1: {below} {sc} in a magic ring ({below})\nRnd 2: {words} ({makes(body)})\n"
    second = read(text, terms).pieces[0].courses[1]
    assert second.read, text
    return second.uses, second.makes, length(second.body)


@given(bodies(2).filter(lambda body: 1 <= uses(body) <= 2000 and makes(body) <= 2000))
@settings(max_examples=50, deadline=None)
def test_drawn_courses(body: list[Node]) -> None:
    for terms in ("US", "UK"):
        assert again(body, terms) == (uses(body), makes(body), length(body)), course_words(course(*body), terms).short


@pytest.mark.parametrize(
    "body",
    [
        [times(7, group("sc", 4), group("inc"))],
        [times(6, group("inc"))],
        [group("sc", 40, loops="back")],
        [times(3, group("sc", 2, loops="front"), group("inc"))],
        [group("skip", 2), group("hdc", 3), group("sl st", 2)],
        [group("sc", 3), group("dc", makes=3, steps=3), group("sc3tog")],
        [group("bobble", 2), group("sc", 3), group("hdc2tog", 2)],
    ],
    ids=lambda body: course_words(course(*body), "US").short,
)
@pytest.mark.parametrize("terms", ["US", "UK"])
def test_courses_of_the_trade(body: list[Node], terms: Terms) -> None:
    assert again(body, terms) == (uses(body), makes(body), length(body))
