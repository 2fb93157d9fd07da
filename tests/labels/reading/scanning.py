"""One try to scan a print: a few pictures from a hand that is never quite still, read by both readers.

Passed means that each reader gave exactly the text, and nothing else, from one of the pictures at least.
"""

from __future__ import annotations

import zlib
from dataclasses import dataclass, replace
from typing import Final

from tests.labels.reading.bending import TELEPHONE, Camera, Pose, seen
from tests.labels.reading.printing import Print
from tests.labels.reading.readers import READERS
from tests.labels.reading.spoiling import HASTY, Spoil, spoil

PICTURES: Final = 3  # own choice: a telephone goes on looking; each picture has its own noise
UNSTILL_DEGREES: Final = 3.0  # own choice: how far the hand turns from one picture to the next
TILT_DEGREES: Final = 20.0
# Turned a little in the picture as well, so that no row of modules lies along a row of pixels.
FACING: Final = Pose("facing", turned=TILT_DEGREES)
ROLLED: Final = Pose("rolled", rolled=TILT_DEGREES, turned=7.0)
LEANING: Final = Pose("leaning", leaning=TILT_DEGREES, turned=7.0)
TILTED: Final = (ROLLED, LEANING)
ALL: Final = (FACING, ROLLED, LEANING)


@dataclass(frozen=True)
class Scan:
    """Which readers read the text, in which picture (from 1); None for one that did not."""

    pose: Pose
    pictures: dict[str, int | None]

    @property
    def passed(self) -> bool:
        """Both read it."""
        return None not in self.pictures.values()


def scan(
    made: Print,
    text: str,
    pose: Pose,
    diameter_mm: float | None = None,
    centre: tuple[float, float] | None = None,
    reach_mm: float | None = None,
    spoiled: Spoil = HASTY,
    camera: Camera = TELEPHONE,
) -> Scan:
    """Look at a print that should say `text` until both readers have read it, or PICTURES are used up.

    The same print and text give the same pictures, bit by bit.
    """
    found: dict[str, int | None] = dict.fromkeys(READERS)
    for number in range(1, PICTURES + 1):
        moved = replace(pose, turned=pose.turned + UNSTILL_DEGREES * (number - 1))
        seed = zlib.crc32(f"{text}|{pose.name}|{number}".encode())
        picture = spoil(seen(made, moved, diameter_mm, centre, reach_mm, camera), spoiled, seed)
        for name, read in READERS.items():
            if found[name] is None and read(picture) == [text]:
                found[name] = number
        if None not in found.values():
            break
    return Scan(pose, found)
