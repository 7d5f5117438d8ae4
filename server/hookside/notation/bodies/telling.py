"""Words that tell how a course is worked: none that holds one of them may be passed over."""

from __future__ import annotations

import re

# Words that must never be left out of a course: numbers, places, loops, repeats and what turns a meaning round
TELLING = re.compile(
    r"\d|\b(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|once|twice|thrice|double|half|first|"
    r"second|"
    r"third|fourth|fifth|last|next|each|every|other|alternate|same|both|all|in|into|on|over|under|around|across|"
    r"between|"
    r"behind|before|after|below|above|along|through|top|side|edge|end|corner|loops?|lps?|lo|blo|flo|back|front|post|"
    r"strand|gap|space|sps?|rep\w*|times?|again|until|more|less|fewer|extra|skip\w*|miss\w*|leav\w*|omit\w*|un\w+|"
    r"turn\w*|not|no|without|except|instead|inc\w*|dec\w*|tog\w*|sts?|stitch\w*|chains?|ch|rows?|rounds?|rnds?)\b",
    re.I,
)
