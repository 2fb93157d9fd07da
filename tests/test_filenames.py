"""File names made from designations."""

from __future__ import annotations

from pathlib import PurePosixPath, PureWindowsPath

import pytest
from hypothesis import given
from hypothesis import strategies as st

from harnessdoc.filenames import safe_stem, safe_stems

AWKWARD = ["../../x", "/etc/passwd", "..", ".", "", " ", "a/b", "a\\b", "C:x", "CON", "nul", "com1", "-rf", "é", "🚜",
           "מנוע", "x" * 300, "a\0b", "a\nb",
           "a.b", "X4 ", "%2e%2e", "~", "$HOME", "\ud800", "a" * 40, "a" * 41]  # fmt: skip


@pytest.mark.parametrize("name", ["X4", "W12", "K1", "rect-2x6", "a" * 40])
def test_a_plain_designation_is_its_own_name(name: str) -> None:
    assert safe_stem(name) == name


@pytest.mark.parametrize("name", AWKWARD)
def test_any_name_is_one_part_of_a_path(name: str) -> None:
    stem = safe_stem(name)
    assert stem.isascii()
    assert 0 < len(stem) <= 48
    assert PurePosixPath("out", f"{stem}.svg").parts == ("out", f"{stem}.svg")
    assert len(PureWindowsPath(f"{stem}.svg").parts) == 1
    assert not PureWindowsPath(f"{stem}.svg").is_reserved()
    assert stem[0] not in "-._~"


@given(st.lists(st.one_of(st.sampled_from(AWKWARD), st.text(max_size=8)), unique=True, max_size=30))
def test_stems_are_distinct_on_a_file_system_without_case(names: list[str]) -> None:
    stems = safe_stems(names)
    assert list(stems) == names
    assert len({stem.lower() for stem in stems.values()}) == len(names)


def test_case_alone_tells_two_apart() -> None:
    assert len({stem.lower() for stem in safe_stems(["x4", "X4", "X4_", "X4__"]).values()}) == 4


def test_a_name_does_not_depend_on_the_others_before_it() -> None:
    assert safe_stems(["a/b", "X4"])["X4"] == safe_stems(["X4"])["X4"]
