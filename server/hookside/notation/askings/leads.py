"""What stands before the verb of an asking: "now", "after round 8", "with the long tail,", slip stitches."""

from __future__ import annotations

import re

from hookside.notation.labels.patterns import COURSE
from hookside.notation.vocabulary import NUMBER_WORDS, ORDINAL_WORDS

_NTH = rf"\d{{1,2}}(?:st|nd|rd|th)?|last|final|{'|'.join([*NUMBER_WORDS, *ORDINAL_WORDS])}"
# What comes before the asking, taken off until the verb stands first
_LEAD = re.compile(
    r"(?:(?:(?:now|this|here)(?:'s| is| would be| might be) (?:the |an? )?(?:[a-z]+ )?"
    r"(?:time|moment|point|place) (?:to|for)|now|then|next|finally|"
    r"[a-z]{2,12} (?:says|said):|(?:show|call|ask) (?:me|us|your teacher) before you (?=[a-z]+ )|"
    r"lastly|first|firstly|afterwards?|after that|also|and|again|otherwise|please|"
    r"ok(?:ay)?|al(?:l )?right|"
    r"optional(?:ly)?|only (?=(?:stuff|fill|close|sew)\b)|"
    r"at this (?:point|stage)|as you go|"
    r"at the (?:very )?end(?: of (?:it|this|that|this one|(?:the|this) (?:round|rnd|row)))?|"
    r"(?:when|once|as soon as) (?:it|(?:the |your )?[a-z]{3,12}) (?:measures?|is|reaches) (?:about |approx\w*\.? )?"
    r"\d{1,3}(?:[.,]\d)? ?(?:cm|mm|in|inch(?:es)?|\")(?: (?:long|tall|high|wide))?,?(?= )|"
    r"when (?:done|finished|you are done|you're done)|once (?:done|finished)|"
    r"if (?:you (?:like|wish|want|prefer)|desired|needed|necessary)|don't forget to|"
    r"dont forget to|(?:do not|never|not to) forget to|remember to|"
    r"be sure to|"
    # "you will have to", "we'll need to", "you are going to", "it is best to": what has to be done is asked for
    r"(?:(?:note|remember|keep in mind|bear in mind|be aware)(?: that)? )?(?:you|we)(?:'ll|'d|'re)?"
    r"(?: (?:will|would|can|may|might|could|shall|should|must|are|also|now|then|just|really|always|probably)){0,3} "
    r"(?:have|need|want|like|wish|ought|going|supposed|asked|advised) to|"
    r"it(?:'s| is| would be| will be) (?:best|better|easier|easiest|wise|advisable|important|necessary|a good idea) to|"
    r"make sure (?:to|you|that you|(?:that )?(?=(?:the|both|your) (?:safety )?eyes\b))|"
    r"you (?:(?:may|might|will|could) (?:want|need|like|wish) to|can|may|should|will|"
    r"need to|must|want to)"
    r"(?: now| then| also)?|"
    r"(?:after|before|at|in|on|from|once|when|between)(?: the| you(?: have| reach| finish| complete)*)*"
    r"(?: end of| start of| working)*(?: the)? (?:rnd|round|row|r)s? ?\d{1,3}(?:(?: ?- ?| to | and )\d{1,3})?"
    r"(?: is (?:done|finished|complete))?,?|"
    r"i(?:'d| would)? (?:recommend|suggest|advise)(?: that)?(?: (?:you(?: to)?|to))?(?= )|"
    r"(?:the|a) (?:best|good|right|perfect|ideal) (?:time|moment|point|place) (?:to|for)|"
    r"it(?:'s| is)(?: now)? time to|now is (?:the|a good) time to|(?:this is )?a good (?:time|moment) to|"
    r"time (?:to|for)|"
    r"(?:(?:on|in|for|with) )?(?:the )?(?:(?:leg|arm|wing|foot|piece) (?:[1-4]|one|two)|(?:first|1st|second|2nd|"
    r"third|3rd|other) (?:leg|one|arm|piece|wing|foot|"
    r"half|part|fin))"
    r"(?: only)?(?= (?:we |you |i )?(?:f[./]?o\b|fasten|cut|break|do not|don't|leave|keep|finish|stuff)|,),?|"
    r"(?:on|in|for|with) (?:(?:the|all|both|one|two|three|four|five|other|first|last) ){1,3}"
    r"(?:legs?|arms?|wings?|ears?|pieces?|parts?|feet|fins?)(?= (?:we|you|i) ),?|"
    r"this (?:is|was) the [a-z]{3,12},(?= we (?:fill|stuff|sew|close|fasten)\b)|"
    r"(?:this|now|here) is (?:also |just )?when (?:i|we|you)(?= (?:stuff|fill)\b)|"
    r"let's|we(?: will|'ll)? |"
    # "ask Ms. K to help you close the hole": what the hands of two do
    r"(?:ask|get) (?:an?|your|the|some(?:one|body)|ms|mrs|mr|mum|mom|dad|gran)\b[^,;:]{0,30}? (?:to )?"
    r"help(?: you)?(?: to)? (?=(?:close|sew|stuff|fill|cut|weave|fasten|put|attach|insert)\b)|"
    # "Mrs Bell will help you close the hole"
    r"(?:an? |the |your |our )?[a-z]+(?: [a-z]+)? (?:will |can )?helps? you(?: to)? "
    r"(?=(?:close|sew|stuff|fill|cut|weave|fasten|put|attach|insert)\b)|"
    # "ask your grown-up to put in the eyes"
    r"(?:ask|get|have|let) (?:an?|your|the) (?:grown-?up|adult|parent|helper|teacher|mum|mom|dad|gran)(?: to)? "
    r"(?=(?:close|sew|stuff|fill|cut|weave|fasten|put|attach|insert|fix)\b)|already (?=(?:fill|stuff)\b)|"
    r"(?:with|using) (?:the |some |a )?(?:(?:dark|light|pale|bright) )?[a-z]{3,10} (?=embroider\b)|"
    r"finish (?:off )?and (?=(?:pull|draw|close|sew)\b)|"
    r"(?:when|once|after) (?:the |your )?[a-z0-9 ]{3,24} (?:is|are) (?:done|finished|complete|made|worked),?"
    r"(?= (?:leav|keep|do not|don't|fasten|cut|stuff|set|put|close)),?|"
    r"(?:do not|don't) (?:join|turn)(?: (?:the )?(?:rounds?|rnds?|rows?|work|at the end))*(?:[,;]|,? and|,? but)(?= "
    r"\w)|"
    rf"(?:stop|pause|halt|wait|break off)(?:p?ing)? (?:at|after|before|in|on|with|behind) "
    r"(?:the )?(?:end of (?:the )?)?"
    rf"(?:{COURSE}\.? ?#?\d{{1,3}}|(?:first|second|third|fourth|fifth|last) {COURSE}),?(?: and| to|:)?(?= )|"
    # "halfway, insert the eyes", "after two of these rounds insert the eyes"
    rf"half ?-?way(?: (?:through|along|up))?(?: (?:these|this|the|them)(?: {COURSE})?)?,?(?= [a-z])|"
    rf"(?:after|before|on|in|at|during|with) (?:the )?(?:first |last )?(?:{_NTH})"
    rf"(?: of (?:these|those|them|the))?(?: {COURSE})?,?(?= (?:insert|put|stuff|fill|add|attach|place|join|sew|close|"
    r"fasten|change|embroider|fix|push)\b)|"
    r"with (?=(?:the |your |some |both |light |firm |a little )*(?:safety )?(?:eyes|stuffing|filling)\b)|"
    r"here (?=(?:put|insert|push|tuck|stuff|fill|sew|attach|embroider|close|draw|fasten|cut|break|change|switch)\b)|"
    r"stop here (?:and|to)|pause (?:here )?(?:and|to)|go back and|take a moment to|here you|take your time to|"
    r"to (?=(?:sew|stuff|fill|garnish|close|change|pass|switch|cut|fasten|embroider|leave|place|attach|insert|hide|"
    r"weave)\b)"
    r"(?![^.]*,(?! (?:to )?leave\b))|"
    r"between \d{1,3} and \d{1,3} (?:rounds?|rnds?|rows?),? (?=we |you |i )|"
    r"(?:carefully|firmly|lightly|slightly|gently|securely|loosely|neatly|tightly|evenly|invisibly|slowly|well)|"
    r"for (?:the|his|her|its|a) [a-z]{3,12}(?: (?:and [a-z]{3,12}|hair|wool))? "
    r"(?=(?:you |we )?(?:cut|make|braid|plait|wind|take|use|knot|tie|thread|draw|twist)\b)|"
    r"(?:with|using) (?:the |a |your |some )?(?:[a-z-]+ ){0,3}?(?:thread|floss|yarn|tail|wool|ends?|needle) "
    r"(?=(?:sew|embroider|stitch|backstitch|attach|close)\b)|"
    r"before (?:you |we )?(?:go(?:ing)? on|continu(?:e|ing)|carry(?:ing)? on)|last of all|"
    r"(?:before|after|while|when|once|if|with|using|for|from|at|on|in|as|between|through|by)\b[^,.;:]{1,90},)[\s,]*)"
)
# "Eyes: place them", "Step 3 - sew": a word in front that only names what it is about
TOPIC = re.compile(r"(?!colou?r|yarn|with\b|using\b|in\b)(?:step \d{1,2}|[a-z]{3,14}(?: [a-z]{2,12})?)\s*(?::|"
r" -)\s+(?=[a-z])")
# Slip stitches in front of the cut are worked, not asked
SLIPS = re.compile(
    r"(?:(?:join|close|end|finish)\b[^,.;]{0,12})?(?:\d |an? )?\b(?:sl\.? ?st|ss|"
    r"slip[ -]?stitch)(?:es)?\b[^,.;]{0,50}?(?:, and |, then |, |; | and then | and | then | )"
    r"(?=(?:fasten|finish|cut|snip|break|bind|tie|cast|f[./]?o\b|end off|leav))"
)


def bare(text: str) -> str:
    """A sentence from the verb of its asking on."""
    for _ in range(6):
        match = _LEAD.match(text) or SLIPS.match(text)
        if not match or match.end() == 0 or match.end() >= len(text):
            break
        text = text[match.end() :]
    return text
