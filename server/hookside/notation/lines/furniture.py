"""Lines told by their look alone: what belongs to the page, chains before a first course, last slip stitches."""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.colours import COLOURS, SHADES
from hookside.notation.askings.colournames import is_colour
from hookside.notation.vocabulary import AMOUNT

_LONGEST = 240  # letters of such a line
_NUMBER = AMOUNT
_FURNITURE = re.compile(
    r"""\s*(?:
        -?\s*(?:page|pg\.?|p\.)\s*\d{1,3}(?:\s*(?:of|/)\s*\d{1,3})?\s*-?
      | -\s*\d{1,3}\s*-
      | [^\n:.]{3,60}?(?:\s{2,}|\s[|-]\s)(?:page|pg\.?|p\.)\s*\d{1,3}(?:\s*(?:of|/)\s*\d{1,3})?
      | (?:page|pg\.?)\s*\d{1,3}(?:\s*(?:of|/)\s*\d{1,3})?(?:\s{2,}|\s[|-]\s)[^\n:.]{3,60}
      | [-=_~*\#+.]{3,}
      | \d{1,3}\s*/\s*\d{1,3}
      | (?:picture|photo|figure|fig\.?|image|img|pic|illustration|step\ photo)\s*
        (?:no\.?\s*|nr\.?\s*|\#)?\d{1,3}[a-z]?(?:\s*(?:-|,|and|to)\s*\d{1,3})?
      | \[\s*(?:picture|photo|figure|image|illustration|video|caption)s?\s*[:\-][^()\[\]\n]{0,160}\]
      | [(\[]?\s*video:?\ (?:from\ |at\ )?\d{1,2}:\d{2}(?::\d{2})?\s*[)\]]?
      | [(\[]\s*(?:see\ )?(?:picture|photo|figure|fig\.?|image|img|pic|illustration)s?\s*
        (?:no\.?\s*|nr\.?\s*|\#)?\d{1,3}[a-z]?\b[^()\[\]\n]{0,160}[)\]]
      | (?:[(\[]\s*(?:(?:see|look\ at)\ )?|(?:see|look\ at)\ )(?:the\ |my\ )?(?:picture|photo|pic|image|img)s?
        (?:\ (?:below|above|here|on\ the\ (?:left|right)))?\s*[)\]]?
      | [(\[]?\s*(?:watch|see|view)\ (?:(?:the\ |my\ )?(?:video|film|clip)\ )?(?:from|at)\ \d{1,2}:\d{2}(?::\d{2})?
        \s*[)\]]?
      | (?:\(c\)|©|copyright\b|all\ rights\ reserved)[^\n]{0,160}
      | (?:https?://|www\.)\S{1,200}
      | (?:continued|continue)\ on\ (?:the\ )?next\ page |
        [(\[]?\s*(?:continued|cont(?:inue|\.|'d)?)\ (?:on|from)\ (?:page|p\.?|pg\.?)\s*\d{1,3}\s*[)\]]?
      | (?:the\ )?next\ page | over\ the\ page | please\ turn\ over
    )[\s.:]*$""",
    re.I | re.X,
)

_CHAINS = re.compile(
    rf"""\s*
    (?:(?:(?:make|tie|put|form|start\s+with|begin\s+with)\s+)?an?\s+slip[ -]?knot
        (?:\s+(?:on|onto|around|over)\s+(?:to\s+)?(?:the|your)\s+hook)?\s*(?:,?\s*(?:and|then)\s+|[.,;]\s*))?
    (?:(?:start|begin|beg\.?)(?:ning|ing)?\s+(?:at|from)\s+(?:the\s+)?[a-z ]{{2,24}}?
        (?:,\s*|\s+(?=(?:with|using|in)\b)))?
    (?:(?:with|by)\s+(?={_NUMBER}\s*ch))?
    (?:(?P<with>(?:with|using|in|(?:start|begin)(?:ing|ning)?\s+(?:off\s+)?(?:with|in|
    by))\s+(?P<colour>[^.,;:\n\d]{{1,40}}?(?:\d(?=\s*[,:.]))?|[A-Z]{{1,2}}\.(?=,)|(?:yarn|colou?r|shade|mc|cc)\s?\d))
    \s*[,:.]?\s+)?
    (?:(?:start|begin|beg\.?)(?:n?ing)?\s+(?:at|from)\s+(?:the\s+)?[a-z ]{{2,24}},\s*)?
    (?:(?:to\s+(?:start|begin)|(?:foundation|base|starting|beginning|set[ -]?up)(?:\s+(?:chain|ch|ring|row))?
        |(?:ring|chain)(?=\s*:)|start|begin)\s*[,:\-]?\s+)?
    (?:(?:now\s+)?(?:we|you)\s+)?(?:(?:make|work|crochet|do|start|begin|commence|loosely|mount|(?:cast|stroke|hit|beat)\s+on|assemble|raise
        |collect|gather|strike|mount|type
        |dial|gain|recruit|set\s+up|knit|weave|string)\s+(?:(?:with|by)\s+)?)*
    (?:a\s+)?(?:(?:foundation|base|starting|beginning|loose)\s+)?(?:ring\s+(?:with|of|from|out\s+of)\s+)?
    (?P<chains>
        ch(?:ains?)?\.?\s*(?:(?:of|with)\s+|[:=]\s*)?-?\s*{_NUMBER}\b(?:\s+air\s+(?:loops|stitches))?
      | {_NUMBER}\s*(?:chs?\b\.?|chains?\b|chain\s+stitch(?:es)?\b|air\s+(?:loops|stitches)\b)
    )
    (?:\s*(?:sts?|stitches|chains?|chs?)\b)?
    (?P<rest>[^\n]*)$""",
    re.I | re.X,
)
_DYED = rf"(?:(?:{'|'.join(map(re.escape, SHADES))})\ )*(?:{'|'.join(map(re.escape, COLOURS))})\b"  # "Chain 8 gray."
_CHAINS_REST = re.compile(
    r"""\s*(?:
        [.,;:!]+
      | (?:and\ |then\ )*(?:join|close|connect|form|sl\ ?st|ss\b|slip)
        (?:[^.;\n]|(?<=\bs)\.|(?<=\bs\.s)\.|(?<=\bst)\.){0,80}
        \b(?:ring|circle|round|loop|1st\ ch\w*|first\ ch\w*|first|join)\b
        (?:\ with\ (?:(?:an?|1|one)\ )?(?:s\.?\ ?s\.?|sl\.?\ ?st\.?|slip[ -]?stitch)(?![a-z]))?
      | (?:joined|closed)\ (?:with|by)\ (?:an?\ )?(?:s\.?\ ?s\.?|sl\.?\ ?st\.?|slip[ -]?stitch)(?![a-z])
      | (?:and\ |then\ )*join\b
      | (?:and\ |then\ )*ch(?:ain)?\ ?1(?!\d)
      | (?:and\ |then\ )?turn\b(?:\ the\ work)?
      | [(\[][^()\[\]\n]{1,60}[)\]]
      | (?:\+|plus|and)\ (?:ch(?:ain)?\ )?(?:\d|one|two|three)
        (?:\ (?:more|extra|chains?|ch|for|to|the|turn(?:ing)?|t-?ch)\b)*
      | (?:crochet|work(?:ed|ing)?)\ (?:back\ and\ forth\ )?in\ (?:rows|rounds)(?=\s*(?:\.|$))
      | (?:stitches\ are\ worked|(?:and\ |then\ )?(?:now\ )?(?:we\ |you\ )?(?:work|crochet)(?:ing)?)
        \ (?:around|along|on)\ both\ sides\ of\ the\ (?:foundation\ )?ch(?:ain)?
      | (?:and\ |then\ )?(?:start|begin)(?:n?ing)?\ (?:in|from|at|with)\ (?:the\ )?(?:2nd|second)\ ch(?:ain)?
        (?:\ from\ (?:the\ |your\ )?hook)?(?=\s*(?:\.|$))
      | (?:and\ |then\ |you\ |now\ )*(?:skip|miss|sk)\ (?:over\ )?(?:the\ |your\ )?(?:very\ )?
        (?:first|1st|1|one|2|two|3|three)(?:\ (?:chains?|chs?|one|ones|st|stitch(?:es)?)\b)?
        (?:\ (?:from|at|by|nearest|next\ to)\ (?:the\ |your\ )?hook)?
        (?=\s*(?:[.,;(]|$))
      | (?:and\ )?work(?:ing)?\ in(?:to)?\ (?:the\ )?(?:2nd|second)\ ch(?:ain)?(?:\ from\ (?:the\ )?hook)?
        \ as\ (?:the|a|your)\ ring
      | for\ (?:the\ )?(?:foundation|base|starting)(?:\ (?:chain|ch|row))?
      | loosely
      | (?:with|in|using)\ (?:the\ |your\ )?(?!an?\s*$|the\b|it\b|each\b|next\b|same\b|first\b|last\b)
        [a-z][^.;,:()\d\n]{0,30}(?=\s*(?:[.,;:]|$))
      | SHADE(?:\ (?:yarn|cotton|wool|thread))?(?=\s*(?:[.,;:]|$))
      | (?:do\ not|don't)\ (?:join|twist)(?:\ (?:the\ )?chain)?
      | (?:(?:being|be|taking|take|and|while)\ )*(?:careful|care|making\ sure|make\ sure|without)\b[^.;\n]{0,40}
        \btwist(?:ed|ing)?\b(?:\ (?:it|the\ (?:ch|chain|ring)\w*))?
    )""".replace("SHADE", _DYED),
    re.I | re.X,
)
_LAST_SLIP = re.compile(
    r"""\s*(?:then\ |now\ |finally,?\ |end\ with\ (?:a\ )?|finish\ with\ (?:a\ )?)*
    (?:(?:\d\s+|1\s+|one\s+|a\s+)?(?:s\.\ ?s\.|sl\.?\ ?st\.|(?:sl\.?\ ?st|sl|ss|slip[ -]?stitch)(?:es|s)?\b)
    (?:[^.;:*\n]|(?:(?<=\bst)|(?<=\bsts)|(?<=\bd\.c)|(?<=\bch))\.(?=[\ ,])){0,60}?
    (?:,|;|\.|-|\band\b|\bthen\b|\&|\bn\b|\ (?=f\.?/?o\b))\s*(?:and\ |then\ )*
    (?:fasten|finish|cut|break|bind|tie|cast|f\.?o\b|f/o|end\ off|leav)|f[./]?\s?o\b\.?\s*(?:$|[,;(]|and\b))""",
    re.I | re.X,
)


# "White: ch 6.", "gold, ch 25", "Cream. Ch 4, join."
_SHADE_LED = re.compile(
    r"\s*(?P<shade>[A-Za-z]{3,12}(?: [a-z]{3,12}){0,2})\s*[.,:;-]\s+(?=(?:make (?:a )?)?(?:\d{1,3} )?ch(?:ain)?s?\b)",
    re.I,
)


_NUMBERED_YARN = re.compile(
    r"\s*(?P<shade>(?:with|using|in) [A-Za-z]{1,8} ?\d)\s*[.,:]\s+(?=(?:make (?:a )?)?(?:\d{1,3} )?ch(?:ain)?s?\b)",
    re.I,
)
# "With brown and 3.00 hook make 3 ch", "Using a 3.5 mm hook and grey yarn, ch 11": the hook beside the yarn
_SIZED = r"(?:an?\s+|the\s+|your\s+)?\d{1,2}(?:[.,]\d{1,2})?\s?(?:mm\s+)?(?:crochet\s+)?hook"
_HOOK_LED = re.compile(
    r"\s*(?P<shade>(?:with|using)\s+"
    rf"(?:(?P<tool>{_SIZED})(?P<yarn>,?\s+(?:and|with)\s+(?:the\s+)?[A-Za-z][A-Za-z ]{{1,30}}?)?|"
    rf"(?:the\s+)?[A-Za-z][A-Za-z ]{{1,30}}?\s+(?:and|with|on)\s+{_SIZED}))\s*[,:]?\s+"
    rf"(?=(?:make |work |start with )?(?:a chain of )?(?:{_NUMBER} )?ch(?:ain)?s?\b)",
    re.I,
)


@lru_cache(4096)
def is_furniture(line: str) -> bool:
    """Page numbers, copyright lines, numbers of pictures: no part of the pattern, and nothing ends at them."""
    return len(line) <= _LONGEST and bool(_FURNITURE.match(line))


def foundation(line: str) -> int | None:
    """Only chains, perhaps closed to a ring: what the next course is worked into, and no course of its own.

    -> where its colour or its chains begin; None for any other line.
    """
    low = line.lower()
    if "ch" not in low and "air" not in low:
        return None  # asked of each line and each sentence there is
    match = chains_told(line)
    if not match:
        led = shade(line) if len(line) <= _LONGEST else None
        return 0 if led is not None and foundation(line[led.end() :]) is not None else None
    rest, at = match["rest"], 0
    while rest[at:].strip():
        more = _CHAINS_REST.match(rest, at)
        if not more or more.end() == at:
            return None
        at = more.end()
    return match.start("with") if match["with"] else match.start("chains")


def chains_told(line: str) -> re.Match[str] | None:
    """Chains with whatever is said behind them: "Ch 15, one strand only." What stands next tells what they are."""
    return _CHAINS.match(line) if len(line) <= _LONGEST else None


def shade(line: str) -> re.Match[str] | None:
    """The yarn in front of chains, without a word, by a name with a number or beside the hook: "White: ch 6."."""
    if "hook" in line.lower() and (led := _HOOK_LED.match(line)) is not None:
        return led
    led = _SHADE_LED.match(line)
    return led if led is not None and is_colour(led["shade"]) else _NUMBERED_YARN.match(line)


def finishes_off(line: str) -> bool:
    """ "Sl st in next st and fasten off": the end of a piece and no course."""
    return bool(_LAST_SLIP.match(line))
