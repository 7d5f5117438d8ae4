"""Cues go by the fabric that the printed size of a text makes, the same that it is measured in. Demo texts."""

from __future__ import annotations

import pytest

from hookside.compile import measured, read
from hookside.cues.apart import apart
from hookside.cues.cloth import cloth_of
from hookside.notation import read as read_text
from hookside.shape import Asked

SEAL = (
    "Seal\nUS terms\n3 mm hook, DK yarn, stuffing\n{size}\n\nSeal\nRnd 1: 6 sc in magic ring (6)\nRnd 2: inc x 6 (12)\n"
    "Rnd 3: (sc, inc) x 6 (18)\nRnd 4: (2 sc, inc) x 6 (24)\nRnds 5-9: sc around (24)\n{between}"
    "Rnd 10: (2 sc, dec) x 6 (18)\nRnd 11: (sc, dec) x 6 (12)\nRnd 12: dec x 6 (6)\n{last}Fasten off and close.\n"
)


@pytest.mark.parametrize("size", ["About 4 cm tall.", "About 2.8 cm tall.", ""])
@pytest.mark.parametrize("where", ["between", "last", ""])
def test_the_cues_have_the_fabric_of_the_sizes(size: str, where: str) -> None:
    """Whether the stuffing is printed in time, too late, or not at all."""
    text = SEAL.format(**dict.fromkeys(("between", "last"), "") | {"size": size, where: "Stuff it.\n"})
    cloth, fabric = cloth_of(apart(read_text(text))), measured(read(text)).fabric
    assert cloth.kind == fabric.kind == ("size" if size else "both")
    assert cloth.width == pytest.approx(fabric.stitch_mm, rel=5e-3)  # that one is rounded


def test_her_own_fabric_goes_before_the_printed_size() -> None:
    text = SEAL.format(size="About 5 cm tall.", between="Stuff it.\n", last="")
    assert cloth_of(apart(read_text(text)), Asked(gauge="20 sts = 10 cm")).width == pytest.approx(5)
