"""How well the reader reads a collection of texts whose truth is known.

    python tests/score.py --blind      totals for tests/collection_blind, and nothing that names a text or a course
    python tests/score.py FOLDER       totals for another folder of the same layout, with every difference

A collection is a folder of NAME.txt with NAME.json:

    {"style": "...", "terms": "US"|"UK",
     "pieces": [{"name": "Body", "make": 1, "courses": [
        {"label": "4", "kind": "round", "uses": 18|null, "makes": 24|null, "declared": 24|null, "unworked": 6}]}],
     "cues": [{"piece": "Body", "after": "22", "kind": "stuff", "also": ["close"], "optional": true}],
     "mistakes": [{"piece": "Body", "course": "12", "why": "..."}]}

`uses` null is not looked at; `makes` null means that the text does not decide it: right is to leave it open or to
say something at that course. `unworked` (left out when 0) are stitches of the course below that the text leaves.
`also` are kinds that say the same job in other words ("Fasten off, leaving a tail for sewing"); an `optional` cue
may be read or not. The blind half is written by someone who has not read the reader's source, and its details stay
unprinted, so that the reader is not bent to fit these very texts.
"""

from __future__ import annotations

import json
import re
import sys
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

TESTS = Path(__file__).resolve().parent
BLIND = TESTS / "collection_blind"
sys.path.insert(0, str(TESTS.parent / "server"))

from hookside.pattern import Course, Finding, Pattern, Piece  # noqa: E402  (the path above comes first)

SPOKEN = ("error", "warning", "note")
Truth = dict[str, Any]


@dataclass
class Score:
    """Counts over a collection; the rates are worked out from them."""

    texts: int = 0
    counts: Counter[str] = field(default_factory=Counter)
    details: list[str] = field(default_factory=list)

    def rate(self, part: str, whole: str) -> float:
        """Share of `part` in `whole`, 1.0 where there is nothing to get wrong."""
        return self.counts[part] / self.counts[whole] if self.counts[whole] else 1.0

    @property
    def crashes(self) -> int:
        """How often the reader fell over."""
        return self.counts["crashes"]

    @property
    def courses_right(self) -> float:
        """Share of courses read with the right stitch count."""
        return self.rate("makes right", "courses")

    @property
    def silent(self) -> float:
        """Share of courses with a wrong count and no finding on them."""
        return self.counts["silent"] / max(1, self.counts["courses"])

    @property
    def cues_right(self) -> float:
        """Share of cues of the right kind at the right course."""
        return self.rate("cues right", "cues")

    @property
    def mistakes_found(self) -> float:
        """Share of planted mistakes with a finding at their course."""
        return self.rate("mistakes found", "mistakes")

    @property
    def false_errors(self) -> float:
        """Errors on courses in which nothing is wrong, per 200 of them."""
        return 200 * self.counts["false errors"] / max(1, self.counts["sound courses"])


def plain_name(name: str) -> str:
    """A heading without dress, case, article or number of copies, to compare two of them."""
    name = re.sub(r"^\W*the\s+|\(.*?\)|\bmake\s+\w+|\bx\s*\d+|\b\d+\s*x\b", " ", name.casefold())
    return re.sub(r"[^a-z0-9]+", "", name)


def _likeness(truth: Truth, piece: Piece) -> float:
    """How surely a read piece is the true one: its name first, then its courses."""
    a, b = plain_name(truth["name"]), plain_name(piece.name)
    same_name = 4.0 if a == b else 2.0 if a and b and (a in b or b in a) else 0.0
    wanted = {c["label"] for c in truth["courses"]}
    got = {c.label for c in piece.courses}
    if not wanted and not got:
        return same_name + 0.5
    if not wanted or not got:
        return same_name / 4
    return same_name + 2 * len(wanted & got) / len(wanted | got)


def pair_pieces(truths: Sequence[Truth], pieces: Sequence[Piece]) -> list[tuple[Truth | None, Piece | None]]:
    """True pieces beside read ones, in order, so that the likeness over all pairs is greatest."""
    n, m = len(truths), len(pieces)
    best = [[0.0] * (m + 1) for _ in range(n + 1)]
    for i in range(n - 1, -1, -1):
        for j in range(m - 1, -1, -1):
            with_each_other = _likeness(truths[i], pieces[j]) + best[i + 1][j + 1]
            best[i][j] = max(with_each_other, best[i + 1][j], best[i][j + 1])
    out: list[tuple[Truth | None, Piece | None]] = []
    i = j = 0
    while i < n or j < m:
        if i < n and j < m:
            like = _likeness(truths[i], pieces[j])
            if like > 0 and best[i][j] == like + best[i + 1][j + 1]:
                out.append((truths[i], pieces[j]))
                i, j = i + 1, j + 1
                continue
        if i < n and (j == m or best[i][j] == best[i + 1][j]):
            out.append((truths[i], None))
            i += 1
        else:
            out.append((None, pieces[j]))
            j += 1
    return out


def pair_courses(truths: Sequence[Truth], courses: Sequence[Course]) -> list[tuple[Truth | None, Course | None]]:
    """True courses beside read ones of the same label; the n-th of a label beside the n-th."""
    waiting: dict[str, list[Course]] = {}
    for course in courses:
        waiting.setdefault(course.label, []).append(course)
    out: list[tuple[Truth | None, Course | None]] = []
    for truth in truths:
        same = waiting.get(truth["label"])
        out.append((truth, same.pop(0) if same else None))
    out.extend((None, course) for same in waiting.values() for course in same)
    return out


def _sewing_up(truth: Truth, pattern: Pattern) -> list[Piece]:
    """The pieces as the truth counts them: where it knows no part of the sewing up, that belongs to the last piece.

    Either is a right way to tell it: jobs behind the last course of all, or under their own heading without courses.
    """
    pieces = list(pattern.pieces)
    if not all(p["courses"] for p in truth["pieces"]):
        return pieces
    while len(pieces) > 1 and not pieces[-1].courses and pieces[-2].courses:
        last = pieces.pop()
        before = pieces[-1]
        at = before.courses[-1].label
        pieces[-1] = before.model_copy(
            update={"cues": [*before.cues, *(cue.model_copy(update={"after": at}) for cue in last.cues)]}
        )
    return pieces


def _spoken_of(pattern: Pattern, piece: Piece, course: Course) -> list[Finding]:
    """Findings that stand at this course."""
    return [
        f
        for f in pattern.findings
        if f.severity in SPOKEN
        and (f.course_id == course.id or (f.course_id is None and f.piece == piece.name and f.course == course.label))
    ]


def score_text(truth: Truth, pattern: Pattern, score: Score, name: str = "") -> None:
    """Add one text's figures to `score`."""
    counts, say = score.counts, score.details.append
    score.texts += 1
    counts["texts"] += 1
    counts["terms right"] += pattern.terms == truth["terms"]
    mistakes = {(m["piece"], m["course"]) for m in truth["mistakes"]}
    found: set[tuple[str, str]] = set()
    told: set[int] = set()
    pairs = pair_pieces(truth["pieces"], _sewing_up(truth, pattern))
    for true_piece, piece in pairs:
        if true_piece is None:
            assert piece is not None
            counts["courses extra"] += len(piece.courses)
            counts["pieces extra"] += 1
            say(f"{name}: piece not in the truth: {piece.name!r} with {len(piece.courses)} courses")
            continue
        counts["pieces"] += 1
        where = f"{name} / {true_piece['name']}"
        counts["courses"] += len(true_piece["courses"])
        if piece is None:
            counts["courses missing"] += len(true_piece["courses"])
            say(f"{where}: piece not read ({len(true_piece['courses'])} courses)")
            continue
        counts["pieces read"] += 1
        counts["names right"] += plain_name(true_piece["name"]) == plain_name(piece.name)
        counts["copies right"] += true_piece["make"] == piece.make
        if true_piece["make"] != piece.make:
            say(f"{where}: make {piece.make}, truth {true_piece['make']}")
        # A planted mistake can rightly be spoken of at the next course as well: that one is neither sound nor unsound.
        before: str | None = None
        for true_course, course in pair_courses(true_piece["courses"], piece.courses):
            if true_course is None:
                assert course is not None
                counts["courses extra"] += 1
                say(f"{where}: course {course.label} is not in the truth: {course.text!r}")
                continue
            label = true_course["label"]
            planted = (true_piece["name"], label) in mistakes
            after_planted = before is not None and (true_piece["name"], before) in mistakes
            before = label
            if course is None:
                counts["courses missing"] += 1
                say(f"{where} {label}: not read")
                continue
            spoken = _spoken_of(pattern, piece, course)
            told.update(id(f) for f in spoken)
            if planted and spoken:
                found.add((true_piece["name"], label))
            if not planted and not after_planted:
                counts["sound courses"] += 1
                errors = [f for f in spoken if f.severity == "error"]
                for f in errors:
                    counts[f"false {f.code}"] += 1
                counts["false errors"] += bool(errors)
                counts["notes on sound courses"] += bool(spoken) and not errors
                for f in errors:
                    say(f"{where} {label}: error on a sound course: {f.message}")
            _score_course(true_course, course, bool(spoken), planted, score, f"{where} {label}")
    loose = [f for f in pattern.findings if f.severity == "error" and id(f) not in told]
    if loose and not mistakes:
        counts["false errors"] += len(loose)
        for f in loose:
            say(f"{name}: error at line {f.line} of a sound text: {f.message}")
    counts["mistakes"] += len(mistakes)
    counts["mistakes found"] += len(found)
    for piece_name, label in sorted(mistakes - found):
        say(f"{name} / {piece_name} {label}: planted mistake not found")
    _score_cues(truth, pairs, score, name)


def _score_course(true: Truth, course: Course, spoken: bool, planted: bool, score: Score, where: str) -> None:
    counts, say = score.counts, score.details.append
    counts["kind right"] += true["kind"] == course.kind
    counts["courses read"] += 1
    counts["declared right"] += true["declared"] == course.declared
    if true["declared"] != course.declared:
        say(f"{where}: printed count {course.declared}, truth {true['declared']}")
    undecided = true["makes"] is None
    right = course.makes == true["makes"] or (undecided and spoken)
    counts["makes right"] += right
    if not right:
        # A mistake that was planted and spoken of is no silent misreading; unread (None) is not silent either.
        silent = course.makes is not None and not spoken
        counts["silent"] += silent
        counts["left open"] += course.makes is None
        counts["wrong, said"] += course.makes is not None and not silent
        how = "WRONG IN SILENCE" if silent else "wrong, said"
        say(f"{where}: makes {course.makes}, truth {true['makes']} ({how}): {course.text!r}")
    if true["uses"] is not None and not planted:
        counts["uses known"] += 1
        counts["uses right"] += course.uses == true["uses"]
        if course.uses != true["uses"]:
            say(f"{where}: uses {course.uses}, truth {true['uses']}: {course.text!r}")


def _score_cues(truth: Truth, pairs: Sequence[tuple[Truth | None, Piece | None]], score: Score, name: str) -> None:
    """Cues as sets of (piece, after, kind): two "sew" sentences at one place are one job here."""
    counts, say = score.counts, score.details.append
    for true_piece, piece in pairs:
        got = {(c.after, c.kind) for c in piece.cues if c.basis == "written"} if piece is not None else set()
        wanted = [c for c in truth["cues"] if true_piece is not None and c["piece"] == true_piece["name"]]
        expected: set[tuple[str, str]] = set()
        labels = ["0", *(c["label"] for c in true_piece["courses"])] if true_piece is not None else ["0"]
        for cue in wanted:
            kinds = {cue["kind"], *cue.get("also", ())}
            places = {(cue["after"], kind) for kind in kinds}
            expected |= places
            if cue.get("optional"):
                # Inside a course it may be held at that course or at the one before.
                at = labels.index(cue["after"])
                expected |= {(label, kind) for label in labels[at : at + 2] for kind in kinds}
                continue
            counts["cues"] += 1
            if places & got:
                counts["cues right"] += 1
            else:
                say(f"{name} / {cue['piece']} after {cue['after']}: no {'/'.join(sorted(kinds))} cue")
        for after, kind in sorted(got - expected):
            counts["cues spurious"] += 1
            whose = true_piece["name"] if true_piece is not None else piece.name if piece is not None else "?"
            say(f"{name} / {whose} after {after}: {kind} cue that is not in the truth")


def truths(folder: Path) -> list[tuple[str, str, Truth]]:
    """(name, text, truth) of every text in a folder, by name."""
    out = []
    for path in sorted(folder.glob("*.json")):
        text = path.with_suffix(".txt").read_bytes().decode("utf-8")
        out.append((path.stem, text, json.loads(path.read_text(encoding="utf-8"))))
    return out


def score_folder(folder: Path) -> Score:
    """Read every text of a folder and compare it with its truth."""
    from hookside.notation import read

    score = Score()
    for name, text, truth in truths(folder):
        try:
            pattern = read(text)
        except Exception as trouble:  # the reader must never fall over: that is a figure of its own
            score.counts["crashes"] += 1
            score.details.append(f"{name}: the reader fell over: {trouble!r}")
            pattern = Pattern()
        score_text(truth, pattern, score, name)
    return score


def table(score: Score) -> str:
    """The totals, as lines."""
    c = score.counts

    def share(part: str, whole: str) -> str:
        return f"{c[part]} of {c[whole]} ({100 * score.rate(part, whole):.2f} %)"

    return "\n".join(
        [
            f"texts {score.texts}, the reader fell over in {score.crashes}",
            f"courses right            {share('makes right', 'courses')}",
            f"wrong in silence         {c['silent']} ({100 * score.silent:.2f} %)",
            f"courses missing, extra   {c['courses missing']}, {c['courses extra']}",
            f"cues right               {share('cues right', 'cues')}, spurious {c['cues spurious']}",
            f"planted mistakes found   {share('mistakes found', 'mistakes')}",
            f"false errors             {c['false errors']} on {c['sound courses']} sound courses"
            f" ({score.false_errors:.2f} per 200); other findings on {c['notes on sound courses']}",
            f"not right: left open     {c['left open']}, wrong and said {c['wrong, said']}; false errors by kind: "
            + ", ".join(
                f"{kind.removeprefix('false ')} {n}"
                for kind, n in sorted(c.items())
                if kind.startswith("false ") and kind != "false errors"
            ),
            f"terms                    {share('terms right', 'texts')}",
            f"pieces                   {share('pieces read', 'pieces')}, extra {c['pieces extra']}",
            f"  names, copies          {share('names right', 'pieces read')}, {share('copies right', 'pieces read')}",
            f"kind                     {share('kind right', 'courses read')}",
            f"printed count            {share('declared right', 'courses read')}",
            f"uses                     {share('uses right', 'uses known')}",
        ]
    )


def main(arguments: Sequence[str]) -> int:
    """The command line. Exit 0 when a collection was scored, 2 when there was none."""
    blind = list(arguments) == ["--blind"]
    if not blind and (len(arguments) != 1 or not Path(arguments[0]).is_dir()):
        print("Say --blind, or name a folder of texts with their truths.", file=sys.stderr)
        return 2
    folder = BLIND if blind else Path(arguments[0]).resolve()
    score = score_folder(folder)
    if not blind and folder != BLIND:
        print("\n".join(score.details))
    print(table(score))
    return 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
