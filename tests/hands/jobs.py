"""What the hands are told between the courses, and where it stands."""

from __future__ import annotations

from typing import Any

from dialects.dialect import Dialect
from dialects.made import Job

STUFF = (
    "Stuff.", "Stuff firmly.", "stuff", "Start stuffing.", "Begin to stuff.", "Stuff the piece now.", "STUFF IT",
    "Fill with fiberfill.", "Add stuffing.", "Stuff lightly", "Start filling it.", "Time to stuff!", "Stuff it well",
    "Put stuffing in.", "Stuff before closing.", "Fill it up.", "Stuff as you go from here.", "Add some stuffing now",
    "Pack in the stuffing.", "Stuff a bit.", "stuff here", "Fill.", "Stuffing time.", "Stuff tightly now.",
    "Now stuff.",
)  # fmt: skip
EYES = (
    "Insert safety eyes between rounds {}.", "Eyes between rnds {}.", "Place eyes between rounds {}, 5 sts apart",
    "Put the eyes in between rounds {}.", "Add the eyes between {}.", "Safety eyes go between rounds {}.",
    "Attach eyes between R{}", "put in eyes now (between rounds {})", "Fix the eyes between rounds {}, 6 sts apart.",
    "Eyes in, between rounds {}.", "Now put the safety eyes on between rounds {}",
    "Insert eyes here, between rnds {}",
    "Position the eyes between rounds {} and push on the backs.", "eyes: between rounds {}",
    "Place 8 mm eyes between rounds {}",
)  # fmt: skip
COLOUR = (
    "Change to {}.", "Switch to {}.", "Change colour to {}", "with {}:", "Change to {} yarn.", "Join {}.",
    "change: {}",
    "Now {}.", "Swap to {}", "Color change: {}", "(change to {})", "({})", "Continue in {}.", "Use {} from here on.",
    "{}:", "In {}:", "Now with {}", "{} yarn", "Cut yarn and join {}.", "-- change to {} --", "Change color ({})",
    "Take {}.", "Go over to {}", "*change to {}*", "Pick up {}.", "next colour: {}",
)  # fmt: skip
FASTEN = (
    "Fasten off.", "FO", "F.O.", "Fasten off, leave a long tail.", "Finish off", "Cut yarn and pull through.",
    "End off.",
    "Fasten off and weave in ends.", "FO, leave tail for sewing", "Tie off.", "fasten off",
    "Break yarn and fasten off.",
    "Cut the yarn leaving a tail for sewing.", "F/O", "Finish off leaving a long end to sew with.", "Cast off.",
    "FO.",
    "Fasten off invisibly.", "Fasten off + leave a tail", "Close and fasten off.", "Bind off", "Done! Fasten off.",
    "sl st, fasten off", "Slip stitch and fasten off.", "sl st in next st and FO", "Fasten off leaving a 20 cm tail",
)  # fmt: skip
STORY = (
    "It should look like a little bowl by now.", "This took me a whole evening.", "I love this bit.",
    "Don't worry if it curls.",
    "Looking good so far :)", "My cat sat on mine at this point.", "Almost there!", "Coffee break :-)",
    "It's easy from here.",
    "Here it starts to look like something.", "Sorry for the blurry photo!", "(photo)", "I did this on the train.",
    "You're doing great.", "See picture.", "Now the boring part, haha.",
)  # fmt: skip
PLACES = ("own line", "own line", "behind", "in brackets behind", "behind a dash", "before", "after a semicolon",
          "own line in brackets", "own line with a star", "own line with an arrow")  # fmt: skip


def told(d: Dialect, job: Job) -> tuple[str, list[dict[str, Any]]]:
    """(the words, the cues in them without their piece)."""
    after = str(job.after)
    cue: dict[str, Any] = {"after": after, "kind": job.kind}
    if job.kind == "stuff":
        cue["also"] = ["close"]
        return d.now("hand.stuff", STUFF, job.after), [cue]
    if job.kind == "eyes":
        return d.now("hand.eyes", EYES, job.after).format(job.about), [cue]
    if job.kind == "colour":
        text = d.pick("hand.colour", COLOUR).format(job.about)
        return text[:1].upper() + text[1:] if d.has("hand.colour capital", 0.5) else text, [{**cue, "also": ["join"]}]
    sentence = d.pick("hand.fasten", FASTEN)
    more = [k for k, w in (("tail", "tail"), ("weave", "weave"), ("tail", "long end"), ("close",
        "lose")) if w in sentence]
    return sentence, [{**cue, "also": ["tail"]}, *({**cue, "kind": k, "optional": True} for k in {*more, "tail",
        "join", "close"})]


def placed(d: Dialect, sentence: str, kind: str, course: str) -> tuple[str, list[str]]:
    """(the course's line, lines behind it). Rule: what lasts ("{}:") is a line of its own."""
    place = d.pick(f"hand.place of {kind}", PLACES)
    bare = sentence.strip("()*-. ").rstrip(":")
    if place.startswith("own") or sentence.endswith(":") or place == "before" or "\n" in course:
        if place.endswith("brackets"):
            return course, [f"({bare})"]
        if place.endswith("star"):
            return course, [f"* {bare}"]
        if place.endswith("arrow"):
            return course, [f"-> {bare}"]
        return course, [sentence]
    if place == "in brackets behind":
        return f"{course} ({bare})", []
    if place == "behind a dash":
        return f"{course} - {bare}", []
    if place == "after a semicolon":
        return f"{course}; {bare}", []
    stop = "" if course.rstrip()[-1:] in ".!)]}>*" else "."
    return f"{course}{stop} {sentence[:1].upper()}{sentence[1:]}", []
