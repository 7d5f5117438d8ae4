"""The stitch table: what each stitch uses, makes, weighs and is called.

The data is `stitches.toml`, one line a stitch, with its sources at the top of
that file. Keys are US abbreviations; UK names are names of the same entries, so
translation is a look-up and never a chain of replacements.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

from hookside.pattern import Terms


@dataclass(frozen=True, slots=True)
class Stitch:
    """One entry. `uses`, `makes`, `steps` of one; `height` in turning chains; `yarn` in stitch widths."""

    key: str
    uses: int
    makes: int
    steps: int
    height: float
    yarn: float
    us: tuple[str, ...]  # abbreviation, full name, other spellings
    uk: tuple[str, ...]
    symbol: str
    of: str  # the plain stitch it is made of; its own key for a plain one
    sources: tuple[str, ...]

    def names(self, terms: Terms) -> tuple[str, ...]:
        """Every spelling in print, the abbreviation first, the full name second."""
        return self.us if terms == "US" else self.uk

    def abbreviation(self, terms: Terms) -> str:
        """The short name: "sc"."""
        return self.names(terms)[0]

    def name(self, terms: Terms) -> str:
        """The full name: "single crochet"."""
        return self.names(terms)[1]


def _entry(key: str, line: dict[str, Any]) -> Stitch:
    makes = int(line.get("makes", 1))
    us = tuple(line["us"])
    return Stitch(
        key=key,
        uses=int(line.get("uses", 1)),
        makes=makes,
        steps=int(line.get("steps", max(1, makes))),
        height=float(line["height"]),
        yarn=float(line["yarn"]),
        us=us,
        uk=tuple(line.get("uk", us)),
        symbol=line["symbol"],
        of=line.get("of", key),
        sources=tuple(line["sources"]),
    )


def _load() -> dict[str, Stitch]:
    text = files("hookside").joinpath("stitches.toml").read_text(encoding="utf-8")
    return {key: _entry(key, line) for key, line in tomllib.loads(text).items()}


TABLE: dict[str, Stitch] = _load()

def plural(name: str) -> str:
    """Several of a stitch or of a part: crochet stays as it is (4 single crochet), a stitch gets "es", the rest "s".

    >>> [plural(n) for n in ("single crochet", "half treble", "slip stitch", "left foot", "body")]
    ['single crochet', 'half trebles', 'slip stitches', 'left feet', 'bodies']
    >>> plural("feet")
    'feet'
    """
    for one, many in _SEVERAL.items():
        if re.search(rf"(?:^| ){one}$", name, re.IGNORECASE):
            return name[: -len(one) + 1] + many[1:]  # its first letter as it stands
    if name.endswith(("crochet", "together", "s")) or name.lower().split()[-1] in _SEVERAL.values():
        return name
    if re.search(r"[^aeiou]y$", name):
        return f"{name[:-1]}ies"
    return name + ("es" if name.endswith(("ch", "sh", "x")) else "s")


# Parts of toys that get no "s"
_SEVERAL = {
    "foot": "feet", "tooth": "teeth", "leaf": "leaves", "scarf": "scarves", "calf": "calves", "hoof": "hooves",
    "half": "halves", "antenna": "antennae",
}  # fmt: skip
_ONE_OF = {many: one for one, many in _SEVERAL.items()}


def singular(word: str) -> str:
    """One of several parts, in small letters: the way back of `plural` for a word that stands alone.

    >>> [singular(word) for word in ("legs", "feet", "halves", "cross", "wing")]
    ['leg', 'foot', 'half', 'cross', 'wing']
    """
    return _ONE_OF.get(word) or (word if word.endswith("ss") else word.removesuffix("s"))


def full_name(entry: Stitch, terms: Terms) -> str:
    """The full name as it stands inside a sentence: small letters, except "V stitch"."""
    name = entry.name(terms)
    return name[:1].lower() + name[1:] if name[1:2].islower() else name


ACTIONS = frozenset({"ring", "join", "turn"})


def stitch(key: str) -> Stitch:
    """The entry of a key; KeyError for a name the table does not know."""
    return TABLE[key]


_SPACED = re.compile(r"[\s.\-]+")


@lru_cache(2048)
def plain_name(name: str) -> str:
    """A name as the table compares it: small letters, single spaces, no hyphens or dots."""
    return _SPACED.sub(" ", name).strip().lower()


_TOGETHER = re.compile(r"(?P<of>[a-z]+(?: [a-z]+){0,2}?) ?(?P<n>[2-6]) ?tog(?:ether)?")
_SHAPED = re.compile(r"(?P<of>[a-z]+(?: [a-z]+){0,2}) (?P<how>inc|dec)(?:rease)?")
_POST = re.compile(r"(?P<side>[fb]p)(?P<of>[a-z]+)")
_WORD = re.compile(r"(?P<of>[a-z]+(?: [a-z]+)?) stitch")
_NUMBERS = ("two", "three", "four", "five", "six")


def _dresses(name: str) -> list[str]:
    """The other spellings that every name of its kind has: "dc2tog" is "dc 2 tog" and "2 dc together" as well."""
    if together := _TOGETHER.fullmatch(name):
        of, n = together["of"], together["n"]
        word = _NUMBERS[int(n) - 2]
        told = [f"{of} {n} tog", f"{of} {n} together", f"{of} {word} tog", f"{of} {word} together", f"{n} {of} tog",
                f"{n} {of} together"]  # fmt: skip
        return told if " " in of else [*told, f"{of}{n}togs", f"{of}{n}together"]
    if shaped := _SHAPED.fullmatch(name):
        of, how = shaped["of"], shaped["how"]
        told = [f"{of} {how}", f"{of} {how}s", f"{of} {how}rease", f"{of} {how}reases"]
        return told if " " in of else [*told, f"{of}{how}"]
    if post := _POST.fullmatch(name):
        side = "front" if post["side"] == "fp" else "back"
        return [f"{post['side']} {post['of']}", f"{side} post {post['of']}"]
    if noun := _WORD.fullmatch(name):
        return [f"{noun['of']} {stitch}" for stitch in ("stitches", "st", "sts")]
    return []


@cache
def by_name(terms: Terms) -> dict[str, str]:
    """Every printed name -> key, for one set of terms. The first entry that claims a name has it."""
    found: dict[str, str] = {}
    for entry in TABLE.values():
        for name in entry.names(terms):
            found.setdefault(plain_name(name), entry.key)
    for name, key in list(found.items()):
        for dress in _dresses(name):
            found.setdefault(dress, key)
    return found


def named(name: str, terms: Terms) -> Stitch | None:
    """The stitch a text in these terms means by a name, or None."""
    key = by_name(terms).get(plain_name(name))
    return TABLE[key] if key else None
