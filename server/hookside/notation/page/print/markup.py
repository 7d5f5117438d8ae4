"""A page that was pasted with its markup: tags and entities as the breaks, bars, numbers and signs that they print."""

from __future__ import annotations

import html
import re

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.print.signs import TABLE

_BLOCK = frozenset(
    [
        "br", "p", "div", "li", "tr", "ul", "ol", "table", "section", "article", "hr", "tbody", "thead",
        "blockquote", "pre", "dl", "dt", "dd", "header", "footer", "main", "figure", "html", "body", "head",
        "title",
    ]
)
_TAG = re.compile(
    r"<(/?)([a-zA-Z][a-zA-Z0-9]{0,15})(?:\s[^<>\n]{0,2000})?/?>|<!--[^<>]{0,5000}-->|<!--[^>]{0,200}-->|<![a-zA-Z][^<>]{0,200}>"
)
_HIDDEN = re.compile(r"<(script|style)\b[^<>]{0,500}>[^<]{0,200000}</\1>", re.I)
_ENTITY = re.compile(r"&(?:#\d{1,6}|#x[0-9a-fA-F]{1,6}|[a-zA-Z]{2,10});")
_LIST = re.compile(r"<(?P<end>/?)(?P<tag>[oO][lL]|[uU][lL]|[lL][iI])(?P<more>\s[^<>\n]{0,200})?>")
_OWN_LABEL = re.compile(rf"\s*(?:<[^<>\n]{{1,40}}>\s*)?(?:{COURSE}\.?\s*)?\d{{1,3}}\s*[-.:)]", re.I)
_ITEM_LABEL = re.compile(
    rf"<li\b[^<>\n]{{0,80}}>\s*(?:<[^<>\n]{{1,40}}>\s*)?{COURSE}\.?\s*\d{{1,3}}\b[^<>\n]{{0,8}}?[-.:)]", re.I
)
_NUMBERED_ITEMS = 99
# "<sc 2, inc>6", "<2 sc + dec> x 8": a stretch that is repeated
_POINTED = re.compile(
    r"<(?P<within>(?:\d{1,2} ?)?(?:sc|[hd]?dc|h?tr|inc|dec|[xva])\b ?\d{0,2}[^<>\n]{0,80}|"
    r"(?:sc|inc|dec)\d{1,2}[^<>\n]{0,80})>"
    r"(?=[ ]?(?:[x*\u00d7][ ]?)?\d|[ ]?(?:twice|around)\b)",
    re.I,
)
# Tags that patterns are pasted with; anything else between angle brackets is a designer's heading: "<FIN> 3 pieces"
_TAGS = _BLOCK | frozenset(
    [
        "a", "b", "i", "u", "s", "em", "strong", "span", "small", "big", "sub", "sup", "font", "center", "code", "img",
        "td", "th", "h1", "h2", "h3", "h4", "h5", "h6", "tfoot", "caption", "col", "colgroup", "main", "nav", "aside",
        "figcaption", "picture", "source", "video", "audio", "iframe", "svg", "path", "g", "link", "meta", "script",
        "style", "noscript", "button", "form", "input", "label", "select", "option", "textarea", "mark", "del", "ins",
        "abbr", "cite", "q", "time", "address", "details", "summary", "wbr", "input", "kbd", "tt", "strike",
    ]
)
_SHOUTED = re.compile(r"^[ ]{0,8}<(?P<name>[A-Za-z][A-Za-z ]{1,30}(?: ?\d)?)>", re.M)
# "<<white to grey>>" on a line of its own: what is to be done, set apart by signs
_SET_APART = re.compile(r"^(?P<lead>[ ]{0,8})<<(?P<told>[^<>\n]{3,120})>>(?P<end>[ ]*)$", re.M)
_LIST_AHEAD = 240  # characters of a list in which its items show that rounds bear labels, so that others are none
_LABEL_AHEAD = 80  # characters in which an item of a list shows that it says its own label


_HEADS = frozenset(f"h{n}" for n in range(1, 7))


def _blank(text: str) -> str:
    return "".join("\n" if c == "\n" else " " for c in text) if "\n" in text else " " * len(text)


def _heading(match: re.Match[str]) -> str:
    """A heading between angle brackets at the start of a line, where no such tag is meant."""
    return match[0].replace("<", "#").replace(">", " ")


def _tag(match: re.Match[str]) -> str:
    name = (match[2] or "").lower()
    if match[2] and name not in _TAGS:
        return match[0]
    width = len(match[0])
    rest = _blank(match[0])[1:]
    if name in _HEADS:
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
    return char.translate(TABLE)[:1] + " " * (len(match[0]) - 1)


def tidy_entities(text: str) -> str:
    """An entity inside a word must not split it; only spaces and signs are turned, letters are rare."""
    return _ENTITY.sub(_entity, text)


def _numbered(text: str) -> str:
    """Items of an ordered list get their numbers: "<li>" becomes a new line and "4:", in the same width."""
    out: list[str] = []
    at = 0
    open_lists: list[int | None] = []
    for match in _LIST.finditer(text):
        tag = match["tag"].lower()
        if tag == "li":
            count = open_lists[-1] if open_lists else None
            if match["end"] or count is None or count > _NUMBERED_ITEMS:
                continue
            open_lists[-1] = count + 1
            if _OWN_LABEL.match(tidy_entities(text[match.end() : match.end() + _LABEL_AHEAD])):
                open_lists[-1] = None  # what stands between such items has no number at all
                continue
            out.append(text[at : match.start()])
            out.append(f"\n{count}:".ljust(len(match[0])))
            at = match.end()
        elif match["end"]:
            if open_lists:
                open_lists.pop()
        else:
            start = re.search(r"start\s*=\s*[\"']?(\d{1,3})", match["more"] or "")
            labelled = _ITEM_LABEL.search(tidy_entities(text[match.end() : match.end() + _LIST_AHEAD]))
            open_lists.append((int(start[1]) if start else 1) if tag == "ol" and not labelled else None)
    out.append(text[at:])
    return "".join(out)


def has_entities(text: str) -> bool:
    return "&" in text and _ENTITY.search(text) is not None


def untagged(text: str) -> tuple[str, bool]:
    """The page without tags, in the same width, and whether it had any."""
    if "<" not in text:
        return text, False
    text = _POINTED.sub(lambda m: f"[{m['within']}]", text)
    if "<<" in text:
        text = _SET_APART.sub(lambda m: f"{m['lead']}  {m['told']}  {m['end']}", text)
    if "</" not in text:
        text = _SHOUTED.sub(_heading, text)
    plain = _HIDDEN.sub(lambda m: _blank(m[0]), text)
    if "<ol" in plain or "<OL" in plain:
        plain = _numbered(plain)
    plain = _TAG.sub(_tag, plain)
    return plain, plain != text
