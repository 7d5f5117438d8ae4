"""A chain told as its stitches and those for the turn: "Ch 20 + 1" is 21 chains, and 20 stitches to work."""

from __future__ import annotations

import re

from hookside.notation.vocabulary import number_of

_FEW = r"(?P<m>[1-4]|one|two|three|four)"
_CHAINS = r"(?:chs?|chains?|ch(?:ain)? ?st(?:itche)?s?|sts?|stitches)"
_FOR_TURN = r"(?:(?:to|for(?: the)?|as(?: the)?) turn(?:ing)?|turning(?: ch(?:ain)?s?)?|t-?ch|extra|more)"
_TOLD = re.compile(
    r"^(?P<head>[^\w\n]{0,6}(?:(?:make|work|begin with|start with) )?(?:an? )?(?:foundation )?"
    rf"(?:ch(?:ain)?s?(?: of| with)?[ :]{{0,2}}(?P<n>\d{{1,3}})(?: {_CHAINS})?|(?P<n2>\d{{1,3}}) ?(?:chs?|chains?)))"
    r"(?P<more>(?:,? ?[(\[]?(?P<and>\+|plus|and|&) ?(?:ch(?:ain)? )?|(?P<again>[,.;] (?:then )?ch(?:ain)? ))"
    rf"{_FEW}(?! ?(?:\d|sc|[hd]dc|dc|h?tr))(?: {_CHAINS})?(?P<turn> {_FOR_TURN}(?: {_FOR_TURN})?)?[)\]]?)"
    r"(?=\s*(?:[.,;:(]|(?:and )?turn\b|$))",
    re.I,
)
_TURNS = re.compile(r",?\s*(?:and )?turn\b", re.I)
_FEWEST = 4  # chains of a ground: "ch 3, ch 1" is a picture of its own


def _told(text: str) -> re.Match[str] | None:
    if "ch" not in text[:60].lower():
        return None
    told = _TOLD.match(text)
    if told is None or int(told["n"] or told["n2"]) < _FEWEST:
        return None
    signed = told["and"] in ("+", "plus", "Plus", "PLUS")
    turned = told["turn"] or (told["again"] and _TURNS.match(text, told.end()))
    return told if signed or turned else None


def for_turn(text: str) -> int:
    """How many chains of a ground are told as those for the turn."""
    told = _told(text)
    return number_of(told["m"]) if told is not None else 0


def summed(body: str) -> str:
    """The body with such a chain as one number; of the same length."""
    told = _told(body)
    if told is None:
        return body
    which = "n" if told["n"] else "n2"
    all_told = str(int(told[which]) + number_of(told["m"]))
    head = body[: told.start(which)] + all_told + body[told.end(which) : told.end("head")]
    return head.ljust(told.end())[: told.end()] + body[told.end() :]
