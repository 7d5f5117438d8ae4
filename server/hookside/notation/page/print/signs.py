
"""Signs of print and of other alphabets, and the plain ones that stand for them."""

from __future__ import annotations

import re

_SPACES = "\u00a0\u1680\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000\t"
_DASHES = "\u2010\u2011\u2012\u2013\u2014\u2015\u2212\u2043\ufe58\ufe63\u30fc\u2500\u2501\u301c\u223c\u3030\u2053"
_SINGLE = "\u2018\u2019\u201a\u201b\u2032\u00b4\u02bc`"
_DOUBLE = "\u201c\u201d\u201e\u201f\u2033\u00ab\u00bb\u300c\u300d\u300e\u300f\u3003"
_TIMES = "\u00d7\u2715\u2716\u2717\u2718\u2a2f\u2573\u274c\u2a09"
_STARS = "\u2217\u2731\u2732\u2736\u2605\u2606\u22c6\u204e\uff0a\u066d\u273b\u273d"
_BULLETS = "\u2022\u2023\u25aa\u25ab\u25cf\u25cb\u25e6\u2219\u00b7\u25b8\u25ba\u25b6\u27a2\u2713\u2714\u2751"
VANISH = (
    "\u200b\u200c\u200d\u2060\ufeff\u00ad\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\ufe0e\ufe0f"
)
# Letters of other alphabets that look Latin: Cyrillic and Armenian, then Greek (Unicode confusables list, from memory).
_ALIKE = (
    ("асеіјорѕхуһԁոткмнвАВСЕНІЈКМОРЅТХУ", "aceijopsxyhdntkmhbABCEHIJKMOPSTXY"),
    ("οαεικνρτυχϲΑΒΕΖΗΙΚΜΝΟΡΤΥΧ", "oaeikvptuxcABEZHIKMNOPTYX"),
)


def _one_for_one() -> dict[int, str]:
    table: dict[int, str] = {}
    for chars, to in (
        (_SPACES, " "),
        (_DASHES, "-"),
        (_SINGLE, "'"),
        (_DOUBLE, '"'),
        (_TIMES, "x"),
        (_STARS, "*"),
        (_BULLETS, " "),
        ("\u2028\u2029\u0085\x0b\x0c", "\n"),
        ("\u3002\uff61", "."),
        ("\u3001", ","),
        ("\u3010\u3014\u27e8\u27e6\u2329\u3008\u300a", "["),
        ("\u3011\u3015\u27e9\u27e7\u232a\u3009\u300b", "]"),
        ("\u2192\u21d2\u27a1", "="),
        ("\u2190\u21d0\u2b05", ";"),  # "sc around (24) <- eyes go here": what is told of the round
        ("\u2044\u2215", "/"),
        ("\u00a6\u2502\u2503", "|"),
    ):
        for char in chars:
            table[ord(char)] = to
    for code in range(0xFF01, 0xFF5F):  # full-width forms of ASCII
        table[code] = chr(code - 0xFEE0)
    table[0xFF5E] = "-"  # a wide wave between two numbers is a dash
    for others, latin in _ALIKE:
        table.update(zip(map(ord, others), latin, strict=True))
    for code in (*range(32), 127):
        if chr(code) not in "\n\r" and code not in table:
            table[code] = " "
    return table


TABLE = _one_for_one()
NUMBER_MARK = "\ue000"  # put in the place of an ideographic comma behind a number
NAME_MARK = "\ue001"  # ... and in that of a dash between a name and its work
TEN_MARK = "\ue006"  # ... and in that of a key with a ten
GROWS = {
    NUMBER_MARK: ". ",
    NAME_MARK: " - ",
    TEN_MARK: "10:",
    "\u2026": "...",
    "\ufb00": "ff",
    "\ufb01": "fi",
    "\ufb02": "fl",
    "\ufb03": "ffi",
    "\ufb04": "ffl",
    "\ufb05": "st",
    "\ufb06": "st",
    **{chr(0x2460 + n): f"{n + 1}) " for n in range(20)},  # numbers in circles, as labels
}
MOVES = re.compile("[" + re.escape(VANISH + "".join(GROWS)) + "]")
