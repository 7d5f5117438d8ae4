"""The command line as a second hand at a making: moves, counts, lists and texts, each asked of the serving house."""

from __future__ import annotations

import json
import subprocess
import sys
import threading
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from click.testing import CliRunner, Result

from hookside.cli import main
from hookside.cli.bench import bench_of, move
from hookside.cli.house import Ask, Unanswered, asking
from hookside.web.ending import Ending

if TYPE_CHECKING:
    from tests.conftest import LiveServer

# demo
BUOY = (
    "Marker Buoy\nUS terms\n\nYou will need\nRed cotton, white cotton, 3 mm hook, stuffing\n\n"
    "Buoy (make 2)\nWith red:\n"
    "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\nRnd 3: (sc, inc) x 6 (18)\nRnds 4-5: sc around (18)\n"
    "Change to white.\nRnd 6: (sc, dec) x 6 (12)\nStuff firmly.\nRnd 7: dec x 6 (6)\n"
    "Fasten off, close the hole.\n\nAssembly\nSew the first buoy on top of the second.\n"
)


class House:
    """Types commands for one data folder, where making 1 is begun."""

    def __init__(self, server: LiveServer) -> None:
        self.folder, self.server = server.folder, server
        (self.folder / "buoy.txt").write_text(BUOY, encoding="utf-8")
        self("keep", str(self.folder / "buoy.txt"))
        self("begin", "Marker Buoy")

    def __call__(self, *words: str, code: int = 0) -> str:
        done: Result = CliRunner().invoke(main, [*words, "--folder", str(self.folder)])
        assert done.exit_code == code, (words, done.output, done.exception)
        return done.output

    def work(self, *words: str) -> dict[str, Any]:
        return dict(json.loads(self("work", "1", *words, "--json")))

    def making(self) -> dict[str, Any]:
        return dict(self.server.api("GET", "/api/makings/1")[1])


@pytest.fixture
def house(server: LiveServer) -> House:
    return House(server)


def test_on_and_back_and_a_stop_that_nothing_passes_but_done(house: House) -> None:
    assert "Now: Begin with red\nWhen it is done: hookside work 1 done\n" in house("work", "1")
    assert house.work("next")["cue"] is None  # a pause is answered by the next move, which works nothing
    assert house.work("next", "round")["place"] == "at the start of round 2"
    assert house.work("next", "stitch", "3")["place"] == "in round 2, 3 of 12 made"
    assert house.work("back", "stitch")["place"] == "in round 2, 2 of 12 made"
    assert house.work("undo")["place"] == "in round 2, 3 of 12 made"
    halted = house.work("next", "round", "40")
    assert (halted["cue"]["kind"], halted["place"]) == ("colour", "in round 5, 17 of 18 made")
    said = house("work", "1")
    assert "Now: Change to white. Next stitch: stop with 2 loops on the hook, pull white through." in said
    house.work("next")
    halted = house.work("to", "7")
    assert (halted["cue"]["kind"], halted["cue"]["weight"]) == ("stuff", "stop")
    assert "Stop: Stuff firmly. From here on it is harder to reach.\nWhen it is done" in house("work", "1")
    assert "This waits first: " in house("work", "1", "next", code=1)
    assert house.work()["at"] == halted["at"]
    assert house.work("done")["place"] == "at the start of round 7"
    assert "Nothing waits there" in house("work", "1", "done", code=1)
    ripped = house.work("rip", "6")
    assert ripped["place"] == "at the start of round 6"
    waits = {"run": "p1.c1", "course": "buoy.5", "n": None, "right": True, "on": True}  # its count, on the bench
    assert house.making()["choices"]["counted"] == [waits]
    assert house.work("next", "round", "9")["cue"]["kind"] == "stuff"  # it waits again
    assert house.work("to", "3", "4")["place"] == "in round 3, 4 of 18 made"


def test_other_words_for_the_same_steps_ask_nothing(house: House) -> None:
    house("work", "1", "next", "round")
    (house.folder / "new.txt").write_text(BUOY.replace("sc around", "sc all the way round"), encoding="utf-8")
    house("text", "Marker Buoy", "--new", str(house.folder / "new.txt"))
    assert house.making()["edited"]
    assert "was changed" not in house("work", "1")
    assert not house.making()["edited"]
    (house.folder / "new.txt").write_text(BUOY.replace("Rnds 4-5", "Rnds 4-6"), encoding="utf-8")
    house("text", "Marker Buoy", "--new", str(house.folder / "new.txt"))
    assert "was changed, and the bench asks about it: hookside choose 1" in house("work", "1")


def test_two_copies_are_kept_apart_and_the_next_is_named(house: House) -> None:
    house("work", "1", "next")
    house("work", "1", "next", "round", "3")
    assert house.work("take", "Buoy", "2")["copy"] == 2
    assert house.work("next")["place"] == "at the start of round 1"
    assert house.work("take", "Buoy", "1")["place"] == "at the start of round 4"
    for _ in range(40):
        said = house("work", "1", "done" if "When it is done" in house("work", "1") else "next")
        if "is worked" in said:
            break
    assert "Buoy 1 is worked. Next: hookside work 1 take Buoy 2\n" in said


@pytest.mark.parametrize(("order", "label"), [("pair", "1"), ("3", "3")])
def test_the_order_of_work_names_the_other_copy_in_time(house: House, order: str, label: str) -> None:
    """Side by side it changes hands at each round, to a level only there (common practice: at the chair)."""
    house("choose", "1", "--order", order)
    house("work", "1", "next")
    said = [house("work", "1", "next", "round") for _ in range(int(label))]
    wanted = "In your order of work Buoy 2 comes now: hookside work 1 take Buoy 2\n"
    assert [wanted in one for one in said] == [False] * (int(label) - 1) + [True]


def test_a_round_that_works_others_in_names_what_is_missing(house: House) -> None:
    doll = (  # demo
        "Harbour hand\nUS terms\n\nLeg (make 2)\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n\n"
        "Body\nRnd 3: ch 3, sc 12 around first leg, sc 3 along the chain, sc 12 around second leg, "
        "sc 3 along the other side of the chain (30)\nRnd 4: sc around (30)\n"
    )
    (house.folder / "doll.txt").write_text(doll, encoding="utf-8")
    house("keep", str(house.folder / "doll.txt"))
    house("begin", "Harbour hand")
    house("work", "2", "next", "round", "2")
    said = house("work", "2", "take", "Body")
    assert "Leg 2 is not worked yet." in said
    assert "Leg 1" not in said  # its rounds are worked
    assert "This waits first: " in house("work", "2", "next", code=1)


def test_what_is_no_move_is_said(house: House) -> None:
    for words in (("fly",), ("next", "purl"), ("next", "0"), ("to",), ("to", "3", "x"), ("done", "x"), ("take",)):
        house("work", "1", *words, code=2)
    assert "has no round or row 99" in house("work", "1", "to", "99", code=2)
    assert "has 18 stitches" in house("work", "1", "to", "3", "19", code=2)
    assert "nothing of this copy to take back" in house("work", "1", "undo", code=1)
    assert "does not lie behind it" in house("work", "1", "rip", "5", code=1)
    assert "No device says anything else" in house("work", "1", "here", "2", code=1)
    assert house.making()["state"]["head"] == house.making()["head"]  # not one of them was taken


def asked(house: House) -> Ask:
    return asking(house.server.url)


def test_an_answer_that_was_lost_moves_nothing_twice(house: House) -> None:
    house("work", "1", "next")
    sent: list[str] = []

    def deaf_once(method: str, address: str, body: Any = None) -> Any:
        told = asked(house)(method, address, body)
        if address.endswith("/moves"):
            sent.append(body["id"])
            if len(sent) == 1:
                raise Unanswered("nobody heard the answer")
        return told

    answer = move(deaf_once, bench_of(deaf_once, 1), "next", unit="stitch")
    assert sent == [sent[0]] * 2  # said again, by the same id
    assert house.work()["at"] == answer["to"]
    assert house.work()["place"] == "at the start of round 1" or house.work()["stitch"] == 1


def test_two_commands_at_one_time_both_count(house: House) -> None:
    house("work", "1", "next")
    house("work", "1", "next", "round")
    ask = asked(house)
    benches = [bench_of(ask, 1) for _ in range(4)]  # all know the same row
    threads = [threading.Thread(target=move, args=(ask, one, "next"), kwargs={"unit": "stitch"}) for one in benches]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert house.work()["place"] == "in round 2, 4 of 12 made"


def test_commands_at_one_time_wait_for_each_other_where_nobody_serves(house: House) -> None:
    house("work", "1", "next")
    house("work", "1", "next", "round")
    house.server.stop()
    command = [sys.executable, "-m", "hookside", "work", "1", "next", "stitch", "--folder", str(house.folder)]
    started = [
        subprocess.Popen(command, env=house.server.environment(), stdout=subprocess.PIPE, text=True) for _ in range(4)
    ]
    assert [one.communicate()[0] != "" and one.returncode for one in started] == [0] * 4
    assert house.work()["place"] == "in round 2, 4 of 12 made"


def phone(house: House, base: int, **intent: Any) -> dict[str, Any]:
    """A move of another device, which knows row `base`."""
    from socketio import SimpleClient

    made = house.making()
    run = made["runs"][0]["run"]
    with SimpleClient() as line:
        line.connect(house.server.url, transports=["websocket"])
        sent = {
            "id": f"{base + 1:032x}", "device": "p" * 32, "device_seq": base, "making": 1, "run": run, "base": base,
            "strand": made["state"]["runs"][run]["strand"], **intent,
        }  # fmt: skip
        answer = line.call("moves", {"epoch": made["epoch"], "moves": [sent]}, timeout=10)
    return dict(answer["answers"][0])


def test_where_devices_disagree_it_is_asked_and_answered(house: House) -> None:
    base = house.making()["head"]
    house("work", "1", "next")
    house("work", "1", "next", "round", "2")
    assert phone(house, base, intent="next", unit="round", backlog=True)["kind"] == "aside"
    assert "Your devices do not agree" in house("work", "1")
    assert "Say first where the marker is" in house("work", "1", "next", code=1)
    assert house.work("here", "2", "5")["place"] == "in round 2, 5 of 12 made"
    assert house.making()["asides"] == []


def test_a_move_that_knows_too_little_is_kept_beside_and_said(house: House) -> None:
    house("work", "1", "next")
    ask = asked(house)
    old = bench_of(ask, 1)
    for _ in range(2):
        assert phone(house, house.making()["head"], intent="next", unit="stitch")["kind"] == "move"
    with pytest.raises(Ending, match="Another device moved on meanwhile"):
        move(ask, old, "next", unit="round")
    assert len(house.making()["asides"]) == 1


def test_a_count_a_mend_and_the_place_found_again(house: House) -> None:
    house("work", "1", "next")
    house("work", "1", "next", "round", "3")
    assert house("count", "1", "18") == "18 is right: round 3 has 18.\n"
    kept = house.making()["choices"]["counted"]
    assert [(one["n"], one["right"]) for one in kept] == [(18, True)]
    said = house("count", "1", "17")
    assert "hookside count 1 17 edge=yes" in said
    said = house("count", "1", "17", "edge=yes", "gap=unsure")
    assert "--take shaping" in said
    assert house("count", "1", "17", "edge=yes", "gap=unsure", "--take", "shaping").startswith("Taken: ")
    assert "17" in house.making()["mends"]["p1.c1"][0]["say"] or house.making()["mends"]["p1.c1"]
    house("work", "1", "unmend")
    assert not house.making()["mends"].get("p1.c1")
    assert "no mend to take back" in house("work", "1", "unmend", code=1)
    assert house("count", "1", "--not-now") == "Round 3 is not asked for any more.\n"
    assert [(one["n"], one["right"]) for one in house.making()["choices"]["counted"]] == [(None, False)]
    assert "or --not-now" in house("count", "1", "18", "--not-now", code=2)
    house("work", "1", "rip", "3")  # behind the count: it is asked for anew, and so is the one where the rip ended
    assert [(one["course"], one["n"], one["right"]) for one in house.making()["choices"]["counted"]] == [
        ("buoy.2", None, True)
    ]
    assert "hookside lost 1 loop=yes" in house("lost", "1")
    found = ("loop=yes", "marker=yes", "n=4", "courses=1")
    assert "--take there" in house("lost", "1", *found)
    house("lost", "1", *found, "--take", "there")
    assert house.work()["place"] == "in round 2, 4 of 12 made"
    assert "I expect 4." in house("recap", "1")
    assert "is not offered here" in house("count", "1", "4", "--take", "anything", code=1)


def test_lists_are_ticked_and_the_bench_has_its_answer(house: House) -> None:
    assert "  1 [x] " in house("gather", "--making", "1", "--tick", "1")
    assert house.making()["choices"]["ticks"]["gather"] != []
    sheet = house.folder.with_name("buoy.html")
    house("paper", "--making", "1", "-o", str(sheet))
    assert 'class="worked"' in sheet.read_text(encoding="utf-8").split("</ul>")[0]
    assert "  1 [ ] " in house("gather", "--making", "1", "--untick", "1")
    assert "There is no line 99" in house("finish", "--making", "1", "--tick", "99", code=2)
    assert "name it with --making" in house("finish", "x.txt", "--tick", "1", code=2)
    items = json.loads(house("finish", "--making", "1", "--json"))
    sew = next(n for n, one in enumerate(items, start=1) if one["kind"] == "sew")
    last = house.making()["runs"][-1]
    house("work", "1", "take", last["piece"] or "Piece")
    waits = house.work()["cue"]["address"]
    assert waits == items[sew - 1]["cue"]
    assert "has its answer" in house("finish", "--making", "1", "--tick", str(sew))
    assert house.work()["finished"] is True
    told = json.loads(house("finish", "--making", "1", "--json"))
    assert told[sew - 1]["done"] is True


def test_ticks_and_fabric_of_a_pattern_go_into_the_making_that_is_begun(house: House) -> None:
    assert "  2 [x] " in house("gather", "--pattern", "Marker Buoy", "--tick", "1", "--tick", "2")
    assert "  2 [ ] " in house("gather", "--pattern", "Marker Buoy", "--untick", "2")
    assert "There is no line 99" in house("gather", "--pattern", "Marker Buoy", "--tick", "99", code=2)
    assert "name it with --making or --pattern" in house("gather", "x.txt", "--tick", "1", code=2)
    assert "hookside fabric" in house("gather", "--pattern", "Marker Buoy", "--hook", "3 mm", code=2)
    assert "Nothing is kept" in house("fabric", "Marker Buoy")
    assert "gauge: 20 sts = 10 cm" in house("fabric", "Marker Buoy", "--gauge", "20 sts = 10 cm", "--hook", "4 mm")
    kept = house("fabric", "Marker Buoy", "--hook", "")
    assert "gauge: 20 sts = 10 cm" in kept
    assert "hook:" not in kept
    house("fabric", "Marker Buoy", "--gauge", "wobbly", code=1)
    house("begin", "Marker Buoy")
    choices = house.server.api("GET", "/api/makings/2")[1]["choices"]
    assert choices["gauge"]["gauge"] == "20 sts = 10 cm"
    assert "  1 [x] " in house("gather", "--making", "2")


def test_a_text_is_written_anew_and_the_making_asks(house: House, tmp_path: Path) -> None:
    assert house("text", "Marker Buoy") == BUOY
    house("work", "1", "next")
    house("work", "1", "next", "round")
    house("work", "1", "next", "stitch")
    new = tmp_path / "new.txt"
    other = BUOY.replace("Rnd 2: inc x 6 (12)", "Rnd 2: (inc, sc) x 3 (9)")
    new.write_text(other.replace("Rnd 3: (sc, inc) x 6 (18)", "Rnd 3: inc x 9 (18)"), encoding="utf-8")
    house("text", "Marker Buoy", "--new", str(new))
    asks = house("choose", "1")
    assert "--stay to leave it" in asks
    assert '--place "Buoy 1=start"' in asks
    assert "Say first where you are." in house("choose", "1", "--yes", code=1)
    house("choose", "1", "--yes", "--place", "Buoy 1=start")
    assert house.work()["place"] == "at the start of round 2"
    assert house.work()["of"] == 9
    new.write_text(BUOY.replace("(sc, dec) x 6", "(sc, dec) x 5"), encoding="utf-8")
    mended = house("text", "Marker Buoy", "--new", str(new), "--mend")
    assert "  was: Rnd 6: (sc, dec) x 5 (12)\n  is:  Rnd 6: (sc, dec) x 6 (12)\n" in mended
    assert house("choose", "1", "--stay") == "It goes on with the steps it had.\n"
    ours = house("text", "Harbor Skiff", "--terms", "UK")
    assert "One of ours stays as it is" in ours
