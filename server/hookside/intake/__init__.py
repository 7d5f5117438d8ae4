"""Files into text: PDF with text, web pages, Markdown, plain text, each in a bounded process of its own."""

from hookside.intake.bounded import LARGEST_FILE, take
from hookside.intake.taken import CannotTake, Taken

__all__ = ["LARGEST_FILE", "CannotTake", "Taken", "take"]
