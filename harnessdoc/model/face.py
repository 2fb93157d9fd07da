"""A plug's face: its cavities in millimetres as seen on the mating face. Geometry only, no wiring."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum


class View(Enum):
    """The side from which a plug is looked at. The wire side is the mating face mirrored left to right."""

    MATING_FACE = "mating face"
    WIRE_SIDE = "wire side"


@dataclass(frozen=True, slots=True)
class Cavity:
    """One hole: its name as moulded on the housing and its centre in mm from the face's centre, y down."""

    name: str
    x_mm: float
    y_mm: float
    shape: str = "round"


@dataclass(frozen=True, slots=True)
class Face:
    """`outline`: rect or round; `key`: the side (top, right, bottom, left, none) with the latch or index mark."""

    name: str
    outline: str
    width_mm: float
    height_mm: float
    cavities: tuple[Cavity, ...]
    key: str = "top"
    key_is: str = "latch"

    @property
    def cavity_names(self) -> tuple[str, ...]:
        """Names in reading order of the mating face."""
        return tuple(cavity.name for cavity in self.cavities)

    def seen(self, view: View) -> tuple[Cavity, ...]:
        """The cavities as drawn in that view: x is mirrored for the wire side."""
        if view is View.MATING_FACE:
            return self.cavities
        return tuple(Cavity(c.name, -c.x_mm, c.y_mm, c.shape) for c in self.cavities)

    def mirrored(self) -> Face:
        """The face of the other half: what mates cavity to cavity is its mirror image."""
        side = {"left": "right", "right": "left"}.get(self.key, self.key)
        cavities = tuple(Cavity(c.name, -c.x_mm, c.y_mm, c.shape) for c in self.cavities)
        return replace(self, cavities=cavities, key=side)

    def key_side(self, view: View) -> str:
        """The side of the key as drawn in that view."""
        if view is View.WIRE_SIDE:
            return {"left": "right", "right": "left"}.get(self.key, self.key)
        return self.key
