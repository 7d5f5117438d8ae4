"""What may be said in a language: rows of intents and phrases, read from `phrases/<language>.toml`.

The table is the only place where a phrase stands: grammars, the help on the page and the tests are made from it.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

from hookside.voice.numerals import NUMBER, Numerals

UNITS = ("stitch", "group", "repeat", "round")
Most = Mapping[str, int]  # the largest number that can be meant, of "rounds" and of "stitches"; none: any
ANY: Most = {}
RUN = 5  # numbers in one breath of a count along


@dataclass(frozen=True)
class Said:
    """What an utterance means: the intent, its unit (stitch, group, repeat, round) and number where it has one."""

    intent: str
    unit: str | None = None
    number: int | None = None


@dataclass(frozen=True)
class Row:
    """One intent of the table. `phrases`, `single` and `answers` as the table has them, `{number}` not filled in; `of`:
    what the number counts, "rounds" or "stitches"."""

    intent: str
    unit: str | None
    says: str
    phrases: tuple[str, ...]
    single: tuple[str, ...]
    answers: tuple[str, ...]
    numbers: str | None
    of: str | None


@dataclass(frozen=True)
class CountingWords:
    """What is said while counting along."""

    numbers: Numerals
    increase: tuple[str, ...]
    decrease: tuple[str, ...]
    sounds: dict[str, str]  # of the words of numbers, where a dictionary tells them


class Phrasebook:
    """The phrases of one language. Never changes; safe to share."""

    def __init__(self, table: dict[str, Any]) -> None:
        """Raises ValueError where a phrase stands twice with two meanings, KeyError and TypeError where the table is
        not as the head of en.toml says."""
        self.language: str = table["language"]
        self.name: str = table["name"]
        self.numerals = {key: Numerals(**value) for key, value in table["numbers"].items()}
        counting = table["counting"]
        self.counting = CountingWords(
            self.numerals[counting["numbers"]], tuple(counting["increase"]), tuple(counting["decrease"]),
            counting.get("sounds", {}),
        )  # fmt: skip
        self.rows = tuple(
            Row(
                row["intent"], row.get("unit"), row["says"], tuple(row.get("phrases", ())),
                tuple(row.get("single", ())), tuple(row.get("answers", ())), row.get("numbers"),
                row.get("of"),
            )
            for row in table["row"]
        )  # fmt: skip
        self.counts = {row.intent: row.of for row in self.rows}
        self.meanings: dict[str, Said] = {}
        for row in self.rows:
            for pattern in (*row.phrases, *row.single, *row.answers):
                for phrase, number in self.filled(row, pattern):
                    said = Said(row.intent, row.unit, number)
                    if self.meanings.setdefault(phrase, said) != said:
                        raise ValueError(f'"{phrase}" means both {self.meanings[phrase]} and {said}')

        self.open = {single: frozenset(self.phrases(single)) for single in (False, True)}

    @staticmethod
    @cache
    def load(language: str) -> Phrasebook:
        """The book of a language. Raises KeyError for one that has none."""
        place = files("hookside.voice") / "phrases" / f"{language}.toml"
        if language not in languages():
            raise KeyError(language)
        return Phrasebook(tomllib.loads(place.read_text(encoding="utf-8")))

    def filled(self, row: Row, pattern: str) -> list[tuple[str, int | None]]:
        """A phrase with every number that may stand in it, or the phrase itself."""
        if NUMBER not in pattern:
            return [(pattern, None)]
        if row.numbers is None:
            raise ValueError(f'"{pattern}" has a number, and the row of {row.intent} names no numbers')
        return [(pattern.replace(NUMBER, said), number) for said, number in self.numerals[row.numbers].all()]

    def phrases(self, single: bool, most: Most = ANY) -> list[str]:
        """All that may be said unasked; with the single words too where that is wanted. `most`: the largest number of
        what a row counts, where one is known: none beyond it is a phrase."""
        return [
            phrase
            for row in self.rows
            for pattern in (*row.phrases, *(row.single if single else ()))
            for phrase, number in self.filled(row, pattern)
            if number is None or possible(number, row.of, most)
        ]

    def unasked(self, words: str, single: bool) -> bool:
        """Whether these words are a phrase where nothing has been asked."""
        return words in self.open[single]

    def answers(self, intents: Iterable[str], most: Most = ANY) -> list[str]:
        """The small grammar while something is asked: all phrases of these intents, the short answers first."""
        wanted = set(intents)
        return list(
            dict.fromkeys(
                phrase
                for row in self.rows
                if row.intent in wanted
                for pattern in (*row.answers, *row.phrases)
                for phrase, number in self.filled(row, pattern)
                if number is None or possible(number, row.of, most)
            )
        )

    def intent(self, words: str) -> Said | None:
        """What these words mean, or None where they are no phrase."""
        return self.meanings.get(words)

    def words(self) -> set[str]:
        """Every word that any phrase, answer or count may have."""
        counted = [said for said, _ in self.counting.numbers.all()]
        every = [*self.meanings, *counted, *self.counting.increase, *self.counting.decrease]
        return {word for phrase in every for word in phrase.split()}

    def spoken(self, number: int, numbers: str = "") -> str:
        """The usual way to say a number."""
        return (self.numerals[numbers] if numbers else self.counting.numbers).say(number)[0]

    def sounds(self, number: int) -> list[str]:
        """How a number is said in counting, sound by sound."""
        return " ".join(self.counting.sounds[word] for word in self.spoken(number).split()).split()

    def help(self, missing: Sequence[str] = ()) -> list[dict[str, Any]]:
        """Rows for the help on screen and by voice: {intent, unit, phrases, single, answers, says}. A phrase with a
        word that the model lacks is left out. `{number}` is shown as a number that fits."""
        lost = set(missing)

        def shown(patterns: Iterable[str]) -> list[str]:
            return [p.replace(NUMBER, "12") for p in patterns if not lost & set(p.split())]

        return [
            {
                "intent": row.intent, "unit": row.unit, "phrases": shown(row.phrases), "single": shown(row.single),
                "answers": shown(row.answers), "says": row.says,
            }
            for row in self.rows
        ]  # fmt: skip


def possible(number: int, of: str | None, most: Most) -> bool:
    """Whether there are so many of what a number counts."""
    return of is None or of not in most or number <= most[of]


@cache
def languages() -> dict[str, str]:
    """Languages with a book: code to name."""
    out = {}
    for place in sorted((files("hookside.voice") / "phrases").iterdir(), key=lambda p: p.name):
        if place.name.endswith(".toml"):
            table = tomllib.loads(place.read_text(encoding="utf-8"))
            out[str(table["language"])] = str(table["name"])
    return out


@lru_cache(maxsize=16)
def runs(book: Phrasebook, most: int) -> list[str]:
    """All that may be counted up to a number: each alone, those that follow it in one breath, the other words."""
    counting = book.counting
    most = min(most, counting.numbers.most)
    out = []
    for start in range(1, most + 1):
        run = [book.spoken(n) for n in range(start, min(start + RUN, most + 1))]
        out += [" ".join(run[:n]) for n in range(1, len(run) + 1)]
    return [*out, *counting.increase, *counting.decrease]
