"""`hookside serve`: lock, port, journal, page, until told to stop."""

from __future__ import annotations

import errno
import ipaddress
import os
import queue
import signal
import sys
import threading
import webbrowser
from contextlib import closing, suppress
from pathlib import Path
from typing import TYPE_CHECKING

import click

from hookside.config import data_folder, own_patterns, static_folder
from hookside.journal.trouble import Trouble
from hookside.web.address import Address
from hookside.web.ending import Ending
from hookside.web.lock import FolderLock, Held
from hookside.web.port import PortTaken, open_port

if TYPE_CHECKING:
    from hookside.web.doors import Doors
    from hookside.web.serving import Server

HANDLES = 4096
SHARE = 0.001  # seconds a thread goes on while another wants its turn: a move takes several turns


def has_browser() -> bool:
    """Whether opening a browser would show something to somebody."""
    if sys.platform in ("win32", "darwin"):
        return True
    return bool(os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"))


def show(url: str, browser: bool) -> None:
    """Say where Hookside is, and open it where that makes sense."""
    with suppress(OSError):  # what can't be printed is no reason not to serve
        click.echo(f"Hookside is at {url}")
        sys.stdout.flush()
    if browser and has_browser():
        threading.Thread(target=webbrowser.open, args=(url,), daemon=True).start()


@click.command()
@click.option("--folder", type=click.Path(file_okay=False, path_type=Path), help="Data folder, if not the usual one.")
@click.option("--port", type=click.IntRange(1, 65535), help="Port to answer at; remembered for later starts.")
@click.option("--no-browser", is_flag=True, help="Do not open a browser.")
@click.option("--share", is_flag=True, help="Let paired phones and tablets of the house in, this time.")
@click.option("--address", "at", help="The address to share at, where this machine has several.")
def serve(folder: Path | None, port: int | None, no_browser: bool, share: bool, at: str | None) -> None:
    """Open the shelf and the bench in the browser, until stopped with Ctrl+C.

    It answers on this machine alone, unless --share is given or sharing was switched on at the shelf.
    """
    try:
        folder = folder or data_folder()
    except RuntimeError as e:  # a ~name without a home
        raise Ending(
            f"There is no home folder for {os.environ.get('HOOKSIDE_HOME') or 'this user'}: "
            "name the data folder with --folder."
        ) from e
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        with FolderLock(folder) as lock:
            run(folder, port, lock, browser=not no_browser, share=share, at=checked(at))
    except Held as e:
        if e.url is None:
            raise Ending(
                f"Another Hookside holds the data folder {folder} but does not say where it answers: "
                "wait a moment and start again, or stop the other one."
            ) from e
        show(e.url, browser=not no_browser)
        if share:
            click.echo("It was started already: share it there, on the shelf, under Use a phone or tablet.")
    except (PortTaken, Trouble) as e:
        raise Ending(str(e)) from e
    except OSError as e:
        if e.errno in (errno.ENOSPC, errno.EDQUOT):
            raise Ending(
                f"There is no room left on the disk of {folder}: make room and start again. "
                "What was acknowledged is kept."
            ) from e
        raise Ending(
            f"The data folder {folder} cannot be used ({e.strerror or e}): make it writable, or name another with "
            "--folder or HOOKSIDE_HOME."
        ) from e


def checked(at: str | None) -> str | None:
    """An address of a house, as it was given. Raises click.BadParameter."""
    if at is None:
        return None
    from hookside.web.tls.authority import private

    try:
        if ipaddress.ip_address(at).version == 4 and private(at):
            return at
    except ValueError:
        pass
    raise click.BadParameter(
        f"{at} is not an address of a house: they look like 192.168.1.20, 10.0.0.7 or 172.16.4.2.",
        param_hint="--address",
    )


def run(folder: Path, port: int | None, lock: FolderLock, browser: bool, share: bool, at: str | None) -> None:
    """Serve until SIGINT or SIGTERM."""
    from hookside.journal import Journal
    from hookside.web.app import create_app
    from hookside.web.doors import Doors
    from hookside.web.keeping import Keeping
    from hookside.web.readings import Readings
    from hookside.web.serving import Server
    from hookside.web.shelf import stock

    # A queue of this kind may be written to in the midst of being waited for, as a signal does; an event may not.
    over: queue.SimpleQueue[int] = queue.SimpleQueue()
    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, lambda number, _: over.put(number))
    many_handles()
    # The journal first: only a folder where it once stood complete holds a port.
    with closing(Journal.open(folder)) as journal, closing(Readings()) as readings:
        stock(journal, own_patterns())
        with open_port(folder, port) as listener:
            doors = Doors(folder, Address(listener.getsockname()[1]))
            app, _ = create_app(journal, static_folder(), doors, readings)
            server = Server(listener, app)
        if at is not None:
            doors.sharing.find = lambda: [at]
        with Keeping(folder):
            answer(server, doors, lock, browser, over, share or doors.sharing.wanted())


def many_handles() -> None:
    """Each connection takes one; what a system gives at first may be fewer than the listeners take together."""
    if sys.platform == "win32":
        return
    import resource

    soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
    wanted = HANDLES if hard == resource.RLIM_INFINITY else min(HANDLES, hard)
    if soft != resource.RLIM_INFINITY and soft < wanted:
        with suppress(OSError, ValueError):
            resource.setrlimit(resource.RLIMIT_NOFILE, (wanted, hard))


def answer(
    server: Server, doors: Doors, lock: FolderLock, browser: bool, over: queue.SimpleQueue[int], share: bool
) -> None:
    """Answer until it is over."""
    sys.setswitchinterval(SHARE)
    thread = threading.Thread(target=server.serve_forever, args=(0.1,), daemon=True)
    thread.start()
    lock.tell(doors.here.url)
    show(doors.here.url, browser)
    if share:
        open_house(doors)
    # Short waits: Python looks for signals between two steps of its own, and one that comes just as a wait begins, or
    # that the system hands to another thread, does not wake it.
    while True:
        with suppress(queue.Empty):
            over.get(timeout=0.5)
            break
    doors.sharing.end()
    server.shutdown()
    thread.join()


def open_house(doors: Doors) -> None:
    """Share, and print how a phone gets in. What stands in the way is said; this machine goes on alone."""
    from hookside.web.qr import printed
    from hookside.web.tls.authority import Unusable

    try:
        doors.sharing.begin()
    except (PortTaken, Unusable, OSError) as e:
        click.echo(f"It is not shared: {e}", err=True)
        return
    state, house = doors.sharing.state(), doors.house
    assert house is not None
    if not state["addresses"]:
        click.echo("It is shared, but this machine is on no home network just now; it looks again every few seconds.")
        return
    click.echo(f"Shared with paired devices at {' and '.join(state['addresses'])}")
    click.echo(f"A phone or tablet that was never here: let it trust this house first, at {state['trust']}")
    if sys.stdout.isatty():  # an invitation is a secret, and what is no terminal is often a log
        link, typed = doors.pairing.invite()
        url = f"{house.url}/pair#{link}"
        click.echo(
            f"Then point its camera here (good for ten minutes, once), or open {house.url}/pair\n"
            f"and type {typed[:4]} {typed[4:]} (good for two). The shelf on this machine asks you to let it in.\n"
            f"{printed(url)}"
        )
    else:
        click.echo("Then invite it on the shelf of this machine, under Use a phone or tablet.")
    sys.stdout.flush()


if __name__ == "__main__":
    serve()
