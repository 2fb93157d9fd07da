"""Bundle diameters against exact circle packing and the handbook's worked example. Figures typed, not read."""

import pytest

from harnessdoc.routing import Bundle, bundle_diameter_mm


def test_few_wires_are_packed_exactly() -> None:
    """1: d. 2: 2 d. 3 equal: d (1 + 2 / sqrt 3) = 2.1547 d (cableizer.com; a stranding list prints 2.155)."""
    assert bundle_diameter_mm([]) == 0.0
    assert bundle_diameter_mm([3.0]) == 3.0
    assert bundle_diameter_mm([3.0, 2.1]) == pytest.approx(5.1)
    assert bundle_diameter_mm([1.0, 1.0, 1.0]) == pytest.approx(2.1547, abs=1e-4)


def test_a_thin_third_wire_hides_in_the_gap() -> None:
    """Two of 3 mm leave a gap for one of 2 mm: curvatures 2/3 + 2/3 - 1/3 = 1 per mm, radius 1 mm."""
    assert bundle_diameter_mm([3.0, 2.0, 3.0]) == pytest.approx(6.0)
    assert bundle_diameter_mm([3.0, 3.0, 1.0]) == 6.0
    assert bundle_diameter_mm([3.0, 3.0, 2.1]) > 6.0


def test_three_unequal_wires() -> None:
    """Diameters 2, 2, 4/3 mm: curvatures 1, 1, 1.5; outer 2 sqrt(1 + 1.5 + 1.5) - 3.5 = 0.5, so 4 mm across."""
    assert bundle_diameter_mm([2.0, 4 / 3, 2.0]) == pytest.approx(4.0)


def test_nine_mixed_wires_as_the_handbook_works_them() -> None:
    """IS-Rayfast catalogue issue 9 (2017), appendix: 3 x 1.19, 5 x 1.40, 1 x 1.65 mm; prints 4.92, exact 4.914."""
    wires = 3 * [1.19] + 5 * [1.40] + [1.65]
    assert bundle_diameter_mm(wires) == pytest.approx(4.914, abs=0.001)
    assert bundle_diameter_mm(wires) == pytest.approx(4.92, abs=0.01)


@pytest.mark.parametrize(
    ("count", "diameter_mm"),
    [
        (4, 2.41),  # factor 2.41 above the rule's 2.4
        (5, 2.70),  # factor 2.7 above 2.683
        (7, 3.175),  # rule, above the exact 3
        (8, 3.6),
        (9, 4.0),
        (19, 5.231),
        (61, 9.372),
    ],
)
def test_equal_wires_take_the_larger_of_rule_and_printed_factor(count: int, diameter_mm: float) -> None:
    """Factors of IS-Rayfast (appendix on bundle size), rule 1.2 sqrt(n); wires of 1 mm."""
    assert bundle_diameter_mm(count * [1.0]) == pytest.approx(diameter_mm, abs=0.001)


def test_one_thick_wire_among_thin_ones() -> None:
    """10, 1, 1, 1 mm: 1.2 sqrt(103) = 12.179 mm; never under the two thickest, 20 + 2 where the rule says less."""
    assert bundle_diameter_mm([10.0, 1.0, 1.0, 1.0]) == pytest.approx(12.179, abs=0.001)
    assert bundle_diameter_mm([10.0, 10.0, 0.1, 0.1]) == 20.0


def test_a_bundle_with_an_unknown_member_is_not_verified() -> None:
    assert Bundle(("W1",), 3.0).verified
    assert not Bundle(("W1", "W2"), 3.0, ("W2",)).verified
