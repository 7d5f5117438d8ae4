"""Writes src/generated/pattern.ts: the page's types, from the schema of the common tongue.

    python frontend/generate.py            writes the file
    python frontend/generate.py --check    exit 1 when the committed file has drifted

The file is committed, so that the page builds without Python.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any, get_args

HERE = Path(__file__).resolve().parent
TARGET = HERE / "src" / "generated" / "pattern.ts"
REF = "#/$defs/"
NAMED = ("Severity", "Weight", "Basis", "Terms", "CueKind")

HEAD = """\
// Written by frontend/generate.py from the common tongue: pattern.py, follow/strand.py, shape/measures.py.
// Change those and run it again.
"""


def literals(name: str) -> list[str]:
    """The values of one of the tongue's named choices."""
    from hookside import pattern

    return list(get_args(getattr(pattern, name)))


def typescript(schema: dict[str, Any]) -> str:
    """One JSON schema as a TypeScript type."""
    if "$ref" in schema:
        return str(schema["$ref"]).removeprefix(REF)
    for union in ("anyOf", "oneOf"):
        if union in schema:
            joined = " | ".join(dict.fromkeys(typescript(s) for s in schema[union]))
            return "Node" if joined == "Group | Repeat" else joined
    if "const" in schema:
        return json.dumps(schema["const"])
    if "enum" in schema:
        for name in NAMED:
            if schema["enum"] == literals(name):
                return name
        return " | ".join(json.dumps(v) for v in schema["enum"])
    kind = schema.get("type")
    if kind == "array" and "prefixItems" in schema:
        return f"[{', '.join(typescript(one) for one in schema['prefixItems'])}]"
    if kind == "array":
        inner = typescript(schema.get("items", {}))
        return f"({inner})[]" if " | " in inner else f"{inner}[]"
    if kind == "object":
        values = schema.get("additionalProperties")
        return f"Record<string, {typescript(values)}>" if isinstance(values, dict) else "Record<string, unknown>"
    if kind in ("integer", "number"):
        return "number"
    if kind in ("string", "boolean", "null"):
        return str(kind)
    return "unknown"


def interface(name: str, schema: dict[str, Any]) -> str:
    """A record as an interface. Every field is there: the server leaves none out."""
    lines = [f"export interface {name} {{"]
    lines += [f"  {field}: {typescript(s)};" for field, s in schema.get("properties", {}).items()]
    return "\n".join([*lines, "}"])


def render() -> str:
    """The whole file as text."""
    from pydantic.json_schema import models_json_schema

    from hookside import pattern
    from hookside.follow.strand import Strand
    from hookside.shape.measures import Measures

    _, top = models_json_schema([(shape, "serialization") for shape in (pattern.Pattern, Strand, Measures)])
    unions = [f"export type {name} = {' | '.join(json.dumps(v) for v in literals(name))};" for name in NAMED]
    unions.append("export type Node = Group | Repeat;")
    records = [interface(name, schema) for name, schema in sorted(top["$defs"].items())]
    return HEAD + "\n" + "\n".join(unions) + "\n\n" + "\n\n".join(records) + "\n"


def main() -> int:
    sys.path.insert(0, str(HERE.parent / "server"))
    text = render()
    if "--check" in sys.argv[1:]:
        if TARGET.is_file() and TARGET.read_text(encoding="utf-8") == text:
            return 0
        print("src/generated/pattern.ts is behind the common tongue: run python frontend/generate.py")
        return 1
    TARGET.parent.mkdir(parents=True, exist_ok=True)
    TARGET.write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
