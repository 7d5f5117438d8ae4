"""First stage: the page as it was pasted, cleaned up, with a way back to every original character.

Nearly every change keeps its place (one character for one), so that the way back is the identity. Only where
characters vanish or grow (zero-width marks, ligatures) is a map kept.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass, field

from hookside.notation.page.beside import captions, chat, pictured, running, struck, times, videotimes
from hookside.notation.page.colours import colourasides, yarnletters
from hookside.notation.page.counts import (
    below,
    blankcounts,
    countcommas,
    countruns,
    countsahead,
    countwithin,
    dressed,
    fromto,
    labelcounts,
    resultfirst,
    wordcounts,
)
from hookside.notation.page.labels import (
    commalabels,
    countedup,
    coursewords,
    framed,
    labelsalone,
    labelsigns,
    listsigns,
    namedbehind,
    namedlast,
    nounfirst,
    nthalone,
    numbersigns,
    ownlabels,
    saidtwice,
    signless,
    unknowns,
)
from hookside.notation.page.parts import copiestold, headshades, partnumbers, partwords, shadedparts
from hookside.notation.page.print import (
    capitals,
    cutlines,
    gutter,
    indents,
    latex,
    letterspaced,
    marked,
    marks,
    markup,
    paragraphs,
    runs,
    scans,
    shortdots,
)
from hookside.notation.page.print.signs import GROWS, MOVES, TABLE
from hookside.notation.page.stages import Moves, Stages, Way, moved, through
from hookside.notation.page.tables import (
    aligned,
    cells,
    changes,
    fields,
    inout,
    oftencolumn,
    partcolumns,
    pasted,
    piececells,
    separators,
    shadecells,
    strokes,
)
from hookside.notation.page.told import (
    asked,
    closedrounds,
    inorder,
    likerounds,
    onebreath,
    plaintimes,
    rangelist,
    retold,
    ringbehind,
    ringrounds,
    roundabout,
    seams,
    sentenced,
    sentences,
    shadedrounds,
    spoken,
    strips,
    talkrounds,
    thenrounds,
    timesaround,
    turnedrows,
    twojobs,
)
from hookside.notation.page.words import (
    bothterms,
    keysigns,
    legends,
    mainring,
    ownpoints,
    ownshapings,
    tongue,
    twofold,
    withs,
)
from hookside.pattern import Terms


@dataclass(slots=True)
class Page:
    """The cleaned text; `back(i)` is the offset in the original of cleaned character i."""

    original: str
    text: str
    offsets: list[int] | None = None
    breaks: list[int] = field(default_factory=list)  # original offsets at which lines start
    html: bool = False
    struck: list[struck.Struck] = field(default_factory=list)  # spans of the original that are not to be followed
    hung: bool = False  # `offsets` leave out blanks alone, before lines that are set in
    whole: bool = True  # no lines beyond those that are read were left out

    def back(self, at: int) -> int:
        """Cleaned offset -> original offset."""
        if self.offsets is None:
            return min(at, len(self.original))
        return self.offsets[at] if at < len(self.offsets) else len(self.original)

    def span(self, start: int, end: int) -> tuple[int, int]:
        """A cleaned span -> the original span."""
        if end <= start:
            at = self.back(start)
            return at, at
        return self.back(start), self.back(end - 1) + 1

    def line(self, at: int) -> int:
        """Line, counted from 1, of a cleaned offset."""
        return bisect_right(self.breaks, self.back(at))

    def column(self, at: int) -> int:
        """Column, counted from 1, of a cleaned offset."""
        origin = self.back(at)
        return origin - self.breaks[bisect_right(self.breaks, origin) - 1] + 1

    def quote(self, start: int, end: int) -> str:
        """The designer's own characters for a cleaned span, white space tidied, markup left out."""
        untouched = not self.html and (self.offsets is None or self.hung)
        raw = self.original[slice(*self.span(start, end))] if untouched else self.text[start:end]
        told = " ".join(raw.replace("**", "").replace("\u00a0", " ").replace("|", " ").split())
        return told.strip("<>") if told[-1:] == ">" or told[:1] == "<" else told


def _without(text: str, cuts: list[tuple[int, int]]) -> tuple[str, list[int]]:
    """The text without the characters that vanish and with those that grow -> (text, the way back)."""
    moved = [(*m.span(), GROWS.get(m[0], "")) for m in MOVES.finditer(text)]
    parts: list[str] = []
    offsets: list[int] = []
    at = 0
    cut = [(start, end, "") for start, end in cuts]
    for start, end, put in sorted([*moved, *cut], key=lambda edit: (edit[0], -edit[1], edit[2])):
        if start >= at:
            parts += [text[at:start], put]
            offsets += [*range(at, start), *[start] * len(put)]
        at = max(at, end)
    parts.append(text[at:])
    offsets += range(at, len(text))
    return "".join(parts), offsets


def _cuts(text: str, broken: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """What vanishes from the page: runs of signs, words broken at the end of a line, blanks between letters, dots."""
    cuts = [*runs.cut(text), *broken, *runs.doubled(text), *letterspaced.gaps(text), *marks.bold_numbers(text)]
    if any(hint in text for hint in shortdots.HINTS):
        cuts += shortdots.dots(text)
    return cuts


def _number_signs(text: str) -> str:
    return numbersigns.labelled(text) if numbersigns.FIRST.search(text) else text


def _outlines(text: str) -> str:
    return listsigns.outlined(text) if listsigns.OUTLINE.search(text) else text


def _spelt(text: str) -> str:
    return keysigns.spelt(text) if keysigns.ACCENT.search(text) else text


def _steps(text: str) -> str:
    return labelsigns.steps(text) if labelsigns.STEP.search(text) else text


def _list_letters(text: str) -> str:
    return listsigns.lettered(text) if listsigns.LETTER.search(text) else text


def _part_numbers(text: str) -> str:
    return partnumbers.unnumbered(text) if partnumbers.SECOND.search(text) else text


def _marked(text: str, way: Way) -> tuple[str, Way]:
    return marked.unmarked(text, way) if "[/" in text or marked.FRAME.search(text) else (text, way)


def _ring_behind(text: str, way: Way) -> tuple[str, Way]:
    return ringbehind.parted(text), way


def _strokes(text: str, way: Way) -> tuple[str, Way]:
    return yarnletters.before_strokes(text, way) if yarnletters.BEFORE_STROKE.search(text) else (text, way)


def _yarn_letters(text: str, way: Way) -> tuple[str, Way]:
    text, way = yarnletters.in_brackets(text, way) if yarnletters.LETTER_ALONE.search(text) else (text, way)
    return yarnletters.behind_names(text, way)


# How the page sets its lines
_SETTING: Stages = (
    ((" ,",), marks.commas_behind_words),
    (("|",), marks.counts_in_brackets),
    ((), saidtwice.once),
    (("crochet", "increase"), ownpoints.plain),
    (("\\",), latex.printed),
    (("  ",), aligned.barred),
    (("ound 2,", "nd 2,", "ow 2,"), commalabels.labelled),
    ((" close",), closedrounds.joined),
    (("__", "...", "\u2026"), blankcounts.told),
    (("=",), unknowns.labelled),
)
# What stands beside its rounds, in which letters, frames and cells
_CELLS: Stages = (
    (("1/", "1 /"), chat.unnumbered),
    ((":",), chat.without),
    ((":",), times.untimed),
    (("\t", "|"), inout.blanked),
    ((), capitals.lowered),
    ((), labelcounts.behind),
    ((" - ", " \u2013 ", " \u2014 "), labelcounts.between_dashes),
    ((), _steps),
    ((), labelsigns.told),
    ((), framed.labelled),
    (("|",), coursewords.in_cells),
    ((), piececells.headed),
    ((), cells.cells),
    ((), separators.separated),
    ((), separators.listed),
    (("=",), legends.unfolded),
    (("\t",), pasted.tabs),
)
_SIGNS: Stages = (
    *marks.PRINTED,
    ((), keysigns.lettered),
    ((), _spelt),
    ((), lambda text: text.translate(TABLE)),
    ((), marks.without_pictures),
)
_NUMBERS: Stages = (
    ((), marks.without_bullets),
    (("[ ] ", "[] "), marks.unchecked),
    ((), _outlines),
    ((), _list_letters),
    (listsigns.PICTURE, listsigns.pictured),
    ((), _number_signs),
    ((), videotimes.without),
    ((), running.without),
    ((), nounfirst.labelled),
    ((), nthalone.labelled),
)
# Rounds without labels of their own in what people tell
_TALK: Moves = (
    ((), _marked),
    ((), yarnletters.at_edge),
    ((), _strokes),
    (fromto.HINTS, fromto.told),
    (plaintimes.HINTS, plaintimes.told),
    (roundabout.HINTS, roundabout.told),
    (shadedrounds.HINTS, shadedrounds.told),
    ((" time", "round once", "round twice", "ext round, ", "ext row, "), timesaround.told),
    ((), talkrounds.labelled),
    (("then ",), onebreath.parted),
)
_NAMES: Stages = (
    ((), dressed.plainly),
    *marks.TYPED,
    (("    ",), pasted.counts_apart),
    *marks.UNDERLINED,
    ((), partwords.nameless),
    ((), _part_numbers),
    (("MC", "mc"), mainring.ringed),
    (colourasides.HINTS, colourasides.bracketed),
    ((), fields.fields),
)
_COLUMNS: Stages = (
    (("|",), pasted.bars),
    ((), labelsalone.joined),
    ((), countruns.parted),
)
# ... and, its paragraphs whole again, what is a line of its own, and what is none
_LINES: Stages = (
    ((), seams.parted),
    ((), pasted.totals),
    ((), pasted.told_first),
    ((" / ", " // "), pasted.slashes),
    ((), pasted.stacked),
    ((), below.counts_below),
    ((), ownlabels.joined),
    *cutlines.CUTS,
    *marks.CHAINS,
)
# Labels that stand elsewhere, or nowhere
_LABELS: Moves = (
    ((), thenrounds.parted),
    ((), copiestold.told),
    ((), headshades.told),
    ((), shadedparts.told),
    ((), rangelist.joined),
    ((), inorder.told_in_order),
    ((), ownshapings.keyed),
    ((), _ring_behind),
    ((), strips.parted),
    (("turn", "Turn"), turnedrows.parted),
    ((), ringrounds.parted),
    ((), countedup.labelled),
    ((), namedbehind.labelled),
    ((), namedlast.labelled),
    ((), likerounds.labelled),
)
_WORDS: Stages = (
    (bothterms.HINTS, bothterms.in_one),
    ((), countcommas.stopped),
    ((), signless.signed),
    ((), sentences.narrated),
    (("; otherwise ",), lambda text: text.replace("; otherwise ", ", otherwise ")),  # what else, of the same job
    ((), asked.answered),
    ((), twojobs.parted),
    ((), coursewords.romans),
    ((), scans.digits),
    ((), coursewords.coursewords),
    ((), wordcounts.in_figures),
    ((), spoken.spoken),
    ((), sentenced.sentenced),
)
# Colors and counts where others print them
_ROUNDS: Moves = (
    ((shadecells.MARK, shadecells.ASIDE, shadecells.END), shadecells.brought_forward),
    (("/", " w ", " W "), withs.spelt),
    (("/",), strokes.strokes),
    ((), _yarn_letters),
    ((), yarnletters.taken_up),
    ((), yarnletters.small),
    ((), yarnletters.within),
    ((), yarnletters.labelled),
    ((), countsahead.put_behind),
    ((), resultfirst.put_behind),
    ((), dressed.undressed),
    ((), twofold.by_one),
    ((), twofold.twofold),
    ((), retold.retold),
)


def clean(original: str, terms: Terms | None = None) -> Page:
    """Any text -> a page whose characters are plain ASCII where patterns need them to be.

    `terms`: those that the maker has chosen. What stands between the tables needs more than the page as it is: what
    was struck out, columns that are parts, tags, entities, words broken at the end of a line.
    """
    breaks = [0]
    for match in re.finditer(r"\r\n|\n|\r", original):
        breaks.append(match.end())
    text = original
    if "\r" in text:
        text = text.replace("\r\n", " \n").replace("\r", "\n")
    long = text
    text = runs.first_lines(text)
    whole = text is long
    text = through(text, _SETTING)
    gone: list[struck.Struck] = []
    if "~~" in text or "</" in text:
        text, gone = struck.without(text)
    text, way = partcolumns.parted(text)
    if way is None and ("\t" in text or "|" in text):
        text, way = oftencolumn.multiplied(text)
    text = through(through(text, _CELLS), _SIGNS)
    text, is_html = markup.untagged(text)
    if is_html and way is None:
        text, way = partcolumns.parted(text, html=True)
    text = through(text, marks.ARROWS)
    entities = markup.has_entities(text)  # each leaves the room of its letters behind it
    if entities:
        text = markup.tidy_entities(text)
    text = through(text, _NUMBERS)
    offsets: Way = None
    broken = scans.cut_words(text) if "-" in text else []
    cuts = _cuts(text, broken)
    if cuts or MOVES.search(text):
        text, offsets = _without(text, cuts)
    if way is not None:
        offsets = way if offsets is None else [way[at] for at in offsets]
    text, offsets = moved(text, offsets, _TALK)
    text, offsets = changes.retold(through(text, _NAMES), offsets)
    text = paragraphs.rejoined(through(text, _COLUMNS), len(broken))
    text, offsets = moved(through(text, _LINES), offsets, _LABELS)
    text, offsets = moved(through(text, _WORDS), offsets, _ROUNDS)
    text, offsets = countwithin.bracketed(*tongue.tongue(text, offsets, terms))
    if "   " in text and not entities:
        text, offsets = gutter.unfold(text, offsets)
    text = captions.opened(pictured.without(text))
    shifted = offsets is not None and any(at != i for i, at in enumerate(offsets[: len(text)]))
    if "\n  " in text:
        text, offsets = indents.hung(text, offsets)
    return Page(original, text, offsets, breaks, is_html or bool(gone), gone, not shifted, whole)
