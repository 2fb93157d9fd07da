"""The command `harnessdoc`: its groups of commands put together. Each is in a file of `commands`."""

from __future__ import annotations

import gc
import io
import sys

import click

from harnessdoc import __version__
from harnessdoc.commands import book, changing, checking, lists, printing, sheets, whole

COLLECT = (10_000_000, 50, 50)
"""Objects made before cycles are looked for: a command is short, and looking costs it a tenth of its time."""


@click.group(context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100})
@click.version_option(__version__, prog_name="harnessdoc")
def main() -> None:
    """Document, check and label low-voltage wiring.

    HARNESS is a YAML file, or a folder with harness.yaml; without it, the current folder is taken.
    Start with `harnessdoc new`, then `harnessdoc check`, then `harnessdoc pack`.
    """
    gc.set_threshold(*COLLECT)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")  # a letter that the terminal does not have is no crash


for command in (
    checking.check,
    sheets.draw,
    sheets.strips,
    sheets.faces,
    sheets.survey,
    sheets.cabinet,
    sheets.meter,
    printing.labels,
    lists.schedules,
    lists.stubs,
    book.records,
    changing.changes,
    whole.pack,
    whole.new,
):
    main.add_command(command)
