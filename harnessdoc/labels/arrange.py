"""Where the words and the symbol go on one printed face: pure millimetres from its own top left corner, y down.

The number is the largest and the last to be shortened; no text is made smaller than the heights given, and the
symbol's modules never smaller than `dots` allows. Knows nothing of sheets, wires or what the words mean.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.labels.flow import LOST, flow, lost_for_certain, wide
from harnessdoc.labels.heights import DROP, SIZES_MM, Heights, drop, rise
from harnessdoc.labels.label import Field
from harnessdoc.labels.plans import COLUMN_MM, GAP_MM, Measures, Place, Plan, with_symbol, without_symbol
from harnessdoc.labels.rows import OVER_MM, Line, Number, Rows, place_rows
from harnessdoc.sheet import lettering
from harnessdoc.sheet.marks import Rect

__all__ = ["Arrangement", "Line", "Place", "arrange"]

# Own choice, in the costs of `flow`.
_NO_SYMBOL, _NUMBER_CUT, _NUMBER_BROKEN, _NO_CAPTION = 15 * LOST, 1000 * LOST, 4, 40
_MUST = 1000  # times _NO_SYMBOL
_SEPARATORS: Final = re.compile(r"(?<=[ .:_/-])")


@dataclass(frozen=True, slots=True)
class Arrangement:
    """What is drawn; `lines` begins with the number. `bars`: under the number, filled. `cost`: 0 where all is well.

    `shortened`: the texts that lost letters; `left_out`: those that found no line.
    """

    lines: tuple[Line, ...]
    place: Place | None
    shortened: tuple[str, ...] = ()
    left_out: tuple[str, ...] = ()
    bars: tuple[Rect, ...] = ()
    number_cut: bool = False
    cost: int = 0

    @property
    def loses(self) -> bool:
        """Whether anything is missing on it."""
        return self.cost >= LOST


def arrange(
    number: str,
    body: Sequence[Field],
    width_mm: float,
    height_mm: float,
    modules: int | None,
    dpi: int,
    *,
    bar: bool = False,
    caption: str = "",
    sizes: Sequence[Heights] = SIZES_MM,
    must: bool = False,
) -> Arrangement:
    """Return the best arrangement on a face of this size.

    `number` and fields are clean texts (`sheet.lettering.clean`), none empty. `body`: most wanted first. `modules`: a
    symbol's modules along a side with its quiet zone, None for no symbol. `bar`: one is drawn under the number.
    `caption`: a line that stands under the symbol where there is room. `sizes`: heights tried, the largest first.
    `must`: better any text left out than the symbol, and none cut. The symbol's place leaves room for moving it by
    less than one dot right or down.
    """
    face = _Face(number, tuple(body), width_mm, height_mm, modules, dpi)
    face.bar, face.caption, face.whole = bar, caption if modules else "", must
    best: Arrangement | None = None
    for together in face.candidates(tuple(sizes)):
        for found in filter(None, together):
            if best is None or found.cost < best.cost:
                best = found
                if not best.cost:
                    return best
        if best is not None and not best.loses:
            return best
    assert best is not None  # the arrangement without a symbol is always among the candidates
    return best


class _Face:
    """One face to be filled. `whole`: texts are left out rather than cut."""

    def __init__(
        self, number: str, fields: tuple[Field, ...], width: float, height: float, modules: int | None, dpi: int
    ) -> None:
        self.number, self.fields = number, fields
        self.width, self.height = width, height
        self.modules, self.dpi = modules, dpi
        self.bar, self.caption, self.whole = False, "", False
        self.caption_mm = 0.0
        self.rise = max((rise(field.full) for field in fields), default=rise(""))
        self.drop = max((drop(field.full) for field in fields), default=0.0)

    def candidates(self, sizes: tuple[Heights, ...]) -> Iterator[Iterator[Arrangement | None]]:
        """Every arrangement that is tried, by heights of text, the tallest first; those without the symbol last."""
        fitting = [one for one in sizes if self._holds(one)] or [self._squeezed(sizes[-1])]
        self.caption_mm = sizes[-1].body_mm
        caption_high = (rise(self.caption) + DROP) * self.caption_mm if self.caption else 0.0
        missing = 0
        if self.modules is not None:
            for one in fitting:
                plans = with_symbol(self._measures(one), self.modules, self.dpi, caption_high)
                yield (self._set(plan, one, one is fitting[-1]) for plan in plans)
            missing = _NO_SYMBOL * (_MUST if self.whole else 1)
        for one in fitting:
            plans = without_symbol(self._measures(one))
            yield (self._set(plan, one, one is fitting[-1], missing) for plan in plans)

    def _holds(self, heights: Heights) -> bool:
        """Whether the number goes on one line at this height."""
        wide_mm = wide(self.number, True) * heights.number_mm
        return wide_mm <= self.width + 1e-9 and self._head(heights).high <= self.height

    def _squeezed(self, heights: Heights) -> Heights:
        """The least heights, the number lower where the face is too low for it, but never below the other texts."""
        tallest = self.height / (self._head(heights).high / heights.number_mm)
        return heights._replace(number_mm=max(heights.body_mm, min(heights.number_mm, tallest)))

    def _head(self, heights: Heights, beside: bool = False) -> Number:
        """The number at a height; `beside`: with a text on its line."""
        extra = (self.rise * heights.body_mm, self.drop * heights.body_mm) if beside else (0.0, 0.0)
        return Number((self.number,), heights.number_mm, self.bar, *extra)

    def _measures(self, heights: Heights) -> Measures:
        return Measures(
            self.width,
            self.height,
            wide(self.number, True) * heights.number_mm,
            self._head(heights).high,
            self._head(heights, beside=True).high,
            (self.rise + DROP) * heights.body_mm,
        )

    def _set(self, plan: Plan, heights: Heights, anyhow: bool, missing: int = 0) -> Arrangement | None:
        """Let the fields flow into the rows that the plan's bands hold, and place what came out.

        None where texts would surely be lost, unless `anyhow`.
        """
        texts, cut, cost = self._number_lines(plan.bands[0].width, heights)
        room = plan.bands[0].width - wide(self.number, True) * heights.number_mm - GAP_MM
        beside = plan.beside and len(texts) == 1 and not cut and room > COLUMN_MM
        head = self._head(heights, beside)._replace(texts=tuple(texts))
        if plan.beside and (not beside or head.high > plan.bands[0].bottom + OVER_MM):
            return None
        rows = self._rows(plan, heights, head, room if beside else 0.0)
        if not anyhow and (cut or lost_for_certain(self.fields, rows.widths)):
            return None
        found = flow(self.fields, rows.widths, self.whole)
        if not anyhow and found.cost >= LOST:
            return None
        lines, bars = place_rows(plan, head, rows, found, self.height)
        caption = self._caption(plan.place, lines)
        cost += missing + found.cost + (_NO_CAPTION if self.caption and caption is None and plan.place else 0)
        shortened = (*((self.number,) if cut else ()), *found.shortened)
        lines += [caption] if caption else []
        return Arrangement(tuple(lines), plan.place, shortened, found.left_out, tuple(bars), cut, cost)

    def _rows(self, plan: Plan, heights: Heights, head: Number, beside_room: float) -> Rows:
        """As many rows as the bands hold; first the one beside the number, if there is one."""
        pitch = (self.rise + DROP) * heights.body_mm
        bands, widths = ([-1], [beside_room / heights.body_mm]) if beside_room else ([], [])
        for index, band in enumerate(plan.bands):
            if plan.apart and band.numbered:
                continue
            high = band.bottom - band.top - (head.high if band.numbered else 0.0)
            count = max(0, int(high / pitch + 1e-9))
            bands += [index] * count
            widths += [band.width / heights.body_mm] * count
        return Rows(tuple(bands), tuple(widths), heights.body_mm, self.rise * heights.body_mm)

    def _number_lines(self, width: float, heights: Heights) -> tuple[list[str], bool, int]:
        """The number on one line; broken at a separator; or shortened: (lines, whether it was, cost)."""
        room = width / heights.number_mm
        if wide(self.number, True) <= room + 1e-9:
            return [self.number], False, 0
        parts = _SEPARATORS.split(self.number)
        for at in range(len(parts) - 1, 0, -1):
            lines = ["".join(parts[:at]).rstrip(), "".join(parts[at:])]
            if all(lines) and max(wide(one, True) for one in lines) <= room + 1e-9:
                if 2 * self._head(heights).high <= self.height:
                    return lines, False, _NUMBER_BROKEN
                break
        return [lettering.fit(self.number, width, heights.number_mm, bold=True)], True, _NUMBER_CUT

    def _caption(self, place: Place | None, lines: Sequence[Line]) -> Line | None:
        """The line under the symbol, where nothing stands there yet."""
        text, size = self.caption, self.caption_mm
        if not text or place is None:
            return None
        width = lettering.text_width_mm(text, size)
        top = place.y + place.side_mm + 25.4 / self.dpi
        y = top + rise(text) * size
        if width > place.side_mm or y + drop(text) * size > self.height + 1e-9:
            return None
        x = place.x + (place.side_mm - width) / 2
        for line in lines:
            right = line.x + lettering.text_width_mm(line.text, line.height_mm, line.bold)
            if right > x - GAP_MM / 2 and line.y + DROP * line.height_mm > top:
                return None
        return Line(x, y, text, size)
