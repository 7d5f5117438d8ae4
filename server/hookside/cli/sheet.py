"""A pattern or a making laid out for paper, as the page lays it out: one HTML file that needs nothing else."""

from __future__ import annotations

import json
import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from html import escape
from typing import Any, Literal

from hookside.cli.hers import called_in, her_colour, in_her_words, strand_in_her_words
from hookside.follow import Strand, courses_done, stitches_between

Paper = Literal["a4", "letter"]
MOST_BOXES = 6  # more copies than boxes fit beside a round are ticked on a line of their own

STYLE = """
@page { size: %s; margin: 14mm; }
:root { --ink: #2b2119; --thread: #8a765d; --hand: #2b2119; --hand-mark: #2b2119; }
body { font: 11pt/1.4 "Atkinson Hyperlegible", Verdana, sans-serif; color: #2b2119; max-width: 46rem; margin: 0 auto; }
h1 { font-size: 1.9em; margin: 0; }
h2 { font-size: 1.3em; margin: 1.2em 0 0.4em; break-after: avoid; }
h2 small { font-weight: 400; font-size: 0.8em; }
ul { list-style: none; margin: 0; padding: 0; }
li { display: grid; grid-template-columns: minmax(1.6em, max-content) 1fr; gap: 0 0.75em; align-items: baseline;
     padding: 0.25em 0; border-top: 1px solid #b9ab97; break-inside: avoid; }
.boxes { display: flex; flex-wrap: wrap; gap: 0.25em; max-width: 6.5em; }
.boxes svg { width: 0.85em; height: 0.85em; fill: none; stroke: #2b2119; stroke-width: 1.5; }
.boxes .worked { fill: #6b5b4b; }
.job { font-style: italic; }
.caution { margin-top: 1em; }
figure { margin: 1em 0 0; max-width: 120mm; break-inside: avoid; }
.chart-frame.chart-frame { max-height: none; overflow: visible; }
.chart.chart { min-width: 0 !important; }
.chart-key li { border: 0; }
@media screen { body { padding: 1.5rem; font-size: 13pt; } }
"""


@dataclass(frozen=True)
class Charts:
    """What draws the charts when the file is opened, by the page's own drawing: script, style, and for which hand."""

    script: str
    style: str
    hand: str


@dataclass
class Laid:
    """A piece on paper: courses and cues as JSON has them, how many are made, which of both each copy has behind it."""

    name: str
    courses: list[dict[str, Any]]
    cues: list[dict[str, Any]]
    made: int
    worked: list[Collection[str]] = field(default_factory=list)
    copies: list[int] = field(default_factory=list)


def of_pattern(pattern: Mapping[str, Any]) -> list[Laid]:
    """The pieces of a pattern as its text has them."""
    return [Laid(piece["name"], piece["courses"], piece["cues"], piece["make"]) for piece in pattern["pieces"]]


def of_making(snapshot: Mapping[str, Any]) -> list[Laid]:
    """The pieces of a making as they are worked there: in its terms and her colours, mends with it. Copies that differ
    stand by themselves."""
    laid: dict[tuple[str, str, str], Laid] = {}
    for run in snapshot["runs"]:
        now = snapshot["state"]["runs"][run["run"]]
        strand = Strand.model_validate(snapshot["strands"][now["strand"]])
        called = called_in(snapshot["choices"], run["run"])
        key = (run["run"].split(".")[0], strand.id, repr(sorted(called.items())))
        if key not in laid:
            worded = strand_in_her_words(strand, called)
            courses = [course.model_dump(mode="json") for course in worded.courses]
            laid[key] = Laid(run["piece"], courses, list(_cues(worded, called)), 0)
        laid[key].made += 1
        laid[key].copies.append(run["copy"])
        jobs = {cue.address for cue in strand.cues if cue.step < now["at"]}
        laid[key].worked.append(jobs | {course.id for course in strand.courses[: courses_done(strand, now["at"])]})
    numbers = [number for number, _, _ in laid]
    for (number, _, _), one in laid.items():
        if numbers.count(number) > 1:
            one.name = f"{one.name} {', '.join(map(str, one.copies))}"
    return list(laid.values())


def _cues(strand: Strand, called: Mapping[str, str]) -> Iterator[dict[str, Any]]:
    """The cues with the course that each follows or stands in; worked-out whispers only in a section of jobs."""
    for cue in strand.cues:
        if cue.weight == "whisper" and cue.basis == "worked out" and strand.courses:
            continue
        after = next((course for course in reversed(strand.courses) if course.first < cue.step), None)
        at = stitches_between(strand, after.first, cue.step) if after and cue.step < after.end else None
        told = {"course_id": after and after.id, "at": at, "text": in_her_words(cue.text, called)}
        yield {**cue.model_dump(mode="json"), **told}


def page(
    title: str,
    terms: str,
    pieces: Sequence[Laid],
    gathered: Mapping[str, Any] | None,
    paper: Paper,
    chosen: Mapping[str, Any],
    charts: Charts | None = None,
) -> str:
    """The whole file. `chosen`: of the making, for what she calls the colours. Without `charts` there are none."""
    parts = [f"<h1>{escape(title or 'Pattern')}</h1>", f"<p>{escape(terms)} terms.</p>"]
    if gathered and gathered["items"]:
        lines = [
            _line(
                _boxes(1, [item["id"] in chosen.get("ticks", {}).get("gather", [])]),
                escape(", ".join(filter(None, (item["name"], item["amount"]))) + _yours(item, gathered, chosen)),
            )
            for item in gathered["items"]
        ]
        parts += ["<h2>To have at hand</h2>", "<ul>", *lines, "</ul>"]
    parts += [f"<p>{escape(say)}</p>" for say in (gathered or {}).get("first", [])]
    for number, piece in enumerate(pieces):
        parts += _piece(piece)
        if charts is not None and piece.courses:
            parts.append(f'<figure id="chart-{number}"></figure>')
    parts += [f'<p class="caution">{escape(one["text"])}</p>' for one in (gathered or {}).get("cautions", [])]
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f"<title>{escape(title or 'Pattern')}</title>\n"
        f"<style>{charts.style if charts else ''}{STYLE % ('A4' if paper == 'a4' else 'letter')}</style>\n"
        "</head>\n<body>\n"
        + "\n".join(parts)
        + (_drawn(pieces, terms, charts) if charts else "")
        + "\n</body>\n</html>\n"
    )


def _drawn(pieces: Sequence[Laid], terms: str, charts: Charts) -> str:
    """The pieces as data, and the script that draws them. Nothing in either ends its element early."""
    told = [
        {"at": f"chart-{number}", "name": piece.name, "courses": piece.courses}
        for number, piece in enumerate(pieces)
        if piece.courses
    ]
    data = json.dumps({"hand": charts.hand, "terms": terms, "pieces": told}, ensure_ascii=False).replace("<", "\\u003c")
    script = charts.script.replace("</script", "<\\/script").replace("<!--", "<\\!--")
    return f'\n<script type="application/json" id="pieces">{data}</script>\n<script>{script}</script>'


def _yours(item: Mapping[str, Any], gathered: Mapping[str, Any], chosen: Mapping[str, Any]) -> str:
    hers = her_colour(item["id"], chosen, gathered["pieces"])
    return f"; yours: {hers}" if hers else ""


def _piece(piece: Laid) -> Iterator[str]:
    many = f" <small>make {piece.made}</small>" if piece.made > 1 else ""
    yield f"<h2>{escape(piece.name or 'The work')}{many}</h2>"
    yield "<ul>"
    for cue in piece.cues:
        if cue["course_id"] is None:
            yield _job(piece, cue)
    for courses in stretches(piece):
        boxes = "".join(_copies(piece, course["id"]) for course in courses)
        words = (courses[0]["read"] and courses[0]["words"]["short"]) or courses[0]["text"]
        count = f" ({courses[0]['makes']})" if courses[0]["makes"] else ""
        yield _line(boxes, f"<b>{named(courses)}</b> {escape(words)}{count}")
        for cue in piece.cues:
            if cue["course_id"] == courses[-1]["id"]:
                yield _job(piece, cue, courses[-1])
    yield "</ul>"


def stretches(piece: Laid) -> list[list[dict[str, Any]]]:
    """Neighbouring courses that say the same, with nothing due between them, once: "rounds 9 to 12"."""
    busy = {cue["course_id"] for cue in piece.cues}
    found: list[list[dict[str, Any]]] = []
    for course in piece.courses:
        last = found[-1][-1] if found else None
        alike = ("text", "kind", "uses", "makes", "read")
        if last and course["read"] and last["id"] not in busy and all(last[key] == course[key] for key in alike):
            found[-1].append(course)
        else:
            found.append([course])
    return found


def named(courses: Sequence[Mapping[str, Any]]) -> str:
    """ "Round 4", "Rounds 9 to 12" """
    first, last = courses[0], courses[-1]
    kind = "Row" if first["kind"] == "row" else "Round"
    if len(courses) > 1:
        return f"{kind}s {first['label']} to {last['label']}"
    if first["label"] == "0":
        return "First row" if kind == "Row" else "Start"
    return f"{kind} {first['label']}"


def _copies(piece: Laid, what: str) -> str:
    """A box for each copy, of a course by its id or of a job by its address."""
    return _boxes(min(piece.made, MOST_BOXES), [what in worked for worked in piece.worked])


def _job(piece: Laid, cue: Mapping[str, Any], course: Mapping[str, Any] | None = None) -> str:
    place = ""
    if course and cue["at"] is not None:
        stitches = "1 stitch" if cue["at"] == 1 else f"{cue['at']} stitches"
        place = f"In {course['kind']} {course['label']}, after {stitches}: "
    return _line(_copies(piece, cue["address"]), escape(place + job_words(cue)), "job")


def job_words(cue: Mapping[str, Any]) -> str:
    """A job in its short words and, where the designer's own sentence says more, in that one as well: the twin of
    pages/read/jobs.ts."""
    words, own = cue["words"]["short"], cue["text"].strip()
    if not words or cue["basis"] != "written":
        return str(words or own)
    if _letters(own) in _letters(words):
        return str(words)
    return str(own) if _letters(own).startswith(_letters(words)) else f"{words}: \u201c{own}\u201d"


def _letters(text: str) -> str:
    return re.sub(r"[\W_]+", " ", text.lower()).strip()


def _line(boxes: str, words: str, kind: str = "") -> str:
    return f"<li{f' class={kind}' if kind else ''}><span class=boxes>{boxes}</span><span>{words}</span></li>"


def _boxes(many: int, filled: Iterable[bool] = ()) -> str:
    """Boxes to tick, side by side: one for each copy."""
    worked = [*filled, *([False] * many)][:many]
    box = '<svg viewBox="0 0 14 14"><rect x="1.5" y="1.5" width="11" height="11"{}/></svg>'
    return "".join(box.format(' class="worked"' if one else "") for one in worked)
