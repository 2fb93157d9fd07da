"""The list of revisions: the last is the present one, and a contradiction is told at its line."""

from __future__ import annotations

import pytest

from harnessdoc.model.harness import Revision
from tests.reading.conftest import Faults, Read, at

A = "{mark: A, date: 2026-01-10, what: first issue}"
B = "{mark: B, date: 2026-02-03, what: 'pump relay moved, fuse F3 now 10 A'}"


def _text(*lines: str, more: str = "") -> str:
    listed = "".join(f"    - {line}\n" for line in lines)
    return f"harness:\n  title: t\n  number: n\n{more}  revisions:\n{listed}"


def test_the_last_is_the_present_one(read: Read) -> None:
    """Revision and date need not be said again."""
    title = read(_text(A, B), head=False).title
    assert title.revisions == (
        Revision("A", "2026-01-10", "first issue"),
        Revision("B", "2026-02-03", "pump relay moved, fuse F3 now 10 A"),
    )
    assert (title.revision, title.date) == ("B", "2026-02-03")


def test_said_again_and_issued_later(read: Read) -> None:
    """A stated date of issue stands; the same revision may be said twice."""
    title = read(_text(A, B, more="  revision: B\n  date: 2026-03-01\n"), head=False).title
    assert (title.revision, title.date) == ("B", "2026-03-01")


def test_without_a_list_nothing_changes(read: Read) -> None:
    """Neither is invented."""
    title = read("").title
    assert (title.revision, title.date, title.revisions) == ("", "", ())


@pytest.mark.parametrize(
    ("text", "line", "column", "said"),
    [
        (_text(A, A.replace("01-10", "02-10")), 6, 14, "the mark 'A' is there twice"),
        (
            _text(B, A.replace("A,", "C,")),
            6,
            23,
            "2026-01-10 is before 2026-02-03, yet below it; the newest is the last",
        ),
        (
            _text(A, B, more="  revision: A\n"),
            4,
            13,
            "the revision is 'A', but the last of revisions: is 'B'; leave one out",
        ),
        (_text(A, "{mark: B, date: 3.2.2026, what: x}"), 6, 23, "'3.2.2026' is no date; write it as 2026-10-11"),
        (_text("{mark: A, date: 2026-01-10}"), 5, 7, "the key 'what' is missing"),
        (_text("{mark: A, what: x, wot: y}"), 5, 26, "'wot' is no key here; known: mark, date, what"),
        ("harness:\n  title: t\n  number: n\n  revisions: A\n", 4, 14, "expected a list"),
    ],
)
def test_faults_are_told_at_their_line(faults: Faults, text: str, line: int, column: int, said: str) -> None:
    """File, line and column are those of the word at fault."""
    (problem,) = faults(text, head=False)
    assert at(problem) == (line, column)
    assert said in problem.text
