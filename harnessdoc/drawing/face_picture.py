"""A plug's face at any size: outline, latch or index mark, and a place for each cavity in the stated view."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import combinations
from typing import Final

from harnessdoc.model.face import Face, View
from harnessdoc.sheet.page import BLACK, Page

KEY_MM: Final = 2.4
"""How far the latch or index mark stands out of the outline."""
STUB_GREY: Final = "#d4d4d4"
EMPTY_DASH: Final = (0.9, 0.7)
"""How a cavity with a stub, and one that is empty, are marked on every face."""
_OUTLINE_MM: Final = 0.5
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
        return self.face.width_mm * self.factor + 2 * KEY_MM

    @property
    def height_mm(self) -> float:
        """Height on paper with the key's mark."""
        return self.face.height_mm * self.factor + 2 * KEY_MM

    @property
    def pitch_mm(self) -> float:
        """The smallest distance between two cavities on paper."""
        return smallest_pitch_mm(self.face) * self.factor

    def draw(self, page: Page, x: float, y: float, cavity: _Place) -> None:
        """Draw round the centre (x, y); `cavity` is called with page, name, shape and the cavity's place."""
        self._draw_outline(page, x, y)
        for one in self.face.seen(self.view):
            cavity(page, one.name, one.shape, x + one.x_mm * self.factor, y + one.y_mm * self.factor)

    def _draw_outline(self, page: Page, x: float, y: float) -> None:
        width, height = self.face.width_mm * self.factor, self.face.height_mm * self.factor
        if self.face.outline == "round":
            page.circle(x, y, width / 2, stroke_mm=_OUTLINE_MM)
        else:
            page.rect(x - width / 2, y - height / 2, width, height, radius=1.5, stroke_mm=_OUTLINE_MM)
        self._draw_key(page, x, y, width / 2, height / 2)

    def _draw_key(self, page: Page, x: float, y: float, half_width: float, half_height: float) -> None:
        side = self.face.key_side(self.view)
        turn = {"top": 0.0, "right": 90.0, "bottom": 180.0, "left": 270.0}.get(side)
        if turn is None:
            return
        out = half_height if side in ("top", "bottom") else half_width
        along = half_width if side in ("top", "bottom") else half_height
        with page.group(title=f"{self.face.key_is}, {side}", x=x, y=y, rotate=turn):
            if self.face.key_is == "latch":
                half = min(along * 0.4, 9.0)
                page.rect(-half, -out - KEY_MM, 2 * half, KEY_MM, stroke_mm=_OUTLINE_MM)
            else:
                tip = [(-KEY_MM * 0.8, -out - KEY_MM), (KEY_MM * 0.8, -out - KEY_MM), (0, -out)]
                page.polyline(tip, closed=True, fill=BLACK, stroke="none")


def smallest_pitch_mm(face: Face) -> float:
    """Return the smallest distance between two cavities in mm; for a single one its way to the outline."""
    distances = (math.hypot(a.x_mm - b.x_mm, a.y_mm - b.y_mm) for a, b in combinations(face.cavities, 2))
    found = min(distances, default=0.0)
    return found or min(face.width_mm, face.height_mm) / 1.6


def fitted(face: Face, view: View, width_mm: float, height_mm: float, most_pitch_mm: float) -> Picture:
    """Return the face as large as the room allows, its cavities no further apart than `most_pitch_mm`."""
    factor = min(
        (width_mm - 2 * KEY_MM) / face.width_mm,
        (height_mm - 2 * KEY_MM) / face.height_mm,
        most_pitch_mm / smallest_pitch_mm(face),
    )
    return Picture(face, view, factor)
