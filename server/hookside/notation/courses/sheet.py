"""One text while it is read: what every piece of it may ask, and what the pieces before have left behind."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass, replace
from typing import Any

from hookside.notation.arithmetic.choosing import Chosen
from hookside.notation.arithmetic.ground import Ground
from hookside.notation.bodies.chunks import Phrases
from hookside.notation.bodies.numbersaside import NumbersAside
from hookside.notation.bodies.respelling import of_trade
from hookside.notation.bodies.sentences.phrases import in_sentences
from hookside.notation.bodies.tokens import Dictionary
from hookside.notation.courses.patience import FOUND, IN_VAIN, Patience
from hookside.notation.courses.settling import too_much
from hookside.notation.courses.waiting import Before, Parsed, Part, Waiting, slug
from hookside.notation.lines.layout import RawText
from hookside.notation.page.cleaning import Page
from hookside.notation.trees.building import build
from hookside.notation.trees.nodes import Tree
from hookside.pattern import Course, Finding, Piece, Terms
from hookside.stitches import Stitch

MOST_BODY = 8_000  # characters: many times the longest that was ever met
_LONG_BODY, _MOST_LONG = 800, 80_000  # characters of one that counts as long, and of all such of a text
MOST_PHRASES = 4000  # of one body
MOST_NOTHING = 500  # bodies without a stitch behind labels, each different: from there on none like one of them is read
MOST_PARTS = 64  # copies of pieces that a later course may work into: of a thousand parts the last ones
_PLAIN_NAMES = re.compile(r"\b(?:sc|hdc|dc|htr|tr)\b", re.I)
_WORDS = re.compile(r"[a-z]{2,}")
_DIGITS = re.compile(r"\d+")
# A count behind a bracket and its multiplier, where its value cannot turn what stands before it
_COUNT_BEHIND = re.compile(
    r"(?<=\))(?: ?[x*] ?\d{1,3}| \d{1,3} times| around)?\s?[(\[](?P<n>\d{1,4})(?: ?(?:sts|stitches|sc))?[)\]] ?\.? ?$"
)


@dataclass(slots=True)
class Stage:
    """What a stage made of one stretch of the text: for looking on."""

    stage: str
    line: int
    text: str
    result: Any


@dataclass(slots=True)
class Account:
    """How one course was read: for explaining. `course` is None for chains on a line of their own."""

    piece: Piece
    todo: Waiting
    taken: Chosen | None
    ground: Ground
    below: Waiting | None
    course: Course | None


class Sheet:
    """The page of a text, its names, its findings."""

    def __init__(self, page: Page, terms: Terms, watch: bool = False, keep: bool = False) -> None:
        self.page = page
        self.terms = terms
        self.findings: list[Finding] = []
        self.own: dict[str, Stitch] = {}  # stitches the text defines itself
        self.names = Dictionary(terms)
        self.yarns: frozenset[str] = frozenset()  # words of its list that may name a yarn
        self.dyed: set[tuple[int, int]] = set()  # sentences from which the colors of all courses were taken
        self.turning: dict[int, bool] = {}  # does a turning chain of that height count? 0: of any height
        self.done: dict[str, list[Waiting | RawText]] = {}  # pieces read so far, by slug
        self.bodies = NumbersAside()
        self.cache: dict[str, Parsed] = {}
        self.stems: dict[str, Parsed] = {}  # by their words without the printed count behind them
        self.told: dict[str, list[Parsed]] = {}  # bodies told in sentences, by their words
        self._plain = ""
        self.fell: list[tuple[str, Exception]] = []  # bodies over which reading fell, for the tests to find
        self.parts: list[Part] = []  # every copy of every piece so far, the last MOST_PARTS of them
        self.sums: dict[Any, Chosen] = {}
        self.sized = False  # does the text give its numbers for several sizes?
        self.passed: list[tuple[int, int]] = []  # sentences taken for story
        self.asked: list[tuple[int, int]] = []  # sentences taken for something to do beside the stitches
        self.followed: list[tuple[int, int]] = []  # sentences that name courses of an earlier piece, which stand here
        self.ids: dict[str, int] = {}
        self.courses = 0
        self.habits: set[str] = set()  # meanings that were chosen and told, of those that an author keeps to
        self.counts_behind: Counter[str] = Counter()  # printed counts so far, by the sign before them
        self.long = 0  # characters of long bodies so far
        self.patience = Patience()
        self.lost: set[str] = set()  # bodies that nobody could work, or with words nobody knows, their numbers aside
        self.nothing: set[str] = set()  # bodies behind labels that tell no stitches
        self.passed_by: set[str] = set()  # bodies that were not looked into
        self.full = False  # has it been said that there are too many?
        self.before: Before | None = None
        self.watch = watch  # what each stage made of the text is written into `stages`
        self.stages: list[Stage] = []
        self.keep = keep  # how each course was read is kept in `accounts`
        self.accounts: list[Account] = []

    def see(self, stage: str, line: int, text: str, result: Any) -> None:
        if self.watch:
            self.stages.append(Stage(stage, line, text, result))

    def stem(self, name: str) -> str:
        """What the ids of a piece's courses begin with, never given twice: "left-fin", "left-fin-2"."""
        stem = slug(name)
        taken = self.ids[stem] = self.ids.get(stem, 0) + 1
        return stem if taken == 1 else f"{stem}-{taken}"

    def parse(self, body: str) -> Parsed:
        """A body read as far as it can be by itself. Bodies that differ in their printed count alone share a tree."""
        done = self.cache.get(body)
        if done is not None:
            return done
        self.long += len(body) if len(body) > _LONG_BODY else 0
        if len(body) > MOST_BODY or (len(body) > _LONG_BODY and self.long > _MOST_LONG):
            done = self.cache[body] = Parsed(Phrases(), Tree(failed="long-course"), body)
            return done
        told = _COUNT_BEHIND.search(body, max(0, len(body) - 40))
        stem = f"{body[: told.start('n')]}#{body[told.end('n') :]}" if told else ""
        like = self.stems.get(stem) if told else None
        if like is not None and told:
            counts = [(int(told["n"]), *told.span("n"))]
            done = Parsed(replace(like.phrases, counts=counts), like.tree, body)
        else:
            done = self._parsed(body)
            if done.phrases.unknown and body not in self.passed_by and (said := self.in_sentences(body)):
                done = replace(said[0], others=said[1:])
            if told and _ends_before(done.phrases, told):
                self.stems[stem] = done
        self.cache[body] = done
        return done

    def _strange(self, body: str) -> bool:
        """Has a body words, and none of them belongs to a stitch or to the trade?"""
        words = _WORDS.findall(body.lower())
        return bool(words) and not any(
            self.names.knows(word) or word in self.names.nouns or of_trade(word) for word in words
        )

    def given_up(self, body: str) -> bool:
        """Is nothing looked for any more, and was the like of a body, its numbers aside, read in vain?"""
        tired = not self.patience.left or len(self.nothing) >= MOST_NOTHING
        return tired and _DIGITS.sub("#", body) in self.lost

    def nothing_in(self, body: str) -> None:
        """A body behind a label tells no stitches, though its words may be known: "R9 done? Eyes next"."""
        self.nothing.add(body)
        self.lost.add(_DIGITS.sub("#", body))

    def in_sentences(self, body: str) -> list[Parsed]:
        """What a body told in sentences may mean, the likeliest first; nothing where it is not told so."""
        known = self.told.get(body)
        if known is None:
            if not self.patience.left:
                return []
            found = in_sentences(body, self.names, self.plain)
            trees = [(phrases, build(phrases, self.own)) for phrases in found]
            known = [Parsed(phrases, tree, body, told=True) for phrases, tree in trees if not tree.failed]
            self.patience.took(FOUND if known else IN_VAIN)
            self.told[body] = known
        return known

    @property
    def plain(self) -> str:
        """The key of the stitch that the text works most: what a sentence means that names none."""
        if not self._plain:
            named = Counter(self.names.key(m[0].lower()) for m in _PLAIN_NAMES.finditer(self.page.text))
            self._plain = next((key for key, _ in named.most_common() if key in ("sc", "hdc", "dc")), None) or "sc"
        return self._plain

    def _parsed(self, body: str) -> Parsed:
        if self.given_up(body) or (not self.patience.left and self._strange(body)):
            self.passed_by.add(body)
            return Parsed(Phrases(unknown=[(0, len(body))]), Tree(failed="unread"), body)
        try:
            phrases = self.bodies.read(body, self.names)
            tree = build(phrases, self.own) if len(phrases.chunks) <= MOST_PHRASES else Tree(failed="length")
        except Exception as trouble:  # the last resort: one course is lost, and said, and not the whole text
            self.fell.append((body, trouble))
            phrases, tree = Phrases(unknown=[(0, min(len(body), 80))]), Tree(failed="unread")
        lost = tree.failed or too_much(tree)
        if phrases.unknown or lost:
            self.lost.add(_DIGITS.sub("#", body))
        if lost:
            self.patience.took(IN_VAIN)
        return Parsed(phrases, tree, body)


def _ends_before(phrases: Phrases, told: re.Match[str]) -> bool:
    """Is the number at the end the only printed count, and all else told before it?"""
    spans = [*phrases.unknown, *((c.start, c.end) for c in phrases.chunks[-1:])]
    spans += [(c.start, c.end) for c in phrases.cues]
    return phrases.counts == [(int(told["n"]), *told.span("n"))] and all(end < told.start("n") for _, end in spans)
