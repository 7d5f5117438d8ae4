"""Sizes that makers printed, predicted from their counts alone. The facts and their sources: published.toml."""

from __future__ import annotations

import math
import statistics
import tomllib
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

import pytest

from hookside.pattern import Course, Cue, Group, Node, Pattern, Piece, Repeat
from hookside.shape import gauge, yarns
from hookside.shape.lengths import millimetres
from hookside.shape.measure import measure
from hookside.shape.measures import Measures, PieceMeasures
from hookside.shape.working import LOOSE

FACTS: dict[str, list[dict[str, Any]]] = tomllib.loads(Path(__file__).with_name("published.toml").read_text("utf-8"))
TABLE, SWATCHES = FACTS["piece"], FACTS["swatch"]
OTHERS: list[dict[str, Any]] = tomllib.loads(Path(__file__).with_name("held_out.toml").read_text("utf-8"))["piece"]
LATEST: list[dict[str, Any]] = tomllib.loads(Path(__file__).with_name("latest.toml").read_text("utf-8"))["piece"]
FRESH: list[dict[str, Any]] = tomllib.loads(Path(__file__).with_name("fresh.toml").read_text("utf-8"))["piece"]
FIFTH: list[dict[str, Any]] = tomllib.loads(Path(__file__).with_name("fifth.toml").read_text("utf-8"))["piece"]
SIXTH: list[dict[str, Any]] = tomllib.loads(Path(__file__).with_name("sixth.toml").read_text("utf-8"))["piece"]
STITCHES = {"s": "sc", "h": "hdc", "d": "dc"}


@dataclass(frozen=True)
class Compared:
    """One printed length of one piece, and what the shape code makes of it; mm."""

    title: str
    what: str
    kind: str
    printed: float
    predicted: float
    low: float
    high: float

    @property
    def error(self) -> float:
        return self.predicted / self.printed - 1

    @property
    def inside(self) -> bool:
        return self.low <= self.printed <= self.high

    def __str__(self) -> str:
        return (
            f"{self.title}: {self.what} {self.printed:.0f} mm printed, {self.predicted:.0f} predicted "
            f"({self.low:.0f} to {self.high:.0f}) from the {self.kind}: {self.error:+.0%}"
            f"{'' if self.inside else ', outside the spread'}"
        )


def counts(entry: dict[str, Any]) -> list[int]:
    return [n for one in entry["counts"] for n in ([one] if isinstance(one, int) else [one[0]] * one[1])]


def pattern(entry: dict[str, Any]) -> Pattern:
    stitches = counts(entry)
    names = [STITCHES[letter] for letter in entry.get("stitches", "")] or [entry.get("stitch", "sc")] * len(stitches)
    ring = not entry.get("rows") and not entry.get("start")
    courses = []
    for i, (n, name) in enumerate(zip(stitches, names, strict=True), start=1):
        into = "ring" if ring and i == 1 else None
        each = [("sc", n - n // 2), ("dc", n // 2)] if name == "mix" else [(name, n)]
        body: list[Node] = [Group(stitch=one, count=k, into=into) for one, k in each]
        below = stitches[i - 2] if i > 1 else 0
        if entry.get("square") and below and n == below + 8:
            body = [
                Repeat(times=4, body=[Group(stitch="inc3", makes=3, steps=3), Group(stitch=name, count=below // 4 - 1)])
            ]
        kind: Literal["round", "row"] = "row" if entry.get("rows") else "round"
        uses = 0 if i == 1 else stitches[i - 2]
        courses.append(Course(id=f"p.{i}", label=str(i), kind=kind, uses=uses, makes=n, text="", line=i, body=body))
    last = courses[-1]
    cues = [
        Cue(address="p/stuff", after=last.label, course_id=last.id, kind="stuff", text="stuff", weight="stop"),
        Cue(address="p/close", after=last.label, course_id=last.id, kind="close", text="close", weight="stop"),
    ]
    cues = cues if entry.get("closed") else cues[:1] if entry.get("filled") else []
    if entry.get("flattened"):
        text = "Flatten the end and work through both layers"
        cues.append(Cue(address="p/flat", after=last.label, course_id=last.id, kind="shape", text=text, weight="stop"))
    return Pattern(
        gauge=entry.get("gauge", ""),
        hook=f"{entry['hook_mm']} mm" if "hook_mm" in entry else "",
        materials=[entry["yarn"]] if "yarn" in entry else [],
        pieces=[Piece(name=entry["title"], courses=courses, cues=cues)],
    )


def length(piece: PieceMeasures, what: str) -> float:
    across = 2 * max(r for r, _ in piece.profile_mm)
    heights = [z for _, z in piece.profile_mm]
    return {
        "across": across,
        "around": math.pi * across,
        "tall": max(heights) - min(heights),
        "long": piece.height_mm.value,
        "wide": piece.width_mm.value,
    }[what]


def compared(entry: dict[str, Any]) -> list[Compared]:
    found: Measures = measure(pattern(entry), lambda cue: "")
    (piece,) = found.pieces
    every = []
    for what, said in entry["size"].items():
        printed, predicted = millimetres(said), length(piece, what)
        assert printed is not None
        of = piece.height_mm if what in ("tall", "long") else piece.width_mm
        low, high = (predicted * k / of.value for k in (of.low, of.high))
        every.append(Compared(entry["title"], what, found.fabric.kind, printed, predicted, low, high))
    return every


EVERY = [compared(entry) for entry in TABLE]
JUDGED = [compared(entry) for entry in OTHERS]
NEWEST = [compared(entry) for entry in LATEST]
ONCE = [compared(entry) for entry in FRESH]
LAST = [compared(entry) for entry in FIFTH]
BLIND = [compared(entry) for entry in SIXTH]
ALL = EVERY + JUDGED + NEWEST + ONCE + LAST + BLIND
GAUGED = [piece for piece in ALL if piece[0].kind == "pattern"]


def share(good: Callable[[Compared], bool], pieces: list[list[Compared]]) -> float:
    """Pieces of which every printed length is good, as a share."""
    return sum(all(good(one) for one in piece) for piece in pieces) / len(pieces)


def test_the_table_is_large_enough() -> None:
    assert len(TABLE) >= 10
    assert len(OTHERS) >= 10
    assert len(LATEST) >= 10
    assert len(FRESH) >= 10
    assert len(FIFTH) >= 10
    assert len(SIXTH) >= 10
    assert len(GAUGED) >= 45
    every = TABLE + OTHERS + LATEST + FRESH + FIFTH + SIXTH
    assert all(entry["url"].startswith("http") and entry["size"] for entry in every)
    assert all(entry.get("gauge") or entry.get("hook_mm") for entry in every)
    assert len({entry["title"] for entry in every}) == len(every)


def test_the_printed_size_lies_inside_the_spread() -> None:
    """In 9 of 10 pieces, every printed length; of the third part in 17 of 20, of the fourth in all, of the fifth in
    four of five."""
    assert share(lambda one: one.inside, EVERY) >= 0.9, told(EVERY)
    assert share(lambda one: one.inside, JUDGED) >= 0.9, told(JUDGED)
    assert share(lambda one: one.inside, NEWEST) >= 0.85, told(NEWEST)
    assert share(lambda one: one.inside, ONCE) >= 1, told(ONCE)
    assert share(lambda one: one.inside, LAST) >= 0.8, told(LAST)
    assert share(lambda one: one.inside, BLIND) >= 0.9, told(BLIND)
    assert share(lambda one: one.inside, ALL) >= 0.94
    assert share(lambda one: one.inside, GAUGED) >= 0.93, told(GAUGED)


def test_the_likely_figure_is_near() -> None:
    """Within 15 % in five of six pieces, every printed length; of the third part in nearly half, of the fourth in seven
    of ten, of the fifth in half.

    9 of 10 were wished for and cannot be had from counts and gauge alone: for that the errors would have to spread by
    8.5 %, and they spread by 12 % where the gauge is printed and by 15 % where hook and yarn are. That is no constant
    of ours: their middle is nought, and no factor on all lengths, on heights or on widths brings one piece more in.
    Hands differ: of the printed gauges three in five lie within 15 % of what hook and yarn foretell, by the best rule
    of that kind. And a quarter of the printed gauges are denied by the size beside them: what is worked round posts is
    told as wide as the head it stretches over, two sizes of one basket differ by more than their stitches do, walls
    stand narrower than their gauge over a base that ruffles. None of these makes a rule for the pieces it was not found
    on: cloths round posts come out narrower, other baskets over such a base as wide as their walls.
    """
    assert share(lambda one: abs(one.error) <= 0.15, EVERY + JUDGED) >= 5 / 6, told(EVERY + JUDGED)
    assert share(lambda one: abs(one.error) <= 0.15, NEWEST) >= 0.45, told(NEWEST)
    assert share(lambda one: abs(one.error) <= 0.15, ONCE) >= 0.7, told(ONCE)
    assert share(lambda one: abs(one.error) <= 0.15, LAST) >= 0.5, told(LAST)
    assert share(lambda one: abs(one.error) <= 0.15, BLIND) >= 0.9, told(BLIND)


def test_a_printed_gauge_is_denied_by_one_size_in_four() -> None:
    """Of all pieces that print their gauge three in four come out within 15 %. It is neither the fabric's kind nor the
    shape: over all of them the middle of the errors is nought, and hook and yarn would not do better."""
    assert share(lambda one: abs(one.error) <= 0.15, GAUGED) >= 0.75, told(GAUGED)
    assert abs(statistics.median(one.error for piece in GAUGED for one in piece)) <= 0.02


def test_a_printed_gauge_leant_towards_the_guess_does_no_better_on_the_piece_left_out() -> None:
    """The weight of least squares, in logs, of the other pieces that print gauge and hook; a third at the most."""
    both = [(compared(entry), compared(hook)) for entry, hook in zip(*with_hook(), strict=True)]
    logs = [
        [(math.log(g.predicted / g.printed), math.log(h.predicted / h.printed)) for g, h in zip(*pair, strict=True)]
        for pair in both
    ]
    alone = leant = 0
    for i, piece in enumerate(logs):
        others = [one for k, other in enumerate(logs) if k != i for one in other]
        weight = sum(g * (g - h) for g, h in others) / sum((g - h) ** 2 for g, h in others)
        assert 0 <= weight <= 0.4
        alone += all(abs(math.exp(g) - 1) <= 0.15 for g, _ in piece)
        leant += all(abs(math.exp(g + weight * (h - g)) - 1) <= 0.15 for g, h in piece)
    assert len(logs) >= 25
    assert leant <= alone


def with_hook() -> tuple[list[dict[str, Any]], list[dict[str, Any]]]:
    """The pieces that print a gauge and a hook, and the same without their gauge."""
    every = TABLE + OTHERS + LATEST + FRESH + FIFTH + SIXTH
    told = [entry for entry in every if "gauge" in entry and "hook_mm" in entry]
    return told, [{key: value for key, value in entry.items() if key != "gauge"} for entry in told]


def test_taller_stitches_are_wider_whichever_piece_is_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """The middle of what the customary discs ask, 8 half double and 12 double crochet more in each round (
    mamas2hands.com 2017; common practice), where single crochet has 6; the widths of the pieces ask the same."""
    half, double = (gauge.height_factor(chains) * 6 / more for chains, more in ((2, 8), (3, 12)))
    assert (half + double) / 2 == pytest.approx(gauge.TALL, abs=0.01)
    tall = [e for e in TABLE + OTHERS if not e.get("gauge") and "d" in e.get("stitch", e.get("stitches", ""))]
    monkeypatch.setattr(gauge, "TALL", 1.0)
    asked = [
        math.log(next(one.printed / one.predicted for one in compared(e) if one.what in ("wide", "around", "across")))
        for e in tall
    ]
    left = [math.exp((sum(asked) - one) / (len(asked) - 1)) for one in asked]
    assert len(asked) >= 10
    assert all(abs(one / (half + double) * 2 - 1) <= 0.03 for one in left)


def test_the_hook_of_a_toy_is_the_middle_of_those_that_are_printed() -> None:
    """Of stuffed pieces that print hook and yarn; three in four lie where no word of loose fabric is said."""
    every = TABLE + OTHERS + LATEST + FRESH + FIFTH + SIXTH
    toys = [e for e in every if (e.get("closed") or e.get("filled")) and "hook_mm" in e and "yarn" in e]
    metres = [yarns.metres([e["yarn"]], e["hook_mm"]) or 0.0 for e in toys]
    asked = [e["hook_mm"] * m**0.5 for e, m in zip(toys, metres, strict=True)]
    assert len(asked) >= 20
    assert statistics.median(asked) == pytest.approx(yarns.DENSE, rel=0.01)
    loose = [e["hook_mm"] > LOOSE * yarns.toy_hook(m) for e, m in zip(toys, metres, strict=True)]
    assert statistics.mean(loose) <= 0.25


def told(pieces: list[list[Compared]]) -> str:
    return "\n".join(str(one) for piece in pieces for one in piece)


def test_leaving_each_gauge_out_of_its_own_fit_changes_little() -> None:
    """Printed gauges on which the factor was not fitted: more than half are within 15 % of what it foretells, nearly
    nine in ten within the spread."""
    off = [math.log(p.width / g.width) for g, p in map(foretold, SWATCHES)]
    near = [abs(math.exp(-(one - (sum(off) - one) / (len(off) - 1))) - 1) for one in off]
    assert statistics.mean(one <= 0.15 for one in near) >= 0.5
    assert statistics.mean(one <= gauge.SPREADS["both"] for one in near) >= 0.85


def foretold(entry: dict[str, Any]) -> tuple[gauge.Gauge, gauge.Gauge]:
    """The guess from hook and yarn, and the printed gauge."""
    printed = gauge.written(entry["gauge"])
    metres = yarns.metres([entry["yarn"]])
    assert printed is not None
    assert metres is not None
    return gauge.from_hook(entry["hook_mm"], metres, toy=False), printed


def test_three_rows_in_four_are_as_high_as_the_spread_of_heights_allows() -> None:
    """Of the printed gauges that tell both: how far the height of a row lies from the middle of them all, in widths."""
    high = [p.height / p.width for _, p in map(foretold, SWATCHES) if p.known]
    middle = statistics.median(high)
    assert len(high) >= 20
    assert statistics.mean(abs(one / middle - 1) <= gauge.UNSURE for one in high) >= 0.75


def test_the_guesses_lie_in_the_middle_of_the_printed_gauges() -> None:
    """Geometric mean of printed to guessed stitch widths: 1 for hook and yarn; 1.5 hooks for the hook alone."""
    pairs = [foretold(entry) for entry in SWATCHES]
    assert statistics.geometric_mean(p.width / g.width for g, p in pairs) == pytest.approx(1, abs=0.01)
    hooks = statistics.geometric_mean(p.width / e["hook_mm"] for (_, p), e in zip(pairs, SWATCHES, strict=True))
    assert hooks == pytest.approx(gauge.PER_HOOK, abs=0.1)
    rows = [p.height / p.width for _, p in pairs if p.known]
    assert statistics.median(rows) == pytest.approx(gauge.TURNED, abs=0.02)


def test_the_spreads_of_the_guesses_hold_nine_in_ten() -> None:
    pairs = [foretold(entry) for entry in SWATCHES]
    both = [abs(p.width / g.width - 1) <= gauge.SPREADS["both"] for g, p in pairs]
    alone = [gauge.from_hook(entry["hook_mm"]).width for entry in SWATCHES]
    hook = [abs(p.width / w - 1) <= gauge.SPREADS["hook"] for w, (_, p) in zip(alone, pairs, strict=True)]
    assert statistics.mean(both) >= 0.9
    assert statistics.mean(hook) >= 0.9
