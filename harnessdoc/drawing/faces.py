"""Pin-out sheets: a plug's face as it is looked at, each cavity with its colours, and what is known of it beside.

Draws what `pins` gathers; gives no verdict.
"""

from __future__ import annotations

from contextlib import AbstractContextManager
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from harnessdoc.drawing.cavity import CavityStyle, draw_cavity
from harnessdoc.drawing.face_panels import Shown, TableRow, cavity_marks
from harnessdoc.drawing.face_sheet import WIDTH_MM, FaceSheet, draw_sheets
from harnessdoc.drawing.pin_table import NARROW_MM, RowGroup, pin_table
from harnessdoc.drawing.pins import EMPTY, STUB, Pin, PinRow, pins
from harnessdoc.electrics.network import Network
from harnessdoc.model import cautions
from harnessdoc.model.colours import Colour
from harnessdoc.model.harness import Harness, Plug
from harnessdoc.model.keys import record_address
from harnessdoc.model.points import Point
from harnessdoc.sheet.grid import TEXT_MM, code_of
from harnessdoc.sheet.page import Page

KIND: Final = "pin-out sheet"
_SAMPLE_MM: Final = (WIDTH_MM / 4, 11.0)
_SAMPLES: Final = (
    ("not cut", False, False, (Colour("RD", ("BK",)),)),
    ("stub left in it", True, False, (Colour("RD"),)),
    ("empty", False, True, ()),
    ("? or ×: not known", False, False, (None,)),
)


def face_sheets(
    harness: Harness, plug_name: str, mark: str = "", paper: str = "A4", network: Network | None = None
) -> list[Page]:
    """Return a plug's pin-out sheets: the asked view large, the other view small, the other half if there is one.

    `network`: makes each cavity part of its potential, so that a browser can show all of it. On larger paper where the
    face asks for it. Raises KeyError for no such plug, layouts.LayoutError for no such paper.
    """
    plug = harness.plugs[plug_name]
    told = _Told(harness, plug, network)
    wanted = FaceSheet(
        harness,
        KIND,
        cautions.FACE,
        Shown(plug, plug.view, told.cavity("cavity"), codes=told.codes),
        _beside(told),
        _key,
        lambda width, most: pin_table(told.pins, told.marks, width, most, told.row_group),
        mark,
        paper,
        least_mm=NARROW_MM,
    )
    return draw_sheets(wanted)


def _beside(told: _Told) -> list[Shown]:
    """The other view of the plug and, if it is described, the half that it mates with in that half's own view."""
    plug = told.plug
    other = plug.view.other
    words = f"The same plug, {plug.name}, from the {other.value}: mirrored left to right."
    shown = [Shown(plug, other, told.cavity("mirror"), "mirror", words)]
    mate = told.harness.plugs.get(plug.mates_with or "")
    if mate is not None and mate is not plug:
        its = _Told(told.harness, mate, told.network)
        what = ", ".join(filter(None, ("The other half", mate.name, mate.title)))
        words = f"{what}; seen from its {mate.view.value}."
        shown.append(Shown(mate, mate.view, its.cavity("mate"), "mate", words))
    return shown


@dataclass(frozen=True)
class _Told:
    """What is known of a plug, and the groups that its cavities and rows are drawn in."""

    harness: Harness
    plug: Plug
    network: Network | None

    @cached_property
    def pins(self) -> tuple[Pin, ...]:
        return pins(self.harness, self.plug)

    @cached_property
    def marks(self) -> dict[str, str]:
        return dict(cavity_marks(self.plug))

    @cached_property
    def codes(self) -> list[str]:
        return [_code(pin) for pin in self.pins]

    @property
    def row_group(self) -> RowGroup:
        return _Group(self)

    def cavity(self, kind: str) -> _Cavity:
        """Draws the plug's cavities, in groups named after the kind."""
        return _Cavity(self, kind, {pin.cavity: pin for pin in self.pins})

    def group(self, page: Page, kind: str, pin: Pin, rows: tuple[PinRow, ...]) -> AbstractContextManager[None]:
        """The group of a cavity or a row: its words, its potential, and a link to the first record that tells of it."""
        point = Point(self.plug.name, pin.cavity)
        circuit = next((row.circuit for row in rows if row.circuit is not None), None)
        return page.group(
            f"{kind}-{self.plug.name}-{pin.cavity}",
            " + ".join(" ".join((str(point), *_short(pin, row))) for row in rows),
            desc="; ".join(filter(None, (_long(row) for row in rows))),
            link=(record_address(self.harness, circuit) or "") if circuit is not None else "",
            potential=self.network.potential.get(point) if self.network else None,
        )


class _Group(RowGroup):
    """Groups a row of the table with its cavity's potential."""

    def __init__(self, told: _Told) -> None:
        self._told = told

    def __call__(self, page: Page, pin: Pin, row: PinRow) -> AbstractContextManager[None]:
        return self._told.group(page, "row", pin, (row,))


@dataclass(frozen=True, slots=True)
class _Cavity:
    """Draws one cavity in its group; under it its code, where the style has room."""

    told: _Told
    kind: str
    by_name: dict[str, Pin]

    def __call__(
        self, page: Page, name: str, shape: str, x: float, y: float, style: CavityStyle, growth: float
    ) -> None:
        pin = self.by_name[name]
        with self.told.group(page, self.kind, pin, pin.rows):
            draw_cavity(
                page,
                x,
                y,
                self.told.marks[name],
                shape,
                style,
                colours=pin.colours,
                stub=pin.state == STUB,
                empty=pin.state == EMPTY,
                code=_code(pin),
                growth=growth,
            )


def _short(pin: Pin, row: PinRow) -> list[str]:
    """Colour, size and function."""
    if pin.state == EMPTY:
        return [EMPTY]
    return [part for part in (code_of(row.colour), row.size, row.function) if part]


def _long(row: PinRow) -> str:
    """The rest of what the table says."""
    goes = f"goes to {row.goes_to}" if row.goes_to else ""
    wire = f"wire {row.wire}" if row.wire else ""
    return ", ".join(filter(None, (wire, goes, row.state, row.stub)))


def _code(pin: Pin) -> str:
    """What is written under a cavity: the code of its wire, or how many there are in it."""
    if len(pin.colours) > 1:
        return f"{len(pin.colours)} wires" if len(pin.colours) < 10 else f"{len(pin.colours)} w."
    return "".join(code_of(colour) if colour else "?" for colour in pin.colours)


def _key(width: float) -> TableRow:
    """What the cavities' marks mean, in as many rows as the width asks for."""
    across, down = _SAMPLE_MM
    each_row = max(min(int(width // across), len(_SAMPLES)), 1)

    def draw(page: Page, x: float, y: float) -> None:
        style = CavityStyle(8.4, TEXT_MM, False)
        for index, (words, stub, empty, colours) in enumerate(_SAMPLES):
            left, top = x + index % each_row * across, y + index // each_row * down
            draw_cavity(page, left + 4.5, top + 5, "8", "round", style, colours=colours, stub=stub, empty=empty)
            page.text(left + 10.5, top + 5 + TEXT_MM / 2, words, TEXT_MM)

    return TableRow(-(-len(_SAMPLES) // each_row) * down + 1, draw)
