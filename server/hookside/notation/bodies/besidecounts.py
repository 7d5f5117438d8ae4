"""Words beside a printed count that say nothing more of the stitches: "24 each time", "(36) <- last inc round"."""

from __future__ import annotations

import re

from hookside.notation.page.inwords import WORD, value

# "sc all along, 24 each time", "sc around, thirty-six stitches each": the count of each course that a label names
_EACH_TIME = re.compile(
    rf"(?P<count>, (?:\d{{1,3}}|{WORD})(?: sts?| stitch(?:es)?)?)"
    r"(?P<each>,? (?:each|every) (?:time|round|rnd|row)| each| apiece)(?=[ .;!]{0,3}$|[.!] [a-z])",
    re.I,
)
# "sc around (18) each", "[24 sts] each round"
_EACH_BEHIND = re.compile(
    r"(?P<count>[(\[{<] ?(?:= ?)?\d{1,4} ?(?:sts?\.?|stitch(?:es)?|sc|[hs]?dc|h?tr)? ?[)\]}>])"
    r"(?P<each>,? ?(?:(?:for|in|on|at|after) )?(?:each|every|all|per)"
    r"(?: (?:time|one|round|rnd|rd|row|of (?:them|these|those))s?)?| apiece)(?=[ .;!]{0,3}$)",
    re.I,
)
# "24 sc each (24)", "each round 24 sc", "24 sc in each round": the whole of a round, said of every one of a range
_STITCH = r"(?:[sdh]c|[hs]dc|h?tr|single crochets?|double crochets?|half doubles?(?: crochets?)?|trebles?)"
_EACH_ROUND = re.compile(
    rf"(?P<lead>[^\w\n]{{0,6}}(?:each(?: (?:time|round|rnd|rd|row))? )?)(?P<work>(?:work |make |do )?"
    rf"(?:\d{{2,3}}|[4-9]) ?{_STITCH}|{_STITCH} ?(?:\d{{2,3}}|[4-9]))(?![a-z\d])"
    r"(?P<each>,? (?:(?:in )?(?:each|every|per) (?:time|round|rnd|rd|row)|each)(?! (?:st|sc|[hd]))|)"
    r"(?P<rest>[ .;!]{0,3}(?:[(\[=,-].{0,24})?)$",
    re.I,
)
_GROUPS = re.compile(r"shell|cluster|petal|fan|bobble|puff|corner|side|group", re.I)  # ... or that of each of these
# "sc 4, inc) x6 [36]  <- last inc round yay", "(36) that was the last decrease": which of the rounds this one is
_LAST_SHAPED = re.compile(
    r"(?P<count>[(\[] ?(?:= ?)?\d{1,3}(?: sts?| stitches)? ?[)\]])[ .,;!<>^=-]{1,6}"
    r"(?:(?:that|this|it)(?: was|'s| is) |and )?(?:the |your |our )?(?:very )?(?:last|final|first)(?: of the)? "
    r"(?:inc|dec)(?:s|reases?|reasing)?(?:(?: round| rnd| row)(?: [a-z]{2,9}){0,3}|(?: yay| phew| lol| now| done)?)"
    r"[ .!]{0,5}$",
    re.I,
)
# "Every row has its 25 stitches.", "Each round is 18 sts": a sentence behind the work, of each that it tells
EACH_HAS = re.compile(
    r"(?<=[.;,!)\] ])(?:every|each|all)(?: one| of (?:them|these|those))?"
    r"(?: (?:rounds?|rnds?|rows?))?(?: of (?:them|these|those))?"
    r" (?:has|have|is|are|keeps?|holds?|comes? to|makes?|gives?(?: you)?|should have|will have)"
    r"(?: (?:its|the|still|always|just))*"
    rf" (?P<n>\d{{1,4}}|{WORD}) ?(?:sts?\b|stitch(?:es)?)(?: in (?:it|all|total)| long| wide)?(?=\s*(?:[.;,!)]|$))",
    re.I,
)
# "Now do 6 rounds straight, 18 dc on each.": the count of each of those plain rounds
ON_EACH = re.compile(
    rf"(?:^|[\s,;.-])(?P<n>\d{{1,4}}) ?(?:sts?|stitch(?:es)?|{_STITCH})(?: (?:on|in|for|to|at))? (?:each|every|all)"
    r"(?: (?:time|one|round|rnd|rd|row|of (?:them|these|those))s?)?[ .;!]{0,3}$",
    re.I,
)
# "increase in all of them", "2 sc in every one of them": each stitch there is
_ALL_OF_THEM = re.compile(
    r"\bin(?:to)? (?:all|each|every one|each one) of (?:them|those|these)(?=\s*(?:[,.;(\[=!]|$))", re.I
)
# "inc 6x, 12 sts - change to red", "6 sc in MR; 6 sts - pull tight": a count, though a job stands behind it
_COUNT_AND_JOB = re.compile(
    r"(?<=[\w)\]])(?P<seam>[,;]) (?P<n>\d{1,3}) (?:sts|stitches)(?= ?(?:-+|[(\[])\s?(?:(?:now|then|and) )?"
    r"(?:change|switch|pull|fasten|stuff|fill|join|cut|close|leave|sew|insert|add|place|turn|mark|f\.?o\b)\b)",
    re.I,
)
# "Tentacles: ch 30, sc in 2nd ch from hook and across. Make 6.": copies, which the piece counts, and no stitches
_COPIES_BEHIND = re.compile(
    rf"(?:(?<=[a-z\d)\]])\.|(?<=[)\]])) (?:make|(?:you(?:'ll)? )?need) (?:\d{{1,2}}|{WORD})"
    r"(?: of (?:them|these|those))?"
    r"[ .!]{0,3}$",
    re.I,
)
_WORKS = re.compile(r"\b(?:sc|[hd]dc|[hd]c|dc|h?tr|inc|dec|invdec)\b|crochet", re.I)


def without_words_beside(body: str) -> str:
    """The body with only blanks in the place of such words; of the same length."""
    if "each" in body or " every" in body or " apiece" in body or " per" in body:
        told = _EACH_TIME.search(body)
        if told is not None and told.start() and not _GROUPS.search(body):
            n = told["count"].strip(", ").split(" st")[0]
            counted = f" ({n if n.isdecimal() else value(n)})"
            body = body[: told.start()] + counted.ljust(len(told[0])) + body[told.end() :]
        if (told := _EACH_BEHIND.search(body)) is not None and told.start():
            body = body[: told.start("each")] + " " * len(told["each"]) + body[told.end("each") :]
    if ("each" in body or "every" in body or " per " in body) and (whole := _EACH_ROUND.match(body)) is not None:
        body = f"{' ' * len(whole['lead'])}{whole['work']}{' ' * len(whole['each'])}{whole['rest']}"
    if " st" in body and (has := EACH_HAS.search(body)) is not None and has.start() and has["n"].isdecimal():
        at, past = has.span("n")
        counted = " " * (at - 1 - has.start()) + f"({has['n']})" + " " * (has.end() - past - 1)
        body = body[: has.start()] + counted + body[has.end() :]
    if " of the" in body:
        body = _ALL_OF_THEM.sub(lambda m: "in each st".ljust(len(m[0])), body)
    if " st" in body and (job := _COUNT_AND_JOB.search(body)) is not None:
        body = body[: job.start()] + f" ({job['n']})".ljust(len(job[0])) + body[job.end() :]
    if (" make " in (low := body.lower()) or " need " in low) and (made := _COPIES_BEHIND.search(body)) is not None:
        body = body[: made.start()] + " " * len(made[0]) if _WORKS.search(body, 0, made.start()) else body
    if ("inc" in body or "dec" in body) and (last := _LAST_SHAPED.search(body)) is not None:
        body = body[: last.end("count")] + " " * (len(body) - last.end("count"))
    return body
