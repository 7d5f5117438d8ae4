"""What a round told in sentences is made of, in the few words of `flat`: amounts and where they go, how often, how many
it comes to. Each pattern stands where a phrase begins; none asks for more than its own words.
"""

from __future__ import annotations

import re

from hookside.notation.bodies.sentences.amounts import (
    ALL_PAIRS,
    EACH_PLAIN,
    EACH_TWO,
    Makes,
    decreases,
    each,
    each_of,
    every_nth,
    increases,
    into,
    number,
    pairs,
    plain,
    ring,
    says,
    signed,
    skipped,
    up_to,
)

_ANY = r"(?P<n>\d{1,3})"
N = rf"{_ANY}(?![\dt])"
_N2, _N3, _M = (N.replace("<n>", name) for name in ("<n2>", "<n3>", "<m>"))
_MAYBE_N = rf"(?:{_ANY} |an? )?"
_NO_N = r"(?P<n>\b)?"  # nothing stands there that could be a number
_NTH = r"(?P<nth>\d{1,2})th"
_THE = r"(?:the |these |those |your |its )?"
_ST = r"(?: sc| st)?"
_ST1 = r"(?: 1| st| sc)?"
# One place: "the next", "the second one", "one hole", "the same stitch"
_PLACE = (
    rf"(?:{_THE}(?:very )?(?:next|following|same|last|end|\d{{1,2}}th|middle|other|centre|center)"
    r"(?: 1(?! )| 1(?= (?!sc|st|in|inc|dec|plain))| st| sc)?(?! \d)|(?:just )?1(?: st| sc)?|"
    r"(?:a|the) (?:single )?st|it)"
)
_EACH = r"each(?: single| and each)?(?: 1| of them| st| sc| of the (?:st|sc))?(?: of (?:it|them))?"
_NOT_ALL = r"(?! of|\w| \d| other| round| row| time)"
_FAR = (
    r"(?:all the way(?: round(?: about)?| to the end)?|the whole way(?: round)?|(?:right |all |clear |clean )?round"
    r"(?: and round| about)?|all about|"
    r"(?:right )?to the (?:very )?end(?: of (?:the |this )?(?:round|row))?|throughout|alternately(?:,? to the end)?|"
    r"all (?:the )?(?:round|row) long|(?:for )?the (?:whole|entire) (?:round|row))"
)
_ON = (
    r"(?:(?:and )?so on|and on|keep (?:going|on|at it|that up|this up)(?: like (?:this|that)| so)?|"
    r"(?:carry|go) on(?: like (?:this|that)| so)?|going|over and over(?: again)?|again and again|by turns|in turn|"
    r"repeat(?:ing)?(?: (?:this|that|these|those|them))?|(?:keep )?alternat(?:e|ing)(?: (?:these|those|them)(?: 2)?)?|"
    r"and the same again|continue(?: so| like (?:this|that))?)"
)
_ENDS = r"(?= ?(?:[,;.:!)(=-]|$))"
_OTHERS = (
    r"(?:,? (?:and |but )?(?:with )?(?:the |all the )?(?:others?|rest|ones? between|1 between)(?: in between)?"
    r"(?: (?:singly|single|plain|alone|as they are|1 each|get 1|sc))?)?"
)
_LEVEL = r"(?:plain|even|straight|level|as (?:it|they) (?:is|are))"
_PLAIN_ALL = (
    rf"(?:{_FAR} )?(?:(?:all |just |quite |simply |everything )?{_LEVEL}(?: (?:all|sc|st))?"
    rf"(?: for (?:a|1|the|this) (?:round|row))?(?: {_FAR})?|no more (?:inc\w*|dec\w*|corners|shaping)|"
    r"no inc(?:,? (?:and )?no dec)?|no (?:shaping|changes?)|nothing but sc|"
    r"without (?:changes?|shaping|inc\w*|adding)(?: (?:or|and) \w+)?|(?:just |only )?(?:go(?:es|ing)? )?round|"
    r"(?:with )?the same (?:number|as before|amount)(?: of (?:st|sc))?(?: again)?|nothing (?:clever|new|changes|else)|"
    r"(?:sc|1) (?:on|over|upon|on top of|in) (?:each |the )?sc|as many as before|leave it as it is)"
)
_START = r"(?:(?:start|begin)(?:ing|s)? )?"
_RINGS = r"(?:ring|loop|circle|mr|mc)"
_IN_EACH = r"(?:in )?each(?: 1| st| sc)?"
_FEW = r"(?:1th|next|last|following)"
_ON_END = r"(?: on the trot| in a row| to begin with)?"
_ALONE = r"(?! (?:in|on(?! the trot)|each|\d)\b)(?: st)?"  # "increase", and not where
_REST = r"(?:the )?(?:rest|others?)(?: of (?:the |this )?(?:round|row|st))?(?: (?:is|are|stays?))?"


def _rule(makes: Makes, *pattern: str) -> tuple[re.Pattern[str], Makes]:
    return re.compile("".join(pattern)), makes


RULES: list[tuple[re.Pattern[str], Makes]] = [
    _rule(says("fill", EACH_TWO), r"2 times as many", _ST),
    _rule(says("fill", EACH_PLAIN), r"0(?! ?[\d(x])", _ENDS),
    _rule(ring, _START, r"(?:with |w/ ?|from )?", N, _ST, r" (?:in|from)(?: to)? ",
          r"(?:a |the |your |this |an )?(?:\w+ )?", _RINGS, r"\b|",
          _START, r"(?:with |w/ ?|from |in )?(?:a |the |your |this )?",
          r"(?:magic |slip |sliding |adjustable |yarn |thread |amigurumi )?", _RINGS,
          r"[ ,:-]{1,3}(?:(?:with|of|in it|of thread|and|then|take) )*", _N2, _ST, r"(?: in it)?|",
          r"(?:start|begin)(?:ing|s)? (?:with|w/) ?", _N3, _ENDS),
    _rule(number("times"), r"x ?(?P<n>\d{1,3})(?!\d)"),
    _rule(number("times"), N, r" (?:more )?times(?: (?:over|more|in all|all told|in total|altogether|round))?"),
    _rule(number("times"), N, r" of (?:these|those|them)"),
    _rule(says("round", ""), rf"(?:(?:and )?(?:so )?{_ON},? |(?:and )?so )?{_FAR}{_ENDS}|",
          rf"{_ON}(?: till?| until)? ?(?:the end)?{_ENDS}"),
    _rule(says("fill", ALL_PAIRS), r"(?:take )?(?:(?:2|them|everything) )?together (?:by 2 )?",
          rf"(?:{_FAR}|in each(?: 1| st)?|always)"),
    _rule(says("fill", ALL_PAIRS), r"(?:take )?(?:(?:them|everything|all) )?(?:st )?(?:together )?(?:by|in) 2s",
          rf"(?: {_FAR})?"),
    _rule(says("fill", ALL_PAIRS), rf"(?:everything|all|them|take everything|take all)? ?(?:st )?in pairs(?: {_FAR})?"),
    _rule(says("fill", ALL_PAIRS), r"half as many(?: st| sc)?|halve (?:it|them|the (?:st|number|round))"),
    _rule(pairs, rf"(?:take )?{_THE}?(?:2 )?(?:each )?{_NTH} ?(?:and|\+) ?(?P<m>\d{{1,2}})th{_ST1} (?:together|as 1)"),
    _rule(pairs, rf"(?:2 ?together|dec)(?: in| on| at| over)? each {_NTH} ?(?:and|\+) ?(?P<m>\d{{1,2}})th{_ST1}"),
    _rule(every_nth, rf"(?:double|inc|2(?: sc)?) ?(?:in |on |at )?each (?:other|{_NTH}){_NO_N}{_ST1}{_OTHERS}"),
    _rule(every_nth, rf"in each (?:other|{_NTH}){_ST1} {N}{_ST}{_OTHERS}"),
    _rule(says("fill", EACH_TWO), rf"(?:double|inc)(?: up)? ?(?:it|them(?: all)?|{_IN_EACH}|everywhere|",
          rf"all(?: st)?|in all(?: of them| st)?|{_FAR}|up)+{_ENDS}|(?:inc|double){_ENDS}(?=\.?$)"),
    _rule(says("fill", ALL_PAIRS), rf"dec ?(?:{_IN_EACH}|{_FAR}|everywhere|always)(?! (?:of|other|\d))"),
    _rule(signed, rf"(?:(?:inc|dec) )?(?P<sign>[+-]) ?{N}{_ST}{_ENDS}"),
    _rule(each, rf"in {_EACH} {N}{_ST}{_ENDS}"),
    _rule(each, rf"(?:{N} ?(?:sc |st )?|sc )(?:in|on|to|for) (?:{_EACH}|all(?: of them| (?:the )?st)?){_NOT_ALL}",
          rf"(?: {_FAR})?"),
    _rule(each_of, rf"{N}{_ST} (?:in|on) (?:each (?:1 )?of |all (?:of )?)?{_THE}",
          rf"(?:(?:next|1th|last|other|following|remaining) )*{_M}{_ST}"),
    _rule(increases, rf"(?:inc|double) (?:in |on |at )?(?:each of )?{_THE}{_FEW}(?: (?P<n>\d{{1,3}}))?{_ST1}",
          r"(?: again)?"),
    _rule(decreases, rf"dec (?:in |on |at |over )?{_THE}{_FEW}{_NO_N}(?: 1| 2| st| sc)?(?: again)?"),
    _rule(increases, rf"{_MAYBE_N}inc{_ALONE}{_ON_END}"),
    _rule(decreases, rf"{_MAYBE_N}dec{_ALONE}(?: by take 2 (?:as 1|together))?{_ON_END}"),
    _rule(decreases, rf"{_ANY} times 2 together"),
    _rule(says("work", "{dec}"), r"(?:(?:take|pull|draw|join) )?",
          r"(?:the next |the following |those |these )?2(?: sc| st)? ?",
          r"(?:(?:take|taken|pulled|drawn|joined|worked|made) )?(?:together|as 1(?: st)?)"),
    _rule(says("work", "{dec}"), rf"together{_ENDS}"),
    _rule(says("work", "2 {st} in next st"), rf"1-2{_ENDS}"),
    _rule(into, rf"{N}{_ST}(?: all| both)? in {_PLACE}"),
    _rule(skipped, rf"(?:miss|skip|leave out|pass over) {N}(?: st)?"),
    _rule(says("fill", EACH_PLAIN), rf"{_REST}(?: (?:all )?(?:sc|singly|{_LEVEL}))?{_ENDS}|",
          r"(?:plain|sc|straight) (?:to the end|for the rest|on the rest|from there on|on from there)",
          r"(?: of (?:the |this )?(?:round|row))?"),
    _rule(up_to, r"(?:plain|sc|1 in each|straight|all plain)(?: st)? (?:along )?(?:as far as|up to|until|till?|to) ",
          rf"(?:you reach )?(?:the )?last(?: {_ANY})?{_ST}"),
    _rule(says("fill", EACH_PLAIN), _PLAIN_ALL, _ENDS),
    _rule(plain("work"), rf"{N}(?: plain| ordinary)?{_ST1}(?: plain| alone| yes| on (?:its|their) own|",
          r" by (?:itself|themselves)| each time)"),
    _rule(plain("work"), rf"{N} st(?= and)"),
    _rule(plain("work"), rf"{N}(?= and (?:then )?(?:(?:an? |1 )?(?:inc|dec)\b|(?:take |pull )?2 ))"),
    _rule(says("marked", ""), rf"(?:but )?{N}(?: sc)? (?:in|on) (?:each of )?(?:the )?marked(?: 1| ones| st| sc)?"),
    _rule(plain("work"), rf"{N}(?: plain)? sc"),
    _rule(says("work", "1 {st}"), r"a plain", _ST1),
    _rule(plain("bare"), rf"{N}(?:{_ENDS}|(?= end\W*$))"),
]  # fmt: skip
LOOPS = re.compile(
    r"(?:(?:take )?(?:through|in|behind|by|picking up|on) )?(?:only )?(?:the )?(?P<side>back|front)"
    r"(?: only| (?:loops?|st|strands?|threads?|half)(?: only)?)|(?P<behind>behind the loops?)|"
    r"(?:through|in|take|picking up|by)? ?(?:the )?(?P<both>both|whole)(?: the)? (?:loops?|strands?|threads?|st)"
    r"(?: again)?|picking up only the loop at the (?P<at>back|front)"
)
# What it comes to, said as a count: "so you have 12", "which leaves 6", "12 in all", "back to 12"
_COUNT_WORDS = (
    r"(?:so|and|which|that|there|this|now|you|we|it|should|will|still|then|again|count|have|has|makes?|making|gives?|"
    r"giving|gets?|leaves?|leaving|is|are|be|back|down|up|to|remain|with|comes?|coming|totals?|altogether|for|of|"
    r"until|but|us|or|brings?|reach(?:es)?|in all|get|till|s)"
)
_LEFT = r"now|left|in all|in total|altogether|all told|remain|again|each time|are left"
COUNT = re.compile(
    rf"(?:(?:{_COUNT_WORDS}[ ,:]{{1,2}})+|(?:[=:] ?|- )(?:{_COUNT_WORDS} )*){N}"
    rf"(?: (?:st|sc|each|there|once more|end|{_LEFT}))*{_ENDS}|"
    rf"{_N2}(?: (?:st|sc))?(?: (?:st|{_LEFT}))+{_ENDS}"
)
# Words that say nothing of how many: passed over between phrases
FLUFF = re.compile(
    r"\((?:it is|it's|that is|this is|these are|i\. ?e\.)[^()]{0,80}\)|(?:the )?end(?:s|ing)?(?=[ .]*$)|"
    r"(?:say(?: it)?(?: out loud)?(?: as you (?:take|go))?|the 1-2 goes in (?:the )?(?:same|1)(?: st)?|that is|"
    r"leave the markers? out|they|then|now|and|again|just|only|simply|take|always|you|we|i|first|next|go|"
    r"for (?:this|that) (?:round|row)|this time|to begin with|beginning|starting|in turn|here|also|with|so|after that|"
    r"next come|come|comes|this round|the round|finally|there|this|that|do (?:this|that)|please|once more|"
    r"round the \w+|over the \w+|for the \w+)(?![a-z0-9])[ ,:]{0,2}"
)
