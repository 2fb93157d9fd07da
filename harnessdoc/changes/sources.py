"""The two harnesses to compare: two files, two folders, or two git revisions of one.

Of a revision the top file, what it includes and its own plug faces are taken out, read, and removed again. What is
wrong with them is told with the revision and the path, never with the place they lay in meanwhile."""

from __future__ import annotations

import os
import posixpath
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Final

from yaml.nodes import Node, ScalarNode, SequenceNode

from harnessdoc.changes.revisions import Revision, RevisionError
from harnessdoc.model.harness import Harness
from harnessdoc.model.record import record
from harnessdoc.reading import Problem, ReadingError, read_harness
from harnessdoc.reading.document import load
from harnessdoc.reading.gather import TOP_FILE

_FACES: Final = "layouts/plugs"
_MOST_FILES: Final = 1000
"""Files taken out of a revision at most; a harness has a few."""


class SourceError(Exception):
    """Two sources that can't be read, other than for what their files say; the message is one clear line."""


@record(frozen=True)
class Pair:
    """Both harnesses, and what they are called: `HEAD~3:sample_harness`, or the path as it was given."""

    old: Harness
    new: Harness
    old_from: str
    new_from: str


def read_pair(old: str, new: str | None = None, at: Path | None = None) -> Pair:
    """Read two files or folders; with `at`, two git revisions of that file or folder.

    `new` None, with `at` only: the files as they are now. Raises ReadingError with all that is wrong in both, as the
    reading room shows it, and SourceError for a revision that can't be had."""
    if at is None:
        if new is None:
            raise SourceError("two files or folders are wanted, or a revision and the file or folder that it is of")
        _refuse_revisions(old, new)
        first, second = _reader(Path(old)), _reader(Path(new))
        names = old, new
    else:
        first = _revision_reader(old, at)
        second = _reader(at) if new is None else _revision_reader(new, at)
        names = f"{old}:{at}", str(at) if new is None else f"{new}:{at}"
    harnesses: list[Harness] = []
    problems: list[Problem] = []
    for read in (first, second):
        try:
            harnesses.append(read())
        except ReadingError as error:
            problems += [problem for problem in error.problems if problem not in problems]
        except RevisionError as error:
            raise SourceError(str(error)) from None
    if problems:
        raise ReadingError(problems)
    return Pair(harnesses[0], harnesses[1], *names)


def _refuse_revisions(*paths: str) -> None:
    missing = [path for path in paths if not os.path.exists(path)]
    if missing:
        raise SourceError(
            f"{missing[0]}: no such file or folder; of a git revision say which file or folder is meant, with --of"
        )


def _reader(path: Path) -> Callable[[], Harness]:
    return lambda: read_harness(path)


def _revision_reader(name: str, at: Path) -> Callable[[], Harness]:
    return lambda: read_revision(name, at)


def read_revision(name: str, at: Path) -> Harness:
    """Read a file or folder as it was in a git revision. Raises RevisionError and ReadingError."""
    revision = Revision(name, at)
    shown = at if revision.is_folder else at.parent
    top = TOP_FILE if revision.is_folder else posixpath.basename(revision.path)
    with tempfile.TemporaryDirectory(prefix="harnessdoc-") as made:
        folder = Path(made)
        _take_out(revision, top, folder)
        try:
            return read_harness(folder if revision.is_folder else folder / top)
        except ReadingError as error:
            told = [_shown(problem, folder, name, shown) for problem in error.problems]
        raise ReadingError(told)


def _shown(problem: Problem, folder: Path, name: str, shown: Path) -> Problem:
    """A problem with the revision and the path where the folder that it was taken out to stood."""
    inside = f"{name}:" if shown == Path() else f"{name}:{shown}/"

    def told(text: str) -> str:
        return text.replace(f"{folder}/", inside).replace(str(folder), f"{name}:{shown}")

    return Problem(problem.mark._replace(file=told(problem.mark.file)), told(problem.text), problem.line)


def _take_out(revision: Revision, top: str, folder: Path) -> None:
    """Write the top file, all it includes, directly or not, and plug faces of its own into a folder."""
    wanted, seen = [top], {top}
    wanted += [name for name in revision.names(_FACES) if name.endswith(".yaml")]
    while wanted:
        name = wanted.pop()
        content = revision.content(name)
        if content is None or not _write(folder, name, content):
            continue
        for included in _includes(folder / name):
            if included not in seen and len(seen) < _MOST_FILES:
                seen.add(included)
                wanted.append(included)


def _write(folder: Path, name: str, content: bytes) -> bool:
    """Write a file below the folder and nowhere else; False where its name does not allow it."""
    target = folder / name
    try:
        if not Path(os.path.abspath(target)).is_relative_to(folder):
            return False
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content)
    except (OSError, ValueError):
        return False
    return True


def _includes(path: Path) -> list[str]:
    """The file names under `include:`; none of a file that can't be read, which the reader will say."""
    try:
        document = load(path, path.name)
    except ReadingError:
        return []
    found: list[Node] = []
    for key, node in document.root.value:
        if isinstance(key, ScalarNode) and key.value == "include":
            found += node.value if isinstance(node, SequenceNode) else [node]
    return [node.value for node in found if isinstance(node, ScalarNode) and node.value]
