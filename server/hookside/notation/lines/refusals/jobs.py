"""A line refused for its job: what is done to a part, or between two rounds."""

from __future__ import annotations

import re

from hookside.notation.askings.askings import askings
from hookside.notation.askings.clauses import CLAUSE
from hookside.notation.askings.grammar import begins_with_act, ordered
from hookside.notation.askings.kinds import classify
from hookside.notation.askings.short import named_behind, named_jobs
from hookside.notation.lines.heads.framedjob import framed_job
from hookside.notation.lines.heads.parts import is_part
from hookside.notation.lines.refusals.named import Named, Naming
from hookside.notation.vocabulary import COUNT_WORDS

_JOBS = ("stuff", "close", "fasten", "weave")
_MORE_THAN_TALK = (None, "other", "join", "colour", "turn")
# "fluff the head!! really full", "Bulk out his tummy": what is done to a part, by whatever verb
_DONE_TO = re.compile(
    r"[^\w\n]{0,6}(?:(?:and|now|then|next|ok|okay|so|please),? ){0,2}"
    r"(?!(?:under|over|around|round|behind|inside|outside|on|in|to|at|for|from|of|with|into|onto|across|along|between|"
    r"beneath|below|above|near|through|against|upon|beyond|past|that'?s|this|it'?s|is|was|here'?s|all|"
    r"both|left|right|front|back|\w+ing)\b)"
    r"[a-z]{3,14} (?:(?:up|out|in|on|down|off|more|some|only|just|all) )?(?:the|his|her|its|your|their) [a-z]{3}",
    re.I,
)
# "tail, sew at 14", "eyes between 9/10, 5 sc between. stuff.": a job, and more of it behind
_JOB_AND_MORE = re.compile(
    r"(?:tail[,.;] (?:sew|stuff|attach|use|join) |(?:safety )?eyes (?:(?:go )?(?:between|on|at|in|after|over) )"
    r"(?:r|rnds?|rounds?|rows?)?\.? ?\d)",
    re.I,
)
# "* LONG TAIL *" behind the rounds of a part
_A_LONG_TAIL = re.compile(
    r"[^\w\n]{0,6}(?:leave |an? |very |extra )*(?:long|sewing|yarn) tail"
    r"(?: (?:for|to) (?:sew(?:ing)?|attach\w*|join\w*))?[^\w\n]{0,6}",
    re.I,
)
# "Sew to head (make 2).": a job of the part above, and how many of that there are
JOB_OF_COPIES = re.compile(
    r"\W{0,3}(?:sew|stuff|close|fasten|attach|weave|pin|glue|stitch|leave|cut|finish|fo)\b[^:\n]{0,60}"
    rf"(?:,|[(\[])\s*make (?P<n>\d{{1,2}}|{COUNT_WORDS})\s?[)\]]?\W{{0,3}}$",
    re.I,
)
_ARROW_LED = re.compile(r"[ \t]{0,8}(?:[-=]{1,2}>|>>)[ ]?[a-z]", re.I)


_GOING_ON = re.compile(r"ing\b", re.I)


def _two_orders(text: str) -> bool:
    """ "PINCH + SEW ON" on a page in capitals: two jobs that are ordered, and no "SEWING AND FINISHING"."""
    low = text.lower()
    kinds = [kind for kind, _, _ in askings(low)]
    led = CLAUSE.match(low) is not None or begins_with_act(low)
    return led and len(kinds) > 1 and "other" not in kinds and _GOING_ON.search(text) is None


class Jobs(Naming):
    """Is it a job, and no part?"""

    def is_a_job(self, name: Named) -> bool:
        if _JOB_AND_MORE.match(self.text, name.at, name.end) is not None and not self.no_round_yet():
            return True
        if not name.alone:
            told = not name.first and not name.hashed and not self.no_round_yet() and self.piece is not None
            return told and JOB_OF_COPIES.match(name.text) is not None
        if jobs := named_jobs(name.text):
            if any(kind == "tail" for kind, _, _ in jobs):  # "- flat, no filling, tail", the name of a part below it
                return not (self.leads_soon(name.index) or (name.following and self.opens_course(*name.following)))
            return not name.first  # "Eyes + stuffing"
        if _A_LONG_TAIL.fullmatch(name.text):
            return self.piece is not None and not (name.leads or self.leads_soon(name.index))
        if name.hashed and self.leads_soon(name.index):
            return False  # "### Putting together and border" above its rounds
        if name.on and named_behind(name.text) and (name.text[:1] in "([{" or not is_part(name.text.lower())):
            return True  # "(bell)" between two rounds
        if ";" in name.text and not name.opens and any(kind != "other" for kind, _, _ in askings(name.text)):
            return True  # "tail; sew the lot on"
        if name.loud and not name.opens and not self.leads_soon(name.index) and _two_orders(name.text):
            return self.piece is not None and not self.no_round_yet()
        words = len(name.text.split())
        if words <= 2 and classify(name.text) in _JOBS:
            return True
        return words > 2 and not name.loud and not name.opens and classify(name.text) not in _MORE_THAN_TALK

    def does_to_a_part(self, name: Named) -> bool:
        if not name.alone or name.opens or name.marked or name.numbered or name.hashed:
            return False
        if _DONE_TO.match(name.text) is not None and name.on and not name.loud:
            return True
        return (name.on or not name.leads) and ordered(name.text) == "stuff"

    def sets_a_job_in_a_frame(self, name: Named) -> bool:
        """ "** change to sweater colour **", "== Insert eyes ==" in front of the next round: as loud as a name, and a
        job there; "-> eyes between R8 & R9, cross 6X": an arrow leads a job, whatever it counts."""
        begins = self.text.rfind("\n", 0, name.at) + 1
        led = name.on and _ARROW_LED.match(self.text, begins) is not None
        return name.on and (led or (name.alone and not name.numbered)) and framed_job(name.text) is not None
