"""What a teller leaves out, since the round before has it: "work one and then two in the next", "with three in
between", "takes two together all the way, and with 6 left you fasten off". A round told so is written out, with the
way back.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from functools import cache

from hookside.notation.page.edits import Edit, put
from hookside.notation.page.inwords import NTH, N, value
from hookside.notation.sought import Sought

_LINE = re.compile(
    r"^[^\w\n]{0,6}(?:Next )?(?:Round|Rnd|Row)s?(?: ?(?P<n>\d{1,3})(?:(?: to |-)\d{1,3})?)?: {0,60}"
    r"(?P<body>\S[^\n]{0,300})",
    re.M | re.I,
)
# A hint of them: what such rounds say and others hardly do
_MAY = Sought(
    ("two in", "2 in", " together", "between", "ouble", "plain ", "such r", "nothing changes", "stay", "repeats ",
     "take every ", "leav", "giv", "mak", "over the ", "stitches each", ", round ", ", row ", "end of ", "second chain",
     "through both", "by turns", "lternat", "in turn", "turn about",
     " round ", " row ", " rnd ", " first "),
    r"(?:two|2) in(?:to)? the (?:next|same|following)|two together|in between|[dD]oubles? (?:them|each|every)|"
    r"plain (?:as|too|also|again)|such (?:row|round)|between|(?:two|2) in(?:to)? (?:each|every)|"
    r"nothing changes|stays? |repeats |take every |"
    r"(?:and|,) (?:it |that )?(?:leav|giv|mak)(?:es?|ing) |"
    r"over the (?:chain|ring)|stitches each|, (?:round|row) (?:1|one) |"
    r"through both (?:sides|layers|edges|thicknesses)|by turns|lternat|in turns?|turn about|"
    r"end of (?:each|every) row|second chain and|(?:is|as|for|in|with)(?: the)? (?:round|row|rnd|first) "
)
_AMOUNT = rf"(?:{N})(?![\w-])"
_NOUN = r"(?: (?:stitches|sts|single crochets?))"
_ENDS = r"(?=\s*(?:[.;,]|$))"
_ONE_AND_TWO = re.compile(
    rf"^(?:(?:now )?(?:work|do|make|crochet) )?(?P<n>{_AMOUNT}),?(?: and)?(?: then)? (?:put |work |make )?(?:two|2) "
    r"in(?:to)? (?:the )?(?:next|following|same)(?: one| stitch| st)?\b(?! \d)",
    re.I,
)
_AND_TOGETHER = re.compile(
    rf"^(?:(?:now )?(?:work|do|make|crochet) )?(?P<n>{_AMOUNT}),?(?: and)?(?: then)? (?:take|work|crochet|put)s? "
    r"(?:the next )?(?:two|2) together",
    re.I,
)
_DOUBLES = re.compile(
    rf"\bdoubles? (?:them(?: all)?|(?:each|every)(?: one| stitch| st)?)(?: to (?P<n>{_AMOUNT}))?(?=\s*(?:[.,;]|$))",
    re.I,
)
_ALL_TOGETHER = re.compile(
    r"\btakes? (?:(?:two|2|them) together(?: (?:two by two|in pairs))? (?:all the way|all|to the end)"
    r"(?: (?:a?round|along))?|them (?:all )?together (?:two by two|by twos|in pairs))",
    re.I,
)
_BETWEEN = re.compile(
    r"^(?:(?:again|likewise|also|in|do|goes|go|follows|just|exactly) )*(?:the same(?: way)?(?: again)?,? )?"
    rf"(?:but |only )?(?:with |(?:put|leave|work|do|have) )?(?P<n>{_AMOUNT})(?: plain)?(?:{_NOUN}| ones)? "
    r"(?:in ?)?between(?: (?:them|each|the (?:increases|decreases)))?"
    rf"(?:,? (?:so |leaving |for |making |which makes |that makes )?(?P<count>{_AMOUNT}){_NOUN}?(?=\.? *$))?",
    re.I,
)
# "put two into each one", "gets two in every stitch"
_INTO_EACH = re.compile(
    r"^(?:put|work|make|gets?|does|do) (?P<n>two|2|three|3|one|1) in(?:to)? (?:each|every)(?: one| of them)?"
    r"(?: stitch| st)?(?= *(?:[,.;(=]|$|so\b|which\b))",
    re.I,
)
_STAYS = re.compile(
    r"^(?:nothing changes|plain (?:as well|too|also|again)(?! (?:in|with)\b)|stays? (?:the same|as (?:it is|they are)))"
    rf"(?:,? (?P<n>{_AMOUNT}){_NOUN}?(?=\.? *$))?",
    re.I,
)
_REPEATS = re.compile(r"^repeats(?= (?:round|row|rnd))", re.I)
_EVERY_PAIR = re.compile(rf"(?:now )?(?P<take>take every {NTH} and {NTH})(?= together)", re.I)
_COUNTS = re.compile(
    rf"(?:,? (?:and )?with (?P<left>{_AMOUNT}){_NOUN}? left(?: you)? (?=[a-z])|"
    r"(?:,? (?:so |and )?(?:that )?(?:now )?(?:you|it|we) (?:now )?(?:counts?|reach(?:es)?|grows? to|comes? to|"
    rf"gets? to|(?:are|is) (?:now )?(?:back |down |up )*(?:to|at))|"
    r",? (?:so |and )?(?:you|we|it)(?:'re|'s) (?:now )?(?:back |down |up )*(?:to|at)|,? which brings (?:you|it|us) to|"
    rf",? back(?: up| down| again)? to) (?P<to>{_AMOUNT}){_NOUN}?{_ENDS}|"
    rf",(?: with| still| again| always)* (?P<each>{_AMOUNT}){_NOUN} (?:each|every time|each time){_ENDS}|"
    rf"(?:(?<=plain)|(?<=plainly))(?: again)?(?:,?(?: with| still)? (?P<plain>{_AMOUNT}){_NOUN}|"
    rf",(?: still| with)?(?: all(?: of)?)?(?: the)? (?P<alone>{_AMOUNT})){_ENDS}|"
    rf"[,;](?: and)?(?: still)? there (?:are|will be)(?: still)? (?P<of_them>{_AMOUNT}) of them(?: still)?{_ENDS})",
    re.I,
)
# "like the fifth and leaves 10 stitches", "as row 3, leaving 8": what another round comes to this time
_LIKE_AND = re.compile(
    rf"^(?:just |exactly |worked )*(?:like|as|the same as) (?:in )?(?:the (?P<nth>{NTH})(?: (?:one|row|round|rnd))?|"
    rf"(?:row|round|rnd) (?P<row>\d{{1,3}}))(?:,|,? and|,? but) (?:it |that |this )?"
    rf"(?:leaves|leaving|gives|giving|makes|making)(?: you)?(?: with)? (?P<n>{_AMOUNT}){_NOUN}?(?: left)?{_ENDS}",
    re.I,
)
# "..., and so on around, three times over": told twice
_AND_SO_ON = re.compile(
    rf",? and so (?:on|forth)(?: (?:a?round|along|across|all the way(?: a?round)?))?(?=, {N} times\b)", re.I
)
# "fold it and work through both sides together"
_FOLDED = re.compile(
    r"^fold (?:it |them |this )?(?:in half |flat )?and (?:work|crochet) (?:a?cross )?through both "
    r"(?:sides|layers|edges|thicknesses)(?: together| at once| a?cross)?",
    re.I,
)
_KIND = r"(?:(?:half )?(?:single|double|treble)(?: crochet)?|sc|[hd]?dc|h?tr)"
# "one single crochet and one double crochet by turns all the way across, beginning and ending with a single crochet"
_BY_TURNS = re.compile(
    r"(?:(?P<alternate>alternat(?:e|ing),? )?(?:between )?"
    rf"(?:one|1|a) (?P<a>{_KIND}) (?:and|with) (?:one|1|a) (?P<b>{_KIND})"
    r"(?(alternate)|,? (?:by turns|alternately|in turns?|turn (?:and turn )?about))"
    r"(?:,? (?:(?:all the way|right) )?(?:a?cross|a?round|along|to the end))?"
    rf"(?P<edges>,? (?:both )?(?:beginning|starting) and ending with (?:a |an |one )?(?P<edge>{_KIND}))?)",
    re.I,
)
# "all slip stitches, worked loosely, one in each stitch"
_ALL_OF_A_KIND = re.compile(
    r"^(?:(?:is |are |just |work |of )?all )?(?P<kind>slip|single crochet|double crochet) ?(?:stitch)?(?:es|s),?"
    r"(?: worked)?(?P<how> (?:loosely|tightly|firmly|loose))?,? (?:and )?one in(?:to)? each(?: stitch| st| one)?\b"
    r"(?! of)",
    re.I,
)
_PLAINLY = re.compile(r"^plainly\b", re.I)
_THEN_YOU = re.compile(r",? and then (?:you|we) (?=(?:fasten|cut|stuff|sew|leave|close|change|put)\b)", re.I)
_ONE_MORE = re.compile(
    r"(?:work |make |do )?(?:one more|another)(?: such| of these)? (?:row|round)s?"
    r"(?: like (?:it|that|this|the last))?",
    re.I,
)
_NO_TURN = re.compile(r",? (?:but |and )?(?:do not|don't|without) turn(?:ing)?(?: at the end(?: of it)?)?", re.I)
_TURNS = re.compile(r"[,;]?(?: then| and)* ch(?:ain)? (?:1|one),?(?: and)? turn\b.*|[.;]?\s*$", re.I)
_ROW_ENDS = re.compile(
    r"\b(?:1|one) (?P<st>single crochet|double crochet|sc|dc) (?:in(?:to)? )(?:the end of (?:each|every) row|"
    r"(?:each|every) row[ -]end)(?: a?round[a-z ]{0,30})?(?=[,.;]| \(|$)",
    re.I,
)
_SECOND_CHAIN = re.compile(r"(?<=in the second chain)(?= and (?:in(?:to)? )?(?:each|every|all)\b)", re.I)
_COUNT_WITHIN = re.compile(
    rf", (?P<n>{_AMOUNT}){_NOUN},? (?:and )?then (?P<turn>ch(?:ain)? (?:1|one),? and turn)\b", re.I
)
# "start with a magic ring and 4 single crochets as round 1.", "begin in a ring with 7 sc, that is round 1."
_RING_IS_FIRST = re.compile(
    r"(?:(?<=[.!?:] )|^)(?P<told>[^.:\n]{0,60}\b(?:ring|circle)\b[^.:\n]{2,60}?)"
    r"(?P<is>,? (?:(?:and )?(?:that|this|which) (?:is|makes|will be)|as) (?:the |your |our )?"
    r"(?:(?:round|rnd|row) (?:1|one)|first (?:round|rnd|row)))(?= {0,4}(?:[.;\n]|$))",
    re.M | re.I,
)
_FIRST_ROUNDS = (
    " round 1", " round one", " rnd 1", " rnd one", " row 1", " row one", "first round", "first rnd", "first row",
)  # fmt: skip
_WORKED = re.compile(rf"\b{N} (?:single|double|half|sc|[hd]?dc|sts?|stitches)\b", re.I)
# "Make a magic ring and for round 1 put 5 sc in it.", "With gray, round 1 is 7 sc in a magic ring."
_FIRST_WITHIN = re.compile(
    r"(?:\b(?:ring|circle)(?P<and>,?(?: and| then)* (?:for|in|as) (?:round|rnd|row) (?:1|one),? )|"
    r"^[^\w\n]{0,6}(?:with|in|using|take) [^.,:\n]{2,30}(?P<is>, (?:and )?(?:the )?"
    r"(?:(?:round|rnd|row) (?:1|one)|first (?:round|row))(?: (?:is|has|begins with|starts with|will be)|:|,) ))"
    rf"(?=[^.\n]{{0,60}}(?:\d|\b{N}\b))",
    re.M | re.I,
)
# "30 sc around the circle, over the chain": one way, told twice
_OVER_CHAIN = re.compile(
    r"(?:a?round|in(?:to)?|on) (?:the |this )?(?:ring|circle|loop),? (?:and |working |going )*"
    r"over the (?:chains?|chain ring|ring)\b",
    re.I,
)
_SHRINKS = re.compile(r"together|\bdec|2tog", re.I)
_GROWS = re.compile(r"\binc|(?:two|2)(?: single crochets?| sc| dc)? in(?:to)? |\bdoubl", re.I)
_STITCHES = re.compile(
    r"(?P<hdc>half double crochet|\bhdc\b)|(?P<htr>half treble|\bhtr\b)|(?P<sc>single crochet|\bsc\b)|"
    r"(?P<dc>double crochet|\bdc\b)|(?P<tr>treble|\btr\b)"
)


# A hint of all that `_line` writes out, but for one more round like the last
_MAY_BE_RETOLD = re.compile(
    r"(?:two|2) in(?:to)?\b|together|doubl|between|e(?:ach|very)\b|nothing changes|plain|stay|repeats|second chain|"
    r"over the|counts?\b|reach|then (?:you|we)|row| turn|so on|so forth|through both|by turns|alternat|in turn|about|"
    r"\b(?:to|at|makes|making|gives|giving|leaves|leaving|left)\b"
)


_FAR = 30_000  # letters of a page that tell what it works most


def retold(text: str, offsets: list[int] | None) -> tuple[str, list[int] | None]:
    """The text with such rounds written out, and the way back."""
    if not _MAY.search(text):
        return text, offsets
    edits: list[Edit] = []
    low = text.lower()
    first_told = any(name in low for name in _FIRST_ROUNDS)
    for match in _RING_IS_FIRST.finditer(text) if first_told else ():
        if _WORKED.search(match["told"]) is None:
            continue
        start = match.start()
        line = "" if start == 0 or text[start - 1] == "\n" else "\n"
        edits += [(start, start, f"{line}Rnd 1: "), (*match.span("is"), "")]
    for match in _FIRST_WITHIN.finditer(text) if first_told else ():
        edits.append((*match.span("and" if match["and"] else "is"), ".\nRnd 1: "))

    @cache
    def stitch() -> str:
        """What is left out is what the text works most."""
        named = Counter(str(m.lastgroup) for m in _STITCHES.finditer(low, 0, _FAR))
        return named.most_common(1)[0][0] if named else "sc"

    before = ""
    for match in _LINE.finditer(text):
        edits += _line(match, stitch, before)
        before = match["body"] if _BETWEEN.search(match["body"]) is None else before
    return put(text, offsets, edits) if edits else (text, offsets)


def _line(match: re.Match[str], worked: Callable[[], str], before: str) -> list[Edit]:
    """What is put where in a round."""
    body, at, n = match["body"], match.start("body"), int(match["n"] or 0)
    if _ONE_MORE.match(body) and before and (_NO_TURN.search(body) or _ONE_MORE.fullmatch(body.rstrip(" ."))):
        turn = _TURNS.search(before)
        return [(at, match.end("body"), before[: turn.start()] if turn is not None else before)]
    if _MAY_BE_RETOLD.search(body.lower()) is None:
        return []
    stitch = worked()
    shape = f"{stitch}2tog" if _SHRINKS.search(before) else "inc" if _GROWS.search(before) else ""
    told_so = n > 1 and re.search(rf"(?<!\d){n - 1}(?!\d)", body) is not None  # as many as there are rows
    rules: list[tuple[re.Pattern[str], Callable[[re.Match[str]], str | None]]] = [
        (_ONE_AND_TWO, lambda m: f"{value(m['n'])} {stitch}, 2 {stitch} in the next st"),
        (_AND_TOGETHER, lambda m: f"{value(m['n'])} {stitch}, {stitch}2tog"),
        (_DOUBLES, lambda m: "inc in every st" + (f" = {value(m['n'])}" if m["n"] else "")),
        (_ALL_TOGETHER, lambda m: f"{stitch}2tog around"),
        (_BETWEEN, lambda m: _between(m, stitch, shape)),
        (_INTO_EACH, lambda m: f"{value(m['n'])} {stitch} in each st"),
        (_STAYS, lambda m: "plain" + (f" = {value(m['n'])}" if m["n"] else "")),
        (_REPEATS, lambda m: "repeat"),
        (_EVERY_PAIR, lambda m: f"{m['take']} stitch"),
        (_LIKE_AND, lambda m: f"like round {value(m['nth'] or m['row'])} = {value(m['n'])}"),
        (_COUNTS, _counted),
        (_PLAINLY, lambda m: "plain"),
        (_BY_TURNS, _by_turns),
        (_ALL_OF_A_KIND, lambda m: f"{'sl st' if m['kind'][:4] == 'slip' else m['kind']}{m['how'] or ''} in each st"),
        (_AND_SO_ON, lambda m: ""),
        (_FOLDED, lambda m: f"fold, {stitch} through both layers across"),
        (_THEN_YOU, lambda m: ". "),
        (_ROW_ENDS, lambda m: f"{n - 1} {m['st']} along the row ends" if told_so else None),
        (_OVER_CHAIN, lambda m: "into the ring"),
        (_SECOND_CHAIN, lambda m: " from the hook"),
        (_COUNT_WITHIN, lambda m: f", {m['turn']} = {value(m['n'])}"),
    ]
    found: list[Edit] = []
    for rule, written in rules:
        for told in rule.finditer(body):
            new = written(told)
            span = (at + told.start(), at + told.end())
            if new is not None and all(span[1] <= a or span[0] >= b for a, b, _ in found):
                found.append((*span, new))
    return found


def _between(told: re.Match[str], stitch: str, shape: str) -> str | None:
    if not shape:
        return None
    count = f" = {value(told['count'])}" if told["count"] else ""
    return f"*{value(told['n'])} {stitch}, {shape}; repeat around{count}"


def _by_turns(told: re.Match[str]) -> str | None:
    pair = f"*1 {told['a']}, 1 {told['b']}; repeat from *"
    if told["edges"] is None:
        return f"{pair} to the end"
    if told["edge"].lower() != told["a"].lower():
        return None
    return f"{pair} to the last st, 1 {told['a']} in the last st"


def _counted(told: re.Match[str]) -> str:
    n = value(next(n for n in told.groups() if n))
    if told["alone"]:
        return f" ({n})"  # "plain, all of 36, while you listen": more may stand behind it
    return f" = {n}. " if told["left"] else f" = {n}"
