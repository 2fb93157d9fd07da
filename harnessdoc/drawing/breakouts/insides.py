"""What joins the terminals inside an item, drawn between their rows at rest: fuse, contact, coil, lamp, motor ...

Shapes after IEC 60617, from memory of its basic shapes, turned upright; a moving contact is drawn at rest and joined
to its coil by a dashed line. Knows kinds and their inner paths, no wires."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from harnessdoc.model.kinds.base import InnerPath, Kind, Nature
from harnessdoc.model.kinds.relays import AT_REST, Relay, RelayBoard
from harnessdoc.model.kinds.switches import Switch
from harnessdoc.sheet.page import BLACK, WHITE, Page

LANE_MM: Final = 6.4
"""Room for one path beside another."""
HALF_MM: Final = 2.4
"""How far a path's shape reaches to either side."""
_LINE_MM: Final = 0.35
_MOST_LANES: Final = 4
_SHOWN: Final = frozenset(
    {"switch", "fuse", "breaker", "relay", "relay board", "load", "motor", "lamp", "resistor", "diode",
     "potentiometer", "battery", "source"}
)  # fmt: skip
_LETTERS: Final = {"motor": "M", "source": "G"}


@dataclass(frozen=True, slots=True)
class Inside:
    """The paths of one item with the lane of each, counted from the terminals."""

    kind: Kind
    paths: tuple[tuple[InnerPath, int], ...]

    @property
    def lanes(self) -> int:
        """How many lanes are taken."""
        return max((lane for _, lane in self.paths), default=-1) + 1

    def draw(self, page: Page, edge: float, first: float, rows: Mapping[str, float]) -> None:
        """Draw all paths: leads from the item's edge, the first lane at x `first`; `rows`: y of each terminal."""
        for terminal, y in rows.items():
            if terminal == "2" and self.kind.name == "potentiometer":
                continue  # its wiper ends in an arrow
            reach = [lane for path, lane in self.paths if terminal in (path.a, path.b)]
            if reach:
                page.line(edge, y, first + max(reach) * LANE_MM, y, stroke_mm=_LINE_MM)
                for lane in sorted(set(reach)):
                    if lane < max(reach) or reach.count(lane) > 1:
                        page.circle(first + lane * LANE_MM, y, 0.6, fill=BLACK, stroke="none")
        if self.kind.name == "potentiometer":
            _potentiometer(page, edge, first, list(rows.values()))
            return
        for path, lane in self.paths:
            self._draw_path(page, path, first + lane * LANE_MM, rows)
        self._draw_link(page, first, rows)

    def _draw_path(self, page: Page, path: InnerPath, x: float, rows: Mapping[str, float]) -> None:
        top, bottom = sorted((path.a, path.b), key=rows.__getitem__)
        y1, y2, middle = rows[top], rows[bottom], _middle(path, rows)
        if path.nature is Nature.CONTACT:
            moving_below = path.a == bottom
            _contact(page, x, y1, y2, middle, moving_below, self._closed_at_rest(path))
        elif path.nature is Nature.PROTECTED:
            (_breaker if self.kind.name == "breaker" else _fuse)(page, x, y1, y2, middle)
        else:
            _loaded(page, self.kind.name, x, y1, y2, middle, path.a == top)

    def _closed_at_rest(self, path: InnerPath) -> bool:
        rest = self.kind.rest if isinstance(self.kind, Switch) else AT_REST
        return rest in path.closed

    def _draw_link(self, page: Page, first: float, rows: Mapping[str, float]) -> None:
        """The dashed line from a coil or an input to the contacts that it moves."""
        if not isinstance(self.kind, Relay | RelayBoard):
            return
        coil = [found for found in self.paths if found[0].nature is Nature.LOADED][-1:]
        moved = [found for found in self.paths if found[0].nature is Nature.CONTACT]
        if not coil or not moved:
            return
        (path, lane), right = coil[0], first + (self.lanes - 1) * LANE_MM + HALF_MM + 0.8
        y, last = _middle(path, rows), max(_middle(found[0], rows) for found in moved)
        dash = (1.0, 0.7)
        start = (first + lane * LANE_MM + 1.6, y)
        ends = [(first + at * LANE_MM + 0.4, _middle(found, rows)) for found, at in moved]
        page.polyline([start, (right, y), (right, last)], stroke_mm=0.25, dash=dash)
        for x, level in ends:
            page.line(right, level, x, level, stroke_mm=0.25, dash=dash)


def inside_of(kind: Kind) -> Inside | None:
    """Return what is drawn inside an item of that kind; None where its symbol in an outline says more."""
    paths = kind.paths()
    if kind.name not in _SHOWN or not paths:
        return None
    order = {terminal: index for index, terminal in enumerate(in_order(kind))}
    taken: list[list[tuple[int, int]]] = []
    placed = []
    for path in paths:
        low, high = sorted((order[path.a], order[path.b]))
        lane = next((n for n, spans in enumerate(taken) if all(high <= a or low >= b for a, b in spans)), len(taken))
        if lane == len(taken):
            taken.append([])
        taken[lane].append((low, high))
        placed.append((path, lane))
    return Inside(kind, tuple(placed)) if len(taken) <= _MOST_LANES else None


def in_order(kind: Kind) -> tuple[str, ...]:
    """Return the terminals so that those that a path joins lie near each other."""
    along = (terminal for path in kind.paths() for terminal in (path.a, path.b))
    names = dict.fromkeys((*along, *kind.terminals()))
    known = frozenset(kind.terminals())
    return tuple(name for name in names if name in known)


def _middle(path: InnerPath, rows: Mapping[str, float]) -> float:
    """Where a path's shape stands: beside the terminal that is its own, when another lies between the two."""
    a, b = rows[path.a], rows[path.b]
    between = [y for y in rows.values() if min(a, b) < y < max(a, b)]
    near = max(between) if between and b > a else min(between) if between else a
    return (near + b) / 2


def _contact(page: Page, x: float, y1: float, y2: float, middle: float, below: bool, closed: bool) -> None:
    """`below`: the moving part hangs on the lower terminal."""
    sign = -1 if below else 1  # from the moving part's pivot to its tip
    pivot, tip = middle - sign * 1.5, middle + sign * 1.5
    start, end = (y2, y1) if below else (y1, y2)
    page.line(x, start, x, pivot, stroke_mm=_LINE_MM)
    page.line(x, tip, x, end, stroke_mm=_LINE_MM)
    if closed:
        page.line(x, tip, x + 1.5, tip, stroke_mm=_LINE_MM)
        page.line(x, pivot, x + 1.4, tip + sign * 0.5, stroke_mm=_LINE_MM)
    else:
        page.line(x, pivot, x - 1.5, tip - sign * 0.3, stroke_mm=_LINE_MM)


def _fuse(page: Page, x: float, y1: float, y2: float, middle: float) -> None:
    page.rect(x - 0.9, middle - 2.0, 1.8, 4.0, stroke_mm=_LINE_MM)
    page.line(x, y1, x, y2, stroke_mm=_LINE_MM)


def _breaker(page: Page, x: float, y1: float, y2: float, middle: float) -> None:
    _contact(page, x, y1, y2, middle, below=True, closed=False)
    for lean in (-0.6, 0.6):
        page.line(x - lean, middle - 2.1, x + lean, middle - 0.9, stroke_mm=_LINE_MM)
    page.rect(x - 1.7, middle - 0.4, 1.0, 1.0, fill=WHITE, stroke_mm=_LINE_MM)


def _loaded(page: Page, name: str, x: float, y1: float, y2: float, middle: float, a_on_top: bool) -> None:
    if name in ("lamp", "motor", "source"):
        _leads(page, x, y1, y2, middle, HALF_MM)
        page.circle(x, middle, HALF_MM, fill=WHITE, stroke_mm=_LINE_MM)
        if name == "lamp":
            reach = HALF_MM * 0.7071
            page.line(x - reach, middle - reach, x + reach, middle + reach, stroke_mm=_LINE_MM)
            page.line(x - reach, middle + reach, x + reach, middle - reach, stroke_mm=_LINE_MM)
        else:
            page.text(x, middle + 1.25, _LETTERS[name], 2.5, anchor="middle")
    elif name == "battery":
        _cells(page, x, y1, y2, middle, a_on_top)
    elif name == "diode":
        _diode(page, x, y1, y2, middle, 1 if a_on_top else -1)
    else:
        tall, wide = (2.0, 3.2) if name in ("relay", "relay board") else (3.6, 1.8)
        _leads(page, x, y1, y2, middle, tall / 2)
        page.rect(x - wide / 2, middle - tall / 2, wide, tall, fill=WHITE, stroke_mm=_LINE_MM)
        if name == "load":
            page.line(x - wide / 2, middle + tall / 2, x + wide / 2, middle - tall / 2, stroke_mm=_LINE_MM)


def _potentiometer(page: Page, edge: float, x: float, rows: Sequence[float]) -> None:
    """One resistor from the first row to the last, the wiper's arrow on it from the middle one."""
    _leads(page, x, rows[0], rows[-1], (rows[0] + rows[-1]) / 2, (rows[-1] - rows[0]) / 2 - 1.4)
    page.rect(x - 0.9, rows[0] + 1.4, 1.8, rows[-1] - rows[0] - 2.8, fill=WHITE, stroke_mm=_LINE_MM)
    page.line(edge, rows[1], x - 2.2, rows[1], stroke_mm=_LINE_MM)
    tip = [(x - 2.4, rows[1] - 0.7), (x - 2.4, rows[1] + 0.7), (x - 0.95, rows[1])]
    page.polyline(tip, closed=True, fill=BLACK, stroke="none")


def _cells(page: Page, x: float, y1: float, y2: float, middle: float, plus_on_top: bool) -> None:
    """Two cells: the long thin plate of each towards +."""
    _leads(page, x, y1, y2, middle, 1.6)
    sign = 1 if plus_on_top else -1
    for away in (-1.6, 0.6):
        page.line(x - HALF_MM, middle + sign * away, x + HALF_MM, middle + sign * away, stroke_mm=0.25)
        page.line(x - 1.2, middle + sign * (away + 1.0), x + 1.2, middle + sign * (away + 1.0), stroke_mm=0.7)


def _diode(page: Page, x: float, y1: float, y2: float, middle: float, sign: int) -> None:
    page.line(x, y1, x, y2, stroke_mm=_LINE_MM)
    foot, tip = middle - sign * 1.4, middle + sign * 1.4
    page.polyline([(x - 1.6, foot), (x + 1.6, foot), (x, tip)], closed=True, fill=WHITE, stroke_mm=_LINE_MM)
    page.line(x - 1.6, tip, x + 1.6, tip, stroke_mm=0.5)


def _leads(page: Page, x: float, y1: float, y2: float, middle: float, half: float) -> None:
    for start, end in ((y1, middle - half), (middle + half, y2)):
        page.line(x, start, x, end, stroke_mm=_LINE_MM)
