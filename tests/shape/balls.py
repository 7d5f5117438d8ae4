"""A ball of 30 stitches as texts have it, open after round 13, and how it is shut. Demo."""

BALL = """Rnd 1: 6 sc in magic ring (6)
Rnd 2: inc x 6 (12)
Rnd 3: (sc, inc) x 6 (18)
Rnd 4: (2 sc, inc) x 6 (24)
Rnd 5: (3 sc, inc) x 6 (30)
Rnds 6-11: sc in each st around (30)
Rnd 12: (3 sc, dec) x 6 (24)
Rnd 13: (2 sc, dec) x 6 (18)
Stuff.
"""
SHUT = "Rnd 14: (sc, dec) x 6 (12)\nRnd 15: dec x 6 (6)\nFasten off and close the hole.\n"
