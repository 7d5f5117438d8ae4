"""How a command ends that cannot go on: with its sentence and nothing before it."""

from __future__ import annotations

from typing import IO, Any

import click


class Ending(click.ClickException):
    """One sentence for the maker, and exit code 1. click's own would put "Error:" before it."""

    def show(self, file: IO[Any] | None = None) -> None:
        click.echo(self.message, file=file, err=file is None)
