"""What fits round a wire, each figure worked by hand beside it, and refusals in words."""

from __future__ import annotations

import pytest

from harnessdoc.labels.fit import Fit, SymbolSize, fit, largest_symbol_mm
from harnessdoc.labels.material import SleeveSize, Stock
from harnessdoc.labels.stock import read_stock

SHEET = Stock("sheet", columns=1, rows=1, width_mm=38.1, height_mm=21.2, margin_mm=0.85)
WAISTED = Stock("waisted", shapes=("flag",), width_mm=66, height_mm=20, margin_mm=1, waist_mm=16, neck_mm=8)
CLEAR = Stock("clear", shapes=("self-laminating",), width_mm=25.4, height_mm=19, margin_mm=0.5, zone_mm=6.4)
TAG = Stock("tag", shapes=("tag",), width_mm=85, height_mm=25, margin_mm=1.5, slot_mm=(3, 2.5, 6))
TAPE = Stock("tape", form="tape", shapes=("flag", "plate", "wrap"), tape_mm=12, printable_mm=9, face_mm=25,
             longest_mm=120, margin_mm=1)  # fmt: skip
SIZES = (SleeveSize(1.6, 0.8), SleeveSize(2.4, 1.2), SleeveSize(3.2, 1.6), SleeveSize(12.7, 6.4))
SLEEVES = Stock("sleeves", form="sleeve", shapes=("sleeve",), face_mm=30, margin_mm=0.5, sizes=SIZES)
V2 = SymbolSize(25 * 4 * 25.4 / 300, 33 * 4 * 25.4 / 300)  # version 2 at 4 dots of 300 dpi: 8.47 mm, 11.18 with quiet


def test_a_flag_gives_its_middle_to_the_wire() -> None:
    """2.4 mm (1.5 mm² thin wall): pi * 2.4 = 7.54 round; leaves (38.1 - 7.54) / 2 = 15.28; less 2 * 0.85 = 13.58."""
    found = fit(2.4, SHEET, "flag")
    assert found.area_mm == pytest.approx((13.58, 19.5), abs=0.01)
    assert found.copies == 2
    left, right = found.faces
    assert left.x == pytest.approx(0.85)
    assert right.right == pytest.approx(38.1 - 0.85)
    assert right.x - left.right == pytest.approx(7.54 + 2 * 0.85, abs=0.01)
    assert found.fold_mm == pytest.approx(19.05)
    assert found.along_mm == 21.2
    assert found.symbol_mm is None
    assert found.no_symbol(V2) == ""


def test_a_flag_too_narrow_for_its_wire_is_refused() -> None:
    """7.2 mm: 22.62 round leave (38.1 - 22.62) / 2 - 1.7 = 6.04 mm, under 8."""
    assert "6.0 x 19.5 mm are left" in fit(7.2, SHEET, "flag").refusal


def test_a_flag_with_a_waist_goes_round_what_the_waist_holds() -> None:
    """A waist of 16 mm holds 16 / pi = 5.09 mm. Leaves (66 - 16) / 2 = 25, less 2 mm of margins."""
    found = fit(5.0, WAISTED, "flag")
    assert found.area_mm == (23, 18)
    assert found.along_mm == 8
    assert "waist of 16 mm does not go round 16.3 mm" in fit(5.2, WAISTED, "flag").refusal


def test_a_flag_of_tape_is_cut_to_its_wire() -> None:
    """2.1 mm: two leaves of 25 + 2 and pi * 2.1 = 6.60 between: 60.60 mm; 9 of the 12 mm are printed on."""
    found = fit(2.1, TAPE, "flag")
    assert found.cut_mm == pytest.approx(60.60, abs=0.01)
    assert found.area_mm == (25, 9)
    assert found.faces[0].y == 1.5
    assert found.faces[1].right == pytest.approx(59.60, abs=0.01)
    assert "69 mm long" not in fit(2.1, TAPE, "flag", face_mm=29).refusal
    assert fit(2.1, TAPE, "flag", face_mm=60).refusal == "it would be 131 mm long, the longest is 120"


def test_a_wrap_shows_its_last_turn() -> None:
    """4.3 mm (6 mm² thin wall): 13.51 round. A label 21.2 high goes 1.57 times round; what shows is its last 13.51,
    less the edge of 0.85: 12.66, two copies of 6.33."""
    found = fit(4.3, SHEET, "wrap")
    assert found.turns == pytest.approx(1.57, abs=0.01)
    assert found.copies == 2
    assert found.area_mm == pytest.approx((36.4, 6.33), abs=0.01)
    assert found.faces[0].y == pytest.approx(21.2 - 13.51, abs=0.01)
    assert found.faces[-1].bottom == pytest.approx(21.2 - 0.85)


def test_a_wrap_must_meet_and_not_be_a_roll() -> None:
    """7.2 mm: 22.62 + 2 to stick, of 21.2. 1.3 mm: 21.2 / 4.08 = 5.19 turns."""
    assert "it takes 24.6 mm with 2 mm to stick to itself" in fit(7.2, SHEET, "wrap").refusal
    assert "5.2 times round" in fit(1.3, SHEET, "wrap").refusal


def test_a_tape_laid_along_the_wire_wraps_it() -> None:
    """2.1 mm: 12 / 6.597 = 1.82 turns; of the last 6.60 mm the edge of 1.5 is not printed: 5.10."""
    found = fit(2.1, TAPE, "wrap")
    assert found.turns == pytest.approx(1.82, abs=0.01)
    assert found.area_mm == pytest.approx((25, 5.10), abs=0.01)
    assert found.cut_mm == 27
    assert found.along_mm == 27


def test_a_clear_tail_covers_the_print_zone() -> None:
    """Reference: print zone at most pi * D; total at least zone + pi * D. 2.1 mm is 6.60 round (published circumference
    rows: 2.1 to 6.60, 2.4 to 7.54, 3.0 to 9.42, 4.3 to 13.51); 6.4 + 6.60 = 13.0 of 19; the tail of 12.6 goes round
    1.91 times. 2.0 mm is 6.28 round, less than 6.4. 4.3 mm asks for 19.9."""
    found = fit(2.1, CLEAR, "self-laminating")
    assert found.area_mm == pytest.approx((24.4, 5.4))
    assert "1.9 times, without a spare turn" in found.why
    assert fit(2.0, CLEAR, "self-laminating").refusal == "its print zone of 6.4 mm is more than once round (6.3 mm)"
    assert "19 mm in all are less than 6.4 + 13.5 mm" in fit(4.3, CLEAR, "self-laminating").refusal
    assert not fit(4.0, CLEAR, "self-laminating").refusal  # 6.4 + 12.57 = 18.97


def test_a_spare_turn_is_told() -> None:
    """Zone 5, total 16, wire 1.6 mm: 5.03 round; the tail of 11 goes round 2.19 times."""
    small = read_stock("a4-135-self-laminating-xs")
    assert "2.2 times, with a spare turn" in fit(1.6, small, "self-laminating").why


def test_a_sleeve_is_the_smallest_that_slides_over_and_grips() -> None:
    """2.1 mm: 2.4/1.2 (2.4 >= 1.1 * 2.1 = 2.31; 1.2 < 2.1). It lies pi * 2.4 / 2 = 3.77 flat, less 1 mm: 2.77.
    Letters are squeezed to 2.1 / 2.4 = 0.875."""
    found = fit(2.1, SLEEVES, "sleeve")
    assert found.sleeve == SleeveSize(2.4, 1.2)
    assert found.sleeve.flat_mm == pytest.approx(3.770, abs=0.001)
    assert found.area_mm == pytest.approx((29, 2.77), abs=0.01)
    assert found.shrinks_to == pytest.approx(0.875)
    assert found.cut_mm == 30
    assert fit(2.2, SLEEVES, "sleeve").sleeve == SleeveSize(3.2, 1.6)  # 1.1 * 2.2 = 2.42


def test_a_sleeve_over_a_terminal_no_longer_grips_a_thin_wire() -> None:
    """Over a blade's receptacle of 8.3 mm it takes 12.7/6.4, which a wire of 2.1 mm does not fill."""
    assert fit(2.1, SLEEVES, "sleeve", passes_mm=8.3).refusal == (
        "12.7/6.4 mm, the smallest that slides over 8.3 mm of terminal, would not grip a wire of 2.1 mm"
    )
    assert fit(7.2, SLEEVES, "sleeve", passes_mm=8.3).sleeve == SleeveSize(12.7, 6.4)
    assert fit(12, SLEEVES, "sleeve").refusal == "its widest, 12.7/6.4 mm, does not slide over 12.0 mm"


def test_a_symbol_is_hardly_bent() -> None:
    """0.03 * pi * D: 0.226 mm at 2.4 mm, 0.679 at 7.2, so version 2 (8.47 mm) goes round no wire: a flag carries it."""
    assert largest_symbol_mm(2.4) == pytest.approx(0.2262, abs=0.0001)
    assert largest_symbol_mm(7.2) == pytest.approx(0.6786, abs=0.0001)
    high = Stock("high", width_mm=38, height_mm=40, margin_mm=1)
    assert "more than 0.03 of the way round (0.8 mm)" in fit(8.9, high, "wrap", symbol=V2).no_symbol(V2)
    assert "squeezed" in fit(7.2, SLEEVES, "sleeve").no_symbol(V2)


def test_a_symbol_larger_than_a_leaf_is_told() -> None:
    """4.3 mm leaves (38.1 - 13.51) / 2 - 1.7 = 10.6 mm, version 2 takes 11.18."""
    assert "11.2 mm with its quiet zone is larger than 10.6 x 19.5 mm" in fit(4.3, SHEET, "flag").no_symbol(V2)


def test_a_tag_and_a_plate_need_no_diameter() -> None:
    """Tag: slot from 3 to 5.5, then 1.5 clear: 85 - 7 - 1.5 = 76.5 wide. Plate: 38.1 - 1.7, 21.2 - 1.7."""
    assert fit(None, TAG, "tag").area_mm == (76.5, 22)
    assert fit(None, SHEET, "plate").area_mm == pytest.approx((36.4, 19.5))
    assert fit(None, SHEET, "flag").refusal == "the outside diameter is not known"
    assert fit(None, TAPE, "plate").cut_mm == 27


def test_what_does_not_go_on_a_short_piece_is_refused() -> None:
    assert fit(2.1, SHEET, "flag", free_mm=20).refusal == "it takes 21 mm along a piece of 20 mm"
    assert not fit(2.1, SHEET, "flag", free_mm=21.2).refusal


def test_what_the_stock_does_not_make_is_refused() -> None:
    assert fit(2.1, TAG, "flag") == Fit("flag", refusal="it makes no flag")
    with pytest.raises(ValueError, match="no label has the shape 'bow'"):
        fit(2.1, TAG, "bow")
    with pytest.raises(ValueError, match="above 0 mm"):
        fit(0, TAG, "tag")
