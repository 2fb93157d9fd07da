"""`changes`: what differs between two states of a harness, and what to do about it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from harnessdoc.commands.shared import fail, guarded, refuse

if TYPE_CHECKING:
    from harnessdoc.changes.sources import Pair


@click.command()
@click.argument("old")
@click.argument("new", required=False)
@click.option(
    "--of",
    "at",
    type=click.Path(path_type=Path),
    metavar="PATH",
    help="OLD and NEW are git revisions of this file or folder; without NEW, the files as they are now.",
)
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@click.option("--out", type=click.Path(path_type=Path), help="Also write changes.pdf, a sheet to tick off, here.")
def changes(old: str, new: str | None, at: Path | None, form: str, out: Path | None) -> None:
    """Say what differs: wires, stubs, items; which labels and sheets to print anew; what to measure again.

    Example: harnessdoc changes before.yaml after.yaml

    Example: harnessdoc changes HEAD~1 --of sample_harness --out sheets
    """
    from harnessdoc.changes.compare import compare
    from harnessdoc.changes.told import as_data, as_text

    pair = _pair(old, new, at)
    found = compare(pair.old, pair.new)
    if form == "json":
        import json

        click.echo(json.dumps(as_data(found, pair.old_from, pair.new_from), indent=1))
    else:
        click.echo(as_text(found, pair.old_from, pair.new_from), nl=False)
    if out is not None:
        from harnessdoc.outfolder import OutputError, write_files
        from harnessdoc.products import changes_files

        files = guarded(lambda: changes_files(found))
        try:
            written = write_files(out, files)
        except OutputError as error:
            fail(str(error))
        for path in written:
            click.echo(f"wrote {path}", err=True)


def _pair(old: str, new: str | None, at: Path | None) -> Pair:
    from harnessdoc.changes.sources import SourceError, read_pair
    from harnessdoc.reading import ReadingError

    try:
        return read_pair(old, new, at)
    except ReadingError as error:
        refuse(error, " and ".join(filter(None, (old, new))))
    except SourceError as error:
        fail(str(error))
