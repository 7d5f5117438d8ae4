"""Orders whose thing stands first, as other tongues put them: "The hole we pull, the thread we fasten and hide"."""

from __future__ import annotations

import re

# "The mouth under the nose sew on", "Body firmly stuff": as other tongues put it, word for word
VERB_LAST = re.compile(
    r"(?P<what>(?:only )?(?:(?:the|all|both) )?[a-z]{3,14}s?"
    r"(?: (?:under|on|between|at|to|in|behind|above|below) [a-z0-9 .]{2,40}?)?)"
    r"(?: (?:now|then|firmly|lightly|easily|slightly|well|long|tightly|good))* "
    r"(?:out|up)?(?P<verb>sew on|sew together|sew|stuff|cut|attach|embroider|weave in|close|fill|fix|hide)"
    r"(?: (?:for|to) (?:sewing|sew)(?: on)?)?"
)
NO_ORDER = re.compile(
    r"\b(?:to|you|we|i|is|are|can|will|not|no|it|this|that|easy|hard|time|how|before|after|when)\b"
)
# "The hole we pull, the thread we fasten", "Thread to leave": the thing first, as other tongues put it
TURNED = re.compile(
    r"(?:and |then |now )*(?P<what>(?:(?:the|your|this|a|an|long|short|remaining|rest of the|end of|ends of|tip of) )*"
    r"(?:yarns?|threads?|rope|string|wool|tails?|ends?|tip|hole|opening|gap|eyes|stitches|loops)(?: of (?:the )?"
    r"(?:yarn|thread|rope))?) (?P<who>(?:we|you|i|is|are|to|then|now|must|should|be|it is necessary to|need to) )*"
    r"(?P<not>(?:do not|don't|not) )?(?P<verb>pull|draw|tighten|contract|close|fasten|fix|hide|cut|break|leave|keep|"
    r"secure|weave|insert|put|attach|pass)\b(?! (?:it|them|the)\b)(?P<rest>(?: (?:off|in|together|up|inside|long|"
    r"tight|tightly|hidden|shut|closed)\b)*)(?P<more>.*)$"
)
# "The trunk we fill immediately": the same of a part
_PART = re.compile(
    r"(?:and |then |now )*(?P<what>(?:(?:the|both|all|each) )*[a-z]{3,14}(?: and (?:the )?[a-z]{3,14})?) "
    r"(?:we|you) (?:also |then |now )*(?P<verb>fill|stuff|sew|embroider|attach|fasten|insert)(?P<more>.*)$"
)


def verb_first(whole: str) -> str | None:
    """The same order, in small letters, with its verb in front; None where its thing does not stand first."""
    found = TURNED.match(whole)
    if found is not None and (found["who"] or found["not"] or not found["more"]):
        forbids = "do not " if found["not"] else ""
        return f"{forbids}{found['verb']}{found['rest']} the {found['what'].removeprefix('the ')}{found['more']}"
    part = _PART.match(whole) if " we " in whole or " you " in whole else None
    if part is None or NO_ORDER.search(part["what"]):
        return None
    return f"{part['verb']} {part['what']}{part['more']}"
