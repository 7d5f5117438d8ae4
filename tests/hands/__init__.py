"""Whole patterns with a known truth in hands drawn at random: every axis of a hand is drawn as if no value were rarer
than another, so that habits meet that seldom meet (tests/dialects/ draws them as often as they are met)."""
