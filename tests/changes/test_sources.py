"""Two files, two folders, two revisions of one; what is wrong with them, told by revision and path."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

import pytest

from harnessdoc.changes.compare import compare
from harnessdoc.changes.sources import SourceError, read_pair
from harnessdoc.reading import ReadingError
from tests.changes.repository import committed, git
from tests.changes.written import BASE, edited

TOP = "harness: {title: t, number: N}\ninclude: [parts/wires.yaml]\nplugs: {X1: {face: own-2}}\n"
WIRES = "wires:\n  W1: {from: X1:1, to: unknown, colour: red}\n"
FACE = "rows: 1\ncolumns: 2\nkey: top\n"
FOLDER = {"loom/harness.yaml": TOP, "loom/parts/wires.yaml": WIRES, "loom/layouts/plugs/own-2.yaml": FACE}


def texts(pair) -> list[str]:  # type: ignore[no-untyped-def]
    return [line.text for line in compare(pair.old, pair.new).lines]


@pytest.fixture(autouse=True)
def _nothing_is_left_behind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):  # type: ignore[no-untyped-def]
    """Whatever is taken out of a revision is removed again."""
    kept = tmp_path / "kept"
    kept.mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(kept))
    yield
    assert list(kept.iterdir()) == []


def test_two_files_and_two_folders(tmp_path: Path) -> None:
    for name, text in (("old", BASE), ("new", edited(("400 mm", "500 mm")))):
        (tmp_path / name).mkdir()
        (tmp_path / name / "harness.yaml").write_text(text, "utf-8")
    old, new = str(tmp_path / "old"), str(tmp_path / "new")
    for pair in (read_pair(old, new), read_pair(f"{old}/harness.yaml", f"{new}/harness.yaml")):
        assert texts(pair) == ["W3: length: 400 mm → 500 mm"]
    assert read_pair(old, new).old_from == old


def test_two_revisions_of_a_folder_with_what_it_includes(tmp_path: Path) -> None:
    first = committed(tmp_path, FOLDER)
    committed(tmp_path, {"loom/parts/wires.yaml": WIRES.replace("red", "blue"), "loom/photo.jpg": "x" * 100})
    pair = read_pair(first, "HEAD", tmp_path / "loom")
    assert texts(pair) == ["W1: colour: RD → BU"]
    assert pair.old_from == f"{first}:{tmp_path / 'loom'}"
    assert texts(read_pair("HEAD", "HEAD~1", tmp_path / "loom")) == ["W1: colour: BU → RD"]


def test_two_revisions_of_a_file_and_of_one_that_is_not_there_any_more(tmp_path: Path) -> None:
    committed(tmp_path, FOLDER)
    committed(tmp_path, {"loom/parts/wires.yaml": WIRES.replace("red", "blue")})
    git(tmp_path, "rm", "-rq", "loom")
    committed(tmp_path, {})
    assert texts(read_pair("HEAD~2", "HEAD~1", tmp_path / "loom" / "harness.yaml")) == ["W1: colour: RD → BU"]


def test_a_revision_and_the_files_as_they_are_now(tmp_path: Path) -> None:
    committed(tmp_path, FOLDER)
    (tmp_path / "loom" / "parts" / "wires.yaml").write_text(WIRES.replace("red", "grey"), "utf-8")
    pair = read_pair("HEAD", None, tmp_path / "loom")
    assert texts(pair) == ["W1: colour: RD → GY"]
    assert pair.new_from == str(tmp_path / "loom")


def test_the_repository_itself_may_be_the_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    repository = tmp_path / "repository"
    committed(repository, {name.removeprefix("loom/"): text for name, text in FOLDER.items()})
    committed(repository, {"parts/wires.yaml": WIRES.replace("red", "blue")})
    monkeypatch.chdir(repository)
    assert texts(read_pair("HEAD~1", "HEAD", Path())) == ["W1: colour: RD → BU"]
    assert texts(read_pair("HEAD~1", "HEAD", Path("harness.yaml"))) == ["W1: colour: RD → BU"]


def test_a_plug_face_of_its_own_is_that_of_the_revision(tmp_path: Path) -> None:
    committed(tmp_path, FOLDER)
    committed(tmp_path, {"loom/layouts/plugs/own-2.yaml": FACE.replace("2", "3")})
    assert texts(read_pair("HEAD~1", "HEAD", tmp_path / "loom")) == [
        "X1: face: own-2 → own-2 (another layout of that name)"
    ]


def test_faults_name_the_revision_and_the_path_as_the_reading_room_shows_them(tmp_path: Path) -> None:
    committed(tmp_path, FOLDER | {"loom/parts/wires.yaml": WIRES.replace("colour", "couleur")})
    committed(tmp_path, {"loom/parts/wires.yaml": WIRES, "loom/harness.yaml": TOP.replace("X1: {", "X1: { -")})
    with pytest.raises(ReadingError) as caught:
        read_pair("HEAD~1", "HEAD", tmp_path / "loom")
    assert {problem.mark.file for problem in caught.value.problems} == {
        f"HEAD~1:{tmp_path / 'loom'}/parts/wires.yaml",
        f"HEAD:{tmp_path / 'loom'}/harness.yaml",
    }
    told = "\n".join(problem.render() for problem in caught.value.problems)
    assert "parts/wires.yaml:2:" in told
    assert "couleur: red" in told
    assert "kept" not in told


def test_an_included_file_that_was_not_there_is_named(tmp_path: Path) -> None:
    committed(
        tmp_path,
        {"loom/harness.yaml": TOP.replace("parts/wires.yaml", "none.yaml"), "loom/layouts/plugs/own-2.yaml": FACE},
    )
    with pytest.raises(ReadingError) as caught:
        read_pair("HEAD", "HEAD", tmp_path / "loom")
    (problem,) = caught.value.problems
    assert problem.render().startswith(f"HEAD:{tmp_path / 'loom'}/harness.yaml:2:11: 'none.yaml' is not there")


@pytest.mark.parametrize("name", ["../outside.yaml", "/etc/passwd", "a/../../outside.yaml"])
def test_an_include_that_leads_out_of_the_folder_is_refused(tmp_path: Path, name: str) -> None:
    committed(tmp_path, {"loom/harness.yaml": TOP.replace("parts/wires.yaml", name), "outside.yaml": WIRES,
                         "loom/layouts/plugs/own-2.yaml": FACE})  # fmt: skip
    with pytest.raises(ReadingError, match="lies outside the harness's folder"):
        read_pair("HEAD", "HEAD", tmp_path / "loom")


def test_files_that_include_each_other_come_to_an_end(tmp_path: Path) -> None:
    committed(tmp_path, FOLDER | {"loom/parts/wires.yaml": "include: [harness.yaml]\n" + WIRES})
    with pytest.raises(ReadingError, match="includes itself"):
        read_pair("HEAD", "HEAD", tmp_path / "loom")


def test_a_link_in_a_revision_is_not_followed(tmp_path: Path) -> None:
    (tmp_path / "loom" / "parts").mkdir(parents=True)
    (tmp_path / "loom" / "parts" / "wires.yaml").symlink_to("/etc/passwd")
    committed(tmp_path, {name: text for name, text in FOLDER.items() if "wires" not in name})
    with pytest.raises(ReadingError, match=r"'parts/wires\.yaml' is not there"):
        read_pair("HEAD", "HEAD", tmp_path / "loom")


@pytest.mark.parametrize(
    ("old", "at", "told"),
    [
        ("HEAD~7", "loom", "'HEAD~7' is no revision of the repository of"),
        ("--output=x", "loom", "'--output=x' is no git revision"),
        ("", "loom", "'' is no git revision"),
        ("HEAD:loom", "loom", "'HEAD:loom' is no revision of the repository of"),
        ("HEAD\nHEAD", "loom", "is no git revision"),
        ("HEAD", "nowhere", "HEAD: nowhere is not in that revision"),
    ],
)
def test_what_is_no_revision_is_one_clear_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, old: str, at: str, told: str
) -> None:
    committed(tmp_path, FOLDER)
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SourceError) as caught:
        read_pair(old, "HEAD", Path(at))
    assert told in str(caught.value)
    assert "\n" not in str(caught.value)


def test_no_repository_and_no_git_are_one_clear_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "harness.yaml").write_text(BASE, "utf-8")
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    with pytest.raises(SourceError, match="lies in no git repository"):
        read_pair("HEAD~1", "HEAD", tmp_path)
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(SourceError, match="git is not installed"):
        read_pair("HEAD~1", "HEAD", tmp_path)


def test_a_repository_of_another_user_is_one_clear_line(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """git has a switch for its own tests that makes every repository another user's."""
    committed(tmp_path, FOLDER)
    monkeypatch.setenv("GIT_TEST_ASSUME_DIFFERENT_OWNER", "1")
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", os.devnull)
    with pytest.raises(SourceError, match="git refuses a repository that belongs to another user"):
        read_pair("HEAD", "HEAD", tmp_path / "loom")


def test_a_git_that_calls_us_does_not_lead_us_astray(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    committed(tmp_path / "one", FOLDER)
    committed(tmp_path / "two", {"other": ""})
    monkeypatch.setenv("GIT_DIR", str(tmp_path / "two" / ".git"))
    assert texts(read_pair("HEAD", "HEAD", tmp_path / "one" / "loom")) == []


def test_a_revision_where_a_file_is_meant_says_how_to_ask() -> None:
    with pytest.raises(SourceError) as caught:
        read_pair("HEAD~3", "HEAD")
    assert str(caught.value) == (
        "HEAD~3: no such file or folder; of a git revision say which file or folder is meant, with --of"
    )
