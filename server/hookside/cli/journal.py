"""`hookside backup`, `hookside restore`, `hookside check`: looking after the journal, for a shell."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path

import click

from hookside.cli.files import say
from hookside.config import data_folder
from hookside.journal.backups import FOLDER, backup, command, in_words
from hookside.journal.journal import utc_now
from hookside.journal.mending import Report, inspect
from hookside.journal.restore import restore
from hookside.journal.store import FILE
from hookside.journal.trouble import Trouble
from hookside.web.ending import Ending
from hookside.web.lock import FolderLock, Held

where = click.option(
    "--folder", type=click.Path(file_okay=False, path_type=Path), help="Data folder, if not the usual one."
)


@contextmanager
def in_sentences() -> Iterator[None]:
    """Trouble is one sentence on the screen and an exit code of 1."""
    try:
        yield
    except Trouble as trouble:
        raise Ending(trouble.say) from trouble


@contextmanager
def alone(folder: Path, what: str) -> Iterator[None]:
    """Hold the folder, so that no server can. A folder that is not there yet is made."""
    with ExitStack() as stack:
        try:
            folder.mkdir(parents=True, exist_ok=True, mode=0o700)
            stack.enter_context(FolderLock(folder))
        except Held as held:
            at = f" at {held.url}" if held.url else ""
            raise Ending(
                f"Hookside is serving {folder}{at}. Stop it first (Ctrl+C where it runs), then {what} once more."
            ) from held
        except OSError as error:
            raise Ending(f"The data folder {folder} cannot be used ({error.strerror or error}).") from error
        yield


@click.command("backup", short_help="Write everything into one file, also while serving.")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
@where
@click.option("--over", is_flag=True, help="Write over FILE if it is there.")
def backup_(file: Path, folder: Path | None, over: bool) -> None:
    """Write patterns, makings and every move into FILE, and read it back to see that it is sound.

    Hookside may go on serving meanwhile. Paired devices and keys are not in it.
    """
    with in_sentences():
        rows = backup((folder or data_folder()) / FILE, file, utc_now(), over)
    say(f"{file}: {rows} rows, read back and sound ({size(file)}).")


@click.command("restore", short_help="Put a backup in the place of the journal.")
@click.argument("file", type=click.Path(dir_okay=False, path_type=Path))
@where
@click.option("--over", is_flag=True, help="Put it in the place of the journal that is there; that one is kept.")
def restore_(file: Path, folder: Path | None, over: bool) -> None:
    """Make FILE, a backup, the journal. Hookside must not be serving.

    Devices that know more than the backup keep what they have, and ask.
    """
    folder = folder or data_folder()
    with in_sentences(), alone(folder, "restore"):
        done = restore(folder, file, utc_now(), over)
    of = f", as of {in_words(done.taken)}" if done.taken else ""
    kept = [] if done.replaced is None else [f"The journal that was there is kept: {done.replaced}"]
    say("\n".join([f"{folder / FILE} has {done.rows} rows now{of}.", *kept]))


@click.command("check", short_help="See whether everything is as it was written.")
@where
@click.option("--repair", is_flag=True, help="Put right what can be put right without guessing.")
def check_(folder: Path | None, repair: bool) -> None:
    """Verify the file, its guards, the sum of every row and strand, where the rows lead, and the backups.

    Says what --repair would do. Exit code 1 where something is not as it was written.
    """
    folder = folder or data_folder()
    with in_sentences():
        if repair:
            with alone(folder, "repair"):
                report = inspect(folder, repair=True, wall=utc_now())
        else:
            report = inspect(folder)
    say("\n".join(told(report, folder, repair)))
    raise SystemExit(1 if (report.left if repair else report.flaws) else 0)


def told(report: Report, folder: Path, repaired: bool) -> list[str]:
    """A report, line by line."""
    if not report.flaws:
        lines = [
            f"{folder / FILE}: {counted(report.rows, 'row')} in {counted(report.makings, 'making')}, "
            "all as they were written."
        ]
    else:
        lines = [f"{folder / FILE}:", *(f"  {flaw}" for flaw in report.flaws)]
        if report.mends:
            lines += ["Put right:" if repaired else "A repair would put right (--repair):"]
            lines += [f"  {mend}" for mend in report.mends]
        if report.left:
            lines += ["What is left after that:" if report.mends else "None of this can be repaired without guessing."]
            lines += [f"  {flaw}" for flaw in report.left] if report.mends else []
    good = [one for one, flaws in report.backups if not flaws]
    lines.append(f"{folder / FOLDER}: {counted(len(report.backups), 'backup')} of its own, {len(good)} sound.")
    lines += [f"  {one.file.name}: {flaws[0]}" for one, flaws in report.backups if flaws]
    if good:
        lines.append(f"  The last good one is of {in_words(good[0].taken)}, with {good[0].rows} rows.")
        if report.left:
            lines.append(f"  Put it back with: {command()} restore --over --folder {folder} {good[0].file}")
    return lines


def counted(n: int, what: str) -> str:
    """ "1 row", "2 rows"."""
    return f"{n} {what}" if n == 1 else f"{n} {what}s"


def size(file: Path) -> str:
    """ "1.2 MB" """
    kilobytes = file.stat().st_size / 1000
    return f"{kilobytes / 1000:.1f} MB" if kilobytes >= 1000 else f"{kilobytes:.0f} kB"
