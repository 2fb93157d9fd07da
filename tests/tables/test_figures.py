"""Every row of every table carries its source and how far it was seen; memory decides nothing."""

from pathlib import Path

import pytest

import harnessdoc.tables
from harnessdoc.tables.figures import Confirmed, Figure, deciding, rows

NAMES = sorted(path.stem for path in Path(harnessdoc.tables.__file__).parent.glob("*.csv"))


def test_there_are_tables() -> None:
    assert len(NAMES) >= 12


@pytest.mark.parametrize("name", NAMES)
def test_every_row_names_its_source_and_how_far_it_was_seen(name: str) -> None:
    for number, row in enumerate(rows(name), 2):
        where = f"{name}.csv line {number}"
        assert row["source"].strip(), where
        assert row["confirmed"] in ("two_pages", "one_page", "memory", "computed"), where
        assert None not in row, f"{where} has more cells than columns"
        assert None not in row.values(), f"{where} has fewer cells than columns"


@pytest.mark.parametrize("name", NAMES)
def test_a_row_from_memory_says_so_in_both_columns(name: str) -> None:
    """A source of "from memory" and any other mark would let a remembered figure decide."""
    for row in rows(name):
        assert (row["confirmed"] == "memory") == row["source"].startswith("from memory"), row


@pytest.mark.parametrize("name", NAMES)
def test_deciding_rows_hold_nothing_from_memory(name: str) -> None:
    assert all(row["confirmed"] != "memory" for row in deciding(name))


def test_only_memory_decides_nothing() -> None:
    assert [one for one in Confirmed if not one.decides] == [Confirmed.MEMORY]
    assert not Figure(1, "mm", "from memory", Confirmed.MEMORY).decides
    assert Figure(1, "mm", "a page", Confirmed.ONE_PAGE).decides
