"""What a printer puts down: dots, and where ink lies on and between them.

A dot is round. To leave no white between four neighbours it must reach the corners of its square, so it is sqrt(2)
of the pitch across: what is black grows a little. No dot is lost or misplaced here.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import Any, Final

import numpy as np
import numpy.typing as npt

from harnessdoc.labels.qr import QUIET_MODULES, Symbol

Floats = npt.NDArray[np.floating[Any]]
Bools = npt.NDArray[np.bool_]
MM_PER_INCH: Final = 25.4
PARTS: Final = 4  # own choice: how finely ink is told within a dot
_DOT_RADIUS_SQUARED: Final = 0.5  # of a dot sqrt(2) of the pitch across


@dataclass(frozen=True)
class Print:
    """Dots: true is ink, top row first; `dpi`: of the printer, along and across."""

    dots: Bools
    dpi: int

    @property
    def dot_mm(self) -> float:
        """Pitch of the dots."""
        return MM_PER_INCH / self.dpi

    @property
    def width_mm(self) -> float:
        """Along the rows."""
        return float(self.dots.shape[1] * self.dot_mm)

    @property
    def height_mm(self) -> float:
        """Down the columns."""
        return float(self.dots.shape[0] * self.dot_mm)

    @cached_property
    def ink(self) -> Bools:
        """Where ink lies, PARTS points along each side of a dot's square."""
        ink = np.kron(self.dots, np.ones((PARTS, PARTS), dtype=bool))
        offset = (np.arange(PARTS) + 0.5) / PARTS - 0.5
        # How far the round dots on the left, right, above and below reach into this square.
        into = (1 - np.abs(offset))[:, None] ** 2 + offset**2 <= _DOT_RADIUS_SQUARED
        for axis, cell in ((0, into), (1, into.T)):
            for step in (1, -1):
                near = offset * step < 0  # the half beside that neighbour
                half = cell & (near[:, None] if axis == 0 else near)
                ink |= np.kron(_moved(self.dots, step, axis), half)
        return ink

    def ink_at(self, x_mm: Floats, y_mm: Floats) -> Bools:
        """Whether ink covers each point, mm from the top left corner. Points must lie inside."""
        parts = PARTS / self.dot_mm
        rows, columns = self.ink.shape
        column = np.minimum((x_mm * parts).astype(np.int32), columns - 1)
        row = np.minimum((y_mm * parts).astype(np.int32), rows - 1)
        found: Bools = self.ink.ravel().take(row * columns + column)
        return found


def _moved(dots: Bools, step: int, axis: int) -> Bools:
    """The dots, each put one row or column on; none comes in from outside."""
    moved = np.roll(dots, step, axis)
    edge = 0 if step > 0 else -1
    if axis == 0:
        moved[edge] = False
    else:
        moved[:, edge] = False
    return moved


def print_symbol(made: Symbol, dots_a_module: int, dpi: int) -> Print:
    """A symbol with its quiet zone, nothing else."""
    modules = np.pad(np.array(made.rows, dtype=bool), QUIET_MODULES)
    return Print(np.kron(modules, np.ones((dots_a_module, dots_a_module), dtype=bool)).astype(bool), dpi)
