"""Circumference of published diameters: what a print zone may be at most."""

import pytest

from harnessdoc.labels.fit_table import fit_table


@pytest.mark.parametrize(
    ("size", "outside_mm", "circumference_mm"),
    [
        ("0.5 mm2", 1.6, 5.03),
        ("1 mm2", 2.1, 6.60),
        ("1.5 mm2", 2.4, 7.54),
        ("2.5 mm2", 3.0, 9.42),
        ("6 mm2", 4.3, 13.51),
        ("16 mm2", 7.2, 22.62),
    ],
)
def test_round_thin_wall_wire(size: str, outside_mm: float, circumference_mm: float) -> None:
    """Largest outside diameter in a cable maker's table of thin-wall type B wire (ISO 6722); pi * D by geometry."""
    (row,) = fit_table((), (size,))
    assert row.outside_mm == outside_mm
    assert row.circumference_mm == pytest.approx(circumference_mm, abs=0.005)


@pytest.mark.parametrize(("size", "outside_mm"), [("18 AWG", 2.6), ("16 AWG", 3.0), ("8 AWG", 5.9)])
def test_cross_linked_wire(size: str, outside_mm: float) -> None:
    """Nominal outside diameter in a wire maker's GXL sheet (SAE J1128)."""
    (row,) = fit_table((), (size,))
    assert row.outside_mm == outside_mm
