"""The name of a part and what is done before its first round, in one line: "Body (grey): join grey to the back loops
of round 8 of the hat", "Ears (make 2): leave a long tail", "WINGS (MAKE 2) Using A, make a magic ring."

The name ends at its colon or dash, or at the bracket with its number; what stands behind that is asked, and no name.
Behind its number in words it may be anything: "FLAPS, make two, 9 sts apart".
"""

from __future__ import annotations

import re

from hookside.notation.vocabulary import SEVERAL

_ACTS = (
    r"join|attach|pick up|start|begin|leave|stuff|change|switch|sew|fold|insert|close|fasten|cut|continue|carry on|"
    r"place|turn|hold|use|pull up|tie|draw|re-?join|go back|do not|don't|never|keep|weave|finish|skip|"
    r"(?:make|form|wind|take) (?:an?|the|your|up)"
)
_YARN = r"(?:with|using|in|take|use) [^,;:.\n]{1,40}[,;] ?(?:(?:and|then) )?"  # "With teal, make a magic ring."
_NAMED_JOB = re.compile(
    rf"(?P<made>[A-Z][A-Za-z' ]{{1,24}}, (?:make|work|crochet|you need) {SEVERAL}), (?P<more>[^\n]{{3,80}})|"
    r"(?P<name>[A-Za-z][A-Za-z' ]{1,24}?(?: ?\d)?(?:,? x ?\d{1,2})?)(?P<aside>\s*[(\[][^()\[\]\n]{1,40}[)\]])?"
    r"(?:\s*:|\s+-+|(?<=[)\]]))\s+"
    rf"(?P<told>(?:(?:now|first|to begin),? )?(?:{_YARN})?(?:{_ACTS})\b"
    r"(?! (?:with|in|using|at|from) [a-z]+$)[^\n]{4,160})",
    re.I,
)


def named_job(text: str) -> tuple[int, int] | None:
    """-> (where the name of the part and what stands in its bracket ends, where the asking begins)."""
    if not any(sign in text for sign in (": ", "- ", ") ", ", ")):
        return None
    match = _NAMED_JOB.fullmatch(text.rstrip())
    if match is None:
        return None
    if match["made"]:
        return match.end("made"), match.start("more")
    return match.end("aside") if match["aside"] else match.end("name"), match.start("told")
