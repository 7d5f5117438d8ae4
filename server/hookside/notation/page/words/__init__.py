"""A text's own words and signs for stitches, in place of which stand those that everybody knows."""
