"""Points, the nodes of the harness: one terminal of one item, written ITEM:TERMINAL as IEC 61666 writes it."""

from __future__ import annotations

from typing import NamedTuple


class PointError(ValueError):
    """A text that names no point; the message says how one is written."""


class Point(NamedTuple):
    """One terminal of an item, one cavity of a plug, or (with an empty terminal) a splice or an earth point."""

    owner: str
    terminal: str = ""

    def __str__(self) -> str:
        return f"{self.owner}:{self.terminal}" if self.terminal else self.owner


CHASSIS = Point("chassis")


def parse_point(text: str) -> Point:
    """Read `X4:3`, `J5` or `chassis`. The first colon parts item and terminal. Raises PointError."""
    owner, colon, terminal = text.strip().partition(":")
    owner, terminal = owner.strip(), terminal.strip()
    if not owner or (colon and not terminal):
        raise PointError(f"{text!r} is no point; write ITEM:TERMINAL, as in X4:3, or a splice's name, as in J5")
    return Point(owner, terminal)
