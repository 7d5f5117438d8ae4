"""A change of colour told as people tell it: "Back to red!", "Now I changed to white because red alone looked dull."

Such a line asks although it tells: whoever takes it for a story works on in the wrong yarn.
"""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.colours import COLOURS, SHADES
from hookside.notation.askings.colournames import KINDS_OF_YARN
from hookside.notation.bodies.respelling import slip
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import AMOUNT, REMEMBERED

NO_YARNS: frozenset[str] = frozenset()
_LONGEST = 240  # characters of a sentence that is looked at
_NOUN = r"(?:yarn|wool|cotton|colou?r|thread|rope|string|strand|one|stuff|ball|bits?|again)"
_SHADE = "|".join(sorted(SHADES))
_KNOWN = "|".join(sorted(COLOURS, key=len, reverse=True))
_MANY = rf"(?:{AMOUNT}|a single|a (?:few|couple(?: of)?)|some|several)"
# What may stand before the change: company, and where one is
_LEAD = re.compile(
    r"""(?:(?:and|but|so|now|then|next|here|finally|again|also|ok(?:ay)?|right|well|yay|hooray|alright|just|
    first(?:ly)?|first\ of\ all|this\ time|once\ more|half\ ?way(?:\ (?:up|through))?|
    (?:from|at|after|for)\ (?:here|this|that|now)(?:\ (?:on(?:wards)?|point|round|row|rnd|one|bit|part))?|
    for\ the\ (?:next|last|first|top|bottom|rest|other)\b[a-z0-9 ]{0,24}(?=,)|
    (?:after|in|before|at|from)\ (?:the\ )?(?:end\ of\ )?(?:r|rnd|round|row)s?\ ?\d{1,3}(?:\ (?:on|onwards))?|
    (?:it'?s\ |it\ is\ |this\ is\ |now\ is\ |here\ is\ )?(?:the\ )?(?:time|place|moment|where|here|
    when)(?:\ (?:to|for|where|when))?|
    let'?s|let\ us|we(?:'re|'ll|'ve)?|i(?:'m|'ll|'ve)?|you(?:'re|'ll)?|she|he|it(?:'s)?|gets?|will|can|am|are|
    have|had|need\ to|must|should|
    want(?:ed)?\ (?:you\ )?to|please|going\ to|gonna|got\ to|decided\ to|like[ds]?\ to|chose\ to)\b[\s,:!.-]*)*""",
    re.X,
)
# The words that carry over to another yarn; each ends where the name of the colour begins
_GO = re.compile(
    r"""(?:
      (?:chang|switch|swap|swop|shift|pass)(?:e|es|ed|ing|ped|ping)?(?:\ (?:back|over|it|colou?rs?|yarns?|up|again|now|
      here|the\ (?:yarn|colou?r)))*
        (?:\ (?:to|into|for|with|in)|\s?[:,]\ ?(?:to)?|)
    | (?:(?:go|goes|going|went|gone|come|came|turn|turned|return(?:ed|ing)?|switch|we're|move|moved|moving|
    carr(?:y|ied)|
        keep|kept|continu(?:e|ed|ing)|get|got|stay(?:ed|ing)?|stick|stuck|head)\ )?
        (?:(?:back|over|on|onto|again|now)\ )+(?:to|with|in|into|using|onto)
    | (?:back|over|on)(?:\ (?:again|now))?(?:\ (?:to|with|in))
    | (?:return|switch|stick|stay|move)(?:ed|s|ing)?\ (?:to|with|in)
    | (?:start|begin|began|begun|commenc(?:e|ed|ing)|continu(?:e|ed|ing)|carr(?:y|ied)\ on|go(?:es|ing)?|
    going\ on|work|crochet|proceed)(?:ed|s|ted|ting|ning|ing)?
        (?:\ (?:off|on|again|out|it|these|this(?:\ one)?|them|both|now|here|
        working|crocheting|the\ (?:piece|toy|work|next\ (?:bit|part|
        stripe))))*\ (?:with|in|using)
    | (?:join(?:ed|ing)?(?:\ in)?|attach(?:ed|ing)?|pick(?:ed|ing)?\ up|pick(?:ed)?|took|tak(?:e|ing)(?:\ (?:up|
    again))*|
    grab(?:bed|bing)?|g[eo]t\ out|introduc(?:e|ed|ing)|
        br(?:ing|ought)(?:\ (?:in|back|on))?|add(?:ed|ing)?(?:\ in)?|t(?:ie|ied)(?:\ (?:in|on))|fetch(?:ed)?|needs?)
    | (?:drop|cut|leave|lose|break|finish)(?:ped|ted)?\ (?:the\ )?[a-z]{3,12}(?:\ yarn)?,?\ (?:and\ )?
        (?:go\ (?:on|back)|change|switch|pick\ up|join|take|start|continue|carry\ on|on|back)(?:\ (?:in|on|to|with))*
    | (?:with|in|using|use|used)
    )(?=\ )""",
    re.X,
)
# Nothing that is worked: what is sewn, what it might be, what it is for
_NO_CHANGE = re.compile(
    r"\b(?:sew\w*|sewn|embroider\w*|eyes?|nose|mouth|face|smile|whiskers?|cheeks?|eyebrows?|if|instead|could|"
    r"might|would|maybe|"
    r"perhaps|another time|next time|also make|version|for sale|available|hooks?|needles?|marker|felt|"
    r"thread for|beads?|"
    r"wish|gift|kids?|friend|looked great|stuff(?:ed|ing)?|not|don't|didn't|never|without|or)\b"
)
_FOR_SO_LONG = (
    rf"(?:for|over|during) (?:just |only |about |the )*(?:next |last |first |final |rest|remaining |whole |"
    rf"following )*"
    rf"(?:of (?:the |it|this)?)?(?:{_MANY}(?: |$))?(?:more )?(?:rounds?|rnds?|rows?|bits?|bands?|stripes?|parts?|body|"
    rf"head|hull|"
    r"top|bottom|buoy|boat|sts?|stitches|it|r)?"
)
_SO_LONG = re.compile(rf"{_FOR_SO_LONG}(?: only| alone)?")
# "Use yellow for this.": for the piece that is begun
_FOR_THIS = re.compile(
    r"(?:yarn |wool |cotton )?for (?:this(?: (?:one|part|piece|bit))?|these(?: (?:ones|parts|pieces))?|them|both|"
    r"(?:both |all )?of (?:these|them)|all of (?:it|this))(?: (?:one|please|too|as well))?"
)
_SPELT = _FOR_SO_LONG.replace(" ", r"\ ")  # for patterns in which blanks stand for nothing
# What may stand behind the name of the colour
_TAIL = re.compile(
    rf"""(?:[\s,;:!.-]*(?:again|here|now|yarn|once\ more|then|too|next|instead|this\ time|please|first|today|
    already|only|
    from\ (?:here|now|this\ (?:point|round|row))(?:\ on(?:wards)?)?|until\ (?:the\ end|further\ notice|i\ say)|
    to\ (?:start|begin)(?:\ with)?|all\ the\ way(?:\ (?:up|down|to\ the\ (?:end|top)))?|till\ the\ end|
    at\ (?:the\ )?(?:end|start|beginning|this\ point)(?:\ of\ (?:the|this|that|that\ last)\ (?:round|row|rnd))?|
    in\ (?:the\ )?(?:last|next|same)\ (?:st|stitch|sc|dc|round|rnd|row|loop)\b|
    (?:before|after|in|at|from)\ (?:r|rnd|round|row)\ ?\d{{1,3}}(?:\ on(?:wards)?)?|
    {_SPELT})(?![a-z]))*
    [\s,;:!.()*\-]*(?:$|(?:because|since|as|so(?:\ that)?|which|but|and\ (?:it|this|that|the|off|away|on|she|he|
    we|so|then|here)|
    to\ (?:make|give|get|match|look|look\ like|have|form|match)|just|like|the\ way|i|
    for\ (?:the|a|my|some|his|her|its|their|our)\b|
    we|it|that|
    (?:makes?|looks?|is|was|came|what)|my|:\)|:-\)|;\)|<3|xx+|!|\.|,)(?![a-z]).*$)""",
    re.X,
)
_ONCE_MORE = re.compile(
    rf"""(?:again|once\ more|first|next|now|this\ time|to\ (?:start|begin)(?:\ with)?|from\ (?:here|
    now)(?:\ on(?:wards)?)?|
    here|(?:it\ is|again)\ (?:now|for\ now)|then|time|(?:comes|goes|is)\ (?:next|now|in|back|on|up)|{_SPELT}|
    please|only|(?:[(]\ ?|x\ ?|){_MANY}\ (?:more\ )?(?:rounds?|rnds?|rows?)(?:\ only)?|
    for\ (?:the|his|her|its|both|each)\ [a-z]{{3,12}}(?:\ only)?|
    (?:until|till)\ (?:(?:i|we)\ say(?:\ so)?|further\ notice)|
    (?:until|till|all\ the\ way|up\ to(?:\ and\ including)?|through)\ (?:the\ )?
    (?:(?:end|top|bottom|r|rnd|round|row)\b|r\d)[a-z0-9\ ]{{0,20}}|
    (?:stripe|bit|section|half|rounds?|rows?|rnds?|stripes)(?:\ (?:again|now|next|here|first))?|
    (?:is|gets)\ (?:coming|going)\ (?:next|now|in|back|on))$""",
    re.X,
)
_BARE_LEAD = re.compile(
    r"(?:(?:and|now|then|so|next(?! colou?r)|first|again|ok(?:ay)?|finally|optional(?:ly)?|another|more|"
    r"once more|for|some|this|"
    r"time for|"
    r"(?:now|then) (?:for|comes)|comes|the|from now on|here comes|next (?:up|comes)|a (?:bit|little|round|row|"
    r"touch) of|"
    r"after that|when (?:you|we) (?:get to|reach|come to) the end(?: of it)?|back to|(?:and )?it (?:is|stays)|"
    rf"{_MANY} (?:more )?(?:rounds?|rnds?|rows?|r) (?:of|in|with)|only|it's|on|(?:next )?colou?r(?: is)?|it gets|"
    rf"we have)\b[\s,:-]*)*"
)
_ARTICLE = re.compile(r"(?:the|my|our|your|some|a|new|that|this|same|other|lovely|pretty|yarn|colou?r|bit|of)\s+")

# A yarn that has no name: "the other colour", "Back to main"
_SOME_OTHER = re.compile(
    r"(?:the |a |your |my )?(?:new|other|next|second|third|first|main|contrast(?:ing)?|lighter|darker|old) "
    r"(?:colou?r|yarn|shade)\b(?! (?:ball|is|was|are))|(?:main|contrast)(?=[ .!:]*$| again[ .!:]*$)"
)


# "Back to color 1", "yarn no. 2": one that is called by its number alone
_NUMBERED = re.compile(
    r"(?:colou?r|col|yarn|shade) (?:no\.? ?|number |#)?(?:\d{1,4}|one|two|three|four)\b(?! (?:rounds|rows)\b)"
)
_LETTER_FIRST = re.compile(rf"[a-h] (?:{_SHADE}|{_KNOWN})\b")
_NEXT_WORD = re.compile(r"([a-z][a-z0-9]*)(?:[ -](?=[a-z])|$|(?=\W))")
_A_NOUN = re.compile(_NOUN)
_SHADE_NEXT = re.compile(rf"(?:{_SHADE}|{_KNOWN})\b")


def _name(text: str, yarns: frozenset[str]) -> int:
    """How many letters of a text's beginning name a yarn; 0: none."""
    at = 0
    while True:
        numbered = _NUMBERED.match(text, at)
        if numbered is not None:
            return numbered.end()
        match = _ARTICLE.match(text, at)
        if match is None:
            break
        at = match.end()
    other = _SOME_OTHER.match(text)
    if other is not None:
        return other.end()
    if text[:1] in yarns and not text[1:2].isalpha() and not _LETTER_FIRST.match(text):
        return 1  # "B", where the text has a colour B
    end = 0
    while (match := _NEXT_WORD.match(text, at)) is not None:
        word = match[1]
        if word in COLOURS or word in yarns:
            end = match.end(1)
        elif word not in SHADES and not (end and _A_NOUN.fullmatch(word)) and not KINDS_OF_YARN.fullmatch(word):
            joined = end and word in ("and", "with") and _SHADE_NEXT.match(text, match.end())
            if not joined:
                break
        elif end:
            end = match.end(1)
        at = match.end()
    return end or (len(text) if text in ("dark", "light") else 0)  # "With light:"


@lru_cache(REMEMBERED)
def colour_talk(sentence: str, yarns: frozenset[str] = NO_YARNS) -> bool:
    """Does a sentence change to, go on with or begin with a yarn? `yarns` are the words of the text's own list."""
    whole = " ".join(sentence.lower().replace("\u2019", "'").split())
    text = _LETTER_SIGNS.sub(r"\1", whole) if "(" in whole else whole
    text = text.strip(" -*~_:,;.!()[]\"'#>")
    if not text or len(text) > _LONGEST:
        return False
    named = _holds_name(text, yarns)
    if not (named or _MAY_SWAP.search(text)) or _NO_CHANGE.search(text):
        return False
    if _talks(text, yarns) or _SWAPS.fullmatch(text) or held_together(text):
        return True
    many = _SO_MANY.match(text) or _FOR_NEXT.match(text)
    if many is not None and _name(text[many.end() :], yarns) == len(text) - many.end():
        return True  # "One round teal:"
    if _HEADS.search(whole):
        return False
    bracket = _LAST_BRACKET.search(whole) if _STARTS.search(whole) else None
    if bracket is not None and _name(bracket[1], yarns) == len(bracket[1]):
        return True  # "Tail starts here (teal)"
    clauses = [c.strip(" -*~_:,;.!()[]\"'") for c in _CLAUSES.split(text)] if named else []
    if len(clauses) > 1 and any(c and (_talks(c, yarns) or _SWAPS.fullmatch(c)) for c in clauses[:6]):
        return True
    meant = _respelt(text) if named else text
    return meant != text and _talks(meant, yarns)


_LETTER_SIGNS = re.compile(r"[(\[]([a-z])[)\]]")  # "From now on (G) only."
_SO_MANY = re.compile(rf"{_MANY} (?:more )?(?:rounds?|rnds?|rows?) (?:of |in |with )?")
# "For the next two rounds I use teal."
_FOR_NEXT = re.compile(
    rf"(?:now,? )?for (?:just )?(?:the )?(?:(?:next|following) )?(?:{_MANY} )?(?:more )?(?:rounds?|rnds?|rows?),? "
    r"(?:(?:i|we|you) )?(?:use|work (?:in|with)|take|change to|switch to|swap to|go (?:in|with|to)) (?:the )?"
)
# What goes on without a name of one
_MAY_SWAP = re.compile(
    r"colou?r|\bcol\b|\b(?:dark|light)$|yarn|shade|switch|chang|swap|swop|back again|back to (?:main|contrast)$"
)
_CLAUSES = re.compile(r"[,;:.!?]+\s+|\s+-+\s+|\s+(?:so|and|then|but)\s+")
_HEADS = re.compile(r"\b(?:make \w+|x ?\d|\d ?x|ring|circle|pieces)\b|\bcolou?r [a-z]+\W*$")
_STARTS = re.compile(r"\b(?:starts?|begins?|done|finished|ends?|over)\b")
_LAST_BRACKET = re.compile(r"\(([a-z ]{3,24})\)?\W*$")
# "Swap back.", "so switch!", "and back again": to the other yarn, whichever that is
_SWAPS = re.compile(
    r"(?:(?:and|then|now|so|time to|please|ok) )*(?:(?:switch|change|swap|swop)(?:ped|ed|d|ing)?"
    r"(?: (?:back|again|over|colou?rs?|yarns?|now|here|once more|the (?:colou?r|yarn)))*|back again)"
)
# "Hold red and white together.", "both yarns held together from here": two strands in one hand
_TOGETHER = re.compile(
    rf"(?:(?:now|then|from here(?: on)?),? )?(?:(?:work|continue|crochet|go on)(?:ing)? )?(?:with |using )?"
    rf"(?:hold(?:ing)? )?(?:(?:both|the two|two|the)(?: strands of)?(?: colou?rs| yarns| strands)|"
    rf"(?:one strand of |a strand of |two strands of )?(?:(?:{_SHADE}) )?(?:{_KNOWN}) (?:and|with) "
    rf"(?:one of |a strand of )?(?:(?:{_SHADE}) )?(?:{_KNOWN})) "
    r"(?:held )?together(?: (?:from here(?: on)?|now|throughout|again|as one))*"
)


def held_together(low: str) -> bool:
    """ "hold red and white together": yarns, and no layers that are joined."""
    return "together" in low and _TOGETHER.fullmatch(low) is not None


# "the next 2 rounds are yellow", "R3 is white", "last round in orange", "the rest is all blue"
_ROUNDS_IN = re.compile(
    r"(?:(?:work|make|crochet|do|i (?:made|worked|did)|we (?:make|work|do))\s+)?(?:(?:just|only)\s+)?(?:the\s+)?"
    rf"(?:(?:(?:next|last|following|first|final|these|this|other|remaining)\s+)?(?:{_MANY}\s+)?"
    r"(?:of (?:these|those|the) )?"
    r"(?:rounds?|rnds?|rows?|bit|part|stripe|one|ones)|rest|everything (?:below|from here)|"
    r"rest of (?:it|the [a-z]+)|(?:(?:from|for) )?(?:rnds?|rounds?|rows?|r)"
    r" ?\d{1,3}(?: ?(?:-|to|and|&) ?r?\d{1,3})?(?: on(?:wards)?| up)?)"
    r"(?:\s*(?:(?:is|are|was|were|will be|in|with|goes|go|use|take|:|-|=)\s*)+|(?<=remaining rounds)\s+|"
    r"(?<=remaining rows)\s+)"
    r"(?:(?:all|done|worked|made|crocheted|knitted|again|in|with|now|"
    r"back in)\s+)*"
)
_COMES = re.compile(
    r"(?:,? (?:and )?[a-z]+)? it (?:is|stays|remains|goes)\b|\s+(?:(?:has|have|had|is|was|yarn|one|will|now|"
    r"then)\s+)*(?:to\s+)?(?:begins?|starts?|began|comes?|came|coming|"
    r"takes? over|joins?|returns?|back)\b"
)
_GREETS = re.compile(r"(?:hello|hi|welcome|welcome back|hello again|enter)\b,?\s+")
_SLIPS = ("change", "changed", "switch", "back", "again", "start", "continue")


def _respelt(text: str) -> str:
    """With the words of going on put right: "Bakc to red", "Cahnge to white"."""
    words = text.split(" ")
    for at, word in enumerate(words[:6]):
        if word.isalpha() and len(word) > 3 and word not in COLOURS:
            words[at] = _meant(word)
    return " ".join(words)


@lru_cache(REMEMBERED)
def _meant(word: str) -> str:
    return next((w for w in _SLIPS if word != w and abs(len(w) - len(word)) < 2 and slip(word, w)), word)


def _holds_name(text: str, yarns: frozenset[str]) -> bool:
    return any(w in COLOURS or w in yarns for w in re.findall(r"[a-z]+", text))


def _talks(text: str, yarns: frozenset[str]) -> bool:
    if _SOME_OTHER.fullmatch(text):
        return True  # "Next colour."
    rounds = _ROUNDS_IN.match(text) or _GREETS.match(text)
    named = _name(text[rounds.end() :], yarns) if rounds is not None else 0
    if rounds is not None and named:
        behind = text[rounds.end() + named :].strip(" ,;:!.-")
        return not behind or bool(_ONCE_MORE.match(behind))
    article = re.match(r"(?:(?:and|now|then|so|here|finally|that's where|where)\s+)*", text)
    start = article.end() if article else 0
    named = _name(text[start:], yarns)
    if named and _COMES.match(text, start + named):
        return True
    other = _SOME_OTHER.match(text)
    if other is not None and _ONCE_MORE.match(text[other.end() :].strip(" ,;:!.-")):
        return True
    lead = _LEAD.match(text)
    rest = text[lead.end() :] if lead else text
    go = _GO.match(rest)
    if go is not None:
        named = _name(rest[go.end() + 1 :], yarns)
        if named:
            tail = rest[go.end() + 1 + named :]
            if go[0] in ("used", "use", "in", "with", "using") and re.search(r"\b(?:for|because|as|since)\b", tail):
                said = tail.strip()
                long = go[0] in ("with", "using", "in") or " next " in tail or " following " in tail
                return bool(_FOR_THIS.fullmatch(said) or (long and _SO_LONG.fullmatch(said)))
            return bool(_TAIL.match(tail))
    bare = _BARE_LEAD.match(text)
    rest = text[bare.end() :] if bare else text
    named = _name(rest, yarns)
    if not named:
        return False
    behind = rest[named:].strip(" ,;:!.-")
    if not behind:
        return bool(bare and bare.end()) or bool(_SOME_OTHER.fullmatch(rest)) or bool(re.search(r"\bagain$", rest))
    return bool(_ONCE_MORE.match(behind))


def only_a_yarn(sentence: str, yarns: frozenset[str]) -> bool:
    """ "Foam:", "Buoy red": nothing but words that the text's own list may name a yarn by."""
    words = re.findall(r"[^\W\d_]+", sentence.lower()) if len(sentence) <= 40 else []
    return 0 < len(words) <= 3 and all(w in yarns or w in COLOURS or w in SHADES for w in words)


# Words of a list of materials that name no yarn
_NO_YARN = frozenset(
    [
        "yarn", "wool", "cotton", "acrylic", "thread", "hook", "needle", "needles", "stuffing", "fibre",
        "fiber", "filling", "eyes", "eye", "safety", "scissors", "marker", "markers", "stitch", "size",
        "weight", "ball", "balls", "skein", "skeins", "small", "large", "little", "some", "with", "and", "for",
        "the", "any", "from", "your", "own", "you", "need", "bits", "scraps", "left", "over", "leftover",
        "main", "each", "about", "tapestry", "darning", "sewing", "crochet", "fill", "toy", "pair", "two",
        "three", "four", "black-eyed", "polyester", "pins", "pin", "gram", "grams", "metre", "metres", "meter",
        "meters", "yards", "dk", "aran", "worsted", "sport", "chunky", "colours", "colors", "colour", "color",
        "similar", "other", "also", "bit", "pieces", "piece", "felt", "glue", "ribbon", "button", "buttons",
        "bell", "beads", "wire", "optional", "used", "body", "head", "arms", "legs", "ears", "tail", "wings",
        "work", "round", "rounds", "row", "rows", "end", "start", "ring", "first", "last", "next",
    ]
)  # fmt: skip


def yarn_words(materials: list[str], text: str = "") -> frozenset[str]:
    """The words of a text's own list that may be names of its yarns, and the letters it calls them by."""
    words = {w for line in materials[:60] for w in re.findall(r"[a-z]{3,14}", line[:200].lower())}
    for told in _YARN_IN.finditer(text.lower()):
        named = set(re.findall(r"[a-z]{3,14}", re.sub(r"\([^)]*\)", " ", told[1])))
        words |= named if not named.isdisjoint(COLOURS) else set()
    letters = {m[1] for m in _LETTER.finditer(text.lower())}
    for line in (line[:200].lower() for line in materials[:60]):
        if not COLOURS.isdisjoint(re.findall(r"[a-z]+", line)):
            letters.update(m[1] for m in _LETTER_SIGNS.finditer(line))  # "(G) fog grey, (W) white"
    return frozenset(w for w in words if w not in _NO_YARN) | letters


# "Yarn in slate and chalk.", "- worsted weight yarn in rust (boots), moss (trousers)"
_YARN_IN = Sought(
    ("yarn in ", "wool in ", "cotton in "),
    r"^[^\w\n]{0,6}(?:[\w%.-]{1,20} ){0,3}(?:yarn|wool|cotton) in "
    r"((?:(?!the|your|an?|each|all|this|that|front|back)[a-z]+"
    r"(?: [a-z]+)?(?: \([^)\n]{0,40}\))?(?:, (?:and )?| and |(?=[.,;\n]|$)))+)",
    re.M,
)
_LETTER = re.compile(r"[ycs](?<!\w.)(?:arn|olou?r|ol|hade)\s+([a-h])\b")


_TURNS = re.compile(
    r"\b(?:chang\w+|switch\w*|swap\w*|swop\w*|back (?:to|in|with)|on (?:with|in)|again|from (?:here|now)|continu\w+|"
    r"start(?:ed)? (?:with|in)|until (?:here|now)|now)\b"
)
_A_COLOUR = re.compile(rf"\b(?:{_KNOWN})\b")
_FEW_WORDS = 12
_ELSEWHERE = re.compile(
    r"\b(?:sew\w*|embroider\w*|eyes?|nose|mouth|face|cheeks?|beads?|felt|hook|needle|"
    r"marker|not|don't|didn't)\b"
)


def may_change_colour(sentence: str, own: frozenset[str]) -> bool:
    """A sentence between courses that names a colour and was no asking: to be said, as it may be one.

    Beside words of going on any colour counts; else those that the text works with, `own`, in a short sentence.
    """
    low = " ".join(sentence.lower().split())
    if len(low) > _LONGEST or not _A_COLOUR.search(low):
        return False
    if _TURNS.search(low) and not _NO_CHANGE.search(low):
        return True
    words = re.findall(r"[a-z']+", low)
    return len(words) <= _FEW_WORDS and any(w in own for w in words) and not _ELSEWHERE.search(low)


def colours_named(texts: list[str]) -> frozenset[str]:
    """The everyday colours that some sentences name."""
    return frozenset(m[0] for text in texts for m in _A_COLOUR.finditer(text.lower()))
