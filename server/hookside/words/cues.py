"""Words for cues: a few for the bench, the designer's own with the reason why now, and a form for the voice.

The reasons are common practice, no source, unless one is named beside them.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

from hookside.layers import BOTH, SIDES
from hookside.pattern import Cue, CueKind, Pattern, Piece, Terms, Words
from hookside.unstuffed import ASKED, NOT_STUFFED
from hookside.words.colours import colour_named, yarn_named
from hookside.words.eyes import BEADS, NEEDLEWORK, eyes_in
from hookside.words.pulls import last_pull, loops_left
from hookside.words.text import clip, spoken_text, tidy, translate

BENCH_LETTERS = 40  # a designer's sentence up to this long stands on the bench as it is
CLAUSE_LETTERS = 60  # what is taken of a longer one is up to this long


@dataclass(frozen=True, slots=True)
class Around:
    """What else is in the piece a cue belongs to. None: not known.

    eyes      eyes are put in
    stuffed   it is stuffed
    pinned    it was said before that parts are pinned
    loops     on the hook before the last pull of the stitch that the cue stands before; 0: it has none that is its own
    below     stitches of the course that the cue stands behind
    """

    eyes: bool = False
    stuffed: bool | None = None
    pinned: bool = False
    loops: int | None = None
    below: int | None = None


NOTHING_KNOWN = Around()

_LENGTH = re.compile(
    r"\b(?<!ch )(?<!chain )(?<!chains )(?<!ch)(\d+(?:\.\d+)?(?:\s*[-\u2013]\s*\d+)?)[\s-]{0,3}"
    # "in" is an inch in front of what has one: "chain 18 in rust" and "sew 2 in the middle" have none
    r"(cm|mm|m|inch|inches|\"|in(?=\W*$|\s*[.,;:)\]]|[\s-]+(?:(?:of|long|extra)\b|tail|end|length|strand|yarn|thread|for\b|"
    r"to\b|or\b|and\b|when\b|before\b|behind\b|as\b|so\b|at\b|from\b|on\b|hanging)))(?![a-z])",
    re.IGNORECASE,
)
# "For the tail, chain 18 in rust, fasten off": a chain that is cut is work of its own
_CHAINED = re.compile(
    r"\b(?:chain|ch) (?P<many>(?:of )?(?![1-3]\b)\d{1,3}\b(?: (?:chains|stitches|sts))?"
    r"(?: (?:in|with) (?:the )?(?!the\b|an?\b|next|last|first|each|same|back|front|ring)[a-z]{3,14})?)"
    r"(?=\W*$|[,;.]| and\b| then\b)",
    re.IGNORECASE,
)
_CLAUSE_ENDS = re.compile(r"(?!(?<=\d),\s\d)[,;:.]\s|\s\(")  # not inside "8, 18 and 28"
_JOINED_ON = re.compile(r"(?!(?<=\d)\sand\s\d)\s(?:and|so that|while|until|before|then)\s", re.IGNORECASE)
_ON_ITS_WAY = re.compile(r"\s(?:along|across|through|with|using|by|from|between|over|around|into|at|on|of)(?=\s)")
# "Last of all take charcoal and stitch a nose": what is taken up is no job yet
_FETCHES = re.compile(
    r"(?:(?:last(?: of all|ly)?|finally|now|then),? )?(?:take|get|grab|pick up)(?: (?!out\b|off\b|apart\b)\w+){1,3}",
    re.IGNORECASE,
)
_WHICH_ONE = re.compile(
    r"(?:on |for )?(?:the )?(?:(?:first|second|third|fourth|other|last|left|right) [a-z]+|"
    r"[a-z]+ (?:number |no\.? ?|# ?)?(?:\d|one|two|three|four))\s*(?::|\s-)\s+",
    re.IGNORECASE,
)
_LED_BY = re.compile(
    r"(?:with|using|for|on|at|in|after|before|when|once|while|if|as|from|to|through|around|between|over) "
    r"(?![^,]*\b(?:i|we)\b)[^,;:.]{1,36}, (?=[a-z])",
    re.IGNORECASE,
)
# "I like to stuff the legs here": an order, however it is put
_I_LIKE_TO = re.compile(
    r"^(?:(?:and|now|then|here|so),? )*(?:i|we)(?:'ll| will)? (?:like to|prefer to|always|usually|now|then|just) "
    r"(?=(?:stuff|fill|sew|close|put|add|place|attach|embroider|weave|cut|fasten|leave|pin|fold|insert)\b)",
    re.IGNORECASE,
)
_MORE_PLACES = re.compile(r"\d|\b(?:and|to|onto|at|between|under|below|above|behind|by)\b", re.IGNORECASE)
_SLIPS_FIRST = re.compile(
    r"^(?:sl\.? ?st|ss|slip stitch)\b[^,;]*?,? (?:and )?(?:then )?(?=fasten|finish|cut|break|fo\b)", re.IGNORECASE
)
# "Join gray to the unused back loops of round 8": where it is joined stands in no other step
_JOINED_AT = re.compile(r"(?:re-?)?(?:join|attach)\b.*\b(?:loops?|strands?) (?:of|on|at|in|around)\b", re.IGNORECASE)
_FRONT_LOOPS = re.compile(r"\b(front|back) (?:loops|strands)\b", re.IGNORECASE)
_LEFT_HANGING = re.compile(r"[,;]?\s+(?:and then|and|then)$", re.IGNORECASE)
_LAST_STITCH = re.compile(
    r"\b(?:last|final)\s+(?:(?:two|2|three|3|remaining)\s+)?"
    r"(?:(?:st|stitch|sc|dc|hdc|htr|tr|yo|yrh|pull(?:[- ]?through)?|loops?|lps?|yarn[- ]over|yarn round hook|"
    r"(?:single|double) crochet|increase|decrease|inc|dec)\b)"
    r"|^\W*(?:and\s+)?(?:end|finish)ing\s+(?:off\s+)?(?:with|in|using)\b",
    re.IGNORECASE,
)
_JOINING_STITCH = re.compile(r"\bjoining\s+(?:sl|ss|slip)\b|\b(?:sl|slip)\s*st\w*\s+(?:join|that joins)", re.IGNORECASE)
_ENDS = re.compile(r"\b(?:weave|darn|run)\b|\bends?\b", re.IGNORECASE)
_SEWN_ON = re.compile(r"\b(?:to|onto|on|over)\b", re.IGNORECASE)
_SEWN_UP = re.compile(r"\b(?:edges|together|shut|closed|seam|open(?:ing)?)\b", re.IGNORECASE)
_BLOCKED = re.compile(r"\b(?:to shape|block|damp|dry|steam|wet)\w*", re.IGNORECASE)
_TOP_UP = re.compile(
    r"\b(?:top up|last of the stuffing|add (?:more|a little|the last)|finish stuffing|more stuffing)\b", re.IGNORECASE
)
_START_TAIL = re.compile(r"\b(?:start(?:ing)?|beginning) tail\b", re.IGNORECASE)
_LONG_TAIL = re.compile(r"\blong\s+(?:\w+\s+)?(?:tail|end|length|strand)\b", re.IGNORECASE)
_FASTENED = re.compile(r"\b(?:fasten|finish|bind|tie|cast)\w*\s*off\b|\bf\s?/?\s?o\b", re.IGNORECASE)
_CUT = re.compile(
    r"\b(?:cut|break|snip|trim)(?: off)?(?: (?!leav|(?:and|then|on|of|at|in|to|from|for|with|after|before|behind|near|"
    r"but|so|here|when|once|if|by|close|very)\b)[\w'-]+){1,3}",
    re.IGNORECASE,
)


_DOUBLE = re.compile(
    r"(?:\b(\d+)\s+(?:sl st|ss|sc|dc|hdc|htr|st|stitch)\w*\b[^.;]{0,40})?"
    rf"\b(?:through|thru) {BOTH} {SIDES}\b",
    re.IGNORECASE,
)

_WHY = re.compile(r"\s*Worked out, because [^.]*\.\s*$")
_BARE_CLOSE = re.compile(r"close(?: it)?(?: up| off)?", re.IGNORECASE)
_SHORT_FASTEN = re.compile(r"\bf\s?/?\s?o\b", re.IGNORECASE)


def _written_out(text: str) -> str:
    """ "FO, leaving a tail" with its short form in words: it stands large, and is no stitch that a card explains."""
    return _SHORT_FASTEN.sub(lambda at: "Fasten off" if at.start() == 0 else "fasten off", text)


def _amount(text: str) -> str:
    """The length a sentence names: "20 cm", or ""."""
    found = _LENGTH.search(text)
    if not found:
        return ""
    unit = "in" if found[2] in ('"', "inch", "inches") else found[2].lower()
    return f"{found[1]} {unit}"


def _stuff(text: str) -> str:
    if NOT_STUFFED.search(text) and not text.startswith(ASKED):
        return "Do not stuff"
    return "Top up the stuffing" if _TOP_UP.search(text) else _clause(text)


def _tail(text: str) -> str:
    if _START_TAIL.search(text):
        return "Starting tail to the inside"
    amount = _amount(text)
    return f"Leave a {amount} tail" if amount else "Leave a long tail"


def _fasten(text: str) -> str:
    # A yarn that is cut while the loop stays live must never be shown as "fasten off".
    cut = None if _FASTENED.search(text) else _CUT.search(text)
    job = cut[0][:1].upper() + cut[0][1:] if cut else "Fasten off"
    if chain := _CHAINED.search(text):
        job = f"Chain {chain['many']}, {job[:1].lower()}{job[1:]}"
    if _SLIPS_FIRST.match(text):
        job = f"Slip stitch, {job[:1].lower()}{job[1:]}"
    amount = _amount(text)
    if amount:
        return f"{job}, {amount} tail"
    return f"{job}, long tail" if _LONG_TAIL.search(text) else job


def _close(text: str) -> str:
    sewn = re.search(r"\bsew\b.*\b(?:shut|closed|opening)\b", text, re.IGNORECASE)
    loops = _FRONT_LOOPS.search(text)
    hole = f"Close the hole through the {loops[1].lower()} loops" if loops else "Close the hole"
    return "Sew it shut" if sewn else hole


def in_last_stitch(text: str) -> bool:
    """Whether a change of colour is meant for the last loops of a course's last stitch."""
    return bool(_LAST_STITCH.search(text)) and not in_the_join(text)


def in_the_join(text: str) -> bool:
    """Whether a change of colour is meant for the slip stitch that joins a round."""
    return bool(_JOINING_STITCH.search(text))


def _colour(text: str, terms: Terms) -> str:
    name = colour_named(text)
    return f"Change to {name}" if name else "New " + ("color" if terms == "US" else "colour")


# A marker that goes into some other stitch than the first of the course
_OTHER_STITCH = re.compile(
    r"\b(?:sts?|stitch(?:es)?|sc) ?#?\d|\b\d{1,3}(?:st|nd|rd|th)\b|\b(?:last|middle|cent(?:er|re)|second|third|fourth|"
    r"fifth|sixth|seventh|eighth|ninth|tenth|next|each|every|corner)\b",
    re.IGNORECASE,
)
_BENCH: dict[CueKind, Callable[[str], str]] = {
    "stuff": _stuff,
    "tail": _tail,
    "close": _close,
    "eyes": eyes_in,
    "fasten": _fasten,
    "turn": lambda _: "Turn the work",
    "marker": lambda text: _clause(text) if _OTHER_STITCH.search(text) else "Marker into the first stitch",
    "count": lambda text: text.partition(". ")[0].rstrip("."),
}


def bench_words(kind: CueKind, text: str, terms: Terms) -> str:
    """A few words, imperative: the designer's own where they say what to do, else the kind's with the amount named."""
    own = _own(text)
    if kind == "close" and _BARE_CLOSE.fullmatch(own):
        return _close(text)  # "Fasten off and close.": alone on a screen it would not say what
    if kind == "other" or len(own) <= BENCH_LETTERS or (kind == "colour" and _JOINED_AT.match(own)):
        return clip(own, 2 * BENCH_LETTERS)
    if kind == "colour":
        return _colour(text, terms)
    if kind in _BENCH:
        return _BENCH[kind](text)
    title = _clause(own)
    # Where a part goes is never cut off unseen.
    more = kind in ("sew", "pin", "embroider") and own.startswith(title) and _MORE_PLACES.search(own[len(title) :])
    return f"{title} …" if more and not title.endswith("…") else title


def _own(text: str) -> str:
    """A designer's sentence as a title: without its stop, and without the "and" it was cut off before."""
    own = _I_LIKE_TO.sub("", _LEFT_HANGING.sub("", tidy(text).rstrip(".!;: ")))
    return own[:1].upper() + own[1:]


def _clause(text: str) -> str:
    """The beginning of a longer sentence that still says what to do."""
    own = _own(text)
    if (led := _LED_BY.match(own)) is not None:  # "For the second leg, leave the yarn attached": no job by itself
        return own if len(own) <= CLAUSE_LETTERS else _clause(own[led.end() :])
    which = _WHICH_ONE.match(own)
    if which is not None:  # "Leg number two: leave the yarn on": which one it is, and no job by itself
        rest = _clause(own[which.end() :])
        return own if len(own) <= CLAUSE_LETTERS else f"{which[0]}{rest[:1].lower()}{rest[1:]}"
    ends = [found for found in _CLAUSE_ENDS.finditer(own) if " " in own[: found.start()]]
    first = ends[0].start() if ends else len(own)
    second_job = re.match(r"[,;:.]?\s*(?:then|and)\b", own[first:])
    if first <= CLAUSE_LETTERS and not (second_job and len(own) <= CLAUSE_LETTERS):
        return own[:first]
    if len(own) <= CLAUSE_LETTERS:
        return own
    for ending in (_JOINED_ON, _ON_ITS_WAY):
        places = [found.start() for found in ending.finditer(own) if 12 <= found.start() <= CLAUSE_LETTERS]
        cuts = [at for at in places if not _FETCHES.fullmatch(own, 0, at)]
        if cuts:
            return own[: cuts[-1]].rstrip(",;: ")
    return clip(own, CLAUSE_LETTERS)


def _begins(cue: Cue) -> bool:
    """Whether this is the colour a piece begins with, and no change at all."""
    return cue.kind == "colour" and cue.after == "0" and cue.at is None


_GOES_BACK = re.compile(r"\bback\b(?! (?:loop|post|of)\b)", re.IGNORECASE)  # "Swap back.": to no name


def _new_colour(cue: Cue, text: str, terms: Terms, loops: int | None) -> str:
    """How a change of colour is made, at the place where the cue stands.

    The last pull-through of the old colour's last stitch is made with the new one (common practice, no source).
    """
    other = "the {} before this one" if _GOES_BACK.search(text) else "the new {}"
    new = yarn_named(text) or other.format("color" if terms == "US" else "colour")
    behind_all = cue.at is not None and loops is None and not cue.advice  # no stitch comes before the join
    if in_the_join(text) or (behind_all and not in_last_stitch(text)):
        return f"Put the hook in for the slip stitch as always, then pull {new} through."
    if cue.at is not None and (in_last_stitch(text) or cue.advice):
        return last_pull(loops, new)
    return f"The last pull before this is made with {new} already: if it is done, take that one pull back."


def _through_both(below: int, asked: str | None) -> str:
    """What folding flat and working through both layers comes to: each stitch takes one of the front and one of the
    back (12 become 6)."""
    half, odd = divmod(below, 2)
    over = " One is left at the fold." if odd else ""
    many = int(asked) if asked else half
    if many != half:
        return f"{below} stitches lie double as {half}; the text works {many}.{over}"
    return f"Each stitch goes through one of the front and one of the back: {below} become {half}.{over}"


def _before_closing(around: Around) -> str:
    asked = ["eyes in?"] if around.eyes else []
    asked += ["tail inside?"]
    asked += [] if around.stuffed is False else ["squeeze it: any hollow?"]
    return "Before the hole is shut: " + " ".join([asked[0], *(ask[:1].upper() + ask[1:] for ask in asked[1:])])


def _ends(text: str, around: Around) -> str:
    if _START_TAIL.search(text) and not _ENDS.search(text):
        return "Once the piece is closed it can no longer be hidden."
    if not _ENDS.search(text) or re.search(r"\bstuffing\b|\bpass(?:es)?\b|\binside\b", text, re.IGNORECASE):
        return ""
    if around.stuffed is None:
        return "In a stuffed piece bury the end through the stuffing; in flat work three passes hold it."
    return "Bury the end through the stuffing." if around.stuffed else "Three passes hold it, the last one back again."


# EN 71-1 tries every part by pulling and turning it; gather/cautions says it at length
_YOUNG = "For a child under three embroider them instead."


def reason(cue: Cue, text: str, terms: Terms, around: Around = NOTHING_KNOWN) -> str:
    """Why now, as a sentence; "" where nothing certain can be said. `text`: the cue's, in the maker's terms."""
    match cue.kind:
        case "stuff":
            if NOT_STUFFED.search(text):
                return ""
            if _TOP_UP.search(text):
                return "Squeeze it: a hollow that you feel now stays."
            return "From here on it is harder to reach."
        case "close":
            return _before_closing(around)
        case "colour" if not _begins(cue):
            return _new_colour(cue, text, terms, around.loops)
        case "eyes":
            if BEADS.match(text):
                return f"Look at the face from the front before you sew them fast. {_YOUNG}"
            if NEEDLEWORK.search(text):
                return "Your hand still reaches the inside, so the knots can stay there."
            return f"Look at the face from the front before the washer clicks: it will not come off again. {_YOUNG}"
        case "embroider":
            return "Look at it from the front before you pull the thread tight."
        case "tail" if _START_TAIL.search(text):
            return "Once the piece is closed it can no longer be hidden."
        case "tail" | "fasten":
            return "A tail that was cut too short cannot be mended." if _amount(text) else ""
        case "sew" if _SEWN_ON.search(text) and not _SEWN_UP.search(text) and not around.pinned:
            return "Pin the part first and look at it from the front."
        case "pin" if "from the front" not in text and not _BLOCKED.search(text):
            return "Look from the front: what is pinned can still be moved."
        case "weave":
            return _ends(text, around)
        case "hold":
            return "Put a marker into the live loop, so that it cannot run."
        case "shape" | "other" | "join" if (double := _DOUBLE.search(text)) and around.below:
            return _through_both(around.below, double[1])
        case "marker":
            return "The marker goes in once that stitch is made, not before."
        case _:
            return ""


def _sentence(text: str) -> str:
    text = _LEFT_HANGING.sub("", tidy(text)).rstrip(" :,;")
    text = text[:1].upper() + text[1:]
    return text if not text or text[-1] in ".!?…" else text + "."


class Surroundings:
    """What a piece and its pattern tell of the work its cues belong to. Sewing up belongs to all the pieces.

    A piece may have thousands of cues: what is the same for all of them is looked for once.
    """

    def __init__(self, piece: Piece, pattern: Pattern) -> None:
        self.piece, self.pattern = piece, pattern
        self.courses = {course.id: course for course in piece.courses}
        self.order = {id(cue): at for at, cue in enumerate(piece.cues)}
        self.first_pin = next((at for at, cue in enumerate(piece.cues) if cue.kind == "pin"), len(piece.cues))

    @cached_property
    def eyes(self) -> bool:
        eyes = (cue.text for cue in self.piece.cues if cue.kind == "eyes")
        return any(not (NEEDLEWORK.search(text) or BEADS.match(text)) for text in eyes)

    @cached_property
    def stuffed(self) -> bool | None:
        if self.piece.courses:
            return _stuffed(self.piece)
        return None if any(map(_stuffed, self.pattern.pieces)) else False

    def of(self, cue: Cue) -> Around:
        course = self.courses.get(cue.course_id) if cue.course_id is not None else None
        loops = loops_left(course.body, cue.at) if course is not None and cue.at is not None else None
        if cue.kind == "colour":  # nothing else matters to it
            return Around(loops=loops)
        return Around(
            eyes=self.eyes,
            stuffed=self.stuffed,
            pinned=self.first_pin < self.order.get(id(cue), len(self.order)),
            loops=loops,
            below=course.makes if course is not None and cue.at is None else None,
        )


def _stuffed(piece: Piece) -> bool:
    return any(cue.kind == "stuff" and not NOT_STUFFED.search(cue.text) for cue in piece.cues)


def spoken_of(cue: Cue) -> tuple[object, ...]:
    """All of a cue that its words hang on: those of alike ones are the same."""
    return cue.kind, cue.text, cue.advice, cue.weight, cue.at is None, _begins(cue), _designers(cue)


def _designers(cue: Cue) -> bool:
    """Are these the designer's own words?"""
    return cue.basis == "written" or "/moved-" in cue.address


def cue_words(cue: Cue, terms: Terms, written: Terms, known: Around = NOTHING_KNOWN) -> Words:
    """A cue three ways. `written` says in which terms its text stands, `known` what else is in its piece.

    short    for the bench: "Stuff the head firmly", "Leave a 30 cm tail"
    full     the designer's words, then the reason
    spoken   the same without symbols
    """
    text = _written_out(tidy(translate(cue.text, written, terms)))
    if _begins(cue) and re.match(r"with\b", text, re.IGNORECASE):  # "With brown, ..." in print; no change of colour
        text = f"Begin {text[:1].lower()}{text[1:]}"
    why = reason(cue, text, terms, known)
    whole = f"{_sentence(text)} {why}".strip() if _designers(cue) else _sentence(text)
    advice = cue.advice if terms == "US" else re.sub(r"\bcolor", "colour", cue.advice)
    whole = f"{whole} {advice}".strip()
    # In passing, and each time anew, nobody wants to hear why.
    said = _WHY.sub("", whole) if cue.weight == "whisper" else whole
    return Words(short=bench_words(cue.kind, text, terms), full=whole, spoken=spoken_text(said, terms))
