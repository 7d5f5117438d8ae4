"""The command line: what the page does, for a shell. One file a subject, each imported when it is asked for."""

from __future__ import annotations

import sys
from importlib import import_module
from typing import Any

import click

from hookside import __version__

# Command -> where it is. Reading a pattern needs no web server, and asking for help needs neither.
COMMANDS = {
    "again": ("hookside.cli.shelf", "again_"),
    "away": ("hookside.cli.shelf", "away_"),
    "back": ("hookside.cli.shelf", "back_"),
    "backup": ("hookside.cli.journal", "backup_"),
    "begin": ("hookside.cli.shelf", "begin_"),
    "check": ("hookside.cli.journal", "check_"),
    "choose": ("hookside.cli.making", "choose_"),
    "colours": ("hookside.cli.making", "colours_"),
    "compile": ("hookside.cli.reading", "compile_"),
    "copy": ("hookside.cli.making", "copy_"),
    "count": ("hookside.cli.asking", "count_"),
    "devices": ("hookside.cli.devices", "devices"),
    "explain": ("hookside.cli.explain", "explain_"),
    "fabric": ("hookside.cli.measure", "fabric_"),
    "finish": ("hookside.cli.finish", "finish_"),
    "gather": ("hookside.cli.gather", "gather_"),
    "habits": ("hookside.cli.gather", "habits_"),
    "keep": ("hookside.cli.shelf", "keep_"),
    "label": ("hookside.cli.shelf", "label_"),
    "likes": ("hookside.cli.likes", "likes_"),
    "lost": ("hookside.cli.asking", "lost_"),
    "measure": ("hookside.cli.measure", "measure_"),
    "mend": ("hookside.cli.mend", "mend_"),
    "note": ("hookside.cli.making", "note_"),
    "off": ("hookside.cli.shelf", "off_"),
    "paper": ("hookside.cli.paper", "paper_"),
    "recap": ("hookside.cli.asking", "recap_"),
    "record": ("hookside.cli.record", "record_"),
    "restore": ("hookside.cli.journal", "restore_"),
    "serve": ("hookside.web.serve", "serve"),
    "shelf": ("hookside.cli.shelf", "shelf_"),
    "show": ("hookside.cli.finish", "show_"),
    "text": ("hookside.cli.text", "text_"),
    "voice": ("hookside.cli.voice", "voice"),
    "work": ("hookside.cli.work", "work_"),
}


class _Commands(click.Group):
    """A group whose commands are imported on first use."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        module, name = COMMANDS[cmd_name]
        command = getattr(import_module(module), name)
        assert isinstance(command, click.Command)
        return command

    def main(self, *args: Any, **kwargs: Any) -> Any:
        """As click has it, but where its own words (help, the version) can't be written, that is one sentence too."""
        try:
            return super().main(*args, **kwargs)
        except OSError as problem:
            try:
                sys.stdout.flush()  # what could not be written waits there and fails once more
            except (OSError, ValueError):
                pass
            else:
                raise
            from hookside.cli.files import forget_output, stop

            forget_output()
            stop(f"Standard output can't be written ({problem.strerror or problem}).")


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="hookside")
def main() -> None:
    """Reads a written crochet pattern and follows the hook through it."""
