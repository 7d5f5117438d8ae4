"""What stitches are called in other tongues, where a text explains its short forms in them: "pb = punto bajo".

From memory, unverified: the everyday words of pattern makers in Spanish, Portuguese, Italian, French, German, Dutch,
Danish, Swedish and Turkish. Keys are those of the stitch table; accents are left out.
"""

from __future__ import annotations

import re
import unicodedata

_WORDS: dict[str, str] = {
    "sc": "punto bajo|punto medio|medio punto|ponto baixo|maglia bassa|punto basso|maille serree|feste masche|vaste|"
    "vaste steek|fastmaske|fast maske|fastmaska|fast maska|sik igne",
    "hdc": "medio punto alto|media vareta|meio ponto alto|mezza maglia alta|demi bride|demi-bride|halbes stabchen|"
    "half stokje|halvt stokje|halvstangmaske|halvstolpe|yarim trabzan",
    "dc": "punto alto|vareta|ponto alto|maglia alta|bride|stabchen|stokje|stangmaske|stolpe|trabzan|tekli trabzan",
    "ch": "cadeneta|punto cadeneta|cadena|corrente|correntinha|catenella|maille en l'air|maille chainette|luftmasche|"
    "losse|luftmaske|luftmaska|zincir",
    "sl st": "punto deslizado|punto raso|punto enano|ponto baixissimo|maglia bassissima|maille coulee|kettmasche|"
    "halve vaste|kaedemaske|kjedemaske|smygmaska|ilmek kaydirma",
    "inc": "aumento|aumentar|augmentation|augmenter|zunahme|zunehmen|verdoppeln|meerdering|meerderen|udtagning|okning|"
    "artirma|arttirma",
    "dec": "disminucion|disminuir|diminuicao|diminuir|diminuzione|diminution|diminuer|abnahme|abnehmen|zusammenhakeln|"
    "mindering|minderen|indtagning|minskning|eksiltme|azaltma",
    "ring": "anillo magico|anillo|circulo magico|anel magico|anello magico|cerchio magico|cercle magique|"
    "anneau magique|fadenring|magischer ring|magische ring|magisk ring|magisk cirkel|sihirli halka",
}
_KEYS = {word: key for key, words in _WORDS.items() for word in words.split("|")}


# ... and as Russian, Polish and Czech have it, word for word: "column without yarn over", "connecting post"
_POST = r"(?:column|post|pillar|bar|stick|rod)s?"
_OVER = r"(?:(?:a |one |1 )?(?:yarn ?overs?|wraps?|yarns?))"
_PATTERNS: list[tuple[str, re.Pattern[str]]] = [
    ("sc", re.compile(rf"(?:single |short |fixed |plain )?{_POST} (?:without|with no) {_OVER}")),
    ("hdc", re.compile(rf"half[ -]?(?:a )?{_POST}(?: with {_OVER})?")),
    ("dc", re.compile(rf"(?:double |long )?{_POST} with {_OVER}")),
    ("sl st", re.compile(rf"(?:connecting|joining|connective|blind|linking) (?:half[ -]?)?{_POST}")),
    ("ch", re.compile(r"(?:air|aerial) (?:loops?|mesh(?:es)?|stitch(?:es)?)")),
]


def key_of(meaning: str) -> str | None:
    """The stitch that a meaning in another tongue names, by its first words; None where it names none that is known."""
    plain = "".join(c for c in unicodedata.normalize("NFKD", meaning.lower()) if not unicodedata.combining(c))
    plain = " ".join(plain.replace("\u2019", "'").replace("\u0131", "i").split()).strip(" .")
    told = next((key for key, words in _PATTERNS if words.fullmatch(plain)), None)
    if told is not None:
        return told
    return _KEYS.get(plain) or (_KEYS.get(plain.removesuffix("n")) if plain.endswith("n") else None) or _KEYS.get(
        plain.removesuffix("s")
    )
