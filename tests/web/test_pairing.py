"""Pairing: once, in time, with few tries, and only when somebody says yes."""

from __future__ import annotations

import base64
import re
from pathlib import Path

import pytest

from hookside.web.devices import MOST, Devices, TooMany, passage_of
from hookside.web.pairing import LETTERS, NotInvited, Pairing, RanOut, TurnedAway


class Clock:
    now = 0.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def pairing(tmp_path: Path, clock: Clock) -> Pairing:
    return Pairing(Devices(tmp_path), clock)


def left_after(pairing: Pairing, shown: str) -> int | None:
    with pytest.raises(NotInvited) as caught:
        pairing.knock(shown, "gull")
    return caught.value.left


def test_the_link_has_128_bits_and_the_typed_form_eight_plain_letters(pairing: Pairing) -> None:
    link, typed = pairing.invite()
    assert len(base64.urlsafe_b64decode(link + "==")) * 8 == 128
    assert len(typed) == 8
    assert set(typed) <= set(LETTERS)
    # Letters and figures that are taken for one another: common practice, no source.
    assert not set("0O1IL2Z5S8BUVG") & set(LETTERS)
    assert pairing.invite() != (link, typed)


@pytest.mark.parametrize("form", [0, 1])
def test_an_invitation_works_once(pairing: Pairing, form: int) -> None:
    invited = pairing.invite()
    pairing.knock(invited[form], "gull")
    assert left_after(pairing, invited[form]) is None
    assert left_after(pairing, invited[1 - form]) is None


def test_typed_as_people_type(pairing: Pairing) -> None:
    _, typed = pairing.invite()
    pairing.knock(f" {typed[:4].lower()}-{typed[4:].lower()} ", "gull")


def test_the_typed_form_lasts_two_minutes_and_the_link_ten(pairing: Pairing, clock: Clock) -> None:
    link, typed = pairing.invite()
    clock.now = 121.0
    assert pairing.lasts() == (479, 0)
    for late in (typed, "A" * 8, f"{typed[:4]}-{typed[4:]}".lower()) * 3:  # nobody's try: letters open nothing now
        with pytest.raises(RanOut):
            pairing.knock(late, "gull")
    assert left_after(pairing, "some other link") == 4
    pairing.knock(link, "gull")
    link, typed = pairing.invite()
    clock.now += 119.0
    pairing.knock(typed, "gull")
    link, typed = pairing.invite()
    clock.now += 601.0
    assert left_after(pairing, link) is None


def test_the_fifth_wrong_try_ends_the_invitation(pairing: Pairing) -> None:
    link, typed = pairing.invite()
    assert [left_after(pairing, "A" * 8) for _ in range(5)] == [4, 3, 2, 1, None]
    assert left_after(pairing, typed) is None
    assert left_after(pairing, link) is None


def test_nobody_comes_in_before_somebody_says_yes(pairing: Pairing) -> None:
    link, _ = pairing.invite()
    secret, figures = pairing.knock(link, "seal's phone")
    assert re.fullmatch("[1-9][0-9]", figures)
    assert pairing.ask(secret) is None
    assert pairing.devices.all() == []
    knock = pairing.waiting()[0]
    assert (knock.name, knock.figures) == ("seal's phone", figures)
    pairing.answer(knock.id, True, "Seal's phone", "Ada")
    assert pairing.waiting() == []
    let_in = pairing.ask(secret)
    assert let_in is not None
    device, token = let_in
    assert (device.name, device.maker) == ("Seal's phone", "Ada")
    assert pairing.devices.by_token(token) == device
    with pytest.raises(TurnedAway):  # the token is told once
        pairing.ask(secret)


def test_turned_away(pairing: Pairing) -> None:
    link, _ = pairing.invite()
    secret, _ = pairing.knock(link, "gull")
    knock = pairing.waiting()[0]
    pairing.answer(knock.id, False, "", "")
    with pytest.raises(TurnedAway):
        pairing.answer(knock.id, True, "", "")
    with pytest.raises(TurnedAway):
        pairing.ask(secret)
    assert pairing.devices.all() == []


def test_a_knock_is_forgotten(pairing: Pairing, clock: Clock) -> None:
    link, _ = pairing.invite()
    secret, _ = pairing.knock(link, "gull")
    knock = pairing.waiting()[0]
    clock.now = 301.0
    assert pairing.waiting() == []
    with pytest.raises(TurnedAway):
        pairing.answer(knock.id, True, "", "")
    with pytest.raises(TurnedAway):
        pairing.ask(secret)


@pytest.mark.parametrize("guess", ["", "x", "\udce9", "é" * 60])
def test_a_wrong_secret_is_turned_away(pairing: Pairing, guess: str) -> None:
    link, _ = pairing.invite()
    pairing.knock(link, "gull")
    with pytest.raises(TurnedAway):
        pairing.ask(guess)


def test_names_are_one_short_line(pairing: Pairing) -> None:
    link, _ = pairing.invite()
    pairing.knock(link, "gull\r\n\u202eseal\x00" + "x" * 500)
    name = pairing.waiting()[0].name
    assert name.startswith("gull seal")
    assert len(name) <= 40
    assert name.isprintable()


def test_the_file_holds_no_secret_and_is_for_this_user_alone(tmp_path: Path) -> None:
    devices = Devices(tmp_path)
    device, token = devices.let_in("gull", "Ada")
    text = devices.file.read_text(encoding="utf-8")
    assert token not in text
    assert passage_of(token) not in text
    assert devices.file.stat().st_mode & 0o777 == 0o600
    again = Devices(tmp_path)
    assert again.by_token(token) == device
    assert again.by_pass(passage_of(token)) == device
    assert again.by_token(passage_of(token)) is None
    assert again.by_pass(token) is None


def test_shown_out_stays_out(tmp_path: Path) -> None:
    devices = Devices(tmp_path)
    device, token = devices.let_in("gull", "")
    assert devices.show_out(device.id)
    assert not devices.show_out(device.id)
    assert devices.by_token(token) is None
    assert Devices(tmp_path).by_token(token) is None


def test_a_household_has_an_end(tmp_path: Path) -> None:
    devices = Devices(tmp_path)
    for _ in range(MOST):
        devices.let_in("gull", "")
    with pytest.raises(TooMany):
        devices.let_in("one more", "")
    assert len(Devices(tmp_path).all()) == MOST


@pytest.mark.parametrize("content", ["", "{", "[1]", '[{"id": "x"}]', '{"a": 1}', "null"])
def test_a_list_that_cannot_be_read_lets_nobody_in(tmp_path: Path, content: str) -> None:
    (tmp_path / "devices.json").write_text(content, encoding="utf-8")
    assert Devices(tmp_path).all() == []
