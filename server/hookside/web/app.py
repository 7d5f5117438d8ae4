"""The application: page, JSON and socket behind one door."""

from __future__ import annotations

import traceback
from pathlib import Path
from typing import TYPE_CHECKING

from flask import Flask, jsonify, request
from flask.typing import ResponseReturnValue
from flask_socketio import SocketIO
from werkzeug.exceptions import HTTPException

from hookside.journal.trouble import Trouble
from hookside.web.again import again
from hookside.web.api import api
from hookside.web.changed import changed
from hookside.web.choices_api import choices_routes
from hookside.web.damage import Damage
from hookside.web.door import LARGEST_BODY, Door
from hookside.web.doors import Doors
from hookside.web.files import files
from hookside.web.finishing import finishing
from hookside.web.gathering import gathering
from hookside.web.knocks import Knocks
from hookside.web.live import Live
from hookside.web.makers import makers
from hookside.web.mending_api import mending
from hookside.web.moves_api import moves_routes
from hookside.web.page import page, pairing_files
from hookside.web.records import records
from hookside.web.said import Said
from hookside.web.sharing_api import pairing_routes, sharing_routes
from hookside.web.shelving import shelving
from hookside.web.sizes import sizes
from hookside.web.socket import LARGEST_MESSAGE, bounded_socket
from hookside.web.voices import voice_room

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.readings import Readings

SENTENCES = {
    400: "That request could not be understood. Reload the page and try once more.",
    404: "There is nothing at this address.",
    405: "That cannot be done at this address.",
    413: "That is more than Hookside takes at once: a pattern may have up to 256 kB of text.",
    415: "Hookside takes JSON here.",
}


def create_app(journal: Journal, static: Path | None, doors: Doors, readings: Readings) -> tuple[Flask, SocketIO]:
    """Everything behind one door. `static` holds the built page. The second listener is in `doors.sharing`."""
    app = Flask("hookside", static_folder=None)
    app.config["MAX_CONTENT_LENGTH"] = LARGEST_BODY
    app.json.sort_keys = False  # type: ignore[attr-defined]
    app.url_map.strict_slashes = False
    app.register_error_handler(Said, said)
    app.register_error_handler(HTTPException, refused)
    app.register_error_handler(Exception, broken)
    socket = SocketIO(
        app,
        async_mode="threading",  # pinned: another installed worker library would be picked up silently
        transports=["websocket"],
        cors_allowed_origins=[],  # none, and no check: the door has looked already
        max_http_buffer_size=LARGEST_MESSAGE,
        async_handlers=False,  # one client's events in the order they came
        manage_session=False,
        serve_client=False,
    )
    bounded_socket(socket)
    live = Live(journal, socket)
    live.listen()
    live.shelf.listen(app)
    app.register_error_handler(Trouble, lambda e: troubled(e, live.damage))
    Knocks(socket, doors.pairing).listen()
    app.register_blueprint(changed(journal, readings, live))
    app.register_blueprint(choices_routes(journal, readings, live))
    app.register_blueprint(api(journal, readings, live))
    app.register_blueprint(makers(journal, doors.devices))
    app.register_blueprint(shelving(journal, readings))
    app.register_blueprint(records(journal, readings))
    app.register_blueprint(again(journal, readings))
    app.register_blueprint(files())
    app.register_blueprint(mending(journal, readings, live))
    app.register_blueprint(moves_routes(journal, live))
    app.register_blueprint(sizes(journal, readings))
    app.register_blueprint(finishing(journal, readings))
    app.register_blueprint(gathering(journal, readings))
    voice_room(app, socket, journal.store.file.parent)
    app.register_blueprint(page(static, doors.here, readings.wake))
    app.register_blueprint(sharing_routes(doors.sharing))
    app.register_blueprint(pairing_routes(doors.sharing))
    app.wsgi_app = Door(app.wsgi_app, doors, pairing_files(static))  # type: ignore[method-assign]
    doors.sharing.app = app.wsgi_app
    return app, socket


def said(e: Said) -> ResponseReturnValue:
    return jsonify(say=e.say, code=e.code), e.status


def troubled(e: Trouble, damage: Damage) -> ResponseReturnValue:
    """The disk or the file would not have it; nothing was done."""
    return jsonify(say=damage.say(e), code=e.code), 503


def refused(e: HTTPException) -> ResponseReturnValue:
    status = e.code or 500
    if 300 <= status < 400:
        return e.get_response()
    answer = jsonify(say=SENTENCES.get(status, "That request was refused."), code=str(status))
    methods = getattr(e, "valid_methods", None)  # what the address does take, where that was the trouble
    if methods:
        answer.headers["Allow"] = ", ".join(sorted(methods))
    return answer, status


def broken(e: Exception) -> ResponseReturnValue:
    """A fault of ours: said plainly, and told in full where the server runs."""
    print(f"Hookside stumbled over {request.method} {request.path}", flush=True)
    traceback.print_exception(e)
    return jsonify(say="Hookside stumbled over this. Nothing was changed; try once more.", code="broken"), 500
