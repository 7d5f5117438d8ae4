"""The process a file is taken apart in: bounded in time and memory, and with no way out.

    python -m hookside.intake.child NAME    the file on standard input, JSON on standard output

A file from anywhere may be made to harm whoever opens it. Here it can use up its own bounds and nothing else: no
network, no other program, no file to write.
"""

from __future__ import annotations

import json
import sys
from typing import Any

from hookside.intake import markup, pdf
from hookside.intake.kinds import kind
from hookside.intake.plain import plain
from hookside.intake.taken import CannotTake, Taken

SECONDS = 10  # of the processor
MEMORY = 300 << 20  # bytes beside what Python itself takes
_REFUSED = (
    "socket.", "subprocess.", "os.exec", "os.fork", "os.spawn", "os.system", "os.posix_spawn", "shutil.", "urllib.",
)  # fmt: skip


def taken(data: bytes, name: str) -> Taken:
    """The text of a file. CannotTake, with a sentence."""
    what = kind(data, name)
    if what == "pdf":
        return pdf.text_of(data, name)
    text = plain(data, name)
    if what == "text":
        return Taken(text, "text")
    words, said = markup.text_of(text)
    return Taken(words, "html", said)


def shut_in() -> None:
    """Bounds for this process, and no way out of it."""
    try:
        import resource
    except ImportError:  # not on Windows; there the clock alone bounds it
        pass
    else:
        resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS + 1))
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY + (200 << 20), MEMORY + (200 << 20)))
        resource.setrlimit(resource.RLIMIT_FSIZE, (0, 0))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))

    def watch(event: str, args: tuple[Any, ...]) -> None:
        writes = event == "open" and isinstance(args[1], str) and any(sign in args[1] for sign in "wax+")
        if writes or event.startswith(_REFUSED):
            raise PermissionError(f"{event} is not for a file to ask")

    sys.addaudithook(watch)


def main() -> int:
    name = sys.argv[1] if len(sys.argv) > 1 else "This file"
    data = sys.stdin.buffer.read()
    import pypdf  # noqa: F401  (before the doors are shut: it looks at the system as it comes in)

    shut_in()
    answer: dict[str, Any]
    try:
        found = taken(data, name)
        answer = {"text": found.text, "kind": found.kind, "said": found.said}
    except CannotTake as e:
        answer = {"cannot": str(e)}
    except MemoryError:
        answer = {"cannot": f"{name} takes more memory than a pattern ever does: save the pattern's pages alone."}
    sys.stdout.write(json.dumps(answer))
    return 0


if __name__ == "__main__":
    sys.exit(main())
