"""Reads the vectors, and says a spot the way they write it down. The page's own test reads the same files."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from hookside.follow import Spot

HERE = Path(__file__).resolve().parent


def told(spot: Spot) -> dict[str, Any]:
    """A spot with its groups and its cue named instead of spelled out."""
    return {
        **spot.model_dump(mode="json"),
        "group": spot.group.stitch if spot.group else None,
        "lead": [group.stitch for group in spot.lead],
        "trail": [group.stitch for group in spot.trail],
        "cue": spot.cue.address if spot.cue else None,
    }


def vectors(folder: str) -> dict[str, dict[str, Any]]:
    """The cases of a folder by file name, each with its strands under "laid"."""
    cases = {path.name: json.loads(path.read_text("utf-8")) for path in sorted((HERE / folder).glob("*.json"))}
    for case in cases.values():
        case.setdefault("laid", {})
        case["laid"] |= {name: small(name) for name in case.get("strands", [])}
    return cases


def small(name: str) -> dict[str, Any]:
    strand: dict[str, Any] = json.loads((HERE / "strands" / f"{name}.json").read_text("utf-8"))
    return strand


def write_json(value: dict[str, Any], deep: str) -> str:
    """JSON with sorted keys; lists named in `deep` get a line for each entry, so that a difference names its move."""
    lines = []
    for key in sorted(value):
        if key in deep.split() and value[key]:
            inner = ",\n".join("  " + json.dumps(item, sort_keys=True, ensure_ascii=False) for item in value[key])
            lines.append(f"{json.dumps(key)}: [\n{inner}\n]")
        else:
            lines.append(f"{json.dumps(key)}: {json.dumps(value[key], sort_keys=True, ensure_ascii=False)}")
    return "{\n" + ",\n".join(lines) + "\n}\n"
