"""What may be written where something else was, in words: pydantic's errors for people who never saw a field's name."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any


def bound(error: Mapping[str, Any]) -> str:
    """The end of a sentence on one error of a ValidationError: "1 or more", "'right' or 'left'"."""
    kind, ctx = error["type"], error.get("ctx") or {}
    had = error.get("input")
    if kind in ("greater_than_equal", "greater_than"):
        return f"write {ctx.get('ge', ctx.get('gt'))} or more"
    if kind in ("less_than_equal", "less_than"):
        return f"write {ctx.get('le', ctx.get('lt'))} or less"
    if kind == "literal_error":
        return f"write {re.sub(chr(39), '', str(ctx.get('expected')))}"
    if kind in ("string_too_long", "too_long"):
        many = f", and this has {len(had):,}" if isinstance(had, (str, list)) else ""
        what = "letters" if kind == "string_too_long" else "of them"
        return f"{ctx['max_length']:,} {what} at most{many}"
    if kind in ("string_too_short", "too_short"):
        return "it is empty"
    said = {
        "missing": "it is missing", "extra_forbidden": "there is nothing of that name",
        "int_type": "write a number", "int_parsing": "write a number", "string_type": "write words",
        "bool_type": "it is either so or not", "list_type": "it is a list", "dict_type": "it is a list of names",
    }  # fmt: skip
    return said.get(str(kind), "it is not written so")


def place(loc: tuple[int | str, ...]) -> str:
    """What an error speaks of, by its names: "copies" of copies.1, "labels" of labels.0."""
    names = [str(part) for part in loc if isinstance(part, str) and not part.isdigit() and part != "[key]"]
    return names[-1][:60] if names else ""
