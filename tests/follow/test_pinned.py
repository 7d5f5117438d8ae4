"""Each rule of following, broken on purpose, is noticed by a vector written by hand.

A rule that could be broken unnoticed here could differ between Python and TypeScript unnoticed too. Every entry is a
change to the source: where its text no longer occurs once, the entry is out of date and the test says so.
"""

from __future__ import annotations

import importlib
import shutil
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import ModuleType

import pytest
from reading import vectors
from replaying import difference

from hookside import follow

SOURCE = Path(follow.__file__).parent
BY_HAND = {f"{folder}/{name}": case for folder in ("follow", "bad") for name, case in vectors(folder).items()}

BROKEN = [
    # place
    ("place.py", "turns.append((times + 1, node.times))", "turns.append((times, node.times))", "turns count from 1"),
    ("place.py", "made += times * makes(node.body)", "made += 0", "turns that are done count"),
    ("place.py", "return whole * group.makes + min(rest, group.makes)", "return whole * group.makes",
     "each half of an increase makes a stitch"),
    ("place.py", "turn = (base, base + one)\n", "turn = turn or (base, base + one)\n", "the innermost repeat counts"),
    ("place.py", "index = bisect_right(strand.course_ends, at)\n    return index if", "index = max(0, bisect_right("
     "strand.course_ends, at) - (at in strand.cue_at))\n    return index if", "between courses it is the next one"),
    ("place.py", "return at - course.first - inside", "return at - course.first", "cues inside are no stitches"),
    ("place.py", "strand.cue_steps[index] <= step:", "strand.cue_steps[index] < step:", "a step's way past cues"),
    ("place.py", 'cue.weight == "whisper":\n        passed', 'cue.weight != "stop":\n        passed',
     "only whispers are slid past"),
    ("place.py", "passed.append(cue.address)\n        at += 1", "at += 1", "whispers slid past are told"),
    ("place.py", "index = bisect_right(strand.loud, at,", "index = bisect_left(strand.loud, at,",
     "the next cue is not the one rested on"),
    ("place.py", "courses_done(strand, cue.step) - courses_done(strand, at),", "courses_done(strand, cue.step),",
     "distance is from here"),
    ("place.py", "distance_stitches=stitches_between(strand, at, cue.step)", "distance_stitches=cue.step - at",
     "distance is in stitches, not steps"),
    ("place.py", "for group in _leading(body)) if course.uses else 0", "for group in _leading(body))",
     "a foundation chain is work of its own"),
    ("place.py", 'not in ("ch", "turn", "join"):', 'not in ("turn", "join"):', "a starting chain leads in"),
    ("place.py", 'elif node.stitch not in ("turn", "join"):', 'elif node.stitch not in ("turn",):', "a join closes"),
    ("place.py", 'found[0].stitch == "turn"', "False", "a chain before a turn closes"),
    ("place.py", 'before.stitch == "join"', "False", "a chain last of all behind a join closes"),
    ("place.py", "if not makes(body):\n        return 0, end\n", "pass\n",
     "a course that makes nothing is taken as it stands"),
    ("place.py", "if gone > offset:", "if gone >= offset:", "what led in already is not shown again"),
    ("place.py", "if found is not None and found.start + found.group.length == end:", "if found is not None:",
     "only the last group is followed by what closes"),
    ("stepping.py", "return 0 if start == lead else start,", "return start,", "back goes before what leads in"),
    ("stepping.py", "whole if end == close else end", "end", "the last unit closes the course"),
    ("stepping.py", "min(max(offset, lead), close - 1)", "max(offset, lead)", "what closes goes with the last unit"),
    ("stepping.py", "min(max(offset, lead), close - 1)", "min(offset, close - 1)", "what leads in is the first unit"),
    ("place.py", "unread=at in strand.unread_at", "unread=False", "an unread course is shown as one"),
    ("place.py", "finished=at == strand.length", "finished=at >= strand.length - 1", "finished is past the last step"),
    # strand
    ("strand.py", "return sorted([*loud, *self.unread_at])", "return sorted(loud)", "an unread course waits"),
    ("strand.py", 'if cue.weight != "whisper"]\n        return sorted',
     'if cue.weight == "stop"]\n        return sorted', "a pause halts"),
    # stepping
    ("stepping.py", 'if unit == "stitch":', 'if unit == "stitches":', "a stitch is one step"),
    ("stepping.py", 'if unit in ("repeat", "plain") and', 'if unit in ("repeat",) and', "plain takes the repeat"),
    ("stepping.py", 'if unit in ("repeat", "plain") and', 'if unit in ("plain",) and', "repeat takes the repeat"),
    ("stepping.py", '(unit == "plain" and course.plain)', "False", "plain takes the plain round"),
    ("stepping.py", '(unit == "plain" and course.plain)', 'unit == "plain"', "plain takes the group elsewhere"),
    ("stepping.py", "land = min(target, strand.halts[index])", "land = target", "a move halts on the way"),
    ("stepping.py", "return Step(to=rest, passed=passed + slid)\n\n\ndef _leave", "return Step(to=rest, passed=slid)"
     "\n\n\ndef _leave", "whispers on the way are told"),
    ("stepping.py", 'cue.weight == "stop":\n        return Refusal', 'cue.weight == "pause":\n        return Refusal',
     "a stop refuses, a pause does not"),
    ("stepping.py", "return rest, [cue.address, *slid]", "return rest, slid", "an answered pause is told"),
    ("stepping.py", "    if answered:\n        return Step(to=start, passed=answered)\n", "",
     "answering a pause works nothing"),
    ("stepping.py", "before -= 1", "break", "whispers are slid over backwards"),
    ("stepping.py", "if rests(strand, before):\n        return Step(to=before)\n", "pass\n",
     "back rests on what waits"),
    ("stepping.py", "Step(to=max(target, strand.halts[last])", "Step(to=target", "back halts on a cue inside"),
    ("stepping.py", "if count is None:", "if False:", "an unread course needs a count"),
    ("stepping.py", "if not 0 <= count <= LARGEST_COUNT:", "if not 0 < count <= LARGEST_COUNT:", "a count may be 0"),
    ("stepping.py", "LARGEST_COUNT = 2000", "LARGEST_COUNT = 2001", "a count has a bound"),
    ("stepping.py", 'or cue.weight == "whisper" or cue.address != address', "", "only this cue can be answered"),
    ("stepping.py", "return Step(to=rest, passed=[address, *slid])", "return Step(to=at + 1, passed=[address])",
     "an answer slides on"),
    ("stepping.py", "step = _forward(strand, start, max(start, to))", "step = Step(to=max(start, to))",
     "a jump halts on the way"),
    ("stepping.py", "step = _forward(strand, start, max(start, to))", "step = _forward(strand, at, to)",
     "a jump answers the pause it leaves"),
    ("stepping.py", "if to <= at:\n        rest, slid = slide(strand, to)\n        return Step(to=rest, passed=slid)\n"
     "    left", "if to <= at:\n        return Step(to=to)\n    left", "a jump back slides"),
    ("stepping.py", "if to is None or not 0 <= to <= at:", "if to is None or not 0 <= to < at:",
     "a rip to here is one"),
    ("stepping.py", "if to is None or not 0 <= to <= at:", "if to is None or not 0 <= to <= strand.length:",
     "a rip goes back"),
    # making
    ("making.py", "at=slide(strands[strand], 0)[0])", "at=0)", "a run begins past a whisper"),
    ("making.py", 'if intent.intent == "count" or (', "if (", "a count takes nothing in hand"),
    ("making.py", "(step.to == run.at and state.in_hand == intent.run)", "step.to == run.at",
     "taking in hand is a move"),
    ("making.py", "(step.to == run.at and state.in_hand == intent.run)", "False", "what changes nothing is no move"),
    ("making.py", "counts = {**counts, answered.id: intent.count}", "pass", "a typed count is kept"),
    ("making.py", "for step, course in strand.unread_at.items() if step >= at}", "for step, course in "
     "strand.unread_at.items() if step > at}", "a count goes when its course is asked again"),
    ("making.py", "{**run.counts, **past.counts}", "run.counts", "undo brings typed counts back"),
    ("making.py", "kept, _ = _counts_behind(strand, {", "kept, _ = (lambda s, c, a: (c, {}))(strand, {",
     "undo of a typed count takes it away"),
    ("making.py", "past = run.history[-1] if run.history else None", "past = run.history[0] if run.history else None",
     "the newest is undone"),
    ("making.py", "or intent.undoes not in (past.row, past.id)", "", "undo names its row"),
    ("making.py", "not in (past.row, past.id)", "not in (past.row,)", "undo may name an id"),
    ("making.py", 'or intent.undoes == ""', "", "no id is not an id"),
    ("making.py", '"history": run.history[:-1]', '"history": run.history', "what is undone is off the stack"),
    ("making.py", "_with(state, row, past.in_hand, intent.run, moved)", "_with(state, row, intent.run, intent.run, "
     "moved)", "undo restores what was in hand"),
    ("making.py", "_with(state, row, intent.run, intent.run, moved)", "_with(state, row, state.in_hand, intent.run, "
     "moved)", "a move takes its run in hand"),
    ("making.py", "rest, slid = slide(strand, intent.to)", "rest, slid = intent.to, []", "settling slides"),
    ("making.py", 'if at == slide(strand, 0)[0]:', "if at == 0:", "not begun is the first place"),
    ("making.py", "if courses_done(strand, at) == len(strand.courses):", "if False:", "ready to sew"),
    ("making.py", "if not finished(in_hand) and _inside_course(strand_of(in_hand), state.runs[in_hand].at):\n"
     "        return None\n", "pass\n", "nothing is suggested inside a course"),
    ("making.py", "if not finished(in_hand) and done(in_hand) <= _bare(strand_of(in_hand)):\n        return None\n",
     "pass\n", "nothing is suggested on a bare chain"),
    ("making.py", "done(in_hand) <= _bare", "done(in_hand) < _bare", "the first course with stitches is done first"),
    ("making.py", "if course.makes or not course.read)", "if course.makes)", "an unread course makes stitches"),
    ("making.py", "at > strand.courses[index].first", "at >= strand.courses[index].first",
     "a course's start is a boundary"),
    ("making.py", "wanted = min(copies, key=done)", "wanted = max(copies, key=done)", "the copy with fewer rounds"),
    ("making.py", "if done(in_hand) >= level and below:", "if done(in_hand) == level and below:",
     "a copy past the level gives way too"),
    ("making.py", "if done(in_hand) >= level and below:", "if below:", "no copy gives way below the level"),
    ("making.py", "elif done(in_hand) == level:", "elif False:", "at the level the first copy goes on"),
    ("making.py", "return next((index + 1 for index, course", "return next((index for index, course",
     "the level is the end of its round"),
    ("making.py", "next((run for run in unfinished if run in copies), unfinished[0])", "unfinished[0]",
     "copies first"),
    ("making.py", "return None if wanted == in_hand else wanted", "return wanted", "what is in hand is not suggested"),
    ("making.py", "and _piece(run) == _piece(in_hand)]", "]", "pieces are not crossed"),
]  # fmt: skip


@contextmanager
def changed(folder: Path, file: str, old: str, new: str) -> Iterator[ModuleType]:
    """A copy of the room with one text replaced, loaded under another name."""
    name = "broken_follow"
    package = folder / name
    shutil.copytree(SOURCE, package, ignore=shutil.ignore_patterns("__pycache__"))
    for path in package.glob("*.py"):
        text = path.read_text("utf-8")
        if path.name == file:
            assert text.count(old) == 1, f"{file} has {text.count(old)} times {old!r}"
            text = text.replace(old, new)
        path.write_text(text.replace("hookside.follow", name), "utf-8")
    sys.path.insert(0, str(folder))
    importlib.invalidate_caches()
    try:
        yield importlib.import_module(name)
    finally:
        sys.path.remove(str(folder))
        for loaded in [module for module in sys.modules if module.split(".")[0] == name]:
            del sys.modules[loaded]


@pytest.mark.parametrize(("file", "old", "new", "rule"), BROKEN, ids=[rule for *_, rule in BROKEN])
def test_breaking_it_is_noticed(tmp_path: Path, file: str, old: str, new: str, rule: str) -> None:
    with changed(tmp_path, file, old, new) as broken:
        for case in BY_HAND.values():
            try:
                if difference(broken, case) is not None:
                    return
            except (AssertionError, AttributeError, IndexError, TypeError):
                return  # it broke down, which is noticed too
    raise AssertionError(f"no case written by hand notices that this is broken: {rule}")


def test_unbroken_nothing_is_noticed(tmp_path: Path) -> None:
    with changed(tmp_path, "place.py", "import annotations", "import annotations") as same:
        assert [difference(same, case) for case in BY_HAND.values()] == [None] * len(BY_HAND)
