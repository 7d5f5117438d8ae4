"""Draws the icons of the installed page from `public/hook.svg`, which is the only drawing there is.

    python frontend/draw_icons.py        with Playwright and HOOKSIDE_CHROMIUM

Their sizes are those that systems ask for: 192 and 512 pixels in the manifest, 180 for a phone that reads
`apple-touch-icon`. A "maskable" icon is cut to the system's own shape: its drawing stays within the middle four
fifths (W3C Web Application Manifest, "Icon masks"), its ground fills the square.
"""

from __future__ import annotations

import os
import re
from pathlib import Path

from playwright.sync_api import sync_playwright

PUBLIC = Path(__file__).resolve().parent / "public"
SIZES = {
    "icon-192.png": (192, False),
    "icon-512.png": (512, False),
    "mask-512.png": (512, True),
    "home-180.png": (180, True),
}


def drawn(svg: str, maskable: bool) -> str:
    """The drawing as the icon shows it: as it is, or smaller on a ground without corners."""
    if not maskable:
        return svg
    square = re.sub(r' rx="\d+"', "", svg)
    ground, strokes = re.fullmatch(r"(<svg[^>]*><rect[^>]*/>)(.*)</svg>\s*", square, re.S).groups()  # type: ignore[union-attr]
    return f'{ground}<g transform="translate(32 32) scale(.78) translate(-32 -32)">{strokes}</g></svg>'


def main() -> None:
    svg = (PUBLIC / "hook.svg").read_text(encoding="utf-8")
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=os.environ.get("HOOKSIDE_CHROMIUM"), args=["--no-sandbox"])
        for name, (size, maskable) in SIZES.items():
            page = browser.new_page(viewport={"width": size, "height": size})
            sized = drawn(svg, maskable).replace("<svg ", f'<svg width="{size}" height="{size}" ', 1)
            page.set_content(f'<body style="margin:0;background:transparent">{sized}')
            page.screenshot(path=str(PUBLIC / "icons" / name), omit_background=True)
            page.close()
        browser.close()


if __name__ == "__main__":
    main()
