"""The pattern's colours as the maker calls them. Its twin is in frontend/src/pages/bench/colours/wording.ts; both are
held against tests/vectors/colours.json."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from hookside.follow import Strand
from hookside.pattern import Words

Called = Mapping[str, str]


def called_in(chosen: Mapping[str, Any], run: str) -> dict[str, str]:
    """What she calls the colours of one copy: her words for all copies, and over them those for this one."""
    return {**chosen.get("colours", {}), **chosen.get(f"colours/{run}", {})}


def _plain(name: str) -> str:
    return name.lower().replace("colour", "color")


def _is_word(text: str, at: int) -> bool:
    """Whether "A" is the word and no colour's letter: written small, or in front of a sentence's next word."""
    if len(text) == 1:
        return False
    if not text[at].isupper():
        return True
    leads = re.search(r"(?:^|[.!?:] )$", text[:at]) is not None
    return text[at] in "AI" and leads and re.match(" [a-z]", text[at + 1 :]) is not None


def in_her_words(text: str, called: Called) -> str:
    """The words with her names in place of the pattern's."""
    names = [name for name, words in called.items() if words]
    if not names:
        return text
    hers = {_plain(name): called[name] for name in names}
    ways = [re.sub("colou?r", "colou?r", re.escape(name), flags=re.I) for name in sorted(names, key=len, reverse=True)]

    def say(found: re.Match[str]) -> str:
        if len(found[0]) == 1 and _is_word(text, found.start()):
            return found[0]
        words = hers.get(_plain(found[0]), found[0])
        return words[:1].upper() + words[1:] if found.start() == 0 else words

    return re.sub(rf"(?<!\w)(?:{'|'.join(ways)})(?!\w)", say, text, flags=re.I)


def her_colour(item: str, chosen: Mapping[str, Any], pieces: Iterable[Mapping[str, Any]]) -> str:
    """What she calls the colour of a thing on the list, by the thing's id, and what in copies that are another; ""."""
    names = {piece["number"]: piece["name"] for piece in pieces}

    def called(colours: Mapping[str, str]) -> str:
        keys = {"yarn:" + re.sub("[^a-z0-9]+", " ", _plain(name)).strip(): words for name, words in colours.items()}
        return keys.get(item, "")

    said = [called(chosen.get("colours", {}))]
    for name, colours in chosen.items():
        copy = re.fullmatch(r"colours/p(\d+)\.c(\d+)", name)
        if copy and called(colours):
            said.append(f"{names.get(int(copy[1])) or 'copy'} {copy[2]}: {called(colours)}")
    return "; ".join(filter(None, said))


def strand_in_her_words(strand: Strand, called: Called) -> Strand:
    """A strand in her words, as far as paper shows it: courses and cues."""

    def worded(words: Words) -> Words:
        return Words(**{name: in_her_words(text, called) for name, text in words.model_dump().items()})

    if not called:
        return strand
    return strand.model_copy(
        update={
            "courses": [c.model_copy(update={"words": worded(c.words)}) for c in strand.courses],
            "cues": [c.model_copy(update={"words": worded(c.words)}) for c in strand.cues],
        }
    )
