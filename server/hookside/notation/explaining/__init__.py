"""How a line was read, in plain words: what each part was taken for, the arithmetic, and why it was read so."""
