"""The built page as files."""

from __future__ import annotations

import gzip
from collections.abc import Callable
from pathlib import Path

import pytest
from callers import called
from flask import Flask
from flask.testing import FlaskClient

from hookside.web.address import Address
from hookside.web.app import said
from hookside.web.devices import Device
from hookside.web.page import page, pairing_files
from hookside.web.said import Said

SCRIPT = b"export const buoy = 1;\n" * 100


@pytest.fixture
def static(tmp_path: Path) -> Path:
    folder = tmp_path / "static"
    (folder / "assets").mkdir(parents=True)
    (folder / "index.html").write_bytes(b"<!doctype html><title>Hookside</title>")
    (folder / "assets" / "index-AbC123.js").write_bytes(SCRIPT)
    (folder / "assets" / "index-AbC123.js.gz").write_bytes(gzip.compress(SCRIPT))
    (folder / "assets" / "type-AbC123.woff2").write_bytes(b"wOF2")
    (folder / ".stamp").write_text("key", encoding="utf-8")
    (tmp_path / "secret.txt").write_text("not for the page", encoding="utf-8")
    return folder


def client(static: Path | None, opened: Callable[[], None] = lambda: None) -> FlaskClient:
    app = Flask("page", static_folder=None)
    app.register_error_handler(Said, said)
    app.register_blueprint(page(static, Address(4717), opened))
    made = app.test_client()
    made.environ_base["hookside.caller"] = called()
    return made


def get(static: Path | None, path: str, **headers: str):  # type: ignore[no-untyped-def]
    named = {k.replace("_", "-"): v for k, v in headers.items()}
    return client(static).get(path, headers={"Host": "127.0.0.1:4717", **named})


@pytest.mark.parametrize("path", ["/", "/bench", "/read/new", "/index.html"])
def test_page_paths_are_the_page(static: Path, path: str) -> None:
    answer = get(static, path)
    assert answer.status_code == 200
    assert answer.mimetype == "text/html"
    assert b"<title>Hookside" in answer.data
    assert answer.headers["Cache-Control"] == "no-cache"


def test_who_opens_the_page_is_told_of_and_no_file_of_it_is(static: Path) -> None:
    told: list[str] = []
    for path in ("/assets/index-AbC123.js", "/assets/gone.js", "/read/new", "/"):
        client(static, lambda path=path: told.append(path)).get(path, headers={"Host": "127.0.0.1:4717"})
    assert told == ["/read/new", "/"]


def test_hashed_names_are_kept_for_ever(static: Path) -> None:
    answer = get(static, "/assets/index-AbC123.js")
    assert answer.mimetype == "text/javascript"
    assert "immutable" in answer.headers["Cache-Control"]
    assert answer.data == SCRIPT
    assert get(static, "/assets/type-AbC123.woff2").mimetype == "font/woff2"


def test_gzip_as_built(static: Path) -> None:
    answer = get(static, "/assets/index-AbC123.js", Accept_Encoding="gzip, br")
    assert answer.headers["Content-Encoding"] == "gzip"
    assert answer.headers["Vary"] == "Accept-Encoding"
    assert gzip.decompress(answer.data) == SCRIPT
    refused = get(static, "/assets/index-AbC123.js", Accept_Encoding="gzip;q=0")
    assert "Content-Encoding" not in refused.headers
    assert refused.data == SCRIPT


def test_what_is_there_already_is_not_sent_again(static: Path) -> None:
    tag = get(static, "/").headers["ETag"]
    again = get(static, "/", If_None_Match=tag)
    assert again.status_code == 304
    assert again.data == b""


@pytest.mark.parametrize(
    "path",
    [
        "/../secret.txt", "/%2e%2e/secret.txt", "/assets/../../secret.txt", "/..%2fsecret.txt", "/.stamp",
        "/assets/missing-AbC123.js", "/missing.js", "/assets/", "//secret.txt", "/assets/..%5c..%5csecret.txt",
        "/%00.txt",
    ],
)  # fmt: skip
def test_nothing_else_is_given_out(static: Path, path: str) -> None:
    answer = get(static, path)
    assert answer.status_code in (308, 404), answer.data
    assert b"not for the page" not in answer.data
    assert answer.data != b"key"


@pytest.mark.parametrize("built", [True, False])
def test_a_page_that_is_not_built_says_so(tmp_path: Path, built: bool) -> None:
    answer = get(tmp_path if built else None, "/")
    assert answer.status_code == 503
    assert "start.py" in answer.text


def test_one_name_only(static: Path) -> None:
    # Another name would be another origin, with an outbox of its own.
    answer = get(static, "/", Host="localhost:4717")
    assert (answer.status_code, answer.headers["Location"]) == (307, "http://127.0.0.1:4717/")


def test_an_unpaired_device_gets_what_the_pairing_page_is_made_of(static: Path) -> None:
    assert pairing_files(static) == set()
    html = '<link href="./hook.svg"><script type="module" src="./assets/pair-1.js"></script><a href="../secret.txt">'
    (static / "pair.html").write_text(html, encoding="utf-8")
    (static / "hook.svg").write_text("<svg/>", encoding="utf-8")
    (static / "assets" / "pair-1.js").write_text('import{a}from"./shared-1.js";import"./absent-1.js"', encoding="utf-8")
    (static / "assets" / "shared-1.js").write_text("export const a = 1", encoding="utf-8")
    (static / "assets" / "pair-1.css").write_text("", encoding="utf-8")
    (static / "icons" / "deep").mkdir(parents=True)
    for name in ("icons/icon-192.png", "icons/notes.txt", "icons/deep/other.png"):
        (static / name).write_bytes(b"demo")
    assert pairing_files(static) == {"hook.svg", "icons/icon-192.png", "assets/pair-1.js", "assets/shared-1.js"}
    assert pairing_files(None) == set()
    stranger = client(static)
    stranger.environ_base |= {"hookside.caller": called("house"), "hookside.device": None}
    assert b"pair-1.js" in stranger.get("/pair").data


def test_who_is_in_has_nothing_to_pair(static: Path) -> None:
    assert get(static, "/pair").location == "/"
    tablet = client(static)
    device = Device("id", "tablet", "", "", "", "2026-11-25", "2026-11-25")
    tablet.environ_base |= {"hookside.caller": called("house"), "hookside.device": device}
    assert tablet.get("/pair").location == "/"
