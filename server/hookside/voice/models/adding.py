"""Adding a model, from the first byte to its first word."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

from hookside.voice.heard import EngineLost
from hookside.voice.models import fetch
from hookside.voice.models.shelf import NAME, Model, Models, is_model, language_of
from hookside.voice.models.trouble import CannotAdd
from hookside.voice.models.unpack import LARGEST, Progress, copy, no_model, unzip
from hookside.voice.phrasebook import languages

Trial = Callable[[str, Path], None]  # loads a model; raises EngineLost where it does not work
DEPTH = 2  # folders in folders that a zip may have around its model


def part(progress: Progress, start: float, share: float) -> Progress:
    """The progress of one part of the work as progress of the whole."""
    return lambda done, say: progress(start + share * done, say)


def add_language(models: Models, language: str, trial: Trial, progress: Progress, place: str = "") -> Model:
    """The small model of a language, from vosk's own list or one at another `place`. Raises CannotAdd."""
    place = place or fetch.PLACE
    spoken(language)
    progress(0.0, "Asking vosk for its list of models")
    wanted = fetch.choose(language, fetch.offered(place))
    file = fetch.fetch(wanted, models.coming, part(progress, 0.0, 0.85), place)
    model = add_file(models, file, trial, part(progress, 0.85, 0.15), language=language, name=wanted.name, source=place)
    file.unlink(missing_ok=True)
    return model


def add_file(
    models: Models, file: Path, trial: Trial, progress: Progress, *, language: str | None = None,
    name: str | None = None, source: str = "disk", largest: int = LARGEST,
) -> Model:  # fmt: skip
    """A model from a folder or a zip on this disk, without network. Raises CannotAdd."""
    if not file.exists():
        raise CannotAdd("no-model", f"There is no {file}; check the name and the folder.")
    place = None
    try:
        place = models.fresh("unpacking")
        if file.is_dir():
            found = inside(file, file)
            given, code = named(file, found.name if name is None else name, language)
            copy(found, place, part(progress, 0.0, 0.8))
            found = place
        else:
            unzip(file, place, part(progress, 0.0, 0.8), largest)
            found = inside(place, file)
            usual = file.stem if found == place else found.name
            given, code = named(file, usual if name is None else name, language)
        progress(0.85, "Trying it out")
        try:
            trial(code, found)
        except EngineLost as e:
            raise CannotAdd(e.code, e.say if e.code == "no-engine" else no_model(file, "vosk can't load it").say) from e
        model = models.place(found, given, code, source)
    except OSError as e:
        raise CannotAdd("disk", f"{file.name} can't be put into {models.folder} ({e.strerror or e}).") from e
    finally:
        if place is not None:
            shutil.rmtree(place, ignore_errors=True)
    progress(1.0, f"{model.name} listens from now on")
    return model


def named(file: Path, name: str, language: str | None) -> tuple[str, str]:
    """What a model is called here, and its language. Raises CannotAdd."""
    code = language or language_of(name)
    if code is None:
        raise CannotAdd(
            "no-language", f"The name {name} does not say its language: add it with --language, as in --language en."
        )
    spoken(code)
    if language_of(name) is None and not name.endswith(f"-{code}"):
        name = f"{name}-{code}"
    if not NAME.fullmatch(name):
        raise no_model(file, "its name has signs that a folder's name can't have")
    return name, code


def spoken(language: str) -> None:
    """Whether there are phrases to listen for in a language. Raises CannotAdd where not."""
    there = languages()
    if language not in there:
        known = ", ".join(f"{name} ({code})" for code, name in there.items())
        raise CannotAdd("no-language", f"Hookside has no phrases for “{language[:20]}” yet; it knows {known}.")


def inside(place: Path, file: Path) -> Path:
    """The folder in which the model itself lies. Raises CannotAdd."""
    here = place
    for _ in range(DEPTH + 1):
        if is_model(here):
            return here
        folders = [f for f in here.iterdir() if f.is_dir()]
        if len(folders) != 1:
            break
        here = folders[0]
    raise no_model(file, "it lacks am/final.mdl, or graph/HCLG.fst, or graph/HCLr.fst with graph/Gr.fst beside it")
