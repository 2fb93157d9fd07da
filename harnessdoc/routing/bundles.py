"""How thick a bundle of wires is. Knows diameters and tables, no places.

Rule: D = 1.2 * sqrt(sum of d²) (handbook rule, two pages; IS-Rayfast prints it with the worked example that the
tests use). It comes out low for two and three wires and for some counts of equal wires, so there the exact
circle, or the printed factor where it is larger, is taken.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from harnessdoc.tables.bundle import bundle_factor

HANDBOOK_FACTOR = 1.2  # reference: rule_handbook, IS-Rayfast and several bundle pages


class Bundle(NamedTuple):
    """One run's bundle. `diameter_mm`: of the members whose own diameter is known, None if there are none.

    `members`: wires, and cables counted as one. `unknown`: members whose diameter nobody knows; while there are
    any, the bundle is not verified and its diameter is the least it can be.
    """

    members: tuple[str, ...] = ()
    diameter_mm: float | None = None
    unknown: tuple[str, ...] = ()

    @property
    def verified(self) -> bool:
        """Whether every member's diameter is known."""
        return not self.unknown


def bundle_diameter_mm(diameters_mm: Sequence[float]) -> float:
    """Return the diameter in mm of a round bundle of wires with these outside diameters in mm (0 for none).

    One, two and three wires: the smallest circle round them, exactly. From four on the handbook rule, never less
    than the two thickest side by side, nor than the printed factor for equal wires. Nothing is added for tape.
    """
    sizes = sorted(diameters_mm, reverse=True)
    if len(sizes) <= 1:
        return sizes[0] if sizes else 0.0
    side_by_side = sizes[0] + sizes[1]
    if len(sizes) == 2:
        return side_by_side
    if len(sizes) == 3:
        return _round_three_mm(sizes[0], sizes[1], sizes[2])
    rule = HANDBOOK_FACTOR * math.sqrt(sum(size * size for size in sizes))
    factor = bundle_factor(len(sizes)) if sizes[0] == sizes[-1] else None
    return max(rule, side_by_side, factor.value * sizes[0] if factor else 0.0)


def _round_three_mm(first: float, second: float, third: float) -> float:
    """Smallest circle round three touching circles, largest first (Descartes' circle theorem).

    A third wire that fits into the gap beside the two others does not widen the bundle.
    """
    a, b, c = 2 / first, 2 / second, 2 / third
    round_two = 2 / (first + second)
    if c >= a + b - round_two:  # curvature of the largest circle that the gap holds
        return first + second
    outer = 2 * math.sqrt(a * b + b * c + c * a) - (a + b + c)
    return 2 / outer
