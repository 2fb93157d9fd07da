"""A plug's face at any size: outline, latch or index mark, ribs, and a place for each cavity in the stated view."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from harnessdoc.model.face import Cavity, Face, View
from harnessdoc.sheet.page import BLACK, WHITE, Page

KEY_MM: Final = 2.4
"""How far the latch or index mark stands out of the outline."""
STUB_GREY: Final = "#d4d4d4"
EMPTY_DASH: Final = (0.9, 0.7)
"""How a cavity with a stub, and one that is empty, are marked on every face."""
_OUTLINE_MM: Final = 0.5
_RIB_MM: Final = (2.4, 1.8)  # along its side, and out of it
_EDGE: Final = 0.65  # least way from a cavity to the outline, in pitches: half a cavity and its code
_MOST_GROWTH: Final = 1.6  # own choice: how much larger than the smallest the largest cavity is drawn
_TURNS: Final = {"top": 0.0, "right": 90.0, "bottom": 180.0, "left": 270.0}
_Place = Callable[[Page, str, str, float, float], None]


@dataclass(frozen=True, slots=True)
class Picture:
    """A face to be drawn `factor` times its true size, in a view."""

    face: Face
    view: View
    factor: float

    @property
    def width_mm(self) -> float:
        """Width on paper with the key's mark."""
        return outline_mm(self.face)[0] * self.factor + 2 * KEY_MM

    @property
    def height_mm(self) -> float:
        """Height on paper with the key's mark."""
        return outline_mm(self.face)[1] * self.factor + 2 * KEY_MM

    @property
    def pitch_mm(self) -> float:
        """The smallest distance between two cavities on paper."""
        return smallest_pitch_mm(self.face) * self.factor

    def draw(self, page: Page, x: float, y: float, cavity: _Place) -> None:
        """Draw round the centre (x, y); `cavity` is called with page, name, shape and the cavity's place."""
        self._draw_outline(page, x, y)
        for one in self.face.seen(self.view):
            cavity(page, one.name, one.shape, x + one.x_mm * self.factor, y + one.y_mm * self.factor)

    def growth(self, across_mm: float, under_mm: float) -> Mapping[str, float]:
        """How much larger than `across_mm` each cavity is drawn, where sizes are stated and there is room.

        `under_mm`: height of what is written under a cavity."""
        sizes = [cavity.size_mm for cavity in self.face.cavities if cavity.size_mm]
        if len(set(sizes)) < 2 or len(sizes) < len(self.face.cavities):
            return {}
        least, found = min(sizes), {}
        for cavity in self.face.cavities:
            spare = (_nearest_mm(cavity, self.face) - smallest_pitch_mm(self.face)) * self.factor
            edge = 2 * (_to_edge_mm(cavity, self.face) * self.factor - under_mm - 1)
            wanted = across_mm * min((cavity.size_mm or least) / least, _MOST_GROWTH)
            found[cavity.name] = max(1.0, min(wanted, across_mm + spare, edge) / across_mm)
        return found

    def _draw_outline(self, page: Page, x: float, y: float) -> None:
        width, height = (side * self.factor for side in outline_mm(self.face))
        for rib in self.face.ribs_seen(self.view):
            self._draw_rib(page, x, y, rib.side, rib.along_mm * self.factor)
        if self.face.outline == "round":
            page.circle(x, y, width / 2, fill=WHITE, stroke_mm=_OUTLINE_MM)
        else:
            page.rect(x - width / 2, y - height / 2, width, height, radius=1.5, fill=WHITE, stroke_mm=_OUTLINE_MM)
        self._draw_key(page, x, y, width / 2, height / 2)

    def _draw_key(self, page: Page, x: float, y: float, half_width: float, half_height: float) -> None:
        side = self.face.key_side(self.view)
        turn = _TURNS.get(side)
        if turn is None:
            return
        out = half_height if side in ("top", "bottom") else half_width
        along = half_width if side in ("top", "bottom") else half_height
        with page.group("key", f"{self.face.key_is}, {side}", x=x, y=y, rotate=turn):
            if self.face.key_is == "latch":
                half = min(along * 0.4, 9.0)
                page.rect(-half, -out - KEY_MM, 2 * half, KEY_MM, stroke_mm=_OUTLINE_MM)
            elif self.face.key_is == "index":
                tip = [(-KEY_MM * 0.8, -out - KEY_MM), (KEY_MM * 0.8, -out - KEY_MM), (0, -out)]
                page.polyline(tip, closed=True, fill=BLACK, stroke="none")
            else:
                half = 1.6 if self.face.key_is == "key" else 0.8
                page.rect(-half, -out - KEY_MM, 2 * half, KEY_MM, fill=BLACK, stroke="none")

    def _draw_rib(self, page: Page, x: float, y: float, side: str, along_mm: float) -> None:
        """A small block that grows out of a side, or out of the circle at that height."""
        half_width, half_height = (length * self.factor / 2 for length in outline_mm(self.face))
        upright = side in ("top", "bottom")
        half, out = (half_width, half_height) if upright else (half_height, half_width)
        along_mm = max(-half + 2.5, min(half - 2.5, along_mm))
        if self.face.outline == "round":
            out = math.sqrt(max(half_width**2 - along_mm**2, 0.0))
        length, height = _RIB_MM
        sign = -1 if side in ("top", "left") else 1
        middle = sign * (out + height / 2 - 0.2)
        with page.group("rib", f"rib, {side}"):
            if upright:
                page.rect(x + along_mm - length / 2, y + middle - height / 2, length, height, fill=BLACK, stroke="none")
            else:
                page.rect(x + middle - height / 2, y + along_mm - length / 2, height, length, fill=BLACK, stroke="none")


@lru_cache(maxsize=256)
def outline_mm(face: Face) -> tuple[float, float]:
    """Return the outline's width and height in mm, never so tight that a drawn cavity would cross it."""
    edge = 2 * _EDGE * smallest_pitch_mm(face)
    if face.outline == "round":
        widest = 2 * max(math.hypot(cavity.x_mm, cavity.y_mm) for cavity in face.cavities)
        width = max(face.width_mm, widest + edge)
        return width, width
    return (
        max(face.width_mm, 2 * max(abs(cavity.x_mm) for cavity in face.cavities) + edge),
        max(face.height_mm, 2 * max(abs(cavity.y_mm) for cavity in face.cavities) + edge),
    )


@lru_cache(maxsize=256)
def smallest_pitch_mm(face: Face) -> float:
    """Return the smallest distance between two cavities in mm; for a single one its way to the outline."""
    closest = math.inf
    ordered = sorted(face.cavities, key=lambda cavity: cavity.x_mm)
    for index, one in enumerate(ordered):
        for number in range(index + 1, len(ordered)):
            other = ordered[number]
            if other.x_mm - one.x_mm >= closest:
                break
            closest = min(closest, math.hypot(one.x_mm - other.x_mm, one.y_mm - other.y_mm) or math.inf)
    return closest if math.isfinite(closest) else min(face.width_mm, face.height_mm) / 1.6


def _nearest_mm(cavity: Cavity, face: Face) -> float:
    """The way to the nearest other cavity."""
    ways = (math.hypot(cavity.x_mm - o.x_mm, cavity.y_mm - o.y_mm) for o in face.cavities if o is not cavity)
    return min(ways, default=math.inf)


def _to_edge_mm(cavity: Cavity, face: Face) -> float:
    width, height = outline_mm(face)
    if face.outline == "round":
        return width / 2 - math.hypot(cavity.x_mm, cavity.y_mm)
    return min(width / 2 - abs(cavity.x_mm), height / 2 - abs(cavity.y_mm))


def fitted(face: Face, view: View, width_mm: float, height_mm: float, most_pitch_mm: float) -> Picture:
    """Return the face as large as the room allows, its cavities no further apart than `most_pitch_mm`."""
    width, height = outline_mm(face)
    factor = min(
        (width_mm - 2 * KEY_MM) / width,
        (height_mm - 2 * KEY_MM) / height,
        most_pitch_mm / smallest_pitch_mm(face),
    )
    return Picture(face, view, factor)
