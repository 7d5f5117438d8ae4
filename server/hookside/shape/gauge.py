"""Gauge: how wide a single crochet is and how high its round, with where that comes from and how sure it is.

In the order of trust: the maker's swatch, the pattern's own gauge, the size it prints (`printed`), its hook and yarn
together, its yarn, its hook. The
ball band's gauge is never used: it is for loose, flat fabric and makes toys far too large.

The guesses were fitted on 22 gauges in single crochet that makers printed with their hook and yarn (published.toml, in
tests/shape). Their spreads leave out the worst tenth of those; no guess from a hook is sharper than that.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from hookside.shape import hooks, yarns
from hookside.shape.errors import CannotBeMeasured
from hookside.shape.lengths import MM, NUMBER, UNIT, number, tidied, unit

ROW = 0.95  # round height in stitch widths where only the width is known (common practice, no source; 3/pi lies flat)
TURNED = 0.9  # the same of rows that are turned: the middle of 20 printed gauges is 0.91, two handbooks' 0.80 and 0.87
UNSURE = 0.15  # share by which that may be off besides: three in four of the 20 lie no further from their middle
SLENDER = 4.0  # and no round is so many times as high as its stitches are wide, or the other way round
SQUAT = 0.6  # height in widths that no single crochet is below: the lowest of 20 printed gauges is 0.67
PER_HOOK = 1.5  # stitch width of toy fabric in hook diameters (common practice; the printed gauges' mean is 1.55)
# Stitch width, mm, from hook, mm, and yarn, m for 100 g: FABRIC * (hook / metres)^(1/3). A yarn is as thick as the root
# of 1 / metres, and the exponents make hook and yarn twice as thick a stitch twice as wide. Yarn weighs twice as much
# in it as the hook: that fits the printed gauges best (a sixth to a half of the hook do almost as well).
FABRIC = 22.3
TOY = 0.9  # of that, in what is stuffed: it is worked tighter (printed balls and eggs ask 0.87, toys' gauges 0.95)
# Width of a half double or double crochet in single crochets of the same hook and yarn. Discs lie flat by custom with 6
# single, 8 half double, 12 double crochet more in each round; with their heights (below) that makes them 1.18 and 1.07
# as wide (f * 6 / n), and 1.12 is the middle. Eleven published pieces ask 1.11, and between 1.09 and 1.13 whichever of
# them is left out. Discs alone cannot tell half double from double crochet more closely.
TALL = 1.12
WIDTHS = (0.5, 60.0)  # mm: thread on a steel hook; arm's-thickness yarn
# Shares. A pattern's own: what four in five of 16 published pieces with a gauge ask (both halves of tests/shape).
# By its size: so near lies, in four of five pieces with two printed lengths, the second to what the first makes it.
SPREADS = {"swatch": 0.04, "pattern": 0.18, "size": 0.18, "both": 0.27, "yarn": 0.3, "hook": 0.33, "guess": 0.4}
GUESSES = ("both", "yarn", "hook", "guess")


@dataclass(frozen=True, slots=True)
class Gauge:
    """`width` of a stitch and `height` of a single crochet in mm; `spread` as a share of each; `basis` a sentence."""

    width: float
    height: float
    spread: float
    basis: str
    kind: str  # a key of SPREADS
    known: bool = True  # False: the height is only worked out from the width

    @property
    def row(self) -> float:
        """Height of a row that is turned, mm."""
        return self.height if self.known else TURNED / ROW * self.height

    @property
    def upright(self) -> float:
        """Spread of what is measured along rounds or rows, as a share: more where their height is worked out."""
        return self.spread if self.known else (self.spread**2 + UNSURE**2) ** 0.5

    def scaled(self, k: float) -> Gauge:
        """The same fabric, all lengths times k."""
        return replace(self, width=self.width * k, height=self.height * k)


# Height of a stitch in single crochets. Turning chains (1, 2, 3, 4) overstate it: single crochet 7 mm, double crochet
# 15 mm in one maker's measurement (2.14), the others on the same line. A slip stitch barely adds (a guess).
SLIP = 0.4
PER_CHAIN = (15 / 7 - 1) / 2


def height_factor(chains: float) -> float:
    """Height of a stitch in single crochets, from its height in turning chains (sc 1, hdc 2, dc 3, tr 4)."""
    return SLIP if chains <= 0 else 1 + PER_CHAIN * (chains - 1)


def breadth(usual: float) -> float:
    """Width of stitches so many single crochets high, in single crochets of the same hook and yarn."""
    return 1 + (TALL - 1) * min(1.0, max(0.0, (usual - 1) / PER_CHAIN))


_STITCHES = (
    r"(?:stitch(?:es)?|sts?|scs?|dcs?|hdcs?|htrs?|trs?|half[ -](?:doubles?|trebles?)(?: crochets?)?|single crochets?"
    r"|double crochets?|trebles?)\b"
)
_ROUNDS = r"(?:rows?|rounds?|rnds?|rs?)\b"
_TOKEN = re.compile(
    rf"(?P<disc>(?:{_ROUNDS}|\br)\s*1\s*(?:-|\u2013|to|through)\s*r?(?P<last>\d+)|first\s+(?P<first>\d+|two|three|four|five|six)\s+{_ROUNDS}"
    rf"|(?:after|end of|through|at)\s+{_ROUNDS}\s*(?P<after>\d+))"
    rf"|(?P<area>{NUMBER})\s*(?:{UNIT})?\s*(?:x|\u00d7|by)\s*(?={NUMBER}\s*{UNIT})"
    rf"|(?P<span>{NUMBER})[\s-]*(?P<unit>{UNIT})"
    r"|(?:per|to\s+(?:the|an?)|/)\s*(?P<one>inch|in|cm)\b"
    rf"|(?P<count>{NUMBER})\s*(?P<of>(?:{_STITCHES}\s+)?{_ROUNDS}|{_STITCHES})",  # "4 single crochet rows" are rows
    re.IGNORECASE,
)
_COUNTED = re.compile(rf"\d\s*(?:{_STITCHES}|{_ROUNDS})", re.IGNORECASE)
_LESS = re.compile(r"(?:^|[(=:,]|[a-z]\s)\s*[-\u2212]\d", re.IGNORECASE)  # less than nothing
_NONE_OF_IT = re.compile(rf"(?<![\d.,])0+(?:[.,]0+)?\s*(?:{_STITCHES}|{_ROUNDS})", re.IGNORECASE)
_SINGLE = re.compile(r"(?<![a-z])(?:sc|single)", re.IGNORECASE)
_ROW_OF = rf"{NUMBER}\s*(?:{_STITCHES}\s+{_ROUNDS}|{_ROUNDS}\s+(?:(?:of|in)\s+)?{_STITCHES})"
# "3 rows sc & 2 rows dc = 1 in"
_BOTH = re.compile(
    rf"({_ROW_OF})\s*(?:[&,+]|and|plus)\s*({_ROW_OF})\s*(?:=|:|in|over|measure|are|is)\s*({NUMBER})[\s-]*({UNIT})",
    re.IGNORECASE,
)
_FLAT_DISC = re.compile(r"\b(?:across|diameter|in diam|circle|disc)\b", re.IGNORECASE)
_WORDS = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6}
_TALL = (
    (re.compile(r"(?<![a-z])(?:hdc|half double)", re.IGNORECASE), 2),
    (re.compile(r"(?<![a-z])(?:dc|double crochet)", re.IGNORECASE), 3),
    (re.compile(r"(?<![a-z])(?:tr|treble)", re.IGNORECASE), 4),
)
_TALL_UK = (
    (re.compile(r"(?<![a-z])(?:htr|half treble)", re.IGNORECASE), 2),
    (re.compile(r"(?<![a-z])(?:dtr|double treble)", re.IGNORECASE), 4),
    (re.compile(r"(?<![a-z])(?:tr|treble)", re.IGNORECASE), 3),
)


def written(text: str, terms: str = "US", kind: str = "pattern", usual: float = 1.0) -> Gauge | None:
    """A gauge from words: "24 sts and 25 rounds = 10 cm", "10 sts = 4.6 cm", "Rounds 1-4 = 5 cm across".

    Rows of words that name no stitch are rows of the pattern's own, `usual` single crochets high. None where the words
    hold no gauge ("not important for this toy"). CannotBeMeasured, with a sentence, where they hold one that no yarn
    has (0 stitches, 4000 in 10 cm).
    """
    if _LESS.search(text) or _NONE_OF_IT.search(text):
        return None
    plain = tidied(text)
    try:
        both = _of_both(plain, terms)
        width, height = _read(_BOTH.sub(" ", plain))
    except (ValueError, ZeroDivisionError):
        return None
    if width is None and height is None and both is None:
        return None
    chains = next((n for sign, n in (_TALL if terms == "US" else _TALL_UK) if sign.search(text)), 0)
    tall = height_factor(chains) if chains else 1.0 if _SINGLE.search(text) else usual
    as_single = False
    if both is not None:
        height = both
    elif height is not None:
        if tall > 1 and width is not None and height / tall < SQUAT * width:
            tall, as_single = 1.0, True  # no fabric has such rows: they were counted of single crochet
        height /= tall
    if width is None:
        assert height is not None
        width = height / ROW * breadth(usual if tall == 1 else tall)
    known = height is not None
    height = height if height is not None else width / breadth(tall) * ROW
    whose = "your swatch" if kind == "swatch" else "the pattern's gauge"
    for what, mm in (("stitch", width), ("round", height)):
        if not WIDTHS[0] <= mm <= WIDTHS[1]:
            raise CannotBeMeasured(
                f"By {whose}, “{' '.join(text.split())[:80]}”, one {what} would measure {_plain(mm)} mm, and no yarn "
                "makes that. Count the stitches and measure once more, for example: 20 sts and 22 rounds = 10 cm."
            )
    if known and not 1 / SLENDER <= height / width <= SLENDER:
        raise CannotBeMeasured(
            f"By {whose}, “{' '.join(text.split())[:80]}”, one stitch would be {_plain(width)} mm wide and its round "
            f"{_plain(height)} mm high, and no crochet makes that. Count the rounds and measure once more, for "
            "example: 20 sts and 22 rounds = 10 cm."
        )
    basis = f"Stitch {_plain(width)} mm wide, round {_plain(height)} mm high, from {whose}"
    basis += "" if known else f"; the height is a guess, {ROW} of a single crochet's width"
    if both is not None:
        basis += "; its rows of two kinds are taken as high as these stitches usually are"
    elif known and abs(tall - 1) > 0.05:
        basis += f"; its rows are {tall:.2g} times as high as single crochet" + (
            " (the pattern's stitch)" * (not chains)
        )
    elif as_single:
        basis += "; so low are only rows of single crochet, so they are taken for those"
    basis += "."
    return Gauge(width, height, SPREADS[kind], basis, kind, known)


def swatch(text: str, terms: str = "US", usual: float = 1.0) -> Gauge:
    """What the maker measured. CannotBeMeasured where it is not a gauge."""
    found = written(text, terms, "swatch", usual)
    if found is None:
        raise CannotBeMeasured(
            f"“{' '.join(text.split())[:80]}” is not a gauge Hookside can read. Write it as, for example: "
            "20 sts and 22 rounds = 10 cm, or: 10 sts = 4.6 cm."
        )
    return found


def from_hook(mm: float, metres: float | None = None, toy: bool = True, usual: float = 1.0) -> Gauge:
    """Fabric estimated from the hook, and from the yarn's metres for 100 g where known. `toy`: it will be stuffed.
    `usual`: height of its stitches in single crochets; taller ones are wider."""
    if metres is None:
        basis = f"A guess from the {_plain(mm)} mm hook: a stitch of firm fabric is about {PER_HOOK} times the hook"
        return _guessed(PER_HOOK * mm, basis, "hook", usual, ", ")
    width = FABRIC * (mm / metres) ** (1 / 3) * (TOY if toy else 1.0)
    basis = f"A guess from the {_plain(mm)} mm hook and yarn of about {_plain(metres)} m for 100 g"
    return _guessed(width, basis, "both", usual)


def from_yarn(name: str, metres: float, toy: bool = True, usual: float = 1.0) -> Gauge:
    """Fabric estimated from a yarn of so many metres for 100 g, worked with the hook that suits it."""
    hook = yarns.toy_hook(metres)
    width = from_hook(hook, metres, toy).width
    basis = f"A guess from {name} worked with a {_plain(hook)} mm hook, as firm fabric"
    return _guessed(width, basis, "yarn", usual)


def estimated(
    gauge: str, hook: str, materials: list[str], terms: str = "US", toy: bool = True, usual: float = 1.0
) -> Gauge:
    """The best there is in a pattern: its gauge, else its hook and yarn or one of them, else a guess that says so.

    `toy`: what comes of it is stuffed, and so worked tighter. `usual`: height of its stitches in single crochets.
    """
    found = written(gauge, terms, usual=usual) if gauge else None
    if found is None and _COUNTED.search(gauge):
        guess = estimated("", hook, materials, terms, toy, usual)
        told = (
            f"The pattern's gauge, “{' '.join(gauge.split())[:80]}”, is none that can be measured with. {guess.basis}"
        )
        return replace(guess, basis=told)
    size = own_hook(hook, materials)
    if found is not None:
        return _doubted(found, size, yarns.metres(materials, size), toy, usual)
    if size is not None:
        return from_hook(size, yarns.metres(materials, size), toy, usual)
    weight = next((w for line in yarns.working(materials) if (w := yarns.weight(line))), None)
    if weight is not None:
        return from_yarn(f"{weight.name} yarn", weight.metres, toy, usual)
    if (metres := yarns.metres(materials)) is not None:
        return from_yarn(f"yarn of {_plain(metres)} m for 100 g", metres, toy, usual)
    guess = from_hook(3.0, usual=usual)
    basis = "The pattern names neither gauge nor hook nor yarn: all sizes are guesses for a 3 mm hook."
    return replace(guess, spread=SPREADS["guess"], basis=basis, kind="guess")


def own_hook(hook: str, materials: list[str]) -> float | None:
    """The hook of a pattern, mm, by its own line or by its list; None where neither names one."""
    size = hooks.about(hook) if hook else None
    return _listed(materials) if size is None else size


def _listed(materials: list[str]) -> float | None:
    """The hook that a list names, mm: by what stands at the word, else by the rest of its line without what is beside
    the work: two 5 mm eyes are no hook."""
    lines = [line for line in materials if "hook" in line.lower()]
    own = [part for line in lines for part in yarns.ITEMS.split(line) if "hook" in part.lower()]
    return next((mm for text in [*own, *yarns.working(lines)] if (mm := hooks.about(text))), None)


def _doubted(found: Gauge, hook: float | None, metres: float | None, toy: bool, usual: float) -> Gauge:
    """A pattern's gauge, with a wider spread and a word where its own hook and yarn hardly make it."""
    if hook is None or metres is None:
        return found
    likely = from_hook(hook, metres, toy, usual)
    k = likely.width / found.width
    if 1 - SPREADS["both"] <= k <= 1 / (1 - SPREADS["both"]):
        return found
    told = (
        f"{found.basis} Its {_plain(hook)} mm hook and yarn would rather make stitches of {_plain(likely.width)} mm: "
        "crochet ten of them and measure before you trust either."
    )
    return replace(found, basis=told, spread=max(found.spread, 1 - min(k, 1 / k)))


def by_its_size(guess: Gauge, words: str, k: float) -> Gauge:
    """The fabric in which a piece comes out as large as the text says, `k` times what the guess makes it."""
    found = replace(guess.scaled(k), spread=SPREADS["size"], kind="size")
    basis = (
        f"The pattern says “{words}”: that makes a stitch {_plain(found.width)} mm wide and a round "
        f"{_plain(found.height)} mm high, give or take {100 * found.spread:.0f} %. Without it a stitch would be taken "
        f"for {_plain(guess.width)} mm. Crochet 10 stitches and measure them to know."
    )
    return replace(found, basis=basis)


def _guessed(single: float, basis: str, kind: str, usual: float, then: str = ": a stitch of ") -> Gauge:
    """From the width of a single crochet, mm. `basis`: a sentence without its end."""
    width, tall = single * breadth(usual), breadth(usual) > 1 + (TALL - 1) / 2
    told = f"{basis}{then}{_plain(width)} mm" + f", {TALL} of a single crochet's since most are taller" * tall
    told += f", give or take {100 * SPREADS[kind]:.0f} %; a round {'of single crochet ' * tall}{_plain(ROW * single)} "
    told += "mm high. Crochet 10 stitches and measure them to know."
    return Gauge(width, ROW * single, SPREADS[kind], told, kind, known=False)


def _read(text: str) -> tuple[float | None, float | None]:
    """Width of a stitch and height of a row in mm, each None where the words do not tell."""
    width = height = None
    stitches = rows = disc = 0.0
    counted, measured, across = False, 0.0, False
    for token in _TOKEN.finditer(text):
        if token["disc"]:
            told = token["last"] or token["first"] or token["after"]
            disc = float(_WORDS.get(told.lower()) or told)
        elif token["count"]:
            counted = True
            if re.search(rf"\b{_ROUNDS}$", token["of"], re.IGNORECASE):
                rows = number(token["count"])
            else:
                stitches = number(token["count"])
        elif token["span"] or token["one"]:
            mm = MM[unit(token["one"])] if token["one"] else number(token["span"]) * MM[unit(token["unit"])]
            if disc:
                height, disc, across = mm / 2 / disc, 0.0, True  # from edge to edge
            elif counted:
                width = _share(mm, stitches, width)
                height = _share(mm, rows, height)
                stitches = rows = 0.0
            counted, measured = False, mm
    if counted and measured and width is None and height is None:  # "10 cm = 22 sts and 24 rows"
        width, height = _share(measured, stitches, None), _share(measured, rows, None)
    if width is None and height is not None and not across and _FLAT_DISC.search(text):
        height /= 2  # "4 rounds = 5 cm in diameter"
    return width, height


def _of_both(text: str, terms: str) -> float | None:
    """Height of a single crochet, mm, from rows of two kinds measured together; None where the words hold none."""
    found = _BOTH.search(text)
    if found is None:
        return None
    signs = _TALL if terms == "US" else _TALL_UK
    high = 0.0
    for rows in (found[1], found[2]):
        count = re.match(NUMBER, rows)
        assert count is not None
        high += number(count[0]) * height_factor(next((n for sign, n in signs if sign.search(rows)), 1))
    return number(found[3]) * MM[unit(found[4])] / high


def _share(mm: float, count: float, before: float | None) -> float | None:
    return mm / count if count else before


def _plain(n: float) -> str:
    """A number with as many digits as it deserves: 4.17, 11, 0.03."""
    return f"{n:.3g}" if abs(n) < 100 else f"{n:,.0f}"
