"""What stands between the courses: jobs for the hands, colours, notes, and talk that asks for nothing."""

from __future__ import annotations

from typing import Any

from .dialect import Dialect
from .made import Job, Piece

STUFF = (
    "Stuff firmly.", "Begin stuffing.", "Start stuffing and continue as you go.", "Stuff the piece.", "Stuff now!",
    "STUFF", "Fill with fibrefill.", "Add stuffing.", "Stuff lightly.", "(Stuff)", "Start to stuff the piece.",
    "Now stuff it well.",
)  # fmt: skip
EYES = (
    "Insert safety eyes between rounds {}.", "Place eyes between rounds {}, 5 sts apart.",
    "Add the eyes between Rnds {}.", "Attach the safety eyes between rounds {} with 6 stitches between them.",
    "Put the eyes in between rnds {} now.", "Pop the eyes in between rnds {} about 6 sts apart.",
    "Eyes go in between rounds {}, 7 stitches apart.",
)  # fmt: skip
COLOUR = (
    "Change to {}.", "Switch to {} yarn.", "Change colour to {}.", "With {}:", "Change to {} yarn.", "Continue in {}.",
    "Join {} yarn.", "Now use {}.", "Colour change: {}", "({})", "Use {} from here.", "Swap to {}.",
)  # fmt: skip
FASTEN: dict[str, tuple[float, str]] = {
    "Fasten off.": (5, ""), "Fasten off": (2, ""), "FO.": (1, ""), "FO": (0.7, ""),
    "Fasten off, leaving a long tail for sewing.": (3, "tail"), "Fasten off and weave in ends.": (1, "weave"),
    "Finish off.": (0.5, ""), "Cut yarn and pull through the last loop.": (0.7, ""),
    "Finish off and leave a tail.": (0.5, "tail"), "Break yarn and fasten off.": (0.5, ""),
    "Cut the yarn, leaving a 20 cm tail.": (0.6, "tail"), "F/O leaving a long end for sewing": (0.4, "tail"),
    "Sl st in next st, fasten off.": (0.5, ""), "End off.": (0.2, ""), "Invisible fasten off.": (0.3, ""),
    "Tie off, leaving a tail.": (0.3, "tail"), "Bind off.": (0.2, ""),
}  # fmt: skip
STORY = (
    "I always find this part soothing.", "The gulls on our quay look just like this.",
    "It begins to look like something!", "My neighbour's boat was the model for this one.",
    "This took me two evenings by the window.", "Nearly there!", "The tide tables on the wall gave me the idea.",
    "It may curl a little at first, that is quite normal.",
)  # fmt: skip
NOTES = (
    "Note: worked in a continuous spiral.", "Worked in the round from the top down.",
    "Do not join rounds unless told so.", "The right side is the outside.",
    "This piece is worked from the bottom up.",
)  # fmt: skip


def told(d: Dialect, job: Job) -> tuple[str, list[dict[str, Any]]]:
    """(the sentence, the cues it holds as a scorer wants them, without the piece)."""
    after = str(job.after)
    if job.kind == "stuff":
        return d.now("job.stuff", STUFF, job.after), [{"after": after, "kind": "stuff"}]
    if job.kind == "eyes":
        return d.now("job.eyes", EYES, job.after).format(job.about), [{"after": after, "kind": "eyes"}]
    if job.kind == "colour":
        return d.pick("job.colour", COLOUR).format(job.about), [{"after": after, "kind": "colour", "also": ["join"]}]
    sentence = d.pick("job.fasten", {k: w for k, (w, _) in FASTEN.items()})
    more = FASTEN[sentence][1]
    cues = [{"after": after, "kind": "fasten", "also": ["tail"]}]
    cues += [{"after": after, "kind": kind, "optional": True} for kind in {more, "tail", "join", "close"} - {""}]
    return sentence, cues


def story(d: Dialect, salt: object) -> str | None:
    """Talk behind a course, by those who talk."""
    if d.has("talk.story", 0.2) and d.chance(f"story/{salt}").random() < 0.15:
        return d.now("talk.what", STORY, salt)
    return None


def note(d: Dialect, piece: Piece) -> str | None:
    """A sentence under a heading."""
    if piece.flat or not d.has("talk.notes", 0.25):
        return None
    joined = d.chosen.get("rounds.worked") == "joined"
    return d.now("talk.note", [n for n in NOTES if not (joined and ("spiral" in n or "join" in n))], piece.name)
