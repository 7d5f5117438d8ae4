"""Beside the stages: sentences that ask the hands for something that is not a stitch."""
