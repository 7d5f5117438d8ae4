"""A model out of a zip, or a copy of a folder: whatever the file says of itself, no more than the bounds, and nothing
outside the folder it goes into."""

from __future__ import annotations

import shutil
import stat
import zipfile
from collections.abc import Callable
from pathlib import Path, PurePosixPath

from hookside.voice.models.trouble import CannotAdd

MOST_FILES = 2000
LARGEST = 6 << 30  # bytes unpacked: the largest models there are have 4 GB
MOST_FOLDED = 40  # times larger than the zip: models fold to about half
CHUNK = 1 << 20

Progress = Callable[[float, str], None]  # share of this part of the work, a sentence


def no_model(file: Path, why: str) -> CannotAdd:
    return CannotAdd("no-model", f"{file.name} is no voice model that Hookside can use: {why}.")


def path_of(entry: zipfile.ZipInfo, file: Path) -> PurePosixPath:
    """Where an entry goes, from the folder on. Raises CannotAdd for one that would leave it."""
    name = entry.filename
    parts = PurePosixPath(name).parts
    kind = entry.external_attr >> 16
    odd = (
        name.startswith("/") or "\\" in name or "\0" in name or ".." in parts or len(name) > 200
        or any(":" in part for part in parts)
        or (kind and not (stat.S_ISREG(kind) or stat.S_ISDIR(kind)) and stat.S_IFMT(kind))
    )  # fmt: skip
    if odd or not parts:
        raise no_model(file, "a name in it leads out of its folder")
    return PurePosixPath(*parts)


def unzip(file: Path, into: Path, progress: Progress, largest: int = LARGEST) -> None:
    """Unpack. Raises CannotAdd."""
    try:
        with zipfile.ZipFile(file) as zip:
            entries = [(path_of(e, file), e) for e in zip.infolist()]
            bounds(file, [e for _, e in entries], largest)
            total, written = sum(e.file_size for _, e in entries) or 1, 0
            for path, entry in entries:
                target = into.joinpath(*path.parts)
                if entry.is_dir():
                    target.mkdir(parents=True, exist_ok=True)
                    continue
                target.parent.mkdir(parents=True, exist_ok=True)
                with zip.open(entry) as source, target.open("xb") as out:
                    left = entry.file_size
                    while piece := source.read(min(CHUNK, left + 1)):
                        left -= len(piece)
                        if left < 0:
                            raise no_model(file, "a file in it is larger than it says")
                        out.write(piece)
                        written += len(piece)
                        progress(written / total, "Unpacking")
    except FileExistsError as e:
        raise no_model(file, "it names the same file twice") from e
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError) as e:
        raise no_model(file, f"the zip is damaged or locked ({e})") from e
    except OSError as e:
        raise CannotAdd("disk", f"{file.name} can't be unpacked ({e.strerror or e}): look for room on the disk.") from e


def bounds(file: Path, entries: list[zipfile.ZipInfo], largest: int) -> None:
    size = sum(e.file_size for e in entries)
    if len(entries) > MOST_FILES:
        raise no_model(file, f"it holds {len(entries)} files, and a model a few dozen")
    if size > largest or size > MOST_FOLDED * max(file.stat().st_size, 4096):
        raise no_model(file, f"unpacked it would take {size >> 20} MB, far more than a model")


def copy(folder: Path, into: Path, progress: Progress) -> None:
    """Copy a folder's own files. Raises CannotAdd."""
    try:
        files = [f for f in folder.rglob("*") if f.is_file()]
        total = sum(f.stat().st_size for f in files)
        if len(files) > MOST_FILES or total > LARGEST:
            raise no_model(folder, f"it holds {len(files)} files and {total >> 20} MB, far more than a model")
        done = 0
        for file in files:
            target = into / file.relative_to(folder)
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(file, target)
            done += target.stat().st_size
            progress(done / max(total, 1), "Copying")
    except OSError as e:
        raise CannotAdd("disk", f"{folder} can't be copied ({e.strerror or e}): look for room on the disk.") from e
