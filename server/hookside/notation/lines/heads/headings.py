"""The headings of pieces: their name in any dress, and how many copies they ask for."""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.colours import COLOURS, SHADES
from hookside.notation.askings.colournames import KINDS_OF_YARN, SOME_COLOUR, in_two, is_colour
from hookside.notation.lines.copies.asked import copies
from hookside.notation.lines.copies.ofsome import of_some
from hookside.notation.lines.copies.words import in_our_words
from hookside.notation.lines.heads.headjobs import before_jobs
from hookside.notation.lines.heads.parts import MAIN_PARTS
from hookside.notation.lines.heads.parts import PARTS as PARTS
from hookside.notation.lines.heads.sentencesbehind import before_how, told_behind
from hookside.notation.lines.unlabelled.alone import round_in_words
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import COUNT_WORDS, NUMBER_WORDS, REMEMBERED

_DRESS_BEFORE, _DRESS_BEHIND = " \t\n#>*_=~-.:/+\\\"'", " \t\n#*_=~-.:,/+\\"
_BRACKETED = re.compile(r"^\[\s*([^\[\]]{2,40}?)\s*\]$")
_STEP = re.compile(
    r"^(?:part|step|section|slide|card|sheet|screen)\s+(?:\d+|[a-z]|one|two|three|four|five)\s*[:.)\-/|]+\s*", re.I
)
_ITEM = re.compile(r"^(?:\d+|[A-Z]|[ivx]+)[.)]\s+")
# "PART: POT", "Component: leg"
_CALLED_PART = re.compile(r"^(?:part|piece|component|section|element|item|detail)s?\s*:\s*(?=[a-z])", re.I)
_ARTICLES = re.compile(
    r"^(?:ok|okay|al(?:l )?right),?\s+(?:now\s+)?(?:the\s+)?|"
    r"^(?:first|second|third|fourth|fifth|last)\s*[:-]\s*(?:the\s+)?|"
    r"^(?:here )?(?:is|are) (?:the|my)\s+|"
    r"^and (?:the|an?|then|now)\s+|^for the\s+|^to make the\s+|^make the\s+|^the\s+(?=[a-z]+$)", re.I
)
_PATTERN_OF = re.compile(r"^(?:pattern|instructions|directions) (?:for|of) (?:the\s+|an?\s+)?", re.I)
_LAST_SIGNS = re.compile(r"(?:^|(?<=[\w)\]]))[^\w)\]]+$")


def tidy_name(text: str) -> str:
    """ "**HEAD:**" -> "Head"."""
    name = text.lstrip(_DRESS_BEFORE).rstrip(_DRESS_BEHIND).removesuffix(" are")  # "The wings are two alike."
    if name[:1] == "[":
        name = _BRACKETED.sub(r"\1", name)
    if not name[:10].isalpha():
        name = _ARTICLES.sub("", _CALLED_PART.sub("", _ITEM.sub("", _STEP.sub("", name))))
    if len(name) > 10:
        name = _PATTERN_OF.sub("", name)
    name = _LAST_SIGNS.sub("", " ".join(name.split()))
    if name.isupper() and len(name) > 1:
        name = name[0] + name[1:].lower()
    elif name[:1].islower():
        name = name[0].upper() + name[1:]
    return name


# Where a heading may name its colour: "(white)", "in grey", "- start with RED", "Claw      dark green"
_COLOUR_BRACKET = re.compile(r"[(\[{]\s*(?:in |with |using )?(?P<colour>[^()\[\]{}\n,]{2,30})[)\]}]", re.I)
_LETTERED = re.compile(r"\b(?:(?:yarn|colou?r|col|shade|thread)s?|cc?\d)\b", re.I)
_SHADE_WORDS = frozenset([*COLOURS, *SHADES, "skin", "main", "contrast", "mc", "cc"])
_WORDS = re.compile(r"[a-z']+", re.I)
_CALLED_COLOUR = re.compile(r"colou?r:? [a-z]+(?: [a-z]+)?$", re.I)  # "Hull - color wood"
# "Feet orange", "body grey": a part, and a colour right behind it
# ..., "LEG 1 + 2 brown": those of its number
_COLOUR_BEHIND = re.compile(
    r"(?P<part>[A-Za-z]+)(?:\s+\d{1,2}(?:\s*(?:[-&+/]|,(?: ?and)?|and|to)\s*\d{1,2}){1,7})?"
    r"(?P<lead>\s+)(?P<colour>[A-Za-z]+(?: [A-Za-z]+)?)\W*$"
)
# "Ears (x2) brown", "Ears x2 brown", "fins make two same colour": ... behind how many
_BEHIND_MANY = re.compile(
    r"(?:[a-z\d][)\]]|\bx ?\d{1,2}|\b\d{1,2} ?x|\b(?:make|work|crochet) (?:\d{1,2}|[a-z]{3,5}))"
    r"(?P<lead>\s+)(?P<colour>[a-z]+(?: [a-z]+){0,2})\W*$",
    re.I,
)
# "Fins (make 2, same color as the body)"
_SAME_SHADE = re.compile(
    r"(?P<lead>\s*[(\[,:-]?\s*)\b(?P<colour>(?:in |with )?(?:the )?same (?:colou?r|yarn|shade)"
    r"(?: as (?:the |in the |for the )?[a-z]+)?)(?=\s*(?:[)\],.:;]|$))",
    re.I,
)
_COLOUR_TAIL = re.compile(
    r"(?=(?P<lead>\.\s+|\s*(?:[-:,.]\s*|\s)(?:start(?:ing|s|ed)?(?: with| in)?|(?:begin(?:ning|s)?|begun) (?:with|in)|"
    r"(?:continu(?:e|ed|ing)|go(?:ing)? on|carry(?:ing)? on) (?:with|in)|in|with|using|use|-)\s+|\s{2,}|"
    r"\s-+\s+|"
    r"(?<=[a-z\d)\]]):\s+|"
    r",\s+)(?P<colour>(?:(?:1st|2nd|3rd) )?[A-Za-z ]{2,30}?|(?:[a-z]{4,6} )\d{1,4}|cc?\d)\s*[.,:)\]\-*#_=]*\s*$)",
    re.I,
)


def some_shade(text: str) -> bool:
    """ "bottle green": a colour by a name of two words, whatever the first one is."""
    words = text.lower().split()
    if len(words) != 2 or words[1] not in COLOURS or words[0] in MAIN_PARTS or words[0] in PARTS:
        return False
    return words[0].isalpha() and words[0] not in NO_SHADE


def is_shade(text: str) -> bool:
    """ "dark green", "bottle green", "white fluffy yarn": one color, and what yarn it is."""
    words = KINDS_OF_YARN.sub("", text)
    return is_colour(text) or is_colour(words) or some_shade(words)


NO_SHADE = frozenset(
    [
        "with", "in", "using", "and", "or", "then", "to", "from", "left", "right", "front", "back", "upper", "lower",
        "outer", "inner", "make", "start", "the", "a", "top", "bottom", "not", "for", "on", "of", "join", "tie", "use",
        "both", "all", "two", "one",
    ]
)  # fmt: skip


_ONE_MADE = re.compile(r"\bmake (?:1|one)\b", re.I)  # "Wing A (make 1) green"
_N = r"\d{1,3}(?:[.,/]\d{1,2})?"
# "Body in gray, 3.5 mm hook", "Arm (2 strands)", "Hat, 10 ply, 8 cm tall": with what it is made and how large it gets
_TOOLS = Sought(
    r"\d|hook|in one",
    r"(?:\s*[,(\[]|\s+-+|\s(?=(?:with|using|on|(?:worked |made |crocheted )?in one)\b))\s*"
    r"(?:(?:with|using|on) )?(?:(?:an?|the|your) )?"
    rf"(?:(?:{_N} ?(?:mm)?|size [a-z\d./]{{1,4}})[ -]?(?:crochet )?hook|hook(?: size)?:? ?{_N} ?(?:mm)?|"
    rf"{_N} ?(?:mm|g|grams?|ply|strands?|yarns?|strands of yarn)(?: held (?:together|double))?|"
    rf"(?:about )?{_N} ?(?:cm|mm|in|inch(?:es)?) (?:tall|long|high|wide)|"
    r"\d{1,3} (?:rounds|rnds|rows|sts|stitches)(?: in all)?|(?:worked |made |crocheted )?in one(?: piece| go)?)"
    r"\s*[)\]]?(?=\s*(?:[,(\[]|[:.]?\s*$))",
    re.I,
)


def without_tools(text: str) -> str:
    """A heading without hook, ply and size, which are no copies and hide the color in front of them."""
    text = text.replace(" ~ ", " - ").replace(" \u2014 ", " - ")
    return _TOOLS.sub("", text) if len(text) <= _LONGEST else text


@lru_cache(REMEMBERED)
def colour_told(text: str) -> tuple[int, int, int] | None:
    """Where a heading names the colour of its piece -> (its start, its end, where its name ends); None elsewhere."""
    if len(text) > _LONGEST or not (_LETTERED.search(text) or _SHADE_WORDS & set(_WORDS.findall(text.lower()))):
        return None
    some = of_some(text)
    if some is not None:
        return some
    text = without_tools(before_how(text)).replace(" | ", " - ")
    name = copies(text)[0].rstrip(" -")
    name = name if text.startswith(name) else ""
    for match in [*_COLOUR_BRACKET.finditer(text), *_COLOUR_TAIL.finditer(text), *_COLOUR_TAIL.finditer(name)]:
        if _CALLED_COLOUR.match(match["colour"]):
            return *match.span("colour"), match.start("lead") if "lead" in match.groupdict() else match.start()
        if is_shade(match["colour"].replace("then ", "")) or SOME_COLOUR.fullmatch(match["colour"].lower()):
            return *match.span("colour"), match.start("lead") if "lead" in match.groupdict() else match.start()
    behind = _COLOUR_BEHIND.search(name or text)
    if behind is not None and behind["part"].lower() in PARTS and is_colour(behind["colour"]):
        return *behind.span("colour"), behind.start("lead")
    many = _BEHIND_MANY.search(text)
    if many is not None and is_colour(many["colour"]) and (
        copies(text[: many.start("lead")])[1] > 1 or _ONE_MADE.search(text) is not None
    ):
        return *many.span("colour"), many.start("lead")
    same = _SAME_SHADE.search(text) if "same " in text.lower() else None
    if same is not None and same.start() > 1:
        return *same.span("colour"), same.start("lead")
    two = in_two(text)
    return two if two is not None and PARTS.intersection(text[: two[2]].lower().split()) else None


# "Body (dove)", "Ears (make 2, ash)": a word in the bracket that nobody knows, as a yarn by its own name is
_WORD_ASIDE = re.compile(
    r"[(\[]\s*(?:(?:make|x)? ?\w{1,6}(?: ?x)?\s*[,;:]\s*)?(?P<word>[A-Za-z]{3,12})\s*[)\]]", re.I
)
_KNOWN_ASIDES = NO_SHADE | frozenset(
    [
        "optional", "small", "large", "big", "medium", "pair", "main", "flat", "stuffed", "unstuffed", "same", "alike",
        "together", "continued", "cont", "mirrored", "mirror", "again", "round", "rounds", "row", "rows", "outside",
        "inside", "first", "second", "third", "fourth", "each", "identical", "twice", "pieces", "pcs", "times",
        "spiral", "joined", "oval", "square", "circle", "adult", "child", "baby", "mini", "female", "male", "boy",
        "girl", "optionally", "separate", "separately", "amigurumi", "crochet", "pattern", "free", "unfilled", "filled",
        "empty", "pairs", "halves", "turn", "turns", "order", "reverse", "duplicate", "triplicate", "total", "general",
        "spirals", "steps", "stages", "progress", "parts", "piece", "sections", "strips", "advance", "place", "full",
        "plain", "lengths", "twos", "threes", "half", "quarters", "detail", "layers", "panels", "motion", "miniature",
    ]
)  # fmt: skip


def word_aside(text: str) -> tuple[int, int] | None:
    """Where the bracket of a heading holds one word alone that is no part, no number and nothing else we know."""
    match = _WORD_ASIDE.search(text) if len(text) <= _LONGEST and ("(" in text or "[" in text) else None
    if match is None:
        return None
    low = match["word"].lower()
    known = low in _KNOWN_ASIDES or low in NUMBER_WORDS or low in PARTS or low.removesuffix("s") in PARTS
    return None if known else match.span("word")


_A_COUNT = re.compile(r"\d{1,4} ?(?:sts?|stitch(?:es)?|sc|[hd]?dc|h?tr|points|loops)\.?", re.I)
_EMPTY = Sought(
    ("stuff",),
    r"(?P<seam>\s*[-,:]\s*)?\b(?P<how>not stuffed|un-?stuffed|do not stuff|don't stuff|no stuffing|lightly stuffed|"
    r"stuff (?:lightly|firmly))\b",
    re.I,
)


def stuffing_told(text: str) -> tuple[int, int] | None:
    """Where a heading says how its piece is stuffed: "(make 2, not stuffed)"."""
    match = _EMPTY.search(text) if len(text) <= _LONGEST else None
    return match.span("how") if match else None


# "Body and head, all in one, start at the bottom": how it is worked, behind its name
_ASIDE = Sought(
    ("if ", "optional", "the", "same ", " to ", "one", "once", "worked", "many", "cont", "that ", " are "),
    r"\s*,?\s*\(?(?:if (?:you|desired|wanted|needed)\b[^()]{0,30}|optional(?:ly)?)\)?(?=\s*[:.]?\s*$)|"
    r",\s*the [a-z]+ (?:under|below|on|of|for|behind|above) the [a-z]+(?=\s*[:.]?\s*$)|"
    r"\s*[,-]\s*(?:the )?same (?:colou?r|yarn|[a-z]{3,10})(?=\s*[:.]?\s*$)|"
    r"(?: first)?,\s*(?:and )?then (?:the |an? |his |her |its )?[a-z]+(?=\s*[:.]?\s*$)|"
    r"\s+for (?:him|her|it|them) to [a-z]+(?=\s*[:.]?\s*$)|,\s*(?:which|they) are [a-z ]{1,30}(?=[:.]?\s*$)|"
    r"\s*[,(:-]\s*(?:(?:all )?in one(?: piece)?|all at once|worked (?:on|flat|sideways|in one piece|in the round)|"
    r"make as many\b[^)]*|as many as\b[^)]*|(?:start|begin)\w* (?:at|from) the [a-z ]{2,20}|continued|"
    r"cont)\)?(?=[,.:)]|$)|\s+that (?:goes|sits|fits) (?:on|in|into|over|under|around)\b[^,.;:]{0,20}$",
    re.I,
)
_LONGEST = 90  # characters of a heading
# "3-5x. 12 sc (12)": what works stitches names no piece, though the number in its bracket looks like copies
_AMOUNTS = re.compile(
    r"\b\d{1,3} ?(?:sc|hdc|dc|htr|tr|inc|dec|sl ?sts?|ss|single|double)\b|\b(?:sc|dc|inc|dec) ?x? ?\d", re.I
)
# "A couple of rounds of sc (24)", "24 x3 rounds", "10 around lobe two - 20": rounds, and no copies of them
_ROUNDS_TOLD = re.compile(
    r"^(?:\d|an?\b|some\b|few\b|(?:two|three|four|five|six)\b)[^,:]*\b(?:rounds?|rnds?|rows?|around)\b|"
    # "1, 2 around (18)", "all (24)": nothing in it but stitches
    rf"^(?:(?:{COUNT_WORDS}|\d{{1,2}}s?|all|each|every|other|around|round|in|then|and|the|way|dec|inc|double|even|same)\b"
    r"[ ,;+]*)+$",
    re.I,
)
_VERBS = re.compile(
    r"^(?:insert|stuff|sew|fasten|cut|weave|close|attach|place|pin|embroider|leave|change|switch|turn|add|put|move|"
    r"fold|flatten|set|hide|gather|thread|pull|draw|tighten|do not|don't|"
    r"begin|start|continue|repeat|rep|work|finish|join|ch|chain|with|using|using|in|make a|use|now|then|count|"
    r"increase|decrease|check|remove|run|tie|hold|fill|pm|fo|mark|for|press|shape|crochet|from|you|i|we|it|this|"
    r"if|when|after|before|"
    r"not|no|keep|take|plain|same|straight|row|round|rnd|rows|rounds|rds?|sl|sc|dc|hdc|inc|dec|magic|mr|break|trim)\b",
    re.I,
)


# "Sew muzzle 8-11", "Attach legs 14-17": what is done at those rounds, and no muzzles of those numbers
_SEWN_AT = re.compile(
    r"(?:sew|attach|pin|place|join|stitch|put|embroider|glue|fasten|insert|position)(?: on)?\b[^\d]{2,40}"
    r"\d{1,3}(?: ?(?:[-,&+/]|to|and) ?\d{1,3})*\W*$", re.I
)
# "Sizes M, L only: R6: ...": for whom a course is, and no part
_FOR_SIZES = re.compile(r"(?:for )?(?:all (?:the )?(?:other )?|other |both |the )?sizes?\b(?!.*\bmake\b)", re.I)
_NO_NAME = re.compile(
    r"(?:next|then|now|again|here|from|this|last|first|all|rest|work|mostly|also|same|one|two)\b", re.I
)


def orders(text: str) -> bool:
    """Does a line begin with what is to be done, or with "next", "now" and the like: with no name of a part?"""
    return bool(_VERBS.match(text) or _NO_NAME.match(text))


def dressed(text: str) -> bool:
    """ "Watering can, in grey": a name of two or three words, whatever it is, and its colour behind it."""
    told = colour_told(text)
    if told is None or told[2] < 3 or text.rstrip()[-1:] in ".!?;":
        return False
    name = text[: told[2]].strip(" #*_=~-:,([{")
    if not name.replace(" ", "").isalpha() or len(name.split()) > 3:
        return False
    return not (orders(name) or is_colour(name))


_MARKED = re.compile(r"\s*(?:#{1,6}\s*\S|(?:\*\*|__|==+|~~+|--+\s|(?://+|\+\++)(?=\s))\s*\S)")
# "// HEAD // with A": the signs around a name, and what is told behind them
_SLASHED = re.compile(r"\s*(?P<sign>//+|\+\++)\s+(?P<name>[^/+\n]{2,60}?)\s+(?P=sign)")
_NUMBERED = re.compile(r"^(?:(?:\d{1,2}|[A-Ha-h]|[IVX]{1,4})[.)]\s+(?=[A-Za-z])|\d{1,2},\s*(?=[A-Z]))")
_CHAPTER = re.compile(
    r"^(?:part|step|section|piece|chapter|slide|card|sheet|screen)\s+(?:\d+|[a-z]|[ivx]+|one|two|three|four|five)"
    r"(?: (?:of|out of) (?:\d+|two|three|four|five|six|eight))?\s*[:.)\-]+\s*(?=\w)",
    re.I,
)
_ANY_NAME = re.compile(r"[A-Za-z]{2}|^[A-Z]$")
_BEHIND_BAR = re.compile(r"\s*\|.*")
_COLUMNS = re.compile(r"\|[^|]*\b(?:stitch(?:es)?|sts?|counts?|numbers?|totals?|how|work|instructions?|notes?)\b", re.I)
_TOPIC = re.compile(
    r"(?P<part>[A-Za-z' ]{2,24}?)(?::\s+(?=[a-z])|\s+(?:is|are) "
    r"(?:worked|made|crocheted|quick|easy|next|tiny|simple|(?:a (?:bit|little) )?"
    r"(?:small|big|larg|tall|long|short|wid|narrow|flat|fat|thin)(?:er|ger|ter|ner)?)\b)"
)
_IN_BRACKETS = re.compile(r"\[\s*([A-Za-z][^\[\]]{1,40}?)\s*\]")
_BEHIND_COPIES = re.compile(r"(?P<name>[A-Za-z][A-Za-z ]{1,24}?)\s*[(\[][^()\[\]]{1,30}[)\]]\s*,\s")
# "Round tile (make 2)": a thing that is round
_ROUND_THING = re.compile(
    rf"(?:round|straight|plain)\s+(?!(?:{COUNT_WORDS}|[ivx]+|and|to|of|in|for|with|sc|dc)\b)"
    r"[a-z]{3,}(?: [a-z]+)?$",
    re.I,
)
_LEFT_SIGNS = re.compile(r"\s*[,.]\s*[.,]")
_MAKE_ONE = re.compile(r"[.:,]\s*make\s+(?:one|1)\b", re.I)
_MAKE_ONE_TAIL = re.compile(r"[.:,]\s*make\s+(?:one|1)\b.*", re.I)
_MAKE_FIRST = re.compile(
    r"(?:make|crochet)\s+(?:\d{1,3}|[a-z]+)\s+(?:in [a-z]+:\s*)?(?P<what>[a-z][a-z ]+)$", re.I
)
_LAST_ASIDE = re.compile(r"\s*[(\[{][^()\[\]{}]*[)\]}]?\s*[:.]?\s*$")
_HOW_WORKED = Sought(
    ("in", "continu", "work", "made", "crochet", "picked", "with", "yarn", "rounds", "rows"),
    r"\s*[,-]\s*(?:in|continu\w+|worked|working|made|crocheted|picked up|in rounds|in rows|using|with)\b.*$|\s+(?:in|"
    r"with|using)\s+(?:(?:the )?(?:main|contrast|second) colou?r|(?:light |dark )?(?:white|black|gr[ea]y|red|"
    r"blue|green|yellow|cream|orange|brown|pink|navy|teal|[a-f]\b)(?: yarn)?|[a-z]+ yarn|(?:colou?r|"
    r"yarn) [a-z]+)$|\s*,\s+[a-z]+(?: [a-z]+)? yarn$|\s+-\s+(?:[a-z]+ yarn|rounds|rows|in rounds|in rows)$",
    re.I,
)
_INTO = Sought(
    ("round", "across", "through", "in", "each", "all", "until"),
    r"\b(?:sc|[hd]?dc|h?tr|inc|dec|sl ?st) (?:a?round\b|"
    r"across|through|into|each|all|until|in (?!the (?:ro|co)|ro|[A-Z]\b))|"
    r"\b\d+\b[^()\[\]]{0,12}\b(?:in|into) (?:each|every|all|next|the next)\b|\ball (?:a?round|across)\b", re.I
)
# "Toes (6 in all)"
_IN_ALL = re.compile(r"[a-z]{3}\s*[(\[,:-]+\s*(?:make )?[a-z\d]{1,6} in all\s*(?:[),.:;\]]|$)", re.I)
# How a piece is worked, behind its name: "Turtle head - moss, smaller hook, spiral", "Head, from the nose"
_HOW = re.compile(
    r"(?:from|start\w*|begin\w*|work\w*|in|with|flat|spiral|rounds?|rows?|smaller|larger|using|"
    r"back[ -](?:and|&)[ -]forth|sideways|lengthwise|"
    r"(?:top|bottom)[ -](?:down|up)|made?|"
    r"crochet\w*|colou?r|yarn|hook|joined|turned|each|all|the same|continu\w+|on the hook)\b",
    re.I,
)
_SEAM = re.compile(r"\s*[,(|]\s*|\s+-+\s+|\s*:\s+")


def _without_how(name: str) -> str:
    """The name of a part without what is told behind it of its colour and of how it is worked."""
    first, *told = (chunk.strip(" )]}.,") for chunk in _SEAM.split(name.strip(" -"), maxsplit=6))
    words = first.lower().split()
    if not told or len(words) > 4 or not any(w in PARTS or w.rstrip("s") in PARTS for w in words):
        return name
    for chunk in told:
        shade = first.isupper() and not chunk.isupper() and chunk.lower() not in _WHICH
        shade = shade and chunk.replace(" ", "").isalpha() and len(chunk.split()) < 3
        shade = shade and not any(w in PARTS or w.rstrip("s") in PARTS for w in chunk.lower().split())
        if chunk and not (_HOW.match(chunk) or is_colour(chunk) or shade):
            return name
    return first


_WHICH = frozenset(
    ["outer", "inner", "left", "right", "front", "back", "upper", "lower", "large", "small", "big", "one", "two"]
)
# "Wing (2 x, N)", "Body (from the base, N)": the letter of its yarn
_LETTER_ASIDE = re.compile(r"([(\[][^()\[\]]{0,40}?)\s*[,;]\s*[A-Z](?=[)\]])")
# "eyes R9, 7X apart", "eyes between R8 R9, distance 8X", "eyes on R3, 4X between them": no seven of anything
_SPACING = re.compile(
    r"\b(?:apart|distance|interval|spacing|gap of \d)\b|\b\d{1,2} ?x (?:in )?between (?:them|each|both|the two)\b", re.I
)
_TWO_SENTENCES = re.compile(r"[.!?]\s+[A-Z]")


# "make 2, one in each colour": of the copies, and no round
_EACH_SHADE = re.compile(r"\b(?:one|1) (?:in|of|for) each (?:of the )?(?:colou?rs?|shades?|yarns?|sizes?)\b", re.I)


def _undressed(text: str) -> str | None:
    """A line without numbers, bars and what is told beside a name; None where no name can be in it."""
    if text.lstrip()[:2] in ("//", "++"):
        text = _SLASHED.sub(r"\g<name>", text, count=1)
    bare = without_tools(text.strip().strip("#*_=~ ")).rstrip("- ").lstrip("| ")
    bare = _CHAPTER.sub("", _NUMBERED.sub("", bare))
    if not _VERBS.match(bare):  # "Fasten off, leave a tail. Make four."
        bare = told_behind(bare) or before_jobs(bare)
    if not bare or len(bare) > _LONGEST or not _ANY_NAME.search(bare):
        return None
    if bare.count("|") > 1 and _COLUMNS.search(bare):
        return None  # "Tier | Number of stitches | How to increase": the head of a table
    if "|" in bare:
        bare = _BEHIND_BAR.sub("", in_our_words(bare))
    if "(" in bare or "[" in bare:
        bare = _LETTER_ASIDE.sub(r"\1", bare)
    bare = _ASIDE.sub("", bare) or bare
    told = _EACH_SHADE.sub("", bare) if " each " in bare else bare
    into = _INTO.search(told) is not None and _IN_ALL.search(bare) is None
    return None if into else bare  # "2 in each (10)": a round, and no ten copies of it


# "Ring: plum, ch 20, join, 20 sc, cut"
_WORK_TOLD = re.compile(
    r"[A-Za-z.) ]{3,30}:[^,\d\n]{1,24},\s(?P<work>\s{0,4}(?:ch \d|\d{1,3} ?(?:sc|hdc|dc|htr|tr|ch)\b|"
    r"(?:sc|hdc|dc|htr|tr) \d).*)", re.I
)


def work_told(text: str) -> tuple[int, int] | None:
    """The stitches of a part that is told whole in the line that names it."""
    match = _WORK_TOLD.match(text)
    return match.span("work") if match is not None else None


@lru_cache(REMEMBERED)
def _called(text: str) -> tuple[str, str, int] | None:
    """A line -> (the line undressed and without how it is stuffed, the name in it, copies); None where none is."""
    bare = _undressed(text)
    if bare is None:
        return None
    topic = _TOPIC.match(bare)
    about = topic["part"] if topic and any(w in PARTS for w in topic["part"].lower().split()) else ""
    empty = _EMPTY.search(bare)
    if empty and empty["seam"] and empty.start() > 1:
        bare = bare[: empty.start()] + bare[empty.end() :]  # "Foot - do not stuff"
    tail = colour_told(bare)
    bare = bare[:-1] if tail is not None and bare[-1] == "," else bare
    name, make = copies(bare)
    if tail is not None and tail[2] > 1:
        name, named = copies(bare[: tail[2]])
        make = max(make, named)
    if _A_COUNT.fullmatch(name.strip(" ()[]{}")) or (make > 1 and name.strip(" .:").lower() in ("sts", "stitches")):
        return None  # "2X [8 stitches]": the end of a round, and no two of anything
    shaded = _COLOUR_BEHIND.search(name) if make > 1 and tail is None else None
    if shaded is not None and shaded["part"].lower() in PARTS and is_colour(shaded["colour"]):
        name = name[: shaded.start("lead")]  # "LEGS x4 green"
    told = _BEHIND_COPIES.match(bare) if make > 1 and " and " not in name else None
    if told is not None:
        name = told["name"]  # "Legs (4 details), we start with brown yarn."
    bracketed = _IN_BRACKETS.match(bare) if bare[0] == "[" else None
    if about or bracketed:
        name = about or (bracketed[1] if bracketed else "")
    if make == 1 and _MAKE_ONE.search(bare):
        name = _MAKE_ONE_TAIL.sub("", bare)
    if make > 1:
        name = _LEFT_SIGNS.split(name, maxsplit=1)[0] or name  # "BOOTIE, 2 pcs., no thumb"
        turned = _MAKE_FIRST.match(bare)
        name = turned["what"] if turned else name
    shorter = _LAST_ASIDE.sub("", name) if "(" in name or "[" in name or "{" in name else name
    if len(shorter.strip(" [(")) >= 2:
        name = shorter
    name = name if name.isalnum() else _HOW_WORKED.sub("", name.strip(" [](){},;-")) or name
    name = _without_how(name)
    dyed = _COLOUR_BEHIND.search(name) if tail is None and name[:2].isupper() else None
    if dyed is not None and dyed["part"].lower() in PARTS and is_colour(dyed["colour"]):
        name = name[: dyed.start("lead")]  # "COAT mustard, worked flat from the neck down"
    return bare, name, make


_YARNS_TOLD = re.compile(r"\W*(?:yarns|threads|wools|colou?rs|shades|skeins)\b\W*(?:\d|one\b|two\b)", re.I)
_NAMES_STITCHES = re.compile(r"\b(?:STS?|STITCH(?:ES)?|SC|H?DC|INC|DEC|SC2TOG|CH \d{1,2})\b")


@lru_cache(REMEMBERED)
def heading(text: str, blank_before: bool, blank_after_or_label: bool) -> tuple[str, int] | None:
    """A line that names a piece -> (its name, copies). Story and askings are None."""
    called = _called(text)
    if called is None:
        return None
    bare, name, make = called
    marked = _MARKED.match(text) is not None
    clean = tidy_name(name.strip(" []{}"))
    if not clean or not _ANY_NAME.search(clean):
        return None
    words = _WORDS.findall(clean)
    low = [w.lower() for w in words]
    known = any(w in PARTS or (w.endswith("s") and w[:-1] in PARTS) for w in low) or (blank_before and dressed(text))
    numbered = make > 1 and re.match(r"\d{1,3}(?:st|nd|rd|th)?\s*[-.:)]", clean)  # "5th-7th: plain (24)"
    if _SPACING.search(text) or _YARNS_TOLD.match(text) or (text[-1:].isdecimal() and _SEWN_AT.match(bare)):
        return None
    if len(words) > 7 or numbered or (make > 1 and (_AMOUNTS.search(clean) or _ROUNDS_TOLD.search(clean))):
        return None
    if make > 1 and round_in_words(text):
        return None
    ends = bare[-1]
    short = blank_after_or_label and len(words) <= 3 and clean[:1].isupper() and not _VERBS.match(clean)
    if ends == "." and short and (known or (blank_before and len(words) == 1)):
        return clean, make
    if ends == "!" and known and blank_after_or_label and len(words) <= 3:
        return clean, make
    if ends in ".!?;," and not (make > 1 and len(words) <= 4) and not (marked and ends == "."):
        return None
    if _TWO_SENTENCES.search(bare) or "forth" in low or _FOR_SIZES.match(clean):
        return None
    thing = _ROUND_THING.match(clean) is not None and (make > 1 or bare.isupper())
    if _VERBS.match(clean) and not (marked or thing or (known and make > 1)):
        return None
    if marked or make > 1:
        return clean, make
    if ends == ":" and len(words) <= 5:
        return clean, make
    if bare.isupper() and len(words) <= 6:
        # "TO FIRST ST; 14 STS": the rest of a round, in a text of capitals
        return None if not blank_before and _NAMES_STITCHES.search(bare) else (clean, make)
    if known and len(words) <= 5 and clean[:1].isupper():
        return clean, make
    titled = all(w[:1].isupper() or w.lower() in ("the", "and", "of", "a", "for", "with", "in", "to") for w in words)
    if titled and len(words) <= 5 and blank_after_or_label:
        return clean, make
    if len(words) <= 3 and blank_after_or_label and clean[:1].isupper() and blank_before:
        return clean, make
    return None
