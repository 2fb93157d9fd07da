"""What labels are printed on: sheets, continuous tapes, heat-shrink sleeves; their geometry and what they stand.

Millimetres. Knows no wire, no words and no file.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Final, NamedTuple

from harnessdoc.sheet.marks import Rect

FORMS: Final = ("sheet", "tape", "sleeve")
"""Sheet: rows and columns on paper's size. Tape: as wide as it is, cut to length. Sleeve: printed flat, then shrunk."""
SHAPES: Final = ("flag", "wrap", "self-laminating", "sleeve", "tag", "plate")
"""How it is fixed. Plate: on a flat face. Tag: hung by a cable tie through its slot."""
PRINT_MODES: Final = ("laser", "ink", "thermal transfer", "direct thermal")
FLUIDS: Final[tuple[str, ...]] = ("water", "oil", "coolant", "fuel")
USUAL_DPI: Final = (300, 600)  # own choice: of a stock that does not state any


@dataclass(frozen=True, slots=True)
class Stands:
    """What print and glue stand for years. `stated` False: nobody said, so it is taken for a dry cabin only."""

    up_to_c: float | None = None
    fluids: frozenset[str] = frozenset()
    sun: bool = False
    abrasion: bool = False
    stated: bool = True


class SleeveSize(NamedTuple):
    """Inner diameter of a heat-shrink sleeve as supplied, and when it has shrunk with nothing inside, mm."""

    before_mm: float
    after_mm: float

    @property
    def flat_mm(self) -> float:
        """Width when it lies flat, pi * D / 2: the wall is taken as thin."""
        return math.pi * self.before_mm / 2

    @property
    def text(self) -> str:
        """`3.2/1.6 mm`."""
        return f"{self.before_mm:g}/{self.after_mm:g} mm"


@dataclass(frozen=True, slots=True)
class Stock:
    """One stock, by `form`; `shapes`: what can be made of it, the best first; `dpi`: the printers it is made for.

    `margin_mm` is kept clear: in a label of a sheet all round, on tape at both ends, on a sleeve on all sides.
    Sheet: millimetres from the sheet's top left corner, labels row by row. `waist_mm`, `neck_mm`: the length between
    the two leaves of a flag, and its width there, None for a plain rectangle. `zone_mm`: height of the print zone of
    a self-laminating label, from its top. `slot_mm`: left edge, width and height of a tag's slot.
    Tape: `tape_mm` wide, the middle `printable_mm` of it can be printed; `face_mm`: usual length of a printed face,
    `longest_mm`: of a label. Sleeve: `sizes`, thinnest first; `face_mm`: the length of a piece.
    """

    name: str
    form: str = "sheet"
    shapes: tuple[str, ...] = ("flag", "plate", "wrap")
    print_mode: str = "laser"
    dpi: tuple[int, ...] = USUAL_DPI
    stands: Stands = field(default_factory=lambda: Stands(stated=False))
    margin_mm: float = 0.0
    source: str = ""
    paper: str = ""
    sheet_width_mm: float = 0.0
    sheet_height_mm: float = 0.0
    columns: int = 0
    rows: int = 0
    width_mm: float = 0.0
    height_mm: float = 0.0
    corner_mm: float = 0.0
    left_mm: float = 0.0
    top_mm: float = 0.0
    across_mm: float = 0.0
    down_mm: float = 0.0
    waist_mm: float | None = None
    neck_mm: float | None = None
    zone_mm: float | None = None
    slot_mm: tuple[float, float, float] | None = None
    tape_mm: float = 0.0
    printable_mm: float = 0.0
    face_mm: float = 0.0
    longest_mm: float = 0.0
    sizes: tuple[SleeveSize, ...] = ()

    @property
    def shape(self) -> str:
        """What it is made for first of all."""
        return self.shapes[0]

    @property
    def count(self) -> int:
        """Labels on a sheet; 0 for what is cut to length."""
        return self.columns * self.rows

    def label(self, position: int) -> Rect:
        """The label at a position, row by row. `position`: 1 to `count`, else IndexError."""
        if not 1 <= position <= self.count:
            raise IndexError(f"a sheet of {self.name} has labels 1 to {self.count}, not {position}")
        row, column = divmod(position - 1, self.columns)
        return Rect(
            self.left_mm + column * self.across_mm,
            self.top_mm + row * self.down_mm,
            self.width_mm,
            self.height_mm,
        )

    def dpi_for(self, wanted: int | None) -> int:
        """The density to print at: any asked for on a sheet; on tape and sleeve one of its own, the nearest asked."""
        if wanted is None:
            return self.dpi[0]
        if self.form == "sheet":
            return wanted
        return min(self.dpi, key=lambda one: (abs(one - wanted), one))
