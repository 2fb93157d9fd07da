"""Lists of harnesses written in a test, or of the sample."""

from __future__ import annotations

from functools import lru_cache

from harnessdoc.checks.rule import Case, case_of
from harnessdoc.reading import read_harness
from harnessdoc.schedules.asked import Asked
from harnessdoc.schedules.lists import LISTS
from harnessdoc.schedules.schedule import Row, Schedule, Value
from tests.electrics.written import SAMPLE, harness_of


@lru_cache(maxsize=1)
def sample() -> Case:
    """The sample's case."""
    return case_of(read_harness(SAMPLE))


def listed(name: str, text: str | None = None, asked: Asked | None = None) -> Schedule:
    """One list of a text, of the sample without one."""
    return LISTS[name](case_of(harness_of(text)) if text is not None else sample(), asked or Asked())


def row_of(schedule: Schedule, first: str) -> dict[str, Value]:
    """Heading to cell of the row that begins so."""
    row: Row = next(row for row in schedule.rows if row[0] == first)
    return dict(zip(schedule.headings, row, strict=True))
