"""Files from the page into text: the whole of intake's work, over HTTP."""

from __future__ import annotations

from threading import BoundedSemaphore

from flask import Blueprint, jsonify, request
from flask.typing import ResponseReturnValue

from hookside.intake import CannotTake, take
from hookside.web.api import LARGEST_TEXT
from hookside.web.door import LARGEST_FILE
from hookside.web.said import Said

AT_ONCE = 2  # files that are taken apart: the others are told to wait


def files() -> Blueprint:
    """POST /api/file?name=NAME with the file's bytes -> {text, kind, said}."""
    routes = Blueprint("files", __name__, url_prefix="/api")
    places = BoundedSemaphore(AT_ONCE)

    @routes.post("/file")
    def file() -> ResponseReturnValue:
        request.max_content_length = LARGEST_FILE
        name = request.args.get("name", "")[:200] or "This file"
        if not places.acquire(blocking=False):
            raise Said(503, "busy", "Hookside is still taking in other files. Try once more in a moment.")
        try:
            found = take(request.get_data(), name)
        except CannotTake as e:
            raise Said(422, "no-text", str(e)) from e
        finally:
            places.release()
        size = len(found.text.encode())
        if size > LARGEST_TEXT:
            much = f"{name} holds {-(-size // 1024):,} kB of text, and Hookside reads up to {LARGEST_TEXT // 1024} kB"
            raise Said(413, "too-large", f"{much}: save the pattern's pages alone.")
        return jsonify(text=found.text, kind=found.kind, said=found.said)

    return routes
