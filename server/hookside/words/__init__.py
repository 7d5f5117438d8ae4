"""Groups, courses and cues as sentences, in the maker's terms.

They are written into the pattern, so that the page speaks while the server is away.
"""

from hookside.words.cards import Card, cards
from hookside.words.colours import bare_name, colour_named, yarn_named
from hookside.words.courses import course_words, dress, dress_piece, group_words
from hookside.words.cues import CLAUSE_LETTERS, Surroundings, cue_words, in_last_stitch, in_the_join
from hookside.words.text import spoken_text as said_aloud
from hookside.words.text import translate

__all__ = [
    "CLAUSE_LETTERS",
    "Card",
    "Surroundings",
    "bare_name",
    "cards",
    "colour_named",
    "course_words",
    "cue_words",
    "dress",
    "dress_piece",
    "group_words",
    "in_last_stitch",
    "in_the_join",
    "said_aloud",
    "translate",
    "yarn_named",
]
