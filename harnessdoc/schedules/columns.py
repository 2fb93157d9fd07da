"""How wide each column of a table is made so that rows take the fewest lines. Knows words' widths in mm, no list."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.sheet.grid import PAD_MM, SLEEVE_MM, TEXT_MM
from harnessdoc.sheet.lettering import clean, text_width_mm

LONGEST_WORD_MM: Final = 30.0  # own choice: a longer word is cut
MOST_LOOKED_AT: Final = 120  # own choice: of so many rows, evenly taken, the lines are counted
_STEPS_MM: Final = (1.5, 3.0, 6.0, 12.0, 20.0)
_SPARE_MM: Final = 2 * PAD_MM + 0.5


@dataclass(frozen=True, slots=True)
class Words:
    """A cell's words by their widths, mm. `band_mm`: what a colour's band takes of the width."""

    widths_mm: tuple[float, ...]
    band_mm: float = 0.0

    def lines(self, width_mm: float) -> int:
        """How many lines the cell takes in a column of that width."""
        room, lines, filled = width_mm - _SPARE_MM - self.band_mm, 1, -_BLANK_MM
        for word in self.widths_mm:
            if filled + _BLANK_MM + word <= room or filled < 0:
                filled += _BLANK_MM + word
            else:
                lines, filled = lines + 1, word
        return lines


def words_of(text: str, coloured: bool = False, bold: bool = False) -> Words:
    """The words of a text; of one behind a colour's band with `coloured`."""
    band = SLEEVE_MM[0] + PAD_MM if coloured else 0.0
    return Words(tuple(text_width_mm(word, TEXT_MM, bold) for word in clean(text).split(" ")), band)


_BLANK_MM: Final = text_width_mm("a a", TEXT_MM, True) - 2 * text_width_mm("a", TEXT_MM, True)


def least_mm(column: Sequence[Words]) -> float:
    """The least width of a column, its heading among its cells: no word is cut but a very long one."""
    longest = (min(LONGEST_WORD_MM, max(cell.widths_mm)) + cell.band_mm for cell in column)
    return max(longest, default=0.0) + _SPARE_MM


def share_out(columns: Sequence[Sequence[Words]], room_mm: float) -> list[float]:
    """The widths of columns (each its heading and its cells), adding up to the room.

    From the least widths on, each step widens the column that saves the most lines for its millimetres. Where even
    the least is too much, all give way in proportion; what nobody needs goes to all in proportion."""
    widths = [least_mm(column) for column in columns]
    spare = room_mm - sum(widths)
    if spare > 0:
        rows = _sampled(columns)
        lines = [[cell.lines(width) for cell, width in zip(row, widths, strict=True)] for row in rows]
        while (step := _best_step(rows, lines, widths, spare)) is not None:
            index, more = step
            widths[index] += more
            spare -= more
            for row, counts in zip(rows, lines, strict=True):
                counts[index] = row[index].lines(widths[index])
    total = sum(widths)
    return [width * room_mm / total for width in widths]


def _sampled(columns: Sequence[Sequence[Words]]) -> list[tuple[Words, ...]]:
    rows = list(zip(*columns, strict=True))
    return rows[:: max(1, len(rows) // MOST_LOOKED_AT)]


def _best_step(
    rows: Sequence[tuple[Words, ...]], lines: Sequence[Sequence[int]], widths: Sequence[float], spare: float
) -> tuple[int, float] | None:
    """The column and by how much; None where no step saves a line.

    Only the tallest cells of a row count; where several are as tall each is given its share of what all save."""
    best: tuple[float, int, float] | None = None
    heights = [sorted(set(counts), reverse=True) for counts in lines]
    for index, width in enumerate(widths):
        tall = [
            (row[index], high[0], high[1] if len(high) > 1 else 1, counts.count(high[0]))
            for row, counts, high in zip(rows, lines, heights, strict=True)
            if counts[index] == high[0] > 1
        ]
        for step in _STEPS_MM if tall else ():
            if step > spare:
                break
            saved = sum((now - max(next_, cell.lines(width + step))) / ties for cell, now, next_, ties in tall)
            if saved > 0 and (best is None or saved / step > best[0] + 1e-9):
                best = (saved / step, index, step)
    return best[1:] if best else None
