"""What stitches are called in other tongues, where a text explains its short forms in them: "pb = punto bajo".

From memory, unverified: the everyday words of pattern makers in Spanish, Portuguese, Italian, French, German, Dutch,
Danish, Norwegian, Swedish, Finnish, Polish, Czech, Hungarian, Russian and Turkish. Keys are those
of the stitch table; accents are left out.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

from hookside.notation.vocabulary import REMEMBERED

_WORDS: dict[str, str] = {
    "sc": "punto bajo|punto medio|medio punto|ponto baixo|maglia bassa|punto basso|maille serree|feste masche|vaste|"
    "vaste steek|fastmaske|fast maske|fastmaska|fast maska|sik igne|polslupek|oczko scisle|kratky sloupek|"
    "kiintea silmukka|rovidpalca|stolbik bez nakida",
    "hdc": "medio punto alto|media vareta|meio ponto alto|mezza maglia alta|demi bride|demi-bride|halbes stabchen|"
    "half stokje|halvt stokje|halvstangmaske|halvstolpe|yarim trabzan",
    "dc": "punto alto|vareta|ponto alto|maglia alta|bride|stabchen|stokje|stangmaske|stolpe|trabzan|tekli trabzan",
    "ch": "cadeneta|punto cadeneta|cadena|corrente|correntinha|catenella|maille en l'air|maille chainette|luftmasche|"
    "losse|luftmaske|luftmaska|zincir",
    "sl st": "punto deslizado|punto raso|punto enano|ponto baixissimo|maglia bassissima|maille coulee|kettmasche|"
    "halve vaste|kaedemaske|kjedemaske|smygmaska|ilmek kaydirma",
    "inc": "aumento|aumentar|augmentation|augmenter|zunahme|zunehmen|verdoppeln|meerdering|meerderen|udtagning|okning|"
    "okt maske|artirma|arttirma|dodanie|dodawanie|dodane oczko|pridani|pridat|lisays|szaporitas|pribavka",
    "dec": "disminucion|disminuir|diminuicao|diminuir|diminuzione|diminution|diminuer|abnahme|abnehmen|zusammenhakeln|"
    "mindering|minderen|indtagning|minskning|eksiltme|azaltma|odjecie|odejmowanie|ubrani|ubrat|ujmout|kavennus|"
    "fogyasztas|ubavka|felling|fellemaske",
    "ring": "anillo magico|anillo|circulo magico|anel magico|anello magico|cerchio magico|cercle magique|"
    "anneau magique|fadenring|magischer ring|magische ring|magisk ring|magisk cirkel|sihirli halka",
}
_UNMARKED = str.maketrans("\u2019\u0131\u0142\u00f8\u0111", "'ilod")  # marks that are no accents
_KEYS = {word: key for key, words in _WORDS.items() for word in words.split("|")}


# ... and as Russian, Polish and Czech have it, word for word: "column without yarn over", "connecting post"
_POST = r"(?:column|post|pillar|bar|stick|rod)s?"
_OVER = r"(?:(?:a |one |1 )?(?:yarn ?overs?|wraps?|yarns?))"
# ... and what other tongues call a stitch: "low point", "tight mesh", "short needle"
NOUN = r"(?:point|stitch|st|mesh|knit|knitting|needle|eye|loop)(?:e?s)?"
_STICK = r"(?:(?:chop)?stick|rod|bridle|flange)s?"
_LOW = r"(?:low|tight|fixed|firm|solid|short|strong|dense|frequent|fine|thin|narrow)"
_SLIPPED = (
    r"(?:very low|lowest|low loose|slipped|sliding|dwarf|poured|cast|warp|connecting|joining|"
    r"pull(?:ed|ing)?(?:-out)?|running)"
)
_LOWER = ["low", "tight", "fixed", "firm", "solid", "short", "strong", "dense", "frequent", "fine", "thin", "narrow"]
POSTS = ["post", "column", "pillar"]
_JOINING = r"(?:connecting|joining|connective|blind|linking)"
# (stitch, what it is called, words of which it has one)
PHRASES: list[tuple[str, str, list[str]]] = [
    ("sl st", rf"{_SLIPPED} {NOUN}", ["low", "sli", "dwarf", "poured", "cast ", "warp", "ing ", "pull"]),
    ("sc", rf"{_LOW} {NOUN}", _LOWER),
    ("hdc", rf"half[ -](?:{_STICK}|(?:high|long|tall) {NOUN})|medium[ -]high {NOUN}", ["half", "medium"]),
    (
        "dc",
        rf"(?:high|tall|long) {NOUN}|(?:whole |full )?{_STICK}",
        ["high", "tall", "long", "stick", "rod", "bridle", "flange"],
    ),
    (
        "ch",
        rf"(?:turning )?(?:air|aerial|flying|lock|braid) (?:{NOUN}|chains?)|{NOUN} in the air|"
        r"(?:little|small|mini) chains?|chain(?:lets?|ettes?|ites?)",
        ["air", "aerial", "flying", "lock", "braid", "little", "small", "mini", "chainle", "chainet", "chainit"],
    ),
    (
        "inc",
        rf"augmentations?|increments?|enlargements?|(?:{_LOW} {NOUN} )?(?:plus|add(?! eyes?\b)|added) {NOUN}",
        ["augment", "incre", "enlarge", "plus", "add"],
    ),
    (
        "dec",
        rf"reductions?|diminutions?|decrements?|(?:{_LOW} {NOUN} )?(?:minus|less|reduced?|subtract) {NOUN}",
        ["reduc", "diminution", "decrement", "minus", "less", "subtract"],
    ),
    ("sl st", rf"{_JOINING} (?:half[ -]?)?{_POST}", POSTS),
    ("sc", rf"(?:single |short )?{_POST} (?:without|with no) (?:{_OVER}|crochets?)", POSTS),
    ("dc", rf"(?:double |long )?{_POST} with (?:{_OVER}|(?:a |one |1 )crochet)", POSTS),
]
_PATTERNS: list[tuple[str, re.Pattern[str]]] = [
    ("sc", re.compile(rf"(?:single |short |fixed |plain )?{_POST} (?:without|with no) (?:{_OVER}|crochets?)")),
    ("hdc", re.compile(rf"half[ -]?(?:a )?{_POST}(?: with {_OVER})?")),
    ("dc", re.compile(rf"(?:double |long )?{_POST} with (?:{_OVER}|(?:a |one |1 )?crochet)")),
    ("sl st", re.compile(rf"{_JOINING} (?:half[ -]?)?{_POST}")),
    *((key, re.compile(phrase)) for key, phrase, _ in PHRASES),
]

# "mesh low", "stitch chain": put into English word for word, what it is like stays behind
_NOUN_FIRST = re.compile(rf"({NOUN}) ([a-z]+)")


@lru_cache(REMEMBERED)
def key_of(meaning: str) -> str | None:
    """The stitch that a meaning in another tongue names, by its first words; None where it names none that is known."""
    plain = "".join(c for c in unicodedata.normalize("NFKD", meaning.lower()) if not unicodedata.combining(c))
    plain = " ".join(plain.translate(_UNMARKED).split()).strip(" .")
    told = next((key for key, words in _PATTERNS if words.fullmatch(plain)), None)
    if told is None and (turned := _NOUN_FIRST.fullmatch(plain)):
        told = next((key for key, words in _PATTERNS if words.fullmatch(f"{turned[2]} {turned[1]}")), None)
    if told is not None:
        return told
    return _KEYS.get(plain) or (_KEYS.get(plain.removesuffix("n")) if plain.endswith("n") else None) or _KEYS.get(
        plain.removesuffix("s")
    )
