"""A pattern changed while it is being made: what the making asks, and the maker's answer."""

from __future__ import annotations

import hashlib
from contextlib import suppress
from typing import TYPE_CHECKING, Annotated, Any

from flask import Blueprint, jsonify
from flask.typing import ResponseReturnValue
from pydantic import Field

from hookside.journal.trouble import MovedOn
from hookside.web.body import LARGEST, Strict, body
from hookside.web.makers import maker_of
from hookside.web.said import Said

if TYPE_CHECKING:
    from hookside.journal import Journal
    from hookside.web.live import Live
    from hookside.web.readings import Readings, Run

Step = Annotated[int, Field(ge=0, le=LARGEST)]


class Answer(Strict):
    """The maker's answer.

    stay    go on with the steps as they were
    head    the making's last row when it asked; with `digest`, where it does not stay, that is what was asked
    places  of runs, by name: the step of the new text where they are
    anyway  take it although something in it can't be followed
    """

    stay: bool
    digest: str = ""
    head: Step = 0
    places: dict[str, Step] = Field(default_factory=dict, max_length=1000)
    anyway: bool = False


def changed(journal: Journal, readings: Readings, live: Live) -> Blueprint:
    """Routes under /api/makings/ID/recast."""
    routes = Blueprint("changed", __name__, url_prefix="/api/makings")

    def lay(asking: dict[str, Any], anyway: bool) -> tuple[str, list[Run]]:
        """The changed text's digest and runs. Raises Said."""
        kept = journal.kept_pattern(asking["pattern"])
        if kept is None:
            raise Said(404, "no-pattern", "The changed pattern is not on the shelf any more: go on with what you have.")
        hand = journal.maker(maker_of(journal))["hand"]
        wanted = {int(number): many for number, many in asking["choices"].get("copies", {}).items()}

        def runs(copies: dict[int, int]) -> list[Run]:
            return readings.runs(
                kept["text"], kept["terms"], order=asking["order"], hand=hand, copies=copies, anyway=anyway,
                chosen=asking["choices"],
            )[1]  # fmt: skip

        try:
            laid = runs(wanted)
        except Said:
            if not wanted:
                raise
            laid = runs({})  # more were wanted of a piece that the text does not have any more
        if not laid:
            raise Said(409, "nothing-to-work", "There is no round or row in the changed pattern.")
        return hashlib.sha256(kept["text"].encode()).hexdigest(), laid

    def told(id: int, head: int, kind: str) -> None:
        with live.turn:
            live.tell_of(id, head, kind)

    @routes.get("/<int:id>/recast")
    def ask(id: int) -> ResponseReturnValue:
        asking = journal.asking(id) if id <= LARGEST else None
        if asking is None:
            return jsonify(asks=False)
        cannot = None
        try:
            digest, laid = lay(asking, asking["anyway"])
        except Said as e:
            cannot = e.say
            if e.code != "cannot-follow":
                return jsonify(
                    asks=True, cannot=cannot, say="The pattern was changed.", head=asking["head"],
                    runs=[], added=[], left=[],
                )  # fmt: skip
            digest, laid = lay(asking, anyway=True)
        proposal = journal.proposal(id, laid)
        if proposal is None:  # other words, the same steps: nothing to ask
            told(id, journal.reworded(id, laid), "choice")
            return jsonify(asks=False)
        if asking["chosen"] == ["copies"] and proposal["only_more"]:  # said in so many words, and no step is another
            with suppress(MovedOn):  # then it is asked for again
                done = journal.recast(id, laid, {}, proposal["head"])
                if isinstance(done, int):
                    told(id, done, "recast")
            return jsonify(asks=False)
        return jsonify(asks=True, cannot=cannot, digest=digest, chosen=asking["chosen"], **proposal)

    @routes.post("/<int:id>/recast")
    def answer(id: int) -> ResponseReturnValue:
        asked = body(Answer)
        asking = journal.asking(id) if id <= LARGEST else None
        if asking is None:
            raise Said(409, "answered", "This was answered already. The bench shows where you are.")
        if asked.stay:
            try:
                head = journal.stay(id, head=asked.head)
            except MovedOn as e:
                raise Said(409, e.code, e.say) from e
            told(id, head, "choice")
            return jsonify(head=head)
        digest, laid = lay(asking, asked.anyway or asking["anyway"])
        if digest != asked.digest:
            raise Said(409, "moved-on", "The pattern was changed once more. Look at the question again.")
        try:
            done = journal.recast(id, laid, asked.places, asked.head)
        except MovedOn as e:
            raise Said(409, e.code, e.say) from e
        if isinstance(done, list):
            raise Said(409, "say-where", f"Say first where you are in {', '.join(done)}.")
        told(id, done, "recast")
        return jsonify(head=done)

    return routes
