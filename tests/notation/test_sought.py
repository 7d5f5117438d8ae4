"""A hint may cost a search, never a find: whatever a pattern is found in holds its hint."""

from __future__ import annotations

import importlib
import pkgutil
import random
from collections.abc import Iterator
from pathlib import Path

import pytest

import hookside.notation
from hookside.notation.sought import Sought

HERE = Path(__file__).parent
# demo: what scans, films, charts in letters and translations leave on a page, and lines that few pages have
DAMAGE = (
    "Row the First.-Ch 1\nROUNDS FIVE AND SIX\nRound four, five, and six: sc\nRounds from 7 to 9: sc\n"
    "row 9 is where the tip starts sc2tog\nkeep doing that up to row 8\n"
    "Rnd s 4-6: sc around\nRnd l: 6 sc\nllth rnd: sc in next lO sc\non1y ar0und 100p\nlst row\n"
    "02:05 R1: 6 sc in a ring\n1 >> 6 sc\n2 ~ inc x 6\n3 ; 18\n(X, V) x 6, 6V, V6, X2A * 3, 35SL\n"
    "Total: 14 loops\n3 sc. In all 12 eyes.\nT = tour, rg = An row\nR4 until R8: sc\nshort needle, line\n"
    "US terms. Written in British crochet terms. The terminology is u.s.\n6 d.c. 2 h.t.r. 2 dc\nbe-\ntween a- \nround\n"
    "Rnds 2 to 4 are worked like the hull.\nAll decreases are invisible decreases.\nGiro 2: 12 mb\nGiro 3: 12 mb\n"
    "the second leg stays on the hook\nthe nose is embroidered with black yarn\nthe bell goes into the middle\n"
    "Ear (make 2)\nEar, not stuffed\nLid x 2\nArms (2 pieces)\nBody and head, all in one\nBody - in rounds\n"
    "Fins, 2 of them\nFins, two:\nFins: 2\nFins two\nFins, 2 pieces\nFins, 2 times, left and right\nFin 2x\nFin * 2\n"
    'Rounds 4-\n6: sc around\nAs row\n7. Then * sc, inc, dec; rep from " around\n'
    "Fins (2, small)\n2 fins\nFins, 2\nFins, quantity 2\nFins (2 needed)\nFINS do 2\n"
    "6 sc into a ring for round one.\n6 sc in a ring. That's round 1.\n"
    "each st sc twice\nch 1, plain, turn\nsc around, join, ch 1 20 sts\n"
    "loop stitch in next 8, 10 fur sts\n[photo 3: attach the eyes]\n"
    "BODY [01:10]\nat 5:12 stuff the body\n* se in next 6 sc, 2 de in each st (56 se)\n*so in next 2 sc\n[18 se]\n"
    "5c around\nR3-4-5: sc\nrouncl 4\nrepeat rounds four and five\n(RS) Row 5: sc across\n"
    "Rnd 4 done\nRows 4 5 and 6: sc\n"
    "sc in the second chain counted from the needle\nsc in the back half-loop\n18 all\nevery stitch around\n"
    "in 2nd ch and all along\n(ch 3, sl st to form a picot)\n1 M doubled, 6 sc\nin each st aro und\n"
    "3 sc, take 1 st off\nwork off 2 sts as 1\n*2 sc*, work * to * 8 times\nYou are down to 5 sc\n"
    "sc2tog over first 2 sts\n6 x work 2 sts\nthe stitches together two at a time\n2 M together\n(24?)\n"
    "turn every two stitches into one\n6 sets of 2 sc\ndouble up every one\nthen double the next\nall incs (12)\n"
    "(1sc-1inc) x 6\nincrease every 2 (18)\nsc with 1 dec in the round\n1 double, 2 doubles\njump 9 m\n"
    "loop of the one after that\nfrom the 2. chain on\nwe gather 31 ch\nclose with 1 ss\n3 ch, 1 sl st in first ch\n"
    "to repeat 6 times\nin each for both rounds\ndouble 1 M, 6\n*sc; from * to * 6 times\nrepeat what is in brackets\n"
    "6 stitches of single crochet\n1 loose sl st\nch 12 chains\njoin with a s.s. to first dc\nd.c.2tog\n"
    "pop 6 sc into a ring\nsc around, turning with 1 ch\n2 sc, 1 dc, one in each chain\n"
    "sc through both layers, 7 stitches across\ndec dec till there's 6\n2 sc in the end one\na plain round of sc\n"
    "for this round you sc 2\nDecrease round: 2 sc\n2 sc in next 6 sts for the chin, 2 sc\n"
    "decrease over the next 4 sts\n"
    "(2 sc, inc) over the other 20\nwork all 12 stitches in the back loops only\n20 sts plain, 2 sc\n"
    "sc in every stitch, no increases this time\nsc, work the next 2 as one\n6 x 2 st together\n"
    "inc in every other stitch, starting with a plain sc\nsc in every stitch until you get back to your marker\n"
    "2 sc, dec, and do the same thing 2 more times\n2 sc, dec, and again twice\n2 sc, dec, over and over\n"
    "2 sc, dec (do that 4 times)\n"
    "2 dc ea. 12\ndc, 12  - thats the neck\n4, miss 1 [I think she means every fifth one]\n"
    "Ear 2 as ear 1 but in black\nAs ear 1, but in blue and don't fasten off\nas row 2 - 6 sc remain\n"
    "as row 2, stuff it.\nPot: same as cactus R1-4\nWorked like the centre.\n"
    "Rnds 1 to 4: Work as for the belly: 36 dc\n"
    "Repeat 1st-4th of head\nRnds 1 to 3: as the hull, rounds 1 to 3\n"
    "To fold in half and to knit 3 sc.\nwiden in next, narrow 6 times\nJoin red, 4 more rows.\nFins, two also\n"
    "sc 18 for 3 rounds\nFin, we want two\nrepeat these\nfollowing rows\n6 sts stay free\ninc in each mask (30)\n"
    "inc / 3 sc in one st\nBy inc I mean 3 sc in one st.\n3 sc in one st = inc\ndec sc3tog\n"
    "sc, inc (3 sc in one st), dec\nevery inc of mine has 3 sc in one st, dear\n"
    "(sc 2, inc), 6\nall, blo\nall single crochets\nfpdc in every third st, sc in the rest\n"
    "sc around with a bobble in every third st\nwork every 2 sts tog.\ncrochet 2 and 2 sc together\n"
    "sc 2, inc 1, *6\n5 * inc\nsc in ea st a/r\nit's one single crochet\ndec, dec, dec, six of them\n"
    "continue in sc without increasing\n6 sc in a ring and increase 6 stitches in every round:\n"
    "the first chain nearest the hook\n1 chain to come up\nthereafter sc around\nsc in the 6 that are left\n"
    "sc around. That's 3 rounds.\nsc, increasing 8 evenly\nsc in every st, same each time\n"
    "all the same: 1 sc in every stitch\nsc, keep going til the end\nin each sc increase\n"
    "repeat for the whole round\nrepeat *-* the rnd out\n18 again, this is the band\n"
    "6 sc in magic circle (or ch 2 and start there)\nsc, taking only the back strand\n9 x 2 sts together\n"
    "18 sc in every round, we do not increase\nwe do not increase, 18 sc in every row\n"
    "decrease 6 stitches (2 sc, then 2 together)\nsc until 2 sts are left, dec\nsc to within 2 sts of the end\n"
    "sc in all sts apart from the last two\nsc to last st, inc in it\nsc to last 2 sts, sc them together\n"
    "6 times 2 sc, inc\n2 sc, inc, repeated 6 times\nsc, 1 inc per round\n"
    "sc 3, double every 4th st\ninc in each so it's 12\n1+inc\nevery stitch gets one dc\ntog all\n"
    "squash two together\nnothing fancy, one in each\n"
    "EARS. Make 2. Gray. Ch. 4.\nsc 2, F.O.\n6 s.c. Join.\nnext 2 sts. together, 2 d.c. tog. all\n"
    "Nr 4: sc 6; Step 5: sc\n"
    "sc around (12). Next round: sc 12\nMake two. Row 1, sc in a ring\nEARS, two of them. Into a ring work 6 dc\n"
    "6 dc into a ring and one round with 2 dc in each dc\nTake the black, make a ring and work six into it.\n"
    "a scrap of white. Start at the nose: magic ring with 6 sc. Rnd 2, inc\nBody. Magic ring, 6 sc.\nR2: inc x 6\n"
    "Work around twice.\nNext round, put 2 in each\nsc all round, eighteen again. Stop here\ntogether all round. Six.\n"
    "Don't forget the bell. Dont join.\nYarn in slate and chalk.\nStuff after 11.\nch 3 counts as a dc\n"
    "the ch 1 is no stitch\nthe turning ch 3 is the first dc\none wing on each side\n"
    "sew the first ear on the left, the second one on the right\n9;6 sc;6\n9,6 sc,6\n1: ring 6\n2: inc\n"
    "Rounds VII., VIII., and IX. - Like Round VI.\n"
)


def _all() -> Iterator[tuple[str, Sought]]:
    for found in pkgutil.walk_packages(hookside.notation.__path__, "hookside.notation."):
        for name, value in vars(importlib.import_module(found.name)).items():
            for at, one in enumerate(value if isinstance(value, list) else [value]):
                if isinstance(one, Sought):
                    yield f"{found.name}.{name}" + (f"[{at}]" if isinstance(value, list) else ""), one


ALL = list(_all())


@pytest.fixture(scope="module")
def lines() -> list[str]:
    texts = [DAMAGE, *(path.read_text(encoding="utf-8") for path in sorted(HERE.rglob("*.txt")))]
    rng = random.Random(4)
    told = [f"{a}\n{b}" for text in texts for a, b in zip(text.split("\n"), text.split("\n")[1:], strict=False)]
    return [*rng.sample(told, 1500), *DAMAGE.split("\n"), DAMAGE.lower(), DAMAGE.upper()]


@pytest.mark.parametrize("named", ALL, ids=lambda named: named[0])
def test_no_hint_hides_what_is_there(named: tuple[str, Sought], lines: list[str]) -> None:
    _, sought = named
    for line in lines:
        found = sought.pattern.search(line)
        assert (sought.search(line) is None) == (found is None), line


def test_the_damage_holds_most_of_what_is_sought() -> None:
    """Else the test above tells nothing."""
    held = [any(sought.pattern.search(told) for told in (DAMAGE, *DAMAGE.split("\n"))) for _, sought in ALL]
    assert sum(held) >= 0.8 * len(held)


def test_a_stretch_of_a_page_is_asked_for_the_hint_and_not_the_page() -> None:
    """A page has thousands of sentences: each of them would go through all of it."""
    asked: list[str] = []

    class Seen(Sought):
        def may_be_in(self, text: str) -> bool:
            asked.append(text)
            return super().may_be_in(text)

    page = "one red, two blue, three red. " * 10
    found = Seen(("blue",), r"blue").search(page, 30, 60)
    assert found is not None
    assert found.start() == 43
    assert asked == [page[30:60]]
    assert Seen(("blue",), r"blue").search(page, 0, 8) is None
