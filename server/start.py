"""One command: environment, page, server.

    python3 server/start.py [what `hookside serve` takes: --no-browser, --folder F, --port N]

The first start makes `.venv` beside the sources, installs into it what
`server/constraints.txt` pins, builds the page and serves it. Every later start
finds that all of this is in place and only serves. Whether it is in place is
told by two stamps, each written after the work it vouches for was done:
`.venv/hookside.json` for the environment and `static/.stamp` for the page.

Uses the standard library alone, and keeps to the grammar of Python 3.8, so that
an old Python can still say which one is needed.
"""

from __future__ import annotations

import signal

if __name__ == "__main__":
    # Until there is something to say about it, Ctrl+C ends this without a word.
    _interrupted = signal.signal(signal.SIGINT, signal.SIG_DFL)

import contextlib
import glob
import hashlib
import json
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

NEEDED = (3, 11)
ROOT = Path(__file__).resolve().parent.parent
STAMP = "hookside.json"
PAGE = "server/hookside/static"
LEFT_OUT = {"node_modules", "dist", ".vite", "__pycache__"}
OFFLINE = (
    "Could not find a version", "No matching distribution", "connection broken", "Temporary failure in name",
    "ENOTFOUND", "ECONNREFUSED", "EAI_AGAIN", "ETIMEDOUT", "Failed to establish a new connection",
)  # fmt: skip

CUT_OFF = OFFLINE[2:]  # the network itself; the first two may also mean that there is nothing for this system
VOICE = {"voice"}
WITHOUT = (
    (
        {"voice-plain"},
        "The better of the two voice libraries, vosk, is not to be had for this system: English is listened to by the "
        "plainer one.",
    ),
    (set(), "No voice library is to be had for this system: Hookside works by touch and keys."),
)

STRANGE_CERTIFICATE = ("CERTIFICATE_VERIFY_FAILED", "SELF_SIGNED_CERT_IN_CHAIN", "UNABLE_TO_GET_ISSUER_CERT")


class DeadEnd(Exception):
    """Nothing more can be done from here; the text is one sentence that says what to do."""


def too_old(version, which=shutil.which):
    """None where this Python will do, else the sentence to say."""
    if tuple(version[:2]) >= NEEDED:
        return None
    found = next((n for n in ("python3.14", "python3.13", "python3.12", "python3.11") if which(n)), None)
    way = f"run {found} server/start.py" if found else "install it and start this with that one"
    this, needed = (".".join(str(n) for n in v[:2]) for v in (version, NEEDED))
    return f"Hookside needs Python {needed} or newer and this one is {this}: {way}."


# --- what the stamps stand for -------------------------------------------------------------------------------------


def hash_of(root, files, *more):
    """A hash of names and contents; a missing file counts as empty."""
    total = hashlib.sha256()
    for text in more:
        total.update(text.encode() + b"\0")
    for name in sorted(files):
        path = root / name
        content = path.read_bytes() if path.is_file() else b""
        total.update(f"{name} {len(content)}\0".encode() + content)
    return total.hexdigest()


def environment_key(root):
    """Changes when the environment must be installed anew. An environment cannot be moved: its place counts too."""
    return hash_of(root, ["pyproject.toml", "server/constraints.txt"], str(root))


def page_sources(root):
    """Names of the files that the page is built from, tests of the page apart."""
    found = []
    for folder, folders, names in os.walk(str(root / "frontend")):
        folders[:] = [f for f in folders if f not in LEFT_OUT]
        for name in names:
            if not name.endswith((".test.ts", ".test.tsx", ".pyc", ".tsbuildinfo")):
                found.append((Path(folder) / name).relative_to(root).as_posix())
    return found


def page_key(root):
    """Changes when the page must be built anew."""
    return hash_of(root, page_sources(root))


def page_stamp(root):
    """The key of the page that stands there, or None where none does."""
    folder = root / PAGE
    if not (folder / "index.html").is_file() or not (folder / ".stamp").is_file():
        return None
    return (folder / ".stamp").read_text(encoding="utf-8").strip()


def python_of(root):
    """The environment's own Python."""
    return root / ".venv" / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def read_stamp(root):
    """What is installed: {"environment": key, "extras": [names]}; empty where nothing can be trusted."""
    try:
        stamp = json.loads((root / ".venv" / STAMP).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    usable = isinstance(stamp, dict) and isinstance(stamp.get("extras"), list) and python_of(root).exists()
    return stamp if usable else {}


def write_stamp(root, extras):
    """Vouch for the environment. The last act of an installation, and in one piece."""
    text = json.dumps({"environment": environment_key(root), "extras": sorted(extras), "folder": str(root)})
    fresh = root / ".venv" / (STAMP + ".new")
    fresh.write_text(text, encoding="utf-8")
    os.replace(str(fresh), str(root / ".venv" / STAMP))


def wanting(root, extras):
    """What is not in place yet: a part of {"environment", "page"}."""
    stamp = read_stamp(root)
    out = set()
    if stamp.get("environment") != environment_key(root) or not set(extras) <= set(stamp.get("extras", [])):
        out.add("environment")
    if page_stamp(root) != page_key(root):
        out.add("page")
    return out


# --- doing the work ------------------------------------------------------------------------------------------------


def say(text):
    print(text, flush=True)


def run(command, cwd=None, env=None):
    """Run quietly. Returns (went well, all that it printed)."""
    try:
        done = subprocess.run(
            [str(c) for c in command], cwd=str(cwd) if cwd else None, env=env, stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace",
        )  # fmt: skip
    except OSError as e:
        return False, str(e)
    return done.returncode == 0, done.stdout


def has_pip(python):
    return run([python, "-m", "pip", "--version"])[0]


def pip_wheels():
    """Copies of pip that lie on this machine as files, newest name last."""
    folders = ["/usr/share/python-wheels", "/usr/lib/python3*/ensurepip/_bundled"]
    folders += ["/usr/local/lib/python3*/ensurepip/_bundled"]
    folders += [f for f in os.environ.get("PIP_FIND_LINKS", "").split() if os.path.isdir(f)]
    return sorted(w for f in folders for w in glob.glob(os.path.join(f, "pip-*.whl")))


def other_pips(which=shutil.which):
    """Commands on this machine that are a pip, this Python's own first."""
    names = ["pip3", "pip", "pip3.13", "pip3.12", "pip3.11"]
    return [[sys.executable, "-m", "pip"]] + [[p] for p in map(which, names) if p]


def bring_pip(python, wheels=pip_wheels, pips=other_pips, which=shutil.which):
    """Put pip into an environment that was made without it. Returns True when it is there."""
    for wheel in reversed(wheels()):
        run([python, os.path.join(wheel, "pip"), "install", "--no-index", wheel])
        if has_pip(python):
            return True
    for pip in pips():
        # A pip of another Python cannot install for this one unless it is new enough to know --python;
        # any pip can fetch pip's own wheel, which this Python can then run as it lies.
        with tempfile.TemporaryDirectory() as folder:
            run([*pip, "download", "--no-deps", "--dest", folder, "pip"])
            for wheel in glob.glob(os.path.join(folder, "pip-*.whl")):
                run([python, os.path.join(wheel, "pip"), "install", "--no-index", wheel])
        if has_pip(python):
            return True
    uv = which("uv")
    if uv:
        run([uv, "pip", "install", "--python", python, "pip"])
    return has_pip(python)


def make_environment(root, ensurepip=True):
    """Make `.venv` with a pip in it."""
    folder = root / ".venv"
    say("Making the environment in .venv")
    if ensurepip and run([sys.executable, "-m", "venv", "--clear", folder])[0] and has_pip(python_of(root)):
        return
    went, told = run([sys.executable, "-m", "venv", "--clear", "--without-pip", folder])
    if not went:
        if "No module named" in told:
            raise DeadEnd(
                "This Python came without its venv part: install the package python3-venv "
                "(Debian, Ubuntu: sudo apt install python3-venv) and start again."
            )
        raise DeadEnd(
            f"The folder .venv could not be made in {root} ({last_line(told)}): "
            "make that folder writable and start again."
        )
    say("This Python makes environments without pip; looking for one")
    if bring_pip(python_of(root)):
        return
    if os.name == "posix" and os.geteuid() == 0 and shutil.which("apt-get"):
        say("Asking Debian for python3-venv")
        run(["apt-get", "update"])
        run(["apt-get", "install", "-y", "--no-install-recommends", "python3-venv"])
        if run([sys.executable, "-m", "venv", "--clear", folder])[0] and has_pip(python_of(root)):
            return
        run([sys.executable, "-m", "venv", "--clear", "--without-pip", folder])
        if bring_pip(python_of(root)):
            return
    raise DeadEnd(
        "No pip was found for this Python: install the package python3-venv "
        "(Debian, Ubuntu: sudo apt install python3-venv) and start again."
    )


def last_line(text):
    lines = [line.strip() for line in text.splitlines() if line.strip()]
    return lines[-1][:200] if lines else "no reason given"


def pip_install(root, *what):
    # By the environment, because pip starts another pip for the parts it builds with. Five tries, its own habit,
    # take half a minute to find out that there is no network. Python makes ready what it reads when it first reads it:
    # pip would do so for all that is installed, ten times as much, while somebody waits.
    env = dict(os.environ, PIP_RETRIES="1", PIP_NO_INPUT="1", PIP_DISABLE_PIP_VERSION_CHECK="1", PIP_COMPILE="0")
    return run([python_of(root), "-m", "pip", "install", *what], cwd=root, env=env)


def install(root, extras):
    """Install the package, its libraries and the page. Returns (went well, what was printed)."""
    what = f".[{','.join(sorted(extras))}]" if extras else "."
    return pip_install(root, "--constraint", "server/constraints.txt", "--editable", what)


def install_what_goes(root, extras):
    """Install; what listens is not to be had for every system, and all else works without it."""
    went, told = install(root, extras)
    cut_off = any(sign in told for sign in CUT_OFF)
    if went or cut_off or "voice" not in extras:
        return went, told
    for instead, sentence in WITHOUT:
        if install(root, (extras - {"voice"}) | instead)[0]:
            say(sentence)
            return True, told
    return False, told


def build_page(root, extras):
    """Build the page alone. Returns (went well, what was printed)."""
    if "test" in extras:  # Node is in the environment, nothing needs fetching
        return run([python_of(root), "frontend/hatch_build.py"], cwd=root)
    return pip_install(root, "--no-deps", "--editable", ".")


def still_works(root):
    """Whether the environment that stands there can serve, whatever its stamp says."""
    python = python_of(root)
    return python.exists() and run([python, "-c", "import hookside.cli"], cwd=root, env=own_code(root))[0]


def own_code(root):
    """The surroundings in which Python takes Hookside from this folder.

    An environment that was copied along with its folder still points to where it was installed, and would serve the
    code that lies there.
    """
    paths = [str(root / "server"), os.environ.get("PYTHONPATH", "")]
    return dict(os.environ, PYTHONPATH=os.pathsep.join(p for p in paths if p))


def why(told):
    """The reason in a few words."""
    if any(sign in told for sign in STRANGE_CERTIFICATE):
        return (
            "this network shows a certificate that is not trusted here; "
            "name its file in SSL_CERT_FILE and NODE_EXTRA_CA_CERTS"
        )
    if any(sign in told for sign in OFFLINE):
        return "the parts could not be fetched; is this machine offline?"
    lines = [line.strip() for line in told.splitlines()]
    signs = ("npm error", "ERROR:", "error:", "OSError:")
    causes = [line for line in lines if line.startswith(signs) and "log of this" not in line]
    return (causes or [last_line(told)])[0].rstrip(".:")[:200]


def keep_log(root, told):
    log = root / ".venv" / "start.log"
    with contextlib.suppress(OSError):
        log.write_text(told, encoding="utf-8")
    return log


def prepare(root, extras=()):
    """Bring environment and page up to date; returns the environment's Python. Raises DeadEnd."""
    need = wanting(root, extras)
    if not need:
        return python_of(root)
    with one_at_a_time():
        need = wanting(root, extras)
        extras = set(extras) | set(read_stamp(root).get("extras", []))
        if "environment" in need:
            prepare_environment(root, extras)
        if page_stamp(root) != page_key(root):
            prepare_page(root, extras)
    return python_of(root)


def prepare_environment(root, extras):
    stamp = read_stamp(root)
    old, moved = bool(stamp), stamp.get("folder") not in (None, str(root))
    if not old or not has_pip(python_of(root)):
        make_environment(root)
        old = False
    say("Installing what Hookside stands on and building the page (once, a minute or two)")
    went, told = install_what_goes(root, extras)
    if went:
        write_stamp(root, extras)
        return
    log = keep_log(root, told)
    if old and still_works(root):
        if moved:
            say(
                f"This folder was copied or moved, and could not be installed anew here ({why(told)}). "
                "Going on with this folder's own code and the libraries that came with it."
            )
            return
        say(
            f"What Hookside is made of has changed, but it could not be brought up to date ({why(told)}). "
            "Going on with what was installed before."
        )
        return
    raise DeadEnd(f"Installing did not work ({why(told)}): see {log}, then start again.")


def prepare_page(root, extras):
    old = page_stamp(root)
    say("Building the page")
    went, told = build_page(root, extras)
    if went and page_stamp(root) == page_key(root):
        return
    log = keep_log(root, told)
    if old is None:
        raise DeadEnd(f"The page could not be built ({why(told)}): see {log}, then start again.")
    say(
        f"The page's sources have changed, but it could not be built anew ({why(told)}). "
        "Keeping the page that was built before."
    )


@contextlib.contextmanager
def one_at_a_time():
    """Two first starts at once would trample on each other: the second waits for the first."""
    try:
        import fcntl
    except ImportError:  # Windows has no flock, and no two shells were ever seen to do this there
        yield
        return
    with open(__file__, "rb") as door:
        try:
            fcntl.flock(door, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            say("Another start is at work here; waiting for it")
            fcntl.flock(door, fcntl.LOCK_EX)
        yield


def main(arguments):
    sentence = too_old(sys.version_info)
    if sentence:
        print(sentence, file=sys.stderr)
        return 1
    try:
        python = prepare(ROOT, VOICE)
    except DeadEnd as e:
        print(e, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("Stopped before Hookside was in place; start again to go on.", file=sys.stderr)
        return 130
    command = [str(python), "-m", "hookside", "serve", *arguments]
    if os.name == "nt":
        try:
            return subprocess.call(command, env=own_code(ROOT))
        except KeyboardInterrupt:
            return 0
    sys.stdout.flush()
    os.execve(command[0], command, own_code(ROOT))


if __name__ == "__main__":
    signal.signal(signal.SIGINT, _interrupted)
    sys.exit(main(sys.argv[1:]))
