"""Imports go down only. The tables are the whole rule; the walkers only read the sources."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "server" / "hookside"
PAGE = ROOT / "frontend" / "src"

# Each room and the floor it stands on: it may use what stands on lower floors, and itself.
FLOORS = {
    "pattern": 0, "config": 0,
    "stitches": 1, "colours": 1, "layers": 1, "unstuffed": 1,
    "notation": 2, "shape": 2, "words": 2, "follow": 2, "voice": 2, "intake": 2,
    "habits": 2, "joining": 3,
    "cues": 3, "finish": 3, "mend": 3, "journal": 3, "gather": 3, "record": 3,
    "compile": 4,
    "web": 5,
    "cli": 6,
    "__main__": 7,
}  # fmt: skip

# What these may not touch: they take no clock, disk, network, randomness or logging.
PURE = {"follow", "finish", "mend", "habits", "gather", "joining"}
WORLDLY = {
    "asyncio", "click", "datetime", "flask", "io", "logging", "os", "pathlib", "platformdirs", "queue", "random",
    "secrets", "shutil", "signal", "socket", "socketio", "sqlalchemy", "sqlite3", "subprocess", "sys", "tempfile",
    "threading", "time", "urllib", "uuid",
}  # fmt: skip
WORLDLY_CALLS = {"open", "print", "input", "exec", "eval"}

# The page's rooms and what each may use beside itself.
PAGE_ROOMS: dict[str, set[str]] = {
    "generated": set(),
    "look": set(),
    "route": set(),
    "worker": set(),
    "follow": {"generated"},
    "api": {"generated", "follow"},
    "maker": {"generated", "api"},
    "hands": {"generated", "follow"},
    "drawings": {"generated", "follow"},
    "pages": {"generated", "look", "route", "api", "maker", "follow", "hands", "drawings", "worker"},
    "Notices": {"follow", "route"},
    "main": {"Notices", "look", "route", "api", "maker", "follow", "pages", "worker"},
}
# Types leave nothing behind in the built page: these pairs may go up for types alone.
TYPES_UP = {("follow", "api")}


def room_of(path: Path, root: Path) -> str:
    """The room a source file belongs to: its folder under `root`, or its own name there."""
    first = path.relative_to(root).parts[0]
    return first.split(".", 1)[0]


def modules(tree: ast.AST, package: list[str]) -> Iterator[str]:
    """Every module that is imported anywhere in a source, inside functions too, as a full name."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            name = ".".join([*base, *([node.module] if node.module else [])])
            yield from (f"{name}.{alias.name}" for alias in node.names)


def broken(room: str, source: str, package: list[str]) -> list[str]:
    """What in a source of `room` goes against the tables."""
    tree = ast.parse(source)
    out = []
    for name in modules(tree, package):
        parts = name.split(".")
        if parts[0] == "hookside" and len(parts) > 1:
            other = parts[1]
            if other != room and other in FLOORS and FLOORS[other] >= FLOORS[room]:
                out.append(f"{room} uses {other}")
            if other not in FLOORS and other != "__version__":
                out.append(f"{room} uses {other}, which is no room")
        elif room in PURE and parts[0] in WORLDLY:
            out.append(f"{room} uses {parts[0]}")
    if room in PURE:
        calls = (n.func for n in ast.walk(tree) if isinstance(n, ast.Call))
        out += [f"{room} calls {f.id}" for f in calls if isinstance(f, ast.Name) and f.id in WORLDLY_CALLS]
    return out


SOURCES = sorted(p for p in PACKAGE.rglob("*.py") if p != PACKAGE / "__init__.py" and "static" not in p.parts)


@pytest.mark.parametrize("path", SOURCES, ids=lambda p: p.relative_to(PACKAGE).as_posix())
def test_server_imports_go_down(path: Path) -> None:
    room = room_of(path, PACKAGE)
    assert room in FLOORS, f"{room} is no room of the house: give it a floor or another place"
    package = ["hookside", *path.relative_to(PACKAGE).parent.parts]
    assert broken(room, path.read_text(encoding="utf-8"), package) == []


@pytest.mark.parametrize(
    ("room", "source", "found"),
    [
        ("notation", "import hookside.web.app", ["notation uses web"]),
        ("notation", "from hookside import compile", ["notation uses compile"]),
        ("words", "def f():\n    from hookside.notation import read", ["words uses notation"]),
        ("words", "from ..notation import read", ["words uses notation"]),
        ("follow", "import time", ["follow uses time"]),
        ("follow", "from datetime import datetime", ["follow uses datetime"]),
        ("follow", "open('x')", ["follow calls open"]),
        ("web", "from hookside.compile import read\nfrom hookside.web.door import Door\nimport time", []),
    ],
)
def test_the_walker_sees(room: str, source: str, found: list[str]) -> None:
    assert broken(room, source, ["hookside", room]) == found


IMPORTS = re.compile(
    r"""(?:^|[;\n])\s*(?:import|export)\s+(type\s)?[^;'"]*?from\s*["']([^"']+)["']"""  # import x from "y", export too
    r"""|(?:^|[;\n])\s*import\s*["']([^"']+)["']"""  # import "y"
    r"""|\bimport\(\s*["']([^"']+)["']"""  # import("y")
)


def page_imports(source: str) -> list[tuple[str, bool]]:
    """Every module a TypeScript source names, and whether for types alone."""
    without_comments = re.sub(r"/\*.*?\*/|(?m:^\s*//.*$)", "", source, flags=re.DOTALL)
    return [("".join(names), bool(types)) for types, *names in IMPORTS.findall(without_comments)]


def page_broken(path: Path, source: str) -> list[str]:
    room = room_of(path, PAGE)
    out = []
    for name, types in page_imports(source):
        if not name.startswith("."):
            continue
        target = (path.parent / name).resolve()
        if PAGE not in target.parents:
            out.append(f"{room} uses {name}, outside src")
            continue
        other = room_of(target, PAGE)
        allowed = other == room or other in PAGE_ROOMS[room] or (types and (room, other) in TYPES_UP)
        if not allowed:
            out.append(f"{room} uses {other}")
    return out


PAGE_SOURCES = sorted(p for p in PAGE.rglob("*.ts*") if p.suffix in (".ts", ".tsx") and ".test." not in p.name)


@pytest.mark.parametrize("path", PAGE_SOURCES, ids=lambda p: p.relative_to(PAGE).as_posix())
def test_page_imports_go_down(path: Path) -> None:
    assert room_of(path, PAGE) in PAGE_ROOMS, "no room of the page: give it a line in the table or another place"
    assert page_broken(path, path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    ("source", "found"),
    [
        ('import { a } from "../pages/shelf";', ["follow uses pages"]),
        ('import { api } from "../api";', ["follow uses api"]),
        ('import type { Snapshot } from "../api";', []),
        ('import type {\n  A,\n  B,\n} from "../drawings/round";', ["follow uses drawings"]),
        ('const p = await import("../pages/bench");', ["follow uses pages"]),
        ('export * from "../look/x";', ["follow uses look"]),
        ('import "../look/ground.css";', ["follow uses look"]),
        ('import { io } from "socket.io-client";\nimport type { Strand } from "../generated/pattern";', []),
    ],
)
def test_the_page_walker_sees(source: str, found: list[str]) -> None:
    assert page_broken(PAGE / "follow" / "link.ts", source) == found
