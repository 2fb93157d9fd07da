"""Sweeps over what the tool has limits for: how small a module may be, how far a symbol may go round a wire."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from harnessdoc.labels.qr import Level, symbol
from tests.labels.reading.bending import TELEPHONE, Camera, Pose
from tests.labels.reading.printing import MM_PER_INCH, print_symbol
from tests.labels.reading.scanning import ALL, Scan, scan
from tests.labels.reading.spoiling import HASTY, Spoil

LEVELS: Final[tuple[Level, ...]] = ("L", "M", "Q", "H")
# What labels may hold: a key alone, an address in capitals, one in small letters as the sample's, a line of text.
TEXTS: Final = (
    "OS-01 K7Q2MA",
    "HTTPS://RECORDS.EXAMPLE/OS-01/K7Q2MA/",
    "https://records.example/os-01/K7Q2MA/",
    "OS-01 B agitator right: W12 W13 W14, F3 15 A, K2, S1",
)
SIZES: Final = tuple(
    (dpi, dots) for dpi, least, most in ((180, 2, 5), (203, 2, 5), (300, 2, 6), (600, 5, 10))
    for dots in range(least, most + 1)
)  # fmt: skip
SHARES: Final = (0.03, 0.04, 0.05, 0.06, 0.07, 0.10, 0.15, 0.20, 0.25, 0.30, 0.35, 0.40, 0.50, 0.60)


def flat(
    dots: int,
    dpi: int,
    level: Level,
    texts: Sequence[str] = TEXTS,
    spoiled: Spoil = HASTY,
    camera: Camera = TELEPHONE,
) -> Iterator[Scan]:
    """Scan symbols on a flat face, each in all three poses."""
    for text in texts:
        made = print_symbol(symbol(text, level), dots, dpi)
        for pose in ALL:
            yield scan(made, text, pose, spoiled=spoiled, camera=camera)


def bent(
    share: float, dots: int, dpi: int, level: Level, poses: Sequence[Pose], texts: Sequence[str] = TEXTS
) -> Iterator[Scan]:
    """Scan symbols round a wire so thick that each spans this share of its circumference, quiet zone not counted."""
    for text in texts:
        made = symbol(text, level)
        diameter_mm = made.modules * dots * MM_PER_INCH / dpi / share / math.pi
        for pose in poses:
            yield scan(print_symbol(made, dots, dpi), text, pose, diameter_mm)


def all_pass(scans: Iterable[Scan]) -> bool:
    """Whether every one was read by both readers; looks no further than the first that was not."""
    return all(one.passed for one in scans)


def tally(scans: Iterable[Scan]) -> str:
    """How many of how many passed: `11/12`."""
    passed = [one.passed for one in scans]
    return f"{sum(passed)}/{len(passed)}"
