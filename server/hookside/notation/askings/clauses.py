"""Askings in the middle of a course: where a clause can only be one, and which colour it changes to."""

from __future__ import annotations

import re

from hookside.colours import COLOURS, SHADES
from hookside.notation.askings.colournames import from_to, is_colour
from hookside.notation.askings.things import INSIDE

# What chains may be that hang from what is there, wherever they are told
HANGING = (
    r"(?:root|stem|stalk|tie|cord|string|hanger|hanging|loop|tail|whisker|vine|antenna|tendril|curl|twig|lead|leash|"
    r"ribbon)"
)
# "put in the eyes", "put on the ears": no stitches that are put in
PUTS_IN = (
    r"put (?:in|on) (?:(?:the|your|both|two|some|an?) )*(?:(?:safety )?eyes?|nose|markers?|stuffing|filling|"
    rf"ears|arms|legs|wings|beads?|{INSIDE})\b"
)
# "Chain 10 for the root", "then make 15 ch for a loop". No straps and handles: those may be worked on in the course
HANGS = (
    r"(?:(?:make|work|crochet|with [a-z]{3,12},?) )?(?:an? )?(?:ch(?:ain)?(?: of)? ?\d{1,3}|\d{1,3} ch(?:ain)?s?)\b,? "
    rf"(?:for|to (?:make|form)) (?:an?|the|its|his|her) (?:[a-z]{{3,12}} )?{HANGING}s?\b"
)
# "dec x 9 (after stuffing)", "R9 (once stuffed): ...", "dec x 9, stuffing first": to be done before the round is begun
FILLED_AHEAD = re.compile(
    r"\W{0,3}(?:(?:only )?(?:after|once|when)(?: [a-z']+){0,2} (?:stuffed|stuffing)\b(?: firmly| well)?\W{0,3}|"
    r"(?:stuff|stuffing)(?: [a-z]+)? first(?![ a-z])\W{0,3})",
    re.I,
)
_COLOURS = "|".join(sorted(COLOURS, key=len, reverse=True))
_SHADES = "|".join(sorted(SHADES))
# A clause in the middle of a course that can only be an asking. Matched at the clause's first letter.
CLAUSE = re.compile(
    r"(?:and |then |now |also |lightly |firmly |slightly )*(?:"
    r"(?:chang(?:e|ing)|switch(?:ing)?|swap(?:ping)?)\b(?: back)?(?: over)? (?:to|colou?rs?|into|yarn|in)\b|"
    r"alternat(?:e|ing) (?:between )?(?:\d|one|two|three|four|single) (?:rows?|rounds?|rnds?) "
    r"(?:each )?(?:of |in |with )?"
    r"(?!sc\b|[hd]?dc\b|h?tr\b|single|double|half|treble|plain|inc|dec|\d)[a-z]|"
    r"(?:slip|put|place|push|tuck|lay) (?:the |an? |your )?(?!sts?\b|stitch)[a-z]+(?: [a-z]+){0,2} inside\b|"
    r"(?:fasten(?:ing)?|finish(?:ing)?|bind|cast|tie) off\b|f[./]?o\b(?!ur)|"
    r"(?:start|begin)(?:ning|ing)? with an? (?:[a-z]+ )?long (?:tail|end|thread)\b|"
    r"fasten(?:ing)? (?:the |your )?(?:yarn|thread)\b|hide(?: it| them)?(?=\s*(?:[.,;]|$))|"
    r"cut(?:ting)? (?:the |your |off )?(?:yarn|thread|working|[a-f]\b)|break (?:off )?(?:the )?yarn|"
    r"leav(?:e|ing)\b(?! (?:the )?(?:rem|rest|last|next|\d(?!\d* ?(?:cm|mm|inch))|"
    r"\w+ (?:sts?|stitches) un|unworked|other))|"
    r"(?:begin |start |continue |keep )?(?:to )?stuff(?:ing)?\b|"
    r"(?:begin|start) (?:to )?pad(?:ding)?\b|finish (?:the |all )*ends\b|enter the (?:thread|yarn|tail|end)\b|"
    r"(?:do not|don'?t) (?:stuff|fasten|cut|break|turn|"
    r"join|finish|over)\b|fill\b|add (?:more )?(?:stuffing|filling)|"
    r"(?:add|push|pack|putt|tuck)ing\b[^,.;]{0,24}\b(?:stuffing|filling|fib(?:re|er)fill|wadding)\b|"
    r"(?:insert|add|attach|place|put|fix|position|pop|push|snap)\w* (?:in )?(?:the |your |both |two |\d+ ?mm |"
    r"safety )*(?:safety )?(?:eyes?|nose)\b|"
    r"(?:place|put|move|add|insert|attach|use)\w* (?:a |the |your |stitch |st )*(?:marker|pm|sm)\b|pm\b|(?:place|"
    r"move)\w*\b[^,.;]{0,30}\bmarker\b|mark (?:rounds?$|row$|the|this|first|last|end|beginning|start|each|every)\b|"
    r"weav(?:e|ing) (?:in\b|(?:the |your |this |it |yarn |long )*(?:tails?|ends?|yarn|thread|through)\b)|"
    r"(?:run|draw|pull|pass)(?:n?ing)? (?:the |your |this |it |yarn |long |up |in )*(?:tails?|ends?|yarn|"
    r"thread|through|"
    r"tight|together|hole|opening|shut|closed)\b|"
    r"(?:bury|whip ?stitch|darn)\b|(?:draw|pull) (?:the |up )*(?:last|remaining|rem) |"
    r"put the\b[^,.;]{0,20} (?:inside|in)\b|slip the\b[^,.;]{0,20} inside\b|hid(?:e|"
    r"ing) (?:the )?(?:ends?|tails?|threads?)|(?:close|closing)\b|"
    r"sew(?:ing)?\b|pin\b|embroider\b|flatten\b|fold\b|pinch\b|press\b|cinch\b|gather\b|"
    r"join(?:ing)? (?:in )?(?:new |the new |next |the |your )?"
    r"(?:(?:(?:1st|2nd|3rd|first|second|third|main|other|contrast(?:ing)?) )?(?:yarn|thread|wool|colou?r|col|shade)\b|"
    rf"[a-f]\b|[a-z]\b(?=\s*(?:[.,;]|$))|(?:(?:{_SHADES}|dk)[ -])*(?:{_COLOURS})\b|"
    r"(?:sky|dark|light)\b(?=\s*(?:[.,;]|$)))|"
    rf"tie on (?:the )?(?:{_COLOURS})\b|"
    r"(?:re-?)?attach(?:ing)?\b|re-?join(?:ing)? (?:the |your )?yarn\b|"
    r"drop(?:ping)? \b|pick(?:ing)? up\b|carry(?:ing)?\b|"
    r"remove (?:the |your )?(?:hook|marker)|set(?:ting)? (?:it |this |the piece |piece |work )?aside\b|"
    rf"put[^,.;]{{0,30}} aside|{PUTS_IN}|"
    r"turn(?:ing)? (?:the |your )?(?:work|piece|it)? ?(?:inside|right side) ?out|thread\b|"
    r"count\b(?! \d{1,3}(?:,| and\b| then\b) ?\w)|check\b|"
    rf"{HANGS}"
    r")"
)

_WITH = re.compile(
    r"(?:(?:and|now|next|then) )?(?:change|switch|swap|join|attach|add|pick up|return|go back)\w*\b(?: back)?(?: to|"
    r" in| with)?(?: the)? ?(?:new )?(?:yarn |colou?r )?([a-z0-9 ]{1,24})"
)
# "back to white", "now pink", "white again", "to the main colour": a colour without a verb
_VERBLESS = re.compile(
    r"(?:(?:and|then|next|again) )?(?:(?:now |again )?(?:back )?(?:to|in|into|with|using) |now |back )(?:the )?"
    r"(?P<to>[a-z ]{1,24}?)(?: again| now)?|(?:(?:and|then) )?(?:the )?(?P<again>[a-z ]{1,24}?) (?:again|now)"
)
_LEAVES = re.compile(r"\b(?:chang|switch|swap|drop|return|back (?:to|in)\b)")


def new_colour(text: str) -> str | None:
    """The colour a colour cue changes to, when it names one in a word or two."""
    low = " ".join(text.lower().split()).strip(" .,;:()[]")
    match = _WITH.match(low)
    if not match:
        if (new := from_to(low)) is not None:
            return new
        bare = _VERBLESS.fullmatch(low)
        name = (bare["to"] or bare["again"]) if bare else ""
        letter = len(name) == 1 or name in ("mc", "cc")
        return (name.upper() if letter else name) if letter or is_colour(name) else None
    words = [w for w in match[1].split() if w not in ("yarn", "colour", "color", "the", "to", "new")]
    stop = next(
        (
            i
            for i, w in enumerate(words)
            if w in ("in", "at", "on", "for", "from", "and", "with", "when", "before", "after", "during")
        ),
        len(words),
    )
    name = " ".join(words[:stop])
    if name in ("back", "back again"):
        return None  # "switch back": to the one before, whichever that was
    # "change to B": the letter of a yarn
    return (name.upper() if len(name) == 1 or name in ("mc", "cc") else name) or None


def leaves_colour(text: str) -> bool:
    """ "Back to the first one", "drop pink", "change colours": what was in hand is not what comes, whatever that is."""
    return _LEAVES.search(text.lower()) is not None
