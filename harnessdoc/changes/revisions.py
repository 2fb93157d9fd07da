"""Files of a git revision: what a harness of that revision needs, written into a folder. Knows git, no harness.

git is called with fixed arguments, without a shell; a revision becomes an object's hash before it is used."""

from __future__ import annotations

import os
import posixpath
import subprocess
from collections.abc import Iterator
from functools import cached_property
from pathlib import Path
from typing import Final

from harnessdoc.reading.document import MAX_BYTES

_TIMEOUT_S: Final = 60
_LOCATING: Final = ("GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX", "GIT_NAMESPACE", "GIT_COMMON_DIR")
"""Settings of a git that calls us, as in a hook, which would lead to another repository."""
_PLAIN_FILES: Final = ("100644", "100755")


class RevisionError(ValueError):
    """A revision that can't be read; the message is one clear line."""


class Revision:
    """One revision of the repository in which `at`, a file or folder that need not be there now, lies."""

    def __init__(self, name: str, at: Path) -> None:
        self.name, self.at = name, at
        if not name or name.startswith("-") or not name.isprintable():
            raise RevisionError(f"{name[:80]!r} is no git revision")
        self._start = next(
            folder for folder in (Path(os.path.abspath(at)), *Path(os.path.abspath(at)).parents) if folder.is_dir()
        )
        self._commit = self._resolved()

    def _resolved(self) -> str:
        prefix = self._git("rev-parse", "--show-prefix")
        if prefix is None:
            raise RevisionError(f"{self.at}: lies in no git repository")
        found = self._git("rev-parse", "--verify", "--quiet", "--end-of-options", f"{self.name}^{{commit}}")
        if found is None:
            raise RevisionError(f"{self.name[:80]!r} is no revision of the repository of {self.at}")
        return found.decode().strip()

    @cached_property
    def path(self) -> str:
        """The path of `at` from the top of the repository, with slashes; "" for the top itself."""
        prefix = os.fsdecode(self._git("rev-parse", "--show-prefix") or b"").rstrip("\n")
        below = Path(os.path.abspath(self.at)).relative_to(self._start).as_posix()
        joined = posixpath.normpath(posixpath.join(prefix, below))
        return "" if joined == "." else joined

    @cached_property
    def is_folder(self) -> bool:
        """Whether `at` was a folder then. Raises RevisionError where nothing was there."""
        kind = self._git("cat-file", "-t", f"{self._commit}:{self.path}")
        if kind is None:
            raise RevisionError(f"{self.name}: {self.at} is not in that revision")
        return kind.strip() == b"tree"

    @property
    def folder(self) -> str:
        """The folder whose files count: `at`, or the one that it lies in."""
        return self.path if self.is_folder else posixpath.dirname(self.path)

    def content(self, name: str) -> bytes | None:
        """A plain file of the folder, by its path from there; None if there is none, or one too large to be read."""
        path = posixpath.normpath(posixpath.join(self.folder, name))
        if path.startswith(("../", "/")) or path == ".." or "\0" in path:
            return None
        for mode, size, listed in self._listing(path):
            if listed == path and mode in _PLAIN_FILES and size <= MAX_BYTES:
                return self._git("cat-file", "blob", f"{self._commit}:{path}")
        return None

    def names(self, below: str) -> list[str]:
        """Paths, from the folder, of all plain files below one of its folders."""
        top = posixpath.normpath(posixpath.join(self.folder, below))
        listed = self._listing(f"{top}/")
        return [posixpath.relpath(path, self.folder or ".") for mode, _, path in listed if mode in _PLAIN_FILES]

    def _listing(self, path: str) -> Iterator[tuple[str, int, str]]:
        """Mode, size in bytes and path of a file, or of each in a folder whose path ends with a slash."""
        found = self._git("ls-tree", "-r", "-z", "-l", "--full-tree", self._commit, "--", path) or b""
        for line in filter(None, found.split(b"\0")):
            about, _, name = line.partition(b"\t")
            mode, _, _, size = about.decode().split()
            yield mode, int(size) if size.isdigit() else 0, os.fsdecode(name)

    def _git(self, *arguments: str) -> bytes | None:
        """What git says; None where it fails. Raises RevisionError where there is no git, or it does not trust us."""
        env = {key: value for key, value in os.environ.items() if key not in _LOCATING}
        env |= {"LC_ALL": "C", "GIT_TERMINAL_PROMPT": "0", "GIT_NO_LAZY_FETCH": "1", "GIT_LITERAL_PATHSPECS": "1"}
        try:
            run = subprocess.run(
                ["git", "-C", str(self._start), "--no-pager", "--no-replace-objects", *arguments],
                stdin=subprocess.DEVNULL, capture_output=True, env=env, timeout=_TIMEOUT_S, check=False,
            )  # fmt: skip
        except FileNotFoundError:
            raise RevisionError("git is not installed, so that no revision can be read; give two files") from None
        except (OSError, ValueError, subprocess.TimeoutExpired) as error:
            raise RevisionError(f"git can't be asked: {error}") from None
        if run.returncode and b"dubious ownership" in run.stderr:
            raise RevisionError(f"{self.at}: git refuses a repository that belongs to another user")
        return run.stdout if run.returncode == 0 else None
