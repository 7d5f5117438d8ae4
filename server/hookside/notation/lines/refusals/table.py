"""Why a line that looks like a heading is none: a table of refusals, each with its reason.

A line that names a part may as well be a colour, a job between two rounds, an entry of a list. What is asked of it
stands in order, as the first reason that holds is the one that is told (`hookside compile --trace`).
"""

from __future__ import annotations

from collections.abc import Callable

from hookside.notation.lines.refusals.colours import Colours
from hookside.notation.lines.refusals.copies import Copies
from hookside.notation.lines.refusals.entries import Entries
from hookside.notation.lines.refusals.jobs import Jobs
from hookside.notation.lines.refusals.named import Named
from hookside.notation.lines.refusals.rounds import Rounds
from hookside.notation.lines.refusals.things import Things
from hookside.notation.lines.refusals.words import Words

A_COLOUR = "it is a colour"
DONE_TO = "it tells what is done to a part"
IN_A_FRAME = "it is a job in a frame between two rounds"
IN_A_WORD = "it tells in a word what is done between two rounds"
A_SHADE = "it is the yarn of the heading above"


class Refusals(Colours, Jobs, Words, Things, Rounds, Copies, Entries):
    """The reasons against a heading. Each is asked of a line only where none before it held."""

    def refusal(self, name: Named) -> str | None:
        """Why the line is no heading; None where nothing speaks against it."""
        for why, holds in _BY_ITS_WORDS:
            if holds(self, name):
                return why
        if self.stands_alone(name):
            return None
        return next((why for why, holds in _BY_ITS_PLACE if holds(self, name)), None)

    def stands_alone(self, name: Named) -> bool:
        """ "Torso" under the title and a list of what one needs: its rounds begin a few lines further on."""
        if name.below:
            return True
        part = name.known and name.one_word
        titled = bool(self.out.title) and (part or ((name.known or name.loud) and self.section != "front"))
        front = self._coloured(name.following) or titled
        apart = self.blank or (titled and part and name.loud and not self.any_course)  # "EAR" right below a title
        stands = not name.leads and (name.known or not name.alone) and apart and (self.any_course or front)
        return (stands or name.shaded) and self.leads_soon(name.index)


_Table = tuple[tuple[str, Callable[[Refusals, Named], bool]], ...]
_BY_ITS_WORDS: _Table = (
    ("it corrects a round", Refusals.corrects_a_round),  # "Correction: R4 should read (2 sc, inc) x 6"
    ("it says how often the round above is worked", Refusals.says_how_often),  # "Again, twice."
    ("it is a letter behind a number", Refusals.is_a_letter),
    ("it is about a picture", Refusals.is_about_a_picture),  # "Photo 3: stuffing the body"
    ("it tells of one copy alone", Refusals.tells_of_one_copy),  # "For the second ear, work round 5 with cream."
    ("it works stitches", Refusals.works_stitches),
    ("it is bought and not made", Refusals.is_bought),  # "2 x 8mm black eyes"
    ("it says that this part is like another", Refusals.like_another),
    ("it tells of a thing between two rounds", Refusals.tells_of_a_thing),  # "Cheeks: pink thread, three stitches ..."
    ("it tells of a feature between two rounds", Refusals.tells_of_a_feature),  # "Nose: brown, between R5 and R6."
    ("it tells where a thing goes on the rounds", Refusals.tells_where_on_the_rounds),  # "Eyes after R4"
    ("it ends in the count of the round above", Refusals.ends_in_the_count),  # "Tighten up (12)"
    ("it tells which rounds are in a color", Refusals.tells_rounds_of_a_colour),  # "Cream: rounds 5-8"
    ("it tells where the part begins", Refusals.tells_where_to_begin),  # "Starting at the nose with B"
    ("it tells of the part above", Refusals.tells_of_the_part_above),  # "The head is worked in a spiral."
    (A_COLOUR, Refusals.is_a_colour),  # "Navy:"
    ("it tells of a colour", Refusals.talks_of_colours),  # "Back to red!"
    (A_SHADE, Refusals.is_the_yarn_of_a_heading),
    ("it is a job", Refusals.is_a_job),  # "Stuffing" between two rounds
    (IN_A_FRAME, Refusals.sets_a_job_in_a_frame),  # "** change to sweater colour **"
    (DONE_TO, Refusals.does_to_a_part),  # "fluff the head!! really full"
    ("it tells of a part that the rounds go over into", Refusals.tells_of_a_part),  # "Tail starts here"
    ("it tells of a side of the part above", Refusals.tells_of_a_side),  # "flat bottom:" beneath "BODY"
    ("it heads a box of talk between two rounds", Refusals.heads_a_box),  # "SIDEBAR"
    (IN_A_WORD, Refusals.tells_in_a_word),  # "Snout on.", "White band."
    ("the rounds go on in number behind it, and it names no part", Refusals.goes_on_in_number),
    ("it explains an abbreviation", Refusals.defines),
)
_BY_ITS_PLACE: _Table = (
    ("it is the title", Refusals.is_the_title),
    ("it stands in a list", Refusals.is_of_a_list),
    ("it names no part, and no round follows", Refusals.names_no_part),
    ("it asks for something", Refusals.asks_for_something),
)
REASONS = tuple(why for why, _ in (*_BY_ITS_WORDS, *_BY_ITS_PLACE))
