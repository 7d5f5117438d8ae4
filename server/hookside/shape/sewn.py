"""A toy of a head and a body that are sewn together: how high it stands, as far as the text tells where they meet.

The seam is a circle: the open end of one, or the round that the text names. What lies beyond that circle, of either, is
pressed into the other and adds nothing; of a ball of radius R that is R - sqrt(R^2 - r^2) for a seam of radius r.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from hookside.pattern import Pattern, Piece
from hookside.shape.measures import PieceMeasures, Spread

Profile = list[tuple[float, float]]  # radius and height of each hoop, mm

HEAD = re.compile(r"\bhead\b", re.IGNORECASE)
BODY = re.compile(r"\b(?:body|torso)\b", re.IGNORECASE)
_ONTO = r"(?: and (?:the )?\w+)? (?:on )?(?:to|onto|on|on top of) (?:[^.;,]{1,25} of )?(?:the |its )?"
SEWN = re.compile(
    r"\b(?:sew|attach|join|stitch)\w*\b[^.;]*?\b(?<!to the )(?<!to )(?<!of the )"
    rf"(?:head{_ONTO}(?:body|torso|neck)|(?:body|torso){_ONTO}head"
    r"|head and (?:the )?(?:body|torso)(?: together)?|(?:body|torso) and (?:the )?head(?: together)?)\b[^.;]*",
    re.IGNORECASE,
)
_ALONE = re.compile(
    r"\bsew(?:n|ing)?(?: it| this)? (?:on)?to (?:the |its )?(?P<other>body|torso|neck|head)\b", re.IGNORECASE
)
_ROUNDS = re.compile(
    r"\b(?P<before>head|body|torso)?\s*(?:rounds?|rnds?|rows?|r)\.?\s*(?P<first>\d+)(?:\s*(?:-|\u2013|to|and)\s*"
    r"(?:rnd|r)?\.?\s*(?P<last>\d+))?(?:\s+of\s+(?:the\s+)?(?P<of>head|body|torso))?",
    re.IGNORECASE,
)
OPEN = 3.0  # mm: a last hoop that is wider is open


@dataclass(frozen=True, slots=True)
class Together:
    """A head and a body by their numbers, how high they are together (None: not known), and what is said of it."""

    head: int
    body: int
    height: Spread | None
    said: str


@dataclass(frozen=True, slots=True)
class Half:
    """One of the two, with the circle of its seam where that is known: its radius, and how far it lies from the end."""

    piece: Piece
    made: PieceMeasures

    @property
    def height(self) -> Spread:
        """With what it goes on from, a body with its legs."""
        return self.made.joined.height_mm if self.made.joined else self.made.height_mm

    def whole_of(self, other: Half) -> bool:
        return self.made.joined is not None and other.made.name in self.made.joined.names

    @property
    def end(self) -> float:
        """Radius of its open end, mm; 0 where it is closed."""
        radius = self.made.profile_mm[-1][0]
        return radius if radius > OPEN else 0.0

    def at(self, label: str) -> tuple[float, float] | None:
        """Radius of a round and its distance from the nearer end; None where it has no such round."""
        measured = [c.label for c, mm in zip(self.piece.courses, self.made.openings_mm, strict=True) if mm is not None]
        if label not in measured:
            return None
        heights = [z for _, z in self.made.profile_mm]
        radius, z = self.made.profile_mm[measured.index(label) + 1]
        return radius, min(abs(z - heights[0]), abs(heights[-1] - z))


def sewn(pattern: Pattern, made: dict[int, PieceMeasures]) -> Together | None:
    """A head and a body that are worked apart; None for another toy."""
    halves = [_only(pattern, made, name) for name in (HEAD, BODY)]
    if halves[0] is None or halves[1] is None or halves[0] == halves[1]:
        return None
    head, body = (Half(pattern.pieces[n], made[n]) for n in halves if n is not None)
    if head.whole_of(body) or body.whole_of(head):
        return None  # one goes on from the other, and its height is said with that
    told = _told(pattern)
    if told is None:
        unknown = "How high it is with its head is not worked out: the text does not say where they meet."
        return Together(halves[0], halves[1], None, unknown)
    lost, sure = overlap(head, body, told)
    high = {key: getattr(head.height, key) + getattr(body.height, key) for key in ("low", "value", "high")}
    left = 1 - lost / high["value"]
    whole = Spread(value=high["value"] * left, low=high["low"] * left, high=high["high"] * left)
    about = "about" if sure else "at most about"
    said = f"With the head sewn on it is {about} {cm(whole.value)} high, between {cm(whole.low)} and {cm(whole.high)}."
    return Together(halves[0], halves[1], whole, said)


def overlap(head: Half, body: Half, told: str) -> tuple[float, bool]:
    """Mm by which the two together are lower than one upon the other, and whether the text tells where they meet.

    `told`: the sentence that sews them.
    """
    named = _ROUNDS.search(told)
    if named:
        labels = [named["first"], named["last"] or named["first"]]
        of_head = "head" in ((named["of"] or named["before"] or "body").lower())
        seam = [at for label in labels if (at := (head if of_head else body).at(label))]
        if seam:
            radius, deep = max(seam, key=lambda at: at[1])
            other = body if of_head else head
            return deep + (0.0 if other.end else dip(other.made.profile_mm, radius)), True
    if head.end and body.end:
        return 0.0, True  # rim to rim
    if body.end:
        return dip(head.made.profile_mm, body.end), True
    if head.end:
        return dip(body.made.profile_mm, head.end), True
    return 0.0, False


def dip(profile: Profile, radius: float) -> float:
    """How far the end of a closed piece reaches through a circle of this radius, mm; half its height at most."""
    (before, z0), end = profile[-1], profile[-1][1]
    for r, z in reversed(profile[:-1]):
        if r >= radius:
            share = (radius - before) / (r - before) if r > before else 0.0
            return abs(end - (z0 + share * (z - z0)))
        before, z0 = r, z
    return abs(end - profile[0][1]) / 2


def _only(pattern: Pattern, made: dict[int, PieceMeasures], name: re.Pattern[str]) -> int | None:
    """The only measured piece of that name that is stuffed and worked in one go."""
    found = [n for n in made if name.search(pattern.pieces[n].name)]
    one = found[0] if len(found) == 1 else None
    solid = one is not None and made[one].volume_cm3.value > 0 and made[one].make == 1
    return one if solid and len(made[one].profile_mm) > 3 else None  # type: ignore[index]


def _told(pattern: Pattern) -> str | None:
    """The sentence that sews head and body together, from its verb on; None where there is none."""
    for piece in pattern.pieces:
        for cue in piece.cues:
            text = cue.text
            found = SEWN.search(text)
            if found:
                return found[0]
            alone = _ALONE.search(text)  # said where one of the two ends: "sew to the body"
            if alone and (BODY if HEAD.search(alone["other"]) else HEAD).search(piece.name):
                return text[alone.start() :]
    return None


def cm(mm: float) -> str:
    """A length as it is said: to the millimetre, a large one to the centimetre."""
    return f"{mm / 10:.0f} cm" if mm >= 200 else f"{round(mm / 10, 1):g} cm"
