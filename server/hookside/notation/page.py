# ruff: noqa: RUF001  (look-alike letters are what this file is about)
"""First stage: the page as it was pasted, cleaned up, with a way back to every original character.

Nearly every change keeps its place (one character for one), so that the way back is the identity. Only where
characters vanish or grow (zero-width marks, ligatures) is a map kept.
"""

from __future__ import annotations

import html
import re
from bisect import bisect_right
from dataclasses import dataclass, field

_SPACES = "\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000\t"
_DASHES = "\u2010\u2011\u2012\u2013\u2014\u2015\u2212\u2043\ufe58\ufe63\u30fc\u2500\u2501"
_SINGLE = "\u2018\u2019\u201a\u201b\u2032\u00b4\u02bc`"
_DOUBLE = "\u201c\u201d\u201e\u201f\u2033\u00ab\u00bb\u300c\u300d\u300e\u300f"
_TIMES = "\u00d7\u2715\u2716\u2717\u2718\u2a2f\u2573\u274c\u2a09"
_STARS = "\u2217\u2731\u2732\u2736\u2605\u2606\u22c6\u204e\uff0a\u066d\u273b\u273d"
_BULLETS = "\u2022\u2023\u25aa\u25ab\u25cf\u25cb\u25e6\u2219\u00b7\u25b8\u25ba\u25b6\u27a2\u2713\u2714\u2751"
_VANISH = (
    "\u200b\u200c\u200d\u2060\ufeff\u00ad\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\ufe0e\ufe0f"
)
# Letters of other alphabets that look Latin: from Cyrillic and Greek (Unicode confusables list, from memory).
_ALIKE = {
    "а": "a",
    "с": "c",
    "е": "e",
    "і": "i",
    "ј": "j",
    "о": "o",
    "р": "p",
    "ѕ": "s",
    "х": "x",
    "у": "y",
    "һ": "h",
    "ԁ": "d",
    "ո": "n",
    "т": "t",
    "к": "k",
    "м": "m",
    "н": "h",
    "в": "b",
    "А": "A",
    "В": "B",
    "С": "C",
    "Е": "E",
    "Н": "H",
    "І": "I",
    "Ј": "J",
    "К": "K",
    "М": "M",
    "О": "O",
    "Р": "P",
    "Ѕ": "S",
    "Т": "T",
    "Х": "X",
    "У": "Y",
    "ο": "o",
    "α": "a",
    "ε": "e",
    "ι": "i",
    "κ": "k",
    "ν": "v",
    "ρ": "p",
    "τ": "t",
    "υ": "u",
    "χ": "x",
    "ϲ": "c",
    "Α": "A",
    "Β": "B",
    "Ε": "E",
    "Ζ": "Z",
    "Η": "H",
    "Ι": "I",
    "Κ": "K",
    "Μ": "M",
    "Ν": "N",
    "Ο": "O",
    "Ρ": "P",
    "Τ": "T",
    "Υ": "Y",
    "Χ": "X",
}


def _one_for_one() -> dict[int, str]:
    table: dict[int, str] = {}
    for chars, to in (
        (_SPACES, " "),
        (_DASHES, "-"),
        (_SINGLE, "'"),
        (_DOUBLE, '"'),
        (_TIMES, "x"),
        (_STARS, "*"),
        (_BULLETS, " "),
        ("\u2028\u2029\u0085\x0b\x0c", "\n"),
        ("\u2026", "."),
        ("\u3002\uff61", "."),
        ("\u3001", ","),
        ("\u3010\u3014", "["),
        ("\u3011\u3015", "]"),
        ("\u2192\u21d2\u27a1", "="),
        ("\u2044\u2215", "/"),
        ("\u00a6\u2502\u2503", "|"),
    ):
        for char in chars:
            table[ord(char)] = to
    for code in range(0xFF01, 0xFF5F):  # full-width forms of ASCII
        table[code] = chr(code - 0xFEE0)
    for char, to in _ALIKE.items():
        table[ord(char)] = to
    for code in list(range(32)) + [127]:  # noqa: RUF005
        if chr(code) not in "\n\r" and code not in table:
            table[code] = " "
    return table


_TABLE = _one_for_one()
_GROWS = {
    "\ufb00": "ff",
    "\ufb01": "fi",
    "\ufb02": "fl",
    "\ufb03": "ffi",
    "\ufb04": "ffl",
    "\ufb05": "st",
    "\ufb06": "st",
}
_MOVES = re.compile("[" + re.escape(_VANISH + "".join(_GROWS)) + "]")

_BLOCK = {
    "br",
    "p",
    "div",
    "li",
    "tr",
    "ul",
    "ol",
    "table",
    "section",
    "article",
    "hr",
    "tbody",
    "thead",
    "blockquote",
    "pre",
    "dl",
    "dt",
    "dd",
    "header",
    "footer",
    "main",
    "figure",
    "html",
    "body",
    "head",
    "title",
}
_TAG = re.compile(
    r"<(/?)([a-zA-Z][a-zA-Z0-9]{0,15})(?:\s[^<>\n]{0,2000})?/?>|<!--[^>]{0,5000}-->|<![a-zA-Z][^<>]{0,200}>"
)
_HIDDEN = re.compile(r"<(script|style)\b[^<>]{0,500}>[^<]{0,200000}</\1>", re.I)
_ENTITY = re.compile(r"&(?:#\d{1,6}|#x[0-9a-fA-F]{1,6}|[a-zA-Z]{2,10});")
_BOLD = re.compile(r"(\*\*|__)(?=[^\s*_])([^*\n]{1,200}?)(?<=[^\s*_])\1(?!\*)")
_UNDERSCORE = re.compile(r"(?<![A-Za-z0-9_])_(?=[^\s_])([^_\n]{1,200}?)(?<=[^\s_])_(?![A-Za-z0-9_])")
_ONE = re.compile(r"(?<![A-Za-z])[lI](?=\d)|(?<=\d)[lI](?![A-Za-z])")
_NAUGHT = re.compile(r"(?<=\d)[oO](?![A-Za-z])")
_LABEL_ONE = re.compile(r"(?i)\b((?:rnd|round|row|rd|r)\.?\s{0,3})[lI](?=\s*[:.)\-])")
_CELLS = re.compile(
    r"^[ ]{0,40}(?:\|[ ]{0,40})?((?:(?:rnd|round|row|rd|r)s?\.?[ ]*)?\d{1,4}(?:[ ]*(?:-|to)[ ]*\d{1,4})?)[ .:]*\|([^|\n]*)\|[ ]*[(\[]?(\d{1,4})[)\]]?"  # noqa: E501
    r"(?:[ ]*(?:sts?|stitches|sc|dc))?[ ]*(?:\||$)[^\n]*$",
    re.I | re.M,
)
_CELLS2 = re.compile(
    r"^[ ]{0,40}(?:\|[ ]{0,40})?((?:(?:rnd|round|row|rd|r)s?\.?[ ]*)?\d{1,4}(?:[ ]*(?:-|to)[ ]*\d{1,4})?)[ .:]*\|([^|\n]*)\|?[ ]*$",  # noqa: E501
    re.I | re.M,
)
_RULE = re.compile(r"^[ |:\-+=_]*$", re.M)


@dataclass(slots=True)
class Page:
    """The cleaned text; `back(i)` is the offset in the original of cleaned character i."""

    original: str
    text: str
    offsets: list[int] | None = None
    breaks: list[int] = field(default_factory=list)  # original offsets at which lines start
    html: bool = False

    def back(self, at: int) -> int:
        """Cleaned offset -> original offset."""
        if self.offsets is None:
            return min(at, len(self.original))
        return self.offsets[at] if at < len(self.offsets) else len(self.original)

    def span(self, start: int, end: int) -> tuple[int, int]:
        """A cleaned span -> the original span."""
        if end <= start:
            at = self.back(start)
            return at, at
        return self.back(start), self.back(end - 1) + 1

    def line(self, at: int) -> int:
        """Line, counted from 1, of a cleaned offset."""
        return bisect_right(self.breaks, self.back(at))

    def column(self, at: int) -> int:
        """Column, counted from 1, of a cleaned offset."""
        origin = self.back(at)
        return origin - self.breaks[bisect_right(self.breaks, origin) - 1] + 1

    def quote(self, start: int, end: int) -> str:
        """The designer's own characters for a cleaned span, white space tidied, markup left out."""
        if not self.html and self.offsets is None:  # noqa: SIM108
            raw = self.original[start:end]
        else:
            raw = self.text[start:end]
        return " ".join(raw.replace("**", "").replace("\u00a0", " ").replace("|", " ").split())


def _blank(text: str) -> str:
    return "".join("\n" if c == "\n" else " " for c in text)


def _tag(match: re.Match[str]) -> str:
    name = (match[2] or "").lower()
    width = len(match[0])
    rest = _blank(match[0])[1:]
    if re.fullmatch(r"h[1-6]", name):
        return "\n#" + _blank(match[0])[2:] if not match[1] else "\n" + rest
    if name in ("td", "th"):
        return "|" + rest if not match[1] else " " * width
    if name in _BLOCK:
        return "\n" + rest
    return _blank(match[0])


def _entity(match: re.Match[str]) -> str:
    char = html.unescape(match[0])
    if len(char) != 1:
        return match[0]
    return char.translate(_TABLE)[:1] + " " * (len(match[0]) - 1)


def _tidy_entities(text: str) -> str:
    """An entity inside a word must not split it; only spaces and signs are turned, letters are rare."""
    return _ENTITY.sub(_entity, text)


def _unbold(match: re.Match[str]) -> str:
    if match[2].lstrip()[:1].isalnum() or match[2].lstrip()[:1] in "([#":
        return "  " + match[2] + "  "
    return match[0]


def _row(match: re.Match[str]) -> str:
    line = match[0]
    first = match.end(1) - match.start()
    bar = line.index("|", first)
    second = line.index("|", bar + 1)
    chars = list(line)
    for at, char in enumerate(chars):
        if char == "|":
            chars[at] = " "
    chars[bar] = ":"
    body = line[bar + 1 : second].strip()
    if body:
        chars[second] = "="
        for at in range(match.end(3) - match.start(), len(chars)):
            chars[at] = " "
        number = match.start(3) - match.start()
        for at in range(second + 1, number):
            chars[at] = " "
    return "".join(chars)


def _row2(match: re.Match[str]) -> str:
    line = match[0]
    bar = line.index("|", match.end(1) - match.start())
    return line[:bar].replace("|", " ") + ":" + line[bar + 1 :].replace("|", " ")


def clean(original: str) -> Page:
    """Any text -> a page whose characters are plain ASCII where patterns need them to be."""
    breaks = [0]
    for match in re.finditer(r"\r\n|\n|\r", original):
        breaks.append(match.end())
    text = original
    if "\r" in text:
        text = text.replace("\r\n", " \n").replace("\r", "\n")
    if "\t" in text:  # cells of a pasted table: number, words, count
        text = re.sub(r"^(\s*\d{1,3})\t", r"\1:", text, flags=re.M)
        text = re.sub(r"\t(?=[(\[]?\d{1,4}[)\]]?[ ]*$)", "=", text, flags=re.M)
    text = text.translate(_TABLE)
    is_html = False
    if "<" in text:
        tagged = _HIDDEN.sub(lambda m: _blank(m[0]), text)
        tagged = _TAG.sub(_tag, tagged)
        is_html = tagged != text
        text = tagged
    if "&" in text:
        text = _tidy_entities(text)
    offsets: list[int] | None = None
    if _MOVES.search(text):
        chars: list[str] = []
        offsets = []
        for at, char in enumerate(text):
            if char in _VANISH:
                continue
            for out in _GROWS.get(char, char):
                chars.append(out)
                offsets.append(at)
        text = "".join(chars)
    if "\\*" in text:
        text = text.replace("\\*", " *")
    if "**" in text or "__" in text:
        text = _BOLD.sub(_unbold, text)
    if "_" in text:
        text = _UNDERSCORE.sub(r" \1 ", text)
    if "|" in text:
        text = _RULE.sub(lambda m: " " * len(m[0]) if "|" in m[0] else m[0], text)
        text = _CELLS.sub(_row, text)
        text = _CELLS2.sub(_row2, text)
    text = _ONE.sub("1", text)
    text = _NAUGHT.sub("0", text)
    text = _LABEL_ONE.sub(lambda m: m[1] + "1", text)
    return Page(original, text, offsets, breaks, is_html)
