"""The counts that a range prints for its courses, in whichever form: "(24, 24, 22, 20)", "counts: 24/24/22",
"24 then 22", "(24 each but the last, 20)", "(24x3, 22)", "24 in round 5, 22 in round 6", "(both 22)", "(24) (22)".

One grammar for them all: counts, each with its course or none, and signs or words between. It is asked of what stands
behind the work alone. Counts that are more or fewer than the courses go with none of them, and that is said.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page.inwords import WORD, value
from hookside.notation.vocabulary import ORDINAL_WORDS, number_of

_SMALL = r"two|three|four|five|six|seven|eight|nine|ten"
_NTH = rf"(?:{'|'.join(list(ORDINAL_WORDS)[:12])}|\d{{1,2}}(?:st|nd|rd|th)|last|final|next)"
_NOUN = r"(?: ?(?P<noun@>sts?|stitches|sc|[hd]?dc|h?tr)\b)?"
_WHICH = (  # "@" is put for the place: in front of the count or behind it
    r"(?:(?:at the end of|in|on|for|after|at|by|of|when|from) )?(?:the )?(?:"
    rf"(?P<nth@>{_NTH})(?: (?P<k@>{_SMALL}|\d)\b)?(?: (?:rounds?|rnds?|rows?|ones?))?|"
    rf"{COURSE}s?\.? ?#?(?P<of@>\d{{1,3}})(?: ?(?:-|to|and|&) ?(?P<to@>\d{{1,3}}))?|"
    r"(?P<rest@>both|all|each|every one|others?|rest|remaining ones?)"
    r"(?: (?:of (?:them|these)|rounds?|rnds?|rows?|ones?))?)"
)
_AHEAD, _BEHIND = _WHICH.replace("@", "1"), _WHICH.replace("@", "2")
_COUNT = (
    rf"(?:(?P<times2>\d) ?[x*] ?(?=\d\d))?(?P<n>\d{{1,4}}(?!\d|[.]\d)|{WORD}\b){_NOUN.replace('@', '1')}"
    rf"(?: ?[x*] ?(?P<times>\d{{1,2}})(?!\d)| (?P<times3>{_SMALL}|\d{{1,2}}) times)?"
)
_LED = re.compile(
    rf"{_AHEAD}(?: ?[:=,-] ?| (?:has|have|is|are|with|makes?|of) | ){_COUNT}(?P<nth2>)(?P<of2>)(?P<rest2>)"
)
_ITEM = re.compile(rf"(?P<nth1>)(?P<of1>)(?P<rest1>){_COUNT}(?:(?: |,? (?=each|all|both)){_BEHIND})?")
_BETWEEN = re.compile(
    r"\s*[)\]}][ ,;.]*(?:[=:]|totals?|in all|now|makes?|making|count) *[:=]? *|"
    r"\s*(?:[)\]}][ ,;.]*[(\[{]|[,;/|&>=-]+|[.] )\s*(?:(?:and|then|but|finally|later|except|save) )*|"
    r" (?:(?:and|then|but|to|later|finally|except|save)(?: |(?=$)))+"
)
_ENDS = re.compile(r"[\s.,;!)\]}]*$")
_BEGINS = re.compile(r"(?P<open>[(\[{])|(?P<stop>[.!]) |(?P<sign>=) ?|(?P<soft>[,:;] | - )")
_LEAD = re.compile(
    r"\s*(?:(?:(?:stitch|st) )?(?:counts?|totals?)|sts|stitches|"
    r"(?:you|i) (?:(?:should|will|now|then|still) )*(?:have|get)|"
    r"(?:(?:which|this|that) )?(?:makes?|making|gives?|giving)|there (?:are|will be)|having|with)?"
    r"(?: ?[:=] ?| |(?=\d))(?:a total of )?"
)
# Behind a comma or a dash only where the work is whole: "sc in next 4, 6, 8 sts" counts none, nor does "inc x 6, 3, 6"
_WHOLE = re.compile(r"(?:a?round|across|row|end|(?:each|every|all) (?:sts?|stitch|sc))\W*$")
_LONGEST = 120  # letters of such a list
_NEAR = 40  # letters in front of a comma that say whether the work is whole
_SET_APART = ("open", "stop")
_STITCHES = (None, "st", "sts", "stitch", "stitches")
_TIMES = re.compile(r"(?:[x*]|rep|repeat) ?$")  # in front of a bracket that is worked so often
_FEWEST = 2
_LETTER = re.compile(r"[a-z]")


@dataclass(frozen=True, slots=True)
class Told:
    """A count and where its digits stand in the body."""

    n: int
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class CountList:
    """What is told for each course (None: nothing), or how many counts there are where they go with no course."""

    each: tuple[Told | None, ...]
    many: int
    start: int
    end: int


def count_list(body: str, numbers: list[int]) -> CountList | None:
    """The list behind the work of several courses; None where there is none, or one count for all of them."""
    found = _found(body) if len(numbers) >= _FEWEST else None
    if found is None:
        return None
    items, start = found
    each = _shared(items, numbers)
    if each is None:
        return None
    return CountList(tuple(each), 0 if each else sum(_times(m) for m in items), start, len(body))


def several_counts(body: str) -> list[Told]:
    """The counts in brackets or sentences behind the work of one course; none where it prints one."""
    found = _found(body, _SET_APART)
    if found is None or any(_times(m) > 1 or m["noun1"] not in _STITCHES for m in found[0]):
        return []  # "[1, inc] x 3, 6" and "6 x (1 sc, 2 sc) (18)" work as many
    return [_told(m) for m in found[0]]


def in_label(aside: str, numbers: list[int]) -> CountList | None:
    """ "R3-4 (12, 13): ...": the same in the bracket of a label; its places are those in the bracket."""
    led = count_list(f"a ({aside})", numbers)
    if led is None:
        return None
    each = tuple(Told(t.n, t.start - 3, t.end - 3) if t is not None else None for t in led.each)
    return CountList(each, led.many, 0, len(aside))


def _found(body: str, ways: tuple[str, ...] = ()) -> tuple[list[re.Match[str]], int] | None:
    """The items of the list at the end of a body, and where it begins; `ways`: in which of them alone, if any."""
    low = re.sub(r"\s", " ", body.lower())
    for begins in _BEGINS.finditer(low, max(0, len(low) - _LONGEST)):
        near = max(0, begins.start() - _NEAR), begins.start()
        if (ways and begins.lastgroup not in ways) or _TIMES.search(low, *near):
            continue
        if (begins["soft"] and not _WHOLE.search(low, *near)) or not _LETTER.search(low, 0, begins.start()):
            continue
        items = _items(low, begins.end())
        if items is not None:
            return items, begins.start() + bool(begins["stop"])
    return None


def _items(low: str, at: int) -> list[re.Match[str]] | None:
    """The counts from `at` to the end of the body, where there is nothing else; None where there is."""
    lead = _LEAD.match(low, at)
    at = lead.end() if lead is not None else at
    items: list[re.Match[str]] = []
    while True:
        item = _LED.match(low, at) or _ITEM.match(low, at)
        if item is None:
            return None
        items.append(item)
        if _ENDS.match(low, item.end()):
            break
        between = _BETWEEN.match(low, item.end())
        if between is None:
            return None
        at = between.end()
    named = items[0]["rest1"] in ("both", "all") or items[0]["rest2"] == "both"
    return items if len(items) >= _FEWEST or named else None  # "(12 x 2)" may as well be what one of them makes


def _told(item: re.Match[str]) -> Told:
    return Told(value(item["n"]), *item.span("n"))


def _kinds(items: list[re.Match[str]]) -> int:
    """Of how many kinds of stitches they tell."""
    return len({m["noun1"] for m in items} - set(_STITCHES))


def _times(item: re.Match[str]) -> int:
    word = item["times"] or item["times2"] or item["times3"]
    return number_of(word) if word else 1


def _shared(items: list[re.Match[str]], numbers: list[int]) -> list[Told | None] | None:
    """A count for each course; empty where they do not go with them; None where they are no counts of courses."""
    if _kinds(items) > 1:
        return None  # "(24 sc, 12 dc)": of each kind
    named = [bool(m["nth1"] or m["of1"] or m["rest1"] or m["nth2"] or m["of2"] or m["rest2"]) for m in items]
    told = [_told(m) for m in items]
    if not any(named):
        listed = [one for one, m in zip(told, items, strict=True) for _ in range(min(_times(m), len(numbers) + 1))]
        return list(listed) if len(listed) == len(numbers) else []
    each: list[Told | None] = [None] * len(numbers)
    others: Told | None = None
    for one, m, has_name in zip(told, items, named, strict=True):
        which = _places(m, numbers) if has_name else None
        if which is None:
            if others is not None:
                return []
            others = one
            continue
        if not which:
            return []
        for place in which:
            each[place] = one
    return [others if found is None else found for found in each]


def _places(item: re.Match[str], numbers: list[int]) -> list[int] | None:
    """Which of the courses a count names; None: all others; empty: none that is there."""
    by = "1" if item["nth1"] or item["of1"] or item["rest1"] else "2"
    if item[f"rest{by}"]:
        return None
    if item[f"of{by}"]:
        first = int(item[f"of{by}"])
        last = int(item[f"to{by}"] or first)
        return [place for place, number in enumerate(numbers) if first <= number <= last]
    word, k = item[f"nth{by}"], number_of(item[f"k{by}"] or "1")
    if word in ("last", "final"):
        return list(range(max(0, len(numbers) - k), len(numbers)))
    if word == "next":
        return []
    at = (ORDINAL_WORDS.get(word) or int(re.sub(r"\D", "", word))) - 1
    return [place for place in range(at, at + k) if place < len(numbers)]
