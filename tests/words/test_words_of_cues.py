"""Cues in words: a few for the bench, the designer's own with the reason, a form for the voice."""

from __future__ import annotations

import re

import pytest
from crochet_drawn import course, group
from hypothesis import given
from hypothesis import strategies as st

from hookside.compile import read
from hookside.pattern import Cue, CueKind, Pattern, Piece, Terms
from hookside.words import cue_words, dress, translate
from hookside.words.cues import Around
from hookside.words.text import spoken_text


def cue(kind: CueKind, text: str, **more: object) -> Cue:
    return Cue.model_validate(
        {"address": f"seal.9/{kind}.1", "after": "9", "kind": kind, "text": text, "weight": "stop", **more}
    )


# Sentences are invented; the bench words say what is to be done and the amount where the text names one.
@pytest.mark.parametrize(
    ("kind", "text", "short"),
    [
        ("stuff", "Stuff the head firmly.", "Stuff the head firmly"),
        ("stuff", "Stuff the body firmly now, while two fingers still fit through the opening.",
         "Stuff the body firmly now"),
        ("stuff", "Fill the neck well, so that the head does not nod.", "Fill the neck well"),
        ("stuff", "Now is the moment to put stuffing into the hull of the boat.",
         "Now is the moment to put stuffing into the hull of the boat"),
        ("stuff", "Add the last of the stuffing with the blunt end of the hook.", "Top up the stuffing"),
        ("stuff", "The flippers stay flat and thin, so do not stuff them at all.", "Do not stuff"),
        ("tail", "Leave a long tail of yarn for sewing it to the stem later on.", "Leave a long tail"),
        ("tail", "Leave a tail of about 30 cm for sewing it to the stem.", "Leave a 30 cm tail"),
        ("tail", "Be sure that the starting tail hangs on the inside of the work.", "Starting tail to the inside"),
        ("fasten", "Fasten off and cut the yarn, leaving a tail of 12 inches for sewing.", "Fasten off, 12 in tail"),
        ("fasten", "Cut the yarn, pull it through the last loop and fasten off.", "Fasten off"),
        ("fasten", "Fasten off, leaving a long yarn end for sewing it up.", "Fasten off, long tail"),
        ("fasten", "FO.", "Fasten off"),
        ("fasten", "For the tail, chain 18 in rust, fasten off", "Chain 18 in rust, fasten off"),
        ("fasten", "Ch 20, fasten off and leave a 10 in tail for sewing", "Chain 20, fasten off, 10 in tail"),
        ("fasten", "Fasten off, leaving 8 in for sewing it to the stem", "Fasten off, 8 in tail"),
        ("fasten", "Weave through the last 6 in white and fasten off there", "Fasten off"),
        ("fasten", "F/O leaving 20 cm for sewing it to the side of the fish.", "Fasten off, 20 cm tail"),
        ("fasten", "Cut color A, leaving a 10 cm tail on the inside.", "Cut color A, 10 cm tail"),
        ("fasten", "Break off the yarn and leave a long tail to sew the fin on with.", "Break off the yarn, long tail"),
        ("close", "Thread the tail through the front loops of the 6 sts and pull tight.",
         "Close the hole through the front loops"),
        ("stuff", "I like to stuff the legs and the body here, nice and firm, because the neck is narrow.",
         "Stuff the legs and the body here"),
        ("fasten", "Sl st in the next st, fasten off, long tail for sewing please.",
         "Slip stitch, fasten off, long tail"),
        ("fasten", "Cut the yarn on the first leg and weave it in with the needle.", "Cut the yarn"),
        ("eyes", "Insert the eyes between the 5th and 6th rounds, 7 sts apart.",
         "Eyes in, between rounds 5 and 6, 7 sts apart"),
        ("eyes", "Add 8 mm safety eyes 6 stitches apart on round 12, please.", "Eyes in, round 12, 6 stitches apart"),
        ("sew", "Sew two legs to front of body at 16th round and two to 5th round.",
         "Sew two legs to front of body at 16th round …"),
        ("sew", "Using the long tail, sew the head onto the body all around",
         "Using the long tail, sew the head onto the body all around"),
        ("embroider", "With a bit of rust I embroidered a small nose between the eyes, one round below.",
         "With a bit of rust I embroidered a small nose …"),
        ("close", "Close.", "Close the hole"),
        ("colour", "Change to color B in the last st of the round, at its last loops.", "Change to color B"),
        ("colour", "Switch to cream for the gunwale and leave the brown yarn hanging.", "Change to cream"),
        ("colour", "From here to the end of the buoy work with dark green, please.", "Change to dark green"),
        ("colour", "Pull the new yarn through in the last stitch of this round.", "New color"),
        ("eyes", "Place the eyes between rounds 8 and 9, with 7 stitches between them.",
         "Eyes in, between rounds 8 and 9, 7 stitches apart"),
        ("eyes", "Embroider the eyes with black yarn, between R7 and R8, 7 sts apart.",
         "Embroider the eyes, between rounds 7 and 8, 7 sts apart"),
        ("weave", "Weave in all of the ends on the wrong side, three passes each.",
         "Weave in all of the ends on the wrong side"),
        ("weave", "Tuck the starting tail inside and", "Tuck the starting tail inside"),
        ("sew", "Sew each seat to the inside of the hull by its short sides; look along the boat from the bow.",
         "Sew each seat to the inside of the hull by its short sides"),
        ("sew", "Sew both flippers to the body, then sew on the tail.",
         "Sew both flippers to the body, then sew on the tail"),
        ("pin", "Pin the blades to the stem at stitches 8, 18 and 28, to the left and right in turn.",
         "Pin the blades to the stem at stitches 8, 18 and 28 …"),
        ("shape", "Fold the first 6 rows to the wrong side along the ridge of row 7 and",
         "Fold the first 6 rows to the wrong side along the ridge"),
        ("embroider", "Embroider the eyes now with black yarn, between R7 and R8, 7 sts apart, and a nose over R1.",
         "Embroider the eyes now with black yarn …"),
        ("sew", "Sew the blades on by their points, one after another.", "Sew the blades on by their points"),
        ("pin", "Pin the flippers to round 15, one on each side of it.", "Pin the flippers to round 15"),
        ("shape", "Fold the circle in half and sew the two curved edges together.", "Fold the circle in half"),
        ("shape", "Fold, then draw the needle through from one side to the other side.",
         "Fold, then draw the needle through"),
        ("embroider", "Last of all take black and stitch a beak between the eyes, and three feathers on each side.",
         "Last of all take black and stitch a beak between the eyes …"),
        ("other", "Read on.", "Read on"),
        ("marker", "Work the first stitch of round 12, then put the marker into it.", "Marker into the first stitch"),
    ],
)  # fmt: skip
def test_bench_words(kind: CueKind, text: str, short: str) -> None:
    assert cue_words(cue(kind, text), "US", "US").short == short


def test_full_words_are_the_designers_then_the_reason() -> None:
    words = cue_words(cue("close", "pull the hole shut"), "US", "US", Around(eyes=True, stuffed=True))
    assert words.full == "Pull the hole shut. Before the hole is shut: eyes in? Tail inside? Squeeze it: any hollow?"
    assert words.spoken == "Pull the hole shut. Before the hole is shut, eyes in? Tail inside? Squeeze it, any hollow?"


def test_a_reason_says_only_what_the_piece_has() -> None:
    def full(kind: CueKind, text: str, **known: bool) -> str:
        return cue_words(cue(kind, text), "US", "US", Around(**known)).full

    assert (
        full("close", "Pull it shut.") == "Pull it shut. Before the hole is shut: tail inside? Squeeze it: any hollow?"
    )
    assert full("close", "Pull it shut.", stuffed=False) == "Pull it shut. Before the hole is shut: tail inside?"
    assert full("weave", "Weave in all ends.", stuffed=True) == "Weave in all ends. Bury the end through the stuffing."
    assert "stuff" not in full("weave", "Weave in all ends.", stuffed=False)
    assert full("weave", "Tuck the starting tail inside and") == (
        "Tuck the starting tail inside. Once the piece is closed it can no longer be hidden."
    )
    assert "Pin" in full("sew", "Sew the fin to the body.")
    assert full("sew", "Sew the fin to the body.", pinned=True) == "Sew the fin to the body."
    assert full("sew", "Sew the two curved edges together.") == "Sew the two curved edges together."
    assert full("pin", "Pin the pennant out to shape and let it dry.") == "Pin the pennant out to shape and let it dry."


def test_the_piece_and_the_pattern_tell_what_is_known() -> None:
    eyes, stuff = cue("eyes", "Insert the eyes."), cue("stuff", "Stuff the head.")
    close = cue("close", "Pull the hole shut.")
    sewn = [cue("pin", "Pin the fin to the body."), cue("sew", "Sew the fin to the body."), cue("weave", "Weave in.")]
    work = course(group("sc", 6))
    head = Piece(name="Head", courses=[work], cues=[eyes, stuff, close])
    fin = Piece(name="Fin", courses=[work], cues=[close])
    up = Piece(name="Sewing up", cues=sewn)
    told = [[c.words.full for c in piece.cues] for piece in dress(Pattern(pieces=[head, fin, up])).pieces]
    assert told[0][2].endswith("eyes in? Tail inside? Squeeze it: any hollow?")
    assert told[1][0].endswith("Before the hole is shut: tail inside?")
    assert told[2][1] == "Sew the fin to the body."
    assert "In a stuffed piece" in told[2][2]


def test_our_own_sentences_need_no_reason_after_them() -> None:
    text = "Work the first stitch of round 12, then put the marker into it."
    words = cue_words(cue("marker", text, basis="worked out"), "US", "US")
    assert words.full == text
    assert words.spoken == "Work the first stitch of round twelve, then put the marker into it."


def test_the_first_colour_is_no_change() -> None:
    words = cue_words(cue("colour", "With cream", after="0"), "US", "US")
    assert (words.short, words.full, words.spoken) == ("Begin with cream", "Begin with cream.", "Begin with cream.")
    assert cue_words(cue("colour", "Use cream.", after="0"), "US", "US").full == "Use cream."


# Work until two loops are on the hook, three in a decrease, then pull through the new one: common practice, no source.
def test_a_change_of_colour_says_which_stitch_is_still_the_old_one() -> None:
    def full(text: str, at: int | None = None) -> str:
        return cue_words(cue("colour", text, at=at), "US", "US").full

    assert full("Change to color B in the last st of round 9.", 35) == (
        "Change to color B in the last st of round 9. Next stitch: stop with 2 loops on the hook (3 in a decrease), "
        "pull color B through."
    )
    assert full("Change to cream in the joining slip stitch of round 10.", 44) == (
        "Change to cream in the joining slip stitch of round 10. Put the hook in for the slip stitch as always, then "
        "pull cream through."
    )
    assert full("Change to cream.") == (
        "Change to cream. The last pull before this is made with cream already: if it is done, take that one pull back."
    )
    for told in ("Back to cream!", "On with cream!", "Now I changed to cream because navy alone looked dull."):
        assert "made with cream already" in full(told)


def test_embroidered_eyes_are_not_talked_of_as_plastic_ones() -> None:
    assert "washer" not in cue_words(cue("eyes", "Embroider the eyes."), "US", "US").full
    assert "washer" in cue_words(cue("eyes", "Insert the eyes."), "US", "US").full


# Pairs as in a published US/UK comparison (okeydokeys.com, madamestitch.com; yarn round hook: UK book lists CB960).
@pytest.mark.parametrize(
    ("us", "uk"),
    [
        ("sc in next st, then dc", "dc in next st, then tr"),
        ("1 hdc, 2 tr, dtr", "1 htr, 2 dtr, trtr"),
        ("sc2tog, then dc2tog", "dc2tog, then tr2tog"),
        ("sl st to join", "ss to join"),
        ("Single crochet two rounds", "Double crochet two rounds"),
        ("half double crochet and double crochet", "half treble and treble"),
        ("finish the last yo", "finish the last yrh"),
        ("slip the loop off the hook", "slip the loop off the hook"),
    ],
)
def test_translation_goes_all_at_once_and_back(us: str, uk: str) -> None:
    assert translate(us, "US", "UK") == uk
    assert translate(uk, "UK", "US") == us


@pytest.mark.parametrize(
    ("terms", "text", "said"),
    [
        ("US", "Leave a 20 cm tail.", "Leave a twenty centimeters tail."),
        ("UK", "Leave a 1 m tail (or more).", "Leave a one metre tail, or more."),
        ("US", "R7-R10: sc in next 3 sts & dec x 6 = 24", "round seven to round ten, single crochet in next three "
         "stitches and decrease six times is twenty-four"),
        ("US", "2.75 mm", "two point seven five millimeters"),
        ("UK", "dc2tog, 3rd st", "double crochet two together, third stitch"),
    ],
)  # fmt: skip
def test_a_designers_sentence_by_voice(terms: Terms, text: str, said: str) -> None:
    assert spoken_text(text, terms) == said


@given(st.text(max_size=80))
def test_whatever_is_spoken_has_no_digits_and_no_symbols(text: str) -> None:
    said = spoken_text(text, "US")
    assert not re.search(r"[0-9#*+/<>=@\[\](){}&%|\\^~_\"]", said)


@pytest.mark.parametrize(
    ("stitches", "loops"),
    [("(2 sc, dec) x 3", 3), ("(dec, 2 sc) x 3", 2), ("(2 sc, inv dec) x 3", 2), ("(2 sc, hdc2tog) x 3", None)],
)
def test_a_change_of_colour_counts_the_loops_of_the_stitch_it_comes_in(stitches: str, loops: int | None) -> None:
    """Two loops, three in a decrease; an invisible one has two when its two front strands are one loop (the card)."""
    text = f"Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: {stitches}, change to navy in the last st (9)"
    (colour,) = [c for c in read(f"Buoy\nUS terms\n\nBuoy\n{text}\n").pieces[0].cues if c.kind == "colour"]
    ends = f"stop with {loops} loops on the hook, pull navy through." if loops else "stop before its last pull"
    assert ends in colour.words.full
    assert "(3 in a decrease)" not in colour.words.full


def test_work_through_both_layers_says_how_many_become_how_many() -> None:
    """Folding flat and working through both layers: 12 become 6 (common practice, no source)."""
    arm = "Arm\nUS terms\n\nArm\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: sc around (12)\n"

    def said(text: str) -> str:
        (cue,) = [c for c in read(arm + text).pieces[0].cues if "both layers" in c.text]
        return cue.words.full

    assert "12 become 6" in said("Fold flat and work 6 sc through both layers. (6)\n")
    assert "12 stitches lie double as 6; the text works 5." in said("Fold flat and work 5 sc through both layers.\n")
