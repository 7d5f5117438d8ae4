"""`hookside serve`: lock, port, journal, page, until told to stop."""

from __future__ import annotations

import errno
import os
import signal
import sys
import threading
import webbrowser
from contextlib import closing
from pathlib import Path
from typing import TYPE_CHECKING

import click

from hookside.config import data_folder, own_patterns, static_folder
from hookside.journal.trouble import Trouble
from hookside.web.address import Address
from hookside.web.lock import FolderLock, Held
from hookside.web.port import PortTaken, open_port

if TYPE_CHECKING:
    from hookside.web.serving import Server

SHARE = 0.001  # seconds a thread goes on while another wants its turn: a move takes several turns


def has_browser() -> bool:
    """Whether opening a browser would show something to somebody."""
    if sys.platform in ("win32", "darwin"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def show(url: str, browser: bool) -> None:
    """Say where Hookside is, and open it where that makes sense."""
    click.echo(f"Hookside is at {url}")
    sys.stdout.flush()
    if browser and has_browser():
        threading.Thread(target=webbrowser.open, args=(url,), daemon=True).start()


@click.command()
@click.option("--folder", type=click.Path(file_okay=False, path_type=Path), help="Data folder, if not the usual one.")
@click.option("--port", type=click.IntRange(1, 65535), help="Port to answer at; remembered for later starts.")
@click.option("--no-browser", is_flag=True, help="Do not open a browser.")
def serve(folder: Path | None, port: int | None, no_browser: bool) -> None:
    """Open the shelf and the bench in the browser, until stopped with Ctrl+C."""
    try:
        folder = folder or data_folder()
    except RuntimeError as e:  # a ~name without a home
        raise click.ClickException(
            f"There is no home folder for {os.environ.get('HOOKSIDE_HOME') or 'this user'}: "
            "name the data folder with --folder."
        ) from e
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        with FolderLock(folder) as lock:
            run(folder, port, lock, browser=not no_browser)
    except Held as e:
        if e.url is None:
            raise click.ClickException(
                f"Another Hookside holds the data folder {folder} but does not say where it answers: "
                "wait a moment and start again, or stop the other one."
            ) from e
        show(e.url, browser=not no_browser)
    except (PortTaken, Trouble) as e:
        raise click.ClickException(str(e)) from e
    except OSError as e:
        if e.errno in (errno.ENOSPC, errno.EDQUOT):
            raise click.ClickException(
                f"There is no room left on the disk of {folder}: make room and start again. "
                "What was acknowledged is kept."
            ) from e
        raise click.ClickException(
            f"The data folder {folder} cannot be used ({e.strerror or e}): make it writable, or name another with "
            "--folder or HOOKSIDE_HOME."
        ) from e


def run(folder: Path, port: int | None, lock: FolderLock, browser: bool) -> None:
    """Serve until SIGINT or SIGTERM."""
    from hookside.journal import Journal
    from hookside.web.app import create_app
    from hookside.web.readings import Readings
    from hookside.web.serving import Server
    from hookside.web.shelf import stock

    over = threading.Event()
    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, lambda *_: over.set())
    # The journal first: only a folder where it once stood complete holds a port.
    with closing(Journal.open(folder)) as journal, closing(Readings()) as readings:
        stock(journal, own_patterns())
        with open_port(folder, port) as listener:
            address = Address(listener.getsockname()[1])
            app, _ = create_app(journal, static_folder(), address, readings)
            server = Server(listener, app)
        answer(server, address, lock, browser, over)


def answer(server: Server, address: Address, lock: FolderLock, browser: bool, over: threading.Event) -> None:
    """Answer until it is over."""
    sys.setswitchinterval(SHARE)
    thread = threading.Thread(target=server.serve_forever, args=(0.1,), daemon=True)
    thread.start()
    lock.tell(address.url)
    show(address.url, browser)
    # A wait without end cannot be interrupted on Windows; one with an end can.
    while not over.wait(3600):
        pass
    server.shutdown()
    thread.join()


if __name__ == "__main__":
    serve()
