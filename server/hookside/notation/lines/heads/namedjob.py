"""The name of a part and what is done before its first round, in one line: "Body (grey): join grey to the back loops
of round 8 of the hat", "Ears (make 2): leave a long tail", "WINGS (MAKE 2) Using A, make a magic ring."

The name ends at its colon or dash, or at the bracket with its number; what stands behind that is asked, and no name.
"""

from __future__ import annotations

import re

_ACTS = (
    r"join|attach|pick up|start|begin|leave|stuff|change|switch|sew|fold|insert|close|fasten|cut|continue|carry on|"
    r"place|turn|hold|use|pull up|tie|draw|re-?join|go back|do not|don't|never|keep|weave|finish|skip|"
    r"(?:make|form|wind|take) (?:an?|the|your|up)"
)
_YARN = r"(?:with|using|in|take|use) [^,;:.\n]{1,40}[,;] ?(?:(?:and|then) )?"  # "With teal, make a magic ring."
_NAMED_JOB = re.compile(
    r"(?P<name>[A-Za-z][A-Za-z' ]{1,24}?(?: ?\d)?(?:,? x ?\d{1,2})?)(?P<aside>\s*[(\[][^()\[\]\n]{1,40}[)\]])?"
    r"(?:\s*:|\s+-+|(?<=[)\]]))\s+"
    rf"(?P<told>(?:(?:now|first|to begin),? )?(?:{_YARN})?(?:{_ACTS})\b"
    r"(?! (?:with|in|using|at|from) [a-z]+$)[^\n]{4,160})",
    re.I,
)


def named_job(text: str) -> tuple[int, int] | None:
    """-> (where the name of the part and what stands in its bracket ends, where the asking begins)."""
    if ": " not in text and "- " not in text and ") " not in text:
        return None
    match = _NAMED_JOB.fullmatch(text.rstrip())
    return (match.end("aside") if match["aside"] else match.end("name"), match.start("told")) if match else None
