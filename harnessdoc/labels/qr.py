"""QR symbols (ISO/IEC 18004) from a payload's text: the shortest version, its module matrix, each made once a run.

Knows no paper and no printer; never changes a payload, least of all its case.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Final, Literal

from harnessdoc.labels.segments import ALPHANUMERIC, segments, single, version_of
from harnessdoc.tables.qr import LEVELS

__all__ = ["ALPHANUMERIC", "QUIET_MODULES", "Level", "Symbol", "SymbolError", "mode_of", "modules_of", "symbol"]

Level = Literal["L", "M", "Q", "H"]
Mode = Literal["numeric", "alphanumeric", "byte", "mixed"]

# ISO/IEC 18004 quiet zone per NCR printer manual and GS1 UK (two pages): 4 modules on each side.
QUIET_MODULES: Final = 4


class SymbolError(ValueError):
    """A payload that no symbol can hold; the message says why."""


@dataclass(frozen=True, slots=True)
class Symbol:
    """One symbol without its quiet zone. `rows`: true is black, top row first. `mask`: 0 to 7."""

    rows: tuple[tuple[bool, ...], ...]
    version: int
    level: Level
    mask: int
    mode: Mode

    @property
    def modules(self) -> int:
        """Modules along a side, quiet zone not counted."""
        return len(self.rows)

    @property
    def modules_with_quiet(self) -> int:
        """Modules along a side, with the quiet zone on both sides."""
        return self.modules + 2 * QUIET_MODULES


def mode_of(payload: str) -> Mode:
    """The one mode that holds all: alphanumeric where it does so exactly as it stands, else byte (UTF-8)."""
    return "alphanumeric" if single(payload).mode == "alphanumeric" else "byte"


def modules_of(payload: str | None, level: Level = "M") -> int | None:
    """Return modules along a side of the payload's symbol, no quiet zone; None for no symbol.

    Encodes only what is longer than version 9 holds.
    """
    if not payload:
        return None
    try:
        found = version_of(segments(payload, level), level)
        return found.modules if found is not None else symbol(payload, level).modules
    except (UnicodeEncodeError, SymbolError):
        return None


@lru_cache(maxsize=4096)
def symbol(payload: str, level: Level = "M") -> Symbol:
    """Return the smallest symbol for a payload, its mask chosen by the standard's penalty rules.

    `level`: L, M, Q or H (7, 15, 25, 30 % of damage recovered). Raises SymbolError for an empty payload, one
    that is too long for version 40, or one that UTF-8 cannot write; ValueError for another level.
    """
    from qrcode import constants, util
    from qrcode.exceptions import DataOverflowError
    from qrcode.main import QRCode

    if level not in LEVELS:
        raise ValueError(f"a QR symbol's level is L, M, Q or H, not {level!r:.40}")
    if not payload:
        raise SymbolError("nothing to put into a QR symbol")
    try:
        parts = segments(payload, level)
    except UnicodeEncodeError:
        raise SymbolError("the text for the QR symbol holds half a character, which UTF-8 cannot write") from None
    mode: Mode = "mixed" if len(parts) > 1 else parts[0].mode
    code = QRCode(error_correction=getattr(constants, f"ERROR_CORRECT_{level}"), border=QUIET_MODULES)
    modes = {"numeric": util.MODE_NUMBER, "alphanumeric": util.MODE_ALPHA_NUM, "byte": util.MODE_8BIT_BYTE}
    for part in parts:
        code.add_data(util.QRData(part.text.encode("utf-8"), mode=modes[part.mode], check_data=False))
    try:
        code.best_fit()
    except (DataOverflowError, ValueError):  # qrcode says ValueError where its version 41 is out of range
        size = len(payload.encode("utf-8"))
        raise SymbolError(
            f"the text for the QR symbol is too long: {size} bytes in {mode} mode at level {level}"
        ) from None
    mask = code.best_mask_pattern()
    code.makeImpl(False, mask)
    rows = tuple(tuple(map(bool, row)) for row in code.modules)
    return Symbol(rows, code.version, level, mask, mode)
