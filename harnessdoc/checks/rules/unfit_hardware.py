"""The hardware on a wire's end does not take the wire.

Why: strands are cut off to fit, or the barrel stays loose; the end heats or pulls off.

Trips:
    items: {S1: {is: switch, contacts: {1-2: on}}, M1: {is: load}}
    wires: {W1: {from: S1:2, to: M1:1, size: 6 mm2, ends: [ring M6 blue, tab 6.3]}}

Passes:
    items: {S1: {is: switch, contacts: {1-2: on}}, M1: {is: load}}
    wires: {W1: {from: S1:2, to: M1:1, size: 2.5 mm2, ends: [ring M6 blue, ferrule 2.5]}}
"""

from __future__ import annotations

from collections.abc import Iterator

from harnessdoc.checks.rule import Case, Rule
from harnessdoc.model.finding import Finding, Severity
from harnessdoc.model.hardware import Hardware
from harnessdoc.model.quantities import Size
from harnessdoc.tables.barrels import barrel_for, barrel_takes
from harnessdoc.tables.ferrules import ferrule, ferrule_for

RULE = Rule(
    "unfit-hardware",
    Severity.FAULT,
    "strands cut off to fit, or a barrel that stays loose, heat or pull off",
    "DIN 46228-4 and the makers' barrel tables",
)


def check(case: Case) -> Iterator[Finding]:
    """Compare each end's ferrule or barrel with its wire's size."""
    for wire in case.harness.wires.values():
        if wire.size is None or wire.existing:
            continue
        for end in wire.ends:
            if end.hardware is not None:
                fault = _fault(end.hardware, wire.size)
                if fault:
                    text, mend, source = fault
                    yield RULE.on_wire(wire, f"has {end.hardware.text} at {end.text}; {text}", mend, source=source)


def _fault(hardware: Hardware, size: Size) -> tuple[str, str, str] | None:
    """What is wrong, what to do, and the source of the limit; None where it fits or no table tells."""
    if hardware.form == "ferrule":
        return _ferrule_fault(hardware, size)
    if not hardware.barrel:
        return None
    fit = barrel_takes(hardware.barrel, size)
    if fit is None or fit.takes:
        return None
    right = barrel_for(size)
    mend = f"take a {right} barrel" if right else "take a terminal made for this size"
    return f"a {hardware.barrel} barrel takes {fit.wanted}, the wire is {size.written}", mend, fit.source


def _ferrule_fault(hardware: Hardware, size: Size) -> tuple[str, str, str] | None:
    right = ferrule_for(size.area_mm2)
    made_for = float(hardware.fits) if hardware.fits and not hardware.fits.startswith("M") else None
    if right is None:
        return (
            f"DIN 46228-4 has no ferrule for {size.written}",
            "take a terminal made for this size",
            "DIN 46228-4",
        )
    if made_for is None or made_for == right.area_mm2:
        return None
    known = ferrule(made_for)
    what = f"a {made_for:g} mm² ferrule" if known else f"DIN 46228-4 has no {made_for:g} mm² ferrule;"
    text = f"{what} is not the one for {size.written}" if known else f"{what} {size.written} wants {right.area_mm2:g}"
    return text, f"take the {right.collar} ferrule of {right.area_mm2:g} mm²", right.source
