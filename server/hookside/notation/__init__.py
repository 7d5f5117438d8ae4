"""From a text as people publish it to pieces, courses, groups and findings.

Stages, each in its own file: page -> lines and segments -> labels -> tokens and phrases -> tree -> arithmetic ->
findings. `trace` shows what each of them made of a text.
"""

from hookside.notation.courses.sheet import Stage
from hookside.notation.reader import read, trace
from hookside.notation.uncollected import uncollected

__all__ = ["Stage", "read", "trace", "uncollected"]
