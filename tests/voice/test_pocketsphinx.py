"""pocketsphinx on real sound: utterances, their times, silence, gaps, changes of what is expected, a murmur behind."""

from __future__ import annotations

import threading
from typing import Any

import pytest

from hookside.voice.count import Count
from hookside.voice.decision import Counting, Expecting
from hookside.voice.engines.utterances import LONGEST
from hookside.voice.engines.with_pocketsphinx import Sphinx, cut_short
from hookside.voice.heard import BYTES_A_SECOND, EngineLost, Heard
from hookside.voice.phrasebook import Phrasebook

from .conftest import feed

PHRASES = ["next stitch", "round done", "where now", "go back", "next round", "how many left", "say that again"]
NAMES = [f"{voice}-{phrase}" for voice in ("slt", "rms", "awb") for phrase in
         ("next-stitch", "round-done", "where-now", "go-back")]  # fmt: skip


def frames(sound: bytes) -> list[bytes]:
    return [sound[at : at + 960] for at in range(0, len(sound), 960)]


def words_of(name: str) -> str:
    return " ".join(name.split("-")[1:])


def test_every_utterance_is_heard_with_its_times(room: Any, sphinx: Sphinx) -> None:
    recogniser = sphinx.recogniser(PHRASES)
    before = 0.0
    for name in NAMES:
        said = room.said(name)
        start = recogniser.clock + 1.0
        end = start + len(said) / BYTES_A_SECOND
        (heard,) = feed(recogniser, room.still(1.0) + said + room.still(0.8))
        assert heard.words == words_of(name)
        assert heard.engine == "pocketsphinx"
        assert heard.start == pytest.approx(start, abs=0.1)
        assert heard.end == pytest.approx(end, abs=0.12)
        assert heard.quiet == pytest.approx(heard.start - before)
        assert heard.score is not None
        assert heard.phones
        assert [span.word for span in heard.spans] == heard.words.split()
        assert heard.spans[0].end <= heard.spans[1].start + 1e-9
        assert recogniser.again() is None  # in a quiet room it would come out alike
        before = heard.end
    recogniser.close()


def test_no_phrase_takes_a_number_away_from_a_count(room: Any, sphinx: Sphinx) -> None:
    """Among all that may be said in a count, a number alone is heard as a number; which one, `Count` judges.
    A phrase that has only begun is heard as well: "fewer reminders" took every second "two"."""
    book = Phrasebook.load("en")
    expecting = Expecting(count=Counting("repeat", (1, 2, 3, 4, 5, 6), left=6))
    recogniser = sphinx.recogniser([*book.phrases(single=False), *Count(book).phrases(expecting)])
    numbers = ["one", "two", "three", "four", "five", "six", "one", "two", "one", "two", "one", "two"]
    said = [
        heard.words
        for number in numbers
        for heard in feed(recogniser, room.still(1.2) + room.said(f"slt-{number}") + room.still(0.8))
    ]
    recogniser.close()
    assert len(said) == len(numbers)
    assert [words for words in said if words not in book.counting.numbers.values] == []


def test_its_end_is_found_within_a_third_of_a_second(room: Any, sphinx: Sphinx) -> None:
    """In sound, not by the clock: how much silence it takes until the utterance is out."""
    recogniser = sphinx.recogniser(PHRASES)
    feed(recogniser, room.still(1.0) + room.said("slt-go-back"))
    assert any(recogniser.feed(room.still(0.02)) for _ in range(17))
    recogniser.close()


def test_silence_and_digital_silence_say_nothing(room: Any, sphinx: Sphinx) -> None:
    recogniser = sphinx.recogniser(PHRASES)
    assert feed(recogniser, room.still(5.0)) == []
    assert feed(recogniser, bytes(5 * BYTES_A_SECOND)) == []
    assert recogniser.clock == pytest.approx(10.0)
    recogniser.close()


def test_talk_fits_worse_than_a_phrase(room: Any, sphinx: Sphinx) -> None:
    recogniser = sphinx.recogniser(PHRASES)
    said = [feed(recogniser, room.still(1.0) + room.said(n) + room.still(0.8))[0] for n in NAMES[:4]]
    talk = feed(recogniser, room.still(1.0) + room.said("talk") + room.still(0.8))
    fits = [h.score for h in said if h.score is not None]
    assert len(fits) == 4
    for heard in talk:
        assert heard.score is not None
        assert heard.score < min(fits)
    recogniser.close()


def test_a_gap_ends_an_utterance_and_moves_the_clock(room: Any, sphinx: Sphinx) -> None:
    recogniser = sphinx.recogniser(PHRASES)
    assert feed(recogniser, room.still(1.0) + room.said("rms-round-done")) == []
    (heard,) = recogniser.gap(60.0)
    assert heard.words == "round done"
    begins = recogniser.clock
    assert begins == pytest.approx(61.0 + len(room.said("rms-round-done")) / BYTES_A_SECOND)
    (heard,) = feed(recogniser, room.said("rms-where-now") + room.still(0.8))
    assert heard.words == "where now"
    assert heard.start == pytest.approx(begins, abs=0.1)
    assert heard.quiet == pytest.approx(60.0, abs=0.3)
    recogniser.close()


def test_reset_drops_what_is_being_said(room: Any, sphinx: Sphinx) -> None:
    recogniser = sphinx.recogniser(PHRASES)
    said = room.said("awb-next-stitch")
    feed(recogniser, room.still(1.0) + said[: len(said) // 2])
    recogniser.reset()
    assert feed(recogniser, room.still(1.0)) == []
    clock = recogniser.clock
    (heard,) = feed(recogniser, room.said("awb-go-back") + room.still(0.8))
    assert heard.words == "go back"
    assert heard.quiet == pytest.approx(1.0, abs=0.1)
    assert heard.start == pytest.approx(clock, abs=0.1)
    recogniser.close()


def test_what_is_expected_changes_with_the_next_utterance(room: Any, sphinx: Sphinx) -> None:
    recogniser = sphinx.recogniser(["yes please", "not yet"])
    (heard,) = feed(recogniser, room.still(1.0) + room.said("slt-where-now") + room.still(0.8))
    assert heard.words in ("yes please", "not yet", "")
    recogniser.expect(["where now", "not yet"])
    (heard,) = feed(recogniser, room.still(1.0) + room.said("slt-where-now") + room.still(0.8))
    assert heard.words == "where now"
    recogniser.expect(PHRASES)
    (heard,) = feed(recogniser, room.still(1.0) + room.said("slt-go-back") + room.still(0.8))
    assert heard.words == "go back"
    recogniser.close()


def test_the_same_phrases_are_learnt_once(room: Any, sphinx: Sphinx, monkeypatch: pytest.MonkeyPatch) -> None:
    """To learn them all takes a tenth of a second: at once where nothing is being said, and not for nothing."""
    recogniser = sphinx.recogniser(PHRASES)
    learnt: list[int] = []
    learn = recogniser.learn
    monkeypatch.setattr(recogniser, "learn", lambda phrases, row: (learnt.append(len(phrases)), learn(phrases, row)))
    recogniser.expect(list(PHRASES))
    assert learnt == []
    recogniser.expect(PHRASES[:2])
    assert learnt == [2]
    said = room.said("slt-next-stitch")
    feed(recogniser, room.still(1.0) + said[: len(said) // 2])
    recogniser.expect(PHRASES)
    assert learnt == [2]
    (heard,) = feed(recogniser, said[len(said) // 2 :] + room.still(0.8))
    assert heard.words == "next stitch"
    feed(recogniser, room.still(1.0) + said + room.still(0.8))
    assert learnt == [2, len(PHRASES)]
    recogniser.close()


def test_nothing_to_expect_hears_no_words(room: Any, sphinx: Sphinx) -> None:
    recogniser = sphinx.recogniser([])
    said = feed(recogniser, room.still(1.0) + room.said("slt-where-now") + room.still(0.8))
    assert [h.words for h in said] == [""]
    recogniser.close()


def test_words_it_does_not_know(room: Any, sphinx: Sphinx) -> None:
    assert sphinx.vocabulary(["stitch", "xyzzyx", "repeat", "다음", "", "(2)", "a b"]) == {"stitch", "repeat"}
    recogniser = sphinx.recogniser(["xyzzyx done", "round done"])
    (heard,) = feed(recogniser, room.still(1.0) + room.said("slt-round-done") + room.still(0.8))
    assert heard.words == "round done"
    recogniser.close()


def test_a_noise_that_does_not_stop_is_cut(room: Any, sphinx: Sphinx) -> None:
    recogniser = sphinx.recogniser(PHRASES)
    said = feed(recogniser, room.still(1.0) + room.said("talk") * 6 + room.still(0.8))
    assert all(h.end - h.start <= LONGEST + 0.3 for h in said)
    assert sum(h.quiet >= 0.5 for h in said) == 1  # what follows a cut had no silence before it
    recogniser.close()


@pytest.mark.parametrize(("decibels", "least"), [(20.0, 10), (15.0, 9)])
def test_over_a_murmur(room: Any, sphinx: Sphinx, decibels: float, least: int) -> None:
    """Utterances are found with their ends; most are recognised. What to expect of it is measured elsewhere."""
    recogniser = sphinx.recogniser(PHRASES)
    sound, when = room.still(3.0), []
    for name in NAMES:
        when.append((len(sound) / BYTES_A_SECOND, (len(sound) + len(room.said(name))) / BYTES_A_SECOND))
        sound += room.said(name) + room.still(1.5)
    heard = []
    for told in (h for frame in frames(room.over(sound, decibels)) for h in recogniser.feed(frame)):
        again = recogniser.again()
        assert again is not None  # the room is not quiet
        assert (again.start, again.end, again.quiet) == pytest.approx((told.start, told.end, told.quiet))
        wide = recogniser.again(wide=True)
        assert wide is not None
        assert (wide.start, wide.end, wide.quiet) == pytest.approx((told.start, told.end, told.quiet))
        heard += [told, again]
    ended = right = 0
    for name, (start, end) in zip(NAMES, when, strict=True):
        found = [h for h in heard if h.start < end and start - 0.3 < h.start and end - 0.3 < h.end < end + 0.4]
        ended += bool(found)
        right += any(h.words == words_of(name) for h in found)
    assert ended >= 11
    assert right >= least
    recogniser.close()


def test_the_widest_edges_hold_what_came_before(room: Any, sphinx: Sphinx, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the room covers the first word, what stands out alone is no phrase: a while before it is kept."""
    recogniser = sphinx.recogniser(PHRASES)
    sound = room.over(room.still(3.0) + room.said("rms-round-done") + room.still(0.9), 20.0)
    (heard,) = (h for h in feed(recogniser, sound) if h.start > 2.5)
    given: list[bytes] = []
    take = recogniser.take
    monkeypatch.setattr(recogniser, "take", lambda sound: given.append(sound) or take(sound))
    assert recogniser.again() is not None
    assert recogniser.again(wide=True) is not None
    narrow, wide = given
    assert wide in sound
    assert wide.endswith(narrow)
    begins = sound.index(wide) / BYTES_A_SECOND
    assert heard.start - begins >= 0.45
    assert begins + len(wide) / BYTES_A_SECOND >= heard.end + 0.2
    recogniser.close()


def test_phrases_whose_last_word_is_lost() -> None:
    """Only where nothing else begins like it, and two words of it were heard."""
    phrases = ["ready to sew up", "show me how", "show me the stitch", "where am i", "where now", "i lost my place"]
    assert cut_short(phrases) == {
        "ready to sew": "ready to sew up", "show me the": "show me the stitch", "where am": "where am i",
        "i lost my": "i lost my place",
    }  # fmt: skip


def test_the_same_sound_is_heard_alike_by_whoever_comes_next(room: Any) -> None:
    engine = Sphinx()
    sound = room.still(1.0) + room.said("slt-next-stitch") + room.still(0.8)
    told: list[list[Heard]] = []
    for _ in range(3):
        recogniser = engine.recogniser(PHRASES)
        told.append(feed(recogniser, sound))
        feed(recogniser, room.still(1.0) + room.said("rms-go-back") + room.still(0.8))
        recogniser.close()
    assert told[0] == told[1] == told[2]
    engine.close()


def test_ten_listeners_at_once(room: Any) -> None:
    engine = Sphinx()
    sound = b"".join(room.still(0.8) + room.said(name) for name in NAMES[:4]) + room.still(0.8)
    heard: list[list[str]] = [[] for _ in range(10)]

    def listen(i: int) -> None:
        recogniser = engine.recogniser(PHRASES)
        heard[i] = [h.words for h in feed(recogniser, sound)]
        recogniser.close()

    threads = [threading.Thread(target=listen, args=(i,)) for i in range(10)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert heard == [[words_of(name) for name in NAMES[:4]]] * 10
    engine.close()


def test_other_languages_are_not_in_it() -> None:
    with pytest.raises(EngineLost, match="English") as e:
        Sphinx("ko")
    assert e.value.code == "no-model"


def test_a_damaged_model_is_said(monkeypatch: pytest.MonkeyPatch, tmp_path: Any) -> None:
    import pocketsphinx

    monkeypatch.setattr(pocketsphinx, "get_model_path", lambda name: str(tmp_path))
    with pytest.raises(EngineLost, match="start again") as e:
        Sphinx()
    assert e.value.code == "damaged"


def test_a_library_that_is_not_there_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(__import__("sys").modules, "pocketsphinx", None)
    with pytest.raises(EngineLost, match=r"start\.py") as e:
        Sphinx()
    assert e.value.code == "no-engine"


def test_in_a_noisy_room_what_follows_speech_waits_until_more_follows(room: Any, sphinx: Sphinx) -> None:
    recogniser = sphinx.recogniser(PHRASES)
    recogniser.ends.lately.extend([-40.0] * 100)
    recogniser.ends.ordered.extend([-40.0] * 100)
    recogniser.ends.count, recogniser.ends.last = 10, 9
    assert recogniser.given_out([b"said"]) == [b"said"]
    for number, out in enumerate([[b"0"], [b"1"], [b"2"], [], []]):
        recogniser.ends.count += 1
        assert recogniser.given_out([str(number).encode()]) == out
    recogniser.ends.count += 1
    recogniser.ends.last = recogniser.ends.count - 1
    assert recogniser.given_out([b"more"]) == [b"3", b"4", b"more"]
    recogniser.close()
