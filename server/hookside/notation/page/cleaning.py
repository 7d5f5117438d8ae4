"""First stage: the page as it was pasted, cleaned up, with a way back to every original character.

Nearly every change keeps its place (one character for one), so that the way back is the identity. Only where
characters vanish or grow (zero-width marks, ligatures) is a map kept.
"""

from __future__ import annotations

import html
import re
from bisect import bisect_right
from dataclasses import dataclass, field

from hookside.notation.labels.patterns import COURSE
from hookside.notation.page import (
    aligned,
    below,
    blankcounts,
    capitals,
    captions,
    cells,
    changes,
    chat,
    closedrounds,
    colourasides,
    commalabels,
    copiestold,
    countcommas,
    countedup,
    countruns,
    countsahead,
    coursewords,
    dressed,
    fields,
    framed,
    gutter,
    indents,
    inorder,
    inout,
    keysigns,
    labelcounts,
    labelsalone,
    labelsigns,
    latex,
    legends,
    letterspaced,
    likerounds,
    mainring,
    marked,
    namedbehind,
    namedlast,
    nounfirst,
    nthalone,
    numbersigns,
    oftencolumn,
    onebreath,
    ownlabels,
    ownpoints,
    ownshapings,
    paragraphs,
    partcolumns,
    partnumbers,
    partwords,
    pictured,
    piececells,
    rangelist,
    resultfirst,
    retold,
    ringbehind,
    ringrounds,
    running,
    runs,
    saidtwice,
    scans,
    seams,
    sentenced,
    sentences,
    separators,
    shadecells,
    shortdots,
    signless,
    spoken,
    strips,
    strokes,
    struck,
    tables,
    talkrounds,
    thenrounds,
    times,
    timesaround,
    tongue,
    twofold,
    twojobs,
    unknowns,
    videotimes,
    withs,
    yarnletters,
)
from hookside.notation.page.signs import GROWS, MOVES, NAME_MARK, NUMBER_MARK, TABLE, VANISH
from hookside.notation.sought import Sought
from hookside.pattern import Terms

_BLOCK = frozenset(
    [
        "br", "p", "div", "li", "tr", "ul", "ol", "table", "section", "article", "hr", "tbody", "thead",
        "blockquote", "pre", "dl", "dt", "dd", "header", "footer", "main", "figure", "html", "body", "head",
        "title",
    ]
)
_TAG = re.compile(
    r"<(/?)([a-zA-Z][a-zA-Z0-9]{0,15})(?:\s[^<>\n]{0,2000})?/?>|<!--[^<>]{0,5000}-->|<!--[^>]{0,200}-->|<![a-zA-Z][^<>]{0,200}>"
)
_HIDDEN = re.compile(r"<(script|style)\b[^<>]{0,500}>[^<]{0,200000}</\1>", re.I)
_ENTITY = re.compile(r"&(?:#\d{1,6}|#x[0-9a-fA-F]{1,6}|[a-zA-Z]{2,10});")
_BOLD = re.compile(r"(\*\*|__)(?=[^\s*_])([^*\n]{1,200}?)(?<=[^\s*_])\1(?!\*)")
_BOLD_NUMBER = re.compile(r"(?<=[a-z.,:;=-] )(\*\*)\d{1,4}(\*\*)(?![*\d])", re.I)  # "You should see **24**."
_CODE = re.compile(r"`([^`\n]{1,300})`")  # "`R3: inc * 6` `-> 18`"; "`6`" is a count in its own dress
_FENCE = re.compile(r"^[ ]{0,3}```[^\n`]{0,20}$", re.M)
_BLANK = re.compile(r"_{3,}")  # a line to write on
_LONG_ARROW = re.compile(r"(?:-{2,4}|={2,4})>")
_ARROW_BEHIND = re.compile(r"(?P<first>\d{1,3}[A-Za-z]?)[ ]{0,4}->(?=[ ]{0,4}\d{1,3}[A-Za-z]?[ :.)])")  # "5R -> 8R"
# A small picture, which says nothing that the words do not
_PICTURE = re.compile("[\U0001f1e6-\U0001faff\u2600-\u2604\u2607-\u27bf\ufe0f\u200d]")
_TO_TICK = re.compile(r"(?:\[ {0,3}\]|\( {1,3}\))(?=[ ]*$)", re.M)  # "You have: 12    [ ]"
_UNDERSCORE = re.compile(r"(?<![A-Za-z0-9_])_(?=[^\s_])([^_\n]{1,200}?)(?<=[^\s_])_(?![A-Za-z0-9_])")
# A sign nobody types between words, at the start of a line: a bullet of some kind. The copyright sign says something.
_LINE_SIGN = re.compile(r"^[ ]{0,20}(?P<sign>[^\x00-\x7f\w\u00a9]{1,4})", re.M)
_LIST = re.compile(r"<(?P<end>/?)(?P<tag>[oO][lL]|[uU][lL]|[lL][iI])(?P<more>\s[^<>\n]{0,200})?>")
_OWN_LABEL = re.compile(rf"\s*(?:<[^<>\n]{{1,40}}>\s*)?(?:{COURSE}\.?\s*)?\d{{1,3}}\s*[-.:)]", re.I)
_ITEM_LABEL = re.compile(
    rf"<li\b[^<>\n]{{0,80}}>\s*(?:<[^<>\n]{{1,40}}>\s*)?{COURSE}\.?\s*\d{{1,3}}\b[^<>\n]{{0,8}}?[-.:)]", re.I
)
_NUMBERED_ITEMS = 99
# A wave between the numbers of a range: "R5~R7", "5R~7R"
_WAVE = re.compile(
    r"(?<=[\drR])(?<![a-z]r)~(?=(?:r|rnd|rd|round|row)?s?\.?\d)|(?<=[\drR][ ])~(?=[ ](?:r|rnd|rd|round|row)?\d)", re.I
)


# "Rounds 5 \u2192 7:"
_ARROW = re.compile(
    rf"(?P<first>(?:\b{COURSE}\.?[ ]?|^[ ]{{0,8}})\d{{1,3}}[ ]?)\u2192(?=[ ]?\d{{1,3}}[ ]?[:.);\]=-])", re.I | re.M
)


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


def _blank(text: str) -> str:
    return "".join("\n" if c == "\n" else " " for c in text)


# "<sc 2, inc>6", "<2 sc + dec> x 8": a stretch that is repeated
_POINTED = re.compile(
    r"<(?P<within>(?:\d{1,2} ?)?(?:sc|[hd]?dc|h?tr|inc|dec|[xva])\b ?\d{0,2}[^<>\n]{0,80}|"
    r"(?:sc|inc|dec)\d{1,2}[^<>\n]{0,80})>"
    r"(?=[ ]?(?:[x*\u00d7][ ]?)?\d|[ ]?(?:twice|around)\b)",
    re.I,
)
# Tags that patterns are pasted with; anything else between angle brackets is a designer's heading: "<FIN> 3 pieces"
_TAGS = _BLOCK | frozenset(
    [
        "a", "b", "i", "u", "s", "em", "strong", "span", "small", "big", "sub", "sup", "font", "center", "code", "img",
        "td", "th", "h1", "h2", "h3", "h4", "h5", "h6", "tfoot", "caption", "col", "colgroup", "main", "nav", "aside",
        "figcaption", "picture", "source", "video", "audio", "iframe", "svg", "path", "g", "link", "meta", "script",
        "style", "noscript", "button", "form", "input", "label", "select", "option", "textarea", "mark", "del", "ins",
        "abbr", "cite", "q", "time", "address", "details", "summary", "wbr", "input", "kbd", "tt", "strike",
    ]
)
_SHOUTED = re.compile(r"^[ ]{0,8}<(?P<name>[A-Za-z][A-Za-z ]{1,30}(?: ?\d)?)>", re.M)

# "<<white to grey>>" on a line of its own: what is to be done, set apart by signs
_SET_APART = re.compile(r"^(?P<lead>[ ]{0,8})<<(?P<told>[^<>\n]{3,120})>>(?P<end>[ ]*)$", re.M)


def _heading(match: re.Match[str]) -> str:
    """A heading between angle brackets at the start of a line, where no such tag is meant."""
    return match[0].replace("<", "#").replace(">", " ")


def _tag(match: re.Match[str]) -> str:
    name = (match[2] or "").lower()
    if match[2] and name not in _TAGS:
        return match[0]
    width = len(match[0])
    rest = _blank(match[0])[1:]
    if re.fullmatch(r"h[1-6]", name):
        return "\n#" + _blank(match[0])[2:] if not match[1] else "\n" + rest
    if name in ("td", "th"):
        return "|" + rest if not match[1] else " " * width
    if name in _BLOCK:
        return "\n" + rest
    return _blank(match[0])


def _entity(match: re.Match[str]) -> str:
    char = html.unescape(match[0])
    if len(char) != 1:
        return match[0]
    return char.translate(TABLE)[:1] + " " * (len(match[0]) - 1)


def _tidy_entities(text: str) -> str:
    """An entity inside a word must not split it; only spaces and signs are turned, letters are rare."""
    return _ENTITY.sub(_entity, text)


def _unbold(match: re.Match[str]) -> str:
    if match[2].lstrip()[:1].isalnum() or match[2].lstrip()[:1] in "([#":
        return "  " + match[2] + "  "
    return match[0]


_LIST_AHEAD = 240  # characters of a list in which its items show that rounds bear labels, so that others are none
_LABEL_AHEAD = 80  # characters in which an item of a list shows that it says its own label


def _numbered(text: str) -> str:
    """Items of an ordered list get their numbers: "<li>" becomes a new line and "4:", in the same width."""
    out: list[str] = []
    at = 0
    open_lists: list[int | None] = []
    for match in _LIST.finditer(text):
        tag = match["tag"].lower()
        if tag == "li":
            count = open_lists[-1] if open_lists else None
            if match["end"] or count is None or count > _NUMBERED_ITEMS:
                continue
            open_lists[-1] = count + 1
            if _OWN_LABEL.match(_tidy_entities(text[match.end() : match.end() + _LABEL_AHEAD])):
                open_lists[-1] = None  # what stands between such items has no number at all
                continue
            out.append(text[at : match.start()])
            out.append(f"\n{count}:".ljust(len(match[0])))
            at = match.end()
        elif match["end"]:
            if open_lists:
                open_lists.pop()
        else:
            start = re.search(r"start\s*=\s*[\"']?(\d{1,3})", match["more"] or "")
            labelled = _ITEM_LABEL.search(_tidy_entities(text[match.end() : match.end() + _LIST_AHEAD]))
            open_lists.append((int(start[1]) if start else 1) if tag == "ol" and not labelled else None)
    out.append(text[at:])
    return "".join(out)


# "Rnds 4-" at the end of a line and "6: ..." on the next
# ... and in a paragraph: "... (12). Rnd" and "3: ..."
_CUT_LABEL = Sought(
    r"[rR](?<!\w.)(?i:ounds?|nds?|ns?|ows?|ws?|ds?|)\.?(?:[ ]?\d{1,3}[ ]?-)?[ ]*\n[ ]*\d",
    rf"(?:^[ ]{{0,8}}|(?<=[.:;)\]][ ])(?<!\d\.[ ])){COURSE}\.?(?:[ ]?\d{{1,3}}[ ]?-[ ]*\n[ ]*|(?<!\br)[ ]*\n[ ]*)"
    r"\d{1,3}(?:-\d{1,3})?[ ]?[:.)]",
    re.I | re.M,
)
# "With white, repeat row" and "7. (10 sts)"
_CUT_POINT = Sought(
    r"[rR](?<=[ ].)(?i:ows?|ounds?|nds?)[ ]*\n[ ]*\d",
    r"\b(?:repeat|rep|as|of|like|from|to|until|after|through|at|in)[ ](?:the[ ])?(?:rows?|rounds?|rnds?)[ ]*\n[ ]*"
    r"(?=\d)",
    re.I,
)
# "Do not join this or" and "following rnds."
_CUT_AND_SO_ON = Sought(
    ("\nfollowing", "\nsubsequent", "\nother ro", "\nother rn"),
    r"\b(?:this|or|and|all|any|the|these)[ ]*\n(?=(?:following|subsequent|other)[ ](?:rows?|rounds?|rnds?)\b(?![ ]?:))",
)
# "Ch." and "1, turn.", "begun with" and "ch. 1.": no line ends so. Behind a small "ch" a number may be an amount
_CUT_SENTENCE = Sought(
    ("ch\n", "ch.\n", " with\nch"),
    r"(?<=\bCh)\.?\n[ ]*(?=\d{1,2},?[ ](?:and[ ])?turn)|(?<=[ ]with)\n(?=ch\.?[ ]?\d{1,2}\.?[ ]*$)",
    re.M,
)
# "HEAD: Beg at tip of trunk, with" and "gray, ch 2.": a name and the way to start, broken where no sentence ends
_CUT_START = Sought(
    r"[a-z,][ ]*\n[a-z]",
    r"^(?P<start>[ ]{0,8}[A-Z][A-Za-z' ]{2,24}(?:[ ]?\([^()\n]{3,20}\))?[:.][ ][^\n.:;()\d]{4,70}"
    r"(?:\b(?:with|at|in|the|a|and|of|from|to|using|into|on)|,))[ ]*\n(?=[a-z][^\n:]*\b(?:ch|chain|ring)\b)",
    re.M,
)
_ALL_ONES = re.compile(r"^1\.[ ][^\n]*(?:\n1\.[ ][^\n]*)+", re.M)


def _counted_up(match: re.Match[str]) -> str:
    """Markdown lets every item of a numbered list say "1.": they get the numbers that a reader is shown."""
    items = match[0].split("\n")
    return "\n".join(f"{n}.".ljust(3) + item[3:] if n < 10 else f"{n}:" + item[3:] for n, item in enumerate(items, 1))


def _moved(text: str, cuts: list[tuple[int, int]]) -> tuple[str, list[int]]:
    """The text without the characters that vanish and with those that grow -> (text, the way back)."""
    gone = {at for start, end in cuts for at in range(start, end)}
    chars: list[str] = []
    offsets: list[int] = []
    for at, char in enumerate(text):
        if char in VANISH or at in gone:
            continue
        for out in GROWS.get(char, char):
            chars.append(out)
            offsets.append(at)
    return "".join(chars), offsets


_NUMBERED_NAME = re.compile(r"(?m)(?<=^\d)\u3001|(?<=^\d\d)\u3001")  # "2\u3001Body": a number before a heading
# "TAIL\u2014Ch 9, ...", "LEGS (Make 4)\u2014With grey, ch 2.": a name in capitals before its work
_NAME_AND_WORK = re.compile(r"^(?P<name>[ ]{0,8}[A-Z][A-Z '&/]{2,30}(?: ?\([^()\n]{3,40}\))?)\.?\u2014(?=[A-Z])", re.M)
# "sc in last ch\u201423 sts": no chain of 23
# ... and "Repeat Row 8\u20146 sc." no rows 8 to 6
_COUNT_BEHIND = re.compile(
    r"(?P<lead>\bch|\btog(?:ether)?|\brep(?:eat)? (?:rnd|rd|row|round) [\dlO]{1,3})\u2014"
    r"(?=[\dlO]{1,4} (?:sts?|stitches|sc|dc|hdc|htr|tr)\b)",
    re.I,
)


# "in each 4-ch sp", "3ch sp": the way round that British texts have it; as long as "ch-4 sp"; "next 3 ch sp" are three
_CHAINS_FIRST = re.compile(
    r"\b(?P<n>\d)(?P<by>-|(?:(?<=\b(?:each|same) \d) |)(?=ch(?:ain)?[ -](?:sp|space|loop|lp|arch)\b))"
    r"(?P<ch>ch(?:ain)?)(?=[ -](?:corner )?(?:sps?|spaces?|loops?|lps?|arch(?:es)?)\b)",
    re.I,
)


# "Fine knit ... single crochet": lines of a list, one below the other, with dots between a name and what it means
_DOTS = (
    r"[A-Za-z][A-Za-z ]{0,23} (?:\u2026|\.{2,4}) ?"
    r"(?=[A-Za-z]|\d [a-z]+ (?:[a-z]+ )?(?:are|is|in|into|put|closed)\b)"
)
_DOTTED_LIST = re.compile(rf"^(?:{_DOTS}[^\n]*\n){{2}}(?:{_DOTS}[^\n]*(?:\n|$))+", re.M)
_DOTTED = re.compile(rf"^(?={_DOTS})(?P<name>[^.\u2026\n]+ )(?P<dots>\u2026|\.+)", re.M)


def _undotted(match: re.Match[str]) -> str:
    return _DOTTED.sub(lambda m: m["name"] + "=".ljust(len(m["dots"])), match[0])


_STAR_IN_BRACKETS = re.compile(r"\((?P<star>\*{1,2})\)")  # "(*) sc in next sc. Repeat from (*) around"


def clean(original: str, terms: Terms | None = None) -> Page:
    """Any text -> a page whose characters are plain ASCII where patterns need them to be.

    `terms`: those that the maker has chosen.
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
    text = saidtwice.once(text)
    if "." in text and ("crochet" in text or "increase" in text):
        text = ownpoints.plain(text)
    if "\\" in text:
        text = latex.printed(text)
    if "  " in text:
        text = aligned.barred(text)
    if "ound 2," in text or "nd 2," in text or "ow 2," in text:
        text = commalabels.labelled(text)
    if " close" in text:
        text = closedrounds.joined(text)
    if "__" in text or "..." in text or "\u2026" in text:
        text = blankcounts.told(text)
    if "=" in text and ":" in text:
        text = unknowns.labelled(text)
    gone: list[struck.Struck] = []
    if "~~" in text or "</" in text:
        text, gone = struck.without(text)
    text, way = partcolumns.parted(text)
    if way is None and ("\t" in text or "|" in text):
        text, way = oftencolumn.multiplied(text)
    if ":" in text:
        text = times.untimed(chat.without(text))
    if "\t" in text or "|" in text:
        text = inout.blanked(text)
    text = framed.labelled(labelsigns.told(labelcounts.behind(capitals.lowered(text))))
    text = separators.listed(separators.separated(cells.cells(piececells.headed(text))))
    if "(" in text and "=" in text:
        text = legends.unfolded(text)
    if "\t" in text:
        text = tables.tabs(text)
    if "\u2014" in text:
        text = _NAME_AND_WORK.sub(lambda m: (m["name"] + NAME_MARK).ljust(len(m[0])), text)
        text = _COUNT_BEHIND.sub(lambda m: f"{m['lead']}=", text)
    if "\u3001" in text:
        text = _NUMBERED_NAME.sub(NUMBER_MARK, text)
    if "\u2026" in text or " .." in text:
        text = _DOTTED_LIST.sub(_undotted, text)
    if "\u2192" in text:
        text = _ARROW.sub(lambda m: f"{m['first']}-", text)
    if "```" in text:
        text = _FENCE.sub(lambda m: " " * len(m[0]), text)
    if "`" in text:
        text = _CODE.sub(lambda m: f" {m[1]} " if " " in m[1] or ">" in m[1] else m[0], text)
    text = keysigns.lettered(text).translate(TABLE)
    if not text.isascii():
        text = _PICTURE.sub(lambda m: " " * len(m[0]), text)
    is_html = False
    if "<" in text:
        text = _POINTED.sub(lambda m: f"[{m['within']}]", text)
        if "<<" in text:
            text = _SET_APART.sub(lambda m: f"{m['lead']}  {m['told']}  {m['end']}", text)
        if "</" not in text:
            text = _SHOUTED.sub(_heading, text)
        tagged = _HIDDEN.sub(lambda m: _blank(m[0]), text)
        if "<ol" in tagged or "<OL" in tagged:
            tagged = _numbered(tagged)
        tagged = _TAG.sub(_tag, tagged)
        is_html = tagged != text
        text = tagged
        if is_html and way is None:
            text, way = partcolumns.parted(text, html=True)
    if "-->" in text or "==>" in text:
        text = _LONG_ARROW.sub(lambda m: "->".rjust(len(m[0])), text)
    if "->" in text:
        text = _ARROW_BEHIND.sub(lambda m: f"{m['first']}-".ljust(len(m[0])), text)
    if "~" in text:
        text = _WAVE.sub("-", text)
    entities = "&" in text and _ENTITY.search(text) is not None  # each leaves the room of its letters behind it
    if entities:
        text = _tidy_entities(text)
    if not text.isascii():
        text = _LINE_SIGN.sub(lambda m: " " * len(m[0]), text)
    if numbersigns.FIRST.search(text):
        text = numbersigns.labelled(text)
    text = nthalone.labelled(nounfirst.labelled(running.without(videotimes.without(text))))
    offsets: list[int] | None = None
    broken = scans.cut_words(text) if "-" in text else []
    cuts = [*runs.cut(text), *broken, *runs.doubled(text), *letterspaced.gaps(text)]
    cuts += [match.span(sign) for match in _BOLD_NUMBER.finditer(text) for sign in (1, 2)] if "**" in text else []
    if any(hint in text for hint in shortdots.HINTS):
        cuts += shortdots.dots(text)
    if cuts or MOVES.search(text):
        text, offsets = _moved(text, cuts)
    if way is not None:
        offsets = way if offsets is None else [way[at] for at in offsets]
    if "[/" in text or marked.FRAME.search(text):
        text, offsets = marked.unmarked(text, offsets)
    text, offsets = yarnletters.at_edge(text, offsets)
    if " time" in text or "round once" in text or "round twice" in text or "ext round, " in text or "ext row, " in text:
        text, offsets = timesaround.told(text, offsets)
    text, offsets = talkrounds.labelled(text, offsets)
    if "then " in text:
        text, offsets = onebreath.parted(text, offsets)
    text = dressed.plainly(text)
    if "(*" in text:
        text = _STAR_IN_BRACKETS.sub(lambda m: f" {m['star']} ", text)
    if "\\\n" in text:
        text = f"{text}\n".replace("\\\n", " \n")[:-1]  # a break of the line in Markdown
    if "\\*" in text:
        text = text.replace("\\*", " *")
    if "**" in text or "__" in text:
        text = _BOLD.sub(_unbold, text)
    if "[ " in text or "[]" in text or "( " in text:
        text = _TO_TICK.sub(lambda m: " " * len(m[0]), text)
    if "    " in text:
        text = tables.counts_apart(text)
    if "___" in text:
        text = _BLANK.sub(lambda m: " " * len(m[0]), text)
    if "_" in text:
        text = _UNDERSCORE.sub(r" \1 ", text)
    text = partwords.nameless(text)
    if partnumbers.SECOND.search(text):
        text = partnumbers.unnumbered(text)
    if "MC" in text or "mc" in text:
        text = mainring.ringed(text)
    if any(hint in text for hint in colourasides.HINTS):
        text = colourasides.bracketed(text)
    text = fields.fields(text)
    text, offsets = changes.retold(text, offsets)
    if "|" in text:
        text = tables.bars(text)
    text = labelsalone.joined(text)
    text = seams.parted(paragraphs.rejoined(countruns.parted(text), len(broken)))
    text = tables.told_first(tables.totals(text))
    if " / " in text or " // " in text:
        text = tables.slashes(text)
    text = below.counts_below(tables.stacked(text))
    text = ownlabels.joined(text)
    for cut in (_CUT_LABEL, _CUT_POINT, _CUT_AND_SO_ON, _CUT_SENTENCE, _CUT_START):
        text = cut.sub(lambda m: m[0].replace("\n", " "), text)
    if "\n1. " in text:
        text = _ALL_ONES.sub(_counted_up, text)
    if "ch-sp" in text or "ch sp" in text or "-ch" in text:
        text = _CHAINS_FIRST.sub(lambda m: f"{m['ch']}{m['by']}{m['n']}", text)
    text, offsets = inorder.told_in_order(*rangelist.joined(*copiestold.told(*thenrounds.parted(text, offsets))))
    text, offsets = ownshapings.keyed(text, offsets)
    text = ringbehind.parted(text)
    text, offsets = namedbehind.labelled(*countedup.labelled(*ringrounds.parted(*strips.parted(text, offsets))))
    text, offsets = likerounds.labelled(*namedlast.labelled(text, offsets))
    text = twojobs.parted(sentences.narrated(signless.signed(countcommas.stopped(text))))
    text = sentenced.sentenced(spoken.spoken(coursewords.coursewords(scans.digits(coursewords.romans(text)))))
    if shadecells.MARK in text or shadecells.ASIDE in text:
        text, offsets = shadecells.brought_forward(text, offsets)
    if "/" in text:
        text, offsets = strokes.strokes(*withs.spelt(text, offsets))
    if yarnletters.LETTER_ALONE.search(text):
        text, offsets = yarnletters.in_brackets(text, offsets)
    text, offsets = yarnletters.within(*yarnletters.small(*yarnletters.taken_up(text, offsets)))
    text, offsets = countsahead.put_behind(*yarnletters.labelled(text, offsets))
    text, offsets = resultfirst.put_behind(text, offsets)
    text, offsets = dressed.undressed(text, offsets)
    text, offsets = twofold.twofold(*twofold.by_one(text, offsets))
    text, offsets = retold.retold(text, offsets)
    text, offsets = tongue.tongue(text, offsets, terms)
    if "   " in text and not entities:
        text, offsets = gutter.unfold(text, offsets)
    text = captions.opened(pictured.without(text))
    moved = offsets is not None and any(at != i for i, at in enumerate(offsets[: len(text)]))
    if "\n  " in text:
        text, offsets = indents.hung(text, offsets)
    return Page(original, text, offsets, breaks, is_html or bool(gone), gone, not moved, whole)
