"""How a command ends that cannot go on: with its sentence and nothing before it."""

from __future__ import annotations

import unicodedata
from typing import IO, Any

import click


class Ending(click.ClickException):
    """One sentence for the maker, and exit code 1. click's own would put "Error:" before it."""

    def show(self, file: IO[Any] | None = None) -> None:
        click.echo(printable(self.message), file=file, err=file is None)


def printable(text: str) -> str:
    """Words on their way to a terminal: line ends and tabs stay, every other control sign is taken out. Titles, labels
    and notes come from anywhere, and such signs colour a screen, clear it or hide what stands there."""
    return "".join(c for c in text if c in "\n\t" or unicodedata.category(c) != "Cc")
