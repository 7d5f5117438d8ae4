"""What the text's own list names, line by line and part by part."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from hookside.gather.notions import NOTIONS, THREAD, Notion
from hookside.pattern import Pattern
from hookside.shape import hooks, yarns

LONGEST = 90  # letters of a line before the first piece that is still a line of a list, and no sentence

_YARN = re.compile(
    r"\b(?:yarns?|cotton|wool|acrylic|merino|alpaca|bamboo|linen|chenille|velvet|balls?|skeins?)\b"
    r"|\b(?:oddments?|scraps?|remnants?)\b(?!.*\b(?:felt|fabric|card|ribbon|leather)\b)",
    re.I,
)
_BESIDE = re.compile(r"needle|stuffing|fib(?:re|er)\s?fill|\beyes?\b|markers?\b", re.I)
_HOOK = re.compile(r"\bhooks?\b", re.I)
_AMOUNT = re.compile(
    r"^(?:about|approx\.?|ca\.?|at least)?\s*\d+(?:[.,]\d+)?\s*(?:g|grams?|m|metres?|meters?|cm|mm)\b", re.I
)
# "1 pair", "x2", "2 pieces": how many of what stands before it, and nothing to be found by itself
_HOW_MANY = re.compile(r"^(?:x ?)?(?:\d+|one|two|a|an)(?: ?x| (?:pairs?|pcs?|pieces?|of (?:them|each)))?$", re.I)
_PARTS = re.compile(r"\s*[,;]\s*(?![^()]*\))")
# Several things in one line, each a sentence: "DK cotton, grey 20 g. 3 mm hook. Stuffing." No end: "approx. 50 g".
_SENTENCES = re.compile(r"(?<!\bca)(?<!\bapprox)(?<!\bincl)(?<!\bno)(?<!\boz)(?<!\be\.g)\.\s+(?=[A-Z0-9])", re.I)
# A line that the paper was too narrow for: "Grey (A), Black (B) and", "Pair of"
_GOES_ON = re.compile(r"(?:^|\s)(?:and|or|of|with|in|a|an|the|for|plus|&|\+)\s*$", re.I)
# How it is worked stands behind a list as often as in front of it, and is nothing to be found
_TALK = re.compile(
    r"(?!.*\b(?:need|used|recommend\w*)\b)(?:(?:and|so|but|also|please|just) )*"
    r"(?:(?:i|you|we|everything|it|this|these|there|my|note|if|when|unless|make sure|remember|do not|don't|never|"
    r"the (?:pattern|toy|pieces?|parts?|rounds?|terms?|numbers?|figures?|counts?)|"
    r"all (?:pieces|parts|rounds|stitches)|work(?:ed)?|read|move)\b|"
    r"[^.]*\b(?:(?:is|are) (?:all )?(?:worked|written|crocheted|made)|"
    r"(?:us|uk|american|british)(?: crochet)? terms)\b)",
    re.I,
)


@dataclass(slots=True)
class Listed:
    """What a text's list names. `there`: it has one at all. `notions`: by id, the words beside each."""

    there: bool = False
    yarns: list[str] = field(default_factory=list)
    notions: dict[str, str] = field(default_factory=dict)
    others: list[str] = field(default_factory=list)


def listed(pattern: Pattern, text: str) -> Listed:
    """What the text lists: its materials, and short lines before the first piece that name something of the kind."""
    found = Listed(there=bool(pattern.materials))
    lines = _unwrapped(list(dict.fromkeys(pattern.materials)))
    first = min((piece.line for piece in pattern.pieces), default=0)
    known = {_bare(line) for line in lines}
    for line in text.splitlines()[: max(0, first - 1)]:
        line = line.strip(" \t-*•")
        is_list = len(line) <= LONGEST and not re.search(r"[.!?]$|:$", line) and _bare(line) not in known
        if is_list and pattern.materials and _notion(line) and all(_short(part) for part in _PARTS.split(line)):
            lines.append(line)
    for line in lines:
        for sentence in _SENTENCES.split(line):
            if _TALK.match(sentence.strip(" -*•")) and not re.search(r"\d", sentence):
                continue
            _sort(sentence.rstrip(" ."), pattern, found)
    return found


def _unwrapped(lines: list[str]) -> list[str]:
    """The lines of a list with those joined that only the paper parted."""
    found: list[str] = []
    for line in lines:
        if found and _GOES_ON.search(found[-1]):
            found[-1] = f"{found[-1].rstrip()} {line.lstrip()}"
        else:
            found.append(line)
    return found


def _sort(line: str, pattern: Pattern, found: Listed) -> None:
    if _is_hook(line, pattern):
        beside = [part.strip(" .") for part in _PARTS.split(line)]  # "3.5 mm hook, 6 mm eyes, stuffing"
        line = ", ".join(part for part in beside if _beside_hook(part))
        if not line:
            return
    if _is_yarn(line):
        if THREAD.search(line):
            found.notions.setdefault("thread", line)
        else:
            found.yarns.append(line)
        return
    kept = ""
    for part in [one for both in _PARTS.split(line) for one in _two(both)]:
        part = part.strip(" .")
        notion = _notion(part)
        if notion:
            kept = notion.id
            found.notions.setdefault(kept, part)
        elif kept and (_AMOUNT.match(part) or _HOW_MANY.match(part)):
            found.notions[kept] += f", {part}"
        elif part and not _is_hook(part, pattern):
            found.others.append(part)


def _two(part: str) -> list[str]:
    """ "a stitch marker and a tapestry needle": two things, where each is one that is known."""
    halves = re.split(r"\s+(?:and|&|\+)\s+", part)
    known = [notion.id for half in halves if (notion := _notion(half))]
    return halves if len(halves) == len(set(known)) == len(known) else [part]


def _is_hook(line: str, pattern: Pattern) -> bool:
    plain = _bare(line)
    if plain == _bare(pattern.hook) and plain:
        return True
    return hooks.size(line) is not None and bool(_HOOK.search(line)) and not _YARN.search(line)


def _beside_hook(part: str) -> bool:
    """Whether what stands behind the hook in its line is a thing of its own, and no more of the hook."""
    return bool(_notion(part) or _HOW_MANY.match(part)) and not _HOOK.search(part) and "gauge" not in part.lower()


def _is_yarn(line: str) -> bool:
    if _BESIDE.search(line):
        return False
    return bool(_YARN.search(line)) or yarns.weight(line) is not None or yarns.metres_per_100_g(line) is not None


def _notion(part: str) -> Notion | None:
    return next((notion for notion in NOTIONS if notion.names.search(part)), None)


def _short(part: str) -> bool:
    return len(part.split()) <= 7


def _bare(line: str) -> str:
    return " ".join(line.strip(" \t-*•.").lower().split())
