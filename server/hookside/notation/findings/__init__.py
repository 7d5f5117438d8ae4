"""Seventh stage: the table of mistakes, what a mistaken line most likely was meant to be, and what was left out."""
