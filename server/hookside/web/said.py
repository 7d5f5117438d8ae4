"""A refusal in words: raised anywhere behind the door, answered as {"say", "code"}."""

from __future__ import annotations

import json
from typing import Any


class Said(Exception):
    """`say` is a sentence for the maker, `code` a word for the page, `status` the HTTP status."""

    def __init__(self, status: int, code: str, say: str) -> None:
        super().__init__(say)
        self.status, self.code, self.say = status, code, say


def writable(data: Any) -> bool:
    """Whether it can be written down as JSON: a message can carry halves of characters, which no file takes, and a
    socket bytes."""
    try:
        json.dumps(data, ensure_ascii=False).encode()
    except (UnicodeEncodeError, RecursionError, TypeError):
        return False
    return True
