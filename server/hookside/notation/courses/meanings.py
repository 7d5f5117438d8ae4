"""Double meanings in words: what each way of reading takes a stretch for."""

from __future__ import annotations

# By the name that the tree gives to a choice, its meanings in the order of its options.
MEANINGS: dict[str, tuple[str, ...]] = {
    "alone or all around": ("a single stitch", "stitches all the way round, but for what the bracket says"),
    "along or in each": ("one after the other along those stitches", "all of them in each of those stitches"),
    "all told or in each": ("that many all told", "that many in each stitch"),
    "beside the counted": (
        "a stitch in a place of its own",
        "a stitch into the turning chain, beside those that are counted",
    ),
    "closes a picot": ("a slip stitch that closes a picot", "a slip stitch that is a stitch of its own"),
    "decreases or stitches together": ("so many decreases", "that many stitches worked together"),
    "in each or along": ("all of them in each of those stitches", "one after the other along those stitches"),
    "in each or spread": ("that many in each stitch", "one in each stitch"),
    "in all or more times": ("that many times in all", "so many times more, after the first"),
    "increases or stitches in one": ("so many increases", "that many stitches in one"),
    "join or stitch": ("a slip stitch that closes the course", "a slip stitch that is a stitch of its own"),
    "kept back or left": ("so many stitches kept back", "a count of what is left at the end"),
    "last or all around": ("only the last stitch going all the way", "the whole stretch going all the way"),
    "missing multiplier": (
        "a bracket worked once",
        "a bracket repeated to the end",
        "a bracket whose stitches all go into one",
    ),
    "more times or times": ("so many times more, after the first", "that many times in all"),
    "one stitch or two": (
        "one stitch",
        "two stitches, a plain one and the other",
        "one stitch, whose number is part of its name",
    ),
    "two stitches or one": (
        "two stitches, a plain one and the other",
        "one stitch",
        "one stitch, whose number is part of its name",
    ),
    "places or decreases": ("decreases that fill those places", "one decrease for each number"),
    "same or next": ("both in the stitch just worked", "both in the next stitch"),
    "next or same": ("all in the next stitch", "all in the stitch just worked"),
    "all told or spread": (
        "that many and no more",
        "that many, spread evenly over the stitches there are",
    ),
    "spread or in each": ("one in each stitch", "that many in each stitch"),
    "start and behind it": ("one at the start and that many behind it", "that many all told, from the start on"),
    "stitches or on the way": ("slip stitches to be counted", "slip stitches that only go to where it starts"),
    "times or more times": ("so many times more, after the first", "that many times in all"),
    "every so many": (
        "shaping spaced so that it comes out",
        "shaping spaced so that it comes out",
    ),
    "every so manieth": ("the decrease taking in that stitch", "the decrease beginning at that stitch"),
    "adorned": ("plain stitches between them", "the stitches between them passed over"),
    "trails off": ("stitches worked once", "stitches worked again and again to the end"),
    "together or apart": ("all in one stitch", "each in a stitch of its own"),
    "what goes around": ("the whole stretch going all the way", "only the last stitch going all the way"),
    "the list or so many": ("the whole stretch going all the way", "that many and no more", "that many in each stitch"),
    "what is multiplied": ("only the last stitch multiplied", "the whole stretch worked again and again"),
}
# Wider meanings, tried where no reading fits as it stands.
WIDER: dict[str, str] = {
    "all in one": "a bracket whose stitches all go into one stitch",
    "back along the chain": "one side of the chain and then back along the other",
    "beside the first": "a stitch beside the turning chain, not into the same stitch",
    "bridge counts": "a chain whose stitches count",
    "all the way": "one of them after another, all the way",
    "along the chain": "one in each chain from there on",
    "around the edges": "a round along the edges of the rows, with as many stitches as are printed",
    "circle goes round": "all the way round, and not into a ring",
    "count of a stretch": "a printed count that counts its last stretch only",
    "each into one": "so many into one stitch each, and not as plain stitches",
    "far side of the bridge": "a chain of which the next round works the other side",
    "first chain passed": "a chain whose first stitch, the one at the hook, is passed over",
    "multiplied with it": "a stitch and the one right before it, both worked again and again",
    "number counts the course": "what stands before its last number, and that number as the count",
    "number tells how often": "a number behind it that tells how often, and not the count",
    "list goes round": "a list worked again and again to the end",
    "plain between": "so many plain stitches and then one of these, again and again to the end",
    "same and plain": "as many stitches as there are, and not as the same shaping again",
    "terse list": "a list worked again and again to the end",
    "told in a sentence": "stitches told in a sentence, of whose meanings this is the one that comes out",
    "told within an asking": "stitches of this course, though they are told within something else to do",
    "plain one and another": "two stitches, a plain one and the other",
    "ones and twos": "so many into one stitch each, and not as plain stitches",
    "over the bridge": "a round that also goes along the chain between the two pieces",
    "two layers there": "stitches that go through two layers where it says so, and through one elsewhere",
    "one upon the other": "two parts that lie one upon the other, with a stitch of each for every stitch of the round",
    "semicolon ends it": "a repeat that goes as far as the semicolon",
    "taken over": "decreases over so many stitches, and not so many decreases",
    "shaping spread": "so many of them, spread evenly over the stitches there are",
    "shapes that stitch": "one stitch more or fewer, named by the stitch that it is made of",
    "slip stitches over": "slip stitches that only pass over the first stitches",
    "rest left": "last stitches that are left unworked",
    "slip stitches passed": "slip stitches that only pass over the first stitches",
    "slip stitch levels": "a last slip stitch that only levels the edge",
    "names one stitch": "one stitch with two names, and not a plain one and another behind it",
    "two in one": "so many stitches in one stitch, as \"2sc\" is written for an increase",
    "turning chain stands": "a chain that stands for the first stitch, and counts",
    "turning chain counts": "a turning chain that counts as a stitch",
}


# Meanings that rest on how such words are mostly meant
BY_CUSTOM = frozenset(
    ["turning chain stands", "far side of the bridge", "names one stitch", "plain one and another", "rest left",
     "ones and twos", "slip stitches passed"]
)

# Ways of writing that an author keeps to: told once, where the stitches below and the printed count bear them out again
HABITS = frozenset(
    ["what is multiplied", "what goes around", "turning chain counts", "stitches or on the way", "times or more times",
     "more times or times", "in all or more times", "terse list", "two in one"]
)


def meaning(why: str, option: int = 1) -> str:
    """What a stretch was taken for: option 0 is the meaning that lies nearest."""
    told = MEANINGS.get(why)
    return WIDER.get(why, why) if told is None else told[min(option, len(told) - 1)]
