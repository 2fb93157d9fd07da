"""Bodies of the symbols on a strip, after IEC 60617 from memory, in the rest position: round (0, 0), leads at y 0.

Each is drawn with a line weight, which says whether it is live, and for one end: `turn` is 1 with the first pin left,
-1 with it right. Knows no harness."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import Final

from harnessdoc.sheet.page import BLACK, WHITE, Page

Body = Callable[[Page, float, int], None]
CONTACT_MM: Final = 5.0
HOOK_MM: Final = 4.4
"""Where the fixed contact of a break or changeover stands, and the blade lies against it."""
_TIP: Final = (5.4, -2.6)
LINK_DASH: Final = (1.6, 1.0)


def fuse(page: Page, weight: float, turn: int) -> None:
    """A rectangle with the conductor running through it."""
    page.rect(-5, -2, 10, 4, fill=WHITE, stroke_mm=weight)
    page.line(-5, 0, 5, 0, stroke_mm=weight)


def breaker(page: Page, weight: float, turn: int) -> None:
    """A contact with a cross at its fixed side and the trip's square on its blade; shown closed, as it rests."""
    page.polyline([(-CONTACT_MM * turn, 0), (CONTACT_MM * turn, 0)], stroke_mm=weight)
    page.line(2.4, -1.3, 5, 1.3, stroke_mm=weight)
    page.line(2.4, 1.3, 5, -1.3, stroke_mm=weight)
    page.rect(-2.4, -1.5, 3, 3, fill=WHITE, stroke_mm=weight)


def make(page: Page, weight: float, turn: int) -> None:
    """A make contact: open at rest."""
    page.line(4.0 * turn, 0, CONTACT_MM * turn, 0, stroke_mm=weight)
    page.line(-CONTACT_MM * turn, 0, 4.2 * turn, -3.6, stroke_mm=weight)


def break_(page: Page, weight: float, turn: int) -> None:
    """A break contact: closed at rest, its blade against the fixed contact."""
    page.line(-CONTACT_MM * turn, 0, _TIP[0] * turn, _TIP[1], stroke_mm=weight)
    page.line(HOOK_MM * turn, 0, HOOK_MM * turn, -2.35, stroke_mm=weight)
    page.line(HOOK_MM * turn, 0, CONTACT_MM * turn, 0, stroke_mm=weight)


def coil(page: Page, weight: float, turn: int) -> None:
    """A relay's coil: a plain rectangle."""
    page.rect(-4, -2.8, 8, 5.6, fill=WHITE, stroke_mm=weight)


def load(page: Page, weight: float, turn: int) -> None:
    """A box with its diagonal: something that draws, of no kind in particular."""
    page.rect(-5, -3, 10, 6, fill=WHITE, stroke_mm=weight)
    page.line(-5, 3, 5, -3, stroke_mm=weight)


def motor(page: Page, weight: float, turn: int) -> None:
    """A circle with M."""
    page.circle(0, 0, 4.2, fill=WHITE, stroke_mm=weight)
    page.text(0, 1.75, "M", 3.5, anchor="middle")


def lamp(page: Page, weight: float, turn: int) -> None:
    """A circle with a cross."""
    page.circle(0, 0, 4.2, fill=WHITE, stroke_mm=weight)
    reach = 4.2 * math.sqrt(0.5)
    page.line(-reach, -reach, reach, reach, stroke_mm=weight)
    page.line(-reach, reach, reach, -reach, stroke_mm=weight)


def resistor(page: Page, weight: float, turn: int) -> None:
    """A plain long rectangle."""
    page.rect(-5, -1.7, 10, 3.4, fill=WHITE, stroke_mm=weight)


def diode(page: Page, weight: float, turn: int) -> None:
    """A triangle that points the way the current may go, at a bar."""
    points = [(-2.6 * turn, -2.8), (-2.6 * turn, 2.8), (2.6 * turn, 0.0)]
    page.polyline(points, closed=True, fill=WHITE, stroke_mm=weight)
    page.line(2.6 * turn, -2.8, 2.6 * turn, 2.8, stroke_mm=weight)
    page.line(-2.6, 0, 2.6, 0, stroke_mm=weight)


def plug(page: Page, weight: float, turn: int) -> None:
    """A pair of chevrons, the two halves of a plug that mate."""
    for x in (-1.3, 1.3):
        page.polyline([(x - 2.0, -2.2), (x + 0.4, 0), (x - 2.0, 2.2)], stroke_mm=max(weight, 0.35))
    page.line(-2.2, 0, 1.7, 0, stroke_mm=weight)


BODIES: Final[Mapping[str, tuple[float, Body]]] = {
    "fuse": (5.0, fuse),
    "breaker": (5.0, breaker),
    "make": (CONTACT_MM, make),
    "break": (CONTACT_MM, break_),
    "coil": (4.0, coil),
    "load": (5.0, load),
    "motor": (4.2, motor),
    "lamp": (4.2, lamp),
    "resistor": (5.0, resistor),
    "diode": (2.6, diode),
    "plug": (1.7, plug),
}
"""Symbol to how far its body reaches, mm, and how it is drawn."""


def change(page: Page, weights: Sequence[float], turn: int, throw_mm: float) -> None:
    """A changeover at rest: the blade against the break contact beside it, the make contact `throw_mm` below open.

    `weights`: of the common, the break and the make contact."""
    common, breaks, makes = weights
    page.line(-CONTACT_MM * turn, 0, _TIP[0] * turn, _TIP[1], stroke_mm=common)
    page.polyline([(CONTACT_MM * turn, 0), (HOOK_MM * turn, 0), (HOOK_MM * turn, -2.35)], stroke_mm=breaks)
    page.polyline([(CONTACT_MM * turn, throw_mm), (HOOK_MM * turn, throw_mm), (HOOK_MM * turn, 2.4)], stroke_mm=makes)


def rotary(page: Page, weight: float, turn: int, throws_mm: list[float], resting: int | None) -> None:
    """One common and several throws, each a small ring; the blade on the one that is closed at rest, else on none."""
    for y in throws_mm:
        page.circle(CONTACT_MM * turn, y, 0.8, fill=WHITE, stroke_mm=weight)
    at = throws_mm[resting] if resting is not None else -3.4
    page.line(-CONTACT_MM * turn, 0, (CONTACT_MM - 0.8) * turn, at, stroke_mm=weight)


def earth(page: Page, weight: float) -> None:
    """Three bars, each shorter, under the conductor's end."""
    page.line(0, 0, 0, 2.4, stroke_mm=weight)
    for y, half in ((2.4, 3.2), (3.8, 2.1), (5.2, 1.0)):
        page.line(-half, y, half, y, stroke_mm=0.5)


def pole(page: Page, plus: bool) -> None:
    """One plate of a battery: the long one is +, the short thick one is -."""
    half = 4.2 if plus else 2.2
    page.line(0, -half, 0, half, stroke_mm=0.35 if plus else 1.0)


def splice(page: Page) -> None:
    """The dot where conductors are joined outside any item."""
    page.circle(0, 0, 1.3, fill=BLACK, stroke=BLACK, stroke_mm=0.25)


def way(page: Page) -> None:
    """A terminal: a small ring."""
    page.circle(0, 0, 1.4, fill=WHITE, stroke_mm=0.35)


def chevron(page: Page, turn: int) -> None:
    """One half of a plug, at the end of a line that comes from the left (`turn` 1) or from the right (-1)."""
    page.polyline([(1.2 * turn, -2.2), (-1.0 * turn, 0), (1.2 * turn, 2.2)], stroke_mm=0.35)


def unknown(page: Page) -> None:
    """Nobody has found out yet where it goes."""
    page.circle(0, 0, 2.4, fill=WHITE, stroke_mm=0.25, dash=(0.8, 0.6))
    page.text(0, 1.25, "?", 2.5, bold=True, anchor="middle")


def tail(page: Page) -> None:
    """A cut end that has not landed."""
    for x in (-0.8, 0.8):
        page.line(x - 0.9, 2.0, x + 0.9, -2.0, stroke_mm=0.35)


def pulses(page: Page) -> None:
    """A pulse train: a speed controller."""
    points = [(-4.0, 1.6), (-2.6, 1.6), (-2.6, -1.6), (-0.9, -1.6), (-0.9, 1.6), (0.9, 1.6), (0.9, -1.6), (2.6, -1.6)]
    page.polyline([*points, (2.6, 1.6), (4.0, 1.6)], stroke_mm=0.35)


def step_down(page: Page) -> None:
    """Direct voltage in and out, parted: a regulator."""
    page.line(-3.6, 2.8, 3.6, -2.8, stroke_mm=0.25)
    for x, y in ((-2.0, -1.6), (2.0, 1.6)):
        page.line(x - 1.4, y - 0.5, x + 1.4, y - 0.5, stroke_mm=0.35)
        page.line(x - 1.4, y + 0.5, x + 1.4, y + 0.5, stroke_mm=0.35, dash=(0.7, 0.4))


def wiper(page: Page) -> None:
    """A track with its wiper: a potentiometer."""
    page.rect(-1.2, -3.4, 2.4, 6.8, stroke_mm=0.35)
    page.line(4.0, 0, 1.8, 0, stroke_mm=0.35)
    page.polyline([(2.9, -0.9), (2.9, 0.9), (1.2, 0)], closed=True, fill=BLACK, stroke="none")


def feeler(page: Page) -> None:
    """An outline that narrows towards what is felt: a sensor."""
    page.polyline([(-3.6, 0), (-1.6, -2.8), (3.4, -2.8), (3.4, 2.8), (-1.6, 2.8)], closed=True, stroke_mm=0.35)


GLYPHS: Final[Mapping[str, Callable[[Page], None]]] = {
    "speed controller": pulses,
    "regulator": step_down,
    "potentiometer": wiper,
    "sensor": feeler,
}
"""Kind to the sign that stands in its outline."""
