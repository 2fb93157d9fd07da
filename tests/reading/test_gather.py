"""One file or a folder of files: what may be included, and what is said of what may not."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from harnessdoc.model.harness import Harness
from harnessdoc.reading import Problem, ReadingError, read_harness

HEAD = "harness: {title: t, number: N}\n"
Read = Callable[..., Harness]
Faults = Callable[..., tuple[Problem, ...]]


def problem_of(path: Path) -> Problem:
    with pytest.raises(ReadingError) as caught:
        read_harness(path)
    assert len(caught.value.problems) == 1, caught.value
    return caught.value.problems[0]


def test_sections_of_all_files_are_one(read: Read) -> None:
    harness = read(
        "include: [a.yaml, b.yaml]\nitems: {F1: {is: fuse}}\n",
        a="items: {F2: {is: fuse}}\nruns: [{between: [x, y]}]\n",
        b="include: c.yaml\nruns: [{between: [y, z]}]\n",
        c="items: {F3: {is: fuse}}\n",
    )
    assert list(harness.items) == ["F1", "F2", "F3"]
    assert [run.name for run in harness.runs] == ["x - y", "y - z"]
    assert harness.items["F3"].mark.file.endswith("c.yaml")


def test_a_folder_is_read_from_its_harness_file(read: Read, tmp_path: Path) -> None:
    assert read("items: {F1: {is: fuse}}\n") == read_harness(tmp_path)


def test_files_in_folders_below_may_be_included(read: Read, tmp_path: Path) -> None:
    (tmp_path / "parts").mkdir()
    (tmp_path / "parts" / "a.yaml").write_text("items: {F2: {is: fuse}}\n")
    assert list(read("include: parts/../parts/a.yaml\n").items) == ["F2"]


def test_the_harness_section_may_stand_in_an_included_file(read: Read) -> None:
    assert read("include: a.yaml\n", head=False, a=HEAD).title.number == "N"


@pytest.mark.parametrize(
    ("written", "words"),
    [
        ("none.yaml", "'none.yaml' is not there"),
        (".", "'.' is not there"),
        ("folder", "'folder' is not there"),
        ("../outside.yaml", "'../outside.yaml' lies outside the harness's folder"),
        ("/etc/passwd", "'/etc/passwd' lies outside the harness's folder"),
        ("link.yaml", "'link.yaml' lies outside the harness's folder"),
        ("folder/../../outside.yaml", "lies outside the harness's folder"),
        ("loop.yaml", "'loop.yaml' is no"),
        ("harness.yaml", "'harness.yaml' includes itself, directly or by another file"),
        ("x" * 300, "is no file name"),
        ('"a\\0b"', "is no file name"),
        ("{a: b}", "include: wants file names"),
        ("[[a]]", "include: wants file names"),
    ],
)
def test_what_may_not_be_included(tmp_path: Path, written: str, words: str) -> None:
    home = tmp_path / "home"
    (home / "folder").mkdir(parents=True)
    (tmp_path / "outside.yaml").write_text("items: {}\n")
    (home / "link.yaml").symlink_to(tmp_path / "outside.yaml")
    (home / "loop.yaml").symlink_to(home / "loop.yaml")
    (home / "harness.yaml").write_text(HEAD + f"include: {written}\n")
    problem = problem_of(home)
    assert words in problem.text
    assert problem.mark.line == 2


def test_a_loop_through_another_file_ends(faults: Faults) -> None:
    (problem,) = faults("include: a.yaml\n", a="include: b.yaml\n", b="include: harness.yaml\n")
    assert problem.text == "'harness.yaml' includes itself, directly or by another file"
    assert problem.mark.file.endswith("b.yaml")


def test_a_file_included_twice_is_said(faults: Faults) -> None:
    (problem,) = faults("include: [a.yaml, b.yaml]\n", a="include: b.yaml\n", b="items: {}\n")
    assert problem.text == "'b.yaml' is included twice"
    assert (problem.mark.line, problem.mark.column) == (2, 19)


def test_an_entry_in_two_files_names_the_first(faults: Faults) -> None:
    (problem,) = faults("include: a.yaml\nitems:\n  F1: {is: fuse}\n", a="items: {F1: {is: fuse}}\n")
    assert problem.text.startswith("'F1' stands twice; the first is ")
    assert problem.text.endswith("harness.yaml:4:3")
    assert problem.mark.file.endswith("a.yaml")


def test_a_section_and_an_entry_twice_in_one_file(faults: Faults) -> None:
    first, second = faults("items: {F1: {is: fuse}, F1: {is: fuse}}\nitems: {}\n")
    assert (first.mark.line, first.mark.column) == (2, 25)
    assert second.text == "'items' stands twice; the first is on line 2"


def test_the_harness_section_in_two_files(faults: Faults) -> None:
    (problem,) = faults("include: a.yaml\n", a=HEAD)
    assert problem.text.startswith("harness: stands in two files; the first is ")


def test_a_broken_included_file_does_not_hide_other_faults(faults: Faults) -> None:
    found = faults("include: [a.yaml, b.yaml]\nitms: {}\n", a="a: [\n", b="items: {F1: {is: fus}}\n")
    assert sorted(Path(p.mark.file).name for p in found) == ["a.yaml", "b.yaml", "harness.yaml"]


def test_a_path_that_can_not_be_read(tmp_path: Path) -> None:
    assert "holds no harness.yaml; name the file, or write a starter" in problem_of(tmp_path).text
    assert problem_of(tmp_path / "none").text == "no such file or folder"
    assert problem_of(tmp_path / ("n" * 300)).text == "no such file or folder"
    (tmp_path / "file").write_text("")
    assert problem_of(tmp_path / "file" / "below").text == "no such file or folder"


def test_empty_sections_are_fine(read: Read) -> None:
    harness = read("format: 1\ninclude:\nitems:\nwires:\nruns:\nreadings: []\nplugs: {}\n")
    assert (harness.items, harness.wires, harness.runs) == ({}, {}, ())
