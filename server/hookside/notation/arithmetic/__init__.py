"""Sixth stage: a tree and the stitches that are there -> groups with their sums, and the choice between readings."""
