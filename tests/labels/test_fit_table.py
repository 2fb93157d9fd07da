"""The fit table, with rows worked by hand."""

from __future__ import annotations

import pytest

from harnessdoc.labels.fit_table import NOT_PRINTED, SIZES, fit_table
from harnessdoc.labels.stock import names, read_stock

STOCKS = [read_stock(name) for name in names()]


def test_it_goes_from_0_35_to_50_mm2() -> None:
    rows = fit_table(STOCKS)
    assert len(rows) == len(SIZES)
    assert (rows[0].size, rows[-1].size) == ("0.35 mm²", "50 mm²")


def test_a_thin_wire() -> None:
    """0.35 mm², 1.4 mm: 4.40 round, a bent symbol 0.132. No clear-tail label (the least print zone is 5), no sleeve
    (1.6/0.8 lies 2.51 flat: 1.51 less margins, of which 1.4/1.6 are left)."""
    (row,) = fit_table(STOCKS, ["0.35 mm2"])
    assert row.outside_mm == 1.4
    assert row.circumference_mm == pytest.approx(4.398, abs=0.001)
    assert row.symbol_mm == pytest.approx(0.1319, abs=0.0001)
    assert set(row.fits) == {"flag", "wrap", "tag"}
    assert "a4-24-63x34" not in row.fits["wrap"]  # 33.9 / 4.40 = 7.7 turns


def test_a_middling_wire() -> None:
    """2.5 mm², 3.0 mm: 9.42 round. Zones of 5 (16 in all >= 14.42) and 6.4 (19 >= 15.82) go, 12.5 does not. Sleeves:
    1.1 * 3 = 3.3, so 4.8/2.4 and 6/2."""
    (row,) = fit_table(STOCKS, ["2.5 mm2"])
    assert row.circumference_mm == pytest.approx(9.425, abs=0.001)
    assert row.symbol_mm == pytest.approx(0.2827, abs=0.0001)
    assert row.fits["self-laminating"] == (
        "a4-135-self-laminating-xs", "a4-91-self-laminating-s",
        "letter-126-self-laminating-xs", "letter-84-self-laminating-s",
    )  # fmt: skip
    assert row.fits["sleeve"] == ("sleeve-2to1 4.8/2.4 mm", "sleeve-3to1 6/2 mm")
    assert "a4-65-38x21" in row.fits["flag"]


def test_a_thick_wire() -> None:
    """16 mm², 7.2 mm: 22.62 round. The small sheet's leaves keep 6.0 mm and are refused; the waist of 16 mm too."""
    (row,) = fit_table(STOCKS, ["16 mm2"])
    assert row.circumference_mm == pytest.approx(22.62, abs=0.01)
    assert "a4-24-63x34" in row.fits["flag"]
    assert "a4-65-38x21" not in row.fits["flag"]
    assert "a4-39-flag-25x20" not in row.fits["flag"]
    assert row.fits["sleeve"] == ("sleeve-2to1 9.5/4.8 mm", "sleeve-3to1 9/3 mm")  # 1.1 * 7.2 = 7.92


@pytest.mark.parametrize("size", ["10 mm2", "25 mm2", "35 mm2", "50 mm2", "6 AWG"])
def test_what_no_page_prints_has_no_figures(size: str) -> None:
    (row,) = fit_table(STOCKS, [size])
    assert (row.outside_mm, row.circumference_mm, row.symbol_mm) == (None, None, None)
    assert row.source == NOT_PRINTED
    assert set(row.fits) == {"tag"}


def test_every_figure_names_its_source() -> None:
    assert all(row.source for row in fit_table(STOCKS))
