"""The plain listener: the authority's file, and a page that says how to make a phone trust it. Nothing else.

It speaks plain HTTP because a phone that does not trust the house yet can be told no other way. It sets no cookie,
runs no script, takes nothing in, and knows nothing of patterns and makings.
"""

from __future__ import annotations

import base64
import hashlib
import html
from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIEnvironment

    from hookside.web.address import Address

FILE = "/hookside.crt"
PAGE = "/trust"

STYLE = """
:root{color-scheme:light dark;--paper:#f4eddf;--ink:#2b1f16;--hand:#1f3a68;--seam:#8a765d;--on:#fbf7ee}
@media(prefers-color-scheme:dark){:root{--paper:#1c1611;--ink:#f1e7d3;--hand:#b3c8f0;--seam:#9c886c;--on:#1c1611}}
body{margin:0;background:var(--paper);color:var(--ink);font:1.125rem/1.5 system-ui,sans-serif}
main{max-width:38rem;margin:0 auto;padding:1.5rem 1.25rem 4rem}
h1{font-size:1.75rem;line-height:1.2;margin:0 0 1rem}
h2{font-size:1.3rem;margin:2.25rem 0 .5rem;padding-top:1.25rem;border-top:1px solid var(--seam)}
ol,ul{padding-inline-start:1.5rem}li{margin:.6rem 0}
a{color:var(--hand)}
.get{display:block;background:var(--hand);color:var(--on);font-weight:700;font-size:1.375rem;text-align:center;
padding:1.1rem 1rem;text-decoration:none;border-radius:2px}
.print{font-family:ui-monospace,monospace;font-size:1.05rem;line-height:1.7;overflow-wrap:anywhere}
"""

IPHONE = [
    "Open this page in <b>Safari</b> and touch <b>Get the house's file</b> above. Answer <b>Allow</b>.",
    "Open <b>Settings</b>. Near the top it says <b>Profile Downloaded</b>: touch it, then <b>Install</b>, and enter "
    "your passcode. (On some versions it lies under <b>General, VPN &amp; Device Management</b>.)",
    "Still in Settings: <b>General, About, Certificate Trust Settings</b>, at the very bottom. Switch on "
    "<b>Hookside household</b>. Without this last step the phone goes on to warn you.",
]
ANDROID = [
    "Touch <b>Get the house's file</b> above; the phone saves it. (Android asks for a screen lock, if you have none.)",
    "Open <b>Settings, Security, Encryption &amp; credentials, Install a certificate, CA certificate</b>. Makers name "
    "these differently: searching the settings for <b>certificate</b> finds it.",
    "The phone warns that your network may be watched. It says so for every authority; this one can only vouch for "
    "Hookside in your house (see below). Touch <b>Install anyway</b> and pick <b>hookside.crt</b> among the downloads.",
    "Then use <b>Chrome</b> for Hookside. Other browsers and apps may not look at what you have added.",
]
LAPTOP = [
    "<b>Mac</b>: open the file; it goes into Keychain Access. Open it there and set <b>Trust</b> to <b>Always "
    "Trust</b>.",
    "<b>Windows</b>: open the file, then <b>Install Certificate, Current User, Place all certificates in the following "
    "store, Trusted Root Certification Authorities</b>.",
    "<b>Firefox</b> on any system keeps its own list: <b>Settings, Privacy &amp; Security, View Certificates, "
    "Authorities, Import</b>.",
]


def steps(title: str, texts: list[str], kind: str = "ol") -> str:
    """A heading and what to do: one after another (ol), or one of them (ul)."""
    return f"<h2>{title}</h2><{kind}>{''.join(f'<li>{text}</li>' for text in texts)}</{kind}>"


def page(house: Address, fingerprint: str) -> str:
    """The page, whole. `house`: where pairing goes on afterwards."""
    pairs = fingerprint.split(":")
    rows = "<br>".join(" ".join(pairs[i : i + 8]) for i in range(0, len(pairs), 8))
    goes_on = html.escape(f"{house.url}/pair")
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1"><title>Trust this house: Hookside</title>'
        f"<style>{STYLE}</style></head><body><main><h1>Let this device trust your house</h1>"
        "<p>Hookside on your laptop proves with a key of its own that it is yours. A phone or tablet has to be told so "
        "once; then the microphone works, the screen stays awake, and nobody in between can read along.</p>"
        f'<p><a class="get" href="{FILE}">Get the house\'s file</a></p>'
        + steps("iPhone and iPad", IPHONE)
        + steps("Android", ANDROID)
        + steps("Another laptop", LAPTOP, "ul")
        + "<h2>Is it really yours?</h2><p>Before you switch it on, the device can show you the file's details. Its "
        "SHA-256 fingerprint must be the one that the laptop's shelf shows under <b>Use a phone or tablet</b>:</p>"
        f'<p class="print">{rows}</p><p>If they differ, do not install it: somebody else answered in place of your '
        "laptop.</p>"
        "<p>The file vouches for addresses inside houses and for one name, "
        f"<b>{html.escape(house.names[-1])}</b>, and for nothing on the internet. When you no longer use Hookside, "
        "remove it where you switched it on.</p>"
        f'<h2>Then</h2><p>Go back to the laptop and pair the device: <a href="{goes_on}">{goes_on}</a></p>'
        "</main></body></html>"
    )


class Trust:
    """The whole application of the plain listener."""

    def __init__(self, plain: Address, house: Address, file: bytes, fingerprint: str) -> None:
        self.plain = plain
        hashed = base64.b64encode(hashlib.sha256(STYLE.encode()).digest()).decode()
        policy = f"default-src 'none'; style-src 'sha256-{hashed}'; base-uri 'none'; frame-ancestors 'none'"
        self.headers = [
            ("Content-Security-Policy", policy), ("X-Content-Type-Options", "nosniff"),
            ("Referrer-Policy", "no-referrer"), ("X-Frame-Options", "DENY"), ("Cache-Control", "no-store"),
        ]  # fmt: skip
        text = page(house, fingerprint).encode()
        self.files = {
            PAGE: ("text/html; charset=utf-8", text, []),
            FILE: (
                "application/x-x509-ca-cert", file, [("Content-Disposition", 'attachment; filename="hookside.crt"')],
            ),
        }  # fmt: skip

    def __call__(self, environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
        environ["hookside.caller"].arrived()
        status, kind, body, more = self.answer(environ)
        start_response(status, [("Content-Type", kind), ("Content-Length", str(len(body))), *more, *self.headers])
        return [] if environ["REQUEST_METHOD"] == "HEAD" else [body]

    def answer(self, environ: WSGIEnvironment) -> tuple[str, str, bytes, list[tuple[str, str]]]:
        words = "text/plain; charset=utf-8"
        if environ.get("HTTP_HOST", "").lower() not in self.plain.hosts:
            return "403 Forbidden", words, b"Hookside does not answer to this name.\n", []
        if environ["REQUEST_METHOD"] not in ("GET", "HEAD"):
            return "405 Method Not Allowed", words, b"There is nothing to send here.\n", [("Allow", "GET, HEAD")]
        if environ["PATH_INFO"] == "/":
            return "303 See Other", words, b"", [("Location", PAGE)]
        if environ["PATH_INFO"] not in self.files:
            return "404 Not Found", words, f"Here is only {PAGE}.\n".encode(), []
        kind, body, more = self.files[environ["PATH_INFO"]]
        return "200 OK", kind, body, more
