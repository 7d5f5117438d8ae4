"""How the lines lie on the page: bullets, tables, wraps, one paragraph, signs, and what a scan does to them."""

from __future__ import annotations

import re
import textwrap
from dataclasses import dataclass

from .dialect import Dialect


@dataclass
class Line:
    """`role` is "top", "heading", "course" or "said"; a course keeps its parts for a table."""

    role: str
    text: str
    label: str = ""
    body: str = ""
    count: str = ""


def _table(d: Dialect, lines: list[Line]) -> list[str]:
    head = d.pick("layout.table head", ["", "| Round | Work | Stitches |", "| Rnd | Instructions | Count |"])
    out: list[str] = []
    inside = headed = False
    for line, behind in zip(lines, [*lines[1:], Line("said", "")], strict=True):
        if line.role != "course":
            if inside:
                out.append("")
            inside = False
            out.append(line.text)
            if line.role == "heading":
                headed = False
                if behind.role != "heading":
                    out.append("")
            continue
        if not inside and head and not headed:
            headed = True
            out += [head, "|---|---|---|"]
        inside = True
        label = re.sub(r"[\s:.\-\u2013\u2014;>=\t]+$", "", line.label)
        label = label if label.count("(") == label.count(")") else label.rstrip(") ")
        out.append(f"| {label} | {line.body} | {line.count} |")
    return out


def _paragraphs(lines: list[Line]) -> list[str]:
    """Each piece one paragraph, its heading at its front; a sentence ends with a stop."""
    out: list[str] = []
    words: list[str] = []
    for line in lines:
        text = line.text.strip()
        if not text:
            continue
        if line.role in ("heading", "top"):
            if line.role == "heading" and words:
                out.append(" ".join(words))
                words = []
            if line.role == "top":
                out.append(text)
            else:
                words.append(text if text[-1] in ":.-" else text + ":")
            continue
        words.append(text if text[-1] in ".!)]:" else text + ".")
    return [*out, " ".join(words)]


def _wrapped(d: Dialect, text: str, width: int) -> list[str]:
    indent = "    " if d.has("layout.wrap indented", 0.5) else ""
    return textwrap.wrap(text, width, subsequent_indent=indent, break_long_words=False, break_on_hyphens=False) or [""]


def laid(d: Dialect, lines: list[Line]) -> str:
    """The text."""
    how = d.chosen["layout.how"]
    if how == "table":
        rows = _table(d, lines)
    elif how == "paragraph":
        rows = _paragraphs(lines)
    else:
        bullet = d.pick(
            "layout.bullet",
            {"": 8, "- ": 1, "\u2022 ": 0.8, "* ": 0.3, "> ": 0.2, "[ ] ": 0.3, "\u2610 ": 0.2, "+ ": 0.1},
        )
        if bullet == "* " and ("star" in d.chosen.get("repeat.road", "") or d.chosen.get("repeat.bracket") == "stars"):
            bullet = "- "
        apart = d.has("layout.blank lines between", 0.15)
        width = int(d.pick("layout.wrap", {"0": 8, "60": 0.8, "48": 0.6, "36": 0.5}))
        rows = []
        for line in lines:
            text = bullet + line.text if line.role == "course" else line.text
            parts = text.split("\n")
            rows += [r for p in parts for r in (_wrapped(d, p, width) if width and line.role == "course" else [p])]
            if apart and line.role == "course":
                rows.append("")
    return _signs(d, "\n".join(rows) + "\n")


def _signs(d: Dialect, text: str) -> str:
    if d.has("signs.times", 0.12):
        text = re.sub(r"(?<=[\s)\]}])[xX](?= ?\d)|(?<=\d)x(?= ?\()", "\u00d7", text)
    if d.has("signs.curly", 0.12):
        text = re.sub(r"(?<=\w)'(?=\w)", "\u2019", text)
    if d.has("signs.wide spaces", 0.05):
        text = re.sub(r"(?<=\w) (?=\d)", "\u00a0", text)
    if d.has("signs.dashes", 0.1):
        text = text.replace(" - ", " \u2013 ")
    if d.has("signs.line ends", 0.05):
        text = text.replace("\n", "\r\n")
    return text


def scanned(d: Dialect, text: str, salt: object) -> str:
    """A figure read as a letter now and then. Rule: only where a printed count is there to tell (the caller looks)."""
    if not d.has("signs.scan", 0.05):
        return text
    chance = d.chance(f"scan/{salt}")
    swap = {"1": "l", "0": "O"}
    return "".join(swap[c] if c in swap and chance.random() < 0.15 else c for c in text)
