"""The wording of the start and the end of a round: rings, joins, a new yarn."""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE

# "make a loop and work 6 sc in loop": the ring of a first round, before any stitch
STARTING_LOOP = re.compile(
    r"(?:(?:you|we|I) )?(?:make|form|start(?: with)?|begin(?: with)?|wind|wrap|with)\s+"
    r"(?:the yarn (?:in|into|to) )?(?:a|an|one|the|your)\s+"
    r"(?:(?:slip|yarn|thread|small|double|finger|closing|drawstring|starting|loose) )?(?:loop|ring|circle)"
    r"(?: (?:of|with|in) (?:the )?(?:yarn|thread|wool))?(?: (?:around|round|on) (?:your |the |a )?(?:index )?finger)?"
    r"\s*(?:,|;|:|\.|-)?\s*(?:and|then)?\s*(?=(?:then )?(?:(?:work|make|crochet|do|put|in(?:to)? (?:it|the \w+))\s+)*"
    r"(?:\d|three|four|five|six|seven|eight|ch\b))"
)
WITH_RING = re.compile(r"(?:start (?:off )?)?(?:with|in|using) (?:an? )mc\b")
# "In a magic ring crochet 6 sc"
RING_FIRST = re.compile(
    r"(?:in|into|inside|on) (?:an? |the |your )?(?:magic |adjustable |sliding |double )?(?:ring|circle)"
    r"(?=,? (?:(?:crochet|work|make|knit|do|you|we)(?:ing)? ){0,2}\d)"
)
RING_OF = re.compile(
    r"(?:and\s+)?(?:join|sl(?:ip)?[ .-]*st|ss)\b[^.;(){}\[\]]{0,50}?(?:to|and) (?:form|make|create) (?:(?:a|the) )?"
    r"(?:ring|circle|loop)\b"
    r"|(?:and\s+)?(?:join(?:ed|ing)?|close),? (?:(?:it|them|this|the chain|the ends) )?"
    r"(?:in|into|to) (?:(?:a|the) )?(?:ring|circle)\b"
    r"(?: with (?:(?:an?|1|one) )?(?:s\.? ?s\b\.?|sl(?:ip)?[ .-]*st(?:itch)?\b\.?))?"
)
JOIN = re.compile(
    r"(?:sl(?:ip)?[ .-]*st(?:itch)?|ss|sl)\.?\s+(?:(?:in|into|to|in to|through|with|on)\s+)?(?:the\s+)?(?:(?:top|"
    r"first|1st|beg(?:inning)?(?! in\b)|starting(?! in\b)|(?:3rd|2nd|4th|second|third|fourth) (?:ch )?of|both)\b"
    r"[^,.;(){}\[\]]{0,50}|(?:2nd|3rd|4th|5th|6th|second|third|fourth|fifth|sixth) ch(?:ain)?(?: st(?:itch)?)?"
    r"(?=\s*(?:[.,;]?\s*[(\[{=]\s*\d|[.;]?\s*$|[.,;]\s*(?:fasten|turn|do not|don't|"
    r"\d{1,4} ?(?:sts?|stitches|sc|[hd]?dc|h?tr)\b\W*$)))"
    r"|(?:beg(?:inning)? |starting |first )?ch(?:ain)?[ -]?[1-6](?! ?-?(?:sps?|spaces?|loops?|lps?))"
    r"(?=\s*(?:[.,;]?\s*[(\[{=]\s*\d|[.;]?\s*$|[.,;]\s*(?:fasten|turn|do not|don't)))"
    r"|(?:to|and)?\s*(?:join|close)\b[^,.;:(){}\[\]]{0,50}|joining\b[^,.;:(){}\[\]]{0,40})"
)
# "join with chalk", "sl st to first sc in slate", "... changing to B": what may name the yarn a round is closed with
DYES_JOIN = re.compile(
    r"\b(?:with|in|using|(?:and )?(?:chang|switch|swap)(?:e|ing|ping)?(?: back)?(?: over)? to|(?:pull|draw|bring)ing)"
    r" (?:the |your )?(?P<name>[a-z]{1,14}(?: [a-z]{3,14}){0,2}?)(?: through)?(?=$| (?:in|into|to)\b)"
)
# "sl st with chalk to first sc", "sl st in slate (18)": the yarn told first, or alone
DYED_FIRST = re.compile(
    r"(?:sl(?:ip)?[ .-]*st(?:itch)?|ss)\.? (?:with|in|using) (?:the |your )?(?P<name>[a-z]{1,14}(?: [a-z]{3,14}){0,2}?)"
    r"(?: (?:to|in|into) (?:the )?(?:first|1st|top|beg)\b[^,.;(){}\[\]=]{0,40})?"
    r"(?=\s*(?:[.(\[=]|$|, ?(?:turn|fasten|cut)))"
)
# "..., pulling chalk through": behind the join, the yarn its loop is drawn through with
DRAWN_JOIN = re.compile(
    r"(?:(?:and|while|by) )*(?:pull|draw|bring)(?:ing)? (?:the |your )?(?P<name>[a-z]{1,14}(?: [a-z]{3,14}){0,2}?)"
    r" (?:through|in|up)\b(?: (?:the|both|all|your) (?:loops?|lps?|stitch|st)| as you (?:do|join|go))?"
    r"(?=\s*(?:[,.;()\[\]]|$))"
)
# "changing to chalk in the ss to first dc": the asking holds the join itself
IN_THE_JOIN = re.compile(r"\b(?:in|with|on|at) (?:the|this|that) (?:joining )?(?:sl(?:ip)?[ .-]*st(?:itch)?|ss|join)\b")
# The join that goes into the chain itself, as into a stitch
JOINS_TOP = re.compile(
    r"\b(?:top|2nd ch|3rd ch|4th ch|second ch\w*|third ch\w*|fourth ch\w*|3rd|third)\b(?: (?:ch(?:ain)?|st(?:itch)?))?"
    r"(?: of (?:the |your )?(?:(?:beg(?:inning)?|starting|first|turning|initial|opening) )?"
    r"(?:t-?ch\b|ch(?:ain)?|\d[ -]?ch))"
)
# "join to leg 1 with a sc and 7 sc more around it": what is worked behind the join is no part of it
_NO_WORK = (
    r"(?! (?:and|then)(?: then)? (?:work |make |crochet )?(?:\d{1,3} ?(?:sc|[hd]?dc|tr|single|double)\b|"
    r"(?:sc|[hd]?dc|tr) \d))"
)
JOIN_PART = re.compile(
    r"(?:and\s+)?(?:join|attach|connect)\w*\b[^,.;(){}\[\]]{0,60}?\b(?:with|by|using) (?:a |an |1 |one )?(?P<st>sc|dc|"
    r"hdc|htr|sl ?st|ss|sl|slip ?stitch|single crochet|double crochet)\b"
    rf"(?P<rest>(?:{_NO_WORK}[^,.;(){{}}\[\]]){{0,60}})"
)
JOIN_WORD = re.compile(
    r"(?:and\s+)?(?:join(?:ing|ed)?|close)\b(?! (?:the )?(?:yarn|new|legs?|to leg))"
    rf"(?:{_NO_WORK}[^,.;:(){{}}\[\]]){{0,70}}"
)
JOINED_WITH = re.compile(
    r"(?:join|attach|add)(?:ing)? (?:in )?(?P<colour>[^,.;]{0,30}?) ?with (?:an? |1 |one )?(?:standing )?(?P<st>sc|"
    r"dc|hdc|htr|tr|single crochet|double crochet)\b"
    r"(?: (?:in|into|to|at) (?:any|the first|first|the same|same|the next|next|a|the|each) (?:st(?:itch)?|sc|dc|sp|"
    r"space)\b(?: of (?:any|each|the|a|one) [^,.;:()\[\]*]{1,24})?)?"
)
# What another piece is called where it is joined
PART = re.compile(
    r"\b(?:(?P<which>first|second|third|other|left|right|1st|2nd|last) )?"
    r"(?P<what>leg|arm|piece|body|wing|fin|ear|feet|foot|flipper|tail|head)s?(?: (?P<no>\d|one|two|three|four))?\b"
)
_PART_TOLD = (
    r"(?:then |and |now )?(?P<told>(?:join|attach|connect|add|sew|crochet)(?:ing)?"
    r"(?: in| on| to| onto)?(?: (?:the|your|a|an))?"
    r"(?: (?:first|second|third|fourth|1st|2nd|3rd|4th|other|next|left|right|last|front|back|top|bottom)){0,2}"
    r" (?:arm|leg|wing|fin|ear|flipper|foot|paw|hand|tail|tentacle|horn|beak|fluke|part|piece|head|body)s?"
    r"(?: (?:on|in|here|in place|to (?:the )?(?:body|head)))?"
    # "join the arms in R7", "... in R6 and R8": rounds of a range
    rf"(?:(?: (?:in|on|at|during|after|before|with))? (?:the )?{COURSE}\.? ?#?\d{{1,3}}(?![\w.]?\d)"
    rf"(?:,? (?:and|&)(?: again)?(?: (?:in|on|at|after))? (?:{COURSE}\.? ?#?)?\d{{1,3}}(?![\w.]?\d))?|"
    rf" (?:in|on|at|during|after|before|with) the (?:first|second|third|fourth|last) {COURSE}(?![a-z]))?)"
)
# "join the first arm with 4 sc", "attach the ear by working 3 sc through both": stitches of this round all the same
JOINS_OVER = re.compile(
    rf"{_PART_TOLD},? (?:with|using|by (?:working|crocheting|making))"
    r" (?=(?:(?:[2-9]|1\d) ?(?:single crochets?|double crochets?|(?!cm|mm|in\b|m\b)[a-z]{2,4})"
    r"|(?:sc|dc|hdc|htr) ?(?:[2-9]|1\d)"
    r"|(?:sc|dc|hdc|htr) in(?:to)? (?:each of )?(?:the )?next (?:[2-9]|1\d))\b)"
)
# "sc 6, join the arm, sc 12": nothing is said of its stitches
JOINS_HERE = re.compile(rf"{_PART_TOLD}(?=\s*(?:[,.;(){{}}\[\]]|$))")
THROUGH_BOTH = re.compile(
    r"(?:work(?:ed|ing) )?(?:through|thru|in|into) (?:both(?! l(?:oo)?ps?)|the two|two|2|three|"
    r"all(?: the)?(?: three| four)?(?! l(?:oo)?ps?))"
    r"(?: (?:of )?(?:the )?(?:layers?|pieces|parts|thicknesses|edges|"
    r"\w+ and (?:the )?\w+))?\b(?=\s*(?:[,.;(){}\[\]]|$))"
)
ENDS_ROUND = re.compile(
    r"(?:and )?(?:finish|end|close|complete)(?:ing)? (?:(?:the |off the |this )?(?:round|rnd|row) )?(?:with|"
    r"by working|by) (?:a |an |1 |one )?"
    r"(?:sl(?:ip)?[ .-]*st(?:itch)?|ss)\b[^.;(){}\[\]=]{0,60}"
)
