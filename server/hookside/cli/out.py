"""Where a command's result goes with -o: to a new file, or over an old one where that was said, and never over what
was read or what Hookside keeps."""

from __future__ import annotations

import os
import stat
import tempfile
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path
from typing import Any, TypeVar

import click

from hookside.config import data_folder

JOURNAL = "journal.sqlite"  # as journal/store.py has it, which is not loaded to read a pattern
OWN_FOLDERS = ("backups", "doors", "voice")  # in a data folder
Command = TypeVar("Command", bound=Callable[..., Any])


class CannotWrite(Exception):
    """A sentence why a result cannot go where it was to go. Nothing was changed there."""


def out_option(command: Command) -> Command:
    """-o and --over, for every command that has a result; the command takes `out`, a file's name or None."""
    over = click.option("--over", is_flag=True, expose_value=False, callback=_remember, help="Write over OUT.")
    out = click.option("-o", "--out", metavar="OUT", help="Write to this file instead of the screen.")
    return out(over(command))


def _remember(ctx: click.Context, param: click.Parameter, value: bool) -> None:
    ctx.meta["hookside.over"] = value


def note_read(file: str) -> None:
    """Remember that the command reads this file: no result is written over it."""
    ctx = click.get_current_context(silent=True)
    if ctx is not None:
        ctx.meta.setdefault("hookside.read", []).append(file)


def write(text: str, out: str) -> None:
    """Write a result: beside its place, then renamed into it, so that nothing half written ever stands there.

    Raises CannotWrite.
    """
    try:
        target = Path(os.path.realpath(out))
        kind = _kind(target)
        if kind is not None and not stat.S_ISREG(kind) and not stat.S_ISDIR(kind):  # a pipe, /dev/null
            with open(target, "w", encoding="utf-8", errors="replace") as line:
                line.write(text)
            return
        _allow(target, out, kind)
        _replace(target, text, stat.S_IMODE(kind) if kind is not None else 0o666 & ~_umask())
    except (OSError, ValueError) as problem:
        why = getattr(problem, "strerror", None) or str(problem)
        raise CannotWrite(f"{out} can't be written ({why}); choose another place with -o.") from problem


def _kind(target: Path) -> int | None:
    """The mode of what is there; None where nothing is."""
    try:
        return target.stat().st_mode
    except FileNotFoundError:
        return None


def _allow(target: Path, out: str, kind: int | None) -> None:
    ctx = click.get_current_context(silent=True)
    meta: dict[str, Any] = ctx.meta if ctx is not None else {}
    if any(_same(file, target) for file in meta.get("hookside.read", [])):
        raise CannotWrite(f"{out} is the pattern itself, and would be written over; choose another place with -o.")
    if _kept(target, [ctx.params["folder"]] if ctx is not None and ctx.params.get("folder") else []):
        raise CannotWrite(f"{out} is where Hookside keeps its own files; choose another place with -o.")
    if kind is not None and stat.S_ISDIR(kind):
        raise CannotWrite(f"{out} can't be written (it is a folder); name a file in it with -o.")
    if kind is not None and not meta.get("hookside.over"):
        raise CannotWrite(f"{out} is there already. Name another file with -o, or say --over to write over it.")


def _same(file: str, target: Path) -> bool:
    with suppress(OSError, ValueError):
        return os.path.samefile(file, target)
    return False


def _kept(target: Path, folders: Iterable[Path]) -> bool:
    """Whether a file would lie among those of a data folder: the one in use, or any that holds a journal."""
    known = {Path(os.path.realpath(folder)) for folder in folders}
    with suppress(RuntimeError):  # a ~name without a home
        known.add(Path(os.path.realpath(data_folder())))
    for folder in target.parents:
        inside = target.relative_to(folder).parts
        if (len(inside) == 1 or inside[0] in OWN_FOLDERS) and (folder in known or (folder / JOURNAL).exists()):
            return True
    return False


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _replace(target: Path, text: str, mode: int) -> None:
    handle, beside = tempfile.mkstemp(prefix=f".{target.name[:60]}.", dir=target.parent)
    try:
        with open(handle, "w", encoding="utf-8", errors="replace") as file:
            file.write(text)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(beside, mode)
        os.replace(beside, target)
    except BaseException:
        with suppress(OSError):
            os.unlink(beside)
        raise
