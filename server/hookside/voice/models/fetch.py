"""vosk's own list of models, and a model from there: with progress, taken up where it broke off, its sum checked."""

from __future__ import annotations

import hashlib
import json
import ssl
import urllib.error
import urllib.request
from dataclasses import dataclass
from http.client import HTTPException
from pathlib import Path

from hookside.voice.models.shelf import NAME
from hookside.voice.models.trouble import FROM_DISK, CannotAdd
from hookside.voice.models.unpack import CHUNK, Progress

PLACE = "https://alphacephei.com/vosk/models/"  # where the library vosk itself looks (MODEL_PRE_URL)
LIST = "model-list.json"
LARGEST_LIST = 4 << 20  # bytes
LARGEST = 4 << 30  # bytes of a zip
PATIENCE = 30.0  # seconds without a byte
TRIES = 3  # times that a broken line is taken up again


@dataclass(frozen=True)
class Offered:
    """A small model of vosk's list. `size` is the zip's, in bytes; `language` as we say it: "en" for "en-us"."""

    language: str
    name: str
    size: int
    md5: str


def away(e: Exception) -> CannotAdd:
    why = getattr(e, "reason", None) or e
    if isinstance(why, ssl.SSLCertVerificationError):
        why = "this network shows a certificate that is not trusted here"
    return CannotAdd("no-network", f"vosk's list of models can't be reached ({why}). {FROM_DISK}")


def trusted() -> ssl.SSLContext:
    """The system's certificates, and those that came with the voice libraries, for systems that have none."""
    context = ssl.create_default_context()
    try:
        import certifi

        context.load_verify_locations(certifi.where())
    except (ImportError, OSError):
        pass
    return context


def opened(url: str, start: int = 0) -> tuple[urllib.request.OpenerDirector, urllib.request.Request]:
    request = urllib.request.Request(url, headers={"User-Agent": "hookside"})
    if start:
        request.add_header("Range", f"bytes={start}-")
    return urllib.request.build_opener(urllib.request.HTTPSHandler(context=trusted())), request


def offered(place: str) -> list[Offered]:
    """The small models of vosk's list, those no longer kept up left out. Raises CannotAdd."""
    try:
        opener, request = opened(place + LIST)
        with opener.open(request, timeout=PATIENCE) as answer:
            listed = json.loads(answer.read(LARGEST_LIST))
        return [
            Offered(str(m["lang"]).split("-")[0], str(m["name"]), int(m["size"]), str(m["md5"]).lower())
            for m in listed
            if m["type"] == "small" and m["obsolete"] == "false" and NAME.fullmatch(str(m["name"]))
        ]
    except (OSError, HTTPException) as e:
        raise away(e) from e
    except (ValueError, KeyError, TypeError) as e:
        raise CannotAdd("no-network", f"vosk's list of models could not be understood. {FROM_DISK}") from e


def choose(language: str, list: list[Offered]) -> Offered:
    """The small model of a language. Raises CannotAdd."""
    of = [m for m in list if m.language == language]
    if not of:
        names = ", ".join(sorted({m.language for m in list}))
        raise CannotAdd(
            "no-model", f"vosk's list has no small model for “{language[:20]}”; it has {names}. {FROM_DISK}"
        )
    # Of several the shortest name is the language at large: vosk-model-small-en-us-0.15 before one of a region.
    return min(of, key=lambda m: ("en-us" not in m.name, len(m.name), m.name))


def fetch(model: Offered, coming: Path, progress: Progress, place: str) -> Path:
    """The model's zip in the folder `coming`. Raises CannotAdd; what has come so far stays for the next time."""
    if model.size > LARGEST:
        raise CannotAdd("no-model", f"{model.name} is larger than Hookside fetches. {FROM_DISK}")
    coming.mkdir(parents=True, exist_ok=True)
    part = coming / f"{model.name}.part"
    for left in reversed(range(TRIES)):
        try:
            download(f"{place}{model.name}.zip", part, model.size, progress)
            break
        except (OSError, HTTPException) as e:
            if isinstance(e, urllib.error.HTTPError) and e.code == 416:  # more is there than the server has
                part.unlink(missing_ok=True)
            elif not left or isinstance(e, (urllib.error.HTTPError, PermissionError)) or getattr(e, "errno", 0) == 28:
                raise broke(model, part, e) from e
    else:
        raise broke(model, part, EOFError("it ends too soon"))
    if sum_of(part) != model.md5:
        part.unlink()
        raise CannotAdd(
            "damaged", f"{model.name} did not come whole: its sum is not the one of vosk's list. Try once more."
        )
    return part.replace(coming / f"{model.name}.zip")


def broke(model: Offered, part: Path, e: Exception) -> CannotAdd:
    why = getattr(e, "reason", None) or getattr(e, "strerror", None) or e
    kept = part.stat().st_size >> 20 if part.exists() else 0
    return CannotAdd(
        "no-network",
        f"{model.name} did not come ({why}); {kept} MB of {model.size >> 20} MB are kept, and the same once more goes "
        f"on from there. {FROM_DISK}",
    )


def download(url: str, part: Path, size: int, progress: Progress) -> None:
    """Get what is missing of a file. Raises OSError, HTTPException."""
    there = part.stat().st_size if part.exists() else 0
    if there == size:
        return
    if there > size:
        part.unlink()
        there = 0
    opener, request = opened(url, there)
    with opener.open(request, timeout=PATIENCE) as answer:
        resumed = there and answer.status == 206
        with part.open("ab" if resumed else "wb") as out:
            done = there if resumed else 0
            while piece := answer.read(min(CHUNK, size + 1 - done)):
                done += len(piece)
                if done > size:
                    break
                out.write(piece)
                progress(done / size, f"Fetching: {done >> 20} of {size >> 20} MB")
    if done < size:
        raise ConnectionError("the line broke off")


def sum_of(file: Path) -> str:
    """The MD5 of a file, as vosk's list has it: it tells damage, and the list comes over TLS."""
    total = hashlib.md5(usedforsecurity=False)
    with file.open("rb") as source:
        while piece := source.read(CHUNK):
            total.update(piece)
    return total.hexdigest()
