"""Simple symbols for items, after IEC 60617, each drawn round (0, 0) inside WIDTH_MM by HEIGHT_MM.

Drawn from memory of the standard's basic shapes, kept to what a person needs to recognise; a kind without one
gets a plain outline. To add a kind: its function here and one line in SYMBOLS. Knows kinds by name, no wiring.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Final

from harnessdoc.model.kinds.base import Kind
from harnessdoc.model.kinds.relays import Relay
from harnessdoc.sheet.page import BLACK, WHITE, Page

WIDTH_MM: Final = 16.0
HEIGHT_MM: Final = 11.0
LINE_MM: Final = 0.35  # ISO 128: narrow line of the 0.7 mm group
_EDGE: Final = WIDTH_MM / 2
_LETTER_MM: Final = 3.5
_SMALL_MM: Final = 2.5


def draw_symbol(page: Page, name: str, x: float, y: float) -> None:
    """Draw the symbol of that name (see `symbol_name`) round (x, y) mm; its leads end at x ± WIDTH_MM / 2."""
    with page.group(title=name, x=x, y=y):
        SYMBOLS.get(name, outline)(page)


def symbol_name(kind: Kind) -> str:
    """Return the name of a kind's symbol: the word behind `is`, for relays with the contact it has."""
    if isinstance(kind, Relay) and kind.contact != "changeover":
        return f"{kind.name}, {kind.contact}"
    return kind.name


def splice_symbol(page: Page, x: float, y: float) -> None:
    """Draw a splice, the dot where conductors join (IEC 60617: connection)."""
    with page.group(title="splice", x=x, y=y):
        _lead(page, -_EDGE, _EDGE)
        _line(page, 0, 0, 0, 4.5)
        page.circle(0, 0, 1.1, fill=BLACK, stroke="none")


def outline(page: Page) -> None:
    """A plain box with two leads."""
    _leads(page, 6)
    _box(page, 12, 9)


def battery(page: Page) -> None:
    """Two cells: a long thin plate (+) and a short one each."""
    _leads(page, 2.4)
    for x in (-2.4, 0.8):
        _line(page, x, -4.2, x, 4.2)
        page.line(x + 1.6, -2, x + 1.6, 2, stroke_mm=0.7)
    _line(page, -0.8, 0, 0.8, 0)
    _plus(page, -4.6, -2.8)


def source(page: Page) -> None:
    """A circle with G."""
    _leads(page, 4.5)
    page.circle(0, 0, 4.5, stroke_mm=LINE_MM)
    _letter(page, "G")


def fuse(page: Page) -> None:
    """A rectangle with the conductor running through it."""
    _box(page, 10, 4)
    _lead(page, -_EDGE, _EDGE)


def breaker(page: Page) -> None:
    """A contact with a cross at its fixed side and the trip's bump."""
    _lead(page, -_EDGE, -3.5)
    _lead(page, 3.5, _EDGE)
    _line(page, -3.5, 0, 3.2, -3.6)
    _line(page, 2.7, -0.8, 4.3, 0.8)
    _line(page, 2.7, 0.8, 4.3, -0.8)
    _box(page, 2.4, 2.4, y=-2.4, x=0.4, fill=WHITE)


def switch(page: Page) -> None:
    """A make contact, open."""
    _lead(page, -_EDGE, -3.5)
    _lead(page, 3.5, _EDGE)
    _line(page, -3.5, 0, 3.2, -3.8)


def relay(page: Page) -> None:
    """The coil's box on the left, its changeover contact on the right, linked by a dashed line."""
    _coil(page)
    _line(page, 4.2, 3, 1.8, -2.8)
    _line(page, 2.0, -5.5, 2.0, -2.4)
    _line(page, 6.4, -5.5, 6.4, -2.4)


def relay_make(page: Page) -> None:
    """The same with a contact that is open at rest."""
    _coil(page)
    _line(page, 4.2, 3, 1.6, -2.4)
    _line(page, 4.2, -5.5, 4.2, -2.4)


def relay_break(page: Page) -> None:
    """The same with a contact that is closed at rest."""
    _coil(page)
    _line(page, 4.2, 3, 6.6, -2.9)
    _line(page, 4.2, -5.5, 4.2, -2.4)
    _line(page, 4.2, -2.4, 6.8, -2.4)


def relay_board(page: Page) -> None:
    """The relay in the outline of its board."""
    _box(page, WIDTH_MM, HEIGHT_MM)
    with page.group(scale=0.85):
        relay(page)


def load(page: Page) -> None:
    """A box with its diagonal: something that draws, of no kind in particular."""
    _leads(page, 6)
    _box(page, 12, 6)
    _line(page, -6, 3, 6, -3)


def motor(page: Page) -> None:
    """A circle with M."""
    _leads(page, 4.5)
    page.circle(0, 0, 4.5, stroke_mm=LINE_MM)
    _letter(page, "M")


def lamp(page: Page) -> None:
    """A circle with a cross."""
    _leads(page, 4.5)
    page.circle(0, 0, 4.5, stroke_mm=LINE_MM)
    reach = 4.5 * math.sqrt(0.5)
    _line(page, -reach, -reach, reach, reach)
    _line(page, -reach, reach, reach, -reach)


def resistor(page: Page) -> None:
    """A plain rectangle."""
    _leads(page, 5)
    _box(page, 10, 4)


def diode(page: Page) -> None:
    """A triangle that points the way the current may go, at a bar."""
    _lead(page, -_EDGE, _EDGE)
    page.polyline([(-2.6, -3), (-2.6, 3), (2.6, 0)], closed=True, fill=WHITE, stroke_mm=LINE_MM)
    page.line(2.6, -3, 2.6, 3, stroke_mm=0.5)


def potentiometer(page: Page) -> None:
    """A resistor with its wiper's arrow."""
    resistor(page)
    _line(page, 0, -5.5, 0, -2.4)
    page.polyline([(-0.9, -3.8), (0.9, -3.8), (0, -2.1)], closed=True, fill=BLACK, stroke="none")


def sensor(page: Page) -> None:
    """A box that narrows towards what it feels, its signal line on the right."""
    page.polyline([(-6, 0), (-3, -4.5), (6, -4.5), (6, 4.5), (-3, 4.5)], closed=True, stroke_mm=LINE_MM)
    for y in (-2.5, 0, 2.5):
        _line(page, 6, y, _EDGE, y)
    page.text(1, _SMALL_MM / 2, "U", _SMALL_MM, anchor="middle")


def module(page: Page) -> None:
    """A box with pins on both sides: nobody knows its inside."""
    _box(page, 11, 9)
    for y in (-3, 0, 3):
        _lead(page, -_EDGE, -5.5, y)
        _lead(page, 5.5, _EDGE, y)


def speed_controller(page: Page) -> None:
    """A converter's box with a pulse train in it."""
    _leads(page, 6)
    _box(page, 12, 9)
    pulses = [(-4.5, 2), (-3, 2), (-3, -2), (-1, -2), (-1, 2), (1, 2), (1, -2), (3, -2), (3, 2), (4.5, 2)]
    page.polyline(pulses, stroke_mm=LINE_MM)


def regulator(page: Page) -> None:
    """A converter's box, parted: higher direct voltage in, lower out."""
    _leads(page, 6)
    _box(page, 12, 9)
    _line(page, -6, 4.5, 6, -4.5)
    for x, y in ((-3, -2), (3, 2)):
        _line(page, x - 1.6, y - 0.5, x + 1.6, y - 0.5)
        page.line(x - 1.6, y + 0.5, x + 1.6, y + 0.5, stroke_mm=LINE_MM, dash=(0.8, 0.4))


def terminal_strip(page: Page) -> None:
    """A row of terminals."""
    for index in range(4):
        x = -6 + 4 * index
        _box(page, 4, 6, x=x)
        page.circle(x, 0, 1.1, stroke_mm=LINE_MM)


def earth_point(page: Page) -> None:
    """Three bars, each shorter, under the conductor."""
    _line(page, 0, -5, 0, 0)
    for y, half in ((0, 4.5), (1.7, 3), (3.4, 1.5)):
        page.line(-half, y, half, y, stroke_mm=0.5)


SYMBOLS: Final[Mapping[str, Callable[[Page], None]]] = {
    "battery": battery,
    "source": source,
    "fuse": fuse,
    "breaker": breaker,
    "switch": switch,
    "relay": relay,
    "relay, make": relay_make,
    "relay, break": relay_break,
    "relay board": relay_board,
    "load": load,
    "motor": motor,
    "lamp": lamp,
    "resistor": resistor,
    "diode": diode,
    "potentiometer": potentiometer,
    "sensor": sensor,
    "module": module,
    "speed controller": speed_controller,
    "regulator": regulator,
    "terminal strip": terminal_strip,
    "earth point": earth_point,
}
"""Symbol's name to the function that draws it."""


def _coil(page: Page) -> None:
    """A relay's coil, the dashed link to its contact, and the contact's common lead."""
    _box(page, 3.6, 6.4, x=-5)
    _line(page, -5, -5.5, -5, -3.2)
    _line(page, -5, 3.2, -5, 5.5)
    page.line(-3.2, 0, 3.0, 0, stroke_mm=LINE_MM, dash=(1, 0.8))
    _line(page, 4.2, 5.5, 4.2, 3)


def _line(page: Page, x1: float, y1: float, x2: float, y2: float) -> None:
    page.line(x1, y1, x2, y2, stroke_mm=LINE_MM)


def _lead(page: Page, x1: float, x2: float, y: float = 0.0) -> None:
    _line(page, x1, y, x2, y)


def _leads(page: Page, from_x: float) -> None:
    """The two leads of a body that reaches to ± from_x."""
    _lead(page, -_EDGE, -from_x)
    _lead(page, from_x, _EDGE)


def _box(page: Page, width: float, height: float, x: float = 0.0, y: float = 0.0, fill: str = "none") -> None:
    page.rect(x - width / 2, y - height / 2, width, height, fill=fill, stroke_mm=LINE_MM)


def _letter(page: Page, text: str) -> None:
    page.text(0, _LETTER_MM / 2, text, _LETTER_MM, anchor="middle")


def _plus(page: Page, x: float, y: float) -> None:
    _line(page, x - 0.9, y, x + 0.9, y)
    _line(page, x, y - 0.9, x, y + 0.9)
