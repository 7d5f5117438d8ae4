"""Where a page ends its lines is none of the designer's business: the same is read at every width, paragraph or not."""

import textwrap

import pytest

from hookside.notation import read
from hookside.pattern import Pattern

TEXTS = {
    "sentences": [
        "Body",
        "Rnd 1: Make a magic ring and work 6 sc into it. (6)",
        "Rnd 2: Work 2 sc in each stitch around. (12)",
        "Rnd 3: *Sc in next st, 2 sc in next st; repeat from * around. (18)",
        "Rnds 4-6: Sc in each st around. (18)",
        "Rnd 7: *Sc in next st, sc2tog; repeat from * 5 more times. (12)",
        "Stuff firmly.",
        "Rnd 8: Sc2tog around. (6)",
        "Fasten off, leaving a long tail.",
        "Arm (make 2)",
        "Rnd 1: 5 sc in a magic ring. (5)",
        "Rnd 2: 2 sc in first st, sc in next 4 sts. (6)",
        "Rnds 3-6: Sc in each st around. (6)",
        "Fasten off.",
    ],
    "ordinals": [
        "Cap",
        "1st round: 6 sc in ring = 6 sts.",
        "2nd round: 2 sc in each sc = 12 sts.",
        "3rd round: 1 sc in next sc, 2 sc in next sc, rep around = 18 sts.",
        "4th to 6th rounds: 1 sc in each sc = 18 sts.",
        "7th round: 1 sc in each of the next 7 sc, sc2tog, 1 sc in each of the next 7 sc, sc2tog = 16 sts.",
        "8th round: as 4th round.",
    ],
    "rows": [
        "Strap",
        "Row 1: Ch 11, sc in 2nd ch from hook and in each ch across, turn. (10 sts)",
        "Row 2: Ch 1, sc in first 4 sts, 2 sc in each of next 2 sts, sc in last 4 sts, turn. (12 sts)",
        "Rows 3-5: Ch 1, sc in each st across, turn. (12 sts)",
        "Row 6: Ch 1, sc2tog, sc in next 8 sts, sc2tog, turn. (10 sts)",
        "Row 7: With white, repeat row 5. (10 sts)",
    ],
}


def _read(text: str) -> list[tuple[str, int, list[tuple[str, int | None]]]]:
    pattern: Pattern = read(text)
    return [(p.name, p.make, [(c.label, c.makes) for c in p.courses]) for p in pattern.pieces if p.courses]


@pytest.mark.parametrize("width", [24, 31, 37, 49, 64, 80])
@pytest.mark.parametrize("name", TEXTS)
def test_wrapped_lines_and_paragraphs_are_read_as_they_were_before(name: str, width: int) -> None:
    lines = TEXTS[name]
    whole = _read("\n".join(lines))
    assert whole
    assert all(makes is not None for _, _, courses in whole for _, makes in courses)
    wrapped = ["\n".join(textwrap.wrap(line, width)) for line in lines]
    assert _read("\n".join(wrapped)) == whole
    assert _read("\n\n".join(wrapped)) == whole
    paragraph = " ".join(line if line[-1] in ".)" and not line.startswith("Arm") else f"{line}." for line in lines)
    assert _read("\n".join(textwrap.wrap(paragraph, width))) == whole
