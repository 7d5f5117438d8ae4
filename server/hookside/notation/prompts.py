"""Sentences that ask the hands for something that is not a stitch, told from sentences that only tell a story."""

from __future__ import annotations

import re
from typing import cast

from hookside.pattern import CueKind, Weight

WEIGHTS: dict[CueKind, Weight] = {
    "eyes": "stop",
    "stuff": "stop",
    "close": "stop",
    "fasten": "stop",
    "hold": "stop",
    "join": "stop",
    "marker": "whisper",
    "count": "whisper",
    "colour": "pause",
    "turn": "pause",
    "tail": "pause",
    "shape": "pause",
    "weave": "pause",
    "sew": "pause",
    "pin": "pause",
    "embroider": "pause",
    "other": "pause",
}

# What comes before the asking: taken off, again and again, until the verb stands first.
_LEAD = re.compile(
    r"(?:(?:now|then|next|finally|lastly|first|firstly|afterwards?|after that|also|and|again|otherwise|please|optional(?:ly)?|"  # noqa: E501
    r"at this (?:point|stage)|at the end|as you go|when (?:done|finished|you are done|you're done)|once (?:done|finished)|"  # noqa: E501
    r"if (?:you (?:like|wish|want|prefer)|desired|needed|necessary)|don't forget to|do not forget to|remember to|be sure to|"  # noqa: E501
    r"make sure (?:to|you|that you)|you (?:can|may|should|will|need to|must|want to)(?: now| then| also)?|"
    r"it(?:'s| is)(?: now)? time to|now is (?:the|a good) time to|(?:this is )?a good (?:time|moment) to|time to|let's|we(?: will|'ll)? |"  # noqa: E501
    r"stop here (?:and|to)|pause (?:here )?(?:and|to)|go back and|take a moment to|here you|take your time to|"
    r"(?:carefully|firmly|lightly|gently|securely|loosely|neatly|tightly|evenly|invisibly|slowly|well)|"
    r"(?:before|after|while|when|once|if|with|using|for|from|at|on|in|as|between|through|by)\b[^,.;:]{1,90},)[\s,]*)"
)
_START = r"(?:begin|start|continue|keep(?: on)?|finish)(?:ning|ting|ing)?\s+(?:to\s+)?"

_COLOUR_NOUN = r"(?:colou?rs?|yarn|shade|col\b|mc\b|cc\b|[a-f]\b)"

# (kind, what the sentence says once its lead is gone). The first that fits has it; the order carries meaning:
# "fasten off and leave a long tail" is one asking, and the cut is the part that cannot be taken back.
_RULES: list[tuple[CueKind, re.Pattern[str]]] = [
    (kind, re.compile(pattern))
    for kind, pattern in cast(
        list[tuple[CueKind, str]],
        [
            ("hold", r"(?:do not|don't) (?:fasten|finish|cut|break)\b"),
            (
                "hold",
                r"(?:set|put|lay|place|leave)\b[^.]{0,40}\b(?:aside|on hold|to one side|to the side|live|on (?:a|the) (?:stitch )?(?:marker|holder|pin))\b|(?:remove|take) (?:the |your )?hook|hold (?:it|this|the)\b[^.]{0,30}(?:aside|later)|pull up (?:a |the )?(?:long )?loop|secure (?:the |your )?(?:live |working )?loop",  # noqa: E501
            ),
            (
                "close",
                r"(?:close|gather|cinch|draw|pull|sew|thread|weave|run|use|using|with|fasten|finish|cut|break|leav)[^.]{0,100}\b(?:clos(?:e|ed|ing) (?:the |up |off |it|this|that|any|last|remaining|opening|hole|top)|(?:close|shut|tight(?:ly)?)\b\s*(?:the (?:opening|hole|gap|last|remaining)|[.,;]|$|to close|and (?:fasten|secure|weave|hide|sew))|(?:front|back|remaining|last)[^.]{0,25}(?:loops|stitches|sts)[^.]{0,60}(?:pull|draw|cinch|gather|tight|close))|^close\b|^cinch\b|^gather\b|^(?:pull|draw)[^.]{0,40}\b(?:tight|shut|closed)",  # noqa: E501
            ),
            (
                "fasten",
                r"(?:fasten|finish|bind|cast|tie) ?(?:off)\b|^f ?/? ?o\b(?!ur|ld|r)|(?:cut|break|snip|trim)(?: off)? (?:the |your |off )?(?:yarn|thread|it|[a-f]\b|working)|^cut\b(?!.*felt)",  # noqa: E501
            ),
            (
                "tail",
                r"(?:leave|leaving|keep|keeping|allow)\b[^.]{0,40}\b(?:tail|end|length|yarn|thread)\b|(?:thread|hide) the (?:starting |beginning )?tail",  # noqa: E501
            ),
            (
                "eyes",
                r"(?:insert|add|attach|place|put|fix|fit|position|install|secure|push|snap|pop|set|sew|glue|mark)\w*\b[^.]{0,40}\b(?:eyes?|safety (?:eyes?|nose))\b|(?:the )?(?:safety )?eyes? (?:go|goes|are (?:placed|inserted|added|attached|fitted)|should (?:be|go)|sit|is|between|in between)\b",  # noqa: E501
            ),
            (
                "marker",
                r"(?:place|put|move|mark|insert|use|add|attach|clip|hang|pm\b|sm\b|slip|remove|take out|shift|bring)\w*\b[^.]{0,50}\b(?:markers?|sm|pm)\b|^(?:mark (?:the|this|first|last|these|both)|pm\b|mark)\b",  # noqa: E501
            ),
            (
                "embroider",
                r"(?:embroider|stitch (?:a|the|on|some|two|three|eyes?|nose|mouth)|backstitch)\w*\b|(?:sew|make|add|draw|using|with|use)\w*\b[^.]{0,40}\b(?:mouth|smile|eyebrows?|eyelash(?:es)?|nostrils?|whiskers?|cheeks?|french knots?|satin stitch|straight stitch(?:es)?|embroidery)\b",  # noqa: E501
            ),
            ("pin", r"pin\b"),
            (
                "stuff",
                r"(?:"
                + _START
                + r")?(?:over|under|light|firm)?-?(?:stuff|fill|restuff|top up)\w*\b(?!ed\b)|(?:add|insert|put|pack|push|use)\w*\b[^.]{0,40}\b(?:stuffing|filling|fibrefill|fiberfill|polyfill|toy fill|weight|beads|pellets|rice)\b|(?:do not|don't|no need to) (?:over)?-?stuff\b|no stuffing\b|leave[^.]{0,30}unstuffed|stuff(?:ing)? (?:is|should|lightly|firmly)",  # noqa: E501
            ),
            ("weave", r"(?:weave|hide|bury|sew|work|darn|tuck|thread)\w*\b[^.]{0,30}\b(?:ends?|tails?)\b|weave in\b"),
            (
                "shape",
                r"(?:flatten|fold|pinch|press|shape|block|squash|bend|mould|mold|steam|roll|form|squeeze|push (?:in|the)|smooth)\b|turn(?:ing)?\b[^.]{0,30}\b(?:inside|right side|right-side|outside)[ -]?(?:out)?",  # noqa: E501
            ),
            (
                "join",
                r"(?:join|attach|connect|crochet|sc|align|line up|hold|work through|working through)\w*\b[^.]{0,70}\b(?:legs?|arms?|pieces?|parts?|halves|panels?|sides together|together|to the|both layers|two layers|wings?|ears?|fins?|motifs?|head|body|tail)\b",  # noqa: E501
            ),
            (
                "colour",
                r"(?:change|changing|switch|swap|join|attach|add|use|using|with|introduce|return|go back|drop|pick up|carry|work|tie|continue|start|begin|cut|keep|alternat)\w*\b(?: back)?(?: over)?(?: to| in| with| on)?[^.]{0,40}\b"  # noqa: E501
                + _COLOUR_NOUN
                + r"|(?:change|switch|swap)(?: back)? (?:to|into|over|colou?rs?)\b|colou?r change|(?:with|in|using) [a-z ]{2,24}$",  # noqa: E501
            ),
            (
                "sew",
                r"(?:sew|whip ?stitch|stitch|seam|mattress stitch|attach|tack|glue|tie|fix|secure|position|place|arrange|affix|fasten|put|add|mount|hang)\w*\b[^.]{0,80}\b(?:to|onto|on|together|between|closed|over|under|along|at|behind|in place|into|sides?|opening|seam|with|around|firmly|all)\b|^(?:sew|whip ?stitch|mattress stitch|seam)\b",  # noqa: E501
            ),
            ("turn", r"(?:turn|flip|rotate)(?: the| your)? ?(?:work|piece|over|it|around)?\b"),
            ("count", r"(?:count|recount|check)\b[^.]{0,60}\b(?:stitch(?:es)?|sts?|rounds?|rows?|count)\b"),
            (
                "other",
                r"(?:thread|tie|knot|wrap|brush|trim|cut|wind|insert|make|repeat|place|repeat|slide|add|put|attach|position|measure|glue|draw|paint|place|lay|string|remove|press|pull|push|bring|skip to|go on to|begin|dampen|felt|comb|secure)\b",  # noqa: E501
            ),
        ],
    )
]

_STORY = re.compile(
    r"^(?:i|i'm|i've|my|we|our|he|she|they|it|its|it's|this (?:little|cute|sweet|pattern|toy|piece|one|part|gives|makes|is|will|was|helps|way|creates|forms)|there|that|these (?:are|will)|"  # noqa: E501
    r"the (?:work|piece|edges?|pattern|fabric|first|sides?|result|finished|designer|toy|bottom|top|wrong|right)\b[^.]{0,40}\b(?:is|are|will|should|may|can|was|curls?|starts?|begins?|now|looks?|form)|"  # noqa: E501
    r"you(?:'ll| will| should| may| can| might)? (?:notice|see|find|love|enjoy|know|feel|have|be|probably|get|end|already)|if you(?:'re|r| are| have| don't| do not| find)?\b(?!.*,)|"  # noqa: E501
    r"enjoy|thank|happy|have fun|congratulations|well done|copyright|please (?:do not|don't|contact|share|tag|credit)|"
    r"for (?:questions|more|personal)|share|tag|follow|visit|download|note that|remember that|because|so that|depending|stuffing (?:this|these|it|him|her|makes|is|was|can|small))\b"  # noqa: E501
)
_PAST = re.compile(r"^(?:i|we|my|he|she|they|it)\b")
_ASK = re.compile(
    r"^(?:stuff|fill|sew|insert|fasten|cut|weave|close|attach|place|pin|embroider|leave|change|switch|turn|add|put|mark|move|fold|flatten|join|"
    r"set|hide|gather|thread|finish|pull|draw|do|don't|pm|fo|f|begin|start|continue)\b"
)
_TRADE_NOUN = re.compile(
    r"\b(?:eyes?|tails?|yarn|stuffing|stuffed|stuff|ends?|marker|opening|hole|nose|colou?r|hook|head|body|arms?|legs?|ears?|wings?|fins?|piece|parts?|loops?|stitches|sts?|needle|seam|mouth|"
    r"hull|sail|mast|thread|wire|pins?|button|ribbon|cord|felt|face|base|side|beak|feet|foot|hands?|it|them|rounds?|rnds?|rows?|off|work|white|black|blue|red)\b"
)


def _bare(sentence: str) -> str:
    text = " ".join(sentence.lower().split()).strip(" -*:,;.!()[]\"'")
    for _ in range(6):
        match = _LEAD.match(text)
        if not match or match.end() == 0 or match.end() >= len(text):
            break
        text = text[match.end() :]
    return text


def classify(sentence: str) -> CueKind | None:
    """The kind of asking a sentence is, or None for a story, a remark, a promise."""
    whole = " ".join(sentence.lower().split()).strip(" -*:,;.!()[]\"'")
    if not whole or len(whole) > 1200:
        return None
    eyes = re.match(
        r"(?:the )?(?:safety )?eyes?\b.{0,40}\b(?:go|placed|between|inserted|in between|rnds?|rounds?)\b", whole
    )
    if eyes and not _PAST.match(whole):
        return "eyes"
    text = _bare(whole)
    lead = whole[: len(whole) - len(text)]
    if _STORY.match(text) or _STORY.match(whole) or (lead and _PAST.match(lead)):
        return None
    if re.match(
        r"(?:do not|don't|no need to) (?:over)?-?stuff|no stuffing|stuffing (?:firmly|lightly|as|the)|(?:firmly|lightly) stuff",  # noqa: E501
        text,
    ):
        return "stuff"
    if re.match(r"using|with\b", text) and not re.search(r"\b(?:sew|embroider|stitch|close|weave|make)\b", text):
        colour = re.match(r"(?:using|with|in) [a-z0-9 ]{1,30}$", text)
        return "colour" if colour else None
    for kind, rule in _RULES:
        if rule.match(text):
            if kind in ("other", "sew", "join", "colour") and not _TRADE_NOUN.search(text):
                return None if kind == "other" else kind
            return kind
    return None


# A clause in the middle of a course that can only be an asking. Matched at the clause's first letter.
CLAUSE = re.compile(
    r"(?:and |then |now |also |lightly |firmly )*(?:"
    r"(?:chang(?:e|ing)|switch(?:ing)?|swap(?:ping)?)\b(?: back)?(?: over)? (?:to|colou?rs?|into|yarn|in)\b|"
    r"(?:fasten(?:ing)?|finish(?:ing)?|bind|cast|tie) off\b|f/?o\b(?!ur)|"
    r"cut(?:ting)? (?:the |your |off )?(?:yarn|thread|working|[a-f]\b)|break (?:off )?(?:the )?yarn|"
    r"leav(?:e|ing)\b(?! (?:the )?(?:rem|rest|last|next|\d|\w+ (?:sts?|stitches) un|unworked|other))|"
    r"(?:begin |start |continue |keep )?(?:to )?stuff(?:ing)?\b|(?:do not|don't) (?:stuff|fasten|cut|break|turn|join|finish|over)\b|fill\b|add (?:more )?(?:stuffing|filling)|"  # noqa: E501
    r"(?:insert|add|attach|place|put|fix|position)\w* (?:the |your |both |two |\d+ ?mm |safety )*(?:safety )?(?:eyes?|nose)\b|"  # noqa: E501
    r"(?:place|put|move|add|insert|attach|use)\w* (?:a |the |your |stitch |st )*(?:marker|pm|sm)\b|pm\b|(?:place|move)\w*\b[^,.;]{0,30}\bmarker\b|mark (?:the|this|first|last)\b|"  # noqa: E501
    r"weav(?:e|ing) in\b|hid(?:e|ing) (?:the )?(?:ends?|tails?)|(?:close|closing)\b|"
    r"sew(?:ing)?\b|pin\b|embroider\b|flatten\b|fold\b|pinch\b|press\b|cinch\b|gather\b|"
    r"join(?:ing)? (?:in )?(?:new |the new |next )?(?:yarn|colou?r|[a-f]\b|mc\b|cc\b|white|black|blue|red|green|yellow|grey|gray|orange|pink|brown|navy|cream|teal)|"  # noqa: E501
    r"attach(?:ing)?\b|drop(?:ping)? \b|pick(?:ing)? up\b|carry(?:ing)?\b|"
    r"remove (?:the |your )?(?:hook|marker)|set(?:ting)? (?:it |this |the piece |piece |work )?aside\b|put[^,.;]{0,30} aside|"  # noqa: E501
    r"turn(?:ing)? (?:the |your )?(?:work|piece|it)? ?(?:inside|right side) ?out|thread\b|"
    r"count\b|check\b"
    r")"
)

_WITH = re.compile(
    r"(?:now |next |then )?(?:change|switch|swap|join|attach|add|drop|pick up|return|go back)\w*\b(?: back)?(?: to| in| with)?(?: the)? ?(?:new )?(?:yarn |colou?r )?([a-z0-9 ]{1,24})"  # noqa: E501
)


def new_colour(text: str) -> str | None:
    """The colour a colour cue changes to, when it names one in a word or two."""
    match = _WITH.match(" ".join(text.lower().split()).strip(" .,;:()"))
    if not match:
        return None
    words = [w for w in match[1].split() if w not in ("yarn", "colour", "color", "the", "to", "new")]
    stop = next(
        (
            i
            for i, w in enumerate(words)
            if w in ("in", "at", "on", "for", "from", "and", "with", "when", "before", "after", "during")
        ),
        len(words),
    )
    return " ".join(words[:stop]) or None


_SPLIT = re.compile(
    r"(?:\s*[,;:]\s*(?:and then |then |and |before )?|\s+(?:and then|then|and|&|before)\s+)(?=[a-z])", re.I
)
# What belongs together in one breath: told "fasten off" alone she would cut before she hears of the tail.
_ONE_BREATH = {
    ("fasten", "tail"),
    ("tail", "sew"),
    ("hold", "tail"),
    ("tail", "fasten"),
    ("eyes", "tail"),
    ("close", "tail"),
    ("hold", "fasten"),
    ("tail", "hold"),
    ("sew", "close"),
    ("close", "close"),
    ("sew", "shape"),
    ("pin", "shape"),
    ("embroider", "sew"),
    ("close", "sew"),
    ("marker", "turn"),
}


def askings(sentence: str) -> list[tuple[CueKind, int, int]]:
    """The askings of one sentence, in order: (kind, start, end). "Stuff firmly and close the hole" holds two."""
    whole = classify(sentence)
    if whole is None:
        return []
    found: list[tuple[CueKind, int, int]] = []
    start = 0
    first: CueKind | None = None
    for match in _SPLIT.finditer(sentence):
        rest = sentence[match.end() :]
        lead = CLAUSE.match(rest.lower())
        if lead is None or lead.end() == 0:
            continue
        end = _SPLIT.search(sentence, match.end())
        kind = classify(sentence[match.end() : end.start()] if end else rest) or classify(rest)
        if kind is None or kind == "other":
            continue
        head = classify(sentence[start : match.start()])
        if head is None or (head == "other" and start == 0 and len(sentence[: match.start()].split()) < 3):
            continue
        first = head
        if kind == first or (first, kind) in _ONE_BREATH:
            continue
        found.append((first, start, match.start()))
        start = match.end()
    last = classify(sentence[start:]) if start else whole
    found.append((last or whole, start, len(sentence)))
    return found
