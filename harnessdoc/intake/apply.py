"""From edits to files: read again before anything is written, shown as a difference, written, and undone.

Files are replaced one by one, each whole. Until all are there a reader finds some former ones among them; the order is
such that what is named stands before what names it, and no set in between is unreadable. What was replaced is kept in
`.harnessdoc-undo`, beside the harness, and stands there whole before the first file changes."""

from __future__ import annotations

import difflib
import hashlib
import json
import os
import shutil
import tempfile
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import Final

from harnessdoc.intake.edits import Edited
from harnessdoc.intake.problems import IntakeError
from harnessdoc.model.harness import Harness
from harnessdoc.outfolder import OutputError, make_folder, write_files
from harnessdoc.reading import ReadingError, read_harness

UNDO: Final = ".harnessdoc-undo"
_STATE: Final = "state.json"


def verify(folder: Path, files: Sequence[Path], edited: Iterable[Edited], intended: Harness) -> None:
    """Read the edited files in a folder aside; raises IntakeError unless they give the intended harness."""
    after = {one.path: one.after for one in edited}
    with tempfile.TemporaryDirectory(prefix="harnessdoc-") as name:
        aside = Path(name)
        for path in files:
            target = aside / path.relative_to(folder)
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(after.get(path) or path.read_bytes())
        faces = folder / "layouts" / "plugs"
        if faces.is_dir():
            shutil.copytree(faces, aside / "layouts" / "plugs")
        try:
            found = read_harness(aside / files[0].relative_to(folder))
        except ReadingError as error:
            lines = [problem.render().replace(f"{aside}{os.sep}", "") for problem in error.problems]
            raise IntakeError(["the files as edited can't be read; nothing was written", *lines]) from None
    if found != intended:
        raise IntakeError(["the files as edited would not say what was meant; nothing was written. Edit them by hand"])


def difference(folder: Path, edited: Iterable[Edited]) -> str:
    """The edits as a unified diff, paths relative to the folder."""
    return "".join(_diff(str(one.path.relative_to(folder)), one.before, one.after) for one in edited)


def _diff(name: str, before: bytes, after: bytes) -> str:
    old, new = (raw.decode("utf-8-sig").splitlines(keepends=True) for raw in (before, after))
    lines = difflib.unified_diff(old, new, name, name, n=1)
    return "".join(line if line.endswith("\n") else f"{line}\n" for line in lines)


def write(folder: Path, edited: Sequence[Edited]) -> Path:
    """Keep the former files for an undo, then replace them one by one. Returns the undo's folder.

    Raises IntakeError where a file was changed meanwhile or can't be written."""
    for one in edited:
        if _read(one.path) != one.before:
            raise IntakeError([f"{one.path}: was changed meanwhile; nothing was written"])
    kept = _keep(folder, edited)
    try:
        for one in edited:
            _replace(one.path, one.after)
    except OSError as error:
        line = f"{one.path}: can't be written: {error.strerror or error}; `intake --undo` takes back what was"
        raise IntakeError([line]) from None
    return kept


def undo(folder: Path) -> list[Path]:
    """Put back the files that the last intake replaced; returns them.

    Raises IntakeError where there is nothing to undo, or where one of them was changed since: then none is touched."""
    there = _undos(folder)
    if not there:
        raise IntakeError([f"{folder}: no intake to undo"])
    kept = there[-1]
    try:
        state = json.loads((kept / _STATE).read_text("utf-8"))
        back = [_former(folder, kept, one) for one in state["files"]]
    except (OSError, ValueError, KeyError, TypeError) as error:
        raise IntakeError([f"{kept}: can't be read: {error}"]) from None
    changed = [path for path, _, allowed in back if _hash(_read(path)) not in allowed]
    if changed:
        lines = [f"{path}: was changed since it was taken in; nothing was undone" for path in changed]
        raise IntakeError([*lines, f"its former text is kept in {kept}"])
    try:
        for path, content, _ in reversed(back):
            if _read(path) != content:
                _replace(path, content)
        shutil.rmtree(kept)
    except OSError as error:
        raise IntakeError([f"{folder}: can't be written: {error.strerror or error}"]) from None
    return [path for path, _, _ in back]


def _former(folder: Path, kept: Path, one: dict[str, str]) -> tuple[Path, bytes, tuple[str, str]]:
    """A file to put back, its former bytes, and what it may hold now."""
    path = folder / one["file"]
    if not path.resolve().is_relative_to(folder.resolve()):
        raise ValueError(f"{one['file']!r} lies outside the harness's folder")
    content = (kept / Path(one["kept"]).name).read_bytes()
    if _hash(content) != one["former"]:
        raise ValueError(f"{one['kept']!r} is not as it was kept")
    return path, content, (one["former"], one["written"])


def _keep(folder: Path, edited: Sequence[Edited]) -> Path:
    """The former files, whole in a folder of their own before anything else is written."""
    number = max((int(path.name) for path in _undos(folder)), default=0) + 1
    kept = folder / UNDO / f"{number:04d}"
    files = {f"former-{index}": one.before for index, one in enumerate(edited, 1)}
    state = [
        {
            "file": one.path.relative_to(folder).as_posix(),
            "kept": name,
            "former": _hash(one.before),
            "written": _hash(one.after),
        }
        for name, one in zip(files, edited, strict=True)
    ]
    text = json.dumps({"files": state}, indent=1, ensure_ascii=False)
    try:
        write_files(folder / UNDO, {".gitignore": b"*\n"})
        make_folder(kept, {**files, _STATE: text.encode("utf-8")})
    except OutputError as error:
        raise IntakeError([str(error)]) from None
    return kept


def _undos(folder: Path) -> list[Path]:
    place = folder / UNDO
    found = [path for path in place.iterdir() if path.name.isdecimal()] if place.is_dir() else []
    return sorted(found, key=lambda path: int(path.name))


def _replace(path: Path, content: bytes) -> None:
    """Put a file in the place of another, whole, with the other's permissions; a link stays a link."""
    target = path.resolve()
    handle, name = tempfile.mkstemp(prefix=f".{target.name[:60]}.", suffix=".part", dir=target.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, target.stat().st_mode & 0o7777)
        os.replace(name, target)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def _read(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        raise IntakeError([f"{path}: can't be read: {error.strerror or error}"]) from None


def _hash(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
