"""The list of revisions against itself and against the stated revision. Shapes only; where a fault stands is a path."""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.reading.shapes import TitleShape

Path = tuple[int | str, ...]


def faults_of(shape: TitleShape) -> Iterator[tuple[Path, str]]:
    """Each contradiction, with the path of keys to it: a mark twice, a date that runs back, another last revision."""
    marks: set[str] = set()
    before = ""
    for number, revision in enumerate(shape.revisions):
        if revision.index in marks:
            yield ("revisions", number, "mark"), f"the mark {revision.index!r} is there twice"
        if revision.date and revision.date < before:
            yield (
                ("revisions", number, "date"),
                f"{revision.date} is before {before}, yet below it; the newest is the last",
            )
        marks.add(revision.index)
        before = revision.date or before
    if shape.revision and shape.revisions and shape.revision != (last := shape.revisions[-1].index):
        yield (
            ("revision",),
            f"the revision is {shape.revision!r}, but the last of revisions: is {last!r}; leave one out",
        )


def with_last(shape: TitleShape) -> TitleShape:
    """The shape, its revision and date those of the last in the list where it states none of its own."""
    if shape.revisions:
        shape.revision = shape.revision or shape.revisions[-1].index
        shape.date = shape.date or shape.revisions[-1].date
    return shape
