"""Writing into an output folder: each file whole or not at all; nothing that is not ours is ever removed."""

from __future__ import annotations

import contextlib
import os
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path


class OutputError(Exception):
    """A folder or file that can't be written; the message is one clear line."""


def write_files(folder: Path, files: Mapping[str, bytes]) -> list[Path]:
    """Write files (relative path to content) into a folder and return their paths, in the order given.

    All are written beside their place first and then put there, so that a full disk leaves the old ones as they were.
    Raises OutputError."""
    staged: list[tuple[Path, Path]] = []
    try:
        for name, content in files.items():
            target = folder / name
            target.parent.mkdir(parents=True, exist_ok=True)
            if target.is_dir():
                raise OutputError(f"{target}: can't be written: a folder stands there")
            staged.append((_stage(target, content), target))
        for part, target in staged:
            os.replace(part, target)
    except OSError as error:
        raise OutputError(_line(folder, error)) from None
    finally:
        for part, _ in staged:
            with contextlib.suppress(OSError):
                part.unlink(missing_ok=True)
    return [target for _, target in staged]


def make_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Make a folder that holds just these files; it appears whole, or not at all. It must not exist yet."""
    part: Path | None = None
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        part = Path(tempfile.mkdtemp(prefix=f".{folder.name}.", suffix=".part", dir=folder.parent))
        part.chmod(0o755)
        for name, content in files.items():
            target = part / name
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(content)
        os.rename(part, folder)
    except OSError as error:
        raise OutputError(_line(folder, error)) from None
    finally:
        if part is not None:
            shutil.rmtree(part, ignore_errors=True)


def _stage(target: Path, content: bytes) -> Path:
    handle, name = tempfile.mkstemp(prefix=f".{target.name[:60]}.", suffix=".part", dir=target.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        os.chmod(name, 0o644)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    return Path(name)


def _line(folder: Path, error: OSError) -> str:
    return f"{folder}: can't be written: {error.strerror or error}"
