"""How the lines lie on the page."""

from __future__ import annotations

import re
import textwrap

from dialects.dialect import Dialect

LAYOUTS = {
    "lines": 8, "blank lines": 1, "- ": 0.7, "\u2022 ": 0.5, "* ": 0.4, "paragraph .": 0.6, "paragraph ;": 0.5,
    "paragraph /": 0.3,
    "wrap 40": 0.8, "wrap 40 hanging": 0.6, "wrap 60": 0.5, "wrap 30 hanging": 0.4, "indented": 0.5, "> ": 0.4,
    "[ ] ": 0.3,
    "no blanks": 0.5, "blank lines doubled": 0.3, "two a line": 0.4, "\u25cb ": 0.2, "wrap 50 hyphen": 0.3,
    "tabs": 0.3,
    "quoted": 0.2, "trailing blanks": 0.3, "\u2026 ": 0.1, "paragraph ,": 0.0, "markdown breaks": 0.3, "html": 0.3,
}  # fmt: skip
CASES = {"as it is": 8, "lower": 1.5, "upper": 1, "capital first": 1.5}
SLIPS = {"": 6, "stich for stitch": 0.4, "arround": 0.4, "ech": 0.4, "nxt": 0.4, "incr": 0.2, "repaet": 0.3,
    "magik": 0.3,
         "no apostrophes": 0.3, "double blanks": 0.4, "blank before comma": 0.4, "no blank after comma": 0.4,
         "i0": 0.0,
         "rounf": 0.2, "\u00d7 for x": 0.4, "curly quotes": 0.4, "en dashes": 0.4, "nbsp": 0.3,
         "teh": 0.2}  # fmt: skip


def cased(d: Dialect, text: str) -> str:
    case = d.pick("hand.case", CASES)
    if case == "lower":
        return text.lower()
    if case == "upper":
        return text.upper()
    return text


def slipped(d: Dialect, text: str) -> str:
    """Slips of a tongue or a keyboard, the same all through a text. Rule: a slip in a number is none of these."""
    slip = d.pick("hand.slip", SLIPS)
    swap = {"stich for stitch": ("stitch", "stich"), "arround": ("around", "arround"), "ech": (" each ", " ech "),
            "nxt": (" next ", " nxt "), "repaet": ("repeat", "repaet"), "magik": ("magic", "magik"),
            "no apostrophes": ("'", ""), "double blanks": (" ", "  "), "blank before comma": (",", " ,"),
            "no blank after comma": (", ", ","), "rounf": ("round ", "rounf "), "curly quotes": ("'", "\u2019"),
            "en dashes": (" - ", " \u2013 "), "teh": (" the ", " teh ")}  # fmt: skip
    if slip in swap:
        old, new = swap[slip]
        if slip == "no blank after comma":
            return re.sub(r"(?<!\d), |, (?!\d)", ",", text)
        return text.replace(old, new)
    if slip == "\u00d7 for x":
        return re.sub(r"(?<=[\s)\]}*])[xX](?= ?\d)|(?<=\d)x(?= ?\()", "\u00d7", text)
    return re.sub(r"(?<=\w) (?=\d)", "\u00a0", text) if slip == "nbsp" else text


def _wrapped(text: str, width: int, hanging: str = "") -> list[str]:
    return textwrap.wrap(text, width, subsequent_indent=hanging, break_on_hyphens=False, break_long_words=False) or [""]


def laid(d: Dialect, pieces: list[tuple[list[str], list[tuple[str, str]]]], top: list[str]) -> str:
    """`pieces`: headings and (role, text) of what follows. Rule: one paragraph only where each course has a label
    with a sign and no line break within (the printer looks)."""
    how = d.chosen["hand.layout"]
    out: list[str] = [*top]
    for heads, lines in pieces:
        if out and how != "no blanks":
            out.append("")
        if how.startswith("paragraph"):
            sign = how[-1]
            joint = {".": ". ", ";": "; ", "/": " / "}[sign]
            words = [t.rstrip(" .") if sign != "/" else t for _, t in lines]
            out += [*heads, joint.join(words) + "."]
            continue
        out += heads
        row: list[str] = []
        for role, text in lines:
            if how.startswith("wrap"):
                width = int(how.split()[1])
                hanging = "      " if "hanging" in how else ""
                new = [w for t in text.split("\n") for w in _wrapped(t, width, hanging)]
                if "hyphen" in how and len(new) > 1:
                    new = _hyphenated(text, width)
                row += new
            elif how in ("- ", "\u2022 ", "* ", "> ", "[ ] ", "\u25cb ", "\u2026 ") and role == "course":
                row.append(how + text)
            elif how == "indented":
                row.append("    " + text.replace("\n", "\n    "))
            elif how == "two a line" and role == "course" and row and row[-1].startswith("\x00") and "\n" not in text:
                row[-1] = row[-1][1:] + "   " + text
            elif how == "two a line" and role == "course" and "\n" not in text:
                row.append("\x00" + text)
            elif how == "quoted":
                row.append("> " + text.replace("\n", "\n> "))
            elif how == "trailing blanks":
                row.append(text + "   ")
            elif how == "markdown breaks":
                row.append(text + "\\")
            elif how == "html":
                row.append(f"<p>{text}</p>".replace("\n", "<br>"))
            elif how == "tabs":
                row.append("\t" + text)
            else:
                row.append(text)
            if how.startswith("blank lines"):
                row += [""] * (2 if "doubled" in how else 1)
        out += [r.removeprefix("\x00") for r in row]
    return "\n".join(out) + "\n"


def _hyphenated(text: str, width: int) -> list[str]:
    """Long words cut at the margin with a hyphen, as a narrow column has them."""
    out, line = [], ""
    for word in text.replace("\n", " ").split(" "):
        if len(line) + len(word) + 1 <= width:
            line = f"{line} {word}".strip()
            continue
        room = width - len(line) - 2
        if word.isalpha() and len(word) > 6 and 3 <= room <= len(word) - 3:
            out.append(f"{line} {word[:room]}-")
            line = word[room:]
        else:
            out.append(line)
            line = word
    return [*out, line]
