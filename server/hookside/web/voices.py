"""What can listen and what may be said, over HTTP; adding and removing voice models from a page.

One model is added at a time, by a thread of its own; pages are told how far it is by `voice_progress`.
"""

from __future__ import annotations

import secrets
import threading
import time
import traceback
from collections.abc import Callable
from pathlib import Path
from typing import Annotated, Any

from flask import Blueprint, Flask, jsonify
from flask.typing import ResponseReturnValue
from flask_socketio import SocketIO
from pydantic import Field

from hookside.voice.models import CannotAdd, Model, Models, engines
from hookside.voice.phrasebook import Phrasebook, languages
from hookside.voice.pool import Pool, trial
from hookside.web.body import Strict, body
from hookside.web.decisions import Decisions
from hookside.web.ear import Ears
from hookside.web.said import Said

Adding = Callable[[Models, str, Callable[[float, str], None]], Model]
OFTEN = 0.25  # seconds between two words on how far it is
STATUS = {"no-model": 404, "disk": 507}


class Add(Strict):
    """The small model of a language, by vosk's own list."""

    add: Annotated[str, Field(pattern="^[a-z]{2,3}$")]


class Job:
    """Adding one model."""

    def __init__(self, models: Models, language: str, socket: SocketIO, adding: Adding) -> None:
        self.id = secrets.token_hex(8)
        self.models, self.language, self.socket, self.adding = models, language, socket, adding
        self.last = 0.0
        self.thread = threading.Thread(target=self.run, daemon=True)
        self.thread.start()

    @property
    def going(self) -> bool:
        return self.thread.is_alive()

    def run(self) -> None:
        try:
            model = self.adding(self.models, self.language, self.progress)
        except CannotAdd as e:
            self.tell(0.0, e.say, done=True, ok=False)
        except Exception as e:
            traceback.print_exception(e)
            self.tell(0.0, "Hookside stumbled over this model. Nothing was changed.", done=True, ok=False)
        else:
            self.tell(1.0, f"{model.name} listens from now on.", done=True, ok=True)

    def progress(self, share: float, say: str) -> None:
        if time.monotonic() - self.last >= OFTEN:
            self.last = time.monotonic()
            self.tell(share, say, done=False, ok=True)

    def tell(self, share: float, say: str, done: bool, ok: bool) -> None:
        self.socket.emit("voice_progress", {"job": self.id, "share": share, "say": say, "done": done, "ok": ok})


def from_the_list(models: Models, language: str, progress: Callable[[float, str], None]) -> Model:
    from hookside.voice.models.adding import add_language

    return add_language(models, language, trial, progress)


def voices(models: Models, socket: SocketIO, adding: Adding = from_the_list) -> Blueprint:
    """Routes under /api/voice."""
    routes = Blueprint("voices", __name__, url_prefix="/api/voice")
    turn = threading.Lock()
    jobs: list[Job] = []

    @routes.get("")
    def standing() -> ResponseReturnValue:
        there = models.all()
        here = engines.all()
        spoken = {m.language for m in there} | ({"en"} if any(e.there and e.name != "vosk" for e in here) else set())
        return jsonify(
            engines=[{"name": e.name, "there": e.there, "say": e.say} for e in here],
            models=[model_shown(m) for m in there],
            languages=[{"code": code, "name": name, "there": code in spoken} for code, name in languages().items()],
            phrases={code: Phrasebook.load(code).help() for code in languages()},
        )

    @routes.post("/models")
    def add() -> ResponseReturnValue:
        asked = body(Add)
        with turn:
            if jobs and jobs[-1].going:
                raise Said(409, "busy", "Another voice model is just being added. Wait until it is there.")
            jobs[:] = [Job(models, asked.add, socket, adding)]
        return jsonify(ok=True, job=jobs[0].id)

    @routes.delete("/models/<name>")
    def remove(name: str) -> ResponseReturnValue:
        try:
            return jsonify(ok=True, name=models.remove(name).name)
        except CannotAdd as e:
            raise Said(STATUS.get(e.code, 400), e.code, e.say) from e

    return routes


def model_shown(model: Model) -> dict[str, Any]:
    return {
        "language": model.language, "name": model.name, "engine": "vosk", "size": model.size,
        "where": str(model.folder),
    }  # fmt: skip


def voice_room(app: Flask, socket: SocketIO, data: Path) -> Ears:
    """The ear and its models, behind the door. No library of voices is loaded before somebody listens."""
    models = Models(data)
    ears = Ears(socket, models, Pool(), Decisions(data))
    ears.listen_in()
    app.register_blueprint(voices(models, socket))
    app.extensions["hookside.ears"] = ears
    return ears
