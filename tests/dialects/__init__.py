"""Whole patterns with a known truth, printed in the dialects that makers might write them in."""
