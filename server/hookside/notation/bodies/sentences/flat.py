"""The words of a sentence in few: numbers in figures, each word of a kind by one name; with the way back."""

from __future__ import annotations

import re
from dataclasses import dataclass

from hookside.notation.bodies.tokens import Dictionary
from hookside.notation.page.inwords import NTH, WORD, value
from hookside.notation.vocabulary import NOUNS, TIMES_WORDS

_TENS = "twenty|thirty|forty|fifty"
_WORDS = re.compile(
    r"(?P<dozen>\b(?:(?:a|half a|two|three) dozen)\b)|"
    rf"\b(?P<ones>one|two|three|four|five|six|seven|eight|nine)[ -]and[ -](?P<tens>{_TENS})\b|"
    rf"\b(?P<nth>(?:{NTH}))\b|\b(?P<number>{WORD})\b(?!-(?:one|two|three)\b)|(?P<saying>\bone-two\b)|"
    r"(?P<stitch>\b(?:(?:single|double|half|treble)s?(?: double| treble)? crochets?|half (?:double|treble)s?)\b)|"
    r"(?P<word>[a-z][a-z0-9']*)|(?P<figures>\d+)|(?P<quote>[\"*_])|(?P<blank>\s+)|(?P<sign>.)",
    re.S,
)
_DOZENS = {"half a dozen": 6, "a dozen": 12, "two dozen": 24, "three dozen": 36}
# Words of one kind, by the one that stands for them
_ALIKE = {
    "each": "each every ea",
    "in": "into in inside",
    "round": "round around",
    "inc": "inc incs increase increases increased add adds widen widens",
    "dec": "dec decs decrease decreases decreased narrow narrows",
    "together": "together tog togther",
    "st": "hole holes gap place places",
    "and": "and &",
    "take": "take takes taking work works working crochet crochets put puts make makes-up do does doing",
    "same": "same",
    "2s": "2s twos",
}
_ONE_NAME = {word: name for name, words in _ALIKE.items() for word in words.split()}
_STITCHES = {"US": {"single": "sc", "singles": "sc"}, "UK": {"double": "sc", "doubles": "sc"}}
_PLURAL = re.compile(r"crochets$")


@dataclass(frozen=True, slots=True)
class Flat:
    """`at[i]`: where character i of `text` stands in the body; one more for its end."""

    text: str
    at: list[int]


def flat(body: str, names: Dictionary, stitch: str) -> Flat:
    """The words of a body; `stitch`: the key of the text's plain stitch. Other stitches keep their names."""
    out: list[str] = []
    at: list[int] = []
    low = body.lower()
    for match in _WORDS.finditer(low):
        word = _word(match, low, names, stitch)
        if word == " " and out and out[-1] == " ":
            continue
        out.append(word)
        at += [match.start()] * len(word)
    return Flat("".join(out), [*at, len(body)])


def _word(match: re.Match[str], low: str, names: Dictionary, stitch: str) -> str:
    told = match[0]
    if match["dozen"]:
        return str(_DOZENS[told])
    if match["ones"]:
        return str(value(f"{match['tens']}-{match['ones']}"))
    if match["nth"]:
        return f"{value(told)}th"
    if match["number"]:
        return str(value(told))
    if match["saying"]:
        return "1-2"
    if match["quote"]:
        return ""
    if match["blank"]:
        return " "
    if match["stitch"]:
        return "sc" if _named(told, names) == stitch else told
    if not match["word"]:
        return told
    if told in TIMES_WORDS:
        return f"{TIMES_WORDS[told]} times"
    if told in _STITCHES[names.terms] and (told != "double" or low[: match.start()].rstrip()[-1:].isalnum()):
        return "sc" if stitch == "sc" else told
    key = names.key(told)
    if key is not None and told not in _ONE_NAME:
        return {stitch: "sc", "inc": "inc", "dec": "dec", "inv dec": "dec", "sc2tog": "dec"}.get(key, told)
    if told in NOUNS or told in names.nouns:
        return "loop" if told.startswith(("loop", "lp")) else "st"
    return _ONE_NAME.get(told, told)


def _named(told: str, names: Dictionary) -> str | None:
    """The stitch that several words name: "single crochets"."""
    words = [(m[0], *m.span()) for m in re.finditer(r"[a-z]+", _PLURAL.sub("crochet", told))]
    found = names.match(words, 0)
    return found[0] if found is not None and found[1] == len(words) else None
