"""Where the words and the symbol go on one printed face: pure millimetres from its own top left corner, y down.

The number is the largest and the last to be shortened; no text is made smaller than the heights given, and the
symbol's modules never smaller than `dots` allows. Knows nothing of sheets, wires or what the words mean.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final, NamedTuple

from harnessdoc.labels.dots import dot_mm, least_dots, module_dots
from harnessdoc.labels.flow import LOST, Flow, flow, lost_for_certain, wide
from harnessdoc.labels.heights import BAR, DROP, SIZES_MM, Heights, drop, rise
from harnessdoc.labels.label import Field
from harnessdoc.sheet import lettering
from harnessdoc.sheet.marks import Rect

_LOOSE: Final = 0.55  # own choice: lines are never spread further apart than this much more
_COLUMN_SHARE: Final = 0.45  # own choice: share of the width that words keep beside a symbol larger than the least
_GAP_MM: Final = 1.5  # own choice: between the number and what stands beside it
_COLUMN_MM: Final = 5.0  # own choice: what is narrower holds no row
# Own choice, in the costs of `flow`.
_NO_SYMBOL, _NUMBER_CUT, _NUMBER_BROKEN, _NO_CAPTION = 15 * LOST, 1000 * LOST, 4, 40
_SEPARATORS: Final = re.compile(r"(?<=[ .:_/-])")


@dataclass(frozen=True, slots=True)
class Line:
    """One line of text: where its base line starts, mm; capitals `height_mm` tall."""

    x: float
    y: float
    text: str
    height_mm: float
    bold: bool = False


@dataclass(frozen=True, slots=True)
class Place:
    """The square kept for a symbol and its quiet zone: top left corner and side in mm, dots a module."""

    x: float
    y: float
    side_mm: float
    dots: int


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


class Wanted(NamedTuple):
    """What a face should say. `caption`: a line that stands under the symbol; `bar`: one is drawn under the number.

    `whole`: texts are left out rather than shortened.
    """

    number: str
    fields: tuple[Field, ...]
    bar: bool = False
    caption: str = ""
    whole: bool = False


class _Band(NamedTuple):
    """A part of the face where rows stand one under another. `numbered`: the first of them is the number."""

    x: float
    top: float
    width: float
    bottom: float
    numbered: bool = False


class _Plan(NamedTuple):
    """Bands from the most wanted on, and where the symbol goes. `beside`: a first row stands at the number's right."""

    bands: tuple[_Band, ...]
    place: Place | None = None
    beside: bool = False


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
    symbol's modules along a side with its quiet zone, None for no symbol. `sizes`: heights tried, the largest first.
    `must`: better any text left out than the symbol, and none cut. The symbol's place leaves room for moving it by
    less than one dot right or down.
    """
    face = _Face(Wanted(number, tuple(body), bar, caption if modules else "", must), width_mm, height_mm, modules, dpi)
    best: Arrangement | None = None
    for together in face.candidates(tuple(sizes), must):
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
    """One face to be filled."""

    def __init__(self, wanted: Wanted, width: float, height: float, modules: int | None, dpi: int) -> None:
        self.wanted = wanted
        self.width, self.height = width, height
        self.modules, self.dpi = modules, dpi
        self.number_wide = wide(wanted.number, True)
        self.caption_mm = 0.0
        self.rise = max((rise(field.full) for field in wanted.fields), default=rise(""))

    def candidates(self, sizes: tuple[Heights, ...], must: bool) -> Iterator[Iterator[Arrangement | None]]:
        """Every arrangement that is tried, by heights of text, the tallest first; those without the symbol last."""
        fitting = [one for one in sizes if self._holds(one)] or [self._squeezed(sizes[-1])]
        self.caption_mm = sizes[-1].body_mm
        missing = 0
        if self.modules is not None:
            for one in fitting:
                yield (self._set(plan, one, one is fitting[-1]) for plan in self._with_symbol(one))
            missing = _NO_SYMBOL * (1000 if must else 1)
        for one in fitting:
            yield (self._set(plan, one, one is fitting[-1], missing) for plan in self._without(one))

    def _holds(self, heights: Heights) -> bool:
        """Whether the number goes on one line at this height."""
        return self.number_wide * heights.number_mm <= self.width + 1e-9 and self._number_mm(heights) <= self.height

    def _squeezed(self, heights: Heights) -> Heights:
        """The least heights, the number lower where the face is too low for it, but never below the other texts."""
        tallest = self.height / (self._number_mm(heights) / heights.number_mm)
        return heights._replace(number_mm=max(heights.body_mm, min(heights.number_mm, tallest)))

    def _number_mm(self, heights: Heights) -> float:
        """Height that the number takes, its bar included."""
        number = self.wanted.number
        return (rise(number) + (BAR.bottom(number) if self.wanted.bar else drop(number))) * heights.number_mm

    # --- plans

    def _without(self, heights: Heights) -> Iterator[_Plan]:
        whole = _Band(0.0, 0.0, self.width, self.height, numbered=True)
        yield _Plan((whole,))
        yield _Plan((whole,), beside=True)
        x = self.number_wide * heights.number_mm + _GAP_MM
        if self.width - x > _COLUMN_MM:
            left = _Band(0.0, 0.0, x - _GAP_MM, self._number_mm(heights) + 1e-6, numbered=True)
            yield _Plan((left, _Band(x, 0.0, self.width - x, self.height)))

    def _with_symbol(self, heights: Heights) -> Iterator[_Plan]:
        """The symbol stands right: at the top, rows of full width below; or at the bottom, rows of full width above."""
        for side, dots in self._sides(heights):
            slack = dot_mm(self.dpi)
            column = self.width - side - slack
            x = self.width - side - slack
            low = self.height - side - slack
            if self._number_mm(heights) <= low:
                above = _Band(0.0, 0.0, self.width, low, numbered=True)
                beside = (_Band(0.0, low, column, self.height),) if column > _COLUMN_MM else ()
                bottom = _Plan((above, *beside), Place(x, low, side, dots))
            else:
                bottom = None
            if self.number_wide * heights.number_mm <= column:
                foot = max(side + slack, self._number_mm(heights))
                has_foot = self.height - foot >= (self.rise + DROP) * heights.body_mm
                first = _Band(0.0, 0.0, column, foot if has_foot else self.height, numbered=True)
                below = (_Band(0.0, foot, self.width, self.height),) if has_foot else ()
                top = Place(x, 0.0, side, dots)
                yield _Plan((first, *below), top)
                if bottom is not None:
                    yield bottom
                yield _Plan((first, *below), top, beside=True)
            elif bottom is not None:
                yield bottom
            if bottom is not None:
                yield bottom._replace(beside=True)

    def _sides(self, heights: Heights) -> list[tuple[float, int]]:
        """Sides of the symbol to try, mm with dots a module: as large as is well, with room for its caption, least."""
        if self.modules is None:
            return []
        dot, least = dot_mm(self.dpi), least_dots(self.dpi)
        slack = dot
        line = (rise(self.wanted.caption) + DROP) * self.caption_mm if self.wanted.caption else 0.0
        wide_room = self.width * (1 - _COLUMN_SHARE) - slack
        rooms = (min(self.height - slack, wide_room), min(self.height - slack - line, wide_room))
        tried = [module_dots(self.modules, room, self.dpi) for room in rooms]
        if self.modules * least * dot + slack <= min(self.width, self.height) + 1e-9:
            tried.append(least)
        found = list(dict.fromkeys(one for one in tried if one is not None))
        return [(self.modules * dots * dot, dots) for dots in found]

    # --- setting

    def _set(self, plan: _Plan, heights: Heights, anyhow: bool, missing: int = 0) -> Arrangement | None:
        """Let the fields flow into the rows that the plan's bands hold, and place what came out.

        None where texts would surely be lost, unless `anyhow`.
        """
        numbers, cut, cost = self._number_lines(plan.bands[0].width, heights)
        taken = self._number_mm(heights) * len(numbers)
        pitch = (self.rise + DROP) * heights.body_mm
        rows: list[tuple[int, float]] = []  # band, width in heights
        room = plan.bands[0].width - self.number_wide * heights.number_mm - _GAP_MM
        beside = plan.beside and len(numbers) == 1 and room > _COLUMN_MM
        if plan.beside and beside:
            rows.append((-1, room / heights.body_mm))
        for index, band in enumerate(plan.bands):
            high = band.bottom - band.top - (taken if band.numbered else 0.0)
            count = max(0, int(high / pitch + 1e-9))
            rows += [(index, band.width / heights.body_mm)] * count
        widths = [width for _, width in rows]
        if not anyhow and (cut or lost_for_certain(self.wanted.fields, widths)):
            return None
        found = flow(self.wanted.fields, widths, self.wanted.whole)
        if not anyhow and found.cost >= LOST:
            return None
        lines, bars = self._placed(plan, heights, numbers, [band for band, _ in rows], found)
        caption = self._caption(plan.place, lines)
        cost += missing + found.cost + (_NO_CAPTION if self.wanted.caption and caption is None and plan.place else 0)
        shortened = (*((self.wanted.number,) if cut else ()), *found.shortened)
        lines += [caption] if caption else []
        return Arrangement(tuple(lines), plan.place, shortened, found.left_out, tuple(bars), cut, cost)

    def _number_lines(self, width: float, heights: Heights) -> tuple[list[str], bool, int]:
        """The number on one line; broken at a separator; or shortened: (lines, whether it was, cost)."""
        number = self.wanted.number
        room = width / heights.number_mm
        if self.number_wide <= room + 1e-9:
            return [number], False, 0
        parts = _SEPARATORS.split(number)
        for at in range(len(parts) - 1, 0, -1):
            lines = ["".join(parts[:at]).rstrip(), "".join(parts[at:])]
            if all(lines) and max(wide(one, True) for one in lines) <= room + 1e-9:
                if 2 * self._number_mm(heights) <= self.height:
                    return lines, False, _NUMBER_BROKEN
                break
        return [lettering.fit(number, width, heights.number_mm, bold=True)], True, _NUMBER_CUT

    def _placed(
        self, plan: _Plan, heights: Heights, numbers: list[str], bands: list[int], found: Flow
    ) -> tuple[list[Line], list[Rect]]:
        """Give every row its base line: spread over its band, but not torn apart."""
        used = {piece.row for piece in found.pieces}
        base: dict[int, float] = {}
        heads: list[float] = []
        for index, band in enumerate(plan.bands):
            own = [row for row in range(len(bands)) if bands[row] == index and row in used]
            bottom = band.bottom
            if index == 0 and len(plan.bands) > 1 and plan.place and not plan.place.y and not _later(bands, used):
                bottom = self.height  # nothing stands below: take it all
            ups, downs = self._steps(heights, numbers if band.numbered else [], own)
            tall = sum(ups) + sum(downs)
            gap = min((bottom - band.top - tall) / max(1, len(ups) - 1), _LOOSE * heights.body_mm)
            y = band.top
            for at, (up, down) in enumerate(zip(ups, downs, strict=True)):
                y += up
                if band.numbered and at < len(numbers):
                    heads.append(y)
                else:
                    base[own[at - (len(numbers) if band.numbered else 0)]] = y
                y += down + max(0.0, gap)
        if len(plan.bands) > 1 and plan.bands[1].top == 0.0:  # a number beside its rows: on the middle of them
            heads = [min(heads[0] + max(0.0, (self.height - self._number_mm(heights)) / 2), self.height)]
        number_x = 0.0
        lines = [
            Line(number_x, y, text, heights.number_mm, True) for y, text in zip(heads, numbers, strict=True) if text
        ]
        bars = [BAR.under(line) for line in lines] if self.wanted.bar else []
        beside_x = self.number_wide * heights.number_mm + _GAP_MM
        for piece in found.pieces:
            at = bands[piece.row]
            x, y = (beside_x, heads[0]) if at < 0 else (plan.bands[at].x, base[piece.row])
            lines.append(Line(x + piece.x * heights.body_mm, y, piece.text, heights.body_mm, piece.bold))
        return lines, bars

    def _steps(self, heights: Heights, numbers: list[str], own: list[int]) -> tuple[list[float], list[float]]:
        """How far each row of a band reaches over and under its base line."""
        number = self.wanted.number
        under = BAR.bottom(number) if self.wanted.bar else drop(number)
        ups = [rise(number) * heights.number_mm] * len(numbers) + [self.rise * heights.body_mm] * len(own)
        downs = [under * heights.number_mm] * len(numbers) + [DROP * heights.body_mm] * len(own)
        return ups, downs

    def _caption(self, place: Place | None, lines: Sequence[Line]) -> Line | None:
        """The line under the symbol, where nothing stands there yet."""
        text = self.wanted.caption
        if not text or place is None:
            return None
        size = self.caption_mm
        width = lettering.text_width_mm(text, size)
        top = place.y + place.side_mm + dot_mm(self.dpi)
        y = top + rise(text) * size
        if width > place.side_mm or y + drop(text) * size > self.height + 1e-9:
            return None
        x = place.x + (place.side_mm - width) / 2
        for line in lines:
            right = line.x + lettering.text_width_mm(line.text, line.height_mm, line.bold)
            under = line.y + (BAR.bottom(line.text) if line.bold and self.wanted.bar else DROP) * line.height_mm
            if right > x - _GAP_MM / 2 and under > top:
                return None
        return Line(x, y, text, size)


def _later(bands: Sequence[int], used: set[int]) -> bool:
    """Whether a row of a band after the first is used."""
    return any(bands[row] > 0 for row in used)
