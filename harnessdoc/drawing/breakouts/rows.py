"""Rows of leads under each other, one a wire's end, and the words that stand beside what they end on.

Heights and places only; what they end on is drawn by `items`, `cells` and `joints`."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.drawing.breakouts.leads import Lead
from harnessdoc.drawing.breakouts.ruler import LINE_UP_MM, Ruler
from harnessdoc.sheet import lettering
from harnessdoc.sheet.grid import STEP_MM, TEXT_MM, shortened
from harnessdoc.sheet.page import Page

BARE_MM: Final = 5.0
"""Height of a terminal's row that no wire ends on."""
AFTER_MM: Final = 3.0
"""White under a figure."""
_FIRST_MM: Final = 6.6  # of a figure's first row: a terminal's name stands clear of the outline
NAME_MM: Final = 3.5
_WORDS_UP_MM: Final = 5.2  # from a figure's top to the base line of its designation
_MOST_TITLE: Final = 4


@dataclass(frozen=True, slots=True)
class Slot:
    """A terminal and the leads that end on it."""

    terminal: str
    leads: tuple[Lead, ...] = ()


@dataclass(frozen=True, slots=True)
class Row:
    """One lead (None: a terminal without one) of a slot; `foot_mm`: its lower edge from the figure's top."""

    slot: int
    lead: Lead | None
    height_mm: float
    foot_mm: float

    @property
    def line_mm(self) -> float:
        """The wire's height, from the figure's top."""
        return self.foot_mm - LINE_UP_MM


def rows_of(slots: Sequence[Slot], ruler: Ruler, least_mm: float = 0.0) -> tuple[Row, ...]:
    """Return the rows of all slots under each other, each at least so high."""
    rows: list[Row] = []
    foot = 0.0
    for index, slot in enumerate(slots):
        for lead in slot.leads or (None,):
            height = max(ruler.row_mm(lead) if lead else BARE_MM, least_mm, 0.0 if rows else _FIRST_MM)
            foot += height
            rows.append(Row(index, lead, height, foot))
    return tuple(rows)


@dataclass(frozen=True, slots=True)
class Words:
    """A designation with its figures beside it, and lines of text under both."""

    name: str
    facts: str
    lines: tuple[str, ...]

    @property
    def height_mm(self) -> float:
        """Height with a little white under it, mm."""
        return _WORDS_UP_MM + STEP_MM * len(self.lines) + 1.2

    def draw(self, page: Page, x: float, y: float) -> None:
        """Draw with the figure's top at y and the words' left edge at x."""
        base = y + _WORDS_UP_MM
        width = page.text(x, base, self.name, NAME_MM, bold=True)
        page.text(x + width + 2, base, self.facts, TEXT_MM)
        page.lines(x, base + STEP_MM, self.lines, TEXT_MM)


def words_in(room_mm: float, name: str, facts: str, texts: Sequence[str]) -> Words:
    """Return words for a room of that width: a long name goes on in the lines, what is too long is shortened by …"""
    shown = lettering.fit(name, room_mm, NAME_MM, True)
    lines = [] if shown == name else shortened(name, room_mm, True, _MOST_TITLE)
    left = room_mm - lettering.text_width_mm(shown, NAME_MM, True) - 2
    beside = lettering.text_width_mm(facts, TEXT_MM) <= left
    if facts and not beside:
        lines += shortened(facts, room_mm, most=2)
    for text in filter(None, texts):
        lines += shortened(text, room_mm, most=_MOST_TITLE)
    return Words(shown, facts if beside else "", tuple(lines))
