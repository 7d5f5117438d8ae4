"""Words for groups, courses and whole patterns."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from hookside.pattern import Course, Cue, Group, Node, Pattern, Piece, Repeat, Terms, Words, altered, unchecked
from hookside.words.cues import Surroundings, cue_words, spoken_of
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


def _dressed(bare: list[Node], nodes: dict[int, Node], told: Callable[[Group], Words]) -> list[Node]:
    """Nodes with their words; `nodes` has those that were dressed before, by their identity."""
    out = []
    for node in bare:
        new = nodes.get(id(node))
        if new is None:
            if isinstance(node, Group):
                new = altered(node, words=told(node))
            else:
                new = unchecked(Repeat, type="repeat", body=_dressed(node.body, nodes, told), times=node.times)
            nodes[id(node)] = new
        out.append(new)
    return out


def dress_piece(piece: Piece, pattern: Pattern, terms: Terms) -> Piece:
    """A copy of one piece with every `words` filled, in `terms`. Alike groups and courses are put into words once, and
    what stands in several courses as the same one, as where a body was read once for all of them, stays the same one.
    """
    groups: dict[tuple[object, ...], Words] = {}
    nodes: dict[int, Node] = {}  # dressed ones, by the identity of those of the piece
    courses: dict[str, Words] = {}
    cues_told: dict[tuple[object, ...], Words] = {}  # by all that their words hang on
    bodies: dict[tuple[object, ...], Words] = {}  # of courses, by the identity of their nodes

    def of_group(node: Group) -> Words:
        key = (node.stitch, node.count, node.uses, node.makes, node.steps, node.loops, node.into, node.colour)
        if key not in groups:
            groups[key] = group_words(node, terms, pattern.abbreviations, pattern.terms)
        return groups[key]

    def of_course(course: Course, words: list[Node]) -> Words:
        line = short_body(words, lambda group: f"{group.words.short}|{group.uses}|{group.makes}")
        key = f"{course.kind}|{course.plain}|{line}" if course.read else course.text
        if key not in courses:
            courses[key] = course_words(course, terms, pattern.abbreviations, pattern.terms)
        return courses[key]

    def of(course: Course) -> Course:
        words = _dressed(course.body, nodes, of_group)
        same = (course.kind, course.plain, *map(id, words)) if course.read else (course.text,)
        if same not in bodies:
            bodies[same] = of_course(course, words)
        return altered(course, body=words, words=bodies[same])

    def of_cue(cue: Cue) -> Words:
        around = known.of(cue)
        key = spoken_of(cue), around
        if key not in cues_told:
            cues_told[key] = cue_words(cue, terms, pattern.terms, around)
        return cues_told[key]

    known = Surroundings(piece, pattern)
    cues = [altered(cue, words=of_cue(cue)) for cue in piece.cues]
    return altered(piece, courses=[of(course) for course in piece.courses], cues=cues)
