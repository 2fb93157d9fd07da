"""What a QR symbol of versions 1 to 10 holds and how large its modules must be printed (ISO/IEC 18004)."""

from functools import lru_cache
from typing import NamedTuple

from harnessdoc.tables.figures import Confirmed, Figure, confirmed, deciding, figure, rows

MODES = ("numeric", "alphanumeric", "byte")
LEVELS = ("L", "M", "Q", "H")


class Capacity(NamedTuple):
    """A symbol's modules per side (no quiet zone) and the most characters it holds in each mode."""

    version: int
    level: str
    modules: int
    numeric: int
    alphanumeric: int
    byte: int
    confirmed: Confirmed

    def holds(self, mode: str) -> int:
        """Return the most characters of that mode. Raises KeyError for a mode that is not in MODES."""
        return {"numeric": self.numeric, "alphanumeric": self.alphanumeric, "byte": self.byte}[mode]


@lru_cache(maxsize=1)
def capacities() -> tuple[Capacity, ...]:
    """Return every version and level held, smallest version first."""
    return tuple(
        Capacity(
            int(row["version"]),
            row["ec_level"],
            int(row["modules"]),
            int(row["numeric"]),
            int(row["alphanumeric"]),
            int(row["byte"]),
            confirmed(row),
        )
        for row in rows("qr")
    )


def smallest_symbol(characters: int, mode: str, level: str) -> Capacity | None:
    """Return the smallest symbol that holds so many characters at that level, None past version 10.

    `mode` is one of MODES; in byte mode `characters` counts the bytes of the encoded text.
    """
    return next((one for one in capacities() if one.level == level and one.holds(mode) >= characters), None)


def print_limit(item: str) -> Figure | None:
    """Return a printing limit ("least dots a module", "quiet zone"), None if it is only remembered."""
    for row in deciding("qr_print"):
        if row["item"] == item and not row["dpi"]:
            return figure(row, "value", row["unit"])
    return None


def published_module_mm(dpi: int, dots: int) -> Figure | None:
    """Return the module size in mm that is printed for a density and dots a module, rounded by the source."""
    for row in deciding("qr_print"):
        if (row["dpi"], row["dots"]) == (str(dpi), str(dots)):
            return figure(row, "value", "mm")
    return None


def least_module_mm() -> Figure | None:
    """Return the smallest module to print: 4 dots at 300 dpi, 0.33 mm as the inventor's page prints it.

    A remembered limit for phones is the same 0.33 mm, but decides nothing.
    """
    return published_module_mm(300, 4)
