"""Hookside: reads a written crochet pattern and follows the hook through it."""

__version__ = "0.1.0"
