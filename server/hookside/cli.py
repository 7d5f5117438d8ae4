"""The command line: what the page does, for a shell."""

from __future__ import annotations

import json
import os
import sys
from importlib import import_module
from typing import NoReturn, get_args

import click

from hookside import __version__
from hookside.pattern import Course, Cue, Finding, Group, Pattern, Piece, Terms

LARGEST_TEXT = 256 * 1024  # bytes
WIDEST = 160  # letters of a course in the listing

# Commands that live in other rooms, imported when they are asked for: reading a pattern needs no web server.
_ELSEWHERE = {"serve": ("hookside.web.serve", "serve")}


class _Commands(click.Group):
    """A group whose further commands are imported on first use."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted({*super().list_commands(ctx), *_ELSEWHERE})

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name in _ELSEWHERE:
            module, name = _ELSEWHERE[cmd_name]
            command = getattr(import_module(module), name)
            assert isinstance(command, click.Command)
            return command
        return super().get_command(ctx, cmd_name)


class _Terms(click.ParamType[str]):
    """US or UK, in any case."""

    name = "terms"

    def convert(self, value: str, param: click.Parameter | None, ctx: click.Context | None) -> str:
        said = value.strip().upper()
        if said not in get_args(Terms):
            self.fail(f"{value} is neither US nor UK; write --terms US or --terms UK.", param, ctx)
        return said


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="hookside")
def main() -> None:
    """Reads a written crochet pattern and follows the hook through it."""


@main.command("compile", short_help="Read a pattern: rounds, rows, counts, where to look.")
@click.argument("file", metavar="FILE")
@click.option("--json", "as_json", is_flag=True, help="Print the stable JSON form instead of a listing.")
@click.option("-o", "--out", metavar="OUT", help="Write to this file instead of the screen.")
@click.option(
    "--terms",
    type=_Terms(),
    metavar="US|UK",
    help="The terms the pattern is written in, where you know better than the text shows.",
)
@click.option("--trace", is_flag=True, help="Show what each stage of reading made of the text.")
def compile_(file: str, as_json: bool, out: str | None, terms: Terms | None, trace: bool) -> None:
    """Read the pattern in FILE ("-": standard input): every round and row, its counts, and where to look.

    Ends with 0 when the pattern can be followed, with 1 when something in it can't, with 2 when there was nothing
    to read.
    """
    if out is not None and _same_file(file, out):
        _stop(f"{out} is the pattern itself, and would be written over; choose another place with -o.")
    text = _text(file)
    from hookside.compile import read

    pattern = read(text, terms)
    if trace:
        _put(stages(text, terms), out)
    elif as_json:
        _put(json.dumps(pattern.model_dump(mode="json"), ensure_ascii=False, indent=1) + "\n", out)
    else:
        _put(listing(pattern, text), out)
    sys.exit(0 if pattern.can_be_followed else 1)


def _stop(sentence: str) -> NoReturn:
    click.echo(sentence, err=True)
    sys.exit(2)


def _same_file(file: str, out: str) -> bool:
    """Whether what is read and what is to be written are one file, by whatever names."""
    try:
        return file != "-" and os.path.samefile(file, out)
    except (OSError, ValueError):
        return False


def _text(file: str) -> str:
    """The text of a file or of standard input. Anything that is none ends the command with one sentence and 2."""
    name = "Standard input" if file == "-" else file
    try:
        if file == "-":
            if sys.stdin is None:
                _stop("There is no standard input here; name the pattern's file instead of -.")
            raw = sys.stdin.buffer.read(LARGEST_TEXT + 1)
        else:
            with open(file, "rb") as source:
                raw = source.read(LARGEST_TEXT + 1)
    except FileNotFoundError:
        _stop(f"There is no file {file}; check the name and the folder.")
    except IsADirectoryError:
        _stop(f"{file} is a folder; name the pattern's file inside it.")
    except (OSError, ValueError) as problem:
        why = getattr(problem, "strerror", None) or str(problem)
        _stop(f"{name} can't be opened ({why}); check that you may read it.")
    if len(raw) > LARGEST_TEXT:
        _stop(f"{name} is larger than 256 kB; a pattern is far smaller, so cut out the part you want to work.")
    for encoding in ("utf-8-sig", "utf-16") if raw[:2] in (b"\xff\xfe", b"\xfe\xff") else ("utf-8-sig",):
        try:
            return raw.decode(encoding)
        except UnicodeDecodeError:
            continue
    _stop(f"{name} is not plain text in UTF-8; save the pattern as plain text and try again.")


def _put(text: str, out: str | None) -> None:
    if out is None or out == "-":
        _print(text)
        return
    try:
        with open(out, "w", encoding="utf-8", errors="replace") as target:
            target.write(text)
    except (OSError, ValueError) as problem:
        why = getattr(problem, "strerror", None) or str(problem)
        _stop(f"{out} can't be written ({why}); choose another place with -o.")


def _print(text: str) -> None:
    if sys.stdout is None:
        _stop("There is no standard output here; name a file with -o.")
    try:
        click.echo(text.encode("utf-8", "replace"), nl=False)
        sys.stdout.flush()
    except BrokenPipeError:
        raise  # whoever read this has seen enough: click ends the command quietly
    except OSError as problem:
        # What is still held back would be tried once more at the end of the process, with a traceback.
        with open(os.devnull, "w") as nowhere:
            os.dup2(nowhere.fileno(), sys.stdout.fileno())
        _stop(f"Standard output can't be written ({problem.strerror or problem}); choose another place with -o.")


# -- the stages -------------------------------------------------------------


def stages(text: str, terms: Terms | None) -> str:
    """What each stage of reading made of the text, one line each: line, stage, its words, what became of them."""
    from hookside.notation import trace

    _, seen = trace(text, terms)
    return "".join(f"{s.line:>5}  {s.stage:<10} {_one_line(s.text)} -> {_one_line(str(s.result))}\n" for s in seen)


def _one_line(text: str) -> str:
    return "".join(c if c.isprintable() else " " for c in " ".join(text.split()))


# -- the listing ------------------------------------------------------------


def listing(pattern: Pattern, text: str) -> str:
    """The pattern for a reader: each course with its counts, cues between them, then what to look at."""
    lines = [pattern.title or "(no title)", f"{pattern.terms} terms. {pattern.terms_because}".rstrip()]
    lines += [f"{name}: {value}" for name, value in (("Hook", pattern.hook), ("Gauge", pattern.gauge)) if value]
    for piece in pattern.pieces:
        lines += ["", *_piece_lines(piece)]
    found = sorted(pattern.findings, key=lambda f: (f.line, f.column))
    if found:
        lines += ["", "Look here:"]
        source = text.splitlines()
        for finding in found:
            lines += _finding_lines(finding, source)
    lines += ["", _verdict(pattern)]
    return "\n".join(lines) + "\n"


def _piece_lines(piece: Piece) -> list[str]:
    copies = f" (make {piece.make})" if piece.make > 1 else ""
    lines = [f"{piece.name or 'Piece'}{copies}"]
    waiting: dict[str | None, list[Cue]] = {}
    for cue in piece.cues:
        waiting.setdefault(cue.course_id, []).append(cue)
    if piece.courses:
        lines.append(f"  {'':<10} {'used':>5} {'made':>5} {'printed':>7}")
    lines += [_cue_line(cue) for cue in waiting.pop(None, [])]
    for course in piece.courses:
        lines.append(_course_line(course))
        lines += [_cue_line(cue) for cue in waiting.pop(course.id, [])]
    return lines + [_cue_line(cue) for rest in waiting.values() for cue in rest]


def _course_line(course: Course) -> str:
    used, made, printed = (("-" if n is None else str(n)) for n in (course.uses, course.makes, course.declared))
    if course.uses == 0:
        used = ""  # a start: there is nothing below to use
        made = f"{chained} ch" if course.makes == 0 and (chained := chain(course)) else made
    words = course.words.short if course.read else f"as written: {course.text}"
    words = words if len(words) <= WIDEST else words[: WIDEST - 2] + " …"
    return f"  {course.kind + ' ' + course.label:<10} {used:>5} {made:>5} {printed:>7}   {words}"


def chain(course: Course) -> int:
    """How many chains a course is made of; 0 where it is not a chain and nothing else."""
    groups = [node for node in course.body if isinstance(node, Group)]
    alone = len(groups) == len(course.body) and all(group.stitch == "ch" for group in groups)
    return sum(group.count for group in groups) if alone else 0


def _cue_line(cue: Cue) -> str:
    when = "" if cue.at is None else f" (after stitch {cue.at})" if cue.at else " (before its first stitch)"
    return f"    {cue.weight}: {cue.kind}{when}: {cue.text}"


_HEADS = {"error": "can't be followed", "warning": "look here", "note": "note"}


def _finding_lines(finding: Finding, source: list[str]) -> list[str]:
    lines = [f"  Line {finding.line}, {_HEADS[finding.severity]}: {finding.message}"]
    if 1 <= finding.line <= len(source):
        shown, at, width = _window(source[finding.line - 1], finding.column - 1, max(1, finding.span))
        lines += [f"    {shown}", f"    {' ' * at}{'^' * width}"]
    lines += [f"    Or: {suggestion.label}" for suggestion in finding.suggestions]
    return lines


def _window(line: str, at: int, width: int, letters: int = 110) -> tuple[str, int, int]:
    """A stretch of a long line round the spot, with the spot's place in it; control characters as spaces."""
    at = min(max(at, 0), len(line))
    start = max(0, at - letters // 2) if len(line) > letters else 0
    shown = "".join(c if c.isprintable() else " " for c in line[start : start + letters])
    return shown, at - start, max(1, min(width, len(shown) - (at - start)))


def _verdict(pattern: Pattern) -> str:
    courses = sum(len(piece.courses) for piece in pattern.pieces)
    if not pattern.can_be_followed:
        return "This can't be followed yet: look at the lines above."
    pieces = sum(1 for piece in pattern.pieces if piece.courses)
    worked = f"{_several(courses, 'round or row', 'rounds and rows')} in {_several(pieces, 'piece', 'pieces')}"
    return f"This can be followed: {worked}."


def _several(n: int, one: str, many: str) -> str:
    return f"{n} {one if n == 1 else many}"


if __name__ == "__main__":
    main()
