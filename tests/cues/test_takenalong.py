"""A part that is made like another one: which of its colors it has."""

from hookside.compile import read

CENTRE = "CENTRE\nRnd 1: With coral, 5 sc into ring. [5]\nRnd 2: inc x 5 [10]\n\nBACK\n"


def test_a_part_like_another_but_in_a_color_of_its_own_is_worked_in_that_alone() -> None:
    back = read(f"{CENTRE}Make as centre, with cream.").pieces[1]
    assert [cue.text for cue in back.cues if cue.kind == "colour"] == ["With cream"]
    assert "coral" not in back.courses[0].words.short


def test_it_is_worked_as_the_other_where_it_tells_none() -> None:
    back = read(f"{CENTRE}Make as centre.").pieces[1]
    assert [cue.text for cue in back.cues if cue.kind == "colour"] == ["With coral"]
    assert "coral" in back.courses[0].words.short
