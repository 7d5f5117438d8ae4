"""Which colour is in the hand, and where it changes: one stitch before. Practice of the trade, no source."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path

import pytest

from hookside.compile import Choices, lay, read
from hookside.cues.colours import MOST_CHANGES, named
from hookside.cues.shades import Shades, plainly
from hookside.follow import Strand
from hookside.mend.recapping import colour_in_hand
from hookside.pattern import Group, Node, Pattern, Repeat, makes

COLLECTION = Path(__file__).parents[1] / "notation" / "collection"
BUOY = """Striped buoy
US terms. Worked in a spiral.

Materials: navy (A) and white (B), 3 mm hook

BODY
With navy:
Rnd 1: 6 sc in a magic ring (6)
Rnd 2: inc x 6 (12)
Rnds 3-4: sc around (12)
{rounds}
Rnd 9: sc around (12)
Fasten off.
"""


def cues(rounds: str) -> list[tuple[str, int | None, str, str]]:
    """Where the colours of the buoy's body are asked for: behind which round, at which stitch, how loudly, what."""
    (piece,) = read(BUOY.format(rounds=rounds)).pieces
    return [(c.after, c.at, c.weight, c.text) for c in piece.cues if c.kind == "colour" and c.after != "0"]


@pytest.mark.parametrize(
    "line",
    [
        "Rnd 5: with navy 4 sc, with white 5 sc, with navy 3 sc (12)",
        "Rnd 5: (navy) 4 sc, (white) 5 sc, (navy) 3 sc (12)",
        "Rnd 5: (A) 4 sc, (B) 5 sc, (A) 3 sc (12)",
        "Rnd 5: 4 sc navy, 5 sc white, 3 sc navy (12)",
    ],
)
def test_a_change_inside_a_round_is_told_one_stitch_before_and_what_is_in_the_hand_is_not(line: str) -> None:
    told = cues(line)
    assert [(after, at, weight) for after, at, weight, _ in told] == [("5", 3, "pause"), ("5", 8, "pause")]
    assert [text for *_, text in told] in (
        ["Change to white.", "Change to navy."],
        ["Change to B.", "Change to A."],
    )


def test_it_says_how_as_a_change_on_a_line_of_its_own_does() -> None:
    inside = read(BUOY.format(rounds="Rnd 5: with navy 4 sc, with white 8 sc (12)\nRnd 6: with navy, sc around (12)"))
    alone = read(BUOY.format(rounds="Change to white.\nRnd 5: sc around (12)"))
    (first, second), (printed,) = (
        [cue for cue in pattern.pieces[0].cues if cue.kind == "colour" and cue.after != "0"]
        for pattern in (inside, alone)
    )
    assert "Next stitch: stop with 2 loops on the hook, pull white through." in printed.words.full
    assert "Next stitch: stop with 2 loops on the hook, pull white through." in first.words.full
    assert (first.after, first.at) == ("5", 3)
    assert "Next stitch: stop with 2 loops on the hook, pull navy through." in second.words.full
    assert (second.after, second.at) == ("5", 11)


def test_a_round_that_begins_in_another_colour_changes_in_the_last_stitch_before() -> None:
    assert cues("Rnd 5: (B) sc around (12)\nRnd 6: (A) sc around (12)") == [
        ("4", 11, "pause", "Change to B."),
        ("5", 11, "pause", "Change to A."),
    ]


@pytest.mark.parametrize(
    "said",
    ["White now.", "Go on in white for the band.", "From here on use white.", "Finish the last stitch with white."],
)
def test_a_colour_told_between_two_rounds_is_due_before_the_last_stitch_is_finished(said: str) -> None:
    assert [(after, at) for after, at, *_ in cues(said)] == [("4", 11)]


def test_a_yarn_that_is_joined_anew_is_joined_behind_the_last_stitch() -> None:
    assert [(after, at) for after, at, *_ in cues("Attach white.")] == [("4", None)]


def test_what_is_in_the_hand_already_is_no_pause() -> None:
    assert cues("Rnd 5: with navy, sc around (12)") == []
    assert cues("With navy:\nRnd 5: sc around (12)") == [("4", None, "whisper", "With navy:")]


@pytest.mark.parametrize(
    "sentence",
    [
        "Now I change to white for the cheeks.",
        "Change to white.",
        "Add white.",
        "Join the white yarn.",
        "Now the white comes in.",
        "Switch to white here! Isn't she lovely?",
    ],
)
@pytest.mark.parametrize(
    "line",
    [
        "Rnd 5: with navy 4 sc, with white 5 sc, with navy 3 sc (12)",
        "Rnd 5: 4 navy sc, 5 white sc, 3 navy sc (12)",
    ],
)
def test_the_colours_of_a_round_win_over_the_sentence_before_it(sentence: str, line: str) -> None:
    told = cues(f"{sentence}\n{line}")
    assert [(weight, text.rstrip("!.")) for after, _, weight, text in told if after == "4"] == [
        ("whisper", sentence.partition("!")[0].rstrip("."))
    ]
    assert [(after, at, text) for after, at, weight, text in told if weight == "pause"] == [
        ("5", 3, "Change to white."),
        ("5", 8, "Change to navy."),
    ]


def test_a_sentence_that_a_round_bears_out_is_a_change() -> None:
    told = cues("Change to white.\nRnd 5: with white 4 sc, with navy 8 sc (12)")
    assert [(after, at, weight) for after, at, weight, _ in told] == [("4", 11, "pause"), ("5", 3, "pause")]


def test_the_yarn_grabbed_for_a_part_is_the_one_it_begins_with() -> None:
    text = BUOY.replace("With navy:", "Grab the navy yarn for his keel.").format(rounds="Change to white.")
    first = next(cue for cue in read(text).pieces[0].cues if cue.kind == "colour")
    assert (first.after, first.weight, first.text) == ("0", "pause", "Grab the navy yarn for his keel.")


def test_a_change_the_text_tells_within_a_round_is_told_one_stitch_before() -> None:
    assert cues("Rnd 5: 6 sc, change to white, 6 sc (12)") == [("5", 5, "pause", "Change to white")]


def test_stitches_without_a_colour_go_on_in_what_the_round_began_with() -> None:
    assert cues("Rnd 5: 4 sc, 5 sc in white, 3 sc (12)") == [
        ("5", 3, "pause", "Change to white."),
        ("5", 8, "pause", "Change to navy."),
    ]


@pytest.mark.parametrize(
    ("told", "name"),
    [
        ("Say goodbye to cream and pick up grey.", "grey"),
        ("Goodbye cream, hello grey.", "grey"),
        ("And back to grey we go.", "grey"),
        ("Change to grey, cutting cream.", "grey"),
        ("Change back here, cutting cream.", ""),
        ("Swap back.", ""),
        ("Switch back again.", ""),
    ],
)
def test_what_is_let_go_is_not_what_comes_and_back_is_no_yarn(told: str, name: str) -> None:
    assert named(told) == name
    text = f"Ball in grey\nRnd 1: 6 sc in MR (6)\nChange to cream.\nRnd 2: inc x 6 (12)\n{told}\nRnd 3: sc around (12)"
    change = [c for c in read(text).pieces[0].cues if c.kind == "colour"][-1]
    assert (change.after, change.weight) == ("2", "pause")
    assert f"{name or 'the color before this one'} " in change.words.full


@pytest.mark.parametrize(
    ("head", "one", "other", "told"),
    [
        ("BODY", "Rd {n} (Y)", "Rd {n} (B)", ["Begin with yarn Y", "Change to B", "Change to yarn Y"]),
        ("BODY", "{n}. (W)", "{n}. (R)", ["Begin with yarn W", "Change to yarn R", "Change to yarn W"]),
        ("BODY (white = W, red = R)", "Rnd {n} [W]:", "Rnd {n} [R]:", ["Change to yarn R", "Change to yarn W"]),
        ("M = mustard, S = sand\nBODY", "R{n}: (M)", "R{n}: (S)", ["Change to yarn S", "Change to yarn M"]),
        ("BODY", "R{n} (M)", "R{n} (S)", []),  # without a key these may be sizes
    ],
)
def test_letters_of_yarns_in_brackets_behind_labels(head: str, one: str, other: str, told: list[str]) -> None:
    rounds = [(one, "6 sc in MR (6)"), (one, "inc x 6 (12)"), (other, "12 sc (12)"), (one, "12 sc (12)")]
    text = "\n".join(f"{label.format(n=n)} {work}" for n, (label, work) in enumerate(rounds, 1))
    piece = read(f"{head}\n{text}").pieces[0]
    assert [c.makes for c in piece.courses] == [6, 12, 12, 12]
    changes = [c.words.short for c in piece.cues if c.kind == "colour" and c.weight == "pause"]
    assert changes[-len(told) :] == told if told else changes == []


def test_a_repeat_changes_every_time() -> None:
    found = cues("Rnd 5: (with navy 3 sc, with white 3 sc) x 2 (12)\nRnd 6: with white, sc around (12)")
    assert [(after, at) for after, at, *_ in found] == [("5", 2), ("5", 5), ("5", 8)]


def test_a_round_of_very_many_changes_is_left_to_its_own_words() -> None:
    many = MOST_CHANGES + 2
    text = f"""Mat
US terms
With navy, ch {2 * many + 1}.
Row 1: sc in 2nd ch from hook and in each ch across ({2 * many})
Row 2: ch 1, turn, (with navy 1 sc, with white 1 sc) x {many} ({2 * many})
"""
    (piece,) = read(text).pieces
    assert [cue.text for cue in piece.cues if cue.kind == "colour" and cue.course_id == piece.courses[-1].id] == []


def test_after_a_cut_the_next_colour_is_joined() -> None:
    found = cues("Rnd 5: sc around (12)\nFasten off.\nRnd 6: (white) sc around (12)")
    assert found == [("5", None, "pause", "Join white.")]
    assert cues("Rnd 5: (white) sc around (12)\nCut the navy.\nRnd 6: (white) sc around (12)") == [
        ("4", 11, "pause", "Change to white.")
    ]


def test_a_part_worked_in_brings_its_colour_along() -> None:
    pilot = """Harbour pilot
US terms. Worked in a spiral.

LEG (make 2)
With yellow:
Rnd 1: 6 sc in a magic ring (6)
Rnd 2: inc x 6 (12)
Change to navy.
Rnd 3: sc around (12)
Fasten off the first leg only.

BODY
Rnd 4: Ch 2, 12 sc around the first leg, 2 sc in the ch, 12 sc around the second leg, 2 sc on the other side of the ch (28)
Rnd 5: with navy 12 sc, with white 8 sc, with navy 8 sc (28)
Fasten off.
"""  # noqa: E501
    body = read(pilot).pieces[1]
    assert [(c.after, c.at, c.text) for c in body.cues if c.kind == "colour"] == [
        ("0", None, "With navy"),
        ("5", 11, "Change to white."),
        ("5", 19, "Change to navy."),
    ]


def test_names_of_one_colour() -> None:
    shades = Shades(Pattern(materials=["speckled brown 20 g", "navy (A)", "B: white", "main color: grey"]))
    assert shades.same("A", "navy")
    assert shades.same("white", "color B")
    assert shades.same("the navy yarn", "Navy")
    assert shades.same("MC", "grey")
    assert shades.same("brown", "speckled brown")
    assert not shades.same("A", "white")
    assert not shades.same("A", "B")
    assert not Shades(Pattern(materials=["dark brown, brown"])).same("brown", "dark brown")
    assert plainly("Contrasting colour") == "cc"
    assert [named(text) for text in ("With A", "Change to (A).", "In white", "Sand:", "Change color")] == [
        "A", "A", "white", "sand", "",
    ]  # fmt: skip


# -- whatever the text: the colour in the hand is that of the stitch -------------


def stitches(body: list[Node]) -> Iterator[tuple[Group, int]]:
    """Each group as it is worked, with how many of it."""
    for node in body:
        if isinstance(node, Repeat):
            for _ in range(node.times):
                yield from stitches(node.body)
        else:
            yield node, node.count


def walked(strand: Strand, same: Shades) -> int:
    """Follows a strand step by step; what the cues have put into the hand must be what each stitch is worked in.

    "Next stitch: ..." takes hold behind that stitch, all else at once. Gives how many stitches with a colour were seen.
    """
    waiting = {cue.step: cue for cue in strand.cues}
    hand = after = ""
    seen = 0

    def pass_cues(step: int) -> int:
        nonlocal hand, after
        while step in waiting:
            cue = waiting.pop(step)
            if cue.kind == "colour" and cue.weight == "pause":
                new = named(cue.text).removeprefix("the ")
                late = "Next stitch:" in cue.words.full or "joining slip stitch" in cue.words.full
                assert not (new and hand and not late and same.same(new, hand) and "oin" not in cue.text), cue
                if late:
                    after = new
                else:
                    hand, after = new, ""
            step += 1
        return step

    step = 0
    for course in strand.courses:
        step = pass_cues(step)
        for group, count in stitches(course.body) if course.read else ():
            for _ in range(count * group.steps):
                step = pass_cues(step)
                if group.colour and group.makes:
                    seen += 1
                    assert not hand or same.same(group.colour, hand), (course.id, course.text, group.colour, hand)
                if after and (group.makes or group.stitch == "join"):
                    hand, after = after, ""
                step += 1
    return seen


def followed(text: str) -> int:
    pattern = read(text)
    return sum(walked(laid.strand, Shades(pattern)) for laid in lay(pattern, text, Choices(anyway=True)))


@pytest.mark.parametrize("path", sorted(COLLECTION.glob("*.txt")), ids=lambda path: path.stem)
def test_the_hand_holds_what_is_worked_in_our_collection(path: Path) -> None:
    followed(path.read_text(encoding="utf-8"))


@pytest.mark.parametrize("seed", range(40))
def test_the_hand_holds_what_is_worked_in_rounds_of_colours(seed: int) -> None:
    rng = random.Random(seed)
    lines = []
    for number in range(5, 9):
        left, parts = 12, []
        while left:
            many = rng.randint(1, left)
            colour = rng.choice(["navy", "white"])
            parts.append(rng.choice([f"with {colour} {many} sc", f"({colour}) {many} sc"]))
            left -= many
        told = rng.choice(["", "", "Change to white.\n", "With navy:\n"])
        lines.append(f"{told}Rnd {number}: {', '.join(parts)} (12)")
    assert followed(BUOY.format(rounds="\n".join(lines))) >= 4 * 12


def test_every_course_makes_what_it_did() -> None:
    pattern = read(BUOY.format(rounds="Rnd 5: with navy 4 sc, with white 8 sc (12)"))
    assert [makes(course.body) for course in pattern.pieces[0].courses] == [6, 12, 12, 12, 12, 12]
    addresses = [cue.address for piece in pattern.pieces for cue in piece.cues]
    assert len(addresses) == len(set(addresses))


def test_the_hand_after_a_sentence_that_only_announces_holds_what_the_round_begins_with() -> None:
    text = BUOY.format(rounds="Change to white.\nRnd 5: with navy 4 sc, with white 5 sc, with navy 3 sc (12)")
    strand = lay(read(text), text, Choices())[0].strand
    fifth = next(course for course in strand.courses if course.label == "5")
    assert [colour_in_hand(strand, fifth.first + made) for made in (1, 3, 5, 11)] == ["navy", "navy", "white", "navy"]


@pytest.mark.parametrize(
    "told",
    [
        "join with white",
        "sl st to first sc in white",
        "sl st to first sc, pulling white through",
        "sl st to first sc, changing to white",
        "changing to white in the sl st to first sc",
        "change to white and sl st to first sc",
    ],
)
def test_a_change_told_at_the_join_is_made_in_the_join(told: str) -> None:
    (piece,) = read(
        BUOY.replace("Worked in a spiral.", "").format(rounds=f"Rnd 5: ch 1, sc around, {told} (12)")
    ).pieces
    (cue,) = [c for c in piece.cues if c.kind == "colour" and c.after != "0"]
    assert (cue.after, cue.at, cue.weight) == ("5", 12, "pause")
    assert "pull white through" in cue.words.full
    closing = piece.courses[4].body[-1]
    assert isinstance(closing, Group)
    assert closing.stitch == "join"


def test_a_round_that_is_closed_with_the_yarn_in_the_hand_asks_for_nothing() -> None:
    (piece,) = read(BUOY.format(rounds="Rnd 5: ch 1, sc around, join with navy (12)")).pieces
    assert [c.weight for c in piece.cues if c.kind == "colour" and c.after != "0"] == ["whisper"]


def test_a_body_that_goes_on_from_a_loop_has_its_yarn_in_the_hand_and_is_counted_by_it() -> None:
    text = """Troll
US terms. Worked in a spiral.

Materials: worsted yarn, rust, moss and oat, 3.5 mm hook

LEGS (make 2)
With rust
Rnd 1: 6 sc in a magic ring (6)
Rnd 2: sc around (6). Change to moss in the last stitch.
Rnd 3: sc around (6)
Cut the yarn on the first leg. Do not cut it on the second one.

BODY
Rnd 4: ch 2, sc around the first leg (6), sc in each of the 2 ch, sc around the second leg (6), 2 sc in ch (16)
Rnd 5: sc around (16)

EARS (make 2, in oat)
Rnd 1: 4 sc in a magic ring (4)
Rnd 2: sc around (4)
"""
    pattern = read(text)
    strands = {laid.piece: laid.strand for laid in lay(pattern, text, Choices(anyway=True))}
    body, ears = strands["Body"], strands["Ears"]
    assert colour_in_hand(body, body.courses[-1].first) == "moss"
    assert [(c.weight, c.text) for c in pattern.pieces[1].cues if c.kind == "colour"] == [("whisper", "With moss")]
    assert colour_in_hand(ears, ears.courses[-1].first) == "oat"


@pytest.mark.parametrize(
    ("work", "changes"),
    [
        ("5 sc (pink) 3 sc (white) 10 sc", [("4", 4), ("4", 7)]),  # each in front of its own
        ("5 sc [in pink] 3 sc [in white] 10 sc", [("4", 4), ("4", 7)]),
        ("5 sc (pink) 13 sc", [("4", 4)]),
        ("5 sc (pink), 3 sc (white), 10 sc (pink)", [("4", 4), ("4", 7)]),  # behind, and all of them told
        ("5 sc (pink) 3 sc (white) 10 sc (pink)", [("4", 4), ("4", 7)]),
        ("5 sc (pink), 3 sc (white), 10 sc", [("3", 17), ("4", 4), ("4", 7)]),
    ],
)
def test_colours_in_brackets_between_stitches(work: str, changes: list[tuple[str, int]]) -> None:
    text = f"Ball\nR1: 6 sc in ring (6)\nR2: inc x 6 (12)\nR3: (1 sc, inc) x 6 (18)\nR4: {work}\nR5: sc around"
    (piece,) = read(text, None).pieces
    assert [(cue.after, cue.at) for cue in piece.cues if cue.kind == "colour"] == changes


def test_ten_thousand_changes_are_asked_for_and_where_they_end_is_said() -> None:
    """demo: fourteen changes in each round, so that the 715th is the first that there is no room for."""
    rounds = "R4-{}: (sc 2 red, inc white) x 6, red sc 9, white sc 9\n"
    begun = "R1: 6 sc in mr (6)\nR2: inc x 6 (12)\nR3: (sc, inc) x 6 (18)\n"
    few, many = (read(begun + rounds.format(last)) for last in (400, 900))
    assert "too-many-changes" not in {found.code for found in few.findings}
    (said,) = [found for found in many.findings if found.code == "too-many-changes"]
    asked = [cue for cue in many.pieces[0].cues if cue.kind == "colour"]
    assert len(asked) <= 10_000
    assert said.course == str(int(asked[-1].after) + 1)
    assert (said.severity, said.line) == ("warning", 4)
