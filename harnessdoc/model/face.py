"""A plug's face: its cavities in millimetres as seen on the mating face. Geometry only, no wiring."""

from __future__ import annotations

from dataclasses import replace
from enum import Enum
from typing import Final

from harnessdoc.model.record import record

SHAPES: Final = ("round", "square", "upright blade", "lying blade")
"""What a cavity takes: a pin or socket, a square post, or a flat blade that stands or lies as the face is drawn."""
_BLADE_THICK_MM: Final = 0.8  # of blades 4.8 and 6.3 wide; common practice, no source
_MIRRORED: Final = {"left": "right", "right": "left"}


class View(Enum):
    """The side from which a plug is looked at. The wire side is the mating face mirrored left to right."""

    MATING_FACE = "mating face"
    WIRE_SIDE = "wire side"

    @property
    def other(self) -> View:
        """The view from behind."""
        return View.WIRE_SIDE if self is View.MATING_FACE else View.MATING_FACE


@record(frozen=True)
class Cavity:
    """One hole: its name as moulded on the housing and its centre in mm from the face's centre, y down.

    `shape`: one of SHAPES; `size_mm`: a pin's diameter or a blade's width, None if not stated."""

    name: str
    x_mm: float
    y_mm: float
    shape: str = "round"
    size_mm: float | None = None

    @property
    def half_mm(self) -> tuple[float, float]:
        """Half the width and half the height of what it takes; nothing where no size is stated."""
        half = (self.size_mm or 0.0) / 2
        thin = min(half, _BLADE_THICK_MM / 2)
        return {"upright blade": (thin, half), "lying blade": (half, thin)}.get(self.shape, (half, half))


@record(frozen=True)
class Rib:
    """A polarising rib on a side of the outline, `along_mm` from the side's middle: to the right, or down."""

    side: str
    along_mm: float = 0.0

    def mirrored(self) -> Rib:
        """The rib as seen from behind."""
        if self.side in _MIRRORED:
            return Rib(_MIRRORED[self.side], self.along_mm)
        return Rib(self.side, 0.0 - self.along_mm)


@record(frozen=True)
class Face:
    """`outline`: rect or round; `key`: the side (top, right, bottom, left, none) with the latch, index, key or rib."""

    name: str
    outline: str
    width_mm: float
    height_mm: float
    cavities: tuple[Cavity, ...]
    key: str = "top"
    key_is: str = "latch"
    ribs: tuple[Rib, ...] = ()

    @property
    def cavity_names(self) -> tuple[str, ...]:
        """Names in reading order of the mating face."""
        return tuple(cavity.name for cavity in self.cavities)

    def seen(self, view: View) -> tuple[Cavity, ...]:
        """The cavities as drawn in that view: x is mirrored for the wire side."""
        if view is View.MATING_FACE:
            return self.cavities
        return tuple(replace(cavity, x_mm=-cavity.x_mm) for cavity in self.cavities)

    def mirrored(self) -> Face:
        """The face of the other half: what mates cavity to cavity is its mirror image."""
        return replace(
            self,
            cavities=self.seen(View.WIRE_SIDE),
            key=self.key_side(View.WIRE_SIDE),
            ribs=self.ribs_seen(View.WIRE_SIDE),
        )

    def key_side(self, view: View) -> str:
        """The side of the key as drawn in that view."""
        return self.key if view is View.MATING_FACE else _MIRRORED.get(self.key, self.key)

    def ribs_seen(self, view: View) -> tuple[Rib, ...]:
        """The ribs as drawn in that view."""
        return self.ribs if view is View.MATING_FACE else tuple(rib.mirrored() for rib in self.ribs)
