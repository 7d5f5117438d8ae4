"""Files at the command line: a pattern's text in, a result out, each dead end one sentence and exit code 2."""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from typing import NoReturn

import click

from hookside.cli.out import CannotWrite, note_read, write
from hookside.web.ending import printable

LARGEST_TEXT = 256 * 1024  # bytes
LARGEST_FILE = 20 << 20  # bytes, of a PDF


def stop(sentence: str, code: int = 2) -> NoReturn:
    """End the command with a sentence."""
    tell(sentence)
    sys.exit(code)


def tell(sentence: str) -> None:
    """A sentence beside the result, on standard error."""
    with suppress(OSError):
        click.echo(printable(sentence), err=True)


def text_of(file: str) -> str:
    """The text of a file or of standard input. Anything that is none ends the command with one sentence and 2."""
    name, raw = bytes_of(file)
    if b"%PDF-" in raw[:1024]:
        raw = _from_pdf(raw, name)
    if len(raw) > LARGEST_TEXT:
        stop(f"{name} is larger than 256 kB; a pattern is far smaller, so cut out the part you want to work.")
    for encoding in ("utf-8-sig", "utf-16") if raw[:2] in (b"\xff\xfe", b"\xfe\xff") else ("utf-8-sig",):
        try:
            return raw.decode(encoding)
        except UnicodeDecodeError:
            continue
    from hookside.intake.kinds import kind
    from hookside.intake.taken import CannotTake

    try:
        kind(raw, name)
    except CannotTake as what:  # a photo, an office document: then that is said
        stop(str(what))
    stop(f"{name} is not plain text in UTF-8; save the pattern as plain text and try again.")


def bytes_of(file: str) -> tuple[str, bytes]:
    """Name and content of a file or of standard input. What can't be read ends the command with one sentence and 2."""
    try:
        return read_bytes(file)
    except CannotOpen as problem:
        stop(str(problem))


class CannotOpen(Exception):
    """A sentence on a file that can't be read."""


def read_bytes(file: str) -> tuple[str, bytes]:
    """Name and content of a file or of standard input, up to one byte more than is taken. Raises CannotOpen."""
    name = "Standard input" if file == "-" else file
    try:
        if file == "-":
            if sys.stdin is None:
                raise CannotOpen("There is no standard input here; name the pattern's file instead of -.")
            return name, sys.stdin.buffer.read(LARGEST_FILE + 1)
        with open(file, "rb") as source:
            note_read(file)
            return name, source.read(LARGEST_FILE + 1)
    except FileNotFoundError as problem:
        raise CannotOpen(f"There is no file {file}; check the name and the folder.") from problem
    except IsADirectoryError as problem:
        raise CannotOpen(f"{file} is a folder; name the pattern's file inside it.") from problem
    except (OSError, ValueError) as problem:
        why = getattr(problem, "strerror", None) or str(problem)
        raise CannotOpen(f"{name} can't be opened ({why}); check that you may read it.") from problem


def _from_pdf(raw: bytes, name: str) -> bytes:
    from hookside.intake import CannotTake, take

    try:
        found = take(raw, name)
    except CannotTake as e:
        stop(str(e))
    for sentence in found.said:
        tell(sentence)
    return found.text.encode()


def put(text: str, out: str | None) -> None:
    """The result of a command: into OUT where one was named, else on the screen. A dead end is one sentence and 2."""
    if out is None or out == "-":
        _print(text, "Standard output can't be written ({why}){elsewhere}.", 2)
        return
    try:
        write(text, out)
    except CannotWrite as problem:
        stop(str(problem))


def say(sentence: str) -> None:
    """What a command did, when it is done. Where that can't be told, this is said, and that it is done all the same."""
    _print(f"{sentence}\n", "It is done, only it could not be told here: standard output can't be written ({why}).", 1)


def _print(text: str, cannot: str, code: int) -> None:
    if sys.stdout is None:
        _fail(cannot, "there is no standard output here", code)
    try:
        click.echo(printable(text).encode("utf-8", "replace"), nl=False)
        sys.stdout.flush()
    except BrokenPipeError:  # whoever read this has seen enough
        forget_output()
        sys.exit(1)
    except OSError as problem:
        forget_output()
        _fail(cannot, problem.strerror or str(problem), code)


def _fail(cannot: str, why: str, code: int) -> NoReturn:
    ctx = click.get_current_context(silent=True)
    elsewhere = "; choose another place with -o" if ctx is not None and "out" in ctx.params else ""
    stop(cannot.format(why=why, elsewhere=elsewhere), code)


def forget_output() -> None:
    """What is still held back would be tried once more at the end of the process, with a traceback."""
    with suppress(OSError, ValueError), open(os.devnull, "w") as nowhere:
        os.dup2(nowhere.fileno(), sys.stdout.fileno())
