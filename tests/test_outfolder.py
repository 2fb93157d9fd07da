"""Writing whole or not at all, and never a line of traceback: full disks, read-only folders, things in the way."""

from __future__ import annotations

import errno
import os
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from harnessdoc.outfolder import OutputError, make_folder, write_files

OLD = {"a.txt": b"old a", "below/b.txt": b"old b"}
NEW = {"a.txt": b"new a", "below/b.txt": b"new b", "c.txt": b"new c"}


def content(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def failing(error: int) -> OSError:
    return OSError(error, os.strerror(error))


def test_files_are_written_replaced_and_told(tmp_path: Path) -> None:
    assert write_files(tmp_path / "o", OLD) == [tmp_path / "o/a.txt", tmp_path / "o/below/b.txt"]
    write_files(tmp_path / "o", NEW)
    assert content(tmp_path / "o") == NEW
    assert (tmp_path / "o/a.txt").stat().st_mode & 0o777 == 0o644


def test_foreign_files_stay(tmp_path: Path) -> None:
    write_files(tmp_path, {"mine.txt": b"mine", "below/mine.txt": b"mine"})
    write_files(tmp_path, OLD)
    assert content(tmp_path) == {**OLD, "mine.txt": b"mine", "below/mine.txt": b"mine"}


@pytest.mark.parametrize("call", ["tempfile.mkstemp", "os.chmod", "os.fdopen"])
@pytest.mark.parametrize("error", [errno.ENOSPC, errno.EACCES, errno.EROFS, errno.EDQUOT, errno.EIO])
def test_what_can_not_be_written_leaves_the_old_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str, error: int
) -> None:
    """The second file fails, so that the first is staged already."""
    write_files(tmp_path, OLD)
    module, name = call.split(".")
    real = getattr(__import__(module), name)
    calls: list[object] = []

    def fails(*arguments: object, **options: object) -> object:
        calls.append(arguments)
        if len(calls) == 2:
            raise failing(error)
        return real(*arguments, **options)

    monkeypatch.setattr(call, fails)
    with pytest.raises(OutputError) as caught:
        write_files(tmp_path, NEW)
    monkeypatch.undo()
    assert str(caught.value) == f"{tmp_path}: can't be written: {os.strerror(error)}"
    assert content(tmp_path) == OLD


def test_a_refused_replacement_leaves_no_part_behind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(*arguments: object) -> None:
        raise failing(errno.EACCES)

    write_files(tmp_path, OLD)
    monkeypatch.setattr("os.replace", fails)
    with pytest.raises(OutputError, match="Permission denied"):
        write_files(tmp_path, NEW)
    monkeypatch.undo()
    assert content(tmp_path) == OLD


@pytest.mark.parametrize(
    ("folder", "files", "words"),
    [
        ("file", OLD, "can't be written: "),
        ("file/below", OLD, "can't be written: Not a directory"),
        ("folder", {"a.txt": b"", "taken": b""}, "can't be written: a folder stands there"),
        ("folder", {"file/x": b""}, "can't be written: "),
        ("o" * 300, OLD, "can't be written: File name too long"),
        ("/proc/none", OLD, "can't be written: "),
    ],
)
def test_things_in_the_way(tmp_path: Path, folder: str, files: dict[str, bytes], words: str) -> None:
    (tmp_path / "file").write_bytes(b"mine")
    write_files(tmp_path / "folder", {"taken/x": b"mine", "file": b"mine"})
    before = content(tmp_path)
    with pytest.raises(OutputError) as caught:
        write_files(tmp_path / folder, files)
    assert words in str(caught.value)
    assert "\n" not in str(caught.value)
    assert content(tmp_path) == before


def test_a_folder_appears_whole(tmp_path: Path) -> None:
    make_folder(tmp_path / "o/pack", NEW)
    assert content(tmp_path / "o/pack") == NEW
    assert (tmp_path / "o/pack").stat().st_mode & 0o777 == 0o755
    assert [path.name for path in (tmp_path / "o").iterdir()] == ["pack"]


@pytest.mark.parametrize("error", [failing(errno.ENOSPC), KeyboardInterrupt()])
def test_a_folder_that_fails_does_not_appear(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: BaseException
) -> None:
    written: list[Path] = []
    real = Path.write_bytes

    def fails(self: Path, data: bytes) -> int:
        written.append(self)
        if len(written) == 2:
            raise error
        return real(self, data)

    monkeypatch.setattr(Path, "write_bytes", fails)
    with pytest.raises(OutputError if isinstance(error, OSError) else KeyboardInterrupt):
        make_folder(tmp_path / "o/pack", NEW)
    assert list((tmp_path / "o").iterdir()) == []


def test_a_folder_that_is_there_is_not_touched(tmp_path: Path) -> None:
    write_files(tmp_path / "pack", OLD)
    with pytest.raises(OutputError, match="can't be written"):
        make_folder(tmp_path / "pack", NEW)
    assert content(tmp_path) == {f"pack/{name}": data for name, data in OLD.items()}


@pytest.fixture(name="tiny")
def _tiny(tmp_path: Path) -> Iterator[Path]:
    """A file system of 64 KiB."""
    folder = tmp_path / "tiny"
    folder.mkdir()
    command = ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(folder)]
    try:
        mounted = subprocess.run(command, capture_output=True).returncode == 0
    except OSError:
        mounted = False
    if not mounted:
        pytest.skip("no right to mount a small file system here")
    yield folder
    subprocess.run(["umount", str(folder)], check=True)


def test_a_disk_that_is_really_full(tiny: Path) -> None:
    write_files(tiny, OLD)
    for write in (write_files, make_folder):
        with pytest.raises(OutputError, match="No space left on device"):
            write(tiny / "more", {"a": b"x" * 20_000, "b": b"x" * 200_000})
    assert content(tiny) == OLD
