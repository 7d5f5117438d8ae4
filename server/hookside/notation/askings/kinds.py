"""Which job a sentence asks the hands for: the stage that calls a sentence an asking or a story."""

from __future__ import annotations

import re
from functools import lru_cache

from hookside.colours import COLOURS
from hookside.notation.askings.colournames import (
    BEGUN_IN,
    FROM_NOW,
    IS_FROM_HERE,
    JOINS_TO,
    JOINS_YARN,
    NAMES_ONE,
    NO_SHADE,
    OPENS_WITH,
    SAME_YARN,
    SOME_COLOUR,
    from_to,
    is_colour,
    is_patterned,
    worked_in,
)
from hookside.notation.askings.colourtalk import colour_talk, held_together
from hookside.notation.askings.during import again_and_again
from hookside.notation.askings.fewwords import few_words
from hookside.notation.askings.lastpull import last_pull
from hookside.notation.askings.leads import TOPIC, bare
from hookside.notation.askings.nounjobs import noun_job
from hookside.notation.askings.placed import PLACED, PLACED_ONE
from hookside.notation.askings.rules import (
    EYES_ARE,
    EYES_NOW,
    HANDS,
    LEVELS,
    MINDS,
    MUST_HAVE,
    STAYS_EMPTY,
    ruled,
)
from hookside.notation.askings.short import reminded
from hookside.notation.askings.stories import (
    DONE_TO,
    HERE_DONE,
    HERE_STUFFED,
    NOT_ASKED,
    NOTHING,
    NOW_DO,
    ONESELF,
    PAST,
    SAYS_WHEN,
    STORY,
    STUFFED,
    TELLS,
    TOLD_DOING,
    WAS_DONE,
)
from hookside.notation.askings.things import lies_inside, no_colour, thing_told
from hookside.notation.askings.turned import NO_ORDER, VERB_LAST, verb_first
from hookside.notation.bodies.respelling import slip
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import REMEMBERED
from hookside.pattern import CueKind
from hookside.unstuffed import NEEDS_NONE

# "Join in A and carry it": a yarn, and no article
_YARN_A = re.compile(r"(?<=[a-z] )(?<!olour )(?<!olor )(?<!arn )(?<!hade )(?<!hread )A(?=[\s.,;:)]|$)")
_PUTS = re.compile(r"(?:put|place|add|insert|slip|drop|tuck|lay|push)\b")
# "If you use plastic eyes, put them in now."
_THEM_IN = re.compile(
    r"(?:put|place|insert|attach|add|fix|set|push|pop|fit) (?:them\b|these\b|both\b|now$|here$|in now$)"
)
_DONT = Sought(("dont", "don' t"), r"\bdon(?:t|' t)\b")
_MAKES = re.compile(r"(?:make|draw|cut|wind|braid|plait|twist) (?:a|an|two|three|four|some|\d+)\b")
_TRADE_NOUN = re.compile(
    r"\b(?:eyes?|tails?|yarn|stuffing|stuffed|stuff|ends?|marker|opening|hole|nose|colou?r|hook|head|body|arms?|"
    r"legs?|ears?|wings?|fins?|piece|parts?|loops?|stitches|sts?|needle|seam|mouth|"
    r"hull|sail|mast|threads?|strands?|wire|pins?|button|ribbon|cord|felt|face|base|side|beak|feet|foot|hands?|it|them|rounds?|"
    r"rnds?|rows?|off|work|white|black|blue|red)\b"
)


# "Continuing with leg 2": what is gone on with is a part, and no yarn
_COPIED = r"(?:leg|arm|wing|fin|foot|ear|flipper|paw|half|piece|part|side|lobe|point)"
_A_COPY = re.compile(
    rf"(?:using|with) (?:the )?(?:{_COPIED} ?(?:number |no\.? ?|#)?(?:\d|one|two|three|four)|"
    rf"(?:first|second|third|fourth|last|other|left|right|1st|2nd|3rd|4th) {_COPIED})$"
)
_ABOUT_STUFFING = re.compile(r"stuffing (?:firmly|lightly|as|the)|(?:firmly|lightly) stuff|stuffing\s*:")
# "The wings stay unstuffed", "not stuffed"
STAYS = re.compile(
    r"(?:(?:the |these |both |all )?[a-z ]{0,24}\b(?:stays?|remains?|should|must|is|are|was|were|it's|they're|"
    r"left)(?: be)? )?(?:left )?(?:without (?:any )?(?:filling|stuffing)|un-?stuffed|"
    r"un-?filled|not (?:to )?(?:be )?(?:stuffed|filled))$|"
    r"(?:[a-z]{2,14} ){0,3}(?:isn't|aren't|wasn't|weren't) (?:stuffed|filled)$|"
    r"(?:the |these |both )?[a-z]{2,14} (?:stays?|remains?) (?:empty|hollow)$|"
    r"(?:i|we) (?:did not|didn't|do not|don't|never) (?:stuff|fill) (?:it|them|this|these|mine|the [a-z]+)$"
)
# "The second leg stays on the hook"
STAYS_LIVE = Sought(
    ("stay", "remain", "is left", "is kept"),
    r"(?:(?:and|but|only) )?(?:the |your |this |it )?"
    r"(?:(?!(?:loops|each|every|stitch|if|when|last loop)\b)[a-z0-9]+ ){0,5}"
    r"(?:stays?|remains?|is left|is kept|will stay) (?:live|uncut|unfinished|on (?:the|your) hook)\b"
)


# "With 3 white sts at the front", "with the right side facing": a stitch or a side, and no yarn
HOLDS_STITCH = re.compile(
    r"(?:with|using) (?:(?:the|an?|one|two|three|\d{1,2}) )?(?:[a-z]+ )?(?:incs?|decs?|increases?|decreases?|bobbles?|"
    r"popcorns?|picots?|sts|stitches)\b"
)
_A_SIDE = re.compile(r"(?:with|using) (?:the )?(?:right|wrong) side\b")


# "Next quarter: a hot water bottle.", "Look him in the face before you go on": no hand moves
_NO_JOB = re.compile(
    r"next (?:week|month|quarter|issue|year|time|meeting|season)\b|look (?:him|her|it|them) (?:in|straight)\b|"
    r"see you\b|let (?:me|us) know\b|keep (?:me|us) posted|take (?:an? |some |many )?(?:photos?|pictures?|pics)\b|"
    r"give (?:it|him|her|them|yourself) (?:(?:an?|lots of|one|some|big|little) )*(?:hugs?|cuddles?|kiss(?:es)?|love|"
    r"name|pat|treat)\b|give (?:it|him|her|them) to (?:someone|somebody|a (?:child|friend)|your)\b"
)
# "Tie it to itself inside", "knot the two ends together": ends of yarn, and no part that is sewn
_KNOTS = re.compile(
    r"(?:and |then |now )*(?:tie|knot) "
    r"(?:it|them|(?:(?:the|both|two|your|loose|yarn) )*(?:ends?|tails?|threads?|strands?))"
    r" (?:to (?:itself|each other|one another)|together)\b"
)
_SHORT = 40  # letters of a sentence that tells a color and nothing else


# "3) Embroider a grille under the eyes.": the number of a job in a list of them
_ITEM = re.compile(r"^(?:\d{1,2}|[a-h]) ?[.)] ?(?=[a-z]{3})")

_INCHES = re.compile(r"(?<=\d) in\.(?= )")


def ties_ends(clause: str) -> bool:
    """ "Tie it to itself inside.": an end of yarn, by whatever verb of sewing."""
    return _KNOTS.match(clause.lower().lstrip()) is not None


_NOT_LATER = re.compile(r",? (?:and )?(?:not|no|never) (?:any )?(?:later|at the end)$")  # "Stuff here, not later."

# "after this round: yarn blue", "end: white yarn", "blue from next round": notes beside a row
_ROUND = r"(?:round|rnd|row)"
_END_IN = re.compile(
    rf"(?:after (?:this|the) {_ROUND}|(?:at )?(?:the )?end(?: of (?:this |the )?{_ROUND})?|(?:from )?(?:the )?next "
    rf"{_ROUND}(?: on)?)\s?[:,=-]\s?(?:(?:in|with|to|yarn|colou?r):? )*(?P<shade>[a-z]+(?: [a-z]+)??)(?: yarn)?"
)
_NEXT_IN = re.compile(
    rf"(?:yarn |colou?r )?(?P<shade>[a-z]+(?: [a-z]+)??)(?: yarn)? (?:from|after|in|for) (?:the next|next|this) "
    rf"{_ROUND}(?: on| onwards?)?"
)
# "the fluffy brown", "a darker green": how a yarn feels or how it differs, in front of the name of its color
_FEEL = re.compile(
    r"\b(?:fluffy|fuzzy|furry|woolly|hairy|velvet|velvety|chenille|sparkly|glittery|shiny|matt|thick|thin|chunky|bulky|"
    rf"eyelash|plush|darker|lighter|paler|brighter|cotton|acrylic|mohair) (?=(?:{'|'.join(sorted(COLOURS))})\b)"
)
_CUTS_SHADE = re.compile(
    r"(?:cut|break|snip)(?: off)? (?:the )?(?P<shade>[a-z]+(?: [a-z]+)??)(?: yarn)? "
    r"(?:after|before|at|behind|in|once) (?:the end of )?(?:r|rnd|round|row|rd)s?\.? ?\d"
)


@lru_cache(4096)
def classify(sentence: str) -> CueKind | None:
    """The kind of asking a sentence is, or None for a story, a remark, a promise."""
    lettered = _YARN_A.sub("colour a", sentence) if "A" in sentence else sentence
    whole = " ".join(lettered.lower().split()).strip(" -*:,;.!()[]\"'")
    if not whole or len(whole) > 1200:
        return None
    whole = _DONT.sub("don't", whole)
    whole = _FEEL.sub("", whole)
    if " in. " in whole:
        whole = _INCHES.sub(" in", whole)  # "leave a 6 in. tail"
    whole = _ITEM.sub("", whole)
    whole = _NOT_LATER.sub("", whole) if " later" in whole or " at the end" in whole else whole
    if worked_in(whole):
        return "colour"
    kind = few_words(whole, sentence.rstrip(" )]*\"'")[-1:] in (".", "!")) or _kind(whole)
    kind = reminded(whole) or kind if kind in (None, "other") else kind
    if kind == "other" and (sentence.rstrip(" )*\"'")[-1:] == "?" or _NO_JOB.match(whole)):
        return None
    if kind == "close" and again_and_again(whole):
        return "other"
    if kind == "fasten" and (cut := _CUTS_SHADE.match(whole)) is not None and is_colour(cut["shade"]):
        return "other"  # "Cut red after R4.": a yarn that is done with, and no end of the piece
    if kind in ("sew", "shape") and _PUTS.match(bare(whole)) and lies_inside(whole):
        return "other"  # "Put a coin at the bottom"
    if kind == "colour" and (SAME_YARN.search(whole) or HOLDS_STITCH.match(whole) or _A_SIDE.match(whole)):
        return None
    return thing_told(whole) if kind is None or (kind == "colour" and no_colour(whole)) else kind


def _kind(whole: str) -> CueKind | None:
    """The kind of a sentence in small letters, without marks at its ends, by what it orders."""
    later = FROM_NOW.fullmatch(whole) if whole.endswith(("now", "next", "again", "here", " on")) else None
    if is_colour(whole) or (later and (is_colour(later[1]) or SOME_COLOUR.fullmatch(later[1]))):
        return "colour"
    if whole.endswith(" instead") and len(whole) < _SHORT and _kind(whole[: -len(" instead")]) == "colour":
        return "colour"  # "Use cream instead."
    one = NAMES_ONE.fullmatch(whole)
    if one is not None and is_colour(one["dropped"] or one["one"] or one["carried"]):
        return "colour"
    onward = _NEXT_IN.fullmatch(whole) or _END_IN.fullmatch(whole)
    if onward is not None and is_colour(onward["shade"]):
        return "colour"
    if from_to(whole) or last_pull(whole) or is_patterned(whole) or held_together(whole):
        return "colour"
    here = IS_FROM_HERE.fullmatch(whole) if "from " in whole else None
    if here and is_colour(here["shade"] or here["late"]):
        return "colour"
    fills = any(word in whole for word in ("stuff", "fill", "cotton", "empty", "hollow"))
    if (fills and (STAYS.match(whole) or STAYS_EMPTY.match(whole) or _needs_none(whole))) or LEVELS.match(whole):
        return "other"
    if MUST_HAVE.match(whole):
        return "count"
    if _KNOTS.match(whole):
        return "other"
    if (named := noun_job(whole)) is not None:
        return named
    turned = verb_first(whole)
    if turned is not None:
        return classify(turned)
    if "eye" in whole and ((EYES_ARE.match(whole) and not PAST.match(whole)) or EYES_NOW.match(whole)):
        return "eyes"
    if fills and HERE_STUFFED.match(whole):
        return "stuff"
    if STAYS_LIVE.match(whole):
        return "hold"
    done = HERE_DONE.match(whole) if "i " in whole or "we " in whole else None
    if done is not None:
        return classify(f"{NOW_DO[done['verb']]} {done['what']}") or "other"
    doing = _told_doing(whole) if "i " in whole or "we" in whole else None
    if doing is not None:
        return doing
    if PLACED.match(whole) or PLACED_ONE.match(whole):
        return "sew"
    yarn = JOINS_YARN.match(whole) or JOINS_TO.match(whole)
    if yarn is not None and is_colour(yarn["yarn"]):
        return "colour"
    opening = OPENS_WITH.match(whole)
    if opening and (is_colour(opening["colour"]) or not NO_SHADE.search(opening["colour"])):
        return "colour"
    begun = BEGUN_IN.fullmatch(whole)
    if begun and is_colour(begun["colour"]):
        return "colour"
    text = bare(whole)
    lead = whole[: len(whole) - len(text)]
    if "eyes" in lead and _THEM_IN.match(text):
        return "eyes"
    told = STORY.match(text) or ((not lead or whole.startswith("you")) and STORY.match(whole))
    if told or (lead and TELLS.match(lead)) or NOTHING.match(text):
        return "stuff" if STUFFED.match(text) else "colour" if colour_talk(whole) else None
    if _ABOUT_STUFFING.match(text):
        return "stuff"
    topic = TOPIC.match(text)
    if topic and topic.end() < len(text):
        text = bare(text[topic.end() :])
    if re.match(r"using|with\b", text) and not re.search(r"\b(?:sew|embroider|stitch|close|weave|make)\b", text):
        colour = re.match(
            r"(?:using|with|in) (?!.*\b(?:tails?|ends?|hook|hands?|needle|sides?|facing|rs|ws|pins?|floss|rows?|"
            r"rounds?|rnds?|together|arms?|legs?|wings?|ears?|fins?|body|head|inc|incs|dec|decs|sc|[hd]?dc|htr|"
            r"increases?|decreases?|bobbles?|popcorns?|picots?|puffs?|clusters?|loops?|markers?|"
            r"r \d|spirals?|care|go|rib\w*|[bf]lo|mesh|stitches|one|mind|all|total|turns?|tension)\b)"
            r"[a-z0-9 ]{1,30}$", text
        )
        return "other" if _A_COPY.match(text) else "colour" if colour else None
    kind = ruled(text) or (ruled(bare(whole)) if topic else None)
    if kind is not None:
        return kind
    if lead.startswith("now") and is_colour(text):
        return "colour"
    if colour_talk(whole) or (lead and colour_talk(text)):
        return "colour"
    last = VERB_LAST.fullmatch(text)
    if last and not NO_ORDER.search(last["what"]):
        return classify(f"{last['verb']} {last['what']}")
    if (HANDS.match(text) and _TRADE_NOUN.search(text)) or MINDS.match(text) or _MAKES.match(text):
        return "other"
    meant = _respelt(whole) or _respelt(text) or _done(whole)
    return classify(meant) if meant else None


def _needs_none(whole: str) -> bool:
    """ "The legs don't need to be stuffed.", "Legs need no stuffing.", and nothing else in the sentence."""
    none = NEEDS_NONE.search(whole) if len(whole) < _SHORT * 2 and "," not in whole else None
    return none is not None and len(whole) - none.end() < _SHORT // 2 and ruled(bare(whole)) in (None, "stuff", "other")


_COMPANY = re.compile(r"\b(?:i|my|mine|me|photo\w*|picture\w*|sample|pattern|yesterday|years?|not|if|or|so that)\b")


def _done(whole: str) -> str:
    """The order of what is told as done: "The opening was then closed", "Closed it"; empty for a story."""
    if _COMPANY.search(whole):
        return ""
    done = WAS_DONE.fullmatch(whole)
    if done is not None and done["what"] not in ("it", "he", "she", "they", "this", "that", "there"):
        return f"{DONE_TO[done['verb']]} {done['what']}{done['rest']}"
    own = ONESELF.fullmatch(whole)
    return f"{NOW_DO[own['verb']]} {own['rest']}" if own is not None and own["verb"] not in ("put", "left") else ""


# What is told of oneself and still asks, where it says when: the kinds that no story is made of
_TOLD_KINDS = frozenset(
    [
        "stuff", "eyes", "close", "fasten", "tail", "weave", "embroider", "sew", "shape", "colour", "join", "hold",
        "marker",
    ]
)  # fmt: skip


def _told_doing(whole: str) -> CueKind | None:
    """ "Now I embroider the face", "I put the eyes between R12 and R13": told of oneself, and asked for there."""
    told = TOLD_DOING.match(whole)
    if told is None or not (told["where"] or SAYS_WHEN.search(told["rest"])) or NOT_ASKED.search(whole):
        return None
    kind = classify(f"{NOW_DO.get(told['verb'], told['verb'])}{told['rest']}")
    return kind if kind in _TOLD_KINDS else None


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
    verb = _meant(word)
    return f"{lead}{verb}{rest}" if verb else ""


@lru_cache(REMEMBERED)
def _meant(word: str) -> str:
    """Such a verb that a word is a slip of; empty where it is none."""
    return next((verb for verb in _NOT_MISSED if abs(len(verb) - len(word)) < 2 and slip(word, verb)), "")
