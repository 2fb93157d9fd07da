"""What the commands share: their common arguments, reading a harness, making and writing files, and saying so.

Answers go to stdout, notes and progress to stderr. Exit 0 clean, 1 findings, 2 can't be read or written."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn, TypeVar

import click

if TYPE_CHECKING:
    from harnessdoc.model.harness import Harness, State
    from harnessdoc.products import Files, Job
    from harnessdoc.reading import ReadingError

EXIT_FINDINGS, EXIT_UNREADABLE = 1, 2
SLOW_S = 2.0
_Made = TypeVar("_Made")

harness_argument = click.argument("harness", type=click.Path(path_type=Path), default=Path())
out_option = click.option(
    "--out", type=click.Path(path_type=Path), help="Folder to write to.  [default: out, beside the file]"
)
plugs_option = click.option("--plug", "plugs", multiple=True, metavar="NAME", help="Only this plug; may be repeated.")


def paper_option(default: str) -> Callable[[Any], Any]:
    """The option for the paper, by its name in layouts/paper."""
    return click.option("--paper", metavar="NAME", default=default, show_default=True, help="A2 to A5, or letter.")


upright_option = click.option("--upright", is_flag=True, help="Stand the paper upright; it lies otherwise.")
state_option = click.option(
    "--state",
    metavar="POSITIONS",
    help='Draw currents and volts in this state, such as "S1=on, B1=dry"; all else at rest.',
)


def read(path: Path) -> Harness:
    """The harness at a path; exits with all that is to be mended in it."""
    from harnessdoc.reading import ReadingError, read_harness

    try:
        return read_harness(path)
    except ReadingError as error:
        refuse(error, str(path))


def refuse(error: ReadingError, what: str) -> NoReturn:
    """Say all that is wrong in a file, and exit."""
    for problem in error.problems:
        click.echo(problem.render(), err=True)
    fail(f"{len(error.problems)} to mend in {what}; nothing was made")


def read_job(path: Path, **options: Any) -> Job:
    """The harness at a path with what its products share."""
    from harnessdoc.products import Job

    return Job(read(path), path if os.path.isdir(path) else path.parent, **options)


def make(path: Path, out: Path | None, making: Callable[[Job], Files], **options: Any) -> None:
    """Read, make, write, and say what was written."""
    job = read_job(path, **options)
    files = guarded(lambda: making(job))
    write(job, files, out_folder(path, out))


def write(job: Job, files: Files, folder: Path) -> None:
    """Write files and say where; or that there is nothing to make."""
    from harnessdoc.outfolder import OutputError, write_files

    if not files:
        tell_notes(job)
        click.echo("nothing to make: the harness has none of these", err=True)
        return
    try:
        written = write_files(folder, files)
    except OutputError as error:
        fail(str(error))
    tell_notes(job)
    for target in written:
        click.echo(target)


def guarded(making: Callable[[], _Made]) -> _Made:
    """A layout or option that can't be used is one line, not a traceback."""
    from harnessdoc.layouts import LayoutError

    try:
        return making()
    except LayoutError as error:
        fail(str(error))


def chosen(names: tuple[str, ...], there: Any, what: str) -> list[str] | None:
    """The names asked for, None for all; exits where there is no such one."""
    from harnessdoc.reading.problems import meant

    for name in names:
        if name not in there:
            fail(f"no {what} is called {name!r}{meant(name, there)}")
    return list(names) or None


def asked_state(job: Job, text: str | None) -> State | None:
    """Positions as written behind --state; None where none are. Exits for a name or position that there is not."""
    from harnessdoc.reading.problems import meant

    if text is None:
        return None
    devices = job.case.study.circuit.devices
    state: dict[str, str] = {}
    for part in filter(None, (part.strip() for part in text.split(","))):
        name, equals, position = (piece.strip() for piece in part.partition("="))
        if not equals:
            fail(f"--state: {part!r} is no position; write it as NAME=POSITION")
        if name not in devices:
            fail(f"--state: nothing called {name!r} can be set{meant(name, devices)}")
        if position not in devices[name]:
            fail(f"--state: {name} is never {position!r}; it can be {', '.join(devices[name])}")
        state[name] = position
    return state


def out_folder(path: Path, out: Path | None) -> Path:
    """Where a harness's files are written."""
    return out if out is not None else (path if path.is_dir() else path.parent) / "out"


def stage_teller() -> Callable[[str], None]:
    """Tell each part on stderr once the work has taken a while, on a terminal only."""
    began = time.monotonic()

    def tell(name: str) -> None:
        if sys.stderr.isatty() and time.monotonic() - began > SLOW_S:
            click.echo(f"... {name}", err=True)

    return tell


def tell_notes(job: Job) -> None:
    """Say on stderr what the makers noted."""
    for note in job.notes:
        click.echo(f"note: {note}", err=True)


def fail(text: str) -> NoReturn:
    """One line on stderr, and exit 2."""
    click.echo("".join(c if c.isprintable() else "?" for c in text), err=True)
    sys.exit(EXIT_UNREADABLE)
