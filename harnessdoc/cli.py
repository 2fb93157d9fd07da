"""The commands. Thin: each reads a harness, asks a room for files, writes them, and says what it wrote.

Answers go to stdout, notes and progress to stderr. Exit 0 clean, 1 findings, 2 can't be read or written."""

from __future__ import annotations

import gc
import io
import os
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

import click

from harnessdoc import __version__

if TYPE_CHECKING:
    from harnessdoc.model.harness import Harness
    from harnessdoc.products import Files, Job

COLLECT = (10_000_000, 50, 50)
"""Objects made before cycles are looked for: a command is short, and looking costs it a tenth of its time."""
EXIT_FINDINGS, EXIT_UNREADABLE = 1, 2
SLOW_S = 2.0

harness_argument = click.argument("harness", type=click.Path(path_type=Path), default=Path())
out_option = click.option(
    "--out", type=click.Path(path_type=Path), help="Folder to write to.  [default: out, beside the file]"
)
only_option = click.option("--plug", "plugs", multiple=True, metavar="NAME", help="Only this plug; may be repeated.")


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


@main.command()
@harness_argument
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@click.option(
    "--at-least",
    type=click.Choice(["danger", "fault", "doubt"]),
    default="fault",
    show_default=True,
    help="The least severity that makes the exit status 1.",
)
def check(harness: Path, form: str, at_least: str) -> None:
    """Say what is wrong, unknown or not verified, and what is live when.

    Example: harnessdoc check sample_harness --at-least danger
    """
    from harnessdoc.checks.report_text import as_data, as_text
    from harnessdoc.checks.rule import case_of
    from harnessdoc.checks.run import check_case
    from harnessdoc.electrics.operation import live_table
    from harnessdoc.model.finding import Severity

    case = case_of(_read(harness))
    report, tables = check_case(case), live_table(case.study)
    if form == "json":
        import json

        click.echo(json.dumps(as_data(report, tables), indent=1))
    else:
        colour = sys.stdout.isatty() and "NO_COLOR" not in os.environ
        click.echo(as_text(report, colour, tables), nl=False)
    gc.freeze()  # the process ends here: nothing is looked through for cycles once more
    if report.at_least(Severity[at_least.upper()]):
        sys.exit(EXIT_FINDINGS)


@main.command()
@harness_argument
@out_option
def draw(harness: Path, out: Path | None) -> None:
    """Draw the harness: trunk, breakouts, items, plugs, every wire. SVG sheets and one PDF.

    Example: harnessdoc draw sample_harness --out sheets
    """
    from harnessdoc.products import drawing_files

    _make(harness, out, drawing_files)


@main.command()
@harness_argument
@out_option
@only_option
def faces(harness: Path, out: Path | None, plugs: tuple[str, ...]) -> None:
    """Make a pin-out sheet for each plug, or for those named.

    Example: harnessdoc faces sample_harness --plug X4
    """
    from harnessdoc.products import face_files

    _make(harness, out, lambda job: face_files(job, _chosen(job, plugs)))


@main.command()
@harness_argument
@out_option
@only_option
def survey(harness: Path, out: Path | None, plugs: tuple[str, ...]) -> None:
    """Make blank survey sheets, to fill in with the meter before a plug is cut.

    Example: harnessdoc survey sample_harness --plug X4
    """
    from harnessdoc.products import survey_files

    _make(harness, out, lambda job: survey_files(job, _chosen(job, plugs)))


@main.command()
@harness_argument
@out_option
def meter(harness: Path, out: Path | None) -> None:
    """Make the meter sheet: what to measure, in which order, and what the meter should read; and what is live when.

    Example: harnessdoc meter sample_harness
    """
    from harnessdoc.products import meter_files

    _make(harness, out, meter_files)


@main.command()
@harness_argument
@out_option
@click.option("--stock", metavar="NAME", help="Label stock, a name from layouts/labels.")
@click.option(
    "--dpi", type=click.IntRange(150, 1200), default=300, show_default=True, help="The printer's dots an inch."
)
@click.option("--start", type=click.IntRange(1), default=1, show_default=True, help="First free label of a used sheet.")
def labels(harness: Path, out: Path | None, stock: str | None, dpi: int, start: int) -> None:
    """Make label sheets: both ends of every wire, and every stub, in working order.

    Print at 100 %, never "fit to page". Example: harnessdoc labels sample_harness --dpi 203
    """
    from harnessdoc.products import label_files

    _make(harness, out, label_files, stock=stock, dpi=dpi, start=start)


@main.command()
@harness_argument
@out_option
def records(harness: Path, out: Path | None) -> None:
    """Make the record book: static pages at the addresses that the labels hold.

    Example: harnessdoc records sample_harness, then open out/records/index.html
    """
    from harnessdoc.products import record_files

    _make(harness, out, record_files)


@main.command()
@harness_argument
@out_option
@click.option("--stock", metavar="NAME", help="Label stock, a name from layouts/labels.")
@click.option(
    "--dpi", type=click.IntRange(150, 1200), default=300, show_default=True, help="The printer's dots an inch."
)
def pack(harness: Path, out: Path | None, stock: str | None, dpi: int) -> None:
    """Make everything, in one folder with a binder and a manifest. Exit 1 while `danger` findings stand.

    Example: harnessdoc pack sample_harness
    """
    from harnessdoc.checks.report_text import summary
    from harnessdoc.model.finding import Severity
    from harnessdoc.outfolder import OutputError
    from harnessdoc.pack import pack_files, write_pack

    job = _job(harness, stock=stock, dpi=dpi)
    files = _guarded(lambda: pack_files(job, _stage_teller()))
    target = _out_folder(harness, out)
    try:
        folder = write_pack(job, files, target)
    except OutputError as error:
        _fail(str(error))
    _tell_notes(job)
    for path in files:
        click.echo(folder / path)
    click.echo(target / "manifest.json")
    click.echo(f"content mark {job.mark}: {summary(job.report)}")
    if job.report.count(Severity.DANGER):
        click.echo("danger findings stand: read check.txt before you power up", err=True)
        sys.exit(EXIT_FINDINGS)


@main.command()
@click.argument("folder", type=click.Path(path_type=Path), default=Path())
def new(folder: Path) -> None:
    """Write a starter file, harness.yaml, with comments. Nothing is overwritten.

    Example: harnessdoc new my_machine
    """
    from harnessdoc.outfolder import OutputError, write_files
    from harnessdoc.starter import STARTER

    target = folder / "harness.yaml"
    if os.path.lexists(target):
        _fail(f"{target}: is there already; nothing was written")
    try:
        write_files(folder, {"harness.yaml": STARTER.encode()})
    except OutputError as error:
        _fail(str(error))
    click.echo(target)


def _read(path: Path) -> Harness:
    from harnessdoc.reading import ReadingError, read_harness

    try:
        return read_harness(path)
    except ReadingError as error:
        for problem in error.problems:
            click.echo(problem.render(), err=True)
        _fail(f"{len(error.problems)} to mend in {path}; nothing was made")


def _job(path: Path, **options: Any) -> Job:
    from harnessdoc.products import Job

    folder = path if os.path.isdir(path) else path.parent
    return Job(_read(path), folder, **options)


def _make(path: Path, out: Path | None, make: Callable[[Job], Files], **options: Any) -> None:
    """Read, make, write, and say what was written."""
    from harnessdoc.outfolder import OutputError, write_files

    job = _job(path, **options)
    files = _guarded(lambda: make(job))
    if not files:
        _tell_notes(job)
        click.echo("nothing to make: the harness has none of these", err=True)
        return
    try:
        written = write_files(_out_folder(path, out), files)
    except OutputError as error:
        _fail(str(error))
    _tell_notes(job)
    for target in written:
        click.echo(target)


def _guarded(make: Callable[[], Files]) -> Files:
    """A layout or option that can't be used is one line, not a traceback."""
    from harnessdoc.layouts import LayoutError

    try:
        return make()
    except LayoutError as error:
        _fail(str(error))


def _chosen(job: Job, plugs: tuple[str, ...]) -> list[str] | None:
    """The plugs asked for; None for all."""
    from harnessdoc.reading.problems import meant

    for name in plugs:
        if name not in job.harness.plugs:
            _fail(f"no plug is called {name!r}{meant(name, job.harness.plugs)}")
    return list(plugs) or None


def _out_folder(path: Path, out: Path | None) -> Path:
    return out if out is not None else (path if path.is_dir() else path.parent) / "out"


def _stage_teller() -> Callable[[str], None]:
    """Tell each part on stderr once the work has taken a while, on a terminal only."""
    began = time.monotonic()

    def tell(name: str) -> None:
        if sys.stderr.isatty() and time.monotonic() - began > SLOW_S:
            click.echo(f"... {name}", err=True)

    return tell


def _tell_notes(job: Job) -> None:
    for note in job.notes:
        click.echo(f"note: {note}", err=True)


def _fail(text: str) -> NoReturn:
    click.echo("".join(c if c.isprintable() else "?" for c in text), err=True)
    sys.exit(EXIT_UNREADABLE)
