"""What pages ask about sharing and pairing.

The first blueprint is for the page on this machine alone; the second for devices that are not paired yet.
"""

from __future__ import annotations

import errno
from typing import Annotated

from flask import Blueprint, Response, jsonify, request
from flask.typing import ResponseReturnValue
from pydantic import Field

from hookside.web.body import Strict, body
from hookside.web.devices import NAME_LENGTH, TooMany, passage_of
from hookside.web.door import PASS, cookie, host_only, token_of
from hookside.web.pairing import NotInvited, RanOut, TurnedAway
from hookside.web.port import PortTaken
from hookside.web.said import Said
from hookside.web.sharing import Sharing
from hookside.web.socket import PROTOCOL

Name = Annotated[str, Field(max_length=NAME_LENGTH * 4)]  # cut to its length where it is kept


class Share(Strict):
    """Whether the house is to be shared, until further notice."""

    on: bool


class Answer(Strict):
    """What somebody beside the machine says to a device at the door."""

    knock: str = Field(max_length=40)
    let_in: bool
    name: Name = ""
    maker: Name = ""


class Knocking(Strict):
    """What a device holds up: what stood behind the "#", or what was typed."""

    shown: str = Field(min_length=1, max_length=64)
    name: Name = ""


class Asking(Strict):
    """The secret that a knock was answered with."""

    knock: str = Field(min_length=1, max_length=64)


def disk(e: OSError) -> Said:
    full = e.errno in (errno.ENOSPC, errno.EDQUOT)
    why = "there is no room left on the disk" if full else f"its folder cannot be used: {e.strerror or e}"
    return Said(503, "disk", f"That could not be kept ({why}). Nothing was changed.")


def sharing_routes(sharing: Sharing) -> Blueprint:
    """Routes for the page on this machine, and the list of addresses for every page of ours."""
    routes = Blueprint("sharing", __name__, url_prefix="/api")

    @routes.get("/addresses")
    def addresses() -> ResponseReturnValue:
        token = token_of(request.environ) if request.environ["hookside.device"] else None
        house = sharing.doors.house
        if token is None or house is None:
            return jsonify(addresses=[sharing.doors.here.url], protocols=[])
        return jsonify(addresses=house.urls, protocols=[PROTOCOL, PASS + passage_of(token)])

    @routes.get("/share")
    def state() -> ResponseReturnValue:
        host_only(request.environ)
        return jsonify(sharing.state())

    @routes.post("/share")
    def share() -> ResponseReturnValue:
        host_only(request.environ)
        asked = body(Share)
        try:
            if asked.on:
                from hookside.web.tls.authority import Unusable

                try:
                    sharing.begin()
                except Unusable as e:
                    raise Said(409, "authority", str(e)) from e
            else:
                sharing.end()
            sharing.want(asked.on)
        except PortTaken as e:
            raise Said(409, "port-taken", str(e)) from e
        except OSError as e:
            raise disk(e) from e
        return jsonify(sharing.state())

    @routes.post("/share/invite")
    def invite() -> ResponseReturnValue:
        from hookside.web.qr import drawn

        host_only(request.environ)
        house = sharing.doors.house
        if house is None:
            raise Said(409, "closed", "Share first: without that no phone or tablet can reach this machine.")
        link, typed = sharing.doors.pairing.invite()
        state = sharing.state()
        url = f"{house.url}/pair#{link}"
        return jsonify(
            url=url, qr=drawn(url), typed=f"{typed[:4]} {typed[4:]}", trust_qr=drawn(state["trust"]),
            lasts=state["invited"],
        )  # fmt: skip

    @routes.post("/share/answer")
    def answer() -> ResponseReturnValue:
        host_only(request.environ)
        asked = body(Answer)
        try:
            sharing.doors.pairing.answer(asked.knock, asked.let_in, asked.name, asked.maker)
        except TurnedAway as e:
            raise Said(404, "gone", "Nobody stands at the door any more. Invite the device once more.") from e
        except TooMany as e:
            raise Said(409, "many", "There are as many devices as one house may have: show one out first.") from e
        except OSError as e:
            raise disk(e) from e
        return jsonify(sharing.state())

    @routes.delete("/devices/<id>")
    def show_out(id: str) -> ResponseReturnValue:
        host_only(request.environ)
        try:
            if not sharing.show_out(id):
                raise Said(404, "gone", "This device is not on the list any more.")
        except OSError as e:
            raise disk(e) from e
        return jsonify(sharing.state())

    return routes


def pairing_routes(sharing: Sharing) -> Blueprint:
    """Routes for a device that wants to be paired."""
    routes = Blueprint("pairing", __name__, url_prefix="/api/pair")
    pairing = sharing.doors.pairing

    @routes.before_request
    def from_the_network() -> None:
        if request.environ["hookside.caller"].listener != "house":
            raise Said(403, "at-home", "This machine needs no pairing.")

    @routes.post("/knock")
    def knock() -> ResponseReturnValue:
        asked = body(Knocking)
        try:
            secret, figures = pairing.knock(asked.shown, asked.name)
        except RanOut as e:
            say = "The eight letters were good for two minutes. On the laptop's shelf, ask for a new invitation."
            raise Said(403, "ran-out", say) from e
        except NotInvited as e:
            if e.left is None:
                say = "There is no invitation just now. On the laptop's shelf, ask for a new one."
                raise Said(403, "not-invited", say) from e
            tries = "1 try is" if e.left == 1 else f"{e.left} tries are"
            raise Said(403, "wrong", f"That is not what the laptop shows. {tries} left.") from e
        return jsonify(knock=secret, figures=figures)

    @routes.post("/ask")
    def ask() -> ResponseReturnValue:
        asked = body(Asking)
        try:
            let_in = pairing.ask(asked.knock)
        except TurnedAway as e:
            raise Said(403, "turned-away", "Nobody let this device in. Ask for a new invitation on the laptop.") from e
        if let_in is None:
            return jsonify(paired=False)
        device, token = let_in
        response: Response = jsonify(paired=True, name=device.name)
        response.headers["Set-Cookie"] = cookie(token)
        return response

    return routes
