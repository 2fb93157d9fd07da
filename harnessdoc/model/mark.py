"""Where in a file a thing was written. A mark is never compared: two harnesses that say the same are equal."""

from __future__ import annotations

from typing import NamedTuple


class Mark(NamedTuple):
    """A place in a file: its path as printed, line and column, both counted from 1."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


NOWHERE = Mark("(made by a program)", 1, 1)
