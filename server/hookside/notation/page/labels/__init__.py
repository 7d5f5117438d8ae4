"""Labels in a dress that no later stage knows: their sign, their number, their noun, or the place they stand at."""
