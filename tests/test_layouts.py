"""Where layout files are looked for, and what cannot be asked for."""

from __future__ import annotations

from pathlib import Path

import pytest

from harnessdoc import layouts


def test_finds_the_carried_paper() -> None:
    """A4 paper comes with the package and holds its own sizes."""
    path = layouts.find("paper", "A4")
    assert path.name == "A4.yaml"
    assert "297" in path.read_text(encoding="utf-8")


def test_the_users_folder_comes_first(tmp_path: Path) -> None:
    """A file of the same name in the user's `layouts/` wins; other names still come from the package."""
    own = tmp_path / "layouts" / "paper" / "A4.yaml"
    own.parent.mkdir(parents=True)
    own.write_text("short side: 1\n", encoding="utf-8")
    assert layouts.find("paper", "A4", tmp_path) == own
    assert layouts.find("paper", "A3", tmp_path) == layouts.find("paper", "A3")


def test_names_are_sorted_and_joined(tmp_path: Path) -> None:
    """The user's names stand among the carried ones, each once; names that `find` refuses are left out."""
    folder = tmp_path / "layouts" / "paper"
    folder.mkdir(parents=True)
    for name in ("A4.yaml", "napkin.yaml", ".hidden.yaml", "two words.yaml", "notes.txt"):
        (folder / name).write_text("", encoding="utf-8")
    names = layouts.names("paper", tmp_path)
    assert "napkin" in names
    assert names.count("A4") == 1
    assert list(names) == sorted(names)
    assert not {".hidden", "two words", "notes"} & set(names)


@pytest.mark.parametrize(
    "name", ["", "../paper/A4", "..", ".A4", "/etc/passwd", "A4/../A3", "A4\n", "A4\0", "a b", "C:\\A4", "é", "-A4"]
)
def test_names_with_path_tricks_are_refused(name: str) -> None:
    """Nothing that could leave the folder is ever joined to a path."""
    with pytest.raises(layouts.LayoutError, match="cannot name a layout"):
        layouts.find("paper", name)


def test_a_near_name_is_offered() -> None:
    """A slip of the pen gets the near name."""
    with pytest.raises(layouts.LayoutError, match=r"did you mean .*letter"):
        layouts.find("paper", "leter")


def test_a_far_name_lists_what_there_is() -> None:
    """With nothing near, the known names are told."""
    with pytest.raises(layouts.LayoutError, match=r"there are .*A4"):
        layouts.find("paper", "qqqqqq")


def test_unknown_kinds_are_refused() -> None:
    """Only the three kinds exist."""
    with pytest.raises(layouts.LayoutError, match="plugs, labels, paper"):
        layouts.find("../tests", "A4")


def test_a_very_long_name_is_cut_in_the_message() -> None:
    """300 characters do not flood the terminal."""
    with pytest.raises(layouts.LayoutError) as caught:
        layouts.find("paper", "x" * 300)
    assert len(str(caught.value)) < 250
