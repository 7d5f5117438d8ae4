"""The house, asked by the same addresses as the page asks.

Where Hookside serves the data folder just now, that one answers, and the pages see at once what is done here. Else the
same application answers for the time of the command, and for nobody but this command: another one waits for its turn,
because a house that is gone with its command would take the answers of all others along. So there is one way to do each
thing, and one set of sentences.
The house of a command is its own: it tells nobody its address, since it is gone before another's answer is sure, and
commands of one moment take turns.
"""

from __future__ import annotations

import http.client
import json
import re
import threading
from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing, contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import quote, urlsplit

from hookside.cli.files import stop
from hookside.cli.journal import in_sentences
from hookside.config import data_folder, own_patterns
from hookside.web.ending import Ending
from hookside.web.lock import FolderLock, Held

PATIENCE = 60.0  # seconds for one answer
TURN = 30.0  # seconds to wait for other commands, each of which takes about one
TURN = 30.0  # seconds until the commands before this one are done

Ask = Callable[..., Any]


class Unanswered(Ending):
    """Nobody answered: whether it was done is not known."""


class Unheard(Unanswered):
    """Nobody was there to hear it: it was not done."""


@contextmanager
def house(folder: Path | None) -> Iterator[Ask]:
    """A way to ask: `ask(method, address, body)` -> what was answered. Raises Ending with the sentence of a refusal,
    Unanswered where the house went away meanwhile; what is asked next goes to whoever has the folder then."""
    folder = folder or data_folder()
    with in_sentences(), ExitStack() as stack:
        url = _entered(folder, stack)

        def ask(method: str, address: str, body: Any = None) -> Any:
            nonlocal url
            try:
                return asking(url)(method, address, body)
            except Unheard:
                url = _entered(folder, stack)
                return asking(url)(method, address, body)
            except Unanswered:
                url = _entered(folder, stack)
                raise

        yield ask


def _entered(folder: Path, stack: ExitStack) -> str:
    """The address of the house that has this folder; of our own, for as long as the stack stands, where none has it."""
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        stack.enter_context(FolderLock(folder, patience=TURN))
        return stack.enter_context(_opened(folder))
    except Held as held:
        if held.url is None:
            raise Ending(f"Another Hookside holds {folder} and does not say where it answers. Try again.") from held
        return held.url
    except OSError as error:
        raise Ending(f"The data folder {folder} cannot be used ({error.strerror or error}).") from error


@contextmanager
def _opened(folder: Path) -> Iterator[str]:
    """The application on a port of this machine, for as long as it is asked; its address."""
    from hookside.journal import Journal
    from hookside.web.address import Address
    from hookside.web.app import create_app
    from hookside.web.doors import Doors
    from hookside.web.port import listen
    from hookside.web.readings import Readings
    from hookside.web.serving import Server
    from hookside.web.shelf import stock

    with closing(Journal.open(folder)) as journal, closing(Readings()) as readings:
        stock(journal, own_patterns())
        listener = listen(0)
        address = Address(listener.getsockname()[1])
        app, _ = create_app(journal, None, Doors(folder, address), readings)
        server = Server(listener, app)
        thread = threading.Thread(target=server.serve_forever, args=(0.05,), daemon=True)
        thread.start()
        try:
            yield address.url
        finally:
            server.shutdown()
            thread.join()
            server.server_close()


def asking(url: str) -> Ask:
    """Asks the house at this address."""
    at = urlsplit(url)

    def ask(method: str, address: str, body: Any = None) -> Any:
        line = http.client.HTTPConnection(at.hostname or "", at.port, timeout=PATIENCE)
        try:
            sent = None if body is None else json.dumps(body).encode()
            line.connect()
            line.request(method, address, sent, {} if body is None else {"Content-Type": "application/json"})
            answer = line.getresponse()
            told = json.loads(answer.read() or b"null")
        except ConnectionRefusedError as error:
            raise Unheard(f"Hookside at {url} is not there any more. Try once more.") from error
        except (OSError, http.client.HTTPException, ValueError) as error:
            raise Unanswered(
                f"Hookside at {url} gave no answer, so whether this was done is not known. Look before you ask again."
            ) from error
        finally:
            line.close()
        if answer.status >= 400:
            raise Ending(told.get("say", f"Hookside refused this ({answer.status})."))
        return told

    return ask


def making_of(ask: Ask, named: str) -> dict[str, Any]:
    """The making of that number or title, as {id, title}. One sentence and exit code 2 where no title is called so, or
    more than one."""
    if not named.strip():
        stop("Say which making: its number or its title.")
    if named.isdecimal():
        found = ask("GET", f"/api/makings/{int(named)}")
        return {"id": found["id"], "title": found["title"]}
    makings = ask("GET", "/api/shelf")["makings"]
    return _one([one for one in makings if named.casefold() in one["title"].casefold()], "making", named)


def pattern_of(ask: Ask, named: str) -> dict[str, Any]:
    """The pattern of that id or title as the shelf has it, as `making_of`."""
    if not named.strip():
        stop("Say which pattern: its id or its title.")
    patterns = ask("GET", "/api/shelf")["patterns"]
    exact = [one for one in patterns if named in (str(one["id"]), one["title"])]
    return _one(exact or [one for one in patterns if named.casefold() in one["title"].casefold()], "pattern", named)


def _one(matching: list[dict[str, Any]], what: str, named: str) -> dict[str, Any]:
    if not matching:
        stop(f'No {what} is called "{named}" on the shelf. "hookside shelf" names what is there.')
    if len(matching) > 1:
        which = ", ".join(f"{one['id']} {one['title'] or 'without a title'}" for one in matching)
        stop(f'Several are called "{named}": {which}. Say the first word of one of these.')
    return matching[0]


def of_pattern(id: object) -> str:
    """The address of a pattern."""
    return f"/api/patterns/{quote(str(id), safe='')}"


def same_name(said: str, name: str) -> bool:
    """Whether a piece is meant: "flipper" is one of the "Flippers", "Flipper 2" the second."""

    def plain(text: str) -> str:
        return re.sub(r"s\b", "", " ".join(text.casefold().split()))

    return plain(said) == plain(name)


def copy_named(run: dict[str, Any]) -> str:
    """ "Flipper 2", "Body" """
    return f"{run['piece'] or 'Piece'} {run['copy']}" if run["copies"] > 1 else run["piece"] or "Piece"


def run_named(snapshot: dict[str, Any], named: str) -> dict[str, Any]:
    """The copy of that name; of a piece's name alone its first. "": the one in hand."""
    runs: list[dict[str, Any]] = snapshot["runs"]
    if not named:
        in_hand = snapshot["state"]["in_hand"] or runs[0]["run"]
        return next(run for run in runs if run["run"] == in_hand)
    for run in runs:
        if named == run["run"] or any(same_name(named, name) for name in (copy_named(run), run["piece"])):
            return run
    stop(f'No piece is called "{named}"; there {_are([copy_named(run) for run in runs])}.')


def _are(names: list[str]) -> str:
    return f"is {names[0]}" if len(names) == 1 else f"are {', '.join(names)}"
