"""Words that are nothing but the name of a colour, or bring one in."""

from __future__ import annotations

import re

from hookside.colours import COLOURS, SHADES

# The name of a color, or the letter of a yarn
SHADE = (
    rf"(?:(?:{'|'.join(sorted(SHADES))}) )*(?:{'|'.join(sorted(COLOURS, key=len, reverse=True))})\b|"
    r"(?:yarn |colou?r )?(?-i:[A-H])\b"
)
# "Join plum in a free front loop of R24"
JOINS_YARN = re.compile(
    r"(?:now |then |next )?(?:(?:re-?)?join|attach|tie|pull up a loop of)(?:ing)?(?: in| on)? (?:the )?"
    r"(?P<yarn>[a-z ]{3,24}?)(?: "
    r"yarn| thread| wool)? "
    r"(?:in|to|into|at|onto|with|on|through|around)\b"
)
# "Join to teal and make the body"
JOINS_TO = re.compile(
    r"(?:re-?)?join(?:ing)?(?: to| in| on)? (?:the )?(?P<yarn>[a-z ]{3,20}?)(?: yarn)?"
    r"(?= and\b| then\b|,|$)"
)
# "Using grey, make a magic ring"
OPENS_WITH = re.compile(
    r"(?:with|using|in) (?:the )?(?P<colour>[a-z0-9 ]{1,30}?),? (?:make|form|start|begin|work)\b[^.]{0,30}"
    r"\b(?:ring|circle|loop)\b"
)
# "We begin at the snout with brown yarn.", "Start from the tip in white", "She is begun at the top, in grey"
BEGUN_IN = re.compile(
    r"(?:(?:now|here|so|as always),? )?(?:(?:we|you|i|she|he|it|they|let's|(?:the|this|each|every) [a-z]{3,12})"
    r"(?:'ll|'re|'m| will| am| are| is)? (?:(?:always|usually|just) )?)?"
    r"(?:start(?:s|ed|ing)?|beg[iau]n(?:s|ning|ing)?) (?:out )?"
    r"(?:(?:at|from|on) (?:the )?|the |this |each |his |her |my |our |your )[a-z ]{2,40}?,? "
    r"(?:with|in|using) (?:the |some )?(?P<colour>[a-z]+(?: [a-z]+)?)(?: again| first)?"
)
# "Brown now."
FROM_NOW = re.compile(r"(?:only )?([a-z ]{3,30}?|(?:yarn|colou?r) [a-h]) (?:now|next|again|from (?:here|now)(?: on)?)")
# "Underwear colour from here": a shade by whatever name
SOME_COLOUR = re.compile(r"(?!the |new |same |next |change |other |each |every )[a-z]{3,14} (?:colou?r|yarn)")
# "Continue with the same yarn": nothing changes
SAME_YARN = re.compile(r"\b(?:the )?same (?:yarn|colou?r|thread|wool)\b(?! as\b)")
# "Drop the blue", "Thread white"
NAMES_ONE = re.compile(
    r"(?:drop|leave off|lay aside) (?:the )?(?P<dropped>[a-z]+(?: [a-z]+)?)|"
    r"(?:thread|wool|tie (?:on|in)(?: the)?) (?P<one>[a-z]+)|"
    r"carry(?:ing)? (?:the )?(?P<carried>[a-z]+(?: [a-z]+)?) (?:along|up|inside|behind)"
)
# "From here on it is white for his face.", "The face is all white from here."
_WHAT = (
    r"(?:it|they|he|she|everything|all(?: of it)?|the [a-z]+)(?:'s| is| are|'ll be| will be) "
    r"(?:all |in |worked in |now )*"
)
_HERE = r"from (?:here|now|this point)(?: on(?:wards)?)?"
IS_FROM_HERE = re.compile(
    rf"{_HERE},? {_WHAT}(?P<shade>[a-z]+(?: [a-z]+)?)(?: (?:for|until|to|up to) .*)?"
    rf"|{_WHAT}(?P<late>[a-z]+(?: [a-z]+)?),? {_HERE}"
)
# "From lilac to grey", "white to grey, and eyes now", "swap the grey for pink", "B -> A"
_FROM_TO = re.compile(
    r"(?:from )?(?:yarn |colou?r )?(?P<old>[a-z]+(?: [a-z]+)?)(?: to | ?[-=]{0,2}> ?)(?:yarn |colou?r )?"
    r"(?P<new>[a-z]+(?: [a-z]+)?)|"
    r"(?:now |then |here )?(?:swap|change|exchange|trade|replace) (?:the |your )?(?P<given>[a-z]+(?: [a-z]+)?) "
    r"(?:for|by|with) (?:the )?"
    r"(?P<got>[a-z]+(?: [a-z]+)?)|"
    r"(?:cut|drop|break(?: off)?|leave|lay aside) (?:the )?(?P<left>[a-z]+(?: [a-z]+)?)(?: yarn)?[;,:.] ?"
    r"(?:and |then )*(?:(?:join|attach|with|in|use|take(?: up)?|pick up|add|on with) )?"
    r"(?:the )?(?P<taken>[a-z]+(?: [a-z]+)?)(?: yarn)?"
)
_SIGNS = (" to ", " for ", ">", ";", ",", ":", ".", "replace ")
_TWO_LETTERS = re.compile(r"[a-h][a-h]")


def from_to(whole: str) -> str | None:
    """The color that comes behind another one, where a text in small letters names both and nothing else."""
    told = _FROM_TO.fullmatch(whole) if any(sign in whole for sign in _SIGNS) else None
    if told is None:
        return None
    old, new = told["old"] or told["given"] or told["left"], told["new"] or told["got"] or told["taken"]
    if _TWO_LETTERS.fullmatch(old + new) is not None and old != new:
        return str(new).upper()
    return str(new) if is_colour(old) and is_colour(new) else None


NO_SHADE = re.compile(r"\b(?:\d|hook|needle|fingers?|tail|ends?|loop|method|care|thumb|hands?|a|an|your|it|this)\b|\d")
_NAMES = COLOURS | SHADES
_SKIN = frozenset(["skin", "yarn", "colour", "color", "and", "main", "contrast", "mc", "cc"])


# "Yarn A", "colour 2"
_LETTERED = re.compile(
    r"(?:main |contrast(?:ing)? |second )?(?:yarn|colou?r|col|shade|thread) (?:[a-z]|\d{1,4}|one|two|three|four|five)|"
    r"cc?\d"
)


_WORD = re.compile(r"[a-z]+")
_DIGIT = re.compile(r"\d")
_STRANDS = frozenset(["thread", "wool", "cotton"])  # "Orange thread:"; by themselves they name no yarn
# "white fluffy yarn", "brown mohair": words beside a color that tell what yarn it is
KINDS_OF_YARN = re.compile(
    r"\b(?:yarn|thread|wool|cotton|acrylic|colou?r|fluffy|fuzzy|furry|(?:faux )?fur|chunky|bulky|thick|thin|chenille|"
    r"velvet|mohair|eyelash|plush|sparkly|shiny|glittery?|woolly|dk|aran|worsted|sport|fingering)\b",
    re.I,
)


def is_colour(text: str) -> bool:
    """ "Navy:", "(light grey)": nothing but the name of a colour."""
    low = text.lower()
    if _LETTERED.fullmatch(low.strip(" -*:,;.!()[]\"'")):
        return True
    words = _WORD.findall(low) if len(text) <= 40 else []
    return (
        bool(words)
        and words not in (["and"], ["off"])
        and all(w in COLOURS or w in SHADES or w in _SKIN or (w in _STRANDS and words[0] in _NAMES) for w in words)
        and not _DIGIT.search(text)
    )


_BEHIND_NAME = re.compile(r"[,;(\[]| -|[ ]\d")
_WORKED = re.compile(
    r"\b(?:sc|[hd]?dc|h?tr|inc|dec|mr|ring|tog|ss|ch|rounds?|rnds?|rows?|times|sts?)\b|\dx|x ?\d", re.I
)


def told_of_yarn(text: str) -> bool:
    """ "grey, 20 g", "oat (one ball)": a colour, and how much of it; not "grey, 20 sc"."""
    name, *rest = _BEHIND_NAME.split(text, maxsplit=1)
    return is_colour(KINDS_OF_YARN.sub("", name)) and (not rest or not _WORKED.search(rest[0]))


# "Made in brown.", "All in brown", "Entirely brown.", "Worked from the top down in brown.", "Brown throughout"
_WHOLLY = re.compile(
    r"(?:(?:all|entirely|completely|wholly|made|worked|crocheted)(?: (?:all|entirely|completely|throughout))?"
    r"(?: from the [a-z]+(?: [a-z]+){0,4}?)?,?(?: (?:in|with|of))?) (?P<shade>[a-z]+(?: [a-z]+)?)(?: throughout)?|"
    r"(?:in )?(?P<all>[a-z]+(?: [a-z]+)?)(?: yarn)? (?:throughout|all over|all the way)"
)
# "Using 3 mm hook and brown", "brown DK, hook 3 mm": a yarn, and with which hook
_HOOK = (
    r"(?:an? |the )?(?:\d(?:[.,]\d{1,2})? ?(?:mm )?(?:crochet )?hook|"
    r"hook (?:size |no\.? )?\d(?:[.,]\d{1,2})?(?: ?mm)?)"
)
_AND_HOOK = re.compile(
    rf"(?:(?:using|with|in|use) )?(?:{_HOOK}(?:,| and)(?: with| in)? (?P<shade>[a-z]+(?: [a-z]+){{0,2}})|"
    rf"(?P<first>[a-z]+(?: [a-z]+){{0,2}})(?:,| and)(?: (?:with|using))? {_HOOK})"
)


def worked_in(whole: str) -> bool:
    """Does a text in small letters tell one color for all of a part, or a color and the hook, and nothing else?"""
    told = _WHOLLY.fullmatch(whole)
    if told is not None:
        return is_colour(KINDS_OF_YARN.sub("", told["shade"] or told["all"]))
    hooked = _AND_HOOK.fullmatch(whole) if "hook" in whole else None
    shade = KINDS_OF_YARN.sub("", hooked["shade"] or hooked["first"]).strip() if hooked is not None else ""
    return is_colour(shade) or (len(shade) == 1 and shade in "abcdefgh")


_AMONG_SHADES = _NAMES | _SKIN | frozenset(
    [
        "then", "with", "all", "but", "except", "in", "first", "until", "till", "from", "to", "round", "rounds", "rnd",
        "rnds", "row", "rows", "r", "stripe", "stripes", "striped", "pattern", "repeat", "again", "which", "are", "is",
        "the", "rest", "other", "others", "on", "up", "of", "now", "last", "next", "start", "end", "everything",
        "throughout", "only", "mainly", "mostly", "one", "two", "three", "four",
    ]
)  # fmt: skip
_LONGEST = 90  # letters of a line that is nothing else


def only_shades(text: str) -> bool:
    """ "Blue, then white", "All green but rounds 4 and 5, which are red": colors, two or more, and no thing."""
    words = _WORD.findall(text.lower()) if len(text) <= _LONGEST else []
    shades = {word for word in words if word in COLOURS}
    return len(shades - _SKIN) > 1 and all(word in _AMONG_SHADES for word in words)


STRIPED = (
    r"(?:strip(?:es?|ed|ing|y)|bands?|dots?|spots?|checks?|speckles|flecks|tips?|toes|trim(?:ming)?|edg(?:es?|ing))"
)
_TWO_OF = (
    rf"(?P<one>[a-z]+(?: [a-z]+)?)(?:,? (?:with|and)|/|,)(?: an?| some| two| three)? ?"
    rf"(?P<other>[a-z]+(?: [a-z]+)?) {STRIPED}|{STRIPED}(?: of| in|:|,) (?P<a>[a-z]+(?: [a-z]+)?)"
    rf"(?:,? and|/|,) ?(?P<b>[a-z]+(?: [a-z]+)?)"
)
_PATTERNED = re.compile(
    rf"(?:(?:the )?(?:colou?rs?|yarn) ?[:=-] ?)?(?:(?:work|make|crochet) (?:this|it|the) ?[a-z]*? ?)?(?:(?:all )?in )?"
    rf"(?:{_TWO_OF})"
)
_IN_TURN = re.compile(
    r"\s(?:in|with) (?P<told>(?P<one>[a-z]+(?: [a-z]+)?),? (?:and then|then|changing to|until|up to|for)\b[^.;]{3,50})"
    r"\s*[:.]?\s*$",
    re.I,
)
_IN_TWO = re.compile(rf"\s(?:in|with) (?P<told>{_TWO_OF})\s*[:.]?\s*$", re.I)


def is_patterned(text: str) -> bool:
    """ "Blue with white stripes", "stripes of red and white": two colours, and nothing of what is worked in which."""
    match = _PATTERNED.fullmatch(" ".join(text.lower().split()).strip(" -*:,;.!()[]\"'"))
    return match is not None and all(is_colour(name) for name in match.groups() if name)


def in_two(text: str) -> tuple[int, int, int] | None:
    """ "Hat in blue with white stripes", "Ball in blue, then white from R3" -> (where the colours begin, where they
    end, where the name ends)."""
    match = _IN_TWO.search(text)
    known = match is not None and is_patterned(match["told"])
    if not known:
        match = _IN_TURN.search(text)
        known = match is not None and is_colour(match["one"])
    if match is None or not known:
        return None
    return *match.span("told"), match.start()
