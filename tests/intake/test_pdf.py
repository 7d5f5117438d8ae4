"""PDF files with text: columns, hyphens, heads and feet, pages without text. Demo patterns."""

from __future__ import annotations

from typing import Any

import pytest

from hookside.compile import read
from hookside.intake import CannotTake, take

BUOY = [
    "Mooring Buoy", "", "US terms", "Materials: red cotton, 3 mm hook", "", "Buoy (make 2)",
    "Rnd 1: 6 sc in magic ring (6)", "Rnd 2: inc x 6 (12)", "Rnd 3: (sc, inc) x 6 (18)",
    "Rnds 4-6: sc in each st around (18)", "Stuff firmly.", "Rnd 7: (sc, dec) x 6 (12)", "Rnd 8: dec x 6 (6)",
    "Fasten off, leaving a 20 cm tail, and close the hole.",
]  # fmt: skip
COUNTS = [6, 12, 18, 18, 18, 18, 12, 6]


def counts(text: str) -> list[list[int | None]]:
    return [[course.makes for course in piece.courses] for piece in read(text).pieces if piece.courses]


def test_a_page_of_text_is_read_as_if_it_had_been_pasted(make: Any, down: Any) -> None:
    found = take(make([down(BUOY)]), "buoy.pdf")
    assert found.kind == "pdf"
    assert found.said == []
    pattern = read(found.text)
    assert pattern.title == "Mooring Buoy"
    assert counts(found.text) == [COUNTS]
    assert [p.make for p in pattern.pieces if p.courses] == [2]


def test_two_columns_are_read_one_after_the_other(make: Any, down: Any) -> None:
    left = [f"Rnd {n}: sc in each st around (18)" for n in range(4, 14)]
    right = ["Flag", "Row 1: 8 sc in the side of the buoy (8)"]
    right += [f"Row {n}: ch 1, turn, sc in each st across (8)" for n in range(2, 11)]
    page = [(60.0, 60.0, "Mooring Buoy, with a flag that stands upright in any wind and any sea")]
    page += down(BUOY[5:9] + left, 60.0, 100.0) + down(right, 320.0, 100.0)
    found = take(make([page]), "columns.pdf")
    lines = found.text.splitlines()
    assert lines.index("Rnd 13: sc in each st around (18)") < lines.index("Flag")
    assert counts(found.text)[0] == [6, 12, 18] + [18] * 10


def test_a_short_second_column_stays_apart(make: Any, down: Any) -> None:
    right = ["Finishing: Put the eyes between rounds 6", "and 7. Stuff the body firmly", "and sew on the wings."]
    page = down(BUOY, 60.0, 100.0, 15.0) + down(right, 380.0, 100.0)
    lines = take(make([page]), "short.pdf").text.splitlines()
    assert lines.index(BUOY[-1]) < lines.index(right[0])
    assert lines[lines.index(right[0]) + 1] == right[1]


def test_a_table_is_read_line_by_line(make: Any, down: Any) -> None:
    rows = [("Rnd 1", "6 sc in magic ring", "6"), ("Rnd 2", "inc x 6", "12"), ("Rnd 3", "(sc, inc) x 6", "18"),
            ("Rnds 4-6", "sc in each st around", "18"), ("Rnd 7", "(sc, dec) x 6", "12")]  # fmt: skip
    page = [(60.0, 60.0, "Mooring Buoy"), (60.0, 90.0, "Buoy")]
    for n, cells in enumerate(rows):
        page += [(x, 120.0 + 16 * n, cell) for x, cell in zip((60.0, 150.0, 420.0), cells, strict=True)]
    text = take(make([page]), "table.pdf").text
    assert "Rnd 3 | (sc, inc) x 6 | 18" in text
    assert counts(text) == [[6, 12, 18, 18, 18, 18, 12]]


def test_heads_feet_and_page_numbers_are_left_out_and_said(make: Any, down: Any) -> None:
    pages = []
    for number in range(1, 5):
        body = [f"Rnd {number * 2 + n}: sc in each st around (18)" for n in (2, 3)]
        pages.append([(60, 30, "Harbour Crochet, spring"), *down(body, y=90), (290, 810, f"Page {number} of 4")])
    pages[0] = [(60, 30, "Harbour Crochet, spring"), *down(BUOY[5:9], y=90), (290, 810, "Page 1 of 4")]
    found = take(make(pages), "leaflet.pdf")
    assert "Harbour Crochet" not in found.text
    assert "Page" not in found.text
    assert any("every page" in line and "Harbour Crochet, spring" in line for line in found.said)


def test_words_parted_at_the_end_of_a_line_are_whole_again(make: Any, down: Any) -> None:
    lines = ["Sew the flippers on with the yarn that was left hang-", "ing at their ends.", "Skip the ch-", "2 space."]
    text = take(make([down(lines)]), "ends.pdf").text
    assert "left hanging" in text
    assert "ch-\n2 space" in text, "a hyphen before a number is a designer's own"


def test_a_page_without_text_is_named(make: Any, down: Any) -> None:
    found = take(make([down(BUOY), [], down(["More words."])]), "chart.pdf")
    assert any("page 2" in line for line in found.said)
    assert counts(found.text) == [COUNTS]
    with pytest.raises(CannotTake, match="no text"):
        take(make([[], []]), "scan.pdf")


def test_a_pdf_as_writers_of_pdf_make_them(make: Any, down: Any) -> None:
    """The same page written anew by pypdf, with its own object streams and compression."""
    import io

    from pypdf import PdfReader, PdfWriter

    writer = PdfWriter()
    for page in PdfReader(io.BytesIO(make([down(BUOY)] * 2))).pages:
        writer.add_page(page)
    out = io.BytesIO()
    writer.write(out)
    assert take(out.getvalue(), "again.pdf").text.count("Rnd 8: dec x 6 (6)") == 2
    writer.encrypt("harbour")
    locked = io.BytesIO()
    writer.write(locked)
    with pytest.raises(CannotTake, match="password"):
        take(locked.getvalue(), "locked.pdf")


def test_rounds_at_the_edges_of_pages_are_no_furniture(make: Any, down: Any) -> None:
    """Plain rounds, alike but for their numbers, first and last on every page; heads and feet go all the same."""
    rounds = [f"Rnd {n}: sc in each st around (36)" for n in range(1, 37)]
    plain = [f"{n + 1}. sc around (36)" for n in range(36)]
    for written in (rounds, plain):
        pages = [
            [(60, 30, "Night Ferry, page by page"), *down(written[6 * n : 6 * n + 6], y=90), (290, 810, f"{n + 1}")]
            for n in range(6)
        ]
        found = take(make(pages), "ferry.pdf")
        assert [line for line in found.text.splitlines() if line] == written
        assert any("Night Ferry" in line for line in found.said)


def test_what_goes_on_over_the_page_is_whole(make: Any, down: Any) -> None:
    first = ["Wing", "Rnd 1: 6 sc in magic ring (6)", "Rnd 2: sc in the next 2 sts,"]
    second = ["inc in the next 4 sts (10)", "Sew the wings on with the yarn that was left hang-"]
    third = ["ing at their ends.", "Body"]
    text = take(make([down(first), down(second), down(third)]), "wing.pdf").text
    assert "Rnd 2: sc in the next 2 sts,\ninc in the next 4 sts (10)\n" in text
    assert "left hanging\nat their ends." in text
    assert counts(text) == [[6, 10]]


def test_hyphens_that_are_not_to_be_seen_are_not(make: Any, down: Any) -> None:
    lines = ["Sew the flip\u00adpers on with the yarn that was left hang\u00ad", "ing at their ends."]
    assert "Sew the flippers on with the yarn that was left hanging" in take(make([down(lines)]), "soft.pdf").text


def test_columns_are_told_from_where_they_begin(make: Any, down: Any) -> None:
    """As a browser prints columns: no two lines at one height, three of them, small print around."""
    left = ["Kelp Frond", "Blade", *BUOY[6:9], "Insert the eyes between rounds 7 and 8."]
    right = ["Rnds 4-6: sc in each st around (18)", "Stuff firmly.", "Rnd 7: (sc, dec) x 6 (12)", "Rnd 8: dec x 6 (6)"]
    page = [(57.0, 30.0, "Kelp, by the harbour", 6.0), (57.0, 815.0, "Page 1 of 1, 2026", 6.0)]
    page += down(left, 10.0, 110.0, 25.0) + down(right, 225.0, 83.0, 25.4)
    found = take(make([page]), "frond.pdf")
    assert [line for line in found.text.splitlines() if line] == left + right
    assert found.said == ["Left out, in small print at the edge of a page: Kelp, by the harbour; Page 1 of 1, 2026."]
    rounds = [f"Rnd {n}: sc around (18)" for n in range(1, 25)]
    page = [line for n in range(3) for line in down(rounds[8 * n : 8 * n + 8], 10.0 + 190 * n, 90.0 + 7 * n, 25.0)]
    assert [line for line in take(make([page]), "three.pdf").text.splitlines() if line] == rounds
    beside = down(["Fin (make 2)", *rounds[:4]], 10.0, 90.0) + down(["Tail", *rounds[:4]], 140.0, 90.0)
    text = take(make([beside]), "beside.pdf").text
    assert text.index("Tail") > text.index(rounds[3])
    set_in = down(["Fin", *[""] * 3, "Tail"], 10.0, 90.0)
    set_in += down([*rounds[:3], "", *rounds[:3]], 150.0, 105.0)
    lines = take(make([set_in]), "set-in.pdf").text.splitlines()
    assert [line for line in lines if line] == ["Fin", *rounds[:3], "Tail", *rounds[:3]]


def test_columns_that_cannot_be_told_are_said(make: Any, down: Any) -> None:
    page = down([f"Rnd {n}: sc around (18) Rnd {n + 9}: sc (18)" for n in range(1, 5)], 60.0, 90.0)
    assert any("page 1 lines hold two rounds each" in line for line in take(make([page]), "mixed.pdf").said)


def test_a_wrapped_sentence_is_one_line_and_a_list_is_not(make: Any, down: Any) -> None:
    narrow = ["Rnd 1: 6 sc in", "ring (6)", "Insert the", "eyes between", "rounds 7 and", "8."]
    text = take(make([down(narrow, 60.0, 90.0, 14.0)]), "narrow.pdf").text
    assert "Insert the eyes between rounds 7 and 8." in text.splitlines()
    things = ["Materials", "Red cotton", "needle", "thread", "Rnd 1: 6 sc in magic ring (6)"]
    assert take(make([down(things, 60.0, 90.0, 14.0)]), "list.pdf").text.splitlines() == things


def test_a_water_mark_is_no_title(make: Any, down: Any) -> None:
    found = take(make([down(BUOY)], mark="COPY FOR INES 12"), "marked.pdf")
    assert read(found.text).title == "Mooring Buoy"
    assert found.said == ["Left out, as it stands aslant on the page: COPY FOR INES 12."]
