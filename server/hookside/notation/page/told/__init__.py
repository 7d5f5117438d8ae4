"""Rounds told in sentences, in talk or in passing: each gets a line, and the label that it lacks."""
