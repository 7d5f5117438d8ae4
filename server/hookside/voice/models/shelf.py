"""The folder of models. Each lies in a folder of its own, with a label that says what it is.

voice/models/NAME/             the model as it came
voice/models/NAME/hookside.json   {"language", "added", "source"}
voice/coming/                  what is on its way; may be thrown away at any time
"""

from __future__ import annotations

import json
import os
import re
import shutil
import time
from dataclasses import dataclass
from pathlib import Path

from hookside.voice.models.trouble import CannotAdd

LABEL = "hookside.json"
NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9._-]{0,79}")
SPOKEN = re.compile(r"vosk-model-(?:small-|spk-)?([a-z]{2,3})(?:-|$)")
MOST_MODELS = 50
FORGOTTEN = 86_400  # seconds after which nobody comes back for what was on its way


@dataclass(frozen=True)
class Model:
    """A model that is there. `size` is in bytes, `added` in seconds since 1970."""

    language: str
    name: str
    folder: Path
    size: int
    added: float


def language_of(name: str) -> str | None:
    """The language in a model's usual name: vosk-model-small-en-us-0.15 is "en"."""
    found = SPOKEN.match(name)
    return found[1] if found else None


def is_model(folder: Path) -> bool:
    """Whether this folder has the parts of a model, as vosk lays them out: sounds, and a graph of words."""
    sounds = (folder / "am" / "final.mdl").is_file()
    graph = folder / "graph"
    return sounds and ((graph / "HCLG.fst").is_file() or all((graph / p).is_file() for p in ("HCLr.fst", "Gr.fst")))


class Models:
    """The models of one data folder."""

    def __init__(self, data: Path) -> None:
        self.folder = data / "voice" / "models"
        self.coming = data / "voice" / "coming"

    def all(self) -> list[Model]:
        """By language, the newest first. A folder without its label is not ours to use."""
        found = []
        for folder in sorted(self.folder.iterdir())[:MOST_MODELS] if self.folder.is_dir() else ():
            try:
                label = json.loads((folder / LABEL).read_text("utf-8"))
                language, added = str(label["language"]), float(label["added"])
            except (OSError, ValueError, KeyError, TypeError):
                continue
            size = sum(f.stat().st_size for f in folder.rglob("*") if f.is_file())
            found.append(Model(language, folder.name, folder, size, added))
        return sorted(found, key=lambda m: (m.language, -m.added, m.name))

    def of(self, language: str) -> Model | None:
        """The model that listens for this language: the one added last."""
        return next((m for m in self.all() if m.language == language), None)

    def remove(self, name: str) -> Model:
        """Raises CannotAdd where there is none of this name."""
        model = next((m for m in self.all() if m.name == name), None)
        if model is None:
            raise CannotAdd("no-model", f"There is no voice model named {name[:80]}: “hookside voice list” names them.")
        going = self.fresh(name)
        try:
            model.folder.rename(going / "model")  # first out of use in one step, then taken apart
            shutil.rmtree(going)
        except OSError as e:
            raise CannotAdd("disk", f"{model.folder} can't be removed ({e.strerror or e}): remove it by hand.") from e
        return model

    def fresh(self, name: str) -> Path:
        """An empty folder for what is on its way; another process may have one of the same name."""
        for left in self.coming.glob("*.new"):
            if time.time() - left.stat().st_mtime > FORGOTTEN:
                shutil.rmtree(left, ignore_errors=True)
        place = self.coming / f"{name}.{os.getpid()}.new"
        shutil.rmtree(place, ignore_errors=True)
        place.mkdir(parents=True)
        return place

    def place(self, folder: Path, name: str, language: str, source: str) -> Model:
        """Put a finished model where it is used from. `folder` is ours and is moved."""
        label = {"language": language, "added": time.time(), "source": source}
        (folder / LABEL).write_text(json.dumps(label) + "\n", "utf-8")
        self.folder.mkdir(parents=True, exist_ok=True)
        there = self.folder / name
        if there.exists():
            old = self.fresh(f"{name}.old")
            there.rename(old / "model")
            folder.rename(there)
            shutil.rmtree(old, ignore_errors=True)
        else:
            folder.rename(there)
        return next(m for m in self.all() if m.name == name)
