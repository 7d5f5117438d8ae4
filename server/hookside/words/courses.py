"""Words for groups, courses and whole patterns."""

from __future__ import annotations

from collections.abc import Mapping

from hookside.pattern import Course, Group, Node, Pattern, Piece, Repeat, Terms, Words
from hookside.words.cues import Surroundings, cue_words
from hookside.words.names import manner
from hookside.words.phrases import Tongue, full, full_body, short, short_body, spoken, spoken_body
from hookside.words.text import spoken_text, tidy, translate

_NONE: Mapping[str, str] = {}


def group_words(
    group: Group, terms: Terms, abbreviations: Mapping[str, str] = _NONE, written: Terms | None = None
) -> Words:
    """One group three ways, in `terms`. `written`: the terms of the text, where they differ."""
    tongue = Tongue(terms, written or terms, abbreviations)
    return Words(short=short(group, tongue), full=full(group, tongue), spoken=spoken(group, tongue))


def course_words(
    course: Course, terms: Terms, abbreviations: Mapping[str, str] = _NONE, written: Terms | None = None
) -> Words:
    """One course three ways, without its label and without its count, which the screen adds.

    short    the parts of the body by the rule at `phrases.short_body`: "(4 sc, inc) x 7"
    full     a sentence for a beginner
    spoken   a sentence for a voice, no symbols: "single crochet in the next four, then two in the next; seven
             times in all"
    A course that could not be read keeps the designer's words.
    """
    tongue = Tongue(terms, written or terms, abbreviations)
    if not course.read:
        text = tidy(translate(course.text, tongue.written, terms))
        return Words(short=text, full=text, spoken=spoken_text(text, terms))
    line = short_body(course.body, lambda group: short(group, tongue))
    whole = _plain_groups(course)
    if whole is None:
        return Words(short=line, full=full_body(course.body, tongue), spoken=spoken_body(course.body, tongue))
    before, stitch, after = whole
    where = "around" if course.kind == "round" else "across"
    name = tongue.name(stitch.stitch).one
    loop = f"the {stitch.loops} loop of " if stitch.loops else ""
    colour = f" with {stitch.colour}" if stitch.colour else ""
    all_round = f"{name} in {loop}each stitch {where}{colour}"
    parts = [full(g, tongue) for g in before], [full(g, tongue) for g in after]
    said = [spoken(g, tongue) for g in before], [spoken(g, tongue) for g in after]
    return Words(
        short=line,
        full=", then ".join([*parts[0], all_round, *parts[1]]),
        spoken=", then ".join([*said[0], spoken_text(all_round, terms), *said[1]]),
    )


def _plain_groups(course: Course) -> tuple[list[Group], Group, list[Group]] | None:
    """A plain course's one stitch, with the actions and chains before and behind it."""
    if not course.plain:
        return None
    groups = [node for node in course.body if isinstance(node, Group)]
    stitches = [g for g in groups if manner(g) not in ("action", "chain")]
    if len(groups) != len(course.body) or len(stitches) != 1 or stitches[0].into:
        return None
    at = groups.index(stitches[0])
    return groups[:at], stitches[0], groups[at + 1 :]


def dress(pattern: Pattern, terms: Terms | None = None) -> Pattern:
    """A copy of the pattern with every `words` filled, in `terms` (default: the pattern's own)."""
    chosen = terms or pattern.terms
    return pattern.model_copy(update={"pieces": [dress_piece(p, pattern, chosen) for p in pattern.pieces]})


def dress_piece(piece: Piece, pattern: Pattern, terms: Terms) -> Piece:
    """A copy of one piece with every `words` filled, in `terms`. Alike groups and courses are put into words once."""
    groups: dict[tuple[object, ...], Words] = {}
    courses: dict[str, Words] = {}

    def body(nodes: list[Node]) -> list[Node]:
        return [
            node.model_copy(update={"words": of_group(node)})
            if isinstance(node, Group)
            else Repeat(body=body(node.body), times=node.times)
            for node in nodes
        ]

    def of_group(node: Group) -> Words:
        key = (node.stitch, node.count, node.uses, node.makes, node.steps, node.loops, node.into, node.colour)
        if key not in groups:
            groups[key] = group_words(node, terms, pattern.abbreviations, pattern.terms)
        return groups[key]

    def of_course(course: Course, dressed: list[Node]) -> Words:
        line = short_body(dressed, lambda group: f"{group.words.short}|{group.uses}|{group.makes}")
        key = f"{course.kind}|{course.plain}|{line}" if course.read else course.text
        if key not in courses:
            courses[key] = course_words(course, terms, pattern.abbreviations, pattern.terms)
        return courses[key]

    def of(course: Course) -> Course:
        dressed = body(course.body)
        return course.model_copy(update={"body": dressed, "words": of_course(course, dressed)})

    known = Surroundings(piece, pattern)
    cues = [
        cue.model_copy(update={"words": cue_words(cue, terms, pattern.terms, known.of(cue))})
        for cue in piece.cues
    ]
    return piece.model_copy(update={"courses": [of(course) for course in piece.courses], "cues": cues})
