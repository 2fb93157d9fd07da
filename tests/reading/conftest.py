"""Reading texts: what a harness file says, or all that is wrong with it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from harnessdoc.model.harness import Harness
from harnessdoc.reading import Problem, ReadingError, read_harness

HEAD = "harness: {title: t, number: N}\n"

Read = Callable[..., Harness]
Faults = Callable[..., tuple[Problem, ...]]


@pytest.fixture
def read(tmp_path: Path) -> Read:
    """Reads a text as a harness file; `head` False leaves out the `harness:` section in front."""

    def reads(text: str | bytes, *, head: bool = True, **others: str) -> Harness:
        raw = text if isinstance(text, bytes) else ((HEAD if head else "") + text).encode()
        (tmp_path / "harness.yaml").write_bytes(raw)
        for name, content in others.items():
            (tmp_path / f"{name}.yaml").write_text(content, encoding="utf-8")
        return read_harness(tmp_path / "harness.yaml")

    return reads


@pytest.fixture
def faults(read: Read) -> Faults:
    """The problems of a text that can't be read."""

    def of(text: str | bytes, *, head: bool = True, **others: str) -> tuple[Problem, ...]:
        with pytest.raises(ReadingError) as caught:
            read(text, head=head, **others)
        return caught.value.problems

    return of


def at(problem: Problem) -> tuple[int, int]:
    """Line and column of a problem."""
    return problem.mark.line, problem.mark.column
