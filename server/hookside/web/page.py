"""The built page as files: hashed names kept for ever, the rest asked for each time, gzip as built."""

from __future__ import annotations

import mimetypes
import posixpath
import re
from collections.abc import Callable
from pathlib import Path

from flask import Blueprint, Response, redirect, request
from werkzeug.http import generate_etag
from werkzeug.security import safe_join
from werkzeug.wrappers import Response as BaseResponse

from hookside.web.address import Address
from hookside.web.said import Said

TYPES = {".js": "text/javascript", ".woff2": "font/woff2", ".webmanifest": "application/manifest+json"}
PAIRING = "pair.html"
PICTURES = ("hook.svg", "icons/*.png")  # what a system draws for a home screen: it asks without the page's cookie
LONGEST = 200  # letters in the name of a file of ours; a system stumbles over some hundreds
REFERRING = {".html", ".js", ".css"}
# In HTML src="./assets/x.js", in a script import"./x.js", in a style url(./x.woff2).
ENDS = "js|css|woff2|svg|png|webmanifest"
REFERENCE = re.compile(rf"""(?:(?:src|href)=|from\s*|import\s*\(?\s*|url\()["'`]?([\w./-]+\.(?:{ENDS}))\b""")
NOT_BUILT = "The page has not been built yet: stop Hookside and start it with python3 server/start.py, which builds it."


def media_type(path: Path) -> str:
    """By our own table first: what a system says of .js cannot be relied on."""
    kind = TYPES.get(path.suffix) or mimetypes.guess_type(path.name)[0] or "application/octet-stream"
    return f"{kind}; charset=utf-8" if kind.startswith("text/") else kind


def pairing_files(static: Path | None) -> set[str]:
    """All files that an unpaired device may have: those of the pairing page, by what refers to what from its HTML on,
    and the pictures of the app."""
    found: set[str] = set()
    ahead = [PAIRING] if static is not None and (static / PAIRING).is_file() else []
    while ahead:
        name = ahead.pop()
        found.add(name)
        assert static is not None
        if Path(name).suffix not in REFERRING:
            continue
        text = (static / name).read_text(encoding="utf-8")
        for named in REFERENCE.findall(text):
            other = posixpath.normpath(posixpath.join(posixpath.dirname(name), named))
            if not other.startswith("..") and other not in found and (static / other).is_file():
                ahead.append(other)
    if static is not None:
        found |= {file.relative_to(static).as_posix() for name in PICTURES for file in static.glob(name)}
    return found - {PAIRING}


def page(static: Path | None, address: Address, opened: Callable[[], None]) -> Blueprint:
    """Routes for everything that is not JSON. `static` is the folder of the built page; `opened` is told when somebody
    opens it."""
    routes = Blueprint("page", __name__)

    def send(path: Path, forever: bool) -> Response:
        squeezed = path.with_name(path.name + ".gz")
        use_gzip = squeezed.is_file() and request.accept_encodings["gzip"] > 0
        body = (squeezed if use_gzip else path).read_bytes()
        response = Response(body, content_type=media_type(path))
        if use_gzip:
            response.headers["Content-Encoding"] = "gzip"
        if squeezed.is_file():
            response.headers["Vary"] = "Accept-Encoding"
        response.headers["Cache-Control"] = "public, max-age=31536000, immutable" if forever else "no-cache"
        response.set_etag(generate_etag(body))
        response.make_conditional(request)
        return response

    @routes.get("/", defaults={"path": ""})
    @routes.get("/<path:path>")
    def file(path: str) -> BaseResponse:
        here = request.environ["hookside.caller"].listener == "here"
        if here and request.host != f"{address.host}:{address.port}" and not path:
            # One name, one origin, one outbox (see Address.url).
            return redirect(f"{address.url}/", 307)
        if path == "pair" and (here or request.environ["hookside.device"] is not None):
            return redirect("/", 303)  # nothing to pair
        if static is None or not (static / "index.html").is_file():
            return Response(NOT_BUILT + "\n", 503, content_type="text/plain; charset=utf-8")
        name = safe_join(str(static), PAIRING if path == "pair" else path) if path else None
        found = Path(name) if name else None
        hidden = any(part.startswith(".") for part in path.split("/"))
        if found is not None and len(path) <= LONGEST and found.is_file() and not hidden:
            return send(found, forever=path.startswith("assets/"))
        if hidden or "." in path.rsplit("/", 1)[-1] or path.startswith("assets/"):
            raise Said(404, "no-file", f"There is nothing at /{path[:80]}.")
        opened()
        return send(static / "index.html", forever=False)

    return routes
