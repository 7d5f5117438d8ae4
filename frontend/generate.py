"""Writes src/generated: the page's types, from the schema of the common tongue, what it draws of the stitch table,
and the technique cards.

    python frontend/generate.py            writes the files
    python frontend/generate.py --check    exit 1 when a committed file has drifted

The files are committed, so that the page builds without Python.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any, get_args

HERE = Path(__file__).resolve().parent
TARGET = HERE / "src" / "generated" / "pattern.ts"
STITCHES = HERE / "src" / "generated" / "stitches.ts"
CARDS = HERE / "src" / "generated" / "cards.ts"
REF = "#/$defs/"
NAMED = ("Severity", "Weight", "Basis", "Terms", "CueKind")

HEAD = """\
// Written by frontend/generate.py from pattern.py, follow/strand.py, shape/measures.py, finish/item.py,
// gather/listing.py, habits/allowed.py.
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
    from hookside.finish import FinishItem
    from hookside.follow.strand import Strand
    from hookside.gather import Gathered
    from hookside.habits import Habits
    from hookside.shape.measures import Measures

    shapes = (pattern.Pattern, Strand, Measures, FinishItem, Gathered, Habits)
    _, top = models_json_schema([(shape, "serialization") for shape in shapes])
    unions = [f"export type {name} = {' | '.join(json.dumps(v) for v in literals(name))};" for name in NAMED]
    unions.append("export type Node = Group | Repeat;")
    records = [interface(name, schema) for name, schema in sorted(top["$defs"].items())]
    return HEAD + "\n" + "\n".join(unions) + "\n\n" + "\n\n".join(records) + "\n"


def render_stitches() -> str:
    """The symbol, the height in turning chains and the short names of every stitch of the table, as text."""
    from hookside.stitches import TABLE

    known = ((s.key, [s.symbol, s.height, s.abbreviation("US"), s.abbreviation("UK")]) for s in TABLE.values())
    lines = [f"  {json.dumps(key)}: {json.dumps(values)}," for key, values in known]
    return (
        "// Written by frontend/generate.py from stitches.toml. Change that and run it again.\n\n"
        "/** Stitch -> the name of its chart symbol, its height in turning chains, its short names, US and UK. */\n"
        "export const SYMBOLS: Record<string, readonly [string, number, string, string]> = {\n"
        + "\n".join(lines)
        + "\n};\n"
    )


def render_cards() -> str:
    """The technique cards, as text; what reads alike in both terms stands once."""
    from hookside.words import cards

    def said(us: str, uk: str) -> str:
        return json.dumps(us if us == uk else [us, uk], ensure_ascii=False)

    lines: list[str] = []
    for us, uk in zip(cards("US"), cards("UK"), strict=True):
        lines += [
            "  {",
            f"    key: {json.dumps(us.key)},",
            f"    title: {said(us.title, uk.title)},",
            f"    stitches: {json.dumps(us.stitches)},",
            f"    cues: {json.dumps(us.cues)},",
            "    steps: [",
            *(f"      {said(*pair)}," for pair in zip(us.steps, uk.steps, strict=True)),
            "    ],",
            f"    watch: {said(us.watch, uk.watch)},",
            "  },",
        ]
    return (
        "// Written by frontend/generate.py from words/cards.toml. Change that and run it again.\n\n"
        'import type { CueKind } from "./pattern";\n\n'
        "/** A sentence; two where US and UK terms differ. */\n"
        "export type Said = string | readonly [string, string];\n\n"
        "/** How one thing is done, step by step. */\n"
        "export interface CardText {\n"
        "  key: string;\n  title: Said;\n  stitches: readonly string[];\n  cues: readonly CueKind[];\n"
        "  steps: readonly Said[];\n  watch: Said;\n"
        "}\n\n"
        "export const CARDS: readonly CardText[] = [\n" + "\n".join(lines) + "\n];\n"
    )


def main() -> int:
    sys.path.insert(0, str(HERE.parent / "server"))
    files = {TARGET: render(), STITCHES: render_stitches(), CARDS: render_cards()}
    if "--check" in sys.argv[1:]:
        behind = [p.name for p, text in files.items() if not p.is_file() or p.read_text(encoding="utf-8") != text]
        for name in behind:
            print(f"src/generated/{name} is behind what it is written from: run python frontend/generate.py")
        return int(bool(behind))
    TARGET.parent.mkdir(parents=True, exist_ok=True)
    for path, text in files.items():
        path.write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
