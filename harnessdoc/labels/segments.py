"""How a payload is written into a QR symbol with the fewest bits: one mode, or several one after another.

ISO/IEC 18004:2015, 7.4: 4 bits tell the mode, then the count of characters (8 to 10 bits up to version 9), then ten
bits for three digits, eleven for two characters of the 45, eight for a byte. Knows no symbol library and no paper.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Final, Literal, NamedTuple

from harnessdoc.tables.qr import Capacity, capacities

Mode = Literal["numeric", "alphanumeric", "byte"]

# ISO/IEC 18004, the 45 characters of alphanumeric mode (table of character values). Upper-case letters only.
ALPHANUMERIC: Final = frozenset("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:")
_DIGITS: Final = frozenset("0123456789")
_MODE_BITS: Final = 4
# ISO/IEC 18004:2015, table 3, versions 1 to 9.
_COUNT_BITS: Final[dict[Mode, int]] = {"numeric": 10, "alphanumeric": 9, "byte": 8}
_SMALL: Final = 9
# Sixths of a bit a character: 10/3, 11/2 and 8 bits, before the last group is rounded up.
_SIXTHS: Final[dict[Mode, int]] = {"numeric": 20, "alphanumeric": 33, "byte": 48}


class Segment(NamedTuple):
    """A part of the payload in one mode."""

    mode: Mode
    text: str

    @property
    def bits(self) -> int:
        """Bits that it takes up to version 9."""
        return _MODE_BITS + _COUNT_BITS[self.mode] + _data_bits(self.mode, len(self.text.encode("utf-8")))


def single(payload: str) -> Segment:
    """The payload in one mode: alphanumeric only where that holds every character exactly as it stands, else byte."""
    return Segment("alphanumeric" if payload and ALPHANUMERIC.issuperset(payload) else "byte", payload)


@lru_cache(maxsize=8192)
def segments(payload: str, level: str) -> tuple[Segment, ...]:
    """Return the payload in one mode, or in several where only those give a smaller symbol (up to version 9).

    Raises UnicodeEncodeError for half a character.
    """
    whole = single(payload)
    now = version_of((whole,), level)
    if now is None or now.version == 1:
        return (whole,)
    smaller = _bits_held(capacities_of(level)[now.version - 2])
    held = sum(_SIXTHS["alphanumeric" if sign in ALPHANUMERIC else "byte"] for sign in payload) // 6
    if whole.mode == "byte" and held + _MODE_BITS + _COUNT_BITS["alphanumeric"] > smaller:
        return (whole,)
    mixed = _fewest(payload)
    return mixed if sum(one.bits for one in mixed) <= smaller else (whole,)


def version_of(parts: tuple[Segment, ...], level: str) -> Capacity | None:
    """Return the smallest symbol up to version 9 that holds the segments at a level; None past that."""
    bits = sum(one.bits for one in parts)
    return next((one for one in capacities_of(level) if bits <= _bits_held(one)), None)


@lru_cache(maxsize=4)
def capacities_of(level: str) -> tuple[Capacity, ...]:
    """The symbols of a level, version 1 to 9."""
    return tuple(one for one in capacities() if one.level == level and one.version <= _SMALL)


def _bits_held(one: Capacity) -> int:
    """Data bits of a symbol: its bytes, and the 12 bits before them rounded up to whole codewords."""
    return 8 * (one.byte + 2)


def _data_bits(mode: Mode, count: int) -> int:
    if mode == "numeric":
        return 10 * (count // 3) + (0, 4, 7)[count % 3]
    return 11 * (count // 2) + 6 * (count % 2) if mode == "alphanumeric" else 8 * count


def _fewest(payload: str) -> tuple[Segment, ...]:
    """The segments with the fewest bits, found sign by sign: for each mode the best way of ending in it."""
    ways: dict[Mode, tuple[int, tuple[Mode, ...]]] = {}
    for sign in payload:
        fits: list[Mode] = ["byte"]
        if sign in ALPHANUMERIC:
            fits.append("alphanumeric")
        if sign in _DIGITS:
            fits.append("numeric")
        ways = {mode: _ending_in(mode, len(sign.encode("utf-8")), ways) for mode in fits}
    _, modes = min(ways.values())
    parts: list[Segment] = []
    for mode, sign in zip(modes, payload, strict=True):
        if parts and parts[-1].mode == mode:
            parts[-1] = Segment(mode, parts[-1].text + sign)
        else:
            parts.append(Segment(mode, sign))
    return tuple(parts)


def _ending_in(mode: Mode, size: int, ways: dict[Mode, tuple[int, tuple[Mode, ...]]]) -> tuple[int, tuple[Mode, ...]]:
    """The cheapest way of adding a sign in this mode: going on in it, or beginning a new segment; sixths of bits."""
    header = 6 * (_MODE_BITS + _COUNT_BITS[mode])
    before = [(cost + (0 if last == mode else header), modes) for last, (cost, modes) in ways.items()]
    cost, modes = min(before) if before else (header, ())
    return cost + _SIXTHS[mode] * size, (*modes, mode)
