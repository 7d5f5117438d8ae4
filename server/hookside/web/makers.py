"""Makers: who works at which device, and how each of them likes it.

A maker is a name, chosen when a device is paired and changed where it is used. Settings belong to the maker and follow
her to every device that is hers.
"""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING, Annotated, Any, Literal

from flask import Blueprint, jsonify, request
from flask.typing import ResponseReturnValue
from pydantic import Field

from hookside.pattern import CueKind, Terms
from hookside.web.body import Strict, body
from hookside.web.devices import NAME_LENGTH, Device, plain
from hookside.web.said import Said

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.devices import Devices

Unit = Literal["plain", "stitch", "group", "repeat", "round"]


class Ways(Strict):
    """How a maker likes it; what is not named stays as it is.

    decreases               the kind of decrease that a bare "dec" is worked as
    terms                   the terms she works in; null: those of the pattern
    counting                aloud: within the repeat, through the round, by group, not at all; null: not asked yet
    plain, _keys, _voice    what a plain "next" goes on by: of a touch, of a key, said; "same": as a touch
    breaks                  minutes of work after which she is reminded of a rest for her hands; 0: never
    quiet                   kinds of cues she does not need any more: a pause becomes a whisper
    """

    hand: Literal["right", "left"] = "right"
    decreases: Literal["plain", "invisible"] = "plain"
    terms: Terms | None = None
    words: Literal["short", "full"] = "short"
    counting: Literal["repeat", "round", "group", "no"] | None = None
    plain: Unit = "plain"
    plain_keys: Unit | Literal["same"] = "same"
    plain_voice: Unit | Literal["same"] = "same"
    light: Literal["daylight", "lamplight", "auto"] = "auto"
    breaks: Literal[0, 20, 30, 50] = 0
    quiet: Annotated[list[CueKind], Field(max_length=20, default_factory=list)]


class Who(Strict):
    """A maker's name; "": nobody in particular."""

    name: Annotated[str, Field(max_length=NAME_LENGTH * 4)]


def maker_of(journal: Journal) -> str:
    """The maker whose device asks; at the machine itself the one chosen there. "" where nobody is named."""
    device: Device | None = request.environ["hookside.device"]
    return journal.maker_at_the_machine() if device is None else device.maker


def makers(journal: Journal, devices: Devices) -> Blueprint:
    """Routes under /api/maker: one's own ways, and whose they are."""
    routes = Blueprint("makers", __name__, url_prefix="/api/maker")
    turn = threading.Lock()  # each change is of one habit, laid over the others: two at one time lose none

    def who() -> dict[str, Any]:
        mine = maker_of(journal)
        named = {*journal.makers(), *(device.maker for device in devices.all()), mine, journal.maker_at_the_machine()}
        return {"name": mine, "makers": sorted(named - {""}, key=str.casefold)}

    @routes.get("")
    def get_maker() -> ResponseReturnValue:
        return jsonify(journal.maker(maker_of(journal)))

    @routes.put("")
    def set_maker() -> ResponseReturnValue:
        change = body(Ways).model_dump(exclude_unset=True)
        if not change:
            raise Said(400, "malformed", "That says of nothing how it is to be.")
        name = maker_of(journal)
        with turn:
            journal.set_maker(journal.maker(name) | change, name)
            return jsonify(journal.maker(name))

    @routes.get("/who")
    def get_who() -> ResponseReturnValue:
        """{name, makers}: who works at this device, and all there are."""
        return jsonify(who())

    @routes.put("/who")
    def set_who() -> ResponseReturnValue:
        """Somebody else works at this device from now on."""
        name = plain(body(Who).name)
        device: Device | None = request.environ["hookside.device"]
        if device is None:
            journal.set_maker_at_the_machine(name)
        else:
            try:
                known = devices.belongs(device.id, name)
            except OSError as e:
                raise Said(503, "disk", f"That could not be kept ({e.strerror or e}). Nothing was changed.") from e
            request.environ["hookside.device"] = known or device
        return jsonify(who())

    return routes
