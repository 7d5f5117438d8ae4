"""A web page as text: its lines, headings, lists and tables, without what stands around the article."""

from __future__ import annotations

import re
from html.parser import HTMLParser

_LINE = frozenset(
    {
        "p", "div", "br", "li", "tr", "ul", "ol", "table", "section", "article", "header", "footer", "main", "hr",
        "blockquote", "pre", "dl", "dt", "dd", "figure", "figcaption", "h1", "h2", "h3", "h4", "h5", "h6", "title",
    }
)  # fmt: skip
_UNSEEN = frozenset(
    {"script", "style", "noscript", "template", "svg", "head", "nav", "aside", "form", "button", "select"}
)
_STRUCK = frozenset({"del", "s", "strike"})
_HIDES = re.compile(r"(?:display\s*:\s*none|visibility\s*:\s*hidden)", re.I)
_BARE = frozenset({"br", "hr", "img", "input", "meta", "link", "wbr", "source", "col", "area", "base", "embed"})
_HEADS = frozenset({"h1", "h2", "h3", "h4", "h5", "h6"})


class _Page(HTMLParser):
    """Collects the lines. Tags that are never closed end with what they stand in."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.parts: list[str] = []
        self.title = ""
        self.open: list[str] = []
        self.numbers: list[int | None] = []
        self.kept = False
        self.hidden = 0  # how many elements stood open with the outermost hidden one, 0 outside of such
        self.hid = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in _BARE:
            self.open.append(tag)
            if not self.hidden and any(n == "hidden" or (n == "style" and _HIDES.search(v or "")) for n, v in attrs):
                self.hidden = len(self.open)
        if self._unseen():
            return
        if tag in ("ol", "ul"):
            self.numbers.append(0 if tag == "ol" else None)
        if tag in _LINE:
            self.parts.append("\n")
        if tag in _HEADS:
            self.parts.append("# ")
        if tag == "li" and self.numbers and self.numbers[-1] is not None:
            self.numbers[-1] += 1
            self.parts.append(f"{self.numbers[-1]}. ")
        elif tag == "li":
            self.parts.append("- ")
        if tag in ("td", "th"):
            self.parts.append("| ")
        self.kept = self.kept or tag == "pre"

    def handle_endtag(self, tag: str) -> None:
        if tag not in self.open:
            return
        while self.open:
            last = self.open.pop()
            if last in ("ol", "ul") and self.numbers:
                self.numbers.pop()
            if last == tag:
                break
        if len(self.open) < self.hidden:
            self.hidden = 0
        if tag in _LINE and not self._unseen():
            self.parts.append("\n")
        self.kept = "pre" in self.open

    def handle_data(self, data: str) -> None:
        if "title" in self.open and not self.title:
            self.title = " ".join(data.split())
        elif self.hidden:
            self.hid = self.hid or bool(data.strip())
        elif not self._unseen():
            if data.strip() and not _STRUCK.isdisjoint(self.open):
                words = data.strip()
                data = data.replace(words, f"~~{words}~~")  # as in Markdown: the reader says that it is struck out
            self.parts.append(data if self.kept else " ".join(f"\x00{data}\x00".split()).replace("\x00", " "))

    def _unseen(self) -> bool:
        return self.hidden > 0 or any(tag in _UNSEEN for tag in self.open)


def text_of(source: str) -> tuple[str, list[str]]:
    """The text of a page, and sentences about it.

    Headings begin with "# ", cells with "| ". The title stands first where no heading does.
    """
    page = _Page()
    page.feed(source)
    page.close()
    lines = [" ".join(line.split()) for line in "".join(page.parts).split("\n")]
    out: list[str] = []
    for line in lines:
        if line or (out and out[-1]):
            out.append(line)
    text = "\n".join(out).strip("\n") + "\n"
    said = ["This page hides some of its words from its readers; those are left out."] if page.hid else []
    return f"{page.title}\n\n{text}" if page.title and not text.startswith("# ") else text, said
