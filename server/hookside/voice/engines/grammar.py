"""Phrases as one grammar. Written out flat, a few hundred phrases with numbers in them cost a decoder ten times what
they cost where equal beginnings are shared."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from hookside.voice.engines import Row

Ends = frozenset[tuple[str, ...]]  # what may still follow


def jsgf(phrases: Iterable[str]) -> str:
    """A JSpeech Grammar Format text that says these phrases and nothing else. No phrase at all: one that says
    nothing."""
    rules: dict[Ends, str] = {}
    lines: list[str] = []

    def rule(ends: Ends) -> str:
        if ends not in rules:
            firsts: dict[str, set[tuple[str, ...]]] = {}
            for words in sorted(ends):
                firsts.setdefault(words[0], set()).add(words[1:])
            parts = [" ".join([first, *rest(frozenset(after))]) for first, after in firsts.items()]
            rules[ends] = f"<r{len(rules)}>"
            lines.append(f"{rules[ends]} = {' | '.join(parts)} ;")
        return rules[ends]

    def rest(ends: Ends) -> list[str]:
        more = frozenset(words for words in ends if words)
        if not more:
            return []
        name = rule(more)
        return [name] if len(more) == len(ends) else [f"[ {name} ]"]

    every = frozenset(tuple(phrase.split()) for phrase in phrases if phrase.split())
    top = rule(every) if every else "<VOID>"
    return "\n".join(["#JSGF V1.0;", "grammar phrases;", *lines, f"public <phrase> = {top} ;"])


# Chances in a row: where it begins (as expected, said again, one or two missed, anywhere), and how it goes on.
AS_EXPECTED, AGAIN, MISSED, MORE_MISSED = 0.8, 0.02, 0.04, 0.01
ANYWHERE = 1e-7
ONWARD, ONCE_MORE, ONE_MISSED, ENDS = 0.9, 0.01, 0.01, 0.08
THE_REST = 0.5  # where a number was said in part: the rest of it comes first
PARTED = 0.02  # a breath ends within "twenty one", and the next one begins there

Step = tuple[int, int, float] | tuple[int, int, float, str]  # from, to, chance, and the word on the way


def steps(phrases: Sequence[str], row: Row) -> tuple[int, list[Step]]:
    """(last state, transitions from state 0) of a machine that says one of the phrases or walks through the row:
    onward, now and then one said twice or missed, the first and the last of them perhaps in part."""
    out: list[Step] = []
    size = len(row.said)
    enters = [1 + n for n in range(size)]
    leaves = [1 + size + n for n in range(size)]
    last = fresh = 1 + 2 * size

    def say(here: int, there: int, chance: float, words: Sequence[str]) -> list[int]:
        """The states between its words."""
        nonlocal fresh
        between = []
        for word in words[:-1]:
            fresh += 1
            out.append((here, fresh, chance, word))
            between.append(fresh)
            here, chance = fresh, 1.0
        out.append((here, there, chance, words[-1]))
        return between

    near = {-1: AGAIN, 0: AS_EXPECTED, 1: MISSED, 2: MORE_MISSED}
    for n, words in enumerate(row.said):
        out.append((0, enters[n], near.get(n - row.begins, ANYWHERE)))
        for state in say(enters[n], leaves[n], 1.0, words.split()):
            out.append((state, last, PARTED))
            if n - row.begins in near:
                out.append((0, state, (THE_REST if row.half else PARTED) * near[n - row.begins]))
        for ahead, chance in ((1, ONWARD), (0, ONCE_MORE), (2, ONE_MISSED)):
            if n + ahead < size:
                out.append((leaves[n], enters[n + ahead], chance))
        out.append((leaves[n], last, ENDS))
    for phrase in phrases:
        say(0, last, MISSED, phrase.split())
    return last, out
