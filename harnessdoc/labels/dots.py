"""How large the modules of a QR symbol are printed: a whole number of the printer's dots, above two floors.

Pure arithmetic; knows no symbol's contents and no paper.
"""

from __future__ import annotations

import math
from typing import Final

from harnessdoc.model.quantities import MM_PER_INCH

# Floor for phones: 0.33 mm. Memory (rule of thumb), a working minimum; the published module of 4 dots at 300 dpi is
# the same 0.33 mm ("Point for setting the module size", DENSO WAVE, two editions). Computed since: a simulated camera
# at 300 mm (tests/labels/reading, its figures assumed) reads 0.339 mm at every level, 0.296 mm no longer at level L.
LEAST_MODULE_MM: Final = 0.33
# Recommended minimum for stable reading: 4 dots a module (DENSO WAVE; a receipt printer's command manual). Kept as
# a rule here: a label that would need fewer carries no QR.
LEAST_DOTS: Final = 4
DPI_RANGE: Final = (72, 2400)  # own choice: what printers have


def dot_mm(dpi: int) -> float:
    """Return the pitch of a printer's dots, mm. Raises ValueError for a density outside DPI_RANGE."""
    if not DPI_RANGE[0] <= dpi <= DPI_RANGE[1]:
        raise ValueError(f"a printer has {DPI_RANGE[0]} to {DPI_RANGE[1]} dots per inch, not {dpi}")
    return MM_PER_INCH / dpi


def least_dots(dpi: int) -> int:
    """Return the fewest dots a module may have at this density: both floors kept."""
    return max(LEAST_DOTS, math.ceil(LEAST_MODULE_MM / dot_mm(dpi) - 1e-9))


def module_dots(modules: int, room_mm: float, dpi: int) -> int | None:
    """Return the most whole dots a module can have so that `modules` of them fit into `room_mm`.

    `modules`: along a side, the quiet zone included. None where even the fewest allowed don't fit.
    """
    dots = math.floor(room_mm / (modules * dot_mm(dpi)) + 1e-9)
    return dots if dots >= least_dots(dpi) else None


def snap_up(value_mm: float, dpi: int) -> float:
    """Return the first dot edge at or after a coordinate, mm."""
    return math.ceil(value_mm / dot_mm(dpi) - 1e-6) * dot_mm(dpi)


def snap_down(value_mm: float, dpi: int) -> float:
    """Return the last dot edge at or before a coordinate, mm."""
    return math.floor(value_mm / dot_mm(dpi) + 1e-6) * dot_mm(dpi)
