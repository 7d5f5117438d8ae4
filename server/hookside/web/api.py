"""What the page asks over HTTP. Every refusal is {"say", "code"}: a sentence and a word."""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING, Annotated, Any, Literal

from flask import Blueprint, current_app, jsonify
from flask.typing import ResponseReturnValue
from pydantic import Field

from hookside.follow import MOST_COPIES, Order
from hookside.pattern import Terms
from hookside.web.begun import habits_of, remember
from hookside.web.body import LARGEST, Strict, body
from hookside.web.choices_api import known_label
from hookside.web.makers import maker_of
from hookside.web.said import Said
from hookside.web.shelf import shelf
from hookside.web.sizes import fabric_chosen

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.live import Live
    from hookside.web.readings import Readings

NO_ROUND = (
    "No round or row could be read in it, so it was not put on the shelf. Paste it as a pattern to see what was read."
)
LARGEST_TEXT = 256 * 1024  # bytes of UTF-8


class Text(Strict):
    """A pattern's text; `terms` None lets reading decide."""

    text: str
    terms: Terms | None = None


class Kept(Text):
    """A text to keep. `file`: it was taken from a file, so it is kept once, and only where there is a round in it."""

    file: bool = False


class Read(Text):
    """A text to be read; `words`: the terms its sentences are wanted in, None its own."""

    words: Terms | None = None


class OneCourse(Text):
    """One course of a text, by its id."""

    course: str = Field(max_length=200)


Number = Annotated[str, Field(pattern="^[1-9][0-9]{0,3}$")]
Copies = Annotated[int, Field(ge=1, le=MOST_COPIES)]


class Begin(Strict):
    """A making to begin. `hand` None: the maker's. `copies`: how many of a piece, by its number from 1, as text."""

    pattern: int | str
    order: Order = Order()
    hand: Literal["right", "left"] | None = None
    copies: dict[Number, Copies] = Field(default_factory=dict)
    anyway: bool = False


def text_in_bounds(asked: Text) -> Text:
    """The same text, if it is not too much. Raises Said."""
    size = len(asked.text.encode())
    if size > LARGEST_TEXT:
        raise Said(
            413, "too-large",
            f"This text has {-(-size // 1024)} kB, and Hookside reads up to {LARGEST_TEXT // 1024} kB: "
            "paste the pattern alone, without the rest of the page.",
        )  # fmt: skip
    return asked


def api(journal: Journal, readings: Readings, live: Live) -> Blueprint:
    """Routes under /api."""
    routes = Blueprint("api", __name__, url_prefix="/api")

    def pattern_of(id: str) -> dict[str, Any]:
        kept: dict[str, Any] | None = journal.pattern(id)
        if kept is None:
            raise Said(404, "no-pattern", "This pattern is not on the shelf any more.")
        return kept

    def snapshot_of(id: int) -> dict[str, Any]:
        snapshot = journal.snapshot(id) if id <= LARGEST else None
        if snapshot is None:
            raise Said(404, "gone", "This making is not on the shelf any more.")
        return snapshot

    @routes.get("/shelf")
    def get_shelf() -> ResponseReturnValue:
        live.shelf.looked()
        return jsonify(shelf(journal, readings, maker_of(journal)))

    @routes.post("/read")
    def read() -> ResponseReturnValue:
        asked = body(Read)
        text_in_bounds(asked)
        read = readings.whole(asked.text, asked.terms, asked.words)
        digest = hashlib.sha256(asked.text.encode()).hexdigest()
        # The reading goes on as it came: to take it apart here would keep those waiting who are working.
        return current_app.response_class(
            read[: read.rindex(b"}")] + f',"digest":"{digest}"}}\n'.encode(), mimetype="application/json"
        )

    @routes.post("/explain")
    def explain() -> ResponseReturnValue:
        asked = body(OneCourse)
        text_in_bounds(asked)
        told = readings.explain(asked.text, asked.terms, asked.course)
        if told == b"null":
            raise Said(404, "no-course", "This text has no such round any more. Read it once more.")
        return current_app.response_class(told + b"\n", mimetype="application/json")

    @routes.post("/mend")
    def mend() -> ResponseReturnValue:
        asked = text_in_bounds(body(Text))
        mended = readings.mended(asked.text, asked.terms)
        return current_app.response_class(mended + b"\n", mimetype="application/json")

    @routes.post("/patterns")
    def add_pattern() -> ResponseReturnValue:
        asked = body(Kept)
        text_in_bounds(asked)
        if not asked.text.strip():
            raise Said(422, "empty", "There is no text in it, so nothing was put on the shelf.")
        if asked.file:
            alike = (one for one in journal.patterns() if one["source"] == "yours" and one["text"] == asked.text)
            before = next((one["id"] for one in alike if one["terms"] == asked.terms), None)
            if before is not None:
                return jsonify(id=before, known=True)
            if not any(piece["courses"] for piece in readings.spine(asked.text, asked.terms)["pieces"]):
                raise Said(422, "no-round", NO_ROUND)
        return jsonify(id=journal.add_pattern(asked.text, asked.terms, "yours"))

    @routes.get("/patterns/<id>")
    def get_pattern(id: str) -> ResponseReturnValue:
        return jsonify(pattern_of(id))

    @routes.put("/patterns/<id>")
    def change_pattern(id: str) -> ResponseReturnValue:
        asked = text_in_bounds(body(Text))
        own = pattern_of(id)["source"] == "own"  # ours stay as they are: a changed one is a copy
        kept = journal.add_pattern(asked.text, asked.terms, "yours") if own else id
        with live.turn:
            told = journal.edited_copy(id, kept) if own else journal.update_pattern(id, asked.text, asked.terms)
            for making, head in told:
                live.tell_of(making, head, "choice")
        return jsonify(id=kept)

    @routes.delete("/patterns/<id>")
    def remove_pattern(id: str) -> ResponseReturnValue:
        pattern_of(id)
        journal.remove_pattern(id)
        return jsonify(id=id)

    @routes.post("/makings")
    def begin() -> ResponseReturnValue:
        asked = body(Begin)
        kept = pattern_of(str(asked.pattern))
        maker = journal.maker(maker_of(journal))
        hers = fabric_chosen(journal.fabric(kept["id"])) | habits_of(maker)
        title, laid, chosen = readings.runs(
            kept["text"],
            kept["terms"],
            order=asked.order,
            hand=asked.hand or maker["hand"],
            copies={int(number): copies for number, copies in asked.copies.items()},
            anyway=asked.anyway,
            chosen=hers,
        )
        if not laid:
            raise Said(409, "nothing-to-work", "There is nothing to work in this pattern: no round or row was read.")
        known_label(asked.order, ({"courses": [{"label": c.label} for c in run.strand.courses]} for run in laid))
        id = journal.begin(kept["id"], title, laid, chosen)
        remember(journal, id, laid, hers, journal.gathered(kept["id"]))
        journal.set_gathered(kept["id"], dict.fromkeys(journal.gathered(kept["id"]), False))
        return jsonify(id=id)

    @routes.get("/makings/<int:id>")
    def get_making(id: int) -> ResponseReturnValue:
        return jsonify(snapshot_of(id))

    @routes.delete("/makings/<int:id>")
    def put_away(id: int) -> ResponseReturnValue:
        if id > LARGEST or not journal.put_away(id):
            raise Said(404, "gone", "This making is not on the shelf any more.")
        return jsonify(id=id)

    @routes.post("/makings/<int:id>/back")
    def bring_back(id: int) -> ResponseReturnValue:
        if id > LARGEST or not journal.bring_back(id):
            raise Said(404, "not-away", "This making is not among those put away. Look at the shelf again.")
        return jsonify(id=id)

    @routes.get("/backups")
    def get_backups() -> ResponseReturnValue:
        return jsonify([{"when": one.taken, "rows": one.rows, "size": one.size} for one in journal.backups()])

    @routes.route("/", defaults={"path": ""}, methods=["GET", "POST", "PUT", "DELETE"])
    @routes.route("/<path:path>", methods=["GET", "POST", "PUT", "DELETE"])
    def nothing(path: str) -> ResponseReturnValue:
        raise Said(404, "no-address", f"Hookside has no address /api/{path[:80]}.")

    return routes
