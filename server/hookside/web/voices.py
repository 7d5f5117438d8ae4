"""What can listen and what may be said, over HTTP; adding and removing voice models from a page.

One model is added at a time, by a thread of its own; pages are told how far it is by `voice_progress`, and those that
are not on that line find it under "job".
"""

from __future__ import annotations

import secrets
import shutil
import threading
import time
import traceback
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Annotated, Any

from flask import Blueprint, Flask, jsonify, request
from flask.typing import ResponseReturnValue
from flask_socketio import SocketIO
from pydantic import Field

from hookside.voice.models import CannotAdd, Model, Models, engines
from hookside.voice.models.shelf import language_of
from hookside.voice.phrasebook import Phrasebook, languages
from hookside.voice.pool import Pool, trial
from hookside.web.arriving import Arriving
from hookside.web.body import Strict, body
from hookside.web.decisions import Decisions
from hookside.web.ear import Ears
from hookside.web.said import Said

Progress = Callable[[float, str], None]
Adding = Callable[[Models, str, Progress], Model]
OFTEN = 0.25  # seconds between two words on how far it is
STATUS = {"no-model": 404, "disk": 507}


class Add(Strict):
    """The small model of a language, by vosk's own list."""

    add: Annotated[str, Field(pattern="^[a-z]{2,3}$")]


class Job:
    """Adding one model. `told`: the last word on how far it is."""

    def __init__(self, socket: SocketIO, adding: Callable[[Progress], Model]) -> None:
        self.id = secrets.token_hex(8)
        self.socket, self.adding = socket, adding
        self.last = 0.0
        self.told: dict[str, Any] = {"job": self.id, "share": 0.0, "say": "", "done": False, "ok": True}
        self.thread = threading.Thread(target=self.run, daemon=True)
        self.thread.start()

    @property
    def going(self) -> bool:
        return self.thread.is_alive()

    def run(self) -> None:
        try:
            model = self.adding(self.progress)
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
        self.told = {"job": self.id, "share": share, "say": say, "done": done, "ok": ok}
        self.socket.emit("voice_progress", self.told)


def from_the_list(models: Models, language: str, progress: Progress) -> Model:
    from hookside.voice.models.adding import add_language

    return add_language(models, language, trial, progress)


def from_a_file(models: Models, file: Path, progress: Progress) -> Model:
    """A zip that a page sent; its folder goes with it."""
    from hookside.voice.models.adding import add_file

    try:
        return add_file(models, file, trial, progress, source="page")
    except CannotAdd as e:
        if e.code == "no-language" and language_of(file.stem) is None:
            say = f"The name {file.name} says no language: call it as it was published: vosk-model-en-1.zip."
            raise CannotAdd(e.code, say) from e
        raise
    finally:
        shutil.rmtree(file.parent, ignore_errors=True)


def voices(models: Models, socket: SocketIO, adding: Adding = from_the_list) -> Blueprint:
    """Routes under /api/voice."""
    routes = Blueprint("voices", __name__, url_prefix="/api/voice")
    turn = threading.Lock()
    jobs: list[Job] = []
    arriving = Arriving(models)

    def one_at_a_time() -> None:
        if jobs and jobs[-1].going:
            raise Said(409, "busy", "Another voice model is just being added. Wait until it is there.")

    @routes.get("")
    def standing() -> ResponseReturnValue:
        there = models.all()
        here = engines.all()
        spoken = {m.language for m in there} | ({"en"} if any(e.there and e.name != "vosk" for e in here) else set())
        return jsonify(
            engines=[{"name": e.name, "there": e.there, "say": e.say} for e in here],
            models=[model_shown(m) for m in there],
            languages=[{"code": code, "name": name, "there": code in spoken} for code, name in languages().items()],
            job=jobs[-1].told if jobs else None,
            phrases={code: Phrasebook.load(code).help() for code in languages()},
        )

    @routes.post("/models")
    def add() -> ResponseReturnValue:
        asked = body(Add)
        with turn:
            one_at_a_time()
            jobs[:] = [Job(socket, partial(adding, models, asked.add))]
        return jsonify(ok=True, job=jobs[0].id)

    @routes.post("/file")
    def file() -> ResponseReturnValue:
        """?name=NAME&size=BYTES with the first piece, then ?file=ID&at=BYTES with the others -> {file, at, job}.

        `job`: it is whole, and is being added; until then null.
        """
        asked, data = request.args, request.get_data()
        with turn:
            one_at_a_time()
            if "file" in asked:
                arrival = arriving.more(asked["file"], _bytes(asked.get("at", "")), data)
            else:
                arrival = arriving.begin(
                    asked.get("name", "")[:200] or "This file", _bytes(asked.get("size", "")), data
                )
            whole = arrival.there == arrival.size
            if whole:
                jobs[:] = [Job(socket, partial(from_a_file, models, arrival.file))]
        return jsonify(file=arrival.id, at=arrival.there, job=jobs[0].id if whole else None)

    @routes.delete("/models/<name>")
    def remove(name: str) -> ResponseReturnValue:
        try:
            return jsonify(ok=True, name=models.remove(name).name)
        except CannotAdd as e:
            raise Said(STATUS.get(e.code, 400), e.code, e.say) from e

    return routes


def _bytes(said: str) -> int:
    if not (said.isascii() and said.isdecimal() and len(said) <= 12):
        raise Said(400, "malformed", "Hookside could not understand that request.")
    return int(said)


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
