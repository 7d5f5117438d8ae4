"""Fourth stage, first half: the body of a course as words, numbers and signs."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Literal

from hookside.notation.bodies.respelling import meant
from hookside.notation.vocabulary import (
    EACH,
    NEXT,
    NUMBER_WORDS,
    ORDINAL_ENDS,
    ORDINAL_WORDS,
    PREPOSITIONS,
    SHORTENED,
    TENS,
)
from hookside.pattern import Terms
from hookside.stitches import by_name

Kind = Literal["number", "ordinal", "word", "stitch", "sign"]

_RAW = re.compile(r"\d+|[a-z]+(?:'[a-z]+)?|[^\sa-z\d]")


@dataclass(slots=True)
class Token:
    """One word, number or sign; offsets count within the body."""

    kind: Kind
    text: str  # in small letters; a stitch keeps its printed name
    start: int
    end: int
    value: int = 0  # of a number or an ordinal
    key: str = ""  # of a stitch: key of the stitch table or the text's own abbreviation
    slip: tuple[int, int, str] | None = None  # where a word of it is misspelt, and what was meant

    def __repr__(self) -> str:
        return f"{self.kind}:{self.key or self.text}"


_Names = dict[str, dict[tuple[str, ...], str]]  # by their first word: names, word by word -> keys


def _words_of(name: str) -> tuple[str, ...]:
    return tuple(_RAW.findall(name.lower().replace("-", " ").replace(".", " ")))


@cache
def _table(terms: Terms) -> tuple[_Names, dict[str, int]]:
    """The names of the stitch table by their first word, and how many words the longest of each has."""
    names: _Names = {}
    for name, key in by_name(terms).items():
        parts = _words_of(name)
        if parts:
            names.setdefault(parts[0], {}).setdefault(parts, key)
    return names, {first: max(len(parts) for parts in entries) for first, entries in names.items()}


class Dictionary:
    """Printed names -> keys, for one text: the table's names in its terms, and the abbreviations it defines itself.

    `nouns`: the text's own words for a stitch of the course below, as translations have them ("in all the points");
    `colours`: letters that it gives to its colours, "W = white"; `glued`: those of them that stand for amounts, "W5";
    `written`: what its own names stand for, by key; `loops`: what it calls "blo" and "flo".
    """

    def __init__(
        self,
        terms: Terms,
        own: dict[str, str] | None = None,
        nouns: frozenset[str] = frozenset(),
        colours: frozenset[str] = frozenset(),
        written: dict[str, str] | None = None,
        glued: frozenset[str] = frozenset(),
        loops: dict[str, str] | None = None,
    ) -> None:
        self.terms = terms
        self.own: dict[str, str] = {}
        self._words: set[str] = set()  # of which the text's own names consist
        self.nouns = nouns
        self.colours = colours
        self.written = written or {}
        self.glued = glued
        self.loops = loops or {}
        self.yarns: frozenset[str] = frozenset()  # words of its list that may name a yarn
        first, longest = _table(terms)
        self._first, self._longest = dict(first), dict(longest)  # names of a first word are shared till one is learnt
        self._learnt: set[str] = set()  # first words of which one was
        for name, key in (own or {}).items():
            self.learn(name, key)

    def learn(self, name: str, key: str) -> None:
        """A name that the text gives to a stitch: it wins over the table's."""
        self.own[name] = key
        parts = _words_of(name)
        self._words.update(parts)
        if parts:
            first = parts[0]
            if first not in self._learnt:
                self._learnt.add(first)
                self._first[first] = dict(self._first.get(first, {}))
            self._first[first][parts] = key
            self._longest[first] = max(len(parts), self._longest.get(first, 0))

    def renames(self, words: frozenset[str]) -> bool:
        """Does the text have a name of its own with one of these words in it?"""
        return not words.isdisjoint(self._words)

    def knows(self, word: str) -> bool:
        """Is it the beginning of a name?"""
        return word in self._first

    def key(self, word: str) -> str | None:
        """The stitch that one word by itself names."""
        return self._first.get(word, {}).get((word,))

    def match(self, words: list[tuple[str, int, int]], at: int) -> tuple[str, int] | None:
        """The longest stitch name that starts at word `at` -> (key, words taken); hyphens and dots in it are let go."""
        first = words[at][0]
        entries = self._first.get(first)
        if not entries:
            return None
        longest = self._longest[first]
        parts = [first]
        pasts = [at + 1]  # the word behind each part
        here = at + 1
        while len(parts) < longest and here < len(words):
            word, start, _ = words[here]
            here += 1
            if word in "-." and start == words[here - 2][2]:
                continue
            parts.append(word)
            pasts.append(here)
        if parts[2:3] in (["inc"], ["dec"]) and parts[1].isdecimal() and _apart(words, at):
            parts = parts[:1]  # "(sc2 inc1)6": two stitches and an increase
        for taken in range(len(parts), 0, -1):
            key = entries.get(tuple(parts[:taken]))
            if key is not None:
                return key, pasts[taken - 1] - at
        return None


def _apart(words: list[tuple[str, int, int]], at: int) -> bool:
    """Is the second word glued to the first, and the third set off by a space?"""
    return words[at + 1][1] == words[at][2] and words[at + 2][1] > words[at + 1][2]


_DOTTED = frozenset(
    ["st", "sts", "ea", "nxt", "ch", "chs", "sp", "sps", "rep", "rem", "lp", "lps", "beg", "prev", "tog", "rnd", "sk"]
).union(["sc", "dc", "hdc", "tr", "inc", "dec", "foll", "rnds"])
_LETTERED = frozenset(["ss", "htr", "dtr", "hdc"])  # short forms with a dot behind each letter, "h.d.c."
_OPENS = frozenset(["", ",", ";", ":", ".", "(", "[", "{", "*", "and", "then"])
_CLOSES = frozenset([",", ";", ")", "]", "}", "(", "[", "*", "and", "then"])
_LEADS_ON = frozenset(["nxt", "ea", "foll", "rem"])  # no sentence ends with them
_BEHIND_DOT = PREPOSITIONS.union(EACH, NEXT, ["st", "sts", "around", "of", "from", "between", "sp", "sps", "lp", "lps"])


def _one_stitch(words: list[tuple[str, int, int]], at: int) -> bool:
    """ "*1st, inc* x 6": an amount with its noun glued on, and no first of anything."""
    before, behind = words[at - 1][0] if at else "", words[at + 2][0] if at + 2 < len(words) else ""
    return before in ("", ",", ";", "*", "(", "[", "+") and behind in (",", ";", ")", "]", "*", "+")


def _letter_of(words: list[tuple[str, int, int]], at: int) -> bool:
    """Does a letter with its dot belong to this word? "s.c.", and neither "(41). Ch." nor "in each s.c. Ch."."""
    letter, dot = words[at - 2 : at]
    return dot[0] == "." and dot[2] == words[at][1] and letter[0].isalpha() and len(letter[0]) == 1


def _amount_behind(words: list[tuple[str, int, int]], dot: int) -> bool:
    """ "s.c. 13, 2 s.c. in next": is the number behind this dot how many, and no count that a sentence begins with?

    Nothing may stand in front of the stitch, and the number is all there is.
    """
    first = dot - 1
    while first > 1 and _letter_of(words, first):
        first -= 2
    name = "".join(word[0] for word in words[first:dot] if word[0] != ".")
    if name not in _DOTTED and name not in _LETTERED:
        return False
    before = words[first - 1][0] if first else ""
    behind = words[dot + 2][0] if dot + 2 < len(words) else ""
    last = behind == "" or (behind == "." and dot + 3 == len(words))
    return before in _OPENS and (behind in _CLOSES or (first > 0 if last else behind == "."))


def _undotted(words: list[tuple[str, int, int]], body: str) -> None:
    """ "2 sc. in ea. st. around": dots of abbreviations, with the sentence going on; "m.r." is one word."""
    for at in range(len(words) - 2, 0, -1):
        if at + 1 >= len(words):
            continue  # two words less: "m.r." has just become one
        before, dot, behind = words[at - 1 : at + 2]
        if dot[0] != "." or dot[1] != before[2]:
            continue
        if before[0] == "m" and behind[0] in ("r", "c") and behind[1] == dot[2]:
            last = at + 2 + (at + 2 < len(words) and words[at + 2][0] == ".")
            words[at - 1 : last] = [(f"m{behind[0]}", before[1], words[last - 1][2])]
        elif before[0] in _LEADS_ON and behind[0].isdecimal():
            del words[at]  # "in nxt. 3 sts."
        elif behind[0].isdecimal() and _amount_behind(words, at):
            del words[at]  # "s.c. 13, dec."
        elif (
            (before[0] in _DOTTED or (at > 2 and before[0] in "cr" and words[at - 2][0] == "."))
            and behind[0] in _BEHIND_DOT
            and body[dot[2] : behind[1] + 1][1:].islower()
        ):
            del words[at]


def tokens(body: str, names: Dictionary) -> list[Token]:
    """The tokens of a body. Never fails: a sign nobody knows is still a sign."""
    low = body.lower()
    if len(low) != len(body):  # a letter whose small form is longer would shift every offset
        low = "".join(c.lower() if len(c.lower()) == 1 else c for c in body)
    words = [(m[0], m.start(), m.end()) for m in _RAW.finditer(low)]
    if "." in low:
        _undotted(words, body)
    _parted(words, names)
    slips = _respelt(words, names)
    found: list[Token] = []
    at = 0
    count = len(words)
    while at < count:
        word, start, end = words[at]
        if word.isdecimal():
            named = names.match(words, at)
            if named and named[0] in ("inc", "inc3") and named[1] > 2:
                named = None  # "2 sc inc" may be two stitches and an increase: the tree keeps both
            if named:
                found.append(
                    Token(
                        "stitch",
                        low[start : words[at + named[1] - 1][2]],
                        start,
                        words[at + named[1] - 1][2],
                        0,
                        named[0],
                    )
                )
                at += named[1]
                continue
            value = int(word) if len(word) < 7 else 10**6
            cluster = _cluster(words, at, names)
            if cluster:
                last = words[at + cluster[1] - 1][2]
                found.append(Token("stitch", low[start:last], start, last, 0, cluster[0]))
                at += cluster[1]
                continue
            together = _together(words, at)
            if together:
                last = words[at + together - 1][2]
                found.append(Token("stitch", low[start:last], start, last, 0, "dec" if value == 2 else f"sc{value}tog"))
                at += together
                continue
            if _dotted_ordinal(words, at, names.nouns):
                found.append(Token("ordinal", word, start, words[at + 1][2], value))
                at += 2
                continue
            if (
                at + 1 < count
                and words[at + 1][1] == end
                and words[at + 1][0] in ORDINAL_ENDS
                and not (words[at + 1][0] == "st" and (value % 10 != 1 or _one_stitch(words, at)))
            ):
                found.append(Token("ordinal", word, start, words[at + 1][2], value))
                at += 2
                continue
            found.append(Token("number", word, start, end, value))
            at += 1
            continue
        if word[0].isalpha():
            named = names.match(words, at)
            if word == "pop" and named and at + 1 < count and words[at + 1][0] in _POPPED:
                named = None
            shapes = named is not None and named[0] in _SHAPES and named[1] > 2
            if shapes and words[at + 1][0].isdecimal() and words[at + 1][1] > end:
                named = names.match(words[: at + 1], at)  # "sc 2 inc" without its comma
            if named and not (
                named[0] == "picot" and word == "p" and names.terms and named[1] == 1 and not _counted(words, at)
            ):
                last = words[at + named[1] - 1][2]
                found.append(Token("stitch", low[start:last], start, last, 0, named[0]))
                at += named[1]
                continue
            if named is None and "l" in word and 3 <= len(word) <= 9:
                # a scan takes i for l: "lnc", "sllp"
                named = names.match([(word.replace("l", "i"), start, end)], 0)
                if named:
                    found.append(Token("stitch", word, start, end, 0, named[0]))
                    at += 1
                    continue
            if word in names.loops:
                found.append(Token("word", names.loops[word], start, end))
            elif word in names.nouns:
                found.append(Token("word", "sts" if word.endswith("s") else "st", start, end))
            elif word in TENS:
                past, value = _in_words(words, at)
                found.append(Token("number", low[start : words[past - 1][2]], start, words[past - 1][2], value))
                at = past
                continue
            elif word in NUMBER_WORDS:
                found.append(Token("number", word, start, end, NUMBER_WORDS[word]))
            elif word in ORDINAL_WORDS:
                found.append(Token("ordinal", word, start, end, ORDINAL_WORDS[word]))
            else:
                found.append(Token("word", word, start, end))
        else:
            joins = word == "&" and bool(found) and start > found[-1].end and low[end : end + 1] == " "
            found.append(Token("word", "and", start, end) if joins else Token("sign", word, start, end))
        at += 1
    if "x" in names.own:
        _multipliers(found, body)
    if slips:
        for token in found:
            token.slip = next((s for s in slips if token.start <= s[0] < token.end), None)
    return found


def _multipliers(found: list[Token], body: str) -> None:
    """Where x is a stitch, "V x 6", "(X, V) x6", "6x (X, V)" and "(X, V) 6x" still say how often."""
    end = Token("sign", "", len(body), len(body))
    for at in range(1, len(found)):
        token, before, after = found[at], found[at - 1], found[at + 1] if at + 1 < len(found) else end
        if token.kind != "stitch" or token.text != "x":
            continue
        behind = before.text in (")", "]", "}", "*") or before.kind == "stitch"
        often = behind and after.kind == "number" and (at + 2 >= len(found) or found[at + 2].kind != "stitch")
        opens = before.kind == "number" and (at == 1 or found[at - 2].text in (",", ";", ".", ":", "("))
        ahead = opens and after.text in ("(", "[", "{") and any(t.kind == "stitch" for t in found[at + 2 : at + 4])
        closed = at > 1 and before.kind == "number" and found[at - 2].text in (")", "]", "}", "*")
        if often or ahead or (closed and body[token.start] == "x" and "X" in body):
            token.kind, token.key = "word", ""


def _cluster(words: list[tuple[str, int, int]], at: int, names: Dictionary) -> tuple[str, int] | None:
    """ "5-dc bobble", "3 dc cl": the number belongs to the name -> (key, words taken)."""
    here = at + 1
    here += here < len(words) and words[here][0] == "-"
    if here + 1 >= len(words) or words[here][0] not in ("dc", "hdc", "tr", "htr", "sc", "dtr"):
        return None
    here += 1
    here += here < len(words) and words[here][0] == "-"
    named = names.match(words, here) if here < len(words) and words[here][0].isalpha() else None
    if named is None or named[0] not in ("bobble", "popcorn", "puff", "cluster", "shell"):
        return None
    if named[0] == "shell" and (words[at][0] != "5" or words[here - 1][0] not in ("dc", "tr", "-")):
        return None  # a shell of the table has five
    return named[0], here - at + named[1]


def _together(words: list[tuple[str, int, int]], at: int) -> int:
    """ "2tog", "3-tog": a decrease that names no stitch -> the words it takes; 0 where it is none."""
    here = at + 1
    here += here < len(words) and words[here][0] == "-"
    glued = here < len(words) and words[here][0] == "tog" and words[here][1] - words[at][2] == here - at - 1
    return here + 1 - at if glued and words[at][0] in ("2", "3", "4", "5", "6") else 0


# "Pop a bead in between rounds 3 and 4", "pop her in her pot": no popcorn
_POPPED = ("a", "an", "the", "your", "it", "them", "her", "him", "his", "their", "on", "some")
_SHAPES = frozenset(["inc", "dec", "inc3", "hdc inc", "dc inc", "tr inc", "hdc inc3", "dc inc3"])


def _in_words(words: list[tuple[str, int, int]], at: int) -> tuple[int, int]:
    """ "twenty-four", "thirty two", "sixty" -> (word behind it, its value)."""
    value = TENS[words[at][0]]
    here = at + 1
    dash = here < len(words) and words[here][0] == "-" and words[here][1] == words[at][2]
    here += dash
    ones = NUMBER_WORDS.get(words[here][0], 0) if here < len(words) else 0
    if 1 <= ones <= 9 and words[here][1] - words[here - 1][2] == (0 if dash else 1):
        return here + 1, value + ones
    return at + 1, value


def _dotted_ordinal(words: list[tuple[str, int, int]], at: int, nouns: frozenset[str]) -> bool:
    """ "every 3. st": an ordinal as it is printed in other tongues."""
    before = words[at - 1][0] if at else ""
    return (
        before in ("every", "each")
        and at + 2 < len(words)
        and words[at + 1][0] == "."
        and words[at + 1][1] == words[at][2]
        and (words[at + 2][0] in ("st", "sts", "stitch", "sc", "dc") or words[at + 2][0] in nouns)
    )


def _amount(words: list[tuple[str, int, int]], at: int) -> bool:
    return at >= 0 and (words[at][0].isdecimal() or words[at][0] in NUMBER_WORDS)


def _respelt(words: list[tuple[str, int, int]], names: Dictionary) -> list[tuple[int, int, str]]:
    """Puts the words that are meant in the place of misspelt ones; returns where those stand, with what was meant."""
    slips = []
    for at, (word, start, end) in enumerate(words):
        if word in SHORTENED and not names.knows(word):
            words[at] = (SHORTENED[word], start, end)
        elif len(word) >= 4 and word.isalpha() and word not in names.nouns and not names.knows(word):
            right = meant(word)
            if right == "times" and word == "time" and not _amount(words, at - 1):
                continue  # "at the same time", "one at a time"
            if right is not None:
                words[at] = (right, start, end)
                slips.append((start, end, right))
    return slips


# "scblo", "flodc", "blsc": a stitch and its loops in one word
_LOOPED = re.compile(r"(?P<st>[a-z]{2,4})(?:blo|flo)|(?P<lp2>blo|flo|bl|fl)(?P<st2>sc|[hd]?dc|h?tr|ss|inc|dec)")


def _parted(words: list[tuple[str, int, int]], names: Dictionary) -> None:
    """ "incx6" is inc, x, 6; "inc's" are inc; "scblo" is sc, blo; "(2XV)" in a text of letters is 2, X, V."""
    for at in range(len(words) - 1, -1, -1):
        word, start, end = words[at]
        if "x" in names.own and 1 < len(word) < 5 and word.isalpha() and all(c in names.own for c in word):
            if not names.knows(word):
                words[at : at + 1] = [(c, start + i, start + i + 1) for i, c in enumerate(word)]
            continue
        if len(word) < 3 or names.knows(word):
            continue
        if (glued := _LOOPED.fullmatch(word)) and names.key(glued["st"] or glued["st2"]):
            seam = start + (glued.end("st") if glued["st"] else glued.end("lp2"))
            words[at : at + 1] = [(word[: seam - start], start, seam), (word[seam - start :], seam, end)]
            continue
        if word[-1] not in "xs":
            continue
        if word.endswith("'s") and names.knows(word[:-2]):
            words[at] = (word[:-2], start, end)
        elif (
            word[-1] == "x"
            and at + 1 < len(words)
            and words[at + 1][1] == end
            and words[at + 1][0].isdecimal()
            and names.knows(word[:-1])
        ):
            words[at : at + 1] = [(word[:-1], start, end - 1), ("x", end - 1, end)]


def _counted(words: list[tuple[str, int, int]], at: int) -> bool:
    """A lone letter p is a picot only where it stands as a stitch does: after a number or between commas."""
    before = words[at - 1][0] if at else ","
    after = words[at + 1][0] if at + 1 < len(words) else ","
    return (before.isdecimal() or before in ",(;*[") and (after in ",);*]." or after in ("in", "x"))
