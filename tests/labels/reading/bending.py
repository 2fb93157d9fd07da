"""How a camera 300 mm away sees a print that lies flat, or round a wire: a ray from each pixel back to the surface.

Pinhole camera. The print's own directions: x along the wire, y down (round the wire), z away from the camera. The
centre of what is read lies at the middle of the picture; tilting turns the print about that centre.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, NamedTuple

import numpy as np

from tests.labels.reading.printing import Bools, Floats, Print

DISTANCE_MM: Final = 300.0
FINE: Final = 2  # own choice: rays along a pixel's side
EDGE_MM: Final = 3.0  # own choice: shown around the print
BARE: Final = 0.45  # own choice: reflectance of wire and background, between ink and paper
AROUND: Final = 0.5  # own choice: share of light that comes from all sides, the rest from beside the camera


@dataclass(frozen=True)
class Camera:
    """`pixels_wide`: of its picture. `lens_mm`: focal length of a lens that shows as much on film 36 mm wide."""

    pixels_wide: int
    lens_mm: float

    @property
    def focal_pixels(self) -> float:
        """Distance of the picture behind the pinhole, in pixels."""
        return self.pixels_wide * self.lens_mm / 36.0

    @property
    def pixels_a_mm(self) -> float:
        """At 300 mm, in the middle of the picture."""
        return self.focal_pixels / DISTANCE_MM


# Assumed, common practice, no source: a telephone's main camera with 12 million pixels, 4032 x 3024, and a lens of
# 26 mm: 4032 * 26 / 36 = 2912 pixels, 9.7 a mm at 300 mm.
TELEPHONE: Final = Camera(4032, 26.0)


@dataclass(frozen=True)
class Pose:
    """How the print is held, degrees: rolled round the wire, leaning with one end away, turned in the picture."""

    name: str
    rolled: float = 0.0
    leaning: float = 0.0
    turned: float = 0.0

    @property
    def rotation(self) -> Floats:
        """From the print's own directions to the camera's."""
        a, b, c = (math.radians(angle) for angle in (self.rolled, self.leaning, self.turned))
        roll = np.array([[1, 0, 0], [0, math.cos(a), -math.sin(a)], [0, math.sin(a), math.cos(a)]])
        lean = np.array([[math.cos(b), 0, math.sin(b)], [0, 1, 0], [-math.sin(b), 0, math.cos(b)]])
        turn = np.array([[math.cos(c), -math.sin(c), 0], [math.sin(c), math.cos(c), 0], [0, 0, 1]])
        made: Floats = turn @ lean @ roll
        return made


STRAIGHT: Final = Pose("straight")


class Surface(NamedTuple):
    """Where rays meet it, mm from the centre along the wire and round it; whether they do; how it is lit, 0 to 1."""

    along: Floats
    round: Floats
    hit: Bools
    lit: Floats


def seen(
    made: Print,
    pose: Pose = STRAIGHT,
    diameter_mm: float | None = None,
    centre: tuple[float, float] | None = None,
    reach_mm: float | None = None,
    camera: Camera = TELEPHONE,
) -> Floats:
    """Return the square picture: reflectance, paper 1 and ink 0, as each pixel averages it.

    `diameter_mm`: of the wire, None for flat. `centre`: of what is read, mm from the print's top left corner, its
    middle if None. `reach_mm`: half the side of what is shown, all of the print if None.
    """
    at_x, at_y = centre or (made.width_mm / 2, made.height_mm / 2)
    reach = reach_mm or math.hypot(max(at_x, made.width_mm - at_x), max(at_y, made.height_mm - at_y)) + EDGE_MM
    count = math.ceil(reach * camera.pixels_a_mm) * FINE
    ray = ((np.arange(-count, count) + 0.5) / FINE / camera.focal_pixels).astype(np.float32)
    x, y = np.meshgrid(ray, ray, sparse=True)
    # The camera stands at (0, 0, -300); turn it and its rays into the print's own directions.
    own = pose.rotation.T.astype(np.float32)
    start = own @ np.array([0.0, 0.0, -DISTANCE_MM], dtype=np.float32)
    ways = (own[0, 0] * x + own[0, 1] * y + own[0, 2], own[1, 0] * x + own[1, 1] * y + own[1, 2],
            own[2, 0] * x + own[2, 1] * y + own[2, 2])  # fmt: skip
    met = _flat(start, ways) if diameter_mm is None else _round(start, ways, diameter_mm / 2)
    across, down = met.along + at_x, met.round + at_y
    on = met.hit & (across >= 0) & (across < made.width_mm) & (down >= 0) & (down < made.height_mm)
    shown = np.full(across.shape, BARE, dtype=np.float32)
    shown[on] = ~made.ink_at(across[on], down[on])
    shown *= met.lit
    averaged: Floats = shown.reshape(2 * count // FINE, FINE, 2 * count // FINE, FINE).mean(axis=(1, 3))
    return averaged


def _flat(start: Floats, ways: tuple[Floats, Floats, Floats]) -> Surface:
    """The plane z = 0."""
    reach = -start[2] / ways[2]
    return Surface(
        start[0] + reach * ways[0], start[1] + reach * ways[1], np.ones(reach.shape, dtype=bool), np.ones_like(reach)
    )


def _round(start: Floats, ways: tuple[Floats, Floats, Floats], radius: float) -> Surface:
    """The cylinder y^2 + (z - radius)^2 = radius^2, where a ray meets it first; background beside it."""
    deep = start[2] - radius
    square = ways[1] ** 2 + ways[2] ** 2
    root = square * radius**2 - (start[1] * ways[2] - deep * ways[1]) ** 2
    hit = root >= 0
    depth = np.sqrt(np.where(hit, root, 0.0))
    reach = (-(start[1] * ways[1] + deep * ways[2]) - depth) / square
    y, z = start[1] + reach * ways[1], start[2] + reach * ways[2]
    facing = depth / (radius * np.sqrt(square))  # cosine between ray and surface, across the wire
    return Surface(
        start[0] + reach * ways[0],
        radius * np.arctan2(y, radius - z),
        hit,
        np.where(hit, AROUND + (1 - AROUND) * facing, 1.0),
    )
