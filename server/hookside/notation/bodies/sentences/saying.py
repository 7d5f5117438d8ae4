"""The phrases of a round told in sentences, one after the other; sentences that are no work are left for others."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from hookside.notation.bodies.sentences.amounts import Said
from hookside.notation.bodies.sentences.flat import Flat
from hookside.notation.bodies.sentences.grammar import COUNT, FLUFF, LOOPS, RULES

_BETWEEN = re.compile(r"[ ,;:.!]+|-(?! ?\d)")
_STOPS = re.compile(r"[.!?]")
_SENTENCE_ENDS = re.compile(r"[.!?](?= |$)|$")
# "and one" is no count, and "so you have one" is
_SAYS_SO = re.compile(
    r"[=:-]|\b(?:so|which|have|has|ma\w+|giv\w+|gets?|leav\w+|is|are|be|back|down|remain|comes?|coming|totals?|still|"
    r"altogether|count|until|till|us|brings?|reach\w*|all|left|now|each|total)\b|"
    r"\b(?:[4-9]|\d{2,3}) again\b"
)
_OPENS, _CLOSES = "([", ")]"
_CLAUSES = re.compile(r"[,;:.!-]")
_DONE = frozenset(["work", "fill", "open", "times", "round", "marked"])
_WORKS = frozenset(["work", "fill", "bare", "marked"])


@dataclass(slots=True)
class Told:
    """What a body says. `rest`: sentences of it that hold no work, by their places in the body."""

    said: list[Said] = field(default_factory=list)
    rest: list[tuple[int, int]] = field(default_factory=list)


def told(flat: Flat) -> Told | None:
    """The phrases of a body; None where its work is told in other words as well."""
    text, out = flat.text, Told()
    here, begins, held = 0, 0, 0  # where the sentence begins, and how many phrases were said before it
    clause, before = 0, 0  # ... and the same of its clause
    while here < len(text):
        gap = _BETWEEN.match(text, here)
        if gap is not None:
            if _STOPS.search(gap[0]):
                begins, held = gap.end(), len(out.said)
            here = gap.end()
            if _CLAUSES.search(gap[0]):
                clause, before = here, len(out.said)
            continue
        aside = FLUFF.match(text, here) if text[here] in _OPENS else None
        found = _phrase(text, here, out) if aside is None else None
        if found is not None:
            said, end = found
            out.said.append(Said(said.kind, said.body, said.n, flat.at[here], _end(flat, end)))
            here = end
            continue
        fluff = FLUFF.match(text, here)
        if fluff is not None:
            here = fluff.end()
            continue
        stop = _SENTENCE_ENDS.search(text, here)
        assert stop is not None
        if not any(s.kind in _DONE for s in out.said[held:]):
            del out.said[held:]
            clause = begins
        elif len(out.said) > before or out.said[-1].kind in ("open", "loops"):
            return None
        # behind the work what is left may ask for something else: "plain, leave a tail"
        out.rest.append((flat.at[clause], _end(flat, stop.end())))
        here = max(stop.end(), here + 1)
        begins, held = here, len(out.said)  # its stop is gone with it
        clause, before = begins, held
    return out if any(s.kind in _WORKS for s in out.said) else None


def _end(flat: Flat, end: int) -> int:
    """Where in the body that what stands before character `end` of the flat text is over."""
    return flat.at[end - 1] + 1 if end and flat.at[end] > flat.at[end - 1] + 1 and _one(flat, end) else flat.at[end]


def _one(flat: Flat, end: int) -> bool:
    return flat.text[end - 1] in ".)]!?"


def _phrase(text: str, at: int, out: Told) -> tuple[Said, int] | None:
    sign = text[at]
    if sign in _OPENS:
        return Said("open"), at + 1
    if sign in _CLOSES:
        return Said("close"), at + 1
    if out.said:
        count = COUNT.match(text, at)
        if count is not None and _SAYS_SO.search(count[0]):
            return Said("count", n=int(count["n"] or count["n2"])), count.end()
    loops = LOOPS.match(text, at)
    if loops is not None and loops.end() > at:
        side = "both" if loops["both"] else loops["side"] or loops["at"] or "back"
        return Said("loops", body=side), loops.end()
    for rule, makes in RULES:
        match = rule.match(text, at)
        if match is not None and match.end() > at:
            said = makes(match)
            return (said, match.end()) if said.kind != "no" else None
    return None
