"""Sentences that only tell: of people, of how it looks, of what comes later; and those that ask although they tell."""

from __future__ import annotations

import re

STORY = re.compile(
    r"^(?:i|i'm|i've|my|we|our|he|she|they|it|its|it's|this (?:little|cute|sweet|pattern|toy|piece|one|part|gives|"
    r"makes|is|will|was|helps|way|creates|forms)|there|that|these (?:are|will)|"
    r"the (?:work|piece|edges?|pattern|fabric|first|sides?|result|finished|designer|toy|bottom|top|wrong|"
    r"right)\b[^.]{0,40}\b(?:is|are|will|should|may|can|was|curls?|starts?|begins?|now|looks?|form)|"
    r"you(?:'ll| will| should| may| can| might)? (?:notice|see|find|love|enjoy|know|feel|have(?! to\b)|be|probably|get|"
    r"end|already)|if you(?:'re|r| are| have| don't| do not| find)?\b(?!.*,)|"
    r"(?:hang|hold) on(?=,| a\b| there|$)|stop$|"
    r"(?:the |these |this |those )?[a-z0-9 ]{0,30}\b(?:stitches|sts|increases|decreases|rounds|rows)\b[^.,]{0,24}"
    r"(?<!to )\b(?:make|form|give|become|shape|create)\b|"
    r"enjoy|thank|happy|have fun|congratulations|well done|copyright|please (?:do not|don't|contact|share|tag|credit)|"
    r"for (?:questions|more|personal)|share|tag|follow|visit|download|note that|remember that|because|so that|"
    r"depending|stuffing (?:this|these|it|him|her|makes|is|was|can|small|shows|peeks|tends|comes|will|"
    r"too (?:much|little|firmly|hard|tightly)))\b|"
    r"^you(?:'ll| will) (?:close|sew|stuff) [a-z ]{2,40} (?:at the (?:very )?end|later(?: on)?)$"
)
PAST = re.compile(r"^(?:i|we|my|he|she|they|it)\b")
TELLS = re.compile(r"^(?:i\b(?!(?:'d| would)? (?:recommend|suggest|advise)\b)|my\b|he\b|she\b|they\b)")
STUFFED = re.compile(
    r"(?:the |it |they |this |these )?[a-z' ]{0,30}\b(?:should be|must be|has to be|have to be|needs? to be|"
    r"is to be|are to be) "
    r"(?:now |then |lightly |firmly |well )*(?:stuffed|filled)\b"
)
# "Here I stuffed it, quite firm.", "I stuffed mine at this point": told, and just as much asked for
_WHERE = r"(?:here|now|then|next|at this (?:point|stage)|before (?:closing|the next|going on)|after (?:this|that))"
HERE_STUFFED = re.compile(
    rf"(?:(?:and |so )?{_WHERE}\b[^.]{{0,16}}\b(?:i|we) (?:have )?(?:stuffed|filled) "
    r"(?:it|him|her|mine|the|this|them)\b|"
    rf"(?:i|we) (?:have )?(?:stuffed|filled) (?:it|him|her|mine|the \w+|this|them)\b[^.]{{0,24}}\b{_WHERE}\b)"
)
# "Here I put in the bell.": the same of other jobs
NOW_DO = {
    "put": "put", "added": "add", "inserted": "insert", "attached": "attach", "placed": "place", "fixed": "fix",
    "stuffed": "stuff", "filled": "fill", "sewed": "sew", "embroidered": "embroider", "closed": "close",
    "changed": "change", "switched": "switch", "left": "leave", "fastened": "fasten", "pulled": "pull", "wove": "weave",
    "folded": "fold", "flattened": "flatten", "glued": "glue", "stitched": "stitch", "popped": "pop",
    "dropped": "drop",
}  # fmt: skip
# "Before I closed her up I stitched a little beak": told of oneself, and due by then
BEFORE_DONE = (
    r"(?:(?:just |right |shortly )?before (?:i |we |you )?(?:have |had )?"
    r"(?:clos|sew|stuff|fill|finish|fasten|shut)[a-z]*\b(?: (?!i\b|we\b)[a-z]+){0,5}|"
    r"before (?:the |that |this )[a-z ]{3,24})"
)
# "The opening was then closed.", "The yarn is passed through the last 6 and pulled"; "Closed it." of oneself
DONE_TO = {
    **NOW_DO, "sewn": "sew", "woven": "weave", "passed": "pass", "run": "run", "drawn": "draw", "threaded": "thread",
    "installed": "insert", "fitted": "fit", "cut": "cut", "hidden": "hide", "gathered": "gather", "oversewn": "oversew",
}  # fmt: skip
WAS_DONE = re.compile(
    r"(?P<what>(?:(?:the|each|both|all|all the|its|his|her) )?[a-z]+(?: [a-z]+)?) (?:is|are|was|were) "
    rf"(?:then |now |also |next |finally )*(?P<verb>{'|'.join(DONE_TO)})\b(?! (?:by|too|with love)\b)(?P<rest>[^?]*)"
)
ONESELF = re.compile(
    rf"(?:and |then |now )*(?P<verb>{'|'.join(NOW_DO)}) (?P<rest>(?:it|him|her|them|the [a-z]+|up|off)\b[^?]*)"
)
HERE_DONE = re.compile(
    rf"(?:and |so )?(?:here|now|at this (?:point|stage)|{BEFORE_DONE})\b,? "
    rf"(?:i|we) (?:also |just |quickly |first |have |had )*(?P<verb>{'|'.join(NOW_DO)}) "
    r"(?P<what>(?!it\b).+)$"
)
# How it is worked all along, and what only keeps a reader company
NOTHING = re.compile(
    r"(?:do not|don't|never) (?:join|turn)\b[^,.;]{0,24}$|"
    r"(?:ch(?:ain)? ?\d+,? )?(?:and )?(?:work|crochet)(?:ing)? (?:around|along|on) both sides of the "
    r"(?:foundation )?ch(?:ain)?$|"
    r"work(?:ed|ing)?\b[^.;]{0,40}\bin (?:a )?(?:continuous |joined |turned |spiral |back and forth )*"
    r"(?:spirals?|rounds|rows|the round)\b[^.;,]{0,40}$|"
    r"(?:put|turn|make|grab|pour|get|have|take|cut|give|stick)\b[^.]{0,30}\b(?:kettle|cuppa|cup of (?:tea|coffee|"
    r"cocoa)|"
    r"coffee|music|radio|film|movie|podcast|feet up|slack|breath|break)\b|"
    r"(?:leave|add|write|post|send|drop) (?:me |us |a |your |an )*(?:comment|note|review|message|line|e-?mail)\b|"
    r"(?:stuff|fill) your (?:face|cup|tummy)\b|pin this (?:pattern|page|post|image|for)\b|join (?:me|us|our|my)\b|"
    r"close your eyes\b|cut to the\b|give (?:it|him|her|them|yourself) (?:a (?:hug|kiss|name|rest)|time)\b|"
    r"take (?:a |some )(?:photo|picture)s?\b|keep going\b|leave (?:it|this) for (?:a|the)\b|leave enough time\b|"
    r"(?:do not|don't) (?:be|worry|panic|fret|give up|despair|laugh|ask)\b|go (?:out|in|up|down|on) again\b|"
    r"(?:start|begin|work)\w* (?:at|from) the (?:bottom|top|head|nose|snout|base|tip|tail|neck|feet|"
    r"brim|crown)\b(?! (?:of (?:the )?[a-z]+ )?(?:with|using)\b)"
    r"(?! in (?!the\b|an?\b|spirals?|rounds|rows)[a-z]+(?: [a-z]+)?$)[^,;]{0,20}$|"
    r"continue in the same\b|(?!(?:leav|keep|allow)\w*\b[^.]*\b(?:tails?|ends?|yarn|thread|length|strand|cm|inch\w*)\b)"
    r"(?!(?:(?:do not|don't) )?(?:(?:fasten|finish|cast|bind|tie) ?off|f[./]?o\b|cut|close)\b[^.]*\bend$)"
    r"(?!(?:stuff|fill)\w*\b[^,]{0,24}\bnow\b)"  # "Stuff him now, he gets shy later"
    r"[^.]{2,40}\b(?:later(?: on)?|at the (?:very )?end)$|"
    r"(?:stitch by stitch|sew far)\b|(?:good|great|nice|lovely|fun|cool|cute|clever) stuff$|(?:stuff|fill)ing out\b|"
    r"attach (?:a|your) (?:picture|photo)\b"
)

# "Now I embroider the face", "I put the eyes between R12 and R13"
TOLD_DOING = re.compile(
    r"(?P<where>(?:and |so |but )?(?:(?:this|here|now) is (?:where|when|the point where)|now|here|then|next|"
    r"at this (?:point|stage))\b,? )?"
    r"(?:i|we)(?:'ll| will| also| then| now| just| always| like to| usually)* "
    rf"(?P<verb>{'|'.join(NOW_DO)}|add|insert|attach|place|fix|stuff|fill|sew|embroider|close|change|switch|leave|"
    rf"fasten|cut|"
    r"pull|weave|fold|flatten|glue|mark)\b(?P<rest>.*)$"
)
SAYS_WHEN = re.compile(
    r"\b(?:now|here|at this (?:point|stage)|before (?:closing|the last)|(?:r|rnds?|rounds?|rows?)\.? ?\d{1,3})\b"
)
NOT_ASKED = re.compile(
    r"\b(?:yesterday|last time|next time|wish|forgot|never|should have|years?|photo|another|instead of)\b"
)
