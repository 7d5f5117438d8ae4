"""Signs that a text's own key gives to stitches: "s = sc, v = inc, ^ = dec", "/ = increase", "> means decrease".

A letter that the text needs for nothing else takes the place of each, so that the way back is the identity and key and
rounds are read as if they were written in letters.
"""

from __future__ import annotations

import re
import unicodedata

_STITCH = (
    r"(?:an? |the )?(?:(?:single|double|half[ -](?:double|treble)|treble) (?:crochet|stitch)|slip st(?:itch)?|"
    r"(?:invisible |inv )?(?:increase|decrease)|(?:inv )?(?:inc|dec)|sc2tog|dc2tog|sl ?st|ss|hdc|htr|sc|dc|tr|"
    r"ch(?:ain)?|(?:2|two) (?:[a-z]+ ){0,3}(?:in(?:to)? (?:one|1|the same)|tog(?:ether)?)(?: st(?:itch)?)?)\b"
)
# Signs that hold a text together (brackets, stars, colons, commas) are not among them
SIGNS = r"\^<>/\\~#@%&$!+\-\u2022\u00a4-\u00bf\u2190-\u27bf"
_BETWEEN = r"(?:[ ]{0,2}[=:][ ]{0,2}|[ ]{1,2}-{1,2}[ ]{1,2}|[ ](?:is|means|stands for|for)[ ])"
_GIVEN = re.compile(rf"(?<![^\s,;|(\"'])[\"']?(?P<sign>[{SIGNS}])[\"']?{_BETWEEN}{_STITCH}", re.I)
_MAY = re.compile(rf"[{SIGNS}][\"']?[ ]{{0,2}}(?:[=:-]|is|means|stands|for)")
# A sign that also parts numbers and words counts only where it stands as a stitch: "6+", "(x, +)", "+6"
_AMOUNT = (
    r"(?:(?<=\d)|(?<=\d[ ])){0}(?=[ ]*(?:[,;)\]}}x*(\n]|$))|(?<=[,(\[])[ ]?{0}(?=[ ]?[,)\]])|"
    r"(?<=,){0}(?=[ ]*(?:,|[|]|$))|(?<=,[ ]){0}(?=[ ]*(?:,|[|]|$))"
)
_PARTING = frozenset("/+&-<>!#%")
_FREE = "qjzkuwyghn"


# "\u00f8k = inc": a word with letters that no English word has
_WORD = re.compile(
    rf"(?<![^\W_])(?P<word>[a-z]{{0,5}}[\u00c0-\u024f][a-z\u00c0-\u024f]{{0,5}}){_BETWEEN}{_STITCH}", re.I
)
ACCENT = re.compile(r"[\u00c0-\u024f][a-z]{0,5}[ ]{0,2}[=:-]", re.I)  # a hint of it
_BASE = {"\u00f8": "o", "\u00e6": "a", "\u0142": "l", "\u0111": "d", "\u00df": "s"}
_LETTERS = re.compile(r"[^\W\d_]+")
_SMALL_WORDS = frozenset(["an", "as", "at", "in", "it", "of", "on", "or", "ok", "so", "to", "up"])


def spelt(text: str) -> str:
    """The text with plain letters in such words of its key, where it has no other word of theirs; the length stays.

    All of them in one go: a key may have thousands.
    """
    others = {word.lower() for word in re.findall(r"[A-Za-z]+", text)}
    written: dict[str, str] = {}
    for match in _WORD.finditer(text):
        word = match["word"].lower()
        if word.isascii() or word in written:  # a long s is an s in either case
            continue
        plain = "".join(_BASE.get(c) or unicodedata.normalize("NFD", c)[0] for c in word)
        if plain in _SMALL_WORDS:
            plain = re.sub("[^a-z]", "q", word)
        if plain.isascii() and plain not in others:
            others.add(plain)
            written[word] = plain
    return _LETTERS.sub(lambda m: written.get(m[0].lower(), m[0]), text) if written else text


def lettered(text: str) -> str:
    """The text with a free letter in the place of each such sign; the length stays."""
    if _MAY.search(text) is None:
        return text
    free = [letter for letter in _FREE if not _used(text, letter)]
    for match in list(_GIVEN.finditer(text)):
        sign = match["sign"]
        if not free or text[match.start("sign")] != sign:
            continue
        letter = free.pop(0)
        at = match.start("sign")
        text = text[:at] + letter + text[at + 1 :]
        shape = re.escape(sign)
        rule = _AMOUNT.format(shape) if sign in _PARTING else shape
        text = re.sub(rule, lambda m, s=sign, to=letter: m[0].replace(s, to), text, flags=re.M)  # type: ignore[misc]
    return text


def _used(text: str, letter: str) -> bool:
    """Does the letter stand by itself anywhere, or behind an amount?"""
    return re.search(rf"(?<![A-Za-z]){letter}(?![A-Za-z])", text, re.I) is not None
