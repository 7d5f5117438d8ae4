"""`hookside voice`: the voice models that are there; adding one, removing one."""

from __future__ import annotations

import re
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from hookside.cli.files import put, say, stop
from hookside.cli.journal import where
from hookside.config import data_folder

if TYPE_CHECKING:
    from hookside.voice.models import Models


def models(folder: Path | None) -> Models:
    from hookside.voice.models import Models

    try:
        return Models(folder or data_folder())
    except RuntimeError:  # a ~name without a home
        stop("There is no home folder to keep voice models in: name the data folder in HOOKSIDE_HOME.")


class Line:
    """Progress on one line of a terminal, and by tenths elsewhere."""

    def __init__(self) -> None:
        self.shown = ""
        self.tenth = -1
        self.terminal = sys.stderr is not None and sys.stderr.isatty()

    def __call__(self, share: float, say: str) -> None:
        text = f"{round(100 * share):3d} %  {say}"
        tenth = int(10 * share)
        if text == self.shown or (not self.terminal and tenth == self.tenth):
            return
        click.echo(f"\r{text:<60}" if self.terminal else text, nl=not self.terminal, err=True)
        self.shown, self.tenth = text, tenth

    def end(self) -> None:
        if self.terminal and self.shown:
            click.echo(err=True)


@click.group("voice")
def voice() -> None:
    """The models that listen: which are there, adding one, removing one."""


@voice.command("list")
@where
def list_(folder: Path | None) -> None:
    """Which engines and models listen, and where the models lie."""
    from hookside.voice.models import engines

    lines = [f"{engine.name}: {engine.say}" for engine in engines.all()]
    there = models(folder).all()
    lines += [f"{model.name}  {model.language}  {model.size >> 20} MB  {model.folder}" for model in there]
    if not there:
        lines.append("No voice model was added yet: “hookside voice add en” fetches the small English one.")
    put("\n".join(lines) + "\n", None)


@voice.command()
@click.argument("what", metavar="LANGUAGE-OR-FOLDER-OR-ZIP")
@click.option("--language", help="Language of a model whose name does not say it, as in en.")
@where
def add(what: str, language: str | None, folder: Path | None) -> None:
    """Add a voice model: the small one of a language, by vosk's own list, or one from a folder or zip on this disk."""
    from hookside.voice.models import CannotAdd
    from hookside.voice.models.adding import add_file, add_language
    from hookside.voice.pool import trial

    if language is not None and not re.fullmatch("[a-z]{2,3}", language):
        stop(f"{language} is no language as Hookside writes them: two or three small letters, as in en.")
    line = Line()
    try:
        if re.fullmatch("[a-z]{2,3}", what) and not Path(what).exists():
            model = add_language(models(folder), what, trial, line)
        else:
            model = add_file(models(folder), Path(what).expanduser(), trial, line, language=language)
    except CannotAdd as e:
        line.end()
        stop(str(e))
    line.end()
    say(f"{model.name} listens for {model.language} from now on ({model.size >> 20} MB in {model.folder}).")


@voice.command()
@click.argument("name")
@where
def remove(name: str, folder: Path | None) -> None:
    """Remove a voice model by its name."""
    from hookside.voice.models import CannotAdd

    try:
        model = models(folder).remove(name)
    except CannotAdd as e:
        stop(str(e))
    say(f"{model.name} was removed ({model.size >> 20} MB).")
