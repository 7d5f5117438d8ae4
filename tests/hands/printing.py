"""A whole pattern in one hand, with its truth.

Rules, so that a fair human reader could work it out:
- counts are printed at every course where the labels say least (a bare number, one paragraph, slips of the keyboard);
- a bare number as label has a sign behind it where figures follow;
- a run of courses in one label only where this hand's labels have such a form, otherwise each by itself;
- "as before" only behind an even course.
"""

from __future__ import annotations

from typing import Any

from dialects.dialect import Dialect
from dialects.made import Again, Change, Course, Part, Piece, Plain, pattern
from dialects.printing import Printed
from dialects.runs import alike

from . import counts, headings, jobs, labels, pages, repeats, starts, stitches

SEPARATORS = {", ": 8, "; ": 1, " then ": 0.5, ", then ": 1, " + ": 0.5, ",": 0.8, " / ": 0.5, " and ": 0.3,
    " - ": 0.3, ". ": 0.3}
RUNS = {"range": 8, "each": 2, "others": 3, "rounds": 1.5}
OTHERS = (
    "rep rnd P", "same as rnd P", "repeat round P", "as rnd P", "same", "like rnd P", "same as before", "ditto",
    "as R P",
    "repeat rnd P", "work as round P", "same as round P", "as round P", "as above", "repeat last round", "the same",
)  # fmt: skip
SENTENCES = (
    "Work 4 more rounds like that.", "Repeat round P 4 more times.", "4 more rounds the same.",
    "Repeat rnd P 4 times more.",
    "Do 4 more rounds even.", "Next 4 rounds: S in each st.", "Work even for 4 more rounds.",
    "Repeat the last round 4 more times.",
    "Rep rnd P for 4 more rounds.", "Another 4 rounds like this.", "4 more rounds.", "Next 4 rnds: same as rnd P.",
)  # fmt: skip
TURNS = ("ch 1, turn, @", "@, ch 1, turn", "@. Turn.", "@ - turn", "Turn, ch 1, @", "@; ch1 turn", "@",
    "ch1, @, turn",
         "@, turn", "@ (turn)", "Ch 1. @. Turn.", "@. Ch 1, turn.", "turn. ch1. @")  # fmt: skip
JOINS = ("@", "@", "@", "@", "@, sl st to join", "ch 1, @, join", "@, join with sl st", "@. Join.",
    "Ch1, @, sl st to first st",
         "@, join, ch 1", "@; sl st in first st", "@, ss to join")  # fmt: skip
COLOURS = ("blue", "white", "red", "yellow", "black", "grey")


def _body(d: Dialect, parts: tuple[Part, ...], flat: bool, counted: bool) -> str:
    if len(parts) == 1 and isinstance(parts[0], Again) and len(parts[0].parts) == 1:
        only = parts[0].parts[0]
        assert isinstance(only, Change)
        return stitches.all_round(d, only.kind, parts[0].times, flat)
    words: list[str] = []
    sep = d.pick("hand.separator", SEPARATORS)
    for at, part in enumerate(parts):
        final = at == len(parts) - 1
        if isinstance(part, Plain):
            if part.n:
                words.append(stitches.plain(d, part.n, last=final and at > 0, alone=final))
        elif isinstance(part, Change):
            words.append(stitches.changes(d, part.kind, part.n))
        elif len(part.parts) == 1 and isinstance(part.parts[0], Change):
            words.append(stitches.changes(d, part.parts[0].kind, part.times))
        else:
            inner = [
                stitches.plain(d, p.n) if isinstance(p, Plain) else stitches.change(d, p.kind)
                for p in part.parts
                if not isinstance(p, Plain) or p.n
            ]
            inside = sep if sep not in (". ", " - ") else ", "
            words.append(repeats.again(d, _together(inner, inside), part.times, whole=len(parts) == 1, last=final,
                                       counted=counted, flat=flat))  # fmt: skip
    return _together(words, sep)


def _together(words: list[str], sep: str) -> str:
    """Rule: a sign that could belong to what stands beside it gives way to a comma."""
    if sep == "," and any(w[:1].isdigit() for w in words[1:]):
        sep = ", "
    if sep == " and " and (len(words) > 2 or any("st" in w for w in words)):
        sep = ", "
    return sep.join(words)


def _runs(d: Dialect, piece: Piece) -> list[list[Course]]:
    stops = {j.after for j in piece.jobs}
    how = d.pick("hand.runs", RUNS)
    out: list[list[Course]] = []
    for course in piece.courses:
        before = out[-1][-1] if out else None
        if before is not None and how != "each" and alike(before, course) and before.number not in stops:
            out[-1].append(course)
        else:
            out.append([course])
    return out


def _course(d: Dialect, piece: Piece, run: list[Course]) -> str:
    course = run[0]
    flat = piece.flat
    ahead = counts.ahead(d, course)
    behind = counts.behind(d, course, stitches.stitch(d))
    counted = bool(ahead or behind)
    if course.how in ("ring", "oval", "chain"):
        body = starts.start(d, course)
    elif course.tints:
        form = d.pick("hand.tint", ("C: T", "(C) T", "T in C", "with C T", "T (C)", "in C T", "[C] T", "C T",
            "T C", "T with C"))
        body = ", ".join(form.replace("C", c).replace("T", f"{n} {stitches.stitch(d)}") for n, c in course.tints)
    elif course.how == "even":
        body = stitches.even(d, course.makes, flat, course.loops)
    else:
        body = _body(d, course.parts, flat, counted)
    if flat:
        turn = d.pick("hand.turn", TURNS)
        if course.how == "chain" and not turn.startswith("@"):
            turn = "@"
        body = turn.replace("@", body)
    else:
        join = d.pick("hand.join", JOINS)
        if course.number == 1 and not join.startswith("@"):
            join = "@" + join.split("@")[1]
        body = join.replace("@", body)
    if body.endswith(".") and behind.startswith("."):
        behind = behind[1:]
    label = labels.several(d, [c.number for c in run], flat, ahead) if len(run) > 1 else None
    if label is None:
        label = labels.single(d, course.number, flat, ahead)
    if label[-1:] == " " and label.rstrip()[-1:].isdigit() and body[:1].isdigit():
        label = label.rstrip() + ": "
    if d.has("hand.capital", 0.5):
        body = body[:1].upper() + body[1:]
    return label + body + behind


def _lines(d: Dialect, piece: Piece, run: list[Course]) -> tuple[list[str], list[bool]]:
    """(the lines of a run, for each course whether its count is printed)."""
    flat = piece.flat
    has = counts.counted(d, run[0])
    n = len(run)
    how = d.chosen["hand.runs"]
    if n == 1:
        return [_course(d, piece, run)], [has]
    one = labels.several(d, [1, 2], flat)
    if how == "range" and one is not None:
        return [_course(d, piece, run)], [has] * n
    if how == "rounds" and not d.chosen["hand.layout"].startswith("par"):
        form = d.pick("hand.rounds", ("Next 5 rounds: @", "5 rounds: @", "Work 5 rounds: @",
            "For the next 5 rounds, @",
                                      "@ for 5 rounds", "@ (5 rounds)", "@ for the next 5 rounds",
                                      "Then 5 rounds of @",
                                      "5 rnds @", "Next 5 rnds - @", "(5 rounds) @", "@, 5 rounds",
                                      "@ x 5 rounds"))  # fmt: skip
        form = form.replace("rounds", "rows").replace("rnds", "rows") if flat else form
        inside = stitches.even(d, run[0].makes, flat, "")
        return [form.replace("5", str(n)).replace("@",
            inside) + counts.behind(d, run[0], stitches.stitch(d))], [has] * n
    if how == "others":
        before = run[0].number
        first = _course(d, piece, run[:1])
        if one is not None and d.has("hand.others labelled", 0.6):
            rest = [c.number for c in run[1:]]
            text = labels.several(d, rest, flat) if n > 2 else labels.single(d, rest[0], flat)
            ref = d.pick("hand.others", OTHERS)
            text = f"{text}{ref}"
        else:
            text = d.pick("hand.others sentence", SENTENCES).replace("4", str(n - 1) if n > 2 else "1")
            if n == 2:
                text = text.replace("rounds", "round").replace("rnds", "rnd").replace("1 more times", "once more")
                text = text.replace("1 times more", "once more").replace("Another 1 round", "Another round")
                text = text.replace("Next 1 ", "Next ")
        text = text.replace("R P", f"R{before}").replace("P", str(before))
        if flat:
            text = text.replace("round", "row").replace("rnds", "rows").replace("rnd", "row")
        text = text.replace("S in", f"{stitches.stitch(d)} in")
        return [first, text], [has] + [False] * (n - 1)
    return [_course(d, piece, [c]) for c in run], [counts.counted(d, c) for c in run]


def _settled(d: Dialect) -> None:
    """Choices that others depend on."""
    how = d.pick("hand.layout", pages.LAYOUTS)
    form = d.pick("hand.label", labels.SINGLE)
    slip = d.pick("hand.slip", pages.SLIPS)
    bare = not any(c.isalpha() for c in form.replace("{N}", ""))
    if how.startswith("paragraph") or how == "two a line":
        if bare or "\n" in form or form.endswith(("| ", "\t")) or form in ("R{N} ", "Rnd{N} ", "RND {N} ",
            "round {N} "):
            d.chosen["hand.label"] = "Rnd {N}: "
        if "\n" in d.pick("hand.count", counts.BEHIND):
            d.chosen["hand.count"] = " (24)"
        for name, options in (("hand.separator", SEPARATORS),):
            if d.pick(name, options).strip() in (".", "/", ";"):
                d.chosen[name] = ", "
        if d.pick("hand.count", counts.BEHIND).startswith((" /", ";", ".", " //")):
            d.chosen["hand.count"] = " (24)"
    if bare or slip or how.startswith("paragraph") or how == "two a line":
        d.chosen["hand.count often"] = "always"
    if d.pick("hand.count", counts.BEHIND).strip()[:1] in ("#", "*") and form[0] in "#*":
        d.chosen["hand.count"] = " (24)"
    d.marks = set()


def _story(d: Dialect, where: str) -> list[tuple[str, str]]:
    """Talk behind a course now and then, by those who talk and write line by line."""
    if not d.has("hand.story", 0.25) or d.chosen["hand.layout"].startswith("par"):
        return []
    return [("said", d.now("hand.story told", jobs.STORY, where))] if d.chance(f"story/{where}").random() < 0.2 else []


def _piece(d: Dialect, piece: Piece, at: int, out: Printed) -> tuple[list[str], list[tuple[str, str]]]:
    d.marks = set()
    heads = headings.heading(d, piece, at, d.chance(f"colour/{at}").choice(COLOURS))
    about = set(d.marks)
    lines: list[tuple[str, str]] = []
    courses: list[dict[str, Any]] = []
    for run in _runs(d, piece):
        d.marks = set()
        new, printed_counts = _lines(d, piece, run)
        lines += [("course", text) for text in new]
        for course, has in zip(run, printed_counts, strict=True):
            key = (piece.name, str(course.number))
            out.marks[key] = set(d.marks) | about
            out.lines[key] = new[-1]
            courses.append({"label": str(course.number), "kind": "row" if piece.flat else "round",
                "uses": course.uses,
                            "makes": course.makes,
                            "declared": course.makes + course.misprint if has else None})  # fmt: skip
            if course.misprint and has:
                out.truth["mistakes"].append({"piece": piece.name, "course": str(course.number), "why": "demo"})
        for job in [j for j in piece.jobs if j.after == run[-1].number]:
            sentence, cues = jobs.told(d, job)
            out.truth["cues"] += [{**c, "piece": piece.name} for c in cues]
            text, behind = jobs.placed(d, sentence, job.kind, lines[-1][1])
            lines[-1] = (lines[-1][0], text)
            lines += [("said", b) for b in behind]
            for key in out.marks:
                if key[0] == piece.name:
                    out.marks[key] |= {f"job {sentence}", *(m for m in d.marks if "place" in m)}
        lines += _story(d, f"{at}/{run[0].number}")
    out.truth["pieces"].append({"name": piece.name, "make": piece.make, "courses": courses})
    return heads, lines


def printed(number: int) -> Printed:
    """Text number `number` with its truth."""
    d = Dialect(number)
    whole = pattern(d.chance("pattern"))
    _settled(d)
    terms = "UK" if stitches.uk(d) else "US"
    out = Printed("", {"style": "hand", "terms": terms, "pieces": [], "cues": [], "mistakes": []})
    pieces = [_piece(d, piece, at, out) for at, piece in enumerate(whole.pieces[:3], 1)]
    d.marks = set()
    top = [whole.title]
    if stitches.uk(d):
        top += [d.pick("hand.terms", ("UK terms", "(UK terms)", "Uses UK terms.", "UK crochet terms used",
            "British terms"))]
    if d.has("hand.materials", 0.4):
        top += ["", "Materials: yarn in blue, white and red, 3 mm hook, stuffing"]
    if d.has("hand.abbreviations", 0.2) and not stitches.uk(d):
        top += ["", "sc = single crochet, inc = increase, dec = decrease"]
    text = pages.laid(d, pieces, top)
    out.text = pages.cased(d, pages.slipped(d, text))
    d.pick("hand.layout", pages.LAYOUTS)
    for m in out.marks.values():
        m |= d.marks
    return out



