"""Sentences that ask the hands for something that is not a stitch, told from sentences that only tell a story."""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.notation.askings.colourtalk import colour_talk
from hookside.notation.askings.rules import EYES_ARE, EYES_NOW, HANDS, MINDS, NO_ORDER, RULES, VERB_LAST
from hookside.notation.bodies.respelling import slip
from hookside.notation.vocabulary import COLOURS, SHADES
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

# What comes before the asking, taken off until the verb stands first
_LEAD = re.compile(
    r"(?:(?:now(?: is|'s) (?:the|a|a good|the right) (?:time|moment) to|now|then|next|finally|"
    r"lastly|first|firstly|afterwards?|after that|also|and|again|otherwise|please|"
    r"optional(?:ly)?|"
    r"at this (?:point|stage)|at the end|as you go|when (?:done|finished|you are done|you're done)|once (?:done|"
    r"finished)|"
    r"if (?:you (?:like|wish|want|prefer)|desired|needed|necessary)|don't forget to|"
    r"dont forget to|do not forget to|remember to|"
    r"be sure to|"
    r"make sure (?:to|you|that you)|you (?:can|may|should|will|need to|must|want to)(?: now| then| also)?|"
    r"(?:after|before|at|in|on|from|once|when)(?: the| you(?: have| reach| finish| complete)*)*(?: end of| start of|"
    r" working)*(?: the)? (?:rnd|round|row|r)s? ?\d{1,3}(?:(?: ?- ?| to | and )\d{1,3})?(?: is (?:done|finished|"
    r"complete))?,?|"
    r"it(?:'s| is)(?: now)? time to|now is (?:the|a good) time to|(?:this is )?a good (?:time|moment) to|time to|"
    r"let's|we(?: will|'ll)? |"
    r"(?:do not|don't) (?:join|turn)(?: (?:the )?(?:rounds?|rnds?|rows?|work|at the end))*(?:[,;]|,? and|,? but)(?= "
    r"\w)|"
    r"stop here (?:and|to)|pause (?:here )?(?:and|to)|go back and|take a moment to|here you|take your time to|"
    r"(?:carefully|firmly|lightly|gently|securely|loosely|neatly|tightly|evenly|invisibly|slowly|well)|"
    r"(?:with|using) (?:the |a |your |some )?(?:[a-z-]+ ){0,3}?(?:thread|floss|yarn|tail|wool|ends?|needle) "
    r"(?=(?:sew|embroider|stitch|backstitch|attach|close)\b)|"
    r"(?:before|after|while|when|once|if|with|using|for|from|at|on|in|as|between|through|by)\b[^,.;:]{1,90},)[\s,]*)"
)
_STORY = re.compile(
    r"^(?:i|i'm|i've|my|we|our|he|she|they|it|its|it's|this (?:little|cute|sweet|pattern|toy|piece|one|part|gives|"
    r"makes|is|will|was|helps|way|creates|forms)|there|that|these (?:are|will)|"
    r"the (?:work|piece|edges?|pattern|fabric|first|sides?|result|finished|designer|toy|bottom|top|wrong|"
    r"right)\b[^.]{0,40}\b(?:is|are|will|should|may|can|was|curls?|starts?|begins?|now|looks?|form)|"
    r"you(?:'ll| will| should| may| can| might)? (?:notice|see|find|love|enjoy|know|feel|have|be|probably|get|end|"
    r"already)|if you(?:'re|r| are| have| don't| do not| find)?\b(?!.*,)|"
    r"enjoy|thank|happy|have fun|congratulations|well done|copyright|please (?:do not|don't|contact|share|tag|credit)|"
    r"for (?:questions|more|personal)|share|tag|follow|visit|download|note that|remember that|because|so that|"
    r"depending|stuffing (?:this|these|it|him|her|makes|is|was|can|small))\b"
)
_PAST = re.compile(r"^(?:i|we|my|he|she|they|it)\b")
_TELLS = re.compile(r"^(?:i|my|he|she|they)\b")
_STUFFED = re.compile(
    r"(?:the |it |they |this |these )?[a-z' ]{0,30}\b(?:should be|must be|has to be|have to be|needs? to be|"
    r"is to be|are to be) "
    r"(?:now |then |lightly |firmly |well )*(?:stuffed|filled)\b"
)
# "Here I stuffed it, quite firm.", "I stuffed mine at this point": told, and just as much asked for
_WHERE = r"(?:here|now|then|next|at this (?:point|stage)|before (?:closing|the next|going on)|after (?:this|that))"
_HERE_STUFFED = re.compile(
    rf"(?:(?:and |so )?{_WHERE}\b[^.]{{0,16}}\b(?:i|we) (?:have )?(?:stuffed|filled) "
    r"(?:it|him|her|mine|the|this|them)\b|"
    rf"(?:i|we) (?:have )?(?:stuffed|filled) (?:it|him|her|mine|the \w+|this|them)\b[^.]{{0,24}}\b{_WHERE}\b)"
)
_DONT = re.compile(r"\bdont\b")
# "Here I put in the bell.": the same of other jobs
_NOW_DO = {"put": "put", "added": "add", "inserted": "insert", "attached": "attach", "placed": "place", "fixed": "fix"}
_HERE_DONE = re.compile(
    rf"(?:and |so )?(?:here|now|at this (?:point|stage))\b,? (?:i|we) (?:have )?(?P<verb>{'|'.join(_NOW_DO)}) "
    r"(?P<what>(?!it\b).+)$"
)
_MAKES = re.compile(r"(?:make|draw|cut|wind|braid|plait|twist) (?:a|an|two|three|four|some|\d+)\b")
_TRADE_NOUN = re.compile(
    r"\b(?:eyes?|tails?|yarn|stuffing|stuffed|stuff|ends?|marker|opening|hole|nose|colou?r|hook|head|body|arms?|"
    r"legs?|ears?|wings?|fins?|piece|parts?|loops?|stitches|sts?|needle|seam|mouth|"
    r"hull|sail|mast|thread|wire|pins?|button|ribbon|cord|felt|face|base|side|beak|feet|foot|hands?|it|them|rounds?|"
    r"rnds?|rows?|off|work|white|black|blue|red)\b"
)


# "Eyes: place them", "Step 3 - sew": a word in front that only names what it is about
_TOPIC = re.compile(r"(?!colou?r|yarn|with\b|using\b|in\b)(?:step \d{1,2}|[a-z]{3,14}(?: [a-z]{2,12})?)\s*(?::|"
r" -)\s+(?=[a-z])")
# Slip stitches in front of the cut are worked, not asked
_SLIPS = re.compile(
    r"(?:(?:join|close|end|finish)\b[^,.;]{0,12})?(?:\d |an? )?\b(?:sl\.? ?st|ss|"
    r"slip[ -]?stitch)(?:es)?\b[^,.;]{0,50}?(?:, and |, then |, |; | and then | and | then )"
    r"(?=(?:fasten|finish|cut|break|bind|tie|cast|fo\b|f/o|end off|leav))"
)


def _bare(text: str) -> str:
    for _ in range(6):
        match = _LEAD.match(text) or _SLIPS.match(text)
        if not match or match.end() == 0 or match.end() >= len(text):
            break
        text = text[match.end() :]
    return text


# "Using grey, make a magic ring"
_OPENS_WITH = re.compile(
    r"(?:with|using|in) (?:the )?(?P<colour>[a-z0-9 ]{1,30}?),? (?:make|form|start|begin|work)\b[^.]{0,30}"
    r"\b(?:ring|circle|loop)\b"
)
# How it is worked all along, and what only keeps a reader company
_NOTHING = re.compile(
    r"(?:do not|don't|never) (?:join|turn)\b[^,.;]{0,24}$|"
    r"(?:ch(?:ain)? ?\d+,? )?(?:and )?work(?:ing)? (?:around|along|on) both sides of the (?:foundation )?ch(?:ain)?$|"
    r"work(?:ed|ing)?\b[^.;]{0,40}\bin (?:a )?(?:continuous |joined |turned |spiral |back and forth )*"
    r"(?:spirals?|rounds|rows|the round)\b[^.;,]{0,40}$|"
    r"(?:put|turn|make|grab|pour|get|have|take|cut|give|stick)\b[^.]{0,30}\b(?:kettle|cuppa|cup of (?:tea|coffee|"
    r"cocoa)|"
    r"coffee|music|radio|film|movie|podcast|feet up|slack|breath|break)\b|"
    r"(?:leave|add|write|post|send|drop) (?:me |us |a |your |an )*(?:comment|note|review|message|line|e-?mail)\b|"
    r"(?:stuff|fill) your (?:face|cup|tummy)\b|pin this (?:pattern|page|post|image|for)\b|join (?:me|us|our|my)\b|"
    r"(?:stitch by stitch|sew far)\b|attach (?:a|your) (?:picture|photo)\b"
)
_ABOUT_STUFFING = re.compile(r"stuffing (?:firmly|lightly|as|the)|(?:firmly|lightly) stuff|stuffing\s*:")

_SKIN = frozenset(["skin", "yarn", "colour", "color", "and", "main", "contrast", "mc", "cc"])


# "Yarn A", "colour 2"
_LETTERED = re.compile(
    r"(?:main |contrast(?:ing)? |second )?(?:yarn|colou?r|col|shade|thread) (?:[a-h]|\d|one|two|three|four|five)"
)


def is_colour(text: str) -> bool:
    """ "Navy:", "(light grey)": nothing but the name of a colour."""
    if _LETTERED.fullmatch(text.strip(" -*:,;.!()[]\"'").lower()):
        return True
    words = re.findall(r"[a-z]+", text.lower()) if len(text) <= 40 else []
    return (
        bool(words)
        and words != ["and"]
        and not re.search(r"\d", text)
        and all(w in COLOURS or w in SHADES or w in _SKIN for w in words)
    )


_FROM_NOW = re.compile(r"([a-z ]{3,30}?) (?:now|next|again|from (?:here|now)(?: on)?)")  # "Brown now."
_NO_SHADE = re.compile(r"\b(?:\d|hook|needle|fingers?|tail|ends?|loop|method|care|thumb|hands?|a|an|your|it|this)\b|\d")


@lru_cache(4096)
def classify(sentence: str) -> CueKind | None:
    """The kind of asking a sentence is, or None for a story, a remark, a promise."""
    whole = " ".join(sentence.lower().split()).strip(" -*:,;.!()[]\"'")
    if not whole or len(whole) > 1200:
        return None
    whole = _DONT.sub("don't", whole)
    if is_colour(whole) or ((later := _FROM_NOW.fullmatch(whole)) and is_colour(later[1])):
        return "colour"
    if _STAYS.match(whole):
        return "other"
    if (EYES_ARE.match(whole) and not _PAST.match(whole)) or EYES_NOW.match(whole):
        return "eyes"
    if _HERE_STUFFED.match(whole):
        return "stuff"
    done = _HERE_DONE.match(whole)
    if done is not None:
        return classify(f"{_NOW_DO[done['verb']]} {done['what']}") or "other"
    opening = _OPENS_WITH.match(whole)
    if opening and not _NO_SHADE.search(opening["colour"]):
        return "colour"
    text = _bare(whole)
    lead = whole[: len(whole) - len(text)]
    told = _STORY.match(text) or ((not lead or whole.startswith("you")) and _STORY.match(whole))
    if told or (lead and _TELLS.match(lead)) or _NOTHING.match(text):
        return "stuff" if _STUFFED.match(text) else "colour" if colour_talk(whole) else None
    if _ABOUT_STUFFING.match(text):
        return "stuff"
    topic = _TOPIC.match(text)
    if topic and topic.end() < len(text):
        text = _bare(text[topic.end() :])
    if re.match(r"using|with\b", text) and not re.search(r"\b(?:sew|embroider|stitch|close|weave|make)\b", text):
        colour = re.match(
            r"(?:using|with|in) (?!.*\b(?:tails?|ends?|hook|needle|side|pins?|floss)\b)[a-z0-9 ]{1,30}$", text
        )
        return "colour" if colour else None
    for kind, rule in RULES:
        if rule.match(text):
            return kind
    if lead.startswith("now") and is_colour(text):
        return "colour"
    if colour_talk(whole):
        return "colour"
    last = VERB_LAST.fullmatch(text)
    if last and not NO_ORDER.search(last["what"]):
        return classify(f"{last['verb']} {last['what']}")
    if (HANDS.match(text) and _TRADE_NOUN.search(text)) or MINDS.match(text) or _MAKES.match(text):
        return "other"
    meant = _respelt(whole) or _respelt(text)
    return classify(meant) if meant else None


# What no maker may miss for a slip of the pen: "Stuf firmly", "Fastn off"
_NOT_MISSED = ("stuff", "stuffing", "fasten", "fastening", "weave", "embroider", "attach", "insert", "finish")
_FIRST_WORD = re.compile(r"((?:(?:and|then|now|please) )*)([a-z]*)(.*)", re.S)
_SEWN = re.compile(r" (?:the|it|them|on|onto|closed|shut|together|all|both|up)\b")  # a sow is a pig as well


def _respelt(whole: str) -> str:
    """A sentence whose first word, or the one behind "then", is a slip of such a verb, with the verb; else nothing."""
    found = _FIRST_WORD.match(whole)
    lead, word, rest = found.groups() if found else ("", "", whole)
    if word == "sow" and _SEWN.match(rest):
        return f"{lead}sew{rest}"
    if len(word) < 4 or word in _NOT_MISSED or word.endswith(("y", "s", "ed", "er")):
        return ""
    near = [verb for verb in _NOT_MISSED if abs(len(verb) - len(word)) < 2 and slip(word, verb)]
    return f"{lead}{near[0]}{rest}" if near else ""


_UNSTUFFED = re.compile(r"(?:do not|don't|no need to) (?:stuff|fill)\b")
# "The wings stay unstuffed", "not stuffed"
_STAYS = re.compile(
    r"(?:(?:the |these |both |all )?[a-z ]{0,24}\b(?:stays?|remains?|should be|must be|left) )?(?:left )?"
    r"(?:un-?stuffed|un-?filled|not (?:be )?(?:stuffed|filled))$"
)
_FACE = re.compile(r"\b(?:eyes?|face|nose|mouth|snout|muzzle)\b", re.IGNORECASE)


def weight_of(kind: CueKind, text: str) -> Weight:
    """How much a cue holds the hands up: of the jobs without a kind, only what the hands do makes them pause."""
    if kind == "other":
        bare = _bare(" ".join(text.lower().split()).strip(" -*:,;.!()[]\"'"))
        empty = _UNSTUFFED.match(bare) or _STAYS.match(bare)
        return "pause" if empty or (HANDS.match(bare) and not MINDS.match(bare)) else "whisper"
    if kind == "embroider" and _FACE.search(text):
        return "stop"  # a face wants a hand inside: once the piece is closed it is too late
    return WEIGHTS[kind]


# A clause in the middle of a course that can only be an asking. Matched at the clause's first letter.
CLAUSE = re.compile(
    r"(?:and |then |now |also |lightly |firmly )*(?:"
    r"(?:chang(?:e|ing)|switch(?:ing)?|swap(?:ping)?)\b(?: back)?(?: over)? (?:to|colou?rs?|into|yarn|in)\b|"
    r"(?:fasten(?:ing)?|finish(?:ing)?|bind|cast|tie) off\b|f/?o\b(?!ur)|"
    r"fasten(?:ing)? (?:the |your )?(?:yarn|thread)\b|hide(?: it| them)?(?=\s*(?:[.,;]|$))|"
    r"cut(?:ting)? (?:the |your |off )?(?:yarn|thread|working|[a-f]\b)|break (?:off )?(?:the )?yarn|"
    r"leav(?:e|ing)\b(?! (?:the )?(?:rem|rest|last|next|\d|\w+ (?:sts?|stitches) un|unworked|other))|"
    r"(?:begin |start |continue |keep )?(?:to )?stuff(?:ing)?\b|(?:do not|don'?t) (?:stuff|fasten|cut|break|turn|"
    r"join|finish|over)\b|fill\b|add (?:more )?(?:stuffing|filling)|"
    r"(?:insert|add|attach|place|put|fix|position)\w* (?:the |your |both |two |\d+ ?mm |"
    r"safety )*(?:safety )?(?:eyes?|nose)\b|"
    r"(?:place|put|move|add|insert|attach|use)\w* (?:a |the |your |stitch |st )*(?:marker|pm|sm)\b|pm\b|(?:place|"
    r"move)\w*\b[^,.;]{0,30}\bmarker\b|mark (?:the|this|first|last|end|beginning|start|each|every)\b|"
    r"weav(?:e|ing) (?:in\b|(?:the |your |this |it |yarn |long )*(?:tails?|ends?|yarn|thread|through)\b)|"
    r"(?:run|draw|pull|pass)(?:n?ing)? (?:the |your |this |it |yarn |long |up |in )*(?:tails?|ends?|yarn|"
    r"thread|through|"
    r"tight|together|hole|opening|shut|closed)\b|"
    r"(?:bury|whip ?stitch|darn)\b|put the\b[^,.;]{0,20} (?:inside|in)\b|slip the\b[^,.;]{0,20} inside\b|hid(?:e|"
    r"ing) (?:the )?(?:ends?|tails?|threads?)|(?:close|closing)\b|"
    r"sew(?:ing)?\b|pin\b|embroider\b|flatten\b|fold\b|pinch\b|press\b|cinch\b|gather\b|"
    r"join(?:ing)? (?:in )?(?:new |the new |next )?(?:yarn|colou?r|[a-f]\b|mc\b|cc\b|white|black|blue|red|green|"
    r"yellow|grey|gray|orange|pink|brown|navy|cream|teal)|"
    r"(?:re-?)?attach(?:ing)?\b|re-?join(?:ing)? (?:the |your )?yarn\b|"
    r"drop(?:ping)? \b|pick(?:ing)? up\b|carry(?:ing)?\b|"
    r"remove (?:the |your )?(?:hook|marker)|set(?:ting)? (?:it |this |the piece |piece |work )?aside\b|"
    r"put[^,.;]{0,30} aside|"
    r"turn(?:ing)? (?:the |your )?(?:work|piece|it)? ?(?:inside|right side) ?out|thread\b|"
    r"count\b|check\b"
    r")"
)

_WITH = re.compile(
    r"(?:now |next |then )?(?:change|switch|swap|join|attach|add|drop|pick up|return|go back)\w*\b(?: back)?(?: to|"
    r" in| with)?(?: the)? ?(?:new )?(?:yarn |colou?r )?([a-z0-9 ]{1,24})"
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
    r"(?:\s*[,;:]\s*(?:and then |then |and |before )?|\s+(?:and then|then|and|&|"
    r"before(?! (?:stuff|clos|sew|fill|finish|fasten)ing\b))\s+)(?=[a-z])", re.I
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
    """The askings of one sentence, in order: (kind, start, end). "Stuff firmly and close the hole" holds two.

    A clause that asks for nothing stays with the asking beside it, so that no word of the sentence is lost.
    """
    whole = classify(sentence)
    low = " ".join(sentence.lower().split()).strip(" -*:,;.!()[]\"'")
    if whole is None and (_STORY.match(low) or _PAST.match(low)):
        return []
    if whole == "stuff" and _HERE_STUFFED.match(low):
        return [(whole, 0, len(sentence))]
    cuts = [0]
    for match in _SPLIT.finditer(sentence):
        rest = sentence[match.end() :]
        end = _SPLIT.search(sentence, match.end())
        clause = sentence[match.end() : end.start()] if end else rest
        if _asks(clause, rest) and not (len(cuts) == 1 and _only_slips(sentence[: match.start()])):
            cuts.append(match.end())
    parts: list[tuple[CueKind | None, int, int]] = []
    for start, end_at in zip(cuts, [*cuts[1:], len(sentence)], strict=True):
        parts.append((classify(sentence[start:end_at]), start, end_at))
    found: list[tuple[CueKind, int, int]] = []
    waiting: int | None = None  # where words without an asking of their own begin
    for kind, start, stop in parts:
        begin = start if waiting is None else waiting
        if kind is None:
            if found:
                found[-1] = (found[-1][0], found[-1][1], stop)
            else:
                waiting = begin
            continue
        waiting = None
        if found:
            before, first, _ = found[-1]
            if before == kind or (before, kind) in _ONE_BREATH or (kind == "other" and before != "other"):
                found[-1] = (before, first, stop)
                continue
            if before == "other" or (before == "shape" and kind == "close"):
                found[-1] = (kind, first, stop)
                continue
        found.append((kind, begin, stop))
    if not found and whole is not None:
        return [(whole, 0, len(sentence))]
    return [(kind, first, first + _without_seam(sentence[first:stop])) for kind, first, stop in found]


_SEAM = re.compile(r"[\s,;:]*(?:\b(?:and then|then|and|before)|&)?\s*$", re.I)


def _without_seam(text: str) -> int:
    """The length of an asking without the "and" that led on to the next one."""
    seam = _SEAM.search(text)
    return seam.start() if seam and seam.start() and text[seam.start() :].strip(" ,;:") else len(text)


def _asks(clause: str, rest: str) -> bool:
    """Does a new asking begin here? Its first word is a verb that only an asking has."""
    lead = CLAUSE.match(rest.lower())
    if lead is None or lead.end() == 0:
        return False
    kind = classify(clause) or classify(rest)
    return kind is not None and kind != "other"


def _only_slips(text: str) -> bool:
    return bool(_SLIPS.match(" ".join(text.lower().split()) + ", fasten"))
