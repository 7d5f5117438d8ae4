"""How many copies a line below a name asks for in few words: "Work 2, mirrored.", "Four of them", "Both alike."."""

from __future__ import annotations

import re

from hookside.notation.askings.colournames import is_colour
from hookside.notation.vocabulary import SEVERAL_WORDS, number_of

_LONGEST = 60  # letters of such a line
_N = rf"(?P<{{0}}>\d{{{{1,2}}}}|{SEVERAL_WORDS})"
_ALIKE = (
    r"(?:,? ?(?:and )?(?:of (?:them|these|those)|all|both|one|alike|identical|the same|mirrored|mirroring|reversed|"
    r"they(?: are|'re) (?:all |both )?(?:alike|identical|the same)|"
    r"(?:all |both )?(?:in |of )?(?:the same|one) (?:colou?r|yarn|size)|(?:in )?[a-z]{3,} (?:yarn|cotton|wool|thread)|"
    r"(?:the )?same (?:thing|way)(?: twice| both times)?|"
    r"mirror images?|pieces|pcs|copies|in all|in total|altogether|total|"
    r"(?:in|from|with) (?!each|every|the|next|first|same|one\b|a\b|an\b|mr\b|magic|ring|all|back|front|it\b)"
    r"[a-z]{3,}(?: (?!ring|loop|st)[a-z]{3,})?))*"
)
_MANY = re.compile(
    rf"\W{{0,3}}(?:(?:(?:every(?:one|body)|each of us|you|we|i|please|now|to|and) )*"
    rf"(?:works?|do|made|makes?|crochets?) {_N.format('n')}{_ALIKE}|"
    rf"(?:(?:and|you(?:'ll| will)?|we|to|have) )*(?:want|need|be) {_N.format('n2')}{_ALIKE}|"
    rf"{_N.format('n3')} of (?:them|these|those){_ALIKE}|"
    rf"{_N.format('n4')},? (?:alike|identical|mirrored|(?:all )?the same(?: (?:colou?r|yarn|size))?){_ALIKE}|"
    rf"{_N.format('n5')},? in (?:the )?(?P<shade>[a-z]{{3,12}})(?: (?:yarn|wool|cotton|thread))?|"
    rf"(?:(?:the )?(?:number|no\.?|quantity|qty\.?|amount|copies|pieces)(?: (?:to (?:make|work)|needed|required|"
    rf"of (?:pieces|copies|these|parts)))?|how many) ?[:=]? ?(?:x ?)?{_N.format('n6')}{_ALIKE}|"
    rf"(?:x ?)?{_N.format('n7')} ?(?:x|pieces|pcs\.?|copies){_ALIKE}|"
    r"(?P<pair>(?:(?:work|make|crochet|do) )?(?:a|one) (?:matching )?pair(?: of (?:them|these|those))?)|"
    rf"(?:(?:you|we)(?: (?:have|need) to)? )?(?:work|make|crochet)(?: it)? "
    rf"(?:twice|{_N.format('n8')} times)(?P<often>)|"
    r"(?:then )?(?:repeat|do|make|work|crochet)(?: (?:it|this|all this|the same))*(?: again)? (?:for )?(?:the |an? )?"
    r"(?:second|2nd|other) [a-z]{3,}(?: (?:in )?the same(?: way)?| alike)?(?P<other>)|"
    r"(?P<both>(?:(?:work|make|crochet|do) )?both (?:(?:are|of (?:them|these)|worked|made) )*"
    r"(?:exactly )?(?:alike|the same|identical(?:ly)?)))\W{0,3}",
    re.I,
)
_CALLED = re.compile(r"(?:in |colou?r:? )")
_NO_SHADES = frozenset(["ring", "loop", "circle", "each", "every", "next", "all", "rows", "rounds", "total", "turn"])
_FEW_WORDS = frozenset(["two", "three", "four", "five", "six"])
_HINTS = (
    " in ", "pair", "work", "do ", "made", "make", "crochet", "want", "need", " of the", " of tho", "alike", "ident",
    "mirror", "same", "times", "twice", "second", "2nd", "other ",
    "num", "no", "quan", "qty", "amount", "copies", "pieces", "pcs", "x,",
)  # fmt: skip


def many_below(text: str) -> int:
    """The copies it asks for; 0 for any other line, and for what works stitches."""
    if len(text) > _LONGEST:
        return 0
    low = text.lower()
    if "," in text and is_colour(_CALLED.sub("", text.rsplit(",", 1)[1].strip(" .:!)]").lower())):
        text = text.rsplit(",", 1)[0]
    if low.strip(" .:!()") in _FEW_WORDS:
        return number_of(low.strip(" .:!()"))
    told = _MANY.fullmatch(text.strip()) if any(hint in low for hint in _HINTS) else None
    if told is None or (told["shade"] is not None and told["shade"].lower() in _NO_SHADES):
        return 0
    if any(told[way] is not None for way in ("both", "pair", "other")):
        return 2
    if told["often"] is not None:
        return number_of(told["n8"] or "two")
    return number_of(next(told[n] for n in ("n", "n2", "n3", "n4", "n5", "n6", "n7") if told[n]))
