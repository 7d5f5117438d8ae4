"""Numbers in front of names: those that count the parts of a page, and those that ask for copies."""

import pytest

from hookside.notation import read

_ROUNDS = "R1: 6 sc in magic ring (6)\nR2: inc x 6 (12)\nR3: sc around (12)\nFasten off\n\n"


def _made(form: str, names: list[str], rounds: str = _ROUNDS) -> list[tuple[str, int]]:
    heads = [form.format(n=n, name=name) for n, name in enumerate(names, 1)]
    pattern = read("Small robot\n\n" + "".join(f"{head}\n{rounds}" for head in heads))
    return [(piece.name, piece.make) for piece in pattern.pieces if piece.courses]


@pytest.mark.parametrize(
    "form",
    [
        "[{n}] {name}", "({n}) {name}", "#{n} {name}", "#{n}: {name}", "No. {n} {name}", "no {n}: {name}",
        "{n}: {name}", "{n} - {name}", "{n} | {name}", "{n} {name}", "[{n}/4] {name}", "({n} of 4) {name}",
        "## ({n}) {name}", "{{{n}}} {name}", "<{n}> {name}", "[Part {n}] {name}", "{n}. {name}", "{n}) {name}",
    ],
)  # fmt: skip
def test_numbers_that_count_the_parts_ask_for_no_copies(form: str) -> None:
    made = _made(form, ["HEAD", "BODY", "ARMS (make 2)", "CHEST PLATE"])
    assert made == [("Head", 1), ("Body", 1), ("Arms", 2), ("Chest plate", 1)]


@pytest.mark.parametrize("names", [["BODY", "EARS"], ["BODY", "EARS", "SPIKES"]])
def test_numbers_that_may_be_copies_stay_copies(names: list[str]) -> None:
    assert _made("{n} {name}", names) == [(name.capitalize(), n) for n, name in enumerate(names, 1)]


def test_numbers_that_do_not_count_up_are_copies() -> None:
    text = "Owl\n\n1 BODY\n" + _ROUNDS + "2 WINGS\n" + _ROUNDS + "2 FEET\n" + _ROUNDS
    assert [piece.make for piece in read(text).pieces] == [1, 2, 2]


def test_a_list_of_parts_is_none_of_their_headings() -> None:
    text = "Owl\n\n(1) Body\n(2) Wing\n(3) Beak\n\nBODY\n" + _ROUNDS + "WINGS (make 2)\n" + _ROUNDS
    assert [(p.name, p.make) for p in read(text).pieces if p.courses][-1] == ("Wings", 2)


def test_parts_whose_rounds_go_on_in_number_are_counted_too() -> None:
    text = "Hat\n\n[1] CROWN\nR1: 6 sc in magic ring (6)\nR2: inc x 6 (12)\n\n[2] BRIM\nR3: sc around (12)\n"
    assert [(p.name, p.make) for p in read(text).pieces] == [("Crown", 1), ("Brim", 1)]


def test_numbers_of_rounds_name_nothing() -> None:
    text = "Ball\n(1) Six sc in magic ring (6)\n(2) Inc in every st (12)\n(3) Sc around (12)\n"
    (piece,) = read(text).pieces
    assert (piece.name, piece.make) == ("Ball", 1)
