"""What the maker says of her own yarn and hook."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Asked:
    """What the maker says beyond the pattern, each as she wrote it, "" where she did not.

    gauge   her swatch: "20 sts and 22 rounds = 10 cm"
    used    what she unravelled: "20 sc used 46 cm"
    yarn    another yarn: "DK", "100 g = 320 m"
    hook    another hook: "3 mm", "G-6"
    """

    gauge: str = ""
    used: str = ""
    yarn: str = ""
    hook: str = ""
