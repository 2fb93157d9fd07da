"""The colour of a fuse's body by its style and rating, as ISO 8820-3 and DIN 72581-3 are quoted on public pages."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from harnessdoc.tables.figures import deciding, rows
from harnessdoc.tables.fuses import TYPES


class BodyColour(NamedTuple):
    """Colours in words: more than one where pages differ, none where none is printed. `source`: of the first."""

    words: tuple[str, ...] = ()
    source: str = ""

    @property
    def text(self) -> str:
        """As printed: `red`, `brown or tan`, "" where none is known."""
        return " or ".join(self.words)


@lru_cache(maxsize=256)
def body_colour(style: str | None, rating_a: float | None) -> BodyColour:
    """Return the colour of a fuse of that style ("mini", "blade", "maxi") and rating in A; nothing for any other.

    Rows that are only remembered don't count: those ratings have no colour here."""
    kind = TYPES.get(style or "")
    found = [row for row in deciding("fuse_colours") if row["fuse_type"] == kind and float(row["rating_a"]) == rating_a]
    words = tuple(dict.fromkeys(row["colour"] for row in found))
    return BodyColour(words, found[0]["source"]) if found else BodyColour()


def coloured(style: str | None) -> bool:
    """Whether fuses of a style have colours by rating at all."""
    return any(row["fuse_type"] == TYPES.get(style or "") for row in rows("fuse_colours"))
