"""Files at the command line: a pattern's text in, a result out, each dead end one sentence and exit code 2."""

from __future__ import annotations

import os
import sys
from typing import NoReturn

import click

LARGEST_TEXT = 256 * 1024  # bytes
LARGEST_FILE = 20 << 20  # bytes, of a PDF


def stop(sentence: str) -> NoReturn:
    click.echo(sentence, err=True)
    sys.exit(2)


def same_file(file: str, out: str) -> bool:
    """Whether what is read and what is to be written are one file, by whatever names."""
    try:
        return file != "-" and os.path.samefile(file, out)
    except (OSError, ValueError):
        return False


def text_of(file: str) -> str:
    """The text of a file or of standard input. Anything that is none ends the command with one sentence and 2."""
    name = "Standard input" if file == "-" else file
    try:
        if file == "-":
            if sys.stdin is None:
                stop("There is no standard input here; name the pattern's file instead of -.")
            raw = sys.stdin.buffer.read(LARGEST_FILE + 1)
        else:
            with open(file, "rb") as source:
                raw = source.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        stop(f"There is no file {file}; check the name and the folder.")
    except IsADirectoryError:
        stop(f"{file} is a folder; name the pattern's file inside it.")
    except (OSError, ValueError) as problem:
        why = getattr(problem, "strerror", None) or str(problem)
        stop(f"{name} can't be opened ({why}); check that you may read it.")
    if b"%PDF-" in raw[:1024]:
        raw = _from_pdf(raw, name)
    if len(raw) > LARGEST_TEXT:
        stop(f"{name} is larger than 256 kB; a pattern is far smaller, so cut out the part you want to work.")
    for encoding in ("utf-8-sig", "utf-16") if raw[:2] in (b"\xff\xfe", b"\xfe\xff") else ("utf-8-sig",):
        try:
            return raw.decode(encoding)
        except UnicodeDecodeError:
            continue
    stop(f"{name} is not plain text in UTF-8; save the pattern as plain text and try again.")


def _from_pdf(raw: bytes, name: str) -> bytes:
    from hookside.intake import CannotTake, take

    try:
        found = take(raw, name)
    except CannotTake as e:
        stop(str(e))
    for sentence in found.said:
        click.echo(sentence, err=True)
    return found.text.encode()


def put(text: str, out: str | None) -> None:
    if out is None or out == "-":
        _print(text)
        return
    try:
        with open(out, "w", encoding="utf-8", errors="replace") as target:
            target.write(text)
    except (OSError, ValueError) as problem:
        why = getattr(problem, "strerror", None) or str(problem)
        stop(f"{out} can't be written ({why}); choose another place with -o.")


def _print(text: str) -> None:
    if sys.stdout is None:
        stop("There is no standard output here; name a file with -o.")
    try:
        click.echo(text.encode("utf-8", "replace"), nl=False)
        sys.stdout.flush()
    except BrokenPipeError:
        raise  # whoever read this has seen enough: click ends the command quietly
    except OSError as problem:
        # What is still held back would be tried once more at the end of the process, with a traceback.
        with open(os.devnull, "w") as nowhere:
            os.dup2(nowhere.fileno(), sys.stdout.fileno())
        stop(f"Standard output can't be written ({problem.strerror or problem}); choose another place with -o.")
