"""Phrases that are known by their wording: one entry each, matched where a clause or a word starts."""
