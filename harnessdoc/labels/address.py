"""How long the address of a record may be for a label that can't hold its symbol, and what would fit instead.

Knows sizes and payloads, no wire.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Final

from harnessdoc.labels.dots import dot_mm, least_dots
from harnessdoc.labels.qr import QUIET_MODULES, Level, modules_of
from harnessdoc.labels.segments import capacities_of

_SHORTEST: Final = len("http://a.bc")  # own choice: no address is shorter


def most_modules(width_mm: float, height_mm: float, dpi: int, bent_mm: float | None = None) -> int:
    """Return how many modules along a side, without the quiet zone, the largest symbol has that a face holds.

    `bent_mm`: the widest symbol that may be bent round the wire, None on a flat face. A dot is kept for moving it.
    """
    module_mm = least_dots(dpi) * dot_mm(dpi)
    most = int((min(width_mm, height_mm) - dot_mm(dpi)) / module_mm + 1e-9) - 2 * QUIET_MODULES
    return most if bent_mm is None else min(most, int(bent_mm / module_mm + 1e-9))


@lru_cache(maxsize=4096)
def shorter_address(payload: str, key: str, level: Level, modules: int) -> str:
    """Say what address would fit a symbol of so many modules, "" where the payload is no address of a record.

    `key`: the last part of the address, which can't change.
    """
    tail = f"/{key}/"
    if not key or not payload.endswith(tail):
        return ""
    base = payload.removesuffix(tail)
    capitals = base.upper()
    if capitals != base and (modules_of(capitals + tail, level) or modules + 1) <= modules:
        return f"`records: {capitals}`, in capitals, would fit, if your server takes capitals"
    held = [one for one in capacities_of(level) if one.modules <= modules]
    if not held:
        return "no address is short enough for it"
    small, large = (count - len(tail) for count in (held[-1].byte, held[-1].alphanumeric))
    if large < _SHORTEST:
        return "no address is short enough for it"
    told = f"`records:` of at most {large} capitals and digits would fit: {_fewer(base, large)}"
    return f"{told} (or {small} with small letters)" if small >= _SHORTEST else told


def _fewer(base: str, most: int) -> str:
    fewer = len(base) - most
    return f"{fewer} fewer than now" if fewer > 0 else "in capitals, if your server takes them"


def smaller_in_capitals(payload: str, key: str, level: Level = "M") -> str:
    """Say whether an address of a record makes a smaller symbol when it is written in capitals, "" if it does not."""
    tail = f"/{key}/"
    base = payload.removesuffix(tail)
    capitals = base.upper()
    now, then = modules_of(payload, level), modules_of(capitals + tail, level)
    if capitals == base or not payload.endswith(tail) or now is None or then is None or then >= now:
        return ""
    return (
        f"Written as `records: {capitals}` the address would make smaller symbols, {then} modules a side rather than "
        f"{now}; your server must take capitals."
    )
