"""Jobs told in few words, by a thing and how it looks: "Two white eyes.", "Wheels last.", "To white".

No verb orders them, or one that says nothing ("do his eyes in black wool"), so the whole of such a sentence must fit:
a word too many, and it may be a story.
"""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import is_colour
from hookside.notation.lines.heads.parts import is_part
from hookside.pattern import CueKind

_LONGEST = 160  # letters of such a sentence
_FEATURE = (
    r"(?:eyes?|nose|noses|mouth|smile|grin|nostrils?|whiskers?|cheeks?|eyebrows?|brows|eyelash(?:es)?|lashes|eyelids?|"
    r"freckles?|face|teeth|pupils?|muzzle|snout)"
)
_HIS = r"(?:the|his|her|its|their|your|both|own|an?|one|two|three|four|six|some|a few|\d)"
_SMALL = r"(?:little|small|tiny|big|large|round|long|short|simple|happy|sleepy|sweet|straight|few|single|neat)"
_YARN = r"(?:thread|wool|floss|yarn|cotton|embroidery (?:thread|cotton|floss)|scraps?|strands?|split yarn|stitches)"
_LINES = (
    r"(?:v'?s|vees?|crosses|x'?s|dots|spots|dashes|stars|knots|lines?|zig-?zags?|squiggles|hearts|lazy daisies|"
    r"(?:french|colonial) knots?|(?:(?:running|straight|satin|back|stem|chain|cross|fly|seed) ?)?stitch(?:es)?)"
)
_SO = r"(?:(?:and|then|now|so|next|finally|lastly|also|just|please|here),? )*"
_WHO = r"(?:(?:i|we|you) (?:(?:then|also|always|just|usually|now) )*)?"

# "Two white eyes", "a pink nose", "black yarn nose", "two black eyes and a smile"
_LOOK = rf"(?:(?:{_HIS}|{_SMALL}) )*(?:(?P<shade%d>[a-z]+(?: [a-z]+)?) )??(?:(?P<yarn%d>{_YARN}) )?{_FEATURE}"
_LOOKS = re.compile(rf"{_SO}{_LOOK % (0, 0)}(?:(?:,? and |, | plus | & ){_LOOK % (1, 1)})?(?:,? please)?")
# "Eyes in black wool", "a smile of red thread", "nose and eyes with brown"
_MADE_OF = re.compile(
    rf"{_SO}(?:(?:{_HIS}|{_SMALL}) )*{_FEATURE}(?:(?:,? and |, )(?:{_HIS} )*{_FEATURE})*"
    r",? (?:in|of|with|from) "
    rf"(?P<what>(?:(?:the|a|some|scraps? of|a bit of|a strand of|one strand of) )*[a-z ]{{3,30}}?)"
    r"(?:,.*|,? (?:please|too|as well|close|small|small and)\b.*)?"
)
# "Eyes: red thread", "Black wool for eyes and a big flat nose"
_YARN_FOR = re.compile(
    rf"{_SO}(?:(?:{_HIS}|{_SMALL}) )*{_FEATURE}(?:(?:,? and |, )(?:{_HIS} )*{_FEATURE})*: "
    rf"(?:in )?(?:[a-z]+ ){{1,2}}{_YARN}|"
    rf"{_SO}(?:[a-z]+ ){{1,2}}{_YARN} for (?:(?:{_HIS}|{_SMALL}|flat) )*{_FEATURE}"
    rf"(?:(?:,? and |, )(?:(?:{_HIS}|{_SMALL}|flat) )*{_FEATURE})*"
)
# "Do his own eyes with black wool", "work his eyes and nose in brown wool", "I gave him eyes of black thread"
_DOES = re.compile(
    rf"{_SO}{_WHO}(?:do|did|make|made|work|worked|give|gave|mark|put|add|added|draw|stitch|stitched|sew|sewed) "
    rf"(?:(?:him|her|it|them) )?(?:(?:{_HIS}|{_SMALL}) )*{_FEATURE}(?:(?:,? and |, )(?:{_HIS} )*{_FEATURE})*"
    r" (?:in|of|with|from|using) (?P<what>(?:(?:the|a|some|scraps? of|a bit of|a strand of|one strand of) )*"
    r"[a-z ]{3,30}?)(?:,.*|,? (?:please|too|as well|close|small|small and|on|at|between|over|under|like)\b.*)?"
)
# "I embroidered the eyes cause my cat eats the plastic ones", "and I embroider the eyes in white"
_I_SEW = re.compile(
    rf"{_SO}(?:i|we) (?:(?:then|also|always|just|usually|now) )*(?:embroider(?:ed)?|stitch(?:ed)? on|"
    rf"(?:stitch|sew)(?:ed)? (?:on )?(?:an?|some|two)) (?:(?:{_HIS}|{_SMALL}|on) )*{_FEATURE}\b"
    r"(?!.*\b(?:yesterday|last time|next time|wish|forgot|should|but|another|years?|can|one)\b).*"
)
# "Stitch little Vs all over", "scatter white French knots over the cap", "Sew tiny crosses down his back"
_ALL_OVER = re.compile(
    rf"{_SO}{_WHO}(?:stitch|sew|embroider|dot|sprinkle|add|make|scatter) "
    r"(?!(?:on )?(?:the|your|his|her|its|all|both|each) )"
    rf"(?:(?:{_HIS}|{_SMALL}|a row of|rows of|a line of|lots of|some|scattered|[a-z]+) ){{0,4}}{_LINES}"
    r"(?:,? (?:in|with|of) [a-z ]{3,20}?)?,? (?:all over|all round|all around|here and there|"
    r"(?:over|down|across|along|round|around) (?:the|his|her|its))\b(?!.*\b(?:needle|hook|r ?\d|rounds?)\b).*"
)
# "Little Vs in white all over him", "stripes in satin stitch across the back"
_STREWN = re.compile(
    rf"{_SO}(?:(?:{_HIS}|{_SMALL}|[a-z]+) ){{0,3}}(?:{_LINES},? (?:in|with|of) [a-z ]{{3,20}}?|[a-z]{{4,12}} in "
    r"(?:satin|chain|back|stem|straight|running|cross|fly) ?stitch(?:es)?),? "
    r"(?:all over|here and there|scattered|(?:over|down|across|along) (?:the|his|her|its))\b.*"
)
# "Add two knots for eyes", "black stitches for eyes", "one stitch in black for each eye"
_STAND_FOR = re.compile(
    rf"{_SO}{_WHO}(?:(?:add|make|sew|stitch|put|work|give (?:him|her|it)) )?(?:(?:{_HIS}|{_SMALL}|[a-z]+) ){{0,3}}"
    rf"(?:knots?|french knots?|stitch(?:es)?|crosses|cross|dots?|lines?)(?: (?:in|of|with) [a-z ]{{3,20}})? (?:for|as) "
    rf"(?:(?:{_HIS}|each|every) )*{_FEATURE}(?! of\b).*"
)
# "The eyes are two black stitches"
_ARE_LINES = re.compile(
    rf"{_SO}(?:(?:{_HIS}) )*{_FEATURE} (?:is|are) (?:(?:just|only|simply) )*(?:(?:{_HIS}|{_SMALL}|[a-z]+) ){{1,4}}"
    r"(?:knots?|french knots?|stitch(?:es)?|crosses|dots?|lines?)\b(?! of the| apart| wide| from).*"
)
_KNOTS = re.compile(
    rf"{_SO}{_WHO}(?:work|make|do|add|sew|stitch|put|place) (?:(?:{_HIS}|{_SMALL}|[a-z]+) ){{0,4}}"
    r"(?:lazy dais(?:y|ies)|(?:french|colonial) knots?)\b.*"
)
_KNOTS_IN = re.compile(
    rf"{_SO}(?:(?:{_HIS}|{_SMALL}|[a-z]+) )??(?:lazy dais(?:y|ies)|(?:french|colonial) knots?)"
    r",? (?:in|with|from) [a-z ]{3,30}(?:,? (?:on|over|for|all)\b.*)?"
)
_CHAIN_STITCHED = re.compile(rf"{_SO}chain[ -]stitch (?:an?|the|some|two|three|round|around|on|his|her) "
                             r"(?!first|last).*")
_DETAILS = re.compile(
    rf"{_SO}(?:add|make|do|give (?:it|him|her)|put)(?: on| in)? (?:(?:{_HIS}|{_SMALL}|some|any|[a-z]+) ){{0,2}}"
    rf"(?:details?|markings|glints?|highlights?|features?|accents?) (?:in|with|of|using) (?:[a-z]+ ){{0,2}}{_YARN}\b.*"
)
# "Wheels last.", "the arms last of all", "Ears first, then the tail"
_LAST = re.compile(rf"{_SO}(?:(?:the|both|all|his|her|its|four|two) )*(?P<part>[a-z]{{3,12}}) (?:go |come )?"
                   r"last(?: of all)?")
_IN_ORDER = re.compile(
    r"(?:(?:the|both|his|her|its) )*(?P<one>[a-z]{3,12}) first,? (?:and )?then (?:(?:the|both|his|her|its) )*"
    r"(?P<other>[a-z]{3,12})(?:,? (?:and )?(?:then |last(?:ly)? |finally )?(?:the )?[a-z]{3,12}(?: last)?)?"
)
# "Ears on, tail on", "legs under, ears on top"
_SPOT = (
    r"(?:on(?: top| the (?:front|back|sides?|head|body))?|under(?:neath)?|at the (?:front|back|sides?)|behind|in front)"
)
_ONS = re.compile(
    rf"{_SO}(?:(?:the|both|his|her) )*(?P<one>[a-z]{{3,12}}) {_SPOT}(?:(?:,| and|, and) (?:(?:the|both|his|her) )*"
    rf"(?P<other>[a-z]{{3,12}}) {_SPOT})+(?:,? done)?"
)
# "To white", "then to red", "on to the cream"
_TO = re.compile(
    rf"{_SO}(?:(?:go|move|turn|head) )?(?:(?:over|back|on) )?(?:in)?to (?:the )?"
    rf"(?P<shade>[a-z]+(?: [a-z]+)?)(?: (?:now|again|here))?"
)
# "From here only brown", "only black now", "brown only from here"
_HERE = r"(?:from (?:here|now|this point)(?: on(?:wards)?)?)"
_ONLY = re.compile(
    rf"{_SO}{_HERE},? (?:(?:only|just|all|use|it's|we use) )*(?P<a>[a-z]+(?: [a-z]+)??)(?: (?:only|again|to the end))?|"
    rf"{_SO}(?:yes,? )?(?:(?:only|just|all) )?(?P<b>[a-z]+(?: [a-z]+)??)(?: (?:fluffy|furry|fuzzy|eyelash|velvet))?"
    rf"(?: yarn| wool)? (?:only )?"
    rf"(?:{_HERE}|(?:(?:all the way )?to|until|till) the (?:end|finish|last))"
)
_FLUFF = (
    r"(?:stuffing|filling|fluff|wadding|fib(?:re|er)|fib(?:re|er)-?fill|poly-?fill|toy fill(?:ing)?|"
    r"hollow ?fib(?:re|er)|"
    r"fleece|cotton wool)"
)
# "Little bit of fluff", "just a little filling in", "lots of stuffing here"
_SOME_FLUFF = re.compile(
    r"(?:(?:and|then|now|just|only|first|here),? )*(?:(?:an?|the|some|very|lots?|plenty|loads|tons|handfuls?|pinch|bit|"
    r"wee|little|tiny|small|good|big|generous|more|dab|wisp|tuft|touch|smidge|drop|of) )+"
    rf"(?<!\bthe )(?<!\ban )(?<!\ba ){_FLUFF}(?: (?:in|inside|here|now|again|please|goes in|in there))*"
)
_IN_GOES = re.compile(
    rf"(?:and |then |now )*in (?:goe?s?|with) (?:the |some |a bit of |all the )*(?:rest of the )?{_FLUFF}\b.*"
)
# "I always pin first", "pins first, then needle", "try the ears with pins"
_PINS = re.compile(
    rf"{_SO}(?:(?:i|we|you) (?:(?:always|usually|like to|would|do|can) )*pin(?:ned)?\b(?! it up)[^.]*\b(?:first|before)"
    r"\b.*|pins? (?:go )?first\b.*|"
    r"(?:try|test|arrange|lay out|hold|keep|fix)\b[^.]{0,40}\bwith (?:the |some )?pins\b.*)"
)
_THROUGH = re.compile(
    rf"{_SO}(?:the )?(?:needle|yarn|tail|end|thread) through (?:all )?(?:the |these |those )?"
    r"(?:(?:last|remaining|front|final|rest of the) )*"
    r"(?:\d{1,2}|four|five|six|seven|eight|ten|twelve|loops|stitches|sts|front loops)\b.*"
)  # fmt: skip
_ALL_ON = re.compile(
    rf"{_SO}(?:attach|fix|assemble) (?:everything|everybody|it all|them all|all|the rest|the lot|(?:all )?(?:the )?"
    rf"(?:parts|pieces|bits))(?: (?:on|now|together|to the body))?|{_SO}assemble"
)
_SEW_TO_CLOSE = re.compile(
    rf"{_SO}sew (?:the )?(?:end|tail|yarn|thread) through\b[^.]*"
    r"\b(?:each|all|every|last|remaining|front|\d+)\b[^.]*\b(?:stitch(?:es)?|sts|loops?)\b.*"
)
_SAFETY = re.compile(r"\b(?:safety|plastic|glass|felt|buttons?|beads?|glue)\b")
_IS_YARN = re.compile(rf"\b{_YARN}$")

_SEWN = (_ALL_OVER, _STREWN, _STAND_FOR, _ARE_LINES, _KNOTS, _CHAIN_STITCHED, _DETAILS)


def _shade(name: str | None) -> bool:
    return name is not None and is_colour(name)


def _of_yarn(what: str) -> bool:
    """ "black wool", "brown", "a scrap of pink": what a face is sewn with."""
    told = re.sub(r"^(?:(?:the|a|an|some|scraps? of|bit of|one|two|strands? of) )+", "", what)
    return bool(_IS_YARN.search(told)) or is_colour(told)


def _looks(whole: str) -> bool:
    """A face by its looks alone: a color or a yarn is told, and no eye that is bought."""
    told = _LOOKS.fullmatch(whole)
    if told is None:
        return False
    shades = [told["shade0"], told["shade1"]]
    known = all(shade is None or is_colour(shade) for shade in shades)
    return known and (any(shades) or bool(told["yarn0"] or told["yarn1"]))


def few_words(whole: str, ended: bool) -> CueKind | None:
    """The job of a sentence in small letters; `ended`: a full stop stood behind it, so that it heads no part."""
    if len(whole) > _LONGEST:
        return None
    if ended and not _SAFETY.search(whole):
        made = _MADE_OF.fullmatch(whole)
        thread = _KNOTS_IN.fullmatch(whole) or _YARN_FOR.fullmatch(whole)
        if _looks(whole) or thread or (made is not None and _of_yarn(made["what"])):
            return "embroider"
        last, order = _LAST.fullmatch(whole), _IN_ORDER.fullmatch(whole)
        if last is not None and is_part(last["part"]) and last["part"] not in ("body", "head", "piece", "part"):
            return "sew"
        if order is not None and is_part(order["one"]) and is_part(order["other"]):
            return "sew"
    return _told(whole)


def _told(whole: str) -> CueKind | None:
    """The same of what no heading is taken for."""
    if not _SAFETY.search(whole):
        made = _DOES.fullmatch(whole)
        if made is not None and _of_yarn(made["what"]):
            return "embroider"
        if any(rule.fullmatch(whole) for rule in _SEWN):
            return "embroider"
    if _I_SEW.fullmatch(whole):
        return "embroider"
    on = _ONS.fullmatch(whole)
    if (on is not None and is_part(on["one"]) and is_part(on["other"])) or _ALL_ON.fullmatch(whole):
        return "sew"
    to, only = _TO.fullmatch(whole), _ONLY.fullmatch(whole)
    if (to is not None and is_colour(to["shade"])) or (only is not None and (_shade(only["a"]) or _shade(only["b"]))):
        return "colour"
    if _SOME_FLUFF.fullmatch(whole) or _IN_GOES.fullmatch(whole):
        return "stuff"
    if _PINS.fullmatch(whole):
        return "pin"
    return "close" if _THROUGH.fullmatch(whole) or _SEW_TO_CLOSE.fullmatch(whole) else None
