"""What is said in recordings whose names tell it: short words of the English speaker, to put phrases together from."""

from __future__ import annotations

import random

import material

from hookside.voice.phrasebook import Phrasebook

FOLDER = "en_US_f_Allison/"
PHONETIC = (
    "alpha", "charlie", "echo", "foxtrot", "golf", "hotel", "india", "juliet", "kilo", "lima", "november",
    "oscar", "papa", "romeo", "sierra", "tango", "uniform", "yankee",
)  # fmt: skip
MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september", "october",
    "november", "december",
)  # fmt: skip
NTH = {
    1: "first", 2: "second", 5: "fifth", 9: "ninth", 10: "tenth", 13: "thirteenth", 14: "fourteenth", 15: "fifteenth",
    30: "thirtieth", 60: "sixtieth", 70: "seventieth", 80: "eightieth",
}  # fmt: skip
OTHERS = {
    "activated": "activated", "added": "added", "auth-thankyou": "thank you", "call-waiting": "call waiting",
    "digits/hundred": "hundred", "digits/million": "million", "digits/billion": "billion", "digits/minus": "minus",
    "digits/oclock": "o'clock", "extension": "extension", "location": "location", "minutes": "minutes",
    "number": "number", "one-moment-please": "one moment please", "please-try-again": "please try again",
    "privacy-thankyou": "thank you", "seconds": "seconds", "speed-dial": "speed dial", "time": "time",
    "do-not-disturb": "do not disturb", "vm-goodbye": "goodbye", "vm-Family": "family", "vm-Work": "work",
    "vm-Old": "old", "vm-first": "first", "vm-last": "last", "vm-from": "from", "vm-for": "for",
    "vm-message": "message", "vm-messages": "messages", "vm-minutes": "minutes", "vm-password": "password",
    "vm-press": "press", "letters/at": "at", "letters/dot": "dot", "letters/space": "space",
    "letters/asterisk": "asterisk", "with": "with", "queue-minute": "minute", "digits/day-0": "sunday",
    "digits/day-1": "monday", "digits/day-2": "tuesday", "you-entered": "you entered",
}  # fmt: skip
LEAST, MOST = 2, 4  # words of a phrase
LOUD = 500  # of 32767: what is softer at the ends of a recording is its silence


def texts() -> dict[str, str]:
    """Recording to what is said in it."""
    numbers = Phrasebook.load("en").counting.numbers
    counted = [n for n in range(1, 100) if n < 20 or n % 10 == 0]
    return {
        **OTHERS,
        **{f"phonetic/{word[0]}_p": word for word in PHONETIC},
        **{f"digits/mon-{n}": month for n, month in enumerate(MONTHS)},
        **{f"digits/h-{n}": word for n, word in NTH.items()},
        **{f"digits/{n}": numbers.say(n)[0] for n in counted},
    }


def phrases(seed: int, count: int, scored: bool = False) -> list[tuple[str, bytes]]:
    """(text, sound) of phrases of two and three recordings drawn by chance, from one half of them."""
    chance = random.Random(seed)
    there = {r.name.removeprefix(FOLDER): r for r in material.recordings() if r.scored == scored}
    said = {name: text for name, text in texts().items() if name in there}
    out: list[tuple[str, bytes]] = []
    while len(out) < count:
        names = chance.sample(sorted(said), chance.choice((2, 2, 2, 3)))
        text = " ".join(said[name] for name in names)
        if LEAST <= len(text.split()) <= MOST:
            out.append((text, b"".join(material.trimmed(there[name].sound(), LOUD) for name in names)))
    return out
