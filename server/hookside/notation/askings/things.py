"""Jobs told by the thing they are about, without an order: "The bell goes into the middle", "Whiskers: three strands".

A face that was only told of, and what was only said to lie inside, is lost once the piece is shut.
"""

from __future__ import annotations

import re

from hookside.notation.askings.features import feature
from hookside.notation.sought import Sought
from hookside.pattern import CueKind

_LONGEST = 240  # characters of a sentence that is looked at
_FEATURE = (
    r"\b(?:nose|noses|mouth|smile|grin|snout|muzzle|nostrils?|whiskers?|cheeks?|eyebrows?|brows|eyelash(?:es)?|"
    r"eyelids?|"
    r"freckles?|face|teeth|tooth|lips?|tongue|blush|pupils?)\b"
)
_SEWN = r"(?:embroider\w*|stitched|sewed|sewn|backstitch\w*|drew|drawn|glued|painted)"
_NEEDLE = (
    rf"\b(?:{_SEWN}|french knots?|satin stitch(?:es)?|straight stitch(?:es)?|thread|floss|"
    r"(?:strands?|lines?|stitch(?:es)?|knots?|dots?|loops?|bits?|scraps?|piece|circles?) (?:of|in|with) (?!rounds?\b|"
    r"rows?\b)[a-z]{3,}|"
    r"(?:short|long|small|little|tiny|few|two|three|four|five) (?:[a-z]+ )?(?:stitches|lines|knots|dots)|"
    r"\d (?:sts|stitches) (?:wide|high|long))"
)
_EMBROIDERED = Sought(
    (
        "nose", "mouth", "smile", "grin", "snout", "muzzle", "nostril", "whisker", "cheek", "brow", "lash", "lid",
        "freckle", "face", "teeth", "tooth", "lip", "tongue", "blush", "pupil", "beak", "bill", "paw", "claw", "tummy",
        "belly", "stripe", "eye",
    ),
    r"(?=[^.]*\b(?:beak|bill|paws?|claws?|tummy|belly button|stripes?)\b)[^.]*\b(?:embroidered|"
    r"stitched\b(?!.*\b(?:to|onto|on)\b)|(?:straight|satin) stitches|french knots?)\b|"
    rf"(?=[^.]*{_FEATURE})[^.]*{_NEEDLE}|(?=[^.]*\beyes?\b)[^.]*\b(?:embroidered|stitched|french knots?|"
    rf"satin stitch(?:es)?)\b|"
    r"(?:and |then |now |here |so )*(?:i|we) (?:then |also |now |just )*(?:added|made|gave|put|add|make|give)\b"
    rf"[^.]*{_FEATURE}|"
    rf"(?:and |now |then )*(?:a|an|the|two|three|some|his|her|its) (?:[a-z]+ ){{0,3}}?{_FEATURE[2:]} (?:in|of|from)"
    r" [a-z]+[^.]*\b(?:between|under|below|above|beside|over|on)\b",
)  # fmt: skip
_SEWN_WORD = re.compile(rf"\b{_SEWN}\b")
# Worked, and not embroidered: "work the snout in pink"; told of other times, other people, or of what might be
_NOT_NOW = re.compile(
    r"\b(?:yesterday|last time|next time|wish|forgot|never|should have|years?|"
    r"photos?|pictures?|instead|could|might|"
    r"maybe|perhaps|would|if|"
    r"unless|(?<!one )(?<!two )(?<!three )or|no|not|don't|didn't|without|until|"
    r"crochet|rounds? \d.*rounds? \d|rnds?|sc|dc|ch|"
    r"loves?|loved|like|likes|looks?|looked|cute|adorable|funny|cat|dog|kids?|stole|later|while|tea|coffee|safety|"
    r"plastic)\b"
)
INSIDE = (
    r"\b(?:bells?|rattles?|squeakers?|pebbles?|stones?|marbles?|jingle\w*|music box|capsules?|crinkle\w*|wires?|"
    r"pipe ?cleaners?|magnets?|cardboard|plastic canvas|"
    r"(?:circles?|dis[ck]s?|rounds?|ovals?|pieces?|bits?|squares?) of (?:stiff |thin |thick )?"
    r"(?:card|plastic|foam|felt)|"
    r"coins?|dis[ck]s?|washers?|skeleton|"
    r"(?:button )?mou?lds?|(?:cushion|pillow) (?:pad|form|insert|inner)|(?<=in the )pad|"
    r"(?:heart ?beat|sound|voice|growl\w*|music) box(?:es)?|growlers?|speakers?|joints?|(?:lead )?weights?(?! yarn))\b"
)
_ALONE = re.compile(rf"(?:[a-z]+ ){{0,2}}{INSIDE}(?: [a-z]+)?")  # "squeaker", "the bell now"
_FLUFF = (
    r"\b(?:fluff|fib(?:re|er)s?|fib(?:re|er) ?fill|stuffing|filling|wadding|pellets|granules|beans|rice|lentils|sand|"
    r"sheep'?s wool)\b"
)
_GOES = (
    r"\b(?:goes?|belongs?|comes?|finds? (?:its|their) place|slips?|lies?|sits?|has to go|must go|in goes|put|added|hid|"
    r"inserted|dropped|wrapped)\b"
)
_PLACE = r"\b(?:in|into|inside|here|through|now|at the bottom|within|on top|underneath)\b"
_LIES_INSIDE = Sought(
    (
        "bell", "rattle", "squeaker", "pebble", "stone", "marble", "jingle", "box", "capsule", "crinkle", "wire",
        "cleaner", "magnet", "card", "plastic", "foam",
        "felt", "coin", "disc", "disk", "washer", "skeleton", "growler", "speaker", "joint",
        "weight", "mould", "mold", "cushion", "pillow", "pad",
    ),
    rf"(?=[^.]*{INSIDE})(?:(?=[^.]*{_PLACE})|(?=[^.]*{_GOES}))",
)  # fmt: skip
_VERBLESS_FLUFF = re.compile(
    r"(?:and |then |now |so |here |next )*(?:(?:comes?|for) )?"
    r"(?:(?:a|an|some|the|another|one|two|more|a little|plenty of) (?:[a-z]+ )?(?:(?:of|of the) )?(?:[a-z]+ )?)?"
    rf"{_FLUFF}(?:,? (?:in|into|inside|first|now|here|then|next)\b|,|$)"
)
_WANTS_FLUFF = re.compile(
    r"(?:(?:now|here|then|and) )*(?:it|he|she|this|they|the [a-z]+) (?:wants?|needs?|gets?|takes?|likes?) "
    rf"[^.]{{0,24}}(?:{_FLUFF}|\bwool\b|\bcotton\b)[^.]*\b(?:in|inside|now|here|before)\b"
)
_EYES_AT = re.compile(
    r"(?:(?:a pair of|two|the|one|\d) )*(?:\d+(?:[.,]\d)? ?mm )?(?:(?:safety|plastic|glass|black) )*eyes?,? "
    r"(?:between |at |on |in |over )*(?:the )?(?:r|rnds?|rounds?)\.? ?\d"
)
# Another hook, or the yarn taken double: what is worked on as before comes out another size
_TOOL = re.compile(
    r"(?:(?:now|then|here|and|from here(?: on)?),? )*(?:(?:change|switch|go|use|with|using|continue|take|return|work|"
    r"hold|two|three|a single|one)\b[^.]{0,30}?)?(?:\b(?:\d(?:[.,]\d+)? ?mm|smaller|larger|bigger|thinner|thicker|"
    r"other|first) hook\b|\bstrands?(?: of [a-z]+)? (?:held )?(?:together|double)\b|\byarn (?:held )?double\b)"
)
_TAIL_NEEDED = re.compile(
    r"(?:a|an|the|some) (?:[a-z]+ )?(?:tail|end|thread|length of yarn)\b[^.;]{0,50}\b(?:(?:is|are|will be) needed|"
    r"for the seam|for sewing|to sew)\b"
)
_THING = re.compile(
    rf"{_FEATURE}|{INSIDE}|{_FLUFF}|\b(?:tail|yarn|thread|end)s? (?:of|is|are|will)\b.*\b(?:seam|sew|cm)\b"
)
_COMPANY = re.compile(
    r"\b(?:love\w*|like[ds]?|looks?|looked|cute|adorable|funny|cat|dog|kids?|think|thought|tea|coffee|enjoy|photos?|"
    r"pictures?|happy|hope|thank|tag|story|name[ds]?|remember|told|will (?:be|get|look|hold)|is|are|was|were|has|had)\b"
)


def thing_told(whole: str) -> CueKind | None:
    """The job of a sentence, in small letters, that only tells of a thing; None where it tells of something else."""
    if len(whole) > _LONGEST:
        return None
    if _TAIL_NEEDED.match(whole):
        return "tail"
    if _VERBLESS_FLUFF.match(whole) or _WANTS_FLUFF.match(whole):
        return "stuff"
    if _EYES_AT.match(whole):
        return "eyes"
    if _TOOL.match(whole):
        return "other"
    if _EMBROIDERED.match(whole):
        told: CueKind | None = "embroider"
    else:
        told = "other" if lies_inside(whole) else feature(whole)
    return None if told is None or _NOT_NOW.search(whole) else told


def no_colour(whole: str) -> bool:
    """ "With black I embroidered the mouth", "In goes the rattle": what reads like a change of colour and is none."""
    told = thing_told(whole)
    return told == "other" or (told == "embroider" and bool(_SEWN_WORD.search(whole)))


def lies_inside(whole: str) -> bool:
    """Whether a sentence lays something into the piece: too late once that is shut."""
    return bool(_LIES_INSIDE.match(whole))


def wants_hands(whole: str) -> bool:
    """Whether a job without a kind holds the hands up: something to lay in, another hook to take."""
    return lies_inside(whole) or bool(_ALONE.fullmatch(whole) or _TOOL.match(whole))


def names_a_thing(sentence: str) -> bool:
    """Whether a sentence that was taken for a story names what hands are needed for, and keeps no company."""
    low = " ".join(sentence[:_LONGEST].lower().split())
    return bool(_THING.search(low)) and not _COMPANY.search(low)
