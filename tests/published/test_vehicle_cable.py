"""Copper and diameter of cable sold by a plain "mm", typed from the lists that print them."""

import pytest

from harnessdoc.model.quantities import parse_size
from harnessdoc.tables.auto_cable import auto_mm2
from harnessdoc.tables.outside_diameters import outside_diameter_mm


@pytest.mark.parametrize(
    ("sold_as", "area_mm2"), [("4", 1.84), ("5", 2.9), ("6", 4.59), ("3", 0.85), ("2.5", 0.64), ("2", 0.56)]
)
def test_copper_of_cable_sold_by_mm(sold_as: str, area_mm2: float) -> None:
    """4, 5 and 6: Australasian auto, marine and battery cable catalogue sheet; 3, 2.5 and 2: TAGoverland table.

    The catalogue prints 1.13 mm² for 3, TAGoverland 0.85: the smaller is the safe one.
    """
    assert parse_size(f"{sold_as} mm auto", auto_mm2()).area_mm2 == area_mm2


@pytest.mark.parametrize(
    ("text", "outside_mm"),
    [
        ("0.5 mm2", 1.6),
        ("0.75 mm2", 1.9),
        ("1 mm2", 2.1),
        ("1.5 mm2", 2.4),
        ("2.5 mm2", 3.0),
        ("4 mm2", 3.7),
        ("6 mm2", 4.3),
        ("16 mm2", 7.2),
    ],
)
def test_thin_wall_diameters(text: str, outside_mm: float) -> None:
    """Largest outside diameter in a cable maker's table of thin-wall type B wire, stated to meet ISO 6722."""
    found = outside_diameter_mm(parse_size(text, {}))
    assert found is not None
    assert (found.value, found.decides) == (outside_mm, True)


@pytest.mark.parametrize(
    ("text", "outside_mm"),
    [
        ("20 AWG", 2.4),
        ("18 AWG", 2.6),
        ("16 AWG", 3.0),
        ("14 AWG", 3.5),
        ("12 AWG", 4.1),
        ("10 AWG", 4.8),
        ("8 AWG", 5.9),
    ],
)
def test_gxl_diameters(text: str, outside_mm: float) -> None:
    """Nominal outside diameter in a wire maker's GXL sheet (SAE J1128)."""
    found = outside_diameter_mm(parse_size(text, {}))
    assert found is not None
    assert found.value == outside_mm


@pytest.mark.parametrize(("sold_as", "outside_mm"), [("3", 2.2), ("4", 2.6), ("5", 3.0), ("6", 4.0)])
def test_auto_cable_diameters(sold_as: str, outside_mm: float) -> None:
    """Single-core diameters in the Australasian cable catalogue sheet: "6 mm" is neither mm² nor mm across."""
    found = outside_diameter_mm(parse_size(f"{sold_as} mm auto", auto_mm2()))
    assert found is not None
    assert found.value == outside_mm
