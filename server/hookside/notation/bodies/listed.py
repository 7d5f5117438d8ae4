"""Increases told by the numbers of their stitches: "inc in the 1st, 5th and 9th st, sc in all others"."""

from __future__ import annotations

import re

from hookside.notation.bodies.chunks import Place
from hookside.notation.bodies.shaping import Shaping
from hookside.notation.vocabulary import ORDINAL_WORDS

_NTH = rf"(?:\d{{1,3}}(?:st|nd|rd|th)|{'|'.join(ORDINAL_WORDS)})"
_AND = r"(?:\s+(?:st|stitch))?(?:\s*,\s*and|\s*,|\s+and|\s*&)\s*(?:the\s+|in\s+the\s+)?"
_LIST = (
    rf"(?:in|into|at|on)\s+(?:(?:the\s+)?(?P<nths>{_NTH}(?:{_AND}{_NTH}){{0,11}})(?:\s+(?:sts?|stitch(?:es)?|sc|dc))?"
    r"|(?:sts?|stitch(?:es)?)\s+(?P<numbers>\d{1,3}(?:(?:\s*,\s*and|\s*,|\s+and|\s*&)\s*\d{1,3}){0,11}))(?![\w-])"
)
_INC = r"(?:work\s+)?(?:an?\s+)?(?:inc|increas(?:e|ing)|2 (?:sc|dc))\s+(?:1\s+|one\s+)?"
_PLAIN = r"(?:1 )?(?P<{}>sc|[hd]?dc|htr)\s+"
_LISTED_TOO = _LIST.replace("nths", "nths2").replace("numbers", "numbers2")
_LISTED = re.compile(
    rf"(?:{_PLAIN.format('lead')}(?:in\s+(?:each|every|all)\s+(?:st|stitch|sc|sts|dc)\b(?:\s+(?:a?round|across))?|a?round)"
    rf"\s*[,;]?\s*(?:and\s+|with\s+|but\s+)?{_INC}{_LIST}|{_INC}{_LISTED_TOO}"
    rf"\s*[,;]?\s*(?:and\s+|then\s+)?{_PLAIN.format('tail')}in\s+(?:all\s+|each\s+)?(?:of\s+)?(?:the\s+)?"
    r"(?:others?\b(?:\s+sts|\s+stitches)?|rest\b|remaining\b(?:\s+sts|\s+stitches)?))",
)


_OTHERS = re.compile(r"\b(?:others?|rest|remaining|remainder)\b")


class Listed(Shaping):
    """Takes such a sentence where it is a whole round."""

    def unlisted(self) -> tuple[int, int] | None:
        """ "dec in the 3rd st, sc in the others", not read as such a list: no stitch must be passed on the way."""
        others = _OTHERS.search(self.low)
        before = 0
        for chunk in self.out.chunks if others else []:
            before += chunk.type == "ST"
            if chunk.type in ("PLACE", "ANDPLACE") and chunk.value.kind == "order":
                return others.span() if others and before == 1 and chunk.end < others.start() else None
        return None

    def listed(self, at: int) -> int | None:
        """Plain stitches up to each of the numbers told, an increase there, plain stitches to the end."""
        match = _LISTED.match(self.low, self.toks[at].start)
        if match is None:
            return None
        words = match["nths"] or match["nths2"]
        told = re.findall(r"\d+|[a-z]+", words or match["numbers"] or match["numbers2"])
        places = [int(w) if w.isdecimal() else ORDINAL_WORDS[w] for w in told if w.isdecimal() or w in ORDINAL_WORDS]
        if any(b <= a for a, b in zip([0, *places], places, strict=False)):
            return None
        if len(places) == 1 and match["lead"] is None:
            return None  # "inc in first st, sc in the rest" is read word by word
        span = match.span()
        here = self.token_after(match.start("lead" if match["lead"] else "tail"), at)
        key = self.toks[here].key or "sc"
        before = 0
        for n in places:
            if n - before > 1:
                self.emit("ST", key, *span)
                self.emit("PLACE", Place("next", n=n - before - 1, start=span[0], end=span[1]), *span)
                self.emit("SEP", ",", *span)
            self.emit("ST", "inc", *span)
            self.emit("SEP", ",", *span)
            before = n
        self.emit("ST", key, *span)
        self.emit("PLACE", Place("fill", start=span[0], end=span[1]), *span)
        return self.token_after(match.end(), at)
