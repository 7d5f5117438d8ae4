"""Ways to ask for copies beside a name, put into ours: "Ears, in pairs", "Paws -> 4", "Leg (repeat 3 more times for 4
legs)" all as "(make 4)"."""

from __future__ import annotations

import re
from collections.abc import Callable

from hookside.notation.lines.heads.parts import PARTS
from hookside.notation.sought import Sought
from hookside.notation.vocabulary import SEVERAL, number_of
from hookside.stitches import singular


def _a_part(word: str) -> bool:
    return word.lower() in PARTS or singular(word.lower()) in PARTS


def _led(match: re.Match[str]) -> str:
    noun = re.match(r"[A-Za-z]+", match.string[match.end() :])
    return f"{match['n']} x " if noun is not None and _a_part(noun[0]) else match[0]


def _of_a_part(match: re.Match[str]) -> str:
    """Such words count a part, where its name stands right in front of them; and nothing of any other line."""
    told = match.groupdict()
    n = told.get("n") or told.get("n2") or told.get("n3") or ("3" if told.get("three") else "2")
    numbered = told.get("n3") and singular(match["noun"].lower()) == match["noun"].lower()  # "Leg (left) 2"
    return f"{match['part']} (make {n})" if _a_part(match["noun"]) and not numbered else match[0]


_JOINED = re.compile(r"[&,/+]|\band\b", re.I)
_SIDE = r"(?:left|right|top|bottom|front|back|upper|lower|inner|outer)"
_SHADES = r"(?:colou?rs|shades|yarns|sizes)"
_IN_ONE_BIRTH = {"tw": 2, "du": 2, "tr": 3, "qu": 4}
def _counted_of_a_part(match: re.Match[str]) -> str:
    """ "The wings are two": so many of a part, and nothing of any other line."""
    n, part, noun = (match[name] or match[f"{name}4"] for name in ("n", "part", "noun"))
    return f"{part} (make {n})" if _a_part(noun) else match[0]


# Other ways to ask for copies behind a name -> ours
_IN_FORM: list[tuple[Sought, str | Callable[[re.Match[str]], str]]] = [
    # "Fins; 2", "Mittens; two pairs"
    (
        Sought((";",), rf"^(?P<name>\W*[a-z][a-z' ]{{1,24}});(?= (?:make |x ?|a )?(?:{SEVERAL}|pair)\b)", re.I),
        r"\g<name>,",
    ),
    # "Gill (make one in each of three colours)", "Gill (in 3 colors, one of each)", "One gill in each of the 4 shades"
    (
        Sought(
            (" each",),
            rf"(?P<in>[(\[,:-])\s*(?:make )?(?:(?:one|1) (?:in|of|for) each of (?:the )?(?P<n>{SEVERAL}) {_SHADES}|"
            rf"(?:in )?(?P<n2>{SEVERAL}) (?:different )?{_SHADES},? (?:one|1) (?:in|of) each)(?=\s*(?:[)\].:]|$))",
            re.I,
        ),
        r"\g<in>make \g<n>\g<n2>",
    ),
    (
        Sought(
            ("in each of", "of each of"),
            rf"^\W*(?:one|1) (?P<name>[a-z]{{3,}}) (?:in|of) each of (?:the )?(?P<n>{SEVERAL}) {_SHADES}(?=\W*$)",
            re.I,
        ),
        r"\g<name> (make \g<n>)",
    ),
    # "Scale (then 4 more)", "Scale + 4 more", "Scale and its 4 siblings", "Scale (repeat 4 times more)"
    (
        Sought(
            ("more", "others", "siblings", "additional", "further"),
            r"(?<=[a-z\d)])(?:\s*[(\[,:;.]\s*|\s-+\s|\s)(?:(?:and|then|plus|\+|&|repeat|do)(?: then)?,? )"
            rf"(?:(?:make|work|do|crochet|repeat) )?(?:(?:this|it|the|its) )*(?P<n>{SEVERAL}) "
            r"(?:others|siblings|(?:more|additional|further)(?: times| copies| pieces)?|times more)"
            r"(?: (?:like (?:it|this|that)|the same(?: way)?|alike|of (?:these|them)))?[)\]]?(?=\s*[.:]?\s*$)",
            re.I,
        ),
        lambda m: f" (make {1 + number_of(m['n'])})",
    ),
    # "Scale, triplets", "Scale in triplicate", "Scale (twins)"
    (
        Sought(
            ("twins", "duplicate", "triplets", "triplicate", "quadruplets", "quadruplicate"),
            r"(?<=[a-z)])(?: ?[(\[,:-] ?| )(?:(?:make |work )?(?:in |as |an? )?)?"
            r"(?P<word>twins|duplicate|triplets|triplicate|quadruplets|quadruplicate)[)\]]?(?=\s*[.:]?\s*$)",
            re.I,
        ),
        lambda m: f" (make {_IN_ONE_BIRTH[m['word'][:2].lower()]})",
    ),
    # "Leg (repeat 3 more times for 4 legs)", "Ear (do again to get 2 ears)"
    (
        Sought(
            ("(rep", "[rep", "(do", "(work"),
            r"[(\[](?:repeat|rep|do|work)\b[^()\[\]]{0,24}?,? (?:for|to (?:make|get|have)|so there are|making) "
            rf"(?:a total of |all )?(?P<n>{SEVERAL})(?: (?:[a-z]+s|in all|in total))[)\]]",
            re.I,
        ),
        r"(make \g<n>)",
    ),
    # "Ear (make second one the same)", "Ear (make the other one alike)"
    (
        Sought(
            ("second", "other", "2nd"),
            r"(?:[(\[]|(?<=[a-z])(?:[,:;.]| -+) )(?:then )?(?:make|work|crochet|do) (?:the |a )?(?:second|2nd|other)"
            r"(?: one| [a-z]{3,8})? (?:exactly )?(?:the same(?: way)?|alike|likewise|identical(?:ly)?)"
            r"(?:[)\]]|[.:]?\s*$)",
            re.I,
        ),
        " (make 2)",
    ),
    # "Wing (make one, then another)", "Wing (make a left and a right)", "Lid: an upper and a lower one"
    (
        Sought(
            ("another", "a second", " and a"),
            r"(?:[(\[]|(?<=[a-z])(?:[,:;]| -+) )(?:make |work |crochet |you need )?"
            r"(?:one,? (?:and )?then (?:another|a second)(?: one)?|"
            rf"an? {_SIDE}(?: one)?,? and an? {_SIDE}(?: one)?)(?:[)\]]|(?=\s*[.:]?\s*$))",
            re.I,
        ),
        "(make 2)",
    ),
    # "Legs (four times over)", "Legs: you'll be needing 4"
    (
        Sought(
            ("times", "needing", "there", "making"),
            r"(?<=[a-z)])(?: ?[(\[,:-] ?| )(?:(?:(?:you|we)(?:'ll| will) be (?:needing|making)|"
            r"there (?:should|must|will|have to) be|there are) "
            rf"(?P<n>{SEVERAL})(?: of (?:them|these|those))?|"
            rf"(?P<n2>{SEVERAL}) times over)"
            r"[)\]]?(?=\s*[.:]?\s*$)",
            re.I,
        ),
        r" (make \g<n>\g<n2>)",
    ),
    # "Tail: 1 pc"
    (Sought((" pc",), r"(?<=[a-z])(?::| -+) (?P<n>\d{1,2}) pc\.?(?=\s*$)", re.I), r" (make \g<n>)"),
    # "Leg 1 (of 4)": which one of them it is
    (Sought((" of ", "(of "), rf"(?<=[a-z] \d) ?[(\[]?of (?:{SEVERAL})[)\]]?(?=\s*[.:]?\s*$)", re.I), ""),
    # "Ear (mk 2)", "Ears, wk 2 alike"
    (Sought(("mk", "wk", "(m", "[m"), r"(?:(?<=[(\[, ])[mw]k\.? ?|(?<=[(\[])m ?)(?=(?:x ?)?\d)", re.I), "make "),
    # "Two pairs of boots"
    (
        Sought(("pair",), rf"^(?P<lead>\W*)(?P<n>{SEVERAL}) pairs? (?:of )?(?=[a-z]+s\b)", re.I),
        lambda m: f"{m['lead']}{2 * number_of(m['n'])} ",
    ),
    # "Set of 2 ears", "1 pair of ears"
    (Sought(("set of",), rf"^\W*(?:an? |one |1 )?set of (?=(?:{SEVERAL}) [a-z]+s\b)", re.I), ""),
    (Sought(("pair of",), r"^\W*(?:1|one) pair of (?=[a-z]+)", re.I), "pair of "),
    # "Ears 1 pair", "Ears (1 pr)"
    (
        Sought(
            (" pair", " pr"),
            r"(?<=[a-z])(?:[,:]? ?(?P<in>[(\[])?| -+ )(?:1|one|an?) p(?:ai)?r\.?(?(in)(?=[)\],])|(?=\s*[.:]?\s*$))",
            re.I,
        ),
        lambda m: f" {m['in'] or ''}make 2",
    ),
    # "Petal - 6 no.", "Ears 2 nos.", "Ear, 2 each", "Paw (4 ea.)", "Paws all 4 alike", "Flag 2off", "Spot (5 or so)"
    (
        Sought(
            (" no", "ea", "item", "unit", "alike", "off", "or so"),
            rf"(?<=[a-z)*])(?:[,:] ?| -+ | ?[(\[]| )(?:all )?(?P<n>{SEVERAL})"
            r"(?: ?(?:off|ea\.?)| (?:nos?\.?|each|items?|units?|alike|or so))[)\]]?(?=\s*[.:]?\s*$)",
            re.I,
        ),
        lambda m: m[0] if _JOINED.search(m.string[: m.start()]) else f" (make {m['n']})",  # "Arms & legs: 2 each"
    ),
    # "PETALx6"
    (Sought(("x",), r"(?<=[a-z]{3})x(?=\d{1,2}\W*$)", re.I), " x"),
    # "5 identical legs", "two matching wings"
    (
        Sought(
            ("identical", "matching", "equal", "similar"),
            rf"^(?P<n>\W*{SEVERAL}) (?:identical|matching|equal|similar) (?=[a-z]+s\b)",
            re.I,
        ),
        r"\g<n> ",
    ),
    # "FINS, two also", "Side fins also 2", "Ears, two of them as well"
    (
        Sought(
            ("also", "as well", "too", "again"),
            rf"(?<=[a-z\d)])(?:[,:] ?| -+ |(?<=s) )(?:(?:also|again) (?P<n>{SEVERAL})"
            rf"(?: of (?:them|these|those))?|(?P<n2>{SEVERAL})"
            r"(?: of (?:them|these|those))? (?:also|as well|too|again))\s*[.:]?\s*$",
            re.I,
        ),
        r" (make \g<n>\g<n2>)",
    ),
    # "Ear_2x"
    (Sought(("_",), r"(?<=[a-z])_(?=\d{1,2} ?x\W*$|x ?\d{1,2}\W*$)", re.I), " "),
    # "Scale (at least 4)": `left_open` says the rest
    (Sought(("at least",), r"[(\[](?:make |you need )?at least (?P<n>\d{1,2})[)\]]", re.I), r"(make \g<n>)"),
    # "Ear no. 1 & no. 2"
    (
        Sought(
            ("no.", "nr", "number", "#"),
            r"(?P<no>\b(?:no\.|nr\.?|number) ?|#)(?P<a>\d) ?(?P<and>&|and|\+|/) ?"
            r"(?:no\.|nr\.?|number|#) ?(?=\d\W*$)",
            re.I,
        ),
        r"\g<no>\g<a> \g<and> ",
    ),
    # "Ears, in pairs", "Fins: worked pairwise", "Wings. As a pair."
    (
        Sought(
            ("pair",),
            r"(?<=[a-z)])(?: ?[(\[,:.-]+ ?| )(?:(?:all |always )?(?:made|worked|make|work|crochet) )?"
            r"(?:(?:in|by) pairs|pairwise|(?:as|in) a pair|"
            r"(?:(?:as|in) )?(?:an? )?(?:matching|mirrored) pair|a pair (?:each|of (?:them|these)))"
            r"[)\]]?(?=\s*[.:]?\s*$)",
            re.I,
        ),
        " (make 2)",
    ),
    # "Leg (you'll need to make this 4 times)"
    (
        Sought(
            ("times",),
            r"[(\[](?:you(?:'ll| will)? )?(?:(?:need|have|want) to )?(?:make|work|crochet|do) "
            rf"(?:(?:this|it|these|them)(?: ones?)? )?(?P<n>{SEVERAL}) times[)\]]",
            re.I,
        ),
        r"(make \g<n>)",
    ),
    # "Ear & its twin", "Ear + 1 more"
    (
        Sought(
            ("twin", "mate", "mirror", "partner", "1 more", "one more"),
            r"(?<=[a-z)]) (?:&|and|\+|plus) ?(?:(?:its|the|a|his|her) )?"
            r"(?:twin|mate|mirror(?:ed)? (?:image|twin)|partner|(?:1|one) more)(?=\s*[.:]?\s*$)",
            re.I,
        ),
        " (make 2)",
    ),
    # "4 * Paw"
    (Sought(("*",), r"^\s*(?P<n>[2-9]|1\d) ?\* ?(?=[a-z]{3})", re.I), _led),
    # "Eight legs", "All 10 toes"
    (
        Sought(
            ("seven", "eight", "nine", "ten", "7", "8", "9", "1"),
            r"^\W*(?:(?:all|the) )?(?P<n>[7-9]|1\d|seven|eight|nine|ten) (?=[a-z]{3})",
            re.I,
        ),
        _led,
    ),
    # "Paws -> 4", "Ear = 2", "Legs (tan) 4 times", "Legs (tan) 4", "Ear twice"
    (
        Sought(
            (">", "=", "\u2192", "times", ") ", "] ", "twice", "thrice"),
            r"^(?P<part>\W*(?:[a-z]+ ){0,2}(?P<noun>[a-z]+)(?: ?[(\[][^()\[\]]{1,20}[)\]])?)\s*"
            rf"(?:(?:[-=\u2013\u2014]*>+|=|\u2192) ?(?:make |x ?)?(?P<n>{SEVERAL})(?: ?x)?|(?P<n2>{SEVERAL}) times|"
            rf"(?<=[)\]]\s)(?P<n3>{SEVERAL})|"
            r"[(\[,:-]* ?(?:(?P<two>twice)|(?P<three>thrice))[)\]]?)\s*[.:]?\s*$",
            re.I,
        ),
        _of_a_part,
    ),
    # "The wings are two alike", "There are four legs, all the same"
    (
        Sought(
            ("are ",),
            rf"^(?:(?P<part>\W*(?:[a-z]+ ){{0,2}}(?P<noun>[a-z]+s|feet)) are (?P<n>{SEVERAL})|"
            rf"\W*there are (?P<n4>{SEVERAL}) (?P<part4>(?:[a-z]+ )?(?P<noun4>[a-z]+s|feet)))"
            r"(?:,? (?:and )?(?:of (?:them|these)|(?:all |both |exactly )*(?:alike|the same|identical)))*\s*[.:]?\s*$",
            re.I,
        ),
        _counted_of_a_part,
    ),
    # "Paw, of which there are two", "Wing, two of which are needed"
    (
        Sought(
            ("which",),
            rf"(?<=[a-z)])(?: ?[(\[,:-] ?| )(?:of which(?: there (?:are|will be)| (?:we|you)(?:'ll)? (?:will )?"
            rf"(?:need|make|want)| it has)? (?P<n>{SEVERAL})|(?P<n2>{SEVERAL}) of which(?: (?:are|is))?"
            rf"(?: (?:needed|wanted|required|made))?)[)\]]?(?=\s*[.:]?\s*$)",
            re.I,
        ),
        r" (make \g<n>\g<n2>)",
    ),
    # "Wheels + 4", "Wheel - 4 like this", "Left ear (right ear the same)"
    (
        Sought(
            (" like th", "s +"),
            rf"(?<=[a-z])(?:(?<=s) \+| -+|,) ?(?P<n>{SEVERAL})(?: like (?:this|these))?\W*$",
            re.I,
        ),
        r" (make \g<n>)",
    ),
    (
        Sought(
            ("same", "alike", "mirror"),
            r"(?<=[a-z]) ?[(\[](?:the )?(?:right|left|other|second) [a-z]+(?: is| made| worked)? "
            r"(?:(?:exactly )?the same|alike|mirrored)[)\]]",
            re.I,
        ),
        " (make 2)",
    ),
    # "EARS............2", "Hoof / 4 needed", "Leg ... make 2", "Hoof | 4"
    (
        Sought(
            ("..", ". .", " /", "\u2026", "|"),
            rf"(?<=[a-z)])(?: ?(?:\.{{2,}}|\. \.|\u2026)[ .\u2026]*| ?[/|]+ ?)(?:make |x ?)?(?P<n>1|{SEVERAL}|one)"
            r"(?: ?x| (?:are )?(?:needed|required|wanted)| pieces| pcs| of (?:them|these|those|'em))?(?=\s*[.:]?\s*$)",
            re.I,
        ),
        r" (make \g<n>)",
    ),
    # "[leg] count=4"
    (
        Sought(
            ("count", "qty", "quantity", "copies"),
            r"(?<=[\]a-z)]),? (?:count|qty|quantity|copies)\.? ?[=:] ?(?P<n>[2-9]|1\d)(?=\s*[.:]?\s*$)",
            re.I,
        ),
        r" (make \g<n>)",
    ),
    # "Arm L/R", "Wing left/right"
    (
        Sought(
            ("l", "left"),
            r"^(?P<part>\W*(?:[a-z]+ )?(?P<noun>[a-z]+)),? (?:(?:l|left) ?(?:[/&+]|and) ?(?:r|right)|"
            r"(?:r|right) ?(?:[/&+]|and) ?(?:l|left))\s*[.:]?\s*$",
            re.I,
        ),
        _of_a_part,
    ),
    # "Wing (L) and (R)", "Wing (left) & (right)"
    (
        Sought(
            ("(l)", "(r)", "(left)", "(right)"),
            r"\((?:(?:l|left)\),? ?(?:and|&|\+|/|,) ?\((?:r|right)|(?:r|right)\),? ?(?:and|&|\+|/|,) ?\((?:l|left))\)",
            re.I,
        ),
        "(left and right)",
    ),
]


def in_our_words(text: str) -> str:
    """ "Ears, in pairs" -> "Ears (make 2)"."""
    low = text.lower()
    for rule, make in _IN_FORM:
        if rule.may_be_in_small(low):
            text = rule.pattern.sub(make, text)
            low = text.lower()
    return text
