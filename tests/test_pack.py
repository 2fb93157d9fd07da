"""The pack: whole or not at all, the manifest always complete, foreign files kept, the same bytes every time."""

from __future__ import annotations

import hashlib
import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from harnessdoc.cli import main
from harnessdoc.model.harness import Harness, Title
from harnessdoc.pack import read_manifest, write_pack
from harnessdoc.products import Job
from harnessdoc.reading import read_harness

ROOT = Path(__file__).parents[1]
DATA = ROOT / "tests/data"
SMALL = (DATA / "small/harness.yaml").read_text(encoding="utf-8")


def job(revision: str = "A") -> Job:
    return Job(Harness(Title("t", "N", revision)), Path())


def files(text: str) -> dict[str, bytes]:
    return {"check.txt": text.encode(), "records/a/index.html": b"<p>" + text.encode(), "binder.pdf": b"%PDF"}


def content(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def complete(out: Path) -> dict[str, Any]:
    """The manifest, after each file in it was held against its hash and size."""
    manifest: dict[str, Any] = json.loads((out / "manifest.json").read_text(encoding="utf-8"))
    folder = out / manifest["folder"]
    assert folder.parent == out
    for path, facts in manifest["files"].items():
        data = (folder / path).read_bytes()
        assert (len(data), hashlib.sha256(data).hexdigest()) == (facts["bytes"], facts["sha256"]), path
    return manifest


def run(*arguments: object) -> Result:
    result = CliRunner().invoke(main, [str(argument) for argument in arguments])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def test_the_manifest_lists_all_there_is(tmp_path: Path) -> None:
    one = job()
    folder = write_pack(one, files("x"), tmp_path)
    manifest = complete(tmp_path)
    assert folder.name == f"pack-{one.mark}" == manifest["folder"]
    assert sorted(manifest["files"]) == sorted(content(folder)) == sorted(files("x"))
    assert (manifest["content mark"], manifest["harness"], manifest["danger findings"]) == (one.mark, "N", 0)
    assert {path.name for path in tmp_path.iterdir()} == {folder.name, "manifest.json"}


def test_packing_again_changes_nothing(tmp_path: Path) -> None:
    folder = write_pack(job(), files("x"), tmp_path)
    before = {path: path.stat().st_mtime_ns for path in folder.rglob("*")}
    assert write_pack(job(), files("x"), tmp_path) == folder
    assert {path: path.stat().st_mtime_ns for path in folder.rglob("*")} == before
    complete(tmp_path)


def test_another_content_takes_the_former_s_place(tmp_path: Path) -> None:
    old = write_pack(job("A"), files("x"), tmp_path)
    new = write_pack(job("B"), files("y"), tmp_path)
    assert old != new
    assert not old.exists()
    assert complete(tmp_path)["revision"] == "B"


def test_foreign_and_changed_files_of_the_former_stay(tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_bytes(b"mine")
    old = write_pack(job("A"), files("x"), tmp_path)
    (old / "records/a/index.html").write_bytes(b"changed by hand")
    (old / "records/note.txt").write_bytes(b"a note")
    (old / "my empty folder").mkdir()
    write_pack(job("B"), files("y"), tmp_path)
    assert content(old) == {"records/a/index.html": b"changed by hand", "records/note.txt": b"a note"}
    assert (old / "my empty folder").is_dir()
    assert (tmp_path / "mine.txt").read_bytes() == b"mine"


def test_a_pack_changed_by_hand_is_not_written_over(tmp_path: Path) -> None:
    old = write_pack(job(), files("x"), tmp_path)
    (old / "check.txt").write_bytes(b"changed by hand")
    new = write_pack(job(), files("x"), tmp_path)
    assert new.name == f"{old.name}-2"
    assert content(old) == {"check.txt": b"changed by hand"}
    assert complete(tmp_path)["folder"] == new.name


@pytest.mark.parametrize(
    "manifest",
    [
        b"", b"[]", b"{", b"\xff", b'{"files": []}', b'{"files": {}, "folder": 3}',
        b'{"folder": "../victim", "files": {"a.txt": {"sha256": "%s"}}}',
        b'{"folder": "victim", "files": {"a.txt": {"sha256": "%s"}}}',
        b'{"folder": "pack-x", "files": {"../victim/a.txt": {"sha256": "%s"}, "/a": {}, "b": 3, "\\u0000": {}}}',
        b'{"folder": "pack-x", "files": {"link/a.txt": {"sha256": "%s"}, "a.txt": {"sha256": "%s"}}}',
    ],
)  # fmt: skip
def test_a_manifest_that_is_not_ours_removes_nothing(tmp_path: Path, manifest: bytes) -> None:
    """Somebody's manifest may name any path; only files in a pack's own folder, as they were written, go."""
    out = tmp_path / "out"
    for folder in (out / "victim", tmp_path / "victim"):
        folder.mkdir(parents=True)
        (folder / "a.txt").write_bytes(b"precious")
    (out / "pack-x").mkdir()
    (out / "pack-x/link").symlink_to(out / "victim")
    (out / "pack-x/a.txt").symlink_to(out / "victim/a.txt")
    digest = hashlib.sha256(b"precious").hexdigest().encode()
    (out / "manifest.json").write_bytes(manifest.replace(b"%s", digest))
    write_pack(job(), files("x"), out)
    assert (out / "victim/a.txt").read_bytes() == (tmp_path / "victim/a.txt").read_bytes() == b"precious"
    complete(out)


@pytest.mark.parametrize("call", ["os.rename", "os.replace", "tempfile.mkstemp", "tempfile.mkdtemp"])
def test_a_pack_that_fails_leaves_the_former_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: str) -> None:
    def fails(*arguments: object, **options: object) -> None:
        raise OSError(28, "No space left on device")

    write_pack(job("A"), files("x"), tmp_path)
    monkeypatch.setattr(call, fails)
    with pytest.raises(Exception, match="can't be written: No space left on device"):
        write_pack(job("B"), files("y"), tmp_path)
    monkeypatch.undo()
    assert complete(tmp_path)["revision"] == "A"
    assert not [path.name for path in tmp_path.iterdir() if path.name.endswith(".part")]


WRITER = """
import sys
from pathlib import Path
from tests.test_pack import job
from harnessdoc.pack import write_pack
print("ready", flush=True)
for n in range(10_000):
    write_pack(job(f"{sys.argv[2]}-{n}"), {f"{k}.bin": bytes([n % 251]) * 200_000 for k in range(8)}, Path(sys.argv[1]))
    print("written", flush=True)
"""


def test_a_reader_finds_a_complete_pack_whenever_the_writer_is_killed(tmp_path: Path) -> None:
    write_pack(job(), files("x"), tmp_path)
    revisions = set()
    for turn in range(8):
        writer = subprocess.Popen(
            [sys.executable, "-c", WRITER, str(tmp_path), str(turn)], stdout=subprocess.PIPE, cwd=ROOT
        )
        assert writer.stdout is not None
        for _ in range(1 + turn % 3):
            writer.stdout.readline()
        time.sleep(0.002 + 0.0037 * turn)
        writer.send_signal(signal.SIGKILL)
        writer.wait(timeout=10)
        writer.stdout.close()
        revisions.add(complete(tmp_path)["revision"])
    assert len(revisions) > 1


def pack_of(text: str, folder: Path) -> Result:
    folder.mkdir(exist_ok=True)
    (folder / "harness.yaml").write_text(text, encoding="utf-8")
    return run("pack", folder)


@pytest.fixture(name="small", scope="module")
def _small(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Result]:
    folder = tmp_path_factory.mktemp("small")
    return folder, pack_of(SMALL, folder)


def test_a_pack_holds_every_product(small: tuple[Path, Result]) -> None:
    folder, result = small
    assert result.exit_code == 0, result.stderr
    manifest = complete(folder / "out")
    names = set(manifest["files"])
    for name in (
        "check.txt",
        "check.json",
        "drawing.pdf",
        "faces.pdf",
        "labels.pdf",
        "records/index.html",
        "binder.pdf",
    ):
        assert name in names
    told = [Path(line) for line in result.stdout.splitlines()[:-1]]
    assert set(told) == {folder / "out" / manifest["folder"] / name for name in names} | {folder / "out/manifest.json"}
    assert result.stdout.splitlines()[-1].startswith(f"content mark {manifest['content mark']}: 0 danger")


def test_one_wire_changed_is_another_mark_and_the_old_pack_goes(small: tuple[Path, Result], tmp_path: Path) -> None:
    import shutil

    folder = tmp_path / "copy"
    shutil.copytree(small[0], folder)
    old = complete(folder / "out")
    changed = folder / "out" / old["folder"] / "check.txt"
    changed.write_text("a note by hand", encoding="utf-8")
    result = pack_of(
        SMALL.replace("W2: {from: F1:2, to: S1:1, colour: red,", "W2: {from: F1:2, to: S1:1, colour: red/blue,"), folder
    )
    assert result.exit_code == 0, result.stderr
    new = complete(folder / "out")
    assert new["content mark"] != old["content mark"]
    assert content(folder / "out" / old["folder"]) == {"check.txt": b"a note by hand"}


def test_the_same_bytes_in_any_process(small: tuple[Path, Result], tmp_path: Path) -> None:
    """Another hash seed, another time zone, another language, another folder."""
    (tmp_path / "harness.yaml").write_text(SMALL, encoding="utf-8")
    variables = {
        **os.environ,
        "PYTHONHASHSEED": "12345",
        "TZ": "Pacific/Auckland",
        "LANG": "C",
        "LC_ALL": "C",
        "PYTHONPATH": str(ROOT),
    }
    done = subprocess.run(
        [sys.executable, "-m", "harnessdoc", "pack", "."], env=variables, cwd=tmp_path, capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    ours, theirs = complete(small[0] / "out")["files"], complete(tmp_path / "out")["files"]
    assert sorted(ours) == sorted(theirs)
    assert [name for name in ours if ours[name] != theirs[name]] == []


def test_awkward_names_stay_inside_the_folder(tmp_path: Path) -> None:
    """Ids like ../../x, <script>, CON and con, emoji, right-to-left text, 300 characters; a danger finding stands."""
    out = tmp_path / "deep/er/out"
    result = run("pack", DATA / "awkward", "--out", out)
    assert result.exit_code == 1, result.stderr
    assert "danger findings stand" in result.stderr
    manifest = complete(out)
    assert manifest["danger findings"] == 1
    lower = [name.lower() for name in manifest["files"]]
    assert len(set(lower)) == len(lower)
    for name in manifest["files"]:
        assert (out / manifest["folder"] / name).resolve().is_relative_to(out)
        assert name.isascii()
        assert all(len(part) < 100 for part in Path(name).parts)
    assert [path.name for path in tmp_path.iterdir()] == ["deep"]
    assert [path.name for path in (tmp_path / "deep/er").iterdir()] == ["out"]


@pytest.mark.parametrize("where", ["file", "/proc/none"])
def test_a_pack_that_has_nowhere_to_go(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, where: str) -> None:
    (tmp_path / "file").write_bytes(b"mine")
    made: Callable[..., dict[str, bytes]] = lambda job, stage: files("x")  # noqa: E731
    monkeypatch.setattr("harnessdoc.pack.pack_files", made)
    result = run("pack", DATA / "small", "--out", tmp_path / where)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr.count("\n") == 1
    assert "can't be written" in result.stderr
    assert (tmp_path / "file").read_bytes() == b"mine"


def test_no_manifest_is_an_empty_one(tmp_path: Path) -> None:
    assert read_manifest(tmp_path) == {}
    assert read_manifest(tmp_path / "none") == {}


def test_the_mark_is_of_the_content_and_not_of_the_writing(tmp_path: Path) -> None:
    marks = []
    for number, text in enumerate((SMALL, "# a remark\n" + SMALL, SMALL.replace("revision: A", "revision: B"))):
        (tmp_path / f"{number}.yaml").write_text(text, encoding="utf-8")
        marks.append(Job(read_harness(tmp_path / f"{number}.yaml"), tmp_path).mark)
    assert marks[0] == marks[1] != marks[2]
