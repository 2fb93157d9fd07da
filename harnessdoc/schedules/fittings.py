"""What an end's hardware is as a shop asks for it: collar or barrel, sleeve, how far to strip, which tool.

Figures from the tables alone, nothing from memory; where no table tells it is None, and the list says unknown."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from harnessdoc.model.hardware import Hardware
from harnessdoc.model.quantities import Size, plain_number
from harnessdoc.tables.barrels import barrel, barrel_for, barrel_takes
from harnessdoc.tables.ferrules import Sleeve, ferrule, ferrule_for, overall_length, sleeves
from harnessdoc.tables.tabs import tab_series, tab_thickness_mm, tab_width_mm

INSULATED: Final = frozenset({"tab", "blade", "ring", "fork", "bullet", "butt", "closed end"})
"""Forms that are made with an insulated barrel; without one they are crimped open or with a lug tool."""
NO_STRIP: Final = frozenset({"cap"})
LUG_MM2: Final = 10.0
"""From this copper on rings and forks are pressed as cable lugs. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Fitting:
    """`made`: what it is made for, in words; `colour`: of its collar or barrel. "" where there is none, None where it
    is not known. `others`: sleeve lengths it is sold in beside `sleeve_mm`."""

    made: str
    colour: str | None
    sleeve_mm: float | None
    strip_mm: float | None
    overall_mm: float | None
    tool: str
    others: tuple[Sleeve, ...] = ()


@lru_cache(maxsize=4096)
def fitting(hardware: Hardware, size: Size | None) -> Fitting:
    """Return the hardware on a wire of this size, None if nobody knows the size."""
    if hardware.form == "ferrule":
        return _ferrule(hardware, size)
    return Fitting(_made(hardware, size), _barrel_colour(hardware, size), None, None, None, _tool(hardware, size))


def _ferrule(hardware: Hardware, size: Size | None) -> Fitting:
    """The shortest sleeve that a page prints: it fits every clamp that a longer one fits."""
    area = float(hardware.fits) if hardware.fits and not hardware.fits.startswith("M") else None
    row = ferrule(area) if area is not None else ferrule_for(size.area_mm2) if size else None
    if row is None:
        made = f"{plain_number(area)} mm²: no ferrule of the standard" if area is not None else ""
        return Fitting(made, None, None, None, None, _FERRULE_TOOL)
    printed = sorted(sleeves(row.area_mm2))
    first = printed[0] if printed else None
    overall = overall_length(row.area_mm2, first.length_mm) if first else None
    return Fitting(
        f"{plain_number(row.area_mm2)} mm²", row.collar, first.length_mm if first else None,
        first.strip_mm if first else None, overall.value if overall else None, _FERRULE_TOOL, tuple(printed[1:]),
    )  # fmt: skip


def _made(hardware: Hardware, size: Size | None) -> str:
    """The tab it pushes on, and the wire its barrel takes."""
    said = []
    if hardware.form in ("tab", "blade") and hardware.fits in tab_series():
        width = tab_width_mm(hardware.fits)
        said.append(f"blade {plain_number(width.value)} mm wide" if width else f"{hardware.fits} mm series")
    if hardware.barrel:
        fit = barrel_takes(hardware.barrel, size) if size else None
        ranges = fit.wanted if fit else " or ".join(str(one) for one in barrel(hardware.barrel))
        said.append(f"barrel for {ranges}")
    elif size is not None and hardware.form not in ("solder", "bare", "cap"):
        said.append(f"for {size.written}")
    return "; ".join(said)


def _barrel_colour(hardware: Hardware, size: Size | None) -> str | None:
    if hardware.barrel:
        return hardware.barrel
    if hardware.form not in INSULATED or (size is not None and size.area_mm2 >= LUG_MM2):
        return ""
    right = barrel_for(size) if size else None
    return f"{right}, if it is insulated" if right else ""


_FERRULE_TOOL: Final = "crimp tool for ferrules"
_TOOLS: Final = {
    "pin": "crimp tool for the plug's contacts",
    "socket": "crimp tool for the plug's contacts",
    "solder": "soldering iron",
    "bare": "screwdriver for the clamp",
    "cap": "none",
}


def _tool(hardware: Hardware, size: Size | None) -> str:
    """Which tool makes the end. Common practice, no source."""
    if hardware.form in _TOOLS:
        return _TOOLS[hardware.form]
    if hardware.barrel:
        return f"crimp tool for insulated barrels, {hardware.barrel} die"
    if size is not None and size.area_mm2 >= LUG_MM2 and hardware.form in ("ring", "fork"):
        return f"lug press, {size.written} die"
    return "crimp tool for open barrels"


def thicknesses(series: str) -> str:
    """The thicknesses a series of tabs is made in, which nobody has seen in print: to be measured, not relied on."""
    return " or ".join(f"{plain_number(one.value)} mm" for one in tab_thickness_mm(series))
