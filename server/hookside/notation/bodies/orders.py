"""What is ordered in the middle of a round and is no work: "(put the beans in)", "- snap the backs on", ", tie a bow".

Words of a round that tell no stitches are passed over, whether they chat or remark. Those that give an order by the
look of them are kept as a cue, since a job that is lost without a word is found when the piece is closed.
"""

from __future__ import annotations

import re

_LONGEST = 90  # characters of an order; what is longer is a tale
_LEAD = r"\W*(?:(?:now|then|and|next|finally|also|please|first),? ){0,3}"
_WAY = r"(?:in|on|up|down|out|off|over|through|into|onto|under|inside|back|together|away|aside)"
_THING = r"(?:the|a|an|your|its|his|her|it|them|both|all|some|another|two|one)"
# What every round is told with, and what begins a remark: no job by its look alone
_NO_JOB = (
    r"(?:work|crochet|knit|make|do|repeat|rep|reps|continue|carry|go|come|start|begin|end|finish|count|note|see|use|"
    r"remember|keep|skip|leave|miss|turn|inc|dec|increase|decrease|chain|single|double|half|treble|join|close|follow|"
    r"check|watch|love|like|hope|enjoy|have|get|let|say|mean|call|called|give|gives|show|shows|form|forms|take|takes|"
    r"try|read|look|think|find|need|want|"
    r"that|this|these|those|then|than|and|but|for|from|with|without|into|onto|over|under|through|across|along|around|"
    r"about|after|before|behind|above|below|between|only|even|just|because|since|once|until|same|plain|where|when|"
    r"while|which|what|who|how|why|not|all|both|each|every|here|there|they|you|she|are|was|were|has|had|can|may|will|"
    r"our|your|his|her|its|the|per|out|off|down|back|less|more|plus|minus|except|save|near|past|via|inside|outside|"
    r"towards?|against|beside|beneath|during|within|upon|toward|also|twice|thrice|times)"
)
_ORDER = re.compile(
    rf"{_LEAD}(?!{_NO_JOB}\b)[a-z]{{3,12}}(?<!ing)(?<!ed)(?<!s)(?: {_WAY}){{0,2}} {_THING} (?=[a-z])|"
    rf"{_LEAD}(?!{_NO_JOB}\b)[a-z]{{3,12}}(?<!ing)(?<!ed)(?<!s) (?:it|them|both) {_WAY}\b|"
    rf"{_LEAD}(?:press|toss|cross|string|bring) (?:{_WAY} )?{_THING} (?=[a-z])|"
    rf"{_LEAD}(?:insert|attach|glue|pour|add|place|slide|snap|thread|sew|pin|tie|fit|clip|screw|push|tuck|tape) "
    rf"(?:{_WAY} )?(?!{_WAY}\b)[a-z]{{3,14}}\b",
    re.I,
)
# ... and words of the work itself, or a time of day: how a stitch is made, or more of them
_OF_WORK = re.compile(
    r"\b(?:sts?|stitch(?:es)?|sc|[hd]?dc|h?tr|inc|dec|increases?|decreases?|chains?|ch|loops?|hook|rounds?|rnds?|rows?|"
    r"photos?|pictures?|pics?|video|page|corners?|first|last|next|fun|beginning|marker)\b|\d",
    re.I,
)


def orders(words: str) -> bool:
    """Do words that tell no stitches give an order: a verb, and what it is done to?"""
    if len(words) > _LONGEST or words.rstrip().endswith(("?", ":")):
        return False
    return _ORDER.match(words) is not None and _OF_WORK.search(words) is None
